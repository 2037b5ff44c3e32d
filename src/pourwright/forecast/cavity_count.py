"""One cavity more or fewer: what it does to the odds of a full shot, to waste and to work."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.base.assume import left_out
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import band, number, out, part, parts, pick, unmeasured
from pourwright.base.source import estimate
from pourwright.fill.air_way import AirWay
from pourwright.fill.branch import BranchPart
from pourwright.fill.fill_input import FillInput, Pushed
from pourwright.fill.fill_words import WEARING, odds_words
from pourwright.fill.odds import ODDS_SOURCES
from pourwright.fill.push import Push
from pourwright.fill.shot import ShotAnswer, ShotInput, shot_plan
from pourwright.fill.slice import SlicePart
from pourwright.forecast.full_odds import full_odds
from pourwright.forecast.mold_feed import FeedSizes, MoldFeed, sizes, volume_ml
from pourwright.matter.mold_material import MOLD_C, MoldMaterial

# What the forecast of one push takes: cavities, and slices side by side.
MOST_CAVITIES, MOST_COPIES = 50, 200
# Odds below which one cavity more is no gain.
WELL = 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class CavityCountInput(Pushed):
    """One cavity from its gate on, the feed before it, a push, and a batch to shoot."""

    cavity: tuple[SlicePart, ...] = parts(
        "Slices of one cavity from its gate on", least=1, most=120
    )
    branches: tuple[BranchPart, ...] = parts("Dead ends beside the chain", most=24)
    feed: MoldFeed = part("Sprue, runner and gates", default=MoldFeed())
    feed_ml: float | None = number(
        "Sprue and runner of one shot as weighed; left out, by their measures",
        low=0, high=200, default=None,
    )  # fmt: skip
    cavities: int = number("Cavities the mold has", low=1, high=MOST_CAVITIES)
    material: MoldMaterial = pick("Mold made of", default=MoldMaterial.ALUMINUM)
    mold_c: float | None = unmeasured(
        "Mold", low=0, high=150, typical=MOLD_C.ends,
        measure=MOLD_C.measure,
    )  # fmt: skip
    air: AirWay = pick("How air gets out at the end of a cavity", default=AirWay.LEAKS)
    melt_c: float = number("Plastic when the push begins", low=100, high=220, default=165)
    melt_doubt_k: float = number(
        "How far that may be off either way, nine times in ten", low=0, high=30, default=6
    )
    melt_pa_s: Band | None = band(
        "Viscosity of the fused plastic at 170 °C, as a timed shot found it; left out, typical",
        low=0.02, high=200, default=None,
    )  # fmt: skip
    count: int = number("Good baits wanted", low=1, high=20_000, default=100)
    cup_ml: float = number("Brim volume of the pouring cup", low=30, high=4000, default=473)
    injector_ml: float = number(
        "Full load of the injector; 0 for pouring by hand", low=0, high=2000, default=177.4
    )
    molds: int = number("Molds shot in turn", low=1, high=20, default=1)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse more cavities than one push is forecast into."""
        Pushed.check(self)
        most = most_cavities(self.cavity)
        if self.cavities > most:
            raise BadInput("cavities", self.cavities, f"must be {most} at most of this sort")


@dataclass(frozen=True, slots=True)
class CountRow:
    """The mold with so many cavities."""

    cavities: int = out("Cavities")
    odds: Band = out("Share of shots that fill it, 0 to 1, with the range of the count")
    shot_ml: float = out("One shot, feed included")
    feed_ml: float = out("Its sprue, runner and gates: back to the pot, or wasted")
    feed_share: float = out("Share of the shot that is feed, 0 to 1")
    shots: int | None = out("Shots for the batch; null where injector or cup are too small")
    loads: int | None = out("Injector loads for it; null likewise")
    cups: int | None = out("Cups for it; null likewise")
    plastic_g: float | None = out("Plastic to heat for it; null likewise")
    why: str = out("Why the last ones are missing; empty where they are not")


@dataclass(frozen=True, slots=True)
class CavityCountAnswer:
    """One cavity fewer, as it is, and one more."""

    rows: tuple[CountRow, ...] = out("From one cavity fewer to one more")
    advice: str = out("Whether one more pays")
    notes: tuple[str, ...] = out("What it rests on, cautions")


