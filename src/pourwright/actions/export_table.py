"""Tables for a spreadsheet: materials, lots, moves, orders, sales, sheets."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from pourwright.actions.port import Bench, Cell
from pourwright.actions.sales_of import sales_of
from pourwright.base.errors import NotFound
from pourwright.shop.lot import MG
from pourwright.shop.material import Material
from pourwright.shop.money import Money
from pourwright.shop.nouns import NOUNS
from pourwright.shop.order import Order

Row = tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class TableKind:
    """A table that can be asked for: what it is called, its columns, and how it is filled."""

    label: str
    header: tuple[str, ...]
    rows: Callable[[Bench], Iterator[Row]]


@dataclass(frozen=True, slots=True)
class Table:
    """A table, filled."""

    name: str
    header: tuple[str, ...]
    rows: tuple[Row, ...]


def table_of(bench: Bench, name: str) -> Table:
    """The table of that name. Raises: NotFound."""
    if name not in TABLES:
        raise NotFound(f"there is no table {name!r}; there are {', '.join(TABLES)}")
    kind = TABLES[name]
    return Table(name, kind.header, tuple(kind.rows(bench)))


def _materials(bench: Bench) -> Iterator[Row]:
    for sort, noun in NOUNS.items():
        if not issubclass(noun, Material):
            continue
        for it in bench.records.all(sort):
            m = it.noun
            if isinstance(m, Material):
                price = None if m.package_price_money is None else Money.of(m.package_price_money)
                yield it.id, sort, m.name, m.package_g, price, m.on_hand_g, m.lot, m.note


def _lots(bench: Bench) -> Iterator[Row]:
    for held in bench.stock.lots():
        lot = held.lot
        yield (
            lot.code, lot.sort.value, lot.item, lot.name, lot.opened_at, lot.baits_each,
            held.mg / MG, held.pieces, Money(held.cost),
        )  # fmt: skip


def _moves(bench: Bench) -> Iterator[Row]:
    for it in bench.stock.moves():
        yield (
            it.id, it.at, it.kind.value, it.source, it.target, it.mg / MG, it.pieces,
            Money(it.cost), it.cause, it.reverses, it.note,
        )  # fmt: skip


def _orders(bench: Bench) -> Iterator[Row]:
    for stored in bench.records.all(Order.key):
        order = stored.noun
        if not isinstance(order, Order):
            continue
        for line in order.lines:
            price = None if line.price_money is None else Money.of(line.price_money)
            yield (
                stored.id, order.customer, order.taken_on, order.due_on, order.channel,
                order.state.value, line.bait, line.look, line.packs, line.baits_each, price,
                order.note,
            )  # fmt: skip


def _sales(bench: Bench) -> Iterator[Row]:
    for kept in sales_of(bench):
        sale = kept.sale
        for place, line in enumerate(sale.lines):
            first = place == 0
            yield (
                kept.id, sale.sold_on, sale.order, sale.customer, sale.channel, line.bait,
                line.look, line.lot, line.packs, line.baits_each, Money.of(line.price_money),
                line.tax_way.value, line.exempt.value, line.proof,
                Money.of(sale.delivery_money) if first else Money(0),
                Money.of(sale.fees_money) if first else Money(0), kept.taken_back, sale.note,
            )  # fmt: skip


def _sheets(bench: Bench) -> Iterator[Row]:
    for it in reversed(bench.sheets.all()):
        mold, look = str(it.draft.get("mold") or ""), str(it.draft.get("look") or "")
        yield it.number, it.code, it.frozen_at, it.title, mold, look, int(it.plan["shots"])


TABLES: Mapping[str, TableKind] = {
    "materials": TableKind(
        "Materials",
        ("id", "sort", "name", "package_g", "package_price_money", "on_hand_g", "lot", "note"),
        _materials,
    ),
    "lots": TableKind(
        "Lots",
        (
            "code", "sort", "item", "name", "opened_at", "baits_each", "held_g", "held_pieces",
            "worth_money",
        ),
        _lots,
    ),
    "moves": TableKind(
        "Moves",
        (
            "id", "at", "kind", "source", "target", "moved_g", "pieces", "cost_money", "cause",
            "reverses", "note",
        ),
        _moves,
    ),
    "orders": TableKind(
        "Orders",
        (
            "order", "customer", "taken_on", "due_on", "channel", "state", "bait", "look", "packs",
            "baits_each", "price_money", "note",
        ),
        _orders,
    ),
    "sales": TableKind(
        "Sales",
        (
            "sale", "sold_on", "order", "customer", "channel", "bait", "look", "lot", "packs",
            "baits_each", "price_money", "tax_way", "exempt", "proof", "delivery_money",
            "fees_money", "taken_back_at", "note",
        ),
        _sales,
    ),
    "sheets": TableKind(
        "Batch sheets",
        ("number", "code", "frozen_at", "title", "mold", "look", "shots"),
        _sheets,
    ),
}  # fmt: skip
