"""The rack in words and pictures: a card for each lot and for each sort of bag."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from pourwright.actions.bait_kind import BaitKinds
from pourwright.actions.port import Bench
from pourwright.actions.see_rack import Bags, RackLot
from pourwright.web.local_time import day_of, time_of_day
from pourwright.web.thumb import KindThumbs, LotThumbs, Thumb

_DAY = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class LooseCard:
    """Baits in no bag; `hangs` and `due` are empty once they are off the rack."""

    code: str
    number: int
    bait: str
    look: str
    baits: int
    set_aside: int
    since: str
    hangs: str
    due: str
    overdue: bool
    thumb: Thumb | None
    off_id: str
    out_id: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BagRow:
    """One lot of bags."""

    code: str
    baits: int
    bags: int
    odd: int
    set_aside: int
    since: str
    out_id: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BagCard:
    """Bags of one bait in one look and of one size."""

    bait: str
    look: str
    each: int
    bags: int
    set_aside: int
    oldest: str
    rows: tuple[BagRow, ...]
    thumb: Thumb | None


class Thumbs:
    """Pictures of lots as they were poured."""

    def __init__(self, bench: Bench) -> None:
        self._lots = LotThumbs(bench)
        self._sheets = BaitKinds(bench)

    def of_lot(self, lot: RackLot) -> Thumb | None:
        """A poured lot."""
        return self._lots.of(self._sheets.sheet(lot.held.lot))


def loose_cards(
    lots: Iterable[RackLot], now: str, thumbs: Thumbs, fresh: Callable[[], str]
) -> tuple[LooseCard, ...]:
    """Baits in no bag."""
    return tuple(_loose(lot, now, thumbs, fresh) for lot in lots)


def bag_cards(
    bags: Iterable[Bags], thumbs: KindThumbs, fresh: Callable[[], str]
) -> tuple[BagCard, ...]:
    """Bags, by bait, look and size."""
    return tuple(_bags(it, thumbs, fresh) for it in bags)


def _loose(lot: RackLot, now: str, thumbs: Thumbs, fresh: Callable[[], str]) -> LooseCard:
    hung = lot.hanging
    return LooseCard(
        code=lot.code,
        number=lot.sheet or 0,
        bait=lot.bait,
        look=lot.look,
        baits=lot.held.pieces,
        set_aside=lot.set_aside,
        since=_since(lot),
        hangs=f"On the {hung.place} since {time_of_day(hung.hung_at, now)}" if hung else "",
        due=time_of_day(hung.due_at, now) if hung else "",
        overdue=bool(hung and hung.overdue),
        thumb=thumbs.of_lot(lot),
        off_id=fresh(),
        out_id=fresh(),
    )


def _bags(it: Bags, thumbs: KindThumbs, fresh: Callable[[], str]) -> BagCard:
    first = it.first
    return BagCard(
        bait=first.bait,
        look=first.look,
        each=first.each,
        bags=it.bags,
        set_aside=it.set_aside,
        oldest=_since(first),
        rows=tuple(_row(lot, fresh) for lot in it.lots),
        thumb=thumbs.of(first.kind),
    )


def _row(lot: RackLot, fresh: Callable[[], str]) -> BagRow:
    return BagRow(
        code=lot.code,
        baits=lot.held.pieces,
        bags=lot.bags,
        odd=lot.odd,
        set_aside=lot.bags_set_aside,
        since=_since(lot),
        out_id=fresh(),
    )


def _since(lot: RackLot) -> str:
    """The day a lot was begun, and how long ago that is."""
    days = lot.age_days
    ago = "today" if days < _DAY else f"{days} day{'' if days == _DAY else 's'} ago"
    return f"{day_of(lot.held.lot.opened_at)}, {ago}"
