"""The books as a double-entry journal: stock, tools, sales, and a tax where there are rules."""

from __future__ import annotations

import calendar
from collections.abc import Iterable, Iterator, Mapping

from pourwright.actions.money_totals import money_months
from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.actions.sales_of import KeptSale, sales_of
from pourwright.actions.stock_flows import Day
from pourwright.actions.tools_bought import ToolBought, tools_bought
from pourwright.shop.journal import Entry, Journal, Posting, transfer
from pourwright.shop.money import Money
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.stock_lot import LotSort, StockLot

MONEY = "assets:money"
STOCK: Mapping[LotSort, str] = {
    LotSort.MATERIAL: "assets:stock:materials",
    LotSort.POT: "assets:stock:remelt",
    LotSort.POURED: "assets:stock:poured",
    LotSort.BAGGED: "assets:stock:bagged",
}
TOOLS = "assets:tools"
GOODS, DELIVERY = "income:goods", "income:delivery"
COST, FEES = "expenses:cost of what was sold", "expenses:selling fees"
TAX, TAX_OWED = "expenses:maker's tax", "liabilities:maker's tax set aside"
# The other side of a move one end of which is no lot.
_OUTSIDE: Mapping[MoveKind, str] = {
    MoveKind.BOUGHT: MONEY,
    MoveKind.MADE: "income:worth of what was made",
    MoveKind.SOLD: COST,
    MoveKind.RETURNED: COST,
    MoveKind.COUNTED: "expenses:found by counting",
    MoveKind.SCRAPPED: "expenses:scrapped",
}
_ELSE = "equity:stock adjusted"


def journal_of(bench: Bench, day: Day) -> Journal:
    """Everything that moved money or stock, by day; `day` says on which day a time falls.

    A sale that was taken back is taken back by an entry of its own. Tools and molds stand there at
    what was paid for them where the day is known; nothing is written off. The tax, reckoned only
    where a profile has rules for it, is set aside at the end of each month.
    """
    moves, sales = bench.stock.moves(), sales_of(bench)
    entries = [
        *_of_moves(moves, {it.lot.code: it.lot for it in bench.stock.lots()}, day),
        *(_of_tool(it) for it in tools_bought(bench)),
        *(entry for it in sales for entry in _of_sale(it, day)),
        *_of_tax(bench, sales, day),
    ]
    ordered = tuple(sorted(entries, key=lambda entry: entry.day))
    return Journal(workplace(bench).currency, ordered)


def _of_moves(moves: Iterable[Move], lots: Mapping[str, StockLot], day: Day) -> Iterator[Entry]:
    kinds: dict[str, MoveKind] = {}
    for move in moves:
        kinds[move.id] = kind = kinds.get(move.reverses, move.kind)
        if not move.cost:
            continue
        outside = _OUTSIDE.get(kind, _ELSE)
        source, target = (
            STOCK[lots[code].sort] if code else outside for code in (move.source, move.target)
        )
        words = f"{move.kind.value}: {_named(move, lots)}"
        yield transfer(day(move.at), words, source=source, target=target, amount=Money(move.cost))


def _named(move: Move, lots: Mapping[str, StockLot]) -> str:
    return " to ".join(f"{lots[c].name} {c}" for c in (move.source, move.target) if c)


def _of_tool(it: ToolBought) -> Entry:
    target = f"{TOOLS}:{it.sort.plural.lower()}"
    return transfer(it.day, f"bought: {it.name}", source=MONEY, target=target, amount=it.paid)


def _of_sale(it: KeptSale, day: Day) -> Iterator[Entry]:
    sale = it.sale
    delivery, fees = Money.of(sale.delivery_money), Money.of(sale.fees_money)
    amounts = (
        (MONEY, sale.received - fees),
        (FEES, fees),
        (GOODS, delivery - sale.received),
        (DELIVERY, -delivery),
    )
    postings = tuple(Posting(account, amount) for account, amount in amounts if amount != Money(0))
    if not postings:
        return
    yield Entry(sale.sold_on, f"sold: sale {it.id}", postings)
    if it.taken_back:
        back = tuple(Posting(p.account, -p.amount) for p in postings)
        yield Entry(day(it.taken_back), f"sale taken back: sale {it.id}", back)


def _of_tax(bench: Bench, sales: Iterable[KeptSale], day: Day) -> Iterator[Entry]:
    months = sorted({it.sale.sold_on[:7] for it in sales})
    if not months:
        return
    for it in money_months(bench, _run(months[0], months[-1]), day):
        inside, added = it.totals.tax_inside or Money(0), it.totals.tax_added or Money(0)
        postings = (Posting(TAX, inside), Posting(MONEY, added), Posting(TAX_OWED, -inside - added))
        kept = tuple(p for p in postings if p.amount != Money(0))
        if kept:
            yield Entry(_last_day(it.month), f"tax set aside for {it.month}", kept)


def _run(first: str, last: str) -> tuple[str, ...]:
    """The months from the first to the last."""
    begin, end = (int(m[:4]) * 12 + int(m[5:]) - 1 for m in (first, last))
    return tuple(f"{n // 12:04}-{n % 12 + 1:02}" for n in range(begin, end + 1))


def _last_day(month: str) -> str:
    year, number = int(month[:4]), int(month[5:])
    return f"{month}-{calendar.monthrange(year, number)[1]:02}"
