"""How many shots, loads and cups, and how much plastic, for so many good baits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, estimate, published
from pourwright.fill.account import Bench, account, plastic_drawn, whole_shots
from pourwright.fill.reject import good_baits, short_risk
from pourwright.matter.plastisol import COLD_DENSITY_G_ML, HOT_DENSITY_G_ML, PACKED_RATIO
from pourwright.matter.property import Property


def _of_matter(help: str, known: Property, *, low: float, high: float) -> Any:
    """A field whose typical band is the one the whole house uses."""
    ends = (known.band.low, known.band.typical, known.band.high)
    return unmeasured(help, low=low, high=high, typical=ends, measure=known.measure)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotInput(Record):
    """A bait, a mold, a count and a cup; everything else may be left out."""

    bait_g: float | None = number("Weight of one bait", low=0.05, high=500, default=None)
    bait_ml: float | None = number("Volume of one bait", low=0.05, high=500, default=None)
    cavities: int = number("Cavities", low=1, high=60)
    count: int = number("Good baits wanted", low=1, high=20_000)
    cup_ml: float = number("Brim volume of the pouring cup", low=30, high=4000)
    molds: int = number("Molds shot in turn", low=1, high=20, default=1)
    feed_g: float | None = number(
        "Weight of the sprue and runner of one shot", low=0, high=200, default=None
    )
    feed_ml: float | None = unmeasured(
        "Sprue and runner of one shot", low=0, high=200, typical=(2, 3.5, 6),
        measure="weigh the sprue and runner of one shot",
    )  # fmt: skip
    reject_share: float | None = unmeasured(
        "Share rejected, 0 to 1", low=0, high=0.9, typical=(0.02, 0.08, 0.2),
        measure="count the good of one batch",
    )  # fmt: skip
    warmup_shots: int = number("Warm-up shots", low=0, high=20, default=1)
    injector_ml: float = number(
        "Full load of the injector; 0 for pouring by hand", low=0, high=2000, default=177.4
    )
    heel_ml: float | None = unmeasured(
        "What stays in the heel", low=0, high=100, typical=(3, 6, 10),
        measure="weigh what the empty-looking injector still gives back",
    )  # fmt: skip
    fill_share: float = number(
        "Share of the brim filled cold; the rest is for swelling and stirring",
        low=0.1, high=0.85, default=0.7,
    )  # fmt: skip
    residue_g: float | None = unmeasured(
        "What stays in the cup", low=0, high=200, typical=(4, 8, 15),
        measure="weigh the cup before heating and after the last shot",
    )  # fmt: skip
    cold_density_g_ml: float | None = _of_matter(
        "Cold density", COLD_DENSITY_G_ML, low=0.9, high=1.4
    )
    hot_density_g_ml: float | None = _of_matter("Hot density", HOT_DENSITY_G_ML, low=0.8, high=1.3)
    packed_ratio: float | None = _of_matter(
        "Mass packed into a cavity against its cold fill", PACKED_RATIO, low=0.8, high=1.1
    )
    remelt_g: float = number("Remelt to use up", low=0, high=20_000, default=0)
    remelt_share: float = number("Largest share of remelt, 0 to 1", low=0, high=1, default=0.3)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a bait without a size, sizes given twice, and plastic that shrinks when hot."""
        if self.bait_g is None and self.bait_ml is None:
            raise BadInput("bait_g", None, "give the bait's weight or its volume")
        if self.bait_g is not None and self.bait_ml is not None:
            raise BadInput("bait_ml", self.bait_ml, "give the weight or the volume, not both")
        if self.feed_g is not None and self.feed_ml is not None:
            raise BadInput("feed_ml", self.feed_ml, "give the weight or the volume, not both")
        if self.heel_ml is not None and 0 < self.injector_ml <= self.heel_ml:
            why = f"must be less than the injector's {self.injector_ml:g} mL"
            raise BadInput("heel_ml", self.heel_ml, why)
        if self.cold_density_g_ml is not None and self.hot_density_g_ml is not None:
            self._check_swelling(self.cold_density_g_ml, self.hot_density_g_ml)

    def _check_swelling(self, cold: float, hot: float) -> None:
        if hot > cold:
            raise BadInput("hot_density_g_ml", hot, f"must not exceed the cold {cold:g} g/mL")
        if self.fill_share * cold / hot > 1:
            why = f"must stay under {hot / cold:.2f}, or the hot plastic runs over the brim"
            raise BadInput("fill_share", self.fill_share, why)


