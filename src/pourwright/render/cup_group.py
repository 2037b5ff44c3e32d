"""Cups that are filled alike, so that the sheet says it once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.base.units import System
from pourwright.base.wording import EN_DASH, NBSP, miss, percent, worded
from pourwright.plan.batch_plan import CupPlan, WeighLine


@dataclass(frozen=True, slots=True)
class Measured:
    """One row to measure out: its name, how, its exact weight, and how far it misses."""

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
    poured: str
    rows: tuple[Measured, ...]

    @property
    def title(self) -> str:
        """Which cups, and of which layer."""
        each = "" if len(self.numbers) == 1 else ", each"
        return f"{cups_named(self.numbers)}{each}: {self.layer}"


def cup_groups(cups: Sequence[CupPlan], system: System) -> tuple[CupGroup, ...]:
    """The cups of a plan, those alike put together."""
    found: dict[object, CupGroup] = {}
    for cup in cups:
        one = _group(cup, system)
        key = (one.layer, one.poured, one.rows)
        earlier = found[key].numbers if key in found else ()
        found[key] = CupGroup((*earlier, cup.number), *key)
    return tuple(found.values())


def cups_named(numbers: Sequence[int]) -> str:
    """Cups by number, runs drawn together.

    >>> cups_named((1, 2, 3, 5, 7, 8)), cups_named((4,))
    ('Cups 1–3, 5, 7, 8', 'Cup 4')
    """
    runs: list[list[int]] = []
    for n in sorted(numbers):
        if runs and n == runs[-1][-1] + 1:
            runs[-1].append(n)
        else:
            runs.append([n])
    words = ", ".join(
        f"{run[0]}{EN_DASH}{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs
    )
    return f"{'Cup' if len(numbers) == 1 else 'Cups'} {words}"


def counted(count: int, one: str) -> str:
    r"""A count with its noun.

    >>> counted(1, "shot"), counted(3, "shot")
    ('1\xa0shot', '3\xa0shots')
    """
    return f"{count}{NBSP}{one}{'' if count == 1 else 's'}"


def _group(cup: CupPlan, system: System) -> CupGroup:
    rows = [Measured("Fresh plastic", worded(cup.virgin_g, "g", system))]
    if cup.remelt_g:
        rows.append(Measured("Remelt", worded(cup.remelt_g, "g", system)))
    poured = [counted(cup.shots, "shot")]
    if cup.waves > 1:
        poured.append(counted(cup.waves, "fill"))
    poured += [
        f"plastic up to the {worded(round(cup.fill_line_ml), 'ml', system)} line, cold",
        f"{worded(round(cup.total_g), 'g', system)} in all",
        f"{percent(cup.fill_share)} full",
    ]
    doses = (_dose(weighed, system) for weighed in cup.lines)
    return CupGroup((cup.number,), cup.layer, ", ".join(poured), (*rows, *doses))


def _dose(weighed: WeighLine, system: System) -> Measured:
    if weighed.drops is not None:
        use = counted(weighed.drops, "drop")
    else:
        use = weighed.spoons or worded(weighed.scale_g, "g", system)
    exact = worded(weighed.grams, "g", system)
    return Measured(weighed.name, use, exact, miss(weighed.error_share), weighed.note)
