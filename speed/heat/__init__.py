"""The closed loop of heating: the product against an independent kitchen, and its peers.

    python3 run.py speed heat

Ovens, plastics, cups and thermometers are drawn at random by `speed.kitchen`, which shares no line
and no number with the product. Four cups are cooked in every oven, one after another.
"""
