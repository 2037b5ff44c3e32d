"""How a look's color has drifted from lot to lot."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from pourwright.actions.port import Bench
from pourwright.base.draws import Array
from pourwright.color.calibrate.entry import Read, Source
from pourwright.color.lab import lab_read, screen_of
from pourwright.shop.puck import Puck
from pourwright.spectrum.difference import delta_e00


@dataclass(frozen=True, slots=True)
class LotColor:
    """A lot's color against the first one read."""

    lot: str
    read_on: str
    color_hex: str
    delta_e00: float


def lot_colors(bench: Bench, look: str) -> tuple[LotColor, ...]:
    """Lots of a look whose baits were read, oldest first.

    Only those read as the first was count: over its card, at its thickness, lying as it lay.
    """
    read = [
        s.noun
        for s in bench.records.all(Puck.key)
        if isinstance(s.noun, Puck) and s.noun.source is Source.LOT and s.noun.look == look
    ]
    usable = (p for p in read if p.readings and _is_day(p.read_on))
    dated = sorted(usable, key=lambda p: (p.read_on, p.name))
    if not dated:
        return ()
    alike = [(p, r) for p in dated if (r := _read_as(dated[0], p)) is not None]
    first = lab_read(alike[0][1].values())
    return tuple(_lot(puck, lab_read(read.values()), first) for puck, read in alike)


def _read_as(first: Puck, puck: Puck) -> Read | None:
    """A lot's reading over the first lot's card; none where it was read otherwise."""
    if (puck.thick_mm, puck.placing) != (first.thick_mm, first.placing):
        return None
    card = first.readings[0].card
    return next((r.read for r in puck.readings if r.card == card), None)


def _is_day(text: str) -> bool:
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def _lot(puck: Puck, lab: Array, first: Array) -> LotColor:
    off = float(delta_e00(first, lab))
    return LotColor(puck.lot or puck.name, puck.read_on, screen_of(lab)[0], off)
