"""The guided pour in a browser against a real server: taps, answers, silence, alarms, memory.

    python3 run.py speed bench

The laptop's clock is set ahead where a pour would take minutes; everything else is as it is used.
"""
