"""How loosely parts that slide into each other are made."""

from __future__ import annotations

from pourwright.matter.mold_material import MoldMaterial

# Play all around, mm: a cut socket, a socket that copies its master, a printed one; estimates.
_PLAY_MM = {MoldMaterial.ALUMINUM: 0.05, MoldMaterial.PRINTED_RESIN: 0.15}
_CAST_MM = 0.1


def play_mm(material: MoldMaterial) -> float:
    """Play all around a pin in its socket."""
    return _PLAY_MM.get(material, _CAST_MM)
