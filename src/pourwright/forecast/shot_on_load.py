"""Several molds shot from one load, while the plastic cools in the barrel."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import band, number, out, parts, unmeasured
from pourwright.base.source import estimate, published
from pourwright.fill.chance import chance
from pourwright.fill.fill_input import MoldToFill, Pushed
from pourwright.fill.fill_words import WEARING, odds_words
from pourwright.fill.odds import ODDS_SOURCES
from pourwright.fill.outcome import Outcome, fill_seconds, outcome
from pourwright.fill.push import Push
from pourwright.fill.setup import melt_doubt, setup_of
from pourwright.heat.barrel import Filled, filled
from pourwright.heat.primed_barrel import drawn_barrel, primed_c
from pourwright.matter.mold_material import CONTACT_FILM

# Odds from which on a mold counts as one that fills.
WELL = 0.9


@dataclass(frozen=True, slots=True, kw_only=True)
class MoldOnLoad(MoldToFill):
    """One of the molds shot from a load."""

    since_s: float = number("From drawing the load until this mold is pushed full", low=0, high=900)


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadInput(Pushed):
    """A load of hot plastic, a push, and the molds it is shot into."""

    molds: tuple[MoldOnLoad, ...] = parts("Molds in the order they are shot", least=1, most=8)
    melt_c: float = number("Plastic when it is drawn", low=100, high=220, default=172)
    melt_doubt_k: float = number(
        "How far that may be off either way, nine times in ten", low=0, high=30, default=6
    )
    melt_pa_s: Band | None = band(
        "Viscosity of the fused plastic at 170 °C, as a timed shot found it; left out, typical",
        low=0.02, high=200, default=None,
    )  # fmt: skip
    barrel_wall_mm: float | None = unmeasured(
        "Wall of the barrel", low=0.5, high=8, typical=(1.5, 2.5, 3.5),
        measure="measure the wall of the barrel",
    )  # fmt: skip
    barrel_c: float | None = unmeasured(
        "Barrel when drawn full", low=0, high=180, typical=(20, 40, 90),
        measure="read the barrel after drawing and returning hot plastic once",
    )  # fmt: skip
    ambient_c: float | None = unmeasured(
        "Room", low=-10, high=45, typical=(17, 22, 28), measure="read the room temperature"
    )
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a hand pour, and molds out of order."""
        Pushed.check(self)
        if self.push is Push.POUR:
            raise BadInput("push", self.push.value, "draws no load; ask fill.odds mold by mold")
        times = [m.since_s for m in self.molds]
        if times != sorted(times):
            raise BadInput("molds", times, "must be in the order they are shot")


@dataclass(frozen=True, slots=True)
class MoldOdds:
    """One mold of the load."""

    since_s: float = out("From drawing the load until its push")
    melt_c: Band = out("Mean of the plastic in the barrel by then")
    odds: Band = out("Share of shots that fill it, 0 to 1, with the range of the count")
    fill_s: Band | None = out("Time to fill, of the shots that do; null where none does")
    cold_odds: float = out("The same from a barrel at room temperature, 0 to 1")
    preheated_odds: float = out("The same from a barrel primed once with hot plastic, 0 to 1")


@dataclass(frozen=True, slots=True)
class LoadAnswer:
    """Odds mold by mold."""

    molds: tuple[MoldOdds, ...] = out("The molds in the order they are shot")
    all_odds: Band = out("Odds that every one of them fills, 0 to 1")
    well: int = out("Molds in a row that fill nine times in ten")
    well_preheated: int = out("The same from a barrel primed once")
    notes: tuple[str, ...] = out("What dominates, what would narrow it, cautions")


