"""What finished baits are: which bait in which look, by the ids and the names of both."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.as_it_was import Past
from pourwright.actions.port import Bench, Stored
from pourwright.base.errors import NotFound
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait, Lead, Mold
from pourwright.shop.sheet import Sheet
from pourwright.shop.stock_lot import LotSort, StockLot

_BETWEEN = "|"
UNNAMED = "no longer on the bench"
ASSORTED = "assorted looks"


@dataclass(frozen=True, slots=True)
class BaitKind:
    """A bait in a look; an id is empty where a lot was poured without that record.

    An empty `look` of a bagged lot means several looks in one bag.
    """

    bait: str
    look: str

    @property
    def item(self) -> str:
        """As a bagged lot carries it."""
        return f"{self.bait}{_BETWEEN}{self.look}"


def kind_of_item(item: str) -> BaitKind:
    """What a bagged lot holds."""
    bait, _, look = item.partition(_BETWEEN)
    return BaitKind(bait, look)


class BaitKinds:
    """Looks baits and looks up in one unit of work, each once."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self._past = Past(bench)
        self._named: dict[str, dict[str, Stored]] = {}
        self._sheets: dict[str, Sheet] = {}

    def of(self, lot: StockLot) -> BaitKind:
        """What a poured or a bagged lot holds. Raises: NotFound for a sheet that is not there."""
        return self.of_sheet(self.sheet(lot)) if _poured(lot) else kind_of_item(lot.item)

    def of_sheet(self, sheet: Sheet) -> BaitKind:
        """What a sheet gave."""
        mold = self._past.was(Mold.key, str(sheet.draft.get("mold") or ""), sheet.frozen_at)
        bait = mold.noun.bait if mold and isinstance(mold.noun, Mold) else ""
        return BaitKind(bait, str(sheet.draft.get("look") or ""))

    def sheet(self, lot: StockLot) -> Sheet:
        """The sheet of a poured lot. Raises: NotFound."""
        if not self._sheets:
            self._sheets = {sheet.code: sheet for sheet in self._bench.sheets.all()}
        if lot.code not in self._sheets:
            raise NotFound(f"no sheet carries the code {lot.code!r}")
        return self._sheets[lot.code]

    def bait_name(self, kind: BaitKind) -> str:
        """The name of the bait."""
        return self._name(Bait.key, kind.bait, UNNAMED)

    def look_name(self, kind: BaitKind) -> str:
        """The name of the look; in words where there are several."""
        return self._name(Look.key, kind.look, ASSORTED)

    def bait(self, kind: BaitKind) -> Bait | None:
        """The bait, where its record is known."""
        found = self._all(Bait.key).get(kind.bait)
        return found.noun if found and isinstance(found.noun, Bait) else None

    def look(self, kind: BaitKind) -> Look | None:
        """The look, where there is one and its record is known."""
        found = self._all(Look.key).get(kind.look)
        return found.noun if found and isinstance(found.noun, Look) else None

    def lead(self, kind: BaitKind) -> Lead:
        """What was said of lead in the bait."""
        bait = self.bait(kind)
        return bait.lead if bait else Lead.NOT_SAID

    def _name(self, sort: str, id: str, otherwise: str) -> str:
        found = self._all(sort).get(id)
        return found.noun.name if found else otherwise

    def _all(self, sort: str) -> dict[str, Stored]:
        if sort not in self._named:
            self._named[sort] = {s.id: s for s in self._bench.records.all(sort, retired=True)}
        return self._named[sort]


def _poured(lot: StockLot) -> bool:
    return lot.sort is LotSort.POURED
