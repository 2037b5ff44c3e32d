"""Turn the fields of a record into draws, and the width of an answer into plain notes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.field import Field, fields_of
from pourwright.base.record import assumed
from pourwright.base.units import ANY_CURRENCY, UNITS, Unit


def drawn(draws: Draws, record: object, prefix: str = "") -> dict[str, Array]:
    """Draws of every field of a record that may go unmeasured.

    A given value is taken as certain; one left out is drawn from its typical band.
    """
    found: dict[str, Array] = {}
    for field in fields_of(type(record)):
        value = getattr(record, field.name)
        if isinstance(value, Band):
            found[field.name] = draws.of(prefix + field.name, Doubt(field.label, value))
        elif field.spec.doubt is not None:
            found[field.name] = (
                draws.of(prefix + field.name, field.spec.doubt)
                if value is None
                else draws.known(value)
            )
    return found


def left_out(record: object, *, unused: tuple[str, ...] = ()) -> tuple[str, ...]:
    """One note for each field left out that the answer used, with its typical value."""
    return tuple(_typical_note(f) for f in assumed(record) if f.name not in unused)


def width_notes(draws: Draws, answers: Mapping[str, Array]) -> tuple[str, ...]:
    """For each named answer, what its width comes from and what would narrow it."""
    return tuple(note for name, values in answers.items() for note in _notes(draws, name, values))


def _notes(draws: Draws, name: str, values: Array) -> Iterable[str]:
    drivers = draws.drivers(values)
    if drivers:
        causes = ", ".join(f"{d.label} ({d.share:.0%})" for d in drivers)
        yield f"{name}: the range comes mostly from {causes}."
    best = next((d for d in drivers if d.measure), None)
    if best:
        yield f"{name}: to narrow it, {best.measure}."


def _typical_note(field: Field) -> str:
    doubt = field.spec.doubt
    if doubt is None:
        raise TypeError(f"{field.name} has no typical value")
    band = doubt.band
    low, typical, high = (_amount(end, field.unit) for end in (band.low, band.typical, band.high))
    unit = f" {field.unit.label}" if field.unit and field.unit is not UNITS["money"] else ""
    cure = f" To replace it, {doubt.measure}." if doubt.measure else ""
    return f"{field.name} was left out: typical {typical}{unit} ({low} to {high}) stands in.{cure}"


def _amount(value: float, unit: Unit | None) -> str:
    """A number, with a sign before it where it is money."""
    return f"{ANY_CURRENCY if unit is UNITS['money'] else ''}{value:g}"
