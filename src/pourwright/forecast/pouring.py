"""How the first cup of a batch is poured, and a later one into molds that are warm by then."""

from __future__ import annotations

import functools
from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.assume import drawn
from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.forecast.busy_molds import by_molds
from pourwright.forecast.heat import ROOM_C, Cook, Kitchen, cook
from pourwright.forecast.hot_cup import HotCup, time_constant_s
from pourwright.forecast.request import BaitPart, HandPart, InjectorPart, MoldPart
from pourwright.forecast.rotation import Hands, Pour, Rotation
from pourwright.forecast.turns import in_a_row, rotated
from pourwright.heat.bait_in_mold import BaitInMold, bait_in_mold
from pourwright.heat.barrel import filled
from pourwright.heat.drawn_bait import drawn_mold, drawn_shot, refuse_warm
from pourwright.heat.pourable import LEAST_POUR_C
from pourwright.heat.primed_barrel import drawn_barrel
from pourwright.matter import plastisol

HANDLING_S = Doubt(
    "carrying the cup to the oven, back, and stirring", Band(10, 20, 40),
    "time one rewarm without its seconds on",
)  # fmt: skip
BARREL_WALL_M = Doubt(
    "wall of the barrel", Band(0.0015, 0.0025, 0.0035), "measure the wall of the barrel"
)
BARREL_C = Doubt(
    "barrel when drawn full", Band(20, 40, 90),
    "read the barrel after drawing and returning hot plastic once",
)  # fmt: skip
# Of drawing and shooting one mold, the part that is drawing: estimate.
DRAW_SHARE = 1 / 3
# The melt once it lies in the mold: ten kelvin go to barrel and gate, estimate.
MELT_IN_MOLD_C = 165.0
# A cup poured no hotter than the usual limit falls by this between warmings, and cools as usual.
LEAST_FALL_K = 10.0
SLOW_S = 1750.0
# More shots of one cup than this go on at the same pace.
FOLLOWED_SHOTS = 40


@dataclass(frozen=True, slots=True)
class PourQuestion:
    """A cup and what it is poured into, in plain values, so that an answer can be kept.

    A shot takes `shot_g` out of this cup and brings `mold_shot_g`, other layers included, into the
    mold; `later` asks for a cup that follows the first.
    """

    kitchen: Kitchen
    bait: BaitPart
    mold: MoldPart
    injector: InjectorPart | None
    hands: HandPart
    cup_g: float
    shots: int
    shot_g: float
    mold_shot_g: float
    shots_a_load: int
    later: bool


@dataclass(frozen=True, slots=True, eq=False)
class Pouring:
    """The first cup, and one that follows it; `others` are typical, from one mold on."""

    first: Rotation
    later: Rotation
    in_a_row: int
    others: tuple[Rotation, ...]
    injector_window_s: Array | None
    draws: Draws


@functools.lru_cache(maxsize=128)
def pouring(asked: PourQuestion) -> Pouring:
    """Kept, since a changed count leaves most cups as they were.

    Raises: NoAnswer where mold or room are as warm as the firm temperature.
    """
    bench = mold_bench(asked.kitchen, asked.bait, asked.mold, asked.injector, asked.mold_shot_g)
    draws, bait, window = bench.draws, bench.bait, bench.injector_window_s
    cup, hands = _cup(asked, bait.mold.ambient_c), _hands(draws, asked)
    row = 1
    if window is not None:
        row = in_a_row(asked.shots_a_load, window_s=window, shoot_s=hands.shoot_s)
    pour = Pour(asked.shots, draws.known(asked.shot_g), asked.mold.owned, row, bench.mold_c)
    first = later = rotated(pour, hands, cup, bait)
    if asked.later:
        away = drawn(draws, asked.hands, "hands ")["weigh_s"] + _cooked(asked).seconds
        warm = bait.mold.rested_c(first.acts[-1].mold_c, hands.open_s + away)
        later = rotated(replace(pour, mold_c=warm), hands, cup, bait)
    return Pouring(first, later, row, by_molds(pour, hands, cup, bait), window, draws)


