"""Sell without an order: pick from what lies finished, see the sum, write it down."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from pourwright.actions.port import Bench
from pourwright.actions.sell_at_door import (
    FREE_LOT,
    DoorEntry,
    FreeLot,
    door_sale,
    free_lots,
    sell_at_door,
)
from pourwright.actions.tax_standing import tax_standing
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.shop.sale import Sale, TaxWay
from pourwright.web.event_id import event_id
from pourwright.web.form import Typed, parsed, rows_of, texts_of
from pourwright.web.form_edit import MOST_ROWS, edited
from pourwright.web.names import Names
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.sold_lines import SoldLine, sold_lines
from pourwright.web.tax_ask import TaxAsk, take_country, tax_ask
from pourwright.web.today_here import day_here
from pourwright.web.widget import Choice, Choices, FormView, form_view

SAVE, SUM = "save", "sum"
# The list of lots can be long; a link may say which one is sold.
LOT = "lot"


@dataclass(frozen=True, slots=True)
class SellContext:
    """A sale being entered; `sale` and its `lines` stand there once the sum was asked for."""

    title: str
    form: FormView
    event: str
    tax: TaxAsk
    anything: bool
    sale: Sale | None
    lines: tuple[SoldLine, ...]
    refused: str


@dataclass(frozen=True, slots=True)
class _Entry:
    """What the view knows while it answers."""

    typed: Typed
    event: str
    problems: Mapping[str, str] = field(default_factory=dict)
    refused: str = ""
    sale: Sale | None = None


def sell(visit: Visit) -> Show | Go:
    """A sale of what lies finished."""
    if not visit.posted:
        return _page(visit, _Entry(_blank(visit), visit.world.ids.fresh()))
    sent = dict(visit.sent)
    command, event = sent.pop("@do", SAVE), sent.pop("@event", "")
    entry = _Entry(sent, event)
    if take_country(visit.world, command):
        return _page(visit, entry)
    if command not in {SAVE, SUM}:
        return _page(visit, replace(entry, typed=_edited(visit, sent, command)))
    found = parsed(DoorEntry, sent, visit.settings)
    if found.problems:
        return _page(visit, replace(entry, problems=found.problems), 422)
    try:
        if command == SUM:
            with visit.world.reading() as bench:
                return _page(visit, replace(entry, sale=door_sale(bench, found.record)))
        return Go(f"/sales/{sell_at_door(visit.world, found.record, key=event_id(event)).id}")
    except BadInput as error:
        return _page(visit, replace(entry, problems={error.field: error.why}), 422)
    except PourwrightError as error:
        return _page(visit, replace(entry, refused=str(error)), error.http_status)


def _blank(visit: Visit) -> dict[str, str]:
    typed = texts_of(DoorEntry, None, visit.settings.system)
    lot = visit.request.query_params.get(LOT, "")
    today = day_here(visit.world.clock.now())
    way = {"lines[0].tax_way": _way(visit)}
    return typed | way | {"sold_on": today, "lines[0].lot": lot, "lines[0].packs": "1"}


def _edited(visit: Visit, typed: Typed, command: str) -> dict[str, str]:
    """The form with a row more or fewer; a new one takes the usual way of the tax."""
    found = edited(DoorEntry, typed, command, visit.settings.system)
    rows = rows_of(found, "lines", MOST_ROWS)
    if rows <= rows_of(typed, "lines", MOST_ROWS):
        return found
    return found | {f"lines[{rows - 1}].tax_way": _way(visit), f"lines[{rows - 1}].packs": "1"}


def _way(visit: Visit) -> str:
    with visit.world.reading() as bench:
        profile = tax_standing(bench)
    return (profile.tax_way if profile else TaxWay.INSIDE).value


def _page(visit: Visit, entry: _Entry, status: int = 200) -> Show:
    with visit.world.reading() as bench:
        there, names = free_lots(bench), Names(bench)
        lots = _choices(there)
        form = form_view(
            DoorEntry, entry.typed, problems=entry.problems, settings=visit.settings,
            references=lambda refers: lots if refers == FREE_LOT else names.choices(refers),
        )  # fmt: skip
        context = SellContext(
            title="Sell without an order",
            form=form,
            event=entry.event,
            tax=tax_ask(bench),
            anything=bool(there),
            sale=entry.sale,
            lines=_lines(bench, entry.sale),
            refused=entry.refused,
        )
    return Show("orders/sell.html", context, status)


def _lines(bench: Bench, sale: Sale | None) -> tuple[SoldLine, ...]:
    return sold_lines(bench, sale) if sale else ()


def _choices(there: tuple[FreeLot, ...]) -> tuple[Choices, ...]:
    """The lots, each with what is free of it."""
    named = (Choice(it.lot, f"{it.bait}, {it.look}: {it.words}, {it.lot}") for it in there)
    return (Choices("", tuple(named)),)


SELL_PAGES = (Page("/sales/new", sell, ("GET", "POST")),)
