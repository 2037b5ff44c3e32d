"""How much of each plasticizer softens as much as so much of the most studied one."""

from __future__ import annotations

from enum import StrEnum

from pourwright.base.source import memory


class Plasticizer(StrEnum):
    """Plasticizers by their chemical names."""

    DIBUTYL_PHTHALATE = "dibutyl phthalate"
    BUTYL_BENZYL_PHTHALATE = "butyl benzyl phthalate"
    ETHYLHEXYL_ADIPATE = "bis(2-ethylhexyl) adipate"
    ETHYLHEXYL_PHTHALATE = "bis(2-ethylhexyl) phthalate"
    ETHYLHEXYL_TEREPHTHALATE = "bis(2-ethylhexyl) terephthalate"
    ISONONYL_PHTHALATE = "diisononyl phthalate"
    ISODECYL_PHTHALATE = "diisodecyl phthalate"


SUBSTITUTION_SOURCE = memory(
    "Krauskopf and Godwin, Plasticizers, in Wilkes et al., PVC Handbook (2005): substitution "
    "factors against bis(2-ethylhexyl) phthalate"
)
# Parts that soften as much as one part of bis(2-ethylhexyl) phthalate.
SUBSTITUTION = {
    Plasticizer.DIBUTYL_PHTHALATE: 0.86,
    Plasticizer.BUTYL_BENZYL_PHTHALATE: 0.94,
    Plasticizer.ETHYLHEXYL_ADIPATE: 0.93,
    Plasticizer.ETHYLHEXYL_PHTHALATE: 1.00,
    Plasticizer.ETHYLHEXYL_TEREPHTHALATE: 1.03,
    Plasticizer.ISONONYL_PHTHALATE: 1.06,
    Plasticizer.ISODECYL_PHTHALATE: 1.10,
}