@dataclass(frozen=True, slots=True, eq=False)
class MoldBench:
    """Bait and mold, and what does not change with the cup: what takes longest to reckon.

    `mold_c` is the mold before its first shot.
    """

    bait: BaitInMold
    mold_c: Array
    injector_window_s: Array | None
    draws: Draws


@functools.lru_cache(maxsize=32)
def mold_bench(
    kitchen: Kitchen,
    bait: BaitPart,
    mold: MoldPart,
    injector: InjectorPart | None,
    mold_shot_g: float,
) -> MoldBench:
    """The bench for shots of `mold_shot_g`, feed and all layers included.

    Raises: NoAnswer where mold or room are as warm as the firm temperature.
    """
    draws = Draws(seed=kitchen.seed, count=kitchen.count)
    known = kitchen.ambient_c
    room = draws.of("room", ROOM_C) if known is None else draws.known(known)
    made, start = _bait(draws, bait, mold, mold_shot_g, room)
    window = None
    if injector is not None:
        window = _window(draws, injector, kitchen.target_c, room)
    return MoldBench(made, start, window, draws)


def _cooked(asked: PourQuestion) -> Cook:
    return cook(asked.kitchen, asked.cup_g)


def _cup(asked: PourQuestion, room: Array) -> HotCup:
    done, target = _cooked(asked), asked.kitchen.target_c
    slow = np.full_like(room, SLOW_S)
    if target >= LEAST_POUR_C + LEAST_FALL_K:
        slow = time_constant_s(done.cup_window_s, from_c=target, to_c=LEAST_POUR_C, ambient_c=room)
    return HotCup(
        full_g=np.full_like(room, asked.cup_g),
        target_c=target,
        least_c=min(LEAST_POUR_C, target - LEAST_FALL_K),
        ambient_c=room,
        slow_s=slow,
        power_w=done.power_w,
    )


def _hands(draws: Draws, asked: PourQuestion) -> Hands:
    v = drawn(draws, asked.hands, "hands ")
    draw = v["shoot_s"] * (DRAW_SHARE if asked.injector else 0.0)
    handling, none = draws.of("handling", HANDLING_S), draws.known(0.0)
    return Hands(draw, v["shoot_s"] - draw, v["unload_s"], handling, none)


def _bait(
    draws: Draws, bait: BaitPart, mold: MoldPart, mold_shot_g: float, room: Array
) -> tuple[BaitInMold, Array]:
    firm = plastisol.SETS_FIRM_C.drawn(draws)
    v = drawn(draws, mold, "mold ")
    refuse_warm(mold_c=v["start_c"], ambient_c=room, firm_c=firm)
    shot = drawn_shot(
        draws,
        thickest_m=drawn(draws, bait, "bait ")["thickest_mm"] / 1000,
        flat=bait.flat,
        shot_kg=draws.known(mold_shot_g / 1000),
        melt_c=draws.known(MELT_IN_MOLD_C),
        firm_c=firm,
    )
    lump = drawn_mold(
        draws,
        mold_kg=v["mass_g"] / 1000,
        material=mold.material,
        ambient_c=room,
        open_face=mold.open_face,
    )
    return bait_in_mold(shot, lump), v["start_c"]


def _window(draws: Draws, injector: InjectorPart, target_c: float, room: Array) -> Array:
    barrel = drawn_barrel(
        draws,
        bore_m=drawn(draws, injector, "injector ")["bore_mm"] / 1000,
        wall_m=draws.of("barrel wall", BARREL_WALL_M),
        ambient_c=room,
    )
    full = filled(barrel, melt_c=target_c, barrel_c=draws.of("barrel", BARREL_C))
    return full.window_s(LEAST_POUR_C)
