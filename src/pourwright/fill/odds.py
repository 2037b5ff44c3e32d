"""Will the shot fill the mold."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Draws
from pourwright.base.field import number, out
from pourwright.base.source import PRACTICE, memory, published
from pourwright.fill.branch import sets_seconds
from pourwright.fill.chance import chance
from pourwright.fill.change import changes
from pourwright.fill.fill_input import FillInput
from pourwright.fill.fill_words import hot_words, odds_words, short_words
from pourwright.fill.march import LONGEST_S
from pourwright.fill.outcome import Outcome, Stop, fill_seconds, outcome, stop_of
from pourwright.fill.push import ONE_HAND_N
from pourwright.fill.setup import Setup, one_push
from pourwright.matter.flow import MELT_PA_S
from pourwright.matter.scorch import hot_limit
from pourwright.matter.setting import SETS_C

ODDS_SOURCES = (
    memory("White, Viscous Fluid Flow, 3rd ed. (2006), elliptic duct, quasi-steady"),
    published("Incropera and DeWitt, 6th ed., eqs. 5.57 and 5.63: skin and touch of two bodies"),
    memory("Bird, Stewart and Lightfoot, 2nd ed. (2002), table 14.2-1: heat of a moving melt"),
    ONE_HAND_N.source,
    MELT_PA_S.source,
    SETS_C.source,
    PRACTICE,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class OddsInput(FillInput):
    """One mold, one push, and the flash point that says how hot the plastic may be."""

    flash_point_c: float | None = number(
        "Flash point from the plastic's data sheet", low=100, high=400, default=None
    )


@dataclass(frozen=True, slots=True)
class BranchOdds:
    """One dead end beside the chain."""

    label: str = out("What it is")
    odds: Band = out("Share of the draws in which it fills, 0 to 1")
    sets_s: Band = out("Time in which standing plastic sets at its thinnest place")


@dataclass(frozen=True, slots=True)
class Help:
    """One thing done otherwise."""

    change: str = out("What is changed")
    how: str = out("How far, and what to mind")
    odds: float = out("Share of the draws that fill then, 0 to 1")
    gained: float = out("How much more that is; below 0 it does harm")


@dataclass(frozen=True, slots=True)
class OddsAnswer:
    """Odds, time, place and cures."""

    odds: Band = out("Share of shots that fill the mold, 0 to 1, with the range of the count")
    fill_s: Band | None = out("Time to fill, of the shots that do; null where none does")
    filled_share: Band = out("Share of the volume that is filled, 0 to 1")
    stop: Stop | None = out("Where the short ones stop; null where none does")
    branches: tuple[BranchOdds, ...] = out("The dead ends beside the chain, each by itself")
    shot_ml: float = out("Volume of the whole way, feed included")
    pressure_kpa: Band = out("Pressure of the push at the mouth of the mold")
    peak_flow_ml_s: Band = out("Fastest flow")
    helps: tuple[Help, ...] = out("One thing changed at a time, the most helpful first")
    notes: tuple[str, ...] = out("What dominates, what would narrow it, cautions")


@calculation(
    "fill.odds",
    purpose="will the shot fill: odds, where it stops, what helps most",
    sources=ODDS_SOURCES,
    example={
        "chain": [
            {"length_mm": 40, "width_mm": 8, "thick_mm": 8, "copies": 1, "part": "sprue"},
            {"length_mm": 22, "width_mm": 6, "thick_mm": 6, "copies": 2, "part": "runner"},
            {"length_mm": 4, "width_mm": 4, "thick_mm": 4, "copies": 4, "part": "gate"},
            {"length_mm": 90, "width_mm": 9.5, "thick_mm": 9.5, "copies": 4},
            {"length_mm": 37, "width_mm": 5, "thick_mm": 5, "copies": 4},
        ],
        "cavities": 4,
        "melt_c": 160,
        "mold_c": 30,
        "bore_mm": 35,
    },
)
def fill_odds(inputs: OddsInput) -> OddsAnswer:
    """Push in every draw of what nobody measured, and count the molds that fill.

    The front advances slice by slice through ellipses; a skin of set plastic grows on the wall
    unless the moving melt keeps it thin; a branch beside the chain is pressed by itself from where
    it leaves. One temperature of the moving melt, a liquid without yield, each draw a
    steady push. Valid for melts of 0.1 to 50 Pa·s in ways of 1 to 30 mm.
    """
    draws = Draws(seed=inputs.seed)
    setup = one_push(draws, inputs)
    found = outcome(setup)
    limit_c, why = hot_limit(inputs.flash_point_c)
    pressure = found.shot.drive.pressure_pa
    return OddsAnswer(
        odds=chance(found.full),
        fill_s=fill_seconds(found),
        filled_share=draws.band(found.filled_share),
        stop=stop_of(found),
        branches=_branches(draws, found),
        shot_ml=float(found.shot.chain.volume_m3.sum()) * 1e6,
        pressure_kpa=draws.band(pressure / 1000),
        peak_flow_ml_s=draws.band(found.front.peak_m3_s * 1e6),
        helps=helps(setup, found, limit_c),
        notes=(
            *left_out(inputs, unused=inputs.unused),
            *odds_words(inputs, inputs.melt_pa_s),
            *width_notes(draws, _widths(found)),
            *short_words(found, inputs.push),
            *hot_words(inputs.melt_c, limit_c, why),
        ),
    )


def helps(setup: Setup, found: Outcome, hot_limit_c: float) -> tuple[Help, ...]:
    """Every change with the odds it gives, the most helpful first."""
    now = chance(found.full).typical
    tried = [(c, chance(outcome(c.setup).full).typical) for c in changes(setup, hot_limit_c)]
    told = [Help(c.doing.value, c.how, odds, odds - now) for c, odds in tried]
    return tuple(sorted(told, key=lambda h: -h.gained))


def _branches(draws: Draws, found: Outcome) -> tuple[BranchOdds, ...]:
    return tuple(
        BranchOdds(
            branch.name,
            chance(full),
            draws.band(np.minimum(sets_seconds(branch, found.shot.chill), LONGEST_S)),
        )
        for branch, full in found.branches
    )


def _widths(found: Outcome) -> dict[str, np.ndarray]:
    """What decides: whether it fills, or how fast where every draw does."""
    if found.full.all():
        return {"fill_s": found.front.clock_s}
    return {"odds": found.full.astype(float)}
