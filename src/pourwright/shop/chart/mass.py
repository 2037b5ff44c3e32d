"""Is the weight of a bait drifting, and can it hold its limits."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.calc import calculation
from pourwright.base.draws import Array
from pourwright.base.field import out
from pourwright.base.source import PRACTICE, memory
from pourwright.shop.chart import signal, standing
from pourwright.shop.chart.capability import Capability
from pourwright.shop.chart.constant import RangeLaw, range_law
from pourwright.shop.chart.mass_claim import claim_of
from pourwright.shop.chart.mass_input import MassInput
from pourwright.shop.chart.mass_signal import Limits, mass_signals
from pourwright.shop.chart.odds import none_bad_needed
from pourwright.shop.chart.signal import Signal
from pourwright.shop.chart.standing import Standing

# Means, ranges, runs and the moving mean watch at once; steps between single weights also
# come in pairs. Simulated.
ALARM_EVERY, ALARM_EVERY_SINGLE = 80, 60


@dataclass(frozen=True, slots=True)
class ChartedMass:
    """One lot in the chart. Limits of the moving mean are null before there are enough lots."""

    lot: str = out("Lot")
    mean_g: float = out("Mean weight")
    range_g: float | None = out(
        "Heaviest less lightest; of single readings, the step from the lot before"
    )
    ewma_g: float = out("Moving mean, in which older lots fade")
    ewma_low_g: float | None = out("Its lower limit, narrower for the first lots")
    ewma_high_g: float | None = out("Its upper limit, narrower for the first lots")


@dataclass(frozen=True, slots=True)
class MassAnswer:
    """The chart and what it says. Limits are null before there are enough lots."""

    center_g: float = out("Usual mean weight")
    sigma_g: float | None = out("Spread of one weight within a lot, as a standard deviation")
    low_g: float | None = out("Lower limit of the mean of a lot")
    high_g: float | None = out("Upper limit of the mean of a lot")
    range_center_g: float | None = out("Usual range")
    range_low_g: float | None = out("Lower limit of the range")
    range_high_g: float | None = out("Upper limit of the range")
    ewma_low_g: float | None = out("Lower limit of the moving mean once it has settled")
    ewma_high_g: float | None = out("Upper limit of the moving mean once it has settled")
    standing: Standing = out("How far the limits may be trusted")
    lots: tuple[ChartedMass, ...] = out("The lots, oldest first")
    signals: tuple[Signal, ...] = out("What stands out")
    within: Capability | None = out("What it could hold, were it steady: spread within lots only")
    overall: Capability | None = out("What it held: every weight against the limits")
    normal_chance: float | None = out(
        "Chance that normal weights look so far from normal; null where nobody can tell"
    )
    none_outside_needed: int = out(
        "Baits in a row within the limits that would rule out the share asked about, 95 %"
    )
    words: str = out("What the chart says, in a sentence or two")
    notes: tuple[str, ...] = out("What it rests on")


@calculation(
    "chart.mass",
    purpose="is the bait mass drifting, and can it hold the limits",
    sources=(
        memory("NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.1, 6.3.2.2, 6.3.2.4, 6.1.6"),
        memory("Lucas and Saccucci, Technometrics 32 (1990) 1, table 3"),
        PRACTICE,
    ),
    example={
        "subgroups": [
            {"lot": f"lot {i}", "masses_g": masses}
            for i, masses in enumerate(
                (
                    (12.1, 12.0, 12.2, 11.9, 12.1), (12.0, 12.2, 12.1, 12.1, 11.8),
                    (11.9, 12.0, 12.1, 12.2, 12.0), (12.2, 12.0, 11.9, 12.1, 12.1),
                    (12.1, 12.3, 12.0, 12.0, 12.2), (11.9, 12.1, 12.2, 12.0, 12.0),
                    (12.3, 12.1, 12.0, 12.2, 12.1), (12.2, 12.4, 12.3, 12.1, 12.2),
                    (12.4, 12.2, 12.3, 12.5, 12.3),
                ),
                start=1,
            )
        ],
        "low_g": 11.5, "high_g": 12.7,
    },
)  # fmt: skip
def mass_chart(inputs: MassInput) -> MassAnswer:
    """Means and ranges of lots; of one weight a lot, the steps between lots stand for ranges.

    The spread is the mean range over d2, so that a drift from lot to lot does not hide itself.
    """
    weights = np.array([it.masses_g for it in inputs.subgroups])
    means, ranges = weights.mean(axis=1), _ranges(weights)
    law = range_law(max(inputs.size, 2))
    center = float(means.mean()) if inputs.usual_g is None else inputs.usual_g
    sigma = _sigma(inputs, ranges, law)
    stands = standing.standing_of(len(weights))
    known = inputs.usual_g is not None and inputs.usual_sigma_g is not None
    limited = sigma is not None and (known or stands is not Standing.TOO_FEW)
    limits = _limits(inputs, center, sigma, law) if limited and sigma else Limits()
    moving, wide = _moving(inputs, means, center), _moving_widths(inputs, sigma, len(means))
    charted = tuple(
        ChartedMass(
            it.lot, mean, None if math.isnan(span) else span, at,
            center - apart if limited else None, center + apart if limited else None,
        )
        for it, mean, span, at, apart in zip(
            inputs.subgroups, means.tolist(), ranges.tolist(), moving, wide, strict=True
        )
    )  # fmt: skip
    usual = inputs.usual_g is not None
    signals = mass_signals(charted, limits, usual=usual) if limited else ()
    claim = claim_of(inputs, weights, sigma if limited else None, law, drifting=bool(signals))
    told = standing.standing_words(len(weights))
    return MassAnswer(
        center_g=center, sigma_g=sigma, low_g=limits.low, high_g=limits.high,
        range_center_g=limits.range_center, range_low_g=limits.range_low,
        range_high_g=limits.range_high, ewma_low_g=limits.ewma_low,
        ewma_high_g=limits.ewma_high, standing=stands, lots=charted, signals=signals,
        within=claim.within, overall=claim.overall, normal_chance=claim.normal_chance,
        none_outside_needed=none_bad_needed(inputs.claim_share),
        words=f"{signal.summed(signals)} {told}" if limited else told,
        notes=(*_notes(inputs, limited=limited), *claim.notes),
    )  # fmt: skip


def _ranges(weights: Array) -> Array:
    """Range of each lot; of single weights the step from the lot before, none for the first."""
    if weights.shape[1] > 1:
        return np.asarray(np.ptp(weights, axis=1))
    return np.concatenate([[math.nan], np.abs(np.diff(weights[:, 0]))])


def _sigma(inputs: MassInput, ranges: Array, law: RangeLaw) -> float | None:
    """Spread of one weight; none where no two can be compared, or all are alike."""
    if inputs.usual_sigma_g is not None:
        return inputs.usual_sigma_g
    known = ranges[~np.isnan(ranges)]
    return float(known.mean()) / law.d2 or None if known.size else None


def _limits(inputs: MassInput, center: float, sigma: float, law: RangeLaw) -> Limits:
    mean_sigma = sigma / math.sqrt(inputs.size)
    wide = inputs.ewma_width * mean_sigma * math.sqrt(
        inputs.ewma_weight / (2 - inputs.ewma_weight)
    )  # fmt: skip
    usual = law.d2 * sigma
    return Limits(
        center=center, low=center - 3 * mean_sigma, high=center + 3 * mean_sigma,
        range_center=usual, range_low=law.lowest * usual, range_high=law.highest * usual,
        ewma_low=center - wide, ewma_high=center + wide,
    )  # fmt: skip


def _moving(inputs: MassInput, means: Array, center: float) -> list[float]:
    """The exponentially weighted moving mean, from the center on."""
    share, at, found = inputs.ewma_weight, center, []
    for mean in means:
        at = share * float(mean) + (1 - share) * at
        found.append(at)
    return found


def _moving_widths(inputs: MassInput, sigma: float | None, count: int) -> list[float]:
    """Half widths of its limits, exact for the first lots as for the later ones."""
    share = inputs.ewma_weight
    grown = 1 - (1 - share) ** (2 * np.arange(1, count + 1))
    mean_sigma = (sigma or 0.0) / math.sqrt(inputs.size)
    wide: list[float] = (np.sqrt(share / (2 - share) * grown) * mean_sigma).tolist()
    return [inputs.ewma_width * it for it in wide]


def _notes(inputs: MassInput, *, limited: bool) -> tuple[str, ...]:
    notes = []
    if inputs.mean_of > 1 and inputs.size == 1:
        notes.append(
            f"Each weight is the mean of {inputs.mean_of} baits weighed together: it shows drift "
            "from lot to lot and nothing of how single baits differ."
        )
    elif inputs.size == 1:
        notes.append("One weight a lot: the steps between lots stand in for ranges.")
    if limited and inputs.usual_g is None:
        notes.append("usual_g: taken from these lots, so that a drift pulls the center with it.")
    if limited:
        notes.append(signal.false_alarms(ALARM_EVERY if inputs.size > 1 else ALARM_EVERY_SINGLE))
    return tuple(notes)
