"""The whole bench as a file to keep or to move, and back into an empty one."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.responses import Response, StreamingResponse

from pourwright.actions.export_journal import journal_of
from pourwright.actions.export_table import TABLES, table_of
from pourwright.base.errors import PourwrightError
from pourwright.shop.workplace import Workplace
from pourwright.web.laptop_only import at_the_laptop
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.today_here import day_here

ADDRESS = "/exchange"
HELD_HERE = "the books and the addresses in them leave only from the laptop, at its own address"


@dataclass(frozen=True, slots=True)
class Offered:
    """A table to download."""

    label: str
    address: str


@dataclass(frozen=True, slots=True)
class ExchangeContext:
    """What may be downloaded, and whether a file may be taken in."""

    title: str
    empty: bool
    tables: tuple[Offered, ...]
    refused: str = ""


def exchange(visit: Visit) -> Show | Go:
    """The page; a posted file fills an empty bench."""
    if not visit.posted:
        return _page(visit)
    upload = visit.files.get("file")
    data = upload.file.read() if upload else b""
    if not data:
        return _page(visit, "choose the file of a bench first", status=422)
    try:
        visit.world.exchange.taken_in(data)
    except PourwrightError as error:
        return _page(visit, str(error), status=error.http_status)
    return Go("/")


def whole(visit: Visit) -> Response:
    """Everything, piece by piece."""
    day = visit.world.clock.now()[:10]
    return StreamingResponse(
        visit.world.exchange.written(),
        media_type="application/json",
        headers=_attached(f"pourwright-bench-{day}.json"),
    )


def table(visit: Visit) -> Response:
    """One table for a spreadsheet."""
    with visit.world.reading() as bench:
        found = table_of(bench, visit.part("name"))
    data = visit.world.printer.csv(found.header, found.rows)
    return Response(data, media_type="text/csv", headers=_attached(f"{found.name}.csv"))


def journal(visit: Visit) -> Response:
    """The books as a plain-text journal."""
    with visit.world.reading() as bench:
        text = visit.world.printer.journal(journal_of(bench, day_here))
    return Response(
        text.encode(), media_type="text/plain; charset=utf-8",
        headers=_attached("pourwright.journal"),
    )  # fmt: skip


def _page(visit: Visit, refused: str = "", *, status: int = 200) -> Show:
    with visit.world.reading() as bench:
        empty = not bench.records.all(Workplace.key, retired=True)
    tables = tuple(Offered(it.label, f"{ADDRESS}/{name}.csv") for name, it in TABLES.items())
    return Show(
        "exchange/exchange.html", ExchangeContext("Exchange", empty, tables, refused), status
    )


def _attached(name: str) -> dict[str, str]:
    return {"content-disposition": f'attachment; filename="{name}"'}


EXCHANGE_PAGES = (
    Page(ADDRESS, at_the_laptop(exchange, HELD_HERE), ("GET", "POST"), takes_file=True),
    Page(f"{ADDRESS}/bench.json", at_the_laptop(whole, HELD_HERE)),
    Page(f"{ADDRESS}/books.journal", at_the_laptop(journal, HELD_HERE)),
    Page(f"{ADDRESS}/{{name}}.csv", at_the_laptop(table, HELD_HERE)),
)
