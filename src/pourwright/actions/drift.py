"""How a look's color has drifted from lot to lot."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.base.draws import Array
from pourwright.color.calibrate.entry import Read, Source
from pourwright.shop.puck import Puck
from pourwright.spectrum.color_space import hex_of, lab_of, srgb_of, xyz_of_lab
from pourwright.spectrum.difference import delta_e00
from pourwright.spectrum.light import white_xyz, xyz_of


@dataclass(frozen=True, slots=True)
class LotColor:
    """A lot's color against the first one read."""

    lot: str
    read_on: str
    color_hex: str
    delta_e00: float


def lot_colors(bench: Bench, look: str) -> tuple[LotColor, ...]:
    """Lots of a look whose baits were read, oldest first; readings over the first card count."""
    read = [
        s.noun
        for s in bench.records.all(Puck.key)
        if isinstance(s.noun, Puck) and s.noun.source is Source.LOT and s.noun.look == look
    ]
    dated = sorted((p for p in read if p.read_on and p.readings), key=lambda p: (p.read_on, p.name))
    if not dated:
        return ()
    first = _lab(dated[0].readings[0].read)
    return tuple(_lot(p, first) for p in dated)


def _lot(puck: Puck, first: Array) -> LotColor:
    lab = _lab(puck.readings[0].read)
    color = hex_of(srgb_of(xyz_of_lab(lab, white_xyz()))[0])
    return LotColor(puck.lot or puck.name, puck.read_on, color, float(delta_e00(first, lab)))


def _lab(read: Read) -> Array:
    return read.values() if read.lab is not None else lab_of(xyz_of(read.values()), white_xyz())