@dataclass(frozen=True, slots=True)
class CupAnswer:
    """One cup."""

    shots: int = out("Shots it gives")
    loads: int = out("Injector loads drawn from it; 0 for pouring by hand")
    waves: int = out("Times the molds are filled from it")
    rewarms: int = out("Times what is left is warmed again")
    plastic_g: float = out("What it holds")
    fill_line_ml: float = out("Cold volume, for those without a scale")
    fill_share: float = out("Share of the brim, cold")


@dataclass(frozen=True, slots=True)
class ShotAnswer:
    """The account of a batch."""

    shots: int = out("Shots, warm-up shots included")
    shots_per_load: int = out("Molds that one load fills; 1 for pouring by hand")
    loads: int = out("Injector loads; 0 for pouring by hand")
    waves: int = out("Times the molds are filled, over all cups")
    cups: tuple[CupAnswer, ...] = out("Every cup")
    plastic_g: Band = out("All the plastic to heat")
    virgin_g: float = out("Fresh plastic")
    remelt_g: float = out("Remelt used")
    cold_ml: float = out("All of it, cold")
    hot_ml: float = out("All of it, hot")
    good: Band = out("Good baits to expect")
    short_risk: float = out("Chance of fewer good baits than wanted, 0 to 1")
    spare_baits: int = out("Good baits above the count")
    good_g: float = out("The good baits that were wanted")
    spare_g: float = out("Good baits above the count")
    reject_g: float = out("Rejects, for remelt")
    warmup_g: float = out("Baits of the warm-up shots, for remelt")
    feed_g: float = out("Sprue and runners, for remelt")
    heel_g: float = out("Left in the injector, for remelt")
    residue_g: float = out("Left in the cups, lost")
    waste_share: float = out("Share of the plastic that is not a wanted bait, 0 to 1")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@calculation(
    "shot.plan",
    purpose="how many shots, loads, cups, how much plastic for N good baits",
    sources=(
        published("volume and mass balance; NIST SP 811 (2008) app. B.8 for the fluid ounce"),
        estimate("typical feed, heel, residue, rejects and packing"),
        PRACTICE,
    ),
    example={"bait_ml": 9, "cavities": 4, "count": 24, "cup_ml": 473, "molds": 2},
)
def shot_plan(inputs: ShotInput) -> ShotAnswer:
    """Every gram: plastic = good + spare + rejects + warm-up + feed + heel + residue.

    A shot is never split over two loads, nor over two cups. What is left in a cup is warmed again
    after each wave, a wave being one shot into every mold on hand.
    Raises: NoAnswer if a shot does not fit the injector or the cup, naming by how much.
    """
    draws = Draws(seed=inputs.seed)
    v = drawn(draws, inputs)
    bait_g = bait_grams(inputs, v)
    bench = bench_of(inputs, v, bait_g)
    done = account(
        bench,
        count=inputs.count,
        reject_share=float(v["reject_share"][0]),
        warmup_shots=inputs.warmup_shots,
    )
    shot_g = inputs.cavities * bait_g + feed_grams(inputs, v)
    usable_g = np.maximum(inputs.injector_ml - v["heel_ml"], 0.0) * v["hot_density_g_ml"]
    plastic = plastic_drawn(
        done,
        shot_g=shot_g,
        heel_g=v["heel_ml"] * v["hot_density_g_ml"] * (inputs.injector_ml > 0),
        residue_g=v["residue_g"],
    )
    good = good_baits(draws, done, bench.cavities, v["reject_share"])
    remelt = min(inputs.remelt_g, inputs.remelt_share * done.plastic_g)
    notes = (
        *left_out(inputs, unused=_unused(inputs)),
        *width_notes(draws, {"plastic_g": plastic, "good": good}),
        *_tight_load(bench, whole_shots(usable_g, shot_g)),
        *_spared_remelt(inputs, remelt),
    )
    return ShotAnswer(
        shots=done.shots,
        shots_per_load=bench.shots_a_load,
        loads=done.loads,
        waves=done.waves,
        cups=tuple(
            CupAnswer(
                c.shots, c.loads, c.waves, c.waves - 1, c.plastic_g,
                c.plastic_g / bench.cold_g_ml, c.plastic_g / bench.cold_g_ml / bench.cup_ml,
            )
            for c in done.cups
        ),
        plastic_g=draws.band(plastic),
        virgin_g=done.plastic_g - remelt,
        remelt_g=remelt,
        cold_ml=done.plastic_g / bench.cold_g_ml,
        hot_ml=done.plastic_g / bench.hot_g_ml,
        good=draws.band(good),
        short_risk=short_risk(done, bench.cavities, v["reject_share"], count=inputs.count),
        spare_baits=done.spare,
        good_g=done.good_g,
        spare_g=done.spare_g,
        reject_g=done.reject_g,
        warmup_g=done.warmup_g,
        feed_g=done.feed_g,
        heel_g=done.heel_g,
        residue_g=done.residue_g,
        waste_share=done.waste_g / done.plastic_g,
        notes=notes,
    )  # fmt: skip


