"""The order of drawing, shooting, waiting and warming, and how many molds keep hands busy."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.field import out
from pourwright.base.source import PRACTICE, estimate, published
from pourwright.base.units import in_both
from pourwright.forecast.busy_molds import busy, by_molds
from pourwright.forecast.hot_cup import HotCup, time_constant_s
from pourwright.forecast.rotation import Doing, Hands, Pour, Rotation
from pourwright.forecast.rotation_input import RotationInput
from pourwright.forecast.turns import in_a_row, rotated
from pourwright.heat.bait_cooling import WARM_MOLD_C, Shape
from pourwright.heat.bait_in_mold import BaitInMold, bait_in_mold
from pourwright.heat.drawn_bait import drawn_mold, drawn_shot, refuse_warm

# Ten kelvin go to barrel and gate: estimate.
LOST_ON_THE_WAY_K = 10.0


@dataclass(frozen=True, slots=True)
class RotationAct:
    """One act of the hands."""

    doing: str = out("draw, shoot, open, rewarm or wait")
    mold: int | None = out("Which mold, counted from 1; null where none is meant")
    start_s: float = out("Since the cup came out hot")
    end_s: float = out("Since the cup came out hot")
    cup_c: float = out("Mean of the cup at the start of the act")
    mold_c: float | None = out("The mold that is shot or opened; null where none is meant")


@dataclass(frozen=True, slots=True)
class MoldCount:
    """The same cup with another number of molds, typical."""

    molds: int = out("Molds shot in turn")
    minutes: float = out("Until the last mold is empty")
    idle_s: float = out("Hands wait")
    rewarm_s: float = out("Hands watch the oven")
    rewarms: int = out("Times the cup is warmed again")
    warmest_c: float = out("Warmest mold before a shot")


@dataclass(frozen=True, slots=True)
class RotationAnswer:
    """The acts of one cup."""

    shots: int = out("Shots the cup gives")
    in_a_row: int = out("Molds shot in a row from one load, by size and by window")
    acts: tuple[RotationAct, ...] = out("Every act on typical values")
    minutes: Band = out("Until the last mold is empty")
    idle_s: Band = out("Hands wait")
    rewarms: int = out("Times the cup is warmed again")
    rewarm_s: Band = out("Hands watch the oven, carrying and stirring with it")
    counts: tuple[MoldCount, ...] = out("One mold, two, and so on")
    busy_molds: int | None = out("Fewest molds that leave hands idle under 15 % of the time")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@calculation(
    "pour.rotation",
    purpose="who waits for whom while one cup is poured into several molds",
    sources=(
        published("heat balance; Incropera and DeWitt, 6th ed., sec. 5.1 and 5.10"),
        estimate("losses and power of a part-empty cup; seconds of the hands"),
        PRACTICE,
    ),
    example={"plastic_g": 300, "shot_g": 25, "molds": 2, "thickest_mm": 10, "shots_a_load": 2},
)
def pour_rotation(inputs: RotationInput) -> RotationAnswer:
    """Draw, shoot, wait, open and warm the cup, until the cup is empty.

    The order is that of the typical values; the ranges keep it. Hands do one thing at a time and
    watch the oven while it runs.
    Raises: NoAnswer where mold or room are as warm as the firm temperature.
    """
    draws = Draws(seed=inputs.seed)
    v = drawn(draws, inputs)
    row = in_a_row(inputs.shots_a_load, window_s=v["injector_window_s"], shoot_s=v["shoot_s"])
    asked = _pour(draws, inputs, v, row), _hands(draws, inputs, v), _cup(draws, inputs, v)
    bait = _bait(draws, inputs, v)
    found = rotated(*asked, bait)
    counts = by_molds(*asked, bait)
    return RotationAnswer(
        shots=inputs.shots,
        in_a_row=row,
        acts=acts_of(found),
        minutes=draws.band(found.seconds / 60),
        idle_s=draws.band(found.idle_s),
        rewarms=found.count(Doing.REWARM),
        rewarm_s=draws.band(found.spent_s(Doing.REWARM)),
        counts=tuple(mold_count(r) for r in counts),
        busy_molds=busy(counts),
        notes=(
            *left_out(inputs),
            *width_notes(draws, {"minutes": found.seconds / 60}),
            *_cautions(inputs, found, row),
        ),
    )


def acts_of(found: Rotation) -> tuple[RotationAct, ...]:
    """The acts on typical values that take any time."""
    return tuple(
        RotationAct(
            a.doing.value,
            a.mold + 1 if a.mold >= 0 else None,
            float(a.start_s[0]),
            float(a.end_s[0]),
            float(a.cup_c[0]),
            float(a.mold_c[0]) if a.mold >= 0 else None,
        )
        for a in found.acts
        if a.end_s[0] > a.start_s[0]
    )


def mold_count(found: Rotation) -> MoldCount:
    """What a number of molds comes to, typical."""
    return MoldCount(
        molds=found.molds,
        minutes=float(found.seconds[0]) / 60,
        idle_s=float(found.idle_s[0]),
        rewarm_s=float(found.spent_s(Doing.REWARM)[0]),
        rewarms=found.count(Doing.REWARM),
        warmest_c=found.warmest_c,
    )


def _pour(draws: Draws, inputs: RotationInput, v: dict[str, Array], row: int) -> Pour:
    return Pour(inputs.shots, draws.known(inputs.shot_g), inputs.molds, row, v["mold_c"])


def _hands(draws: Draws, inputs: RotationInput, v: dict[str, Array]) -> Hands:
    extra = draws.known(inputs.extra_s)
    return Hands(v["draw_s"], v["shoot_s"], v["unload_s"], v["handling_s"], extra)


def _cup(draws: Draws, inputs: RotationInput, v: dict[str, Array]) -> HotCup:
    return HotCup(
        full_g=draws.known(inputs.plastic_g),
        target_c=inputs.pour_c,
        least_c=inputs.least_c,
        ambient_c=v["ambient_c"],
        slow_s=time_constant_s(
            v["cup_window_s"],
            from_c=inputs.pour_c,
            to_c=inputs.least_c,
            ambient_c=v["ambient_c"],
        ),
        power_w=v["power_w"],
    )


def _bait(draws: Draws, inputs: RotationInput, v: dict[str, Array]) -> BaitInMold:
    refuse_warm(mold_c=v["mold_c"], ambient_c=v["ambient_c"], firm_c=v["firm_c"])
    shot = drawn_shot(
        draws,
        thickest_m=draws.known(inputs.thickest_mm / 1000),
        flat=inputs.shape is Shape.FLAT,
        shot_kg=draws.known(inputs.shot_g / 1000),
        melt_c=draws.known(inputs.pour_c - LOST_ON_THE_WAY_K),
        firm_c=v["firm_c"],
    )
    mold = drawn_mold(
        draws, mold_kg=v["mold_g"] / 1000, material=inputs.material, ambient_c=v["ambient_c"]
    )
    return bait_in_mold(shot, mold)


def _cautions(inputs: RotationInput, found: Rotation, row: int) -> tuple[str, ...]:
    notes = []
    if row < inputs.shots_a_load:
        notes.append(
            f"A load fills {inputs.shots_a_load} molds but stays shootable for {row}: prime and "
            "warm the barrel, or shoot faster."
        )
    if found.count(Doing.REWARM):
        notes.append(
            "Warm in short bursts, stir the bottom up and read after each; stay with the oven "
            "while it runs. Smoke or a sharp smell: stop, door shut, switch off."
        )
    if found.coldest_draw_c < inputs.least_c - 0.1:
        notes.append(
            f"This oven hardly warms this cup: it is drawn from at "
            f"{in_both(found.coldest_draw_c)}, under its limit. Cook less at a time."
        )
    if found.warmest_c > WARM_MOLD_C:
        notes.append(
            f"The molds warm to {in_both(found.warmest_c)}: use more molds, wait longer, or dip "
            "and dry them for good; water flashes to steam in hot plastic."
        )
    if found.late_share > 0:
        notes.append(
            f"In {found.late_share:.0%} of the cases a mold takes over an hour, which stands in."
        )
    return tuple(notes)
