"""Cups that are filled alike, so that the sheet says it once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from pourwright.base.units import System
from pourwright.base.wording import EN_DASH, NBSP, miss, percent, worded
from pourwright.render.figure_strip import grams, ounces


@dataclass(frozen=True, slots=True)
class Measured:
    """One row to measure out: its name, how, its weight, and how far it misses."""

    name: str
    use: str
    weight: str = ""
    off: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class CupGroup:
    """Cups alike to the last word printed."""

    numbers: tuple[int, ...]
    layer: str
    filled: str
    poured: str
    rows: tuple[Measured, ...]

    @property
    def title(self) -> str:
        """Which cups, and of which layer."""
        if len(self.numbers) == 1:
            return f"Cup {self.numbers[0]}: {self.layer}"
        return f"Cups {ranges(self.numbers)}, each: {self.layer}"


def cup_groups(cups: Sequence[Mapping[str, Any]], system: System) -> tuple[CupGroup, ...]:
    """The cups of a plan, those alike put together."""
    found: dict[object, CupGroup] = {}
    for cup in cups:
        one = _group(cup, system)
        key = (one.layer, one.filled, one.poured, one.rows)
        earlier = found[key].numbers if key in found else ()
        found[key] = CupGroup((*earlier, cup["number"]), *key)
    return tuple(found.values())


def ranges(numbers: Sequence[int]) -> str:
    """Numbers in words, runs drawn together.

    >>> ranges((1, 2, 3, 5, 7, 8))
    '1–3, 5, 7, 8'
    """
    runs: list[list[int]] = []
    for n in sorted(numbers):
        if runs and n == runs[-1][-1] + 1:
            runs[-1].append(n)
        else:
            runs.append([n])
    return ", ".join(
        f"{run[0]}{EN_DASH}{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs
    )


def counted(count: int, one: str) -> str:
    """A count with its noun.

    >>> counted(1, "shot"), counted(3, "shot")
    ('1\\xa0shot', '3\\xa0shots')
    """
    return f"{count}{NBSP}{one}{'' if count == 1 else 's'}"


def _group(cup: Mapping[str, Any], system: System) -> CupGroup:
    rows = [
        Measured("Fresh plastic", grams(cup["virgin_g"]), ounces(cup["virgin_g"], system)),
        Measured("or fill line, cold", worded(cup["fill_line_ml"], "ml", system)),
    ]
    if cup["remelt_g"]:
        remelt = Measured("Remelt", grams(cup["remelt_g"]), ounces(cup["remelt_g"], system))
        rows.insert(1, remelt)
    poured = [counted(cup["shots"], "shot")]
    if cup["waves"] > 1:
        poured.append(counted(cup["waves"], "fill"))
    if cup["rewarms"]:
        poured.append(counted(cup["rewarms"], "rewarm"))
    return CupGroup(
        (cup["number"],),
        cup["layer"],
        f"{grams(cup['total_g'])} in all, {percent(cup['fill_share'])} full",
        ", ".join(poured),
        (*rows, *(_dose(weighed) for weighed in cup["lines"])),
    )


def _dose(weighed: Mapping[str, Any]) -> Measured:
    spooned = weighed["spoons"] if weighed["spoons"] != "none" else ""
    if weighed["drops"] is not None:
        use = counted(weighed["drops"], "drop")
    else:
        use = spooned or grams(weighed["scale_g"])
    return Measured(
        weighed["name"], use, grams(weighed["grams"]), miss(weighed["error_share"]), weighed["note"]
    )
