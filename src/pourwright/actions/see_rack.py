"""The rack: what hangs, what lies loose, what is bagged, and what of it is spoken for."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from pourwright.actions.bait_kind import BaitKind, BaitKinds
from pourwright.actions.baits_set_aside import baits_set_aside
from pourwright.actions.hanging import Hanging, hanging_lots
from pourwright.actions.port import Bench
from pourwright.bench.clock import seconds_between
from pourwright.shop.stock_lot import Held, LotSort

_DAY_S = 86_400


@dataclass(frozen=True, slots=True, kw_only=True)
class RackLot:
    """A poured or bagged lot that holds baits; `hanging` is none once it is off the rack.

    `set_aside` and `free` count baits; together they are what it holds.
    """

    held: Held
    kind: BaitKind
    bait: str
    look: str
    sheet: int | None
    age_days: int
    set_aside: int
    hanging: Hanging | None = None

    @property
    def free(self) -> int:
        """Baits nobody has set aside."""
        return max(0, self.held.pieces - self.set_aside)

    @property
    def code(self) -> str:
        """Its code."""
        return self.held.lot.code

    @property
    def each(self) -> int:
        """Baits to a bag."""
        return self.held.lot.baits_each

    @property
    def bags(self) -> int:
        """Whole bags of a bagged lot."""
        return self.held.pieces // self.each

    @property
    def odd(self) -> int:
        """Baits of a bagged lot that fill no bag any more."""
        return self.held.pieces % self.each

    @property
    def bags_set_aside(self) -> int:
        """Bags that orders have set aside."""
        return self.set_aside // self.each

    def in_bags_of(self, each: int) -> int:
        """The free baits that fill whole bags of so many."""
        return self.free - self.free % each


@dataclass(frozen=True, slots=True)
class Bags:
    """Bags of one bait in one look and of one size, the oldest lot first."""

    lots: tuple[RackLot, ...]

    @property
    def first(self) -> RackLot:
        """The lot to sell first; all share bait, look and size."""
        return self.lots[0]

    @property
    def bags(self) -> int:
        """Whole bags."""
        return sum(lot.bags for lot in self.lots)

    @property
    def set_aside(self) -> int:
        """Bags that orders have set aside."""
        return sum(lot.bags_set_aside for lot in self.lots)


@dataclass(frozen=True, slots=True)
class Rack:
    """Finished baits at a moment; `unbooked` hang and are in no stock: nobody counted them."""

    now: str
    loose: tuple[RackLot, ...]
    bags: tuple[Bags, ...]
    unbooked: tuple[Hanging, ...]

    @property
    def loose_baits(self) -> int:
        """Baits in no bag."""
        return sum(lot.held.pieces for lot in self.loose)

    @property
    def bag_count(self) -> int:
        """Bags on the shelf."""
        return sum(it.bags for it in self.bags)

    @property
    def set_aside(self) -> int:
        """Of those, bags that orders have set aside."""
        return sum(it.set_aside for it in self.bags)


def see_rack(bench: Bench, now: str) -> Rack:
    """The rack at a moment; what is due off it first, then the oldest."""
    kinds, aside = BaitKinds(bench), baits_set_aside(bench)
    hanging = {it.sheet.code: it for it in hanging_lots(bench, now)}
    poured = bench.stock.lots(LotSort.POURED)
    loose = [rack_lot(held, kinds, now, aside, hanging) for held in poured if held.pieces > 0]
    bagged = [
        rack_lot(held, kinds, now, aside, {})
        for held in bench.stock.lots(LotSort.BAGGED, present=True)
        if held.pieces > 0
    ]
    booked = {held.lot.code for held in poured}
    return Rack(
        now=now,
        loose=tuple(sorted(loose, key=_turn)),
        bags=_shelved(bagged),
        unbooked=tuple(it for code, it in hanging.items() if code not in booked),
    )


def _turn(lot: RackLot) -> tuple[bool, str]:
    """What hangs, by when it is due; sorting is stable, so the rest stays the oldest first."""
    return lot.hanging is None, lot.hanging.due_at if lot.hanging else ""


def rack_lot(
    held: Held, kinds: BaitKinds, now: str, aside: Mapping[str, int],
    hanging: Mapping[str, Hanging],
) -> RackLot:  # fmt: skip
    """A lot with what is known around it."""
    lot = held.lot
    kind = kinds.of(lot)
    return RackLot(
        held=held,
        kind=kind,
        bait=kinds.bait_name(kind),
        look=kinds.look_name(kind),
        sheet=int(lot.item.removeprefix("sheet/")) if lot.sort is LotSort.POURED else None,
        age_days=int(seconds_between(lot.opened_at, now) // _DAY_S),
        set_aside=aside.get(lot.code, 0),
        hanging=hanging.get(lot.code),
    )


def _shelved(lots: Iterable[RackLot]) -> tuple[Bags, ...]:
    def what(lot: RackLot) -> tuple[str, str, str, int]:
        return lot.bait, lot.look, lot.kind.item, lot.each

    # Sorting is stable: the lots of a group stay the oldest first, as the store gave them.
    return tuple(Bags(tuple(group)) for _, group in itertools.groupby(sorted(lots, key=what), what))