@calculation(
    "mold.cavities",
    purpose="what one cavity more or fewer does to odds, waste and work",
    sources=(*ODDS_SOURCES, estimate("cavities side by side along one runner, fed in the middle")),
    example={
        "cavity": [
            {"length_mm": 75, "width_mm": 9, "thick_mm": 9},
            {"length_mm": 40, "width_mm": 7, "thick_mm": 7},
            {"length_mm": 35, "width_mm": 4, "thick_mm": 4},
        ],
        "cavities": 3,
        "bore_mm": 35,
        "mold_c": 30,
    },
)
def mold_cavities(inputs: CavityCountInput) -> CavityCountAnswer:
    """The same push, plastic and draws into the mold with one cavity fewer, as it is, one more.

    The runner grows with the cavities, the sprue stays; the push stays too, so each cavity more
    fills slower. A weighed feed changes by what the measures say.
    """
    feed = sizes(inputs.feed, bait_width_mm=max(s.width_mm for s in inputs.cavity))
    now = inputs.cavities
    counts = [n for n in (now - 1, now, now + 1) if 1 <= n <= most_cavities(inputs.cavity)]
    rows = tuple(_row(inputs, feed, n) for n in counts)
    return CavityCountAnswer(
        rows=rows,
        advice=_advice(rows, now),
        notes=(
            *left_out(inputs, unused=inputs.unused),
            *(f"feed.{n}" for n in left_out(inputs.feed)),
            *odds_words(inputs, inputs.melt_pa_s),
            WEARING,
        ),
    )


def most_cavities(cavity: tuple[SlicePart, ...]) -> int:
    """So many cavities of a sort can be forecast at once."""
    return min(MOST_CAVITIES, MOST_COPIES // max(s.copies for s in cavity))


def _row(inputs: CavityCountInput, feed: FeedSizes, cavities: int) -> CountRow:
    feed_ml = _feed_ml(inputs, feed, cavities)
    bait_ml = volume_ml(inputs.cavity)
    shot_ml = feed_ml + cavities * bait_ml
    planned, why = _planned(inputs, cavities, bait_ml, feed_ml)
    return CountRow(
        cavities=cavities,
        odds=full_odds(_filling(inputs, feed, cavities)),
        shot_ml=shot_ml,
        feed_ml=feed_ml,
        feed_share=feed_ml / shot_ml,
        shots=planned.shots if planned else None,
        loads=planned.loads if planned else None,
        cups=len(planned.cups) if planned else None,
        plastic_g=planned.plastic_g.typical if planned else None,
        why=why,
    )


def _feed_ml(inputs: CavityCountInput, feed: FeedSizes, cavities: int) -> float:
    """By the measures, moved so that the mold as it is has what was weighed."""
    measured = volume_ml(feed.slices(cavities))
    if inputs.feed_ml is None:
        return measured
    return max(inputs.feed_ml + measured - volume_ml(feed.slices(inputs.cavities)), 0.0)


def _filling(inputs: CavityCountInput, feed: FeedSizes, cavities: int) -> FillInput:
    return FillInput(
        chain=(*feed.slices(cavities), *side_by_side(inputs.cavity, cavities)),
        branches=inputs.branches, cavities=cavities, material=inputs.material,
        mold_c=inputs.mold_c, air=inputs.air, push=inputs.push, push_n=inputs.push_n,
        bore_mm=inputs.bore_mm, plunger_m_s=inputs.plunger_m_s, head_mm=inputs.head_mm,
        melt_c=inputs.melt_c, melt_doubt_k=inputs.melt_doubt_k, melt_pa_s=inputs.melt_pa_s,
        seed=inputs.seed,
    )  # fmt: skip


def side_by_side(cavity: Iterable[SlicePart], cavities: int) -> tuple[SlicePart, ...]:
    """The slices of so many cavities that fill at once."""
    return tuple(
        SlicePart(
            length_mm=s.length_mm, width_mm=s.width_mm, thick_mm=s.thick_mm,
            copies=s.copies * cavities, part=s.part,
        )
        for s in cavity
    )  # fmt: skip


def _planned(
    inputs: CavityCountInput, cavities: int, bait_ml: float, feed_ml: float
) -> tuple[ShotAnswer | None, str]:
    """The account of the batch, or why there is none."""
    asked = ShotInput(
        bait_ml=bait_ml, cavities=cavities, count=inputs.count, cup_ml=inputs.cup_ml,
        molds=inputs.molds, feed_ml=feed_ml, seed=inputs.seed,
        injector_ml=0 if inputs.push is Push.POUR else inputs.injector_ml,
    )  # fmt: skip
    try:
        return shot_plan(asked), ""
    except NoAnswer as error:
        return None, str(error)


def _advice(rows: tuple[CountRow, ...], now: int) -> str:
    by_count = {r.cavities: r for r in rows}
    here, more = by_count[now], by_count.get(now + 1)
    if more is None:
        return f"No more than {now} such cavities are forecast."
    if more.shots is None:
        return f"One more does not go: {more.why}"
    if more.odds.typical < WELL:
        return (
            f"One more is no gain at this push: {more.odds.typical:.0%} of its shots would fill, "
            f"{here.odds.typical:.0%} as it is. Hotter plastic within its limit, a warmer mold or "
            "a bigger gate come first."
        )
    saved = (here.shots or 0) - more.shots
    if saved <= 0:
        return "One more saves no shot of this batch, and it lifts the halves harder."
    return (
        f"One more pays: {saved} shots fewer, and {more.feed_share:.1%} of each shot in the feed "
        f"instead of {here.feed_share:.1%}. It also lifts the halves harder: mind the clamps."
    )