def bait_grams(inputs: ShotInput, v: dict[str, Array]) -> Array:
    """Weight of one bait: entered, or its volume times what the cavity packs."""
    if inputs.bait_g is not None:
        return np.full_like(v["packed_ratio"], inputs.bait_g)
    return np.asarray((inputs.bait_ml or 0.0) * v["cold_density_g_ml"] * v["packed_ratio"])


def feed_grams(inputs: ShotInput, v: dict[str, Array]) -> Array:
    """Weight of one shot's sprue and runner: entered, or packed like a bait."""
    if inputs.feed_g is not None:
        return np.full_like(v["packed_ratio"], inputs.feed_g)
    return np.asarray(v["feed_ml"] * v["cold_density_g_ml"] * v["packed_ratio"])


def bench_of(inputs: ShotInput, v: dict[str, Array], bait_g: Array) -> Bench:
    """The bench at its typical values."""
    return Bench(
        bait_g=float(bait_g[0]),
        feed_g=float(feed_grams(inputs, v)[0]),
        cavities=inputs.cavities,
        molds=inputs.molds,
        load_ml=inputs.injector_ml,
        heel_ml=float(v["heel_ml"][0]) if inputs.injector_ml else 0.0,
        cup_ml=inputs.cup_ml,
        fill_share=inputs.fill_share,
        residue_g=float(v["residue_g"][0]),
        cold_g_ml=float(v["cold_density_g_ml"][0]),
        hot_g_ml=float(v["hot_density_g_ml"][0]),
    )


def _unused(inputs: ShotInput) -> tuple[str, ...]:
    """Fields whose typical value the answer did not need."""
    volumes = inputs.bait_g is None or inputs.feed_g is None
    return (
        *(() if inputs.feed_g is None else ("feed_ml",)),
        *(() if volumes else ("packed_ratio",)),
        *(() if inputs.injector_ml else ("heel_ml",)),
    )


def _tight_load(bench: Bench, shots: Array) -> tuple[str, ...]:
    """A word of caution where a load that should fill so many molds may fill fewer."""
    planned = min(bench.shots_a_load, bench.molds)
    fewer = float(np.mean(shots[1:] < planned))
    if not bench.load_ml or fewer < 0.05:
        return ()
    tight = f"shots_per_load: {planned} in a row from one load is tight"
    return (f"{tight}; in {fewer:.0%} of the draws the load runs out before.",)


def _spared_remelt(inputs: ShotInput, used_g: float) -> tuple[str, ...]:
    """Why some of the remelt is left over."""
    if used_g >= inputs.remelt_g:
        return ()
    used = f"remelt_g: {used_g:.0f} g of {inputs.remelt_g:.0f} g is used"
    return (f"{used}; its largest share is {inputs.remelt_share:.0%}.",)
