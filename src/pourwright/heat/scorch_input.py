"""What a scorch budget is reckoned from: the heats of a lot, its remelt, its stabilizer."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.errors import BadInput
from pourwright.base.field import band, number, parts, unmeasured
from pourwright.base.record import Record
from pourwright.heat.yellowing import LEAST_POINTS
from pourwright.matter import scorch


def check_hottest(mean_c: float, hottest_c: float | None) -> None:
    """Refuse a hottest place that is cooler than the mean."""
    if hottest_c is not None and hottest_c < mean_c:
        raise BadInput("hottest_c", hottest_c, f"is below the mean of {mean_c:g} °C")


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggedPoint(Record):
    """One point of a log, straight lines between them."""

    at_s: float = number("Time since the log began", low=0, high=86_400)
    mean_c: float = number("Mean of the plastic", low=-10, high=300)
    hottest_c: float | None = number(
        "Hottest place; the mean and hotter_k stand in", low=-10, high=350, default=None
    )

    def check(self) -> None:
        """Refuse a hottest place that is cooler than the mean."""
        check_hottest(self.mean_c, self.hottest_c)


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldBurst(Record):
    """Some seconds at about one temperature."""

    for_s: float = number("How long", low=0, high=86_400)
    mean_c: float = number("Mean of the plastic", low=-10, high=300)
    hottest_c: float | None = number(
        "Hottest place; the mean and hotter_k stand in", low=-10, high=350, default=None
    )

    def check(self) -> None:
        """Refuse a hottest place that is cooler than the mean."""
        check_hottest(self.mean_c, self.hottest_c)


@dataclass(frozen=True, slots=True, kw_only=True)
class LotHeat(Record):
    """One heat of the whole lot: a log, bursts, or both."""

    log: tuple[LoggedPoint, ...] = parts("Log of times and temperatures", most=2000)
    bursts: tuple[HeldBurst, ...] = parts("Bursts and holds", most=200)
    times: int = number("How often the lot went through it", low=1, high=20, default=1)

    def check(self) -> None:
        """Refuse an empty heat, a log of one point, time that stands or runs back."""
        if not self.log and not self.bursts:
            raise BadInput("log", None, "holds nothing: enter a log or bursts")
        if len(self.log) == 1:
            raise BadInput("log", 1, "needs at least two points")
        for i, (a, b) in enumerate(zip(self.log[:-1], self.log[1:], strict=True), start=1):
            if b.at_s <= a.at_s:
                raise BadInput(f"log[{i}].at_s", b.at_s, f"must be after {a.at_s:g} s")


@dataclass(frozen=True, slots=True, kw_only=True)
class RemeltIn(Record):
    """Remelt that went into the lot."""

    mass_g: float = number("Remelt", low=0.1, high=50_000)
    dose_share: Band | None = band(
        "Heat budget it had used, 1 is all of it; typical by its heats if left out",
        low=0, high=20, default=None,
    )  # fmt: skip
    heats: int = number("Times it had been heated", low=1, high=20, default=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class YellowSample(Record):
    """A sample of the same plastic: its dose by this calculation, and how yellow it is."""

    dose_share: float = number("Dose at the hottest place", low=0, high=20)
    yellowness: float = number("Yellowness, any one scale", low=-100, high=300)


@dataclass(frozen=True, slots=True, kw_only=True)
class ScorchInput(Record):
    """The heats of one lot, and what it was made of."""

    heats: tuple[LotHeat, ...] = parts("Heats of the whole lot", most=20)
    remelt: tuple[RemeltIn, ...] = parts("Remelt that went in", most=20)
    fresh_g: float = number("Fresh plastic that went in", low=0, high=50_000, default=0)
    hotter_k: float | None = unmeasured(
        "Hottest place above the mean, where it was not logged", low=0, high=100,
        typical=(3, 12, 30),
        measure="stir oftener and read at once: the core is near the mean then",
    )  # fmt: skip
    stable_at_190c_min: float | None = unmeasured(
        "Minutes the stabilizer lasts at 190 °C / 374 °F", low=0.5, high=600,
        typical=scorch.STABLE_MIN_AT_190C.ends,
        measure=scorch.STABLE_MIN_AT_190C.measure, logarithmic=True,
    )  # fmt: skip
    activation_kj_mol: float | None = unmeasured(
        "Activation energy of scorching", low=60, high=250, typical=(110, 140, 170),
        measure="find the minutes until strips yellow at two temperatures",
    )  # fmt: skip
    left_at_c: tuple[float, ...] = parts(
        "Temperatures to give the time left at; 175, 190 and 200 if left out",
        most=12, low=100, high=260,
    )  # fmt: skip
    yellowed: tuple[YellowSample, ...] = parts("Samples whose yellowness you know", most=100)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a lot with no past at all, and too few samples of yellow."""
        if not self.heats and not self.remelt:
            raise BadInput("heats", None, "holds nothing: enter a heat, or remelt")
        if 0 < len(self.yellowed) < LEAST_POINTS:
            why = f"needs at least {LEAST_POINTS} samples of known dose, or none"
            raise BadInput("yellowed", len(self.yellowed), why)
