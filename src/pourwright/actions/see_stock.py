"""What is there of every material, what it is worth, and what runs short."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from pourwright.actions.port import Bench, Stored
from pourwright.actions.post_material import worth_as_bought
from pourwright.actions.pour_standing import pour_standings
from pourwright.actions.see_orders import see_orders
from pourwright.actions.stock_lot_opening import item_of
from pourwright.actions.stock_needs import stock_needs
from pourwright.bench.clock import seconds_between
from pourwright.shop.lot import MG
from pourwright.shop.material import Eyes, Material, Packing, RemeltPot
from pourwright.shop.money import Money
from pourwright.shop.nouns import NOUNS
from pourwright.shop.stock_lot import Held

LOW_SHARE = 0.15  # of a package; common practice, no source
_DAY_S = 86_400


@dataclass(frozen=True, slots=True)
class LotOnShelf:
    """A lot with something in it, and how long ago it was begun."""

    held: Held
    days: int


@dataclass(frozen=True, slots=True)
class MaterialStock:
    """A material: what is there, what it is worth, what will be taken, whether that runs short.

    `counted` is false where nobody ever counted or bought it.
    """

    sort: str
    id: str
    label: str
    name: str
    by_piece: bool
    mg: int
    pieces: int
    worth: Money
    need_mg: int
    package_mg: int
    counted: bool
    bought: bool
    lots: tuple[LotOnShelf, ...]

    @property
    def short_mg(self) -> int:
        """What open orders and frozen sheets want beyond what is there."""
        return max(0, self.need_mg - self.mg) if self.counted else 0

    @property
    def low(self) -> bool:
        """Whether little of the package is left."""
        return self.counted and not self.by_piece and self.mg < LOW_SHARE * self.package_mg

    @property
    def package_share(self) -> float | None:
        """What is there as a part of one package, 1 at most; none where that is not known."""
        return min(1.0, self.mg / self.package_mg) if self.package_mg else None


@dataclass(frozen=True, slots=True)
class Stock:
    """Everything on the shelf, what runs short first; `unknown` are ordered kinds never poured."""

    materials: tuple[MaterialStock, ...]
    worth: Money
    unknown: tuple[str, ...]


def see_stock(bench: Bench, now: str, today: str) -> Stock:
    """The shelf at a moment."""
    held: dict[str, list[Held]] = defaultdict(list)
    for it in bench.stock.lots():
        held[it.lot.item].append(it)
    needs = stock_needs(bench, pour_standings(bench), see_orders(bench, today).wanted)
    found = [
        _material(stored, held[item_of(sort.key, stored.id)], needs.mg[stored.id], now)
        for sort in NOUNS.values()
        if issubclass(sort, Material | Eyes | Packing)
        for stored in bench.records.all(sort.key)
    ]
    found.sort(key=lambda it: (not it.short_mg, not it.low, not it.counted))
    return Stock(tuple(found), sum((it.worth for it in found), Money(0)), needs.unknown)


def _material(stored: Stored, lots: list[Held], need_mg: int, now: str) -> MaterialStock:
    noun = stored.noun
    by_piece = not isinstance(noun, Material)
    mg, worth = sum(h.mg for h in lots), sum(h.cost for h in lots)
    counted, package_mg = bool(lots), 0
    if isinstance(noun, Material):
        package_mg = round((noun.package_g or 0) * MG)
        if not lots and noun.on_hand_g is not None:
            mg, counted = round(noun.on_hand_g * MG), True
            worth = worth_as_bought(noun, mg)
    return MaterialStock(
        sort=stored.sort,
        id=stored.id,
        label=noun.label,
        name=noun.name,
        by_piece=by_piece,
        mg=mg,
        pieces=sum(h.pieces for h in lots),
        worth=Money(worth),
        need_mg=need_mg,
        package_mg=package_mg,
        counted=counted,
        bought=not isinstance(noun, RemeltPot),
        lots=tuple(
            LotOnShelf(h, int(seconds_between(h.lot.opened_at, now) // _DAY_S))
            for h in lots
            if h.mg or h.pieces
        ),
    )
