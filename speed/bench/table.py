"""Print the figures of the guided pour."""

from __future__ import annotations

import statistics

from speed.bench.alarm import rings, silences
from speed.bench.answer import answers
from speed.bench.hour import hour
from speed.bench.tap import taps_and_forms
from speed.run import told


def main() -> None:
    """All of it, some six minutes."""
    taps, forms = taps_and_forms()
    told("press to tap kept, in the browser", taps)
    told("the form of the lot, sent and shown (peer)", forms)
    ratio = statistics.median(forms) / statistics.median(taps)
    print(f"{'ratio of medians, form to tap':44} {ratio:.1f}")
    for it in answers():
        told(f"state: {it.what}", it.seconds)
        print(f"{'':44} {it.size / 1024:.0f} KB, {it.events} events")
    quiet = silences()
    print(f"{'laptop hangs, noticed after':44} {_listed(quiet)} s, worst {max(quiet):.1f} s")
    late = [1e3 * s for s in rings()]
    print(f"{'a clock rings late by':44} {', '.join(f'{ms:.0f}' for ms in late)} ms")
    _hour()


def _hour() -> None:
    it = hour()
    first, last = it.looks
    print(f"an hour: {it.taps} taps, {it.states} states, {it.beats} beats")
    _grown("heap of the page, MB", first.heap / 2**20, last.heap / 2**20)
    _grown("nodes of the page", first.nodes, last.nodes)
    _grown("listeners of the page", first.listeners, last.listeners)
    _grown("memory of the server, MB", first.server / 2**20, last.server / 2**20)


def _grown(name: str, first: float, last: float) -> None:
    print(f"{name:44} first minute {first:.1f}, after the hour {last:.1f}: {last - first:+.1f}")


def _listed(seconds: list[float]) -> str:
    return ", ".join(f"{s:.1f}" for s in seconds)
