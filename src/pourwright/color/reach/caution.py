"""What an answer about a shelf rests on."""

from __future__ import annotations

from collections.abc import Iterable

from pourwright.base.assume import left_out
from pourwright.color.dose import Measured
from pourwright.color.match.bottle import Bottle
from pourwright.color.predict import UNCALIBRATED
from pourwright.color.reach.question import ReachInput
from pourwright.color.reach.stock import Stock

_UNIT = {
    Measured.DROPS: ("drop_mass_g", "mass of one drop", "weigh 20 drops and divide by 20"),
    Measured.SPOONS: (
        "spoon_g", "mass of one level teaspoon", "weigh five level teaspoons and divide by five",
    ),
}  # fmt: skip


def cautions(inputs: ReachInput, stock: Stock) -> Iterable[str]:
    """What was left out, what stands in for it, and what a forecast of these bottles misses."""
    yield from stock.notes
    if not all(b.colorant.measured for b in stock.bottles):
        yield UNCALIBRATED
    yield from dict.fromkeys(b.colorant.limit for b in stock.bottles if b.colorant.limit)
    for measure, (field, label, how) in _UNIT.items():
        yield from _unweighed(stock.bottles, measure, field, f"{label} taken as typical", how)
    for dose in inputs.fixed:
        yield from (*dose.left_out(), *dose.color_left_out())
    plain = [d.name for d in inputs.fixed if d.colorant is None]
    if plain:
        yield f"counted as clear, for want of a color: {', '.join(plain)}"
    if inputs.plastic.constants is None:
        yield from left_out(inputs.plastic)


def _unweighed(
    bottles: Iterable[Bottle], measure: Measured, field: str, what: str, how: str
) -> Iterable[str]:
    names = [b.name for b in bottles if b.measure is measure and getattr(b, field) is None]
    if names:
        yield f"{what} for {', '.join(names)}; to replace it, {how}"
