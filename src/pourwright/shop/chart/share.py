"""Is the share of bad baits drifting: one lot after the other, each by its own count."""

from __future__ import annotations

from dataclasses import dataclass

from scipy import special

from pourwright.base.calc import calculation
from pourwright.base.errors import BadInput
from pourwright.base.field import flag, number, out, parts, text
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, memory
from pourwright.shop.chart import odds, signal, standing
from pourwright.shop.chart.signal import Counted, Signal
from pourwright.shop.chart.standing import Standing

# From here on, the usual three standard deviations say much the same as the exact count.
LEAST_EXPECTED = 5
# Below this chance, lots differ from each other by more than their counts explain.
_UNEVEN = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareLot(Record):
    """One lot, counted."""

    lot: str = text("Lot", most=40)
    day: str = text("Day it was poured, to pool by", most=20, default="")
    bad: int = number("Bad baits", low=0, high=1_000_000)
    n: int = number("Baits counted, bad ones included", low=1, high=1_000_000)

    def check(self) -> None:
        """Refuse more bad ones than there are."""
        if self.bad > self.n:
            raise BadInput("bad", self.bad, f"must be at most the {self.n} counted")


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareInput(Record):
    """Lots in the order in which they were poured."""

    lots: tuple[ShareLot, ...] = parts("Lots, oldest first", least=1, most=2000)
    pool_days: bool = flag("Pool the lots of a day into one")
    usual_share: float | None = number(
        "Share known from before, 0 to 1; left out, that of these lots",
        low=0.0001, high=0.9999, default=None,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class ChartedShare:
    """One lot in the chart. Limits are null before there are enough lots, or where none exists."""

    lot: str = out("Lot, or the day that was pooled")
    bad: int = out("Bad baits")
    n: int = out("Baits counted")
    share: float = out("Share of bad ones, 0 to 1")
    low: float | None = out("Lower limit of the share, three standard deviations")
    high: float | None = out("Upper limit of the share, three standard deviations")
    fewest: int | None = out("Fewest bad ones that chance alone leaves, exactly")
    most: int | None = out("Most bad ones that chance alone makes, exactly")
    tail: float = out("Chance of a count at least as far out, exactly")
    possible_low: float = out("Lowest share this lot alone leaves possible, 95 %")
    possible_high: float = out("Highest share this lot alone leaves possible, 95 %")
    rough: bool = out("Whether fewer than 5 bad ones are expected, so that only exact counts hold")


@dataclass(frozen=True, slots=True)
class ShareAnswer:
    """The chart and what it says."""

    center: float = out("Usual share, 0 to 1")
    center_low: float = out("Lowest usual share these lots leave possible, 95 %")
    center_high: float = out("Highest usual share these lots leave possible, 95 %")
    standing: Standing = out("How far the limits may be trusted")
    lots: tuple[ChartedShare, ...] = out("The lots, oldest first")
    signals: tuple[Signal, ...] = out("What stands out")
    words: str = out("What the chart says, in a sentence or two")
    notes: tuple[str, ...] = out("What it rests on")


@calculation(
    "chart.share",
    purpose="is the share of bad baits drifting",
    sources=(
        memory("NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.3.2 (limits), 6.3.2 (runs)"),
        memory("Clopper and Pearson, Biometrika 26 (1934) 404"),
        PRACTICE,
    ),
    example={
        "lots": [
            {"lot": f"lot {i}", "bad": bad, "n": 40}
            for i, bad in enumerate((2, 1, 3, 0, 2, 4, 1, 2, 9, 3), start=1)
        ],
    },
)
def share_chart(inputs: ShareInput) -> ShareAnswer:
    """Limits follow each lot's own count; what signals is the exact chance, not three deviations.

    A lot signals where chance alone would deal so high, or so low, a count less often than a
    normal value passes three standard deviations on one side: 1 in 741.
    """
    lots = _pooled(inputs.lots) if inputs.pool_days else inputs.lots
    bad, n = sum(it.bad for it in lots), sum(it.n for it in lots)
    center = bad / n if inputs.usual_share is None else inputs.usual_share
    stands = standing.standing_of(len(lots))
    limited = stands is not Standing.TOO_FEW or inputs.usual_share is not None
    charted = tuple(_charted(it, center, limited=limited) for it in lots)
    counts = tuple(map(_counted, lots, charted)) if limited else ()
    signals = signal.count_signals(counts, center, known=inputs.usual_share is not None)
    low, high = odds.share_range(bad, n)
    return ShareAnswer(
        center=center, center_low=low, center_high=high, standing=stands, lots=charted,
        signals=signals, words=_words(len(lots), center, (low, high), signals, limited=limited),
        notes=_notes(inputs, lots, charted, center, limited=limited),
    )  # fmt: skip


def _pooled(lots: tuple[ShareLot, ...]) -> tuple[ShareLot, ...]:
    """One lot a day, in the order of the days' first lots; a lot without a day stays alone."""
    days: dict[str, ShareLot] = {}
    for place, it in enumerate(lots):
        key = it.day or f"\n{place}"
        known = days.get(key)
        days[key] = (
            ShareLot(lot=known.lot, day=it.day, bad=known.bad + it.bad, n=known.n + it.n)
            if known
            else ShareLot(lot=it.day or it.lot, day=it.day, bad=it.bad, n=it.n)
        )
    return tuple(days.values())


def _charted(it: ShareLot, center: float, *, limited: bool) -> ChartedShare:
    chance = odds.of_share(it.n, center)
    wide = 3 * chance.sigma / it.n
    low, high = center - wide, center + wide
    possible = odds.share_range(it.bad, it.n)
    return ChartedShare(
        lot=it.lot, bad=it.bad, n=it.n, share=it.bad / it.n,
        low=low if limited and low > 0 else None,
        high=high if limited and high < 1 else None,
        fewest=odds.fewest_likely(chance) if limited else None,
        most=odds.most_likely(chance) if limited else None,
        tail=odds.tail(chance, it.bad),
        possible_low=possible[0], possible_high=possible[1],
        rough=min(chance.mean, it.n - chance.mean) < LEAST_EXPECTED,
    )  # fmt: skip


def _counted(it: ShareLot, charted: ChartedShare) -> Counted:
    return Counted(
        it.lot, f"{it.bad} of {it.n}", it.bad, it.n, charted.fewest, charted.most,
        lambda share: odds.of_share(it.n, share),
    )  # fmt: skip


def _words(
    count: int, center: float, possible: tuple[float, float], signals: tuple[Signal, ...], *,
    limited: bool,
) -> str:  # fmt: skip
    usual = f"In all {center:.1%} bad; {possible[0]:.1%} to {possible[1]:.1%} is possible."
    if not limited:
        return f"{standing.standing_words(count)} {usual}"
    return f"{signal.summed(signals)} {usual} {standing.standing_words(count)}"


def _notes(
    inputs: ShareInput, lots: tuple[ShareLot, ...], charted: tuple[ChartedShare, ...],
    center: float, *, limited: bool,
) -> tuple[str, ...]:  # fmt: skip
    notes = [
        "usual_share: taken from these lots, so that a lot far out pulls the center towards itself."
    ] if inputs.usual_share is None else []  # fmt: skip
    if limited and any(it.rough for it in charted) and 0 < center < 1:
        needed = int(LEAST_EXPECTED / min(center, 1 - center)) + 1
        notes.append(
            f"Three standard deviations are rough below {needed} baits a lot: go by the exact "
            "counts, or pool the lots of a day."
        )
    if limited and all(it.fewest is None for it in charted):
        notes.append("No lot is large enough for a lower limit: even none bad would be no news.")
    if limited and (chance := _even_chance(lots, center)) < _UNEVEN:
        notes.append(
            "The lots differ by more than their counts explain "
            f"(chance {chance:.1g}): something changes from lot to lot, and the limits, which "
            "know only chance within a lot, call it out often."
        )
    if limited:
        notes.append(signal.false_alarms(signal.ALARM_EVERY))
    return tuple(notes)


def _even_chance(lots: tuple[ShareLot, ...], center: float) -> float:
    """Chance of lots that differ so much, were each bait bad with the same chance."""
    if not 0 < center < 1:
        return 1.0
    apart = sum((it.bad - it.n * center) ** 2 / (it.n * center * (1 - center)) for it in lots)
    return float(special.chdtrc(max(len(lots) - 1, 1), apart))
