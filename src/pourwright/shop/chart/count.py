"""Is the number of flaws drifting: bubbles, specks or sinks, counted on samples of one sort."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.calc import calculation
from pourwright.base.field import number, out, parts, text
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, memory
from pourwright.shop.chart import odds, signal, standing
from pourwright.shop.chart.signal import Counted, Signal
from pourwright.shop.chart.standing import Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class CountedSample(Record):
    """Flaws on one sample, such as the bubbles of a tray of baits; a bait may have several."""

    lot: str = text("Lot", most=40)
    flaws: int = number("Flaws counted", low=0, high=1_000_000)
    trays: float = number("Size of the sample, in trays", low=0.01, high=10_000, default=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class CountInput(Record):
    """Samples in the order in which they were poured."""

    samples: tuple[CountedSample, ...] = parts("Samples, oldest first", least=1, most=2000)
    usual_flaws: float | None = number(
        "Flaws of one tray known from before; left out, those of these samples",
        low=0.0001, high=1_000_000, default=None,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class ChartedCount:
    """One sample in the chart. Limits are null before there are enough, or where none exists."""

    lot: str = out("Lot")
    flaws: int = out("Flaws counted")
    usual: float = out("Flaws usual on a sample of this size")
    low: float | None = out("Lower limit, three standard deviations")
    high: float | None = out("Upper limit, three standard deviations")
    fewest: int | None = out("Fewest flaws that chance alone leaves, exactly")
    most: int | None = out("Most flaws that chance alone makes, exactly")
    tail: float = out("Chance of a count at least as far out, exactly")


@dataclass(frozen=True, slots=True)
class CountAnswer:
    """The chart and what it says."""

    center: float = out("Flaws usual on one tray")
    standing: Standing = out("How far the limits may be trusted")
    samples: tuple[ChartedCount, ...] = out("The samples, oldest first")
    signals: tuple[Signal, ...] = out("What stands out")
    words: str = out("What the chart says, in a sentence or two")
    notes: tuple[str, ...] = out("What it rests on")


@calculation(
    "chart.count",
    purpose="is the number of flaws drifting, such as bubbles of a tray",
    sources=(
        memory("NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.3.1 (limits), 6.3.2 (runs)"),
        PRACTICE,
    ),
    example={
        "samples": [
            {"lot": f"lot {i}", "flaws": flaws}
            for i, flaws in enumerate((4, 2, 5, 3, 6, 2, 14, 4, 3, 5), start=1)
        ],
    },
)
def count_chart(inputs: CountInput) -> CountAnswer:
    """Flaws that fall anywhere with the same small chance; a larger sample has more of them."""
    samples = inputs.samples
    flaws, trays = sum(it.flaws for it in samples), sum(it.trays for it in samples)
    center = flaws / trays if inputs.usual_flaws is None else inputs.usual_flaws
    stands = standing.standing_of(len(samples))
    limited = stands is not Standing.TOO_FEW or inputs.usual_flaws is not None
    charted = tuple(_charted(it, center, limited=limited) for it in samples)
    counts = tuple(map(_counted, samples, charted)) if limited else ()
    signals = signal.count_signals(counts, center, known=inputs.usual_flaws is not None)
    told = standing.standing_words(len(samples))
    usual = f"Usually {center:.3g} on a tray."
    return CountAnswer(
        center=center, standing=stands, samples=charted, signals=signals,
        words=f"{signal.summed(signals)} {usual} {told}" if limited else f"{told} {usual}",
        notes=(
            *(() if inputs.usual_flaws else ("usual_flaws: taken from these samples.",)),
            "Flaws must fall singly: a foaming cup, which makes many at once, is called out often.",
            *((signal.false_alarms(signal.ALARM_EVERY),) if limited else ()),
        ),
    )  # fmt: skip


def _charted(it: CountedSample, center: float, *, limited: bool) -> ChartedCount:
    chance = odds.of_rate(center * it.trays)
    low, high = chance.mean - 3 * chance.sigma, chance.mean + 3 * chance.sigma
    return ChartedCount(
        lot=it.lot, flaws=it.flaws, usual=chance.mean,
        low=low if limited and low > 0 else None,
        high=high if limited else None,
        fewest=odds.fewest_likely(chance) if limited else None,
        most=odds.most_likely(chance) if limited else None,
        tail=odds.tail(chance, it.flaws),
    )  # fmt: skip


def _counted(it: CountedSample, charted: ChartedCount) -> Counted:
    return Counted(
        it.lot, f"{it.flaws} flaws", it.flaws, it.trays, charted.fewest, charted.most,
        lambda flaws: odds.of_rate(flaws * it.trays),
    )  # fmt: skip
