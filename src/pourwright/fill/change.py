"""What a maker could do otherwise: the same push with one thing changed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.units import in_both
from pourwright.fill.air_way import AirWay
from pourwright.fill.push import ONE_HAND_N, TWO_HANDS_N, Push
from pourwright.fill.setup import Setup
from pourwright.fill.slice import Part
from pourwright.fill.vent import WIDTH_MM, depth_words
from pourwright.matter.scorch import warmest_c

HOTTER_K, WARMER_MOLD_K, WARMEST_MOLD_C = 10.0, 20.0, 70.0
GATE_MM, BORE_SHARE, HEAD_TIMES = 1.0, 0.85, 2.0
MORE_PRESSURE = (
    "It raises the pressure: clamp harder, keep face and hands out of the line of the parting "
    "line and of the nozzle, wear a face shield, heat gloves and sleeves. Stop when it stops; "
    "never jerk or lean on a stuck plunger."
)


class Doing(StrEnum):
    """What can be changed."""

    HOTTER = "hotter plastic"
    WARM_MOLD = "warmer mold"
    FEWER_CAVITIES = "one cavity fewer"
    GATE = "bigger gate"
    BORE = "smaller bore"
    TWO_HANDS = "two hands on the plunger"
    VENTS = "vents"
    HEAD = "taller head"
    INJECT = "injector instead of pouring"


@dataclass(frozen=True, slots=True, eq=False)
class Change:
    """One thing done otherwise."""

    doing: Doing
    how: str
    setup: Setup


def changes(setup: Setup, hot_limit_c: float) -> Iterable[Change]:
    """Every change that makes sense for this push."""
    yield from _hotter(setup, hot_limit_c)
    yield from _warm_mold(setup)
    yield from _mold_work(setup)
    yield from _by_hand(setup) if setup.push is Push.POUR else _by_plunger(setup)


def _hotter(setup: Setup, hot_limit_c: float) -> Iterable[Change]:
    now = float(setup.melt_c[0])
    more = min(HOTTER_K, warmest_c(hot_limit_c) - now)
    if more < 1:
        return
    how = (
        f"{in_both(now + more)} at the push. The limit of {in_both(hot_limit_c)} holds for the "
        "hottest place in the cup, and every minute up there uses heat budget."
    )
    yield Change(Doing.HOTTER, how, replace(setup, melt_c=setup.melt_c + more))


def _warm_mold(setup: Setup) -> Iterable[Change]:
    now = float(setup.mold_c[0])
    warm = min(now + WARMER_MOLD_K, WARMEST_MOLD_C)
    if warm - now < 1:
        return
    how = f"Mold at {in_both(warm)}, warmed dry, heat gloves on; baits then stay in it longer."
    warmer: Array = np.asarray(setup.mold_c + warm - now)
    yield Change(Doing.WARM_MOLD, how, replace(setup, mold_c=warmer))


def _mold_work(setup: Setup) -> Iterable[Change]:
    if setup.cavities > 1:
        left = setup.cavities - 1
        fewer = setup.chain.with_cavities(setup.cavities, left)
        how = f"Plug one, fill {left} with a push."
        yield Change(Doing.FEWER_CAVITIES, how, replace(setup, chain=fewer, cavities=left))
    if Part.GATE in setup.chain.part:
        how = f"Open every gate by {GATE_MM:g} mm both ways; the scar grows with it."
        yield Change(Doing.GATE, how, replace(setup, chain=setup.chain.with_gate(GATE_MM)))


def _by_hand(setup: Setup) -> Iterable[Change]:
    taller = setup.head_m * HEAD_TIMES
    how = f"Pour through a funnel {1000 * taller[0]:.0f} mm high instead of {500 * taller[0]:.0f}."
    yield Change(Doing.HEAD, how, replace(setup, head_m=taller))
    force = ONE_HAND_N.drawn(setup.draws)
    how = f"One hand on a plunger of {1000 * setup.bore_m[0]:.0f} mm. {MORE_PRESSURE}"
    yield Change(Doing.INJECT, how, replace(setup, push=Push.ONE_HAND, force_n=force))


def _by_plunger(setup: Setup) -> Iterable[Change]:
    bore = setup.bore_m * BORE_SHARE
    how = f"A bore of {1000 * bore[0]:.0f} mm at the same push. {MORE_PRESSURE}"
    yield Change(Doing.BORE, how, replace(setup, bore_m=bore))
    if setup.push is Push.ONE_HAND:
        both = setup.force_n * (TWO_HANDS_N.typical / ONE_HAND_N.typical)
        yield Change(Doing.TWO_HANDS, MORE_PRESSURE, replace(setup, force_n=both))
    if setup.air is not AirWay.VENTED:
        size = f"{depth_words()} deep, {WIDTH_MM:g} mm wide"
        how = f"{size}, at the end of every cavity and dead end."
        yield Change(Doing.VENTS, how, replace(setup, air=AirWay.VENTED))
