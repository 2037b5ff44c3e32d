"""Numbers that can be opened: what went in, where the method comes from, what narrows them."""

from __future__ import annotations

from pourwright.base.band import Band, exact
from pourwright.base.draws import Array, Draws
from pourwright.plan.batch_plan import Figure


def figure(
    draws: Draws,
    key: str,
    label: str,
    values: Array | Band | float,
    *,
    unit: str,
    inputs: tuple[str, ...],
    source: str,
) -> Figure:
    """A figure of drawn values, of a band, or of a value taken as certain."""
    if isinstance(values, Band):
        return Figure(key, label, values, unit, inputs, source, ())
    if isinstance(values, (int, float)):
        return Figure(key, label, exact(float(values)), unit, inputs, source, ())
    return Figure(key, label, draws.band(values), unit, inputs, source, narrowing(draws, values))


def narrowing(draws: Draws, values: Array) -> tuple[str, ...]:
    """What the width comes from, largest first, each with its measurement."""
    return tuple(
        f"{d.label}: {d.share:.0%} of the range" + (f"; {d.measure}" if d.measure else "")
        for d in draws.drivers(values)
    )
