"""How a mold warms shot by shot, and how much longer each shot then takes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.field import out
from pourwright.base.source import PRACTICE, estimate, published
from pourwright.base.units import in_both
from pourwright.heat.bait_cooling import WARM_MOLD_C, Shape
from pourwright.heat.bait_in_mold import LONGEST_S, BaitInMold, bait_in_mold
from pourwright.heat.drawn_bait import drawn_mold, drawn_shot, refuse_warm
from pourwright.heat.mold_warming_input import MoldWarmingInput
from pourwright.matter.mold_material import conducts

_HALVINGS = 16


@dataclass(frozen=True, slots=True)
class MoldShot:
    """One shot of one mold."""

    number: int = out("Counted from 1, for one mold")
    mold_c: Band = out("Mold just before the shot")
    open_s: Band = out("Time from the shot until the thickest place is firm")


@dataclass(frozen=True, slots=True)
class MoldWarmingAnswer:
    """A row of shots into the same mold."""

    shots: tuple[MoldShot, ...] = out("Every shot of one mold")
    plateau_c: Band = out("Mold before a shot, after very many")
    plateau_s: Band = out("Time until firm by then")
    warm_from: int | None = out("First shot into a mold that is too warm; null if it never is")
    busy_first: int = out("Molds in turn that keep one pair of hands busy at the first shots")
    busy_plateau: int = out("The same once the molds are warm")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@dataclass(frozen=True, slots=True, eq=False)
class Pace:
    """What happens to a mold between two shots, drawn."""

    extra_s: float
    open_s: Array
    molds: int
    turn_s: Array
    dip_s: float
    water_c: Array
    dip_w_k: Array


@calculation(
    "cool.mold",
    purpose="how a mold warms shot by shot, and how many molds to shoot in turn",
    sources=(
        published("Incropera and DeWitt, 6th ed., sec. 5.1 and 5.10: lump and finite volumes"),
        estimate("contact 300 to 3000 W/(m²·K) in metal; the mold as one lump"),
        PRACTICE,
    ),
    example={"thickest_mm": 12, "bait_g": 12, "cavities": 2, "mold_g": 1200, "molds": 2},
)
def cool_mold(inputs: MoldWarmingInput) -> MoldWarmingAnswer:
    """Each shot warms its mold; bench, rest and dip cool it; the next shot finds it so.

    With several molds a mold rests open while the others have their turn of the hands, where
    that lasts longer than it takes to fill it again.
    Raises: NoAnswer where the mold or the room is as warm as the firm temperature.
    """
    draws = Draws(seed=inputs.seed)
    v = drawn(draws, inputs)
    bait = _bait(draws, inputs, v)
    pace = Pace(
        inputs.extra_s, v["open_s"], inputs.molds, v["turn_s"], inputs.dip_s, v["water_c"],
        v["dip_w_k"],
    )  # fmt: skip
    mold, found, cold = v["mold_c"], [], []
    for _ in range(inputs.shots):
        opened, after = next_shot(bait, pace, mold)
        found.append((mold, opened))
        cold.append(float(mold[0]))
        mold = after
    plateau = plateau_c(bait, pace)
    steady = next_shot(bait, pace, plateau)[0]
    warm = [i + 1 for i, c in enumerate(cold) if c > WARM_MOLD_C]
    last = found[-1]
    return MoldWarmingAnswer(
        shots=tuple(
            MoldShot(i + 1, draws.band(c), draws.band(s)) for i, (c, s) in enumerate(found)
        ),
        plateau_c=draws.band(plateau),
        plateau_s=draws.band(steady),
        warm_from=warm[0] if warm else None,
        busy_first=_busy(pace, found[0][1]),
        busy_plateau=_busy(pace, steady),
        notes=(
            *left_out(inputs, unused=_unused(inputs)),
            *width_notes(draws, {"open_s of the last shot": last[1], "plateau_c": plateau}),
            *_cautions(inputs, float(plateau[0]), steady),
        ),
    )


def next_shot(bait: BaitInMold, pace: Pace, mold_c: Array) -> tuple[Array, Array]:
    """Opening time of a shot, and the mold just before the next one."""
    poured = bait.poured(mold_c)
    opened = bait.open_s(poured)
    closed = opened + pace.extra_s
    empty = bait.mold_c(poured, closed)
    if pace.dip_s:
        empty = bait.mold.dipped_c(
            empty, seconds=pace.dip_s, water_c=pace.water_c, dip_w_k=pace.dip_w_k
        )
    rest = np.maximum(pace.open_s, pace.molds * pace.turn_s - closed - pace.dip_s)
    return opened, bait.mold.rested_c(empty, rest if pace.molds > 1 else pace.open_s)


def plateau_c(bait: BaitInMold, pace: Pace) -> Array:
    """The mold temperature that a shot brings back, by halving between surroundings and firm."""
    air = bait.mold.ambient_c
    low = np.minimum(air, pace.water_c) if pace.dip_s else air
    high = np.maximum(bait.shot.firm_c, low)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        warms = next_shot(bait, pace, middle)[1] > middle
        low, high = np.where(warms, middle, low), np.where(warms, high, middle)
    return np.asarray((low + high) / 2)


def _bait(draws: Draws, inputs: MoldWarmingInput, v: dict[str, Array]) -> BaitInMold:
    refuse_warm(mold_c=v["mold_c"], ambient_c=v["ambient_c"], firm_c=v["firm_c"])
    return bait_in_mold(
        drawn_shot(
            draws,
            thickest_m=draws.known(inputs.thickest_mm / 1000),
            flat=inputs.shape is Shape.FLAT,
            shot_kg=(inputs.cavities * inputs.bait_g + v["feed_g"]) / 1000,
            melt_c=draws.known(inputs.melt_c),
            firm_c=v["firm_c"],
        ),
        drawn_mold(
            draws,
            mold_kg=v["mold_g"] / 1000,
            material=inputs.material,
            ambient_c=v["ambient_c"],
            loss_w_k=v["loss_w_k"],
            open_face=inputs.open_face,
        ),
    )


def _busy(pace: Pace, opened: Array) -> int:
    """Molds whose turns of the hands fill the time one of them is out of use."""
    away = float(opened[0]) + pace.extra_s + pace.dip_s
    return 1 + int(np.ceil(away / float(pace.turn_s[0])))


def _unused(inputs: MoldWarmingInput) -> tuple[str, ...]:
    return () if inputs.dip_s else ("water_c", "dip_w_k")


def _cautions(inputs: MoldWarmingInput, plateau: float, steady: Array) -> tuple[str, ...]:
    notes = []
    if inputs.dip_s:
        notes.append(
            "After each dip dry every cavity, gate and seam for good: water left in a mold flashes "
            "to steam in hot plastic and throws it. Gloves, sleeves and a face shield."
        )
    if plateau > WARM_MOLD_C:
        notes.append(
            f"The mold settles at {in_both(plateau)}: shoot more molds in turn, wait longer, or "
            "dip it and dry it for good; water flashes to steam."
        )
    if not conducts(inputs.material):
        notes.append(
            "This mold insulates: its face runs warmer than the whole, so that the first shots "
            "warm it less and later ones more than one temperature can say."
        )
    if inputs.open_face and inputs.shape is Shape.ROUND:
        notes.append("In an open mold the bait is taken as flat.")
    never = float(np.mean(steady[1:] >= LONGEST_S))
    if never > 0:
        notes.append(f"In {never:.0%} of the cases it takes over an hour, which stands in.")
    return tuple(notes)
