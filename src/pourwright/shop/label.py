"""What stands on a bag: its lot, what is in it, and the words that go with it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.units import System, convert
from pourwright.base.wording import worded
from pourwright.shop.mold import Lead

TAKE_HOME = "Take used baits home"
INVENTED = "Invented demo data"
# Shown wherever labels are made; deliberately no list of places and no verdict.
CHECK_LOCALLY = (
    "Rules on lead, on plasticizers and on what must stand on a bag differ from place to place and "
    "change: check those of every place you sell to, or ask a licensed adviser there. A label "
    "repeats what you typed and proves nothing."
)


class Face(StrEnum):
    """What a label is for."""

    LOT = "lot"
    ARTICLE = "article number"


@dataclass(frozen=True, slots=True, kw_only=True)
class BagLabel:
    """The label of one bag; `net_mg` is null where nobody weighed the lot.

    `article` is an article number the maker was issued, empty for none.
    """

    code: str
    bait: str
    look: str
    baits_each: int
    poured_on: str
    lead: Lead
    net_mg: int | None
    article: str = ""
    demo: bool = False

    def lines(self) -> tuple[str, ...]:
        """What follows the names of bait and look, a phrase each; weights in both systems."""
        said = (
            _counted(self.baits_each),
            _net(self.net_mg),
            f"Poured {self.poured_on}" if self.poured_on else "",
            f"Contains lead: {self.lead.value}",
            INVENTED if self.demo else "",
        )
        return tuple(filter(None, said))


def _counted(baits: int) -> str:
    return "1 bait" if baits == 1 else f"{baits} baits"


def _net(mg: int | None) -> str:
    if mg is None:
        return ""
    grams = mg / 1000
    ounces = worded(convert(grams, "g", "oz"), "oz", System.METRIC)
    return f"about {worded(grams, 'g', System.METRIC)} ({ounces})"
