"""Planned against actual: what a lot really gave and cost."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pourwright.base.band import Band
from pourwright.base.field import out
from pourwright.shop.lot import LotEntry
from pourwright.shop.lot_cost import NO_MOVES, LotCost, Taken, lot_cost
from pourwright.shop.sheet import Sheet


@dataclass(frozen=True, slots=True)
class Compared:
    """One quantity, planned and actual."""

    label: str = out("What it is")
    unit: str = out("Unit key")
    planned: Band = out("As the sheet said")
    actual: float = out("As it came out")
    within: bool = out("Whether the actual lies in the planned range")


@dataclass(frozen=True, slots=True)
class Comparison:
    """A lot beside its sheet."""

    lines: tuple[Compared, ...] = out("Quantity by quantity")
    counted: str = out("How the baits came out, in words")
    reject_share: float = out("Share of the counted baits that were no good, warm-up ones apart")
    cost_total_money: float = out("Cost of the batch, with what was entered")
    cost_each_money: float | None = out("Cost of one good bait; null if none was good")
    notes: tuple[str, ...] = out("What the comparison rests on")


def compared(sheet: Sheet, entry: LotEntry, taken: Taken = NO_MOVES) -> Comparison:
    """What a lot gave against what its sheet promised."""
    figures = {f["key"]: f for f in sheet.plan["figures"]}
    counted = entry.good + entry.rejected
    cost = lot_cost(sheet, entry, taken)
    each = cost.each.amount if cost.each else None
    lines = [
        _line(
            "Shots",
            "",
            Band(sheet.plan["shots"], sheet.plan["shots"], sheet.plan["shots"]),
            entry.shots,
        ),
        _line("Good baits", "", _band(figures["good"]), entry.good),
    ]
    if entry.bait_g is not None:
        lines.append(_line("One bait", "g", _band(figures["bait_g"]), entry.bait_g))
    if entry.minutes is not None:
        lines.append(_line("Minutes", "min", _band(figures["minutes"]), entry.minutes))
    if each is not None:
        lines.append(
            _line("Cost of one good bait", "money", _band(figures["cost_each_money"]), each)
        )
    share = entry.rejected / counted if counted else 0.0
    return Comparison(
        lines=tuple(lines),
        counted=_counted_words(entry),
        reject_share=share,
        cost_total_money=cost.total.amount,
        cost_each_money=each,
        notes=_notes(cost),
    )


def _counted_words(entry: LotEntry) -> str:
    """Good and rejected ones; those of warm-up shots belong to neither."""
    rejects = (
        ("flash", entry.flash), ("short", entry.short), ("dent", entry.dent),
        ("bubble", entry.bubble), ("torn", entry.torn), ("other", entry.other),
    )  # fmt: skip
    trimmed = f", {entry.trimmed} of them trimmed first" if entry.trimmed else ""
    sorts = ", ".join(f"{count} {name}" for name, count in rejects if count)
    words = f"{entry.good} good{trimmed}; {entry.rejected} rejected"
    words += f" ({sorts})." if sorts else "."
    if entry.warmup:
        words += f" {entry.warmup} from warm-up shots, counted apart."
    return words


def _line(label: str, unit: str, planned: Band, actual: float) -> Compared:
    return Compared(label, unit, planned, actual, planned.low <= actual <= planned.high)


def _band(figure: Mapping[str, Any]) -> Band:
    value = figure["value"]
    return Band(value["low"], value["typical"], value["high"])


def _notes(cost: LotCost) -> tuple[str, ...]:
    """Which kinds come from where, one sentence a source."""
    known = dict.fromkeys(k.known for k in cost.kinds)
    return tuple(
        f"{_opened(', '.join(k.kind for k in cost.kinds if k.known == where))} {where}."
        for where in known
    )


def _opened(words: str) -> str:
    """Words as a sentence opens."""
    return words[:1].upper() + words[1:]