@calculation(
    "fill.load",
    purpose="how many molds one load of the injector still fills",
    sources=(
        *ODDS_SOURCES,
        published("Incropera and DeWitt, 6th ed., sec. 5.10: a cooled cylinder in finite volumes"),
        CONTACT_FILM.source,
        estimate("the barrel's wall of one temperature"),
    ),
    example={
        "molds": [
            {
                "chain": [
                    {"length_mm": 40, "width_mm": 8, "thick_mm": 8, "part": "sprue"},
                    {"length_mm": 4, "width_mm": 4, "thick_mm": 4, "copies": 2, "part": "gate"},
                    {"length_mm": 36, "width_mm": 12, "thick_mm": 12, "copies": 2},
                    {"length_mm": 45, "width_mm": 9, "thick_mm": 2, "copies": 2},
                ],
                "cavities": 2,
                "since_s": since_s,
            }
            for since_s in (5, 15, 30)
        ],
        "bore_mm": 35,
        "barrel_c": 25,
    },
)
def fill_load(inputs: LoadInput) -> LoadAnswer:
    """Push into each mold at the mean temperature the barrel has left the plastic by then.

    The skin on the barrel's wall is colder than that mean and mostly stays behind.
    """
    draws = Draws(seed=inputs.seed)
    v = drawn(draws, inputs)
    barrel = drawn_barrel(
        draws,
        bore_m=v["bore_mm"] / 1000,
        wall_m=v["barrel_wall_mm"] / 1000,
        ambient_c=v["ambient_c"],
    )
    primed = primed_c(draws, barrel, melt_c=inputs.melt_c)
    as_is, cold, warm = (
        [_pushed(draws, inputs, filled(barrel, melt_c=inputs.melt_c, barrel_c=start), mold)
         for mold in inputs.molds]
        for start in (v["barrel_c"], v["ambient_c"], primed)
    )  # fmt: skip
    every = np.stack([push.full for push in as_is]).all(axis=0)
    told = tuple(
        MoldOdds(
            since_s=mold.since_s,
            melt_c=draws.band(here.shot.chill.melt_c),
            odds=chance(here.full),
            fill_s=fill_seconds(here),
            cold_odds=chance(low.full).typical,
            preheated_odds=chance(high.full).typical,
        )
        for mold, here, low, high in zip(inputs.molds, as_is, cold, warm, strict=True)
    )
    return LoadAnswer(
        molds=told,
        all_odds=chance(np.asarray(every)),
        well=_well([m.odds.typical for m in told]),
        well_preheated=_well([m.preheated_odds for m in told]),
        notes=(
            *left_out(inputs, unused=inputs.unused),
            *odds_words(inputs, inputs.melt_pa_s),
            *width_notes(draws, {"all_odds": every.astype(float)}),
            _volume_words(as_is),
            *_words(told),
        ),
    )


def _pushed(draws: Draws, inputs: LoadInput, load: Filled, mold: MoldOnLoad) -> Outcome:
    """One mold pushed from a load that has cooled so long."""
    mean_c = load.mean_c(draws.known(mold.since_s))
    kept = (mean_c - load.ambient_c) / (inputs.melt_c - load.ambient_c)
    melt_c = mean_c + kept * melt_doubt(draws, inputs.melt_doubt_k)
    setup = setup_of(draws, mold, inputs, melt_c=np.asarray(melt_c), melt_pa_s=inputs.melt_pa_s)
    return outcome(setup)


def _well(odds: list[float]) -> int:
    """Molds in a row, from the first, that fill often enough."""
    return next((i for i, o in enumerate(odds) if o < WELL), len(odds))


def _volume_words(pushed: list[Outcome]) -> str:
    """The forecast is of heat; whether the barrel holds so much, only its volume tells."""
    all_ml = 1e6 * sum(float(push.shot.chain.volume_m3.sum()) for push in pushed)
    return (
        f"That counts how the load cools, not how much is in it: together these molds take "
        f"{all_ml:.0f} mL of hot plastic and the heel. Load that much, or count fewer."
    )


def _words(told: tuple[MoldOdds, ...]) -> Iterable[str]:
    gain = max(m.preheated_odds - m.odds.typical for m in told)
    if gain > 0.05:
        yield (
            "Prime the barrel: draw hot plastic, give it back to the cup, draw again and shoot at "
            "once. Barrel and plunger bone dry: water flashes to steam in hot plastic."
        )
    if told[-1].odds.typical < WELL:
        yield "The last mold comes too late: shoot faster, load more often, or fill fewer from one."
    yield (
        "Never warm an injector full of plastic in an oven or over a flame, and never draw hotter "
        "plastic than its limit to make up for a cold barrel."
    )
    yield WEARING
