"""How many shots, loads and cups, and how much plastic, for so many good baits."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, estimate, published
from pourwright.fill.account import Account, Bench, account

# A half-normal of the count of good baits needs the binomial spread; NIST/SEMATECH e-Handbook of
# Statistical Methods, sec. 1.3.6.6.18.
_LEAST_SHARE = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotInput(Record):
    """A bait, a mold, a count and a cup; everything else may be left out."""

    bait_g: float | None = number("Weight of one bait", low=0.05, high=500, default=None)
    bait_ml: float | None = number("Volume of one bait", low=0.05, high=500, default=None)
    cavities: int = number("Cavities", low=1, high=60)
    count: int = number("Good baits wanted", low=1, high=20_000)
    cup_ml: float = number("Brim volume of the pouring cup", low=30, high=4000)
    molds: int = number("Molds shot in turn", low=1, high=20, default=1)
    feed_ml: float | None = unmeasured(
        "Sprue and runner of one shot", low=0, high=200, typical=(2, 3.5, 6),
        measure="weigh the sprue and runner of one shot",
    )  # fmt: skip
    reject_share: float | None = unmeasured(
        "Share rejected, 0 to 1", low=0, high=0.9, typical=(0.02, 0.08, 0.2),
        measure="count the good and the bad of one batch",
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
        "Share of the brim filled cold; hot plastic swells 8 to 10 %", low=0.1, high=0.85,
        default=0.7,
    )  # fmt: skip
    residue_g: float | None = unmeasured(
        "What stays in the cup", low=0, high=200, typical=(4, 8, 15),
        measure="weigh the cup before heating and after the last shot",
    )  # fmt: skip
    cold_density_g_ml: float | None = unmeasured(
        "Cold density", low=0.9, high=1.4, typical=(1.024, 1.052, 1.105),
        measure="weigh a measured volume of the mixed jug",
    )  # fmt: skip
    hot_density_g_ml: float | None = unmeasured(
        "Hot density", low=0.8, high=1.3, typical=(0.921, 0.949, 1.004),
        measure="mark the level of a cup cold and hot",
    )  # fmt: skip
    packed_ratio: float | None = unmeasured(
        "Mass packed into a cavity against its cold fill", low=0.8, high=1.1,
        typical=(0.94, 0.97, 1.0),
        measure="weigh five baits and compare with the cavity's volume",
    )  # fmt: skip
    remelt_g: float = number("Remelt to use up", low=0, high=20_000, default=0)
    remelt_share: float = number("Largest share of remelt, 0 to 1", low=0, high=1, default=0.3)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a bait without a size."""
        if self.bait_g is None and self.bait_ml is None:
            raise BadInput("bait_g", None, "give the bait's weight or its volume")


@dataclass(frozen=True, slots=True)
class CupAnswer:
    """One cup."""

    shots: int = out("Shots it gives")
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
    cups: tuple[CupAnswer, ...] = out("Every cup")
    plastic_g: Band = out("All the plastic to heat")
    virgin_g: float = out("Fresh plastic")
    remelt_g: float = out("Remelt used")
    cold_ml: float = out("All of it, cold")
    hot_ml: float = out("All of it, hot")
    good: Band = out("Good baits to expect")
    short_risk: float = out("Chance of fewer good baits than wanted, 0 to 1")
    spare_baits: int = out("Good baits above the count")
    good_g: float = out("Good baits")
    reject_g: float = out("Rejects, for remelt")
    warmup_g: float = out("Baits of the warm-up shots, for remelt")
    feed_g: float = out("Sprue and runners, for remelt")
    heel_g: float = out("Left in the injector, for remelt")
    residue_g: float = out("Left in the cups, lost")
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
    """Grams are accounted for: plastic in = good + rejects + warm-up + feed + heel + residue.

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
    plastic = _plastic(done, inputs, v, bait_g)
    good = good_baits(draws, done, bench.cavities, v["reject_share"])
    remelt = min(inputs.remelt_g, inputs.remelt_share * done.plastic_g)
    notes = (*left_out(inputs), *width_notes(draws, {"plastic_g": plastic, "good": good}))
    return ShotAnswer(
        shots=done.shots,
        shots_per_load=bench.shots_a_load,
        loads=done.loads,
        cups=tuple(
            CupAnswer(
                c.shots, c.waves, c.waves - 1, c.plastic_g, c.plastic_g / bench.cold_g_ml,
                c.plastic_g / bench.cold_g_ml / bench.cup_ml,
            )
            for c in done.cups
        ),
        plastic_g=draws.band(plastic),
        virgin_g=done.plastic_g - remelt,
        remelt_g=remelt,
        cold_ml=done.plastic_g / bench.cold_g_ml,
        hot_ml=done.plastic_g / bench.hot_g_ml,
        good=draws.band(good),
        short_risk=float(np.mean(good[1:] < inputs.count)),
        spare_baits=done.spare,
        good_g=done.good_g,
        reject_g=done.reject_g,
        warmup_g=done.warmup_g,
        feed_g=done.feed_g,
        heel_g=done.heel_g,
        residue_g=done.residue_g,
        notes=notes,
    )  # fmt: skip


def bait_grams(inputs: ShotInput, v: dict[str, Array]) -> Array:
    """Weight of one bait: entered, or its volume times what the cavity packs."""
    if inputs.bait_g is not None:
        return np.full_like(v["packed_ratio"], inputs.bait_g)
    return np.asarray((inputs.bait_ml or 0.0) * v["cold_density_g_ml"] * v["packed_ratio"])


def bench_of(inputs: ShotInput, v: dict[str, Array], bait_g: Array) -> Bench:
    """The bench at its typical values."""
    cold, packed = float(v["cold_density_g_ml"][0]), float(v["packed_ratio"][0])
    return Bench(
        bait_g=float(bait_g[0]),
        feed_g=float(v["feed_ml"][0]) * cold * packed,
        cavities=inputs.cavities,
        molds=inputs.molds,
        load_ml=inputs.injector_ml,
        heel_ml=float(v["heel_ml"][0]) if inputs.injector_ml else 0.0,
        cup_ml=inputs.cup_ml,
        fill_share=inputs.fill_share,
        residue_g=float(v["residue_g"][0]),
        cold_g_ml=cold,
        hot_g_ml=float(v["hot_density_g_ml"][0]),
    )


def good_baits(draws: Draws, done: Account, cavities: int, reject_share: Array) -> Array:
    """Good baits, drawn: the share of rejects is uncertain, and so is the luck of each bait."""
    made = (done.shots - done.warmup_shots) * cavities
    keep = np.clip(1 - reject_share, _LEAST_SHARE, 1)
    luck = draws.scores("luck of each bait") * np.sqrt(made * keep * (1 - keep))
    good = np.clip(np.round(made * keep + luck), 0, made)
    good[0] = done.good
    return good


def _plastic(done: Account, inputs: ShotInput, v: dict[str, Array], bait_g: Array) -> Array:
    """What the same shots take if bait, feed, heel and residue are other than typical."""
    per_shot = inputs.cavities * bait_g
    feed = v["feed_ml"] * v["cold_density_g_ml"] * v["packed_ratio"]
    heel = v["heel_ml"] * v["hot_density_g_ml"] if inputs.injector_ml else 0.0
    cups = len(done.cups)
    return np.asarray(done.shots * (per_shot + feed) + cups * (v["residue_g"] + heel))
