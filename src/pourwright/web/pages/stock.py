"""Stock: what is there by material; one lot with its way; buy, count, throw away, take back."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from starlette.responses import Response

from pourwright.actions.buy_lot import SUPPLIER_RULES, buy_lot
from pourwright.actions.keep_stock import count_stock, reverse_move, scrap_stock
from pourwright.actions.lot_paper import LotPaper, add_paper, paper_with, papers_of
from pourwright.actions.see_lot import LotStock, MoveLine, see_lot
from pourwright.actions.see_stock import MaterialStock, Stock, see_stock
from pourwright.actions.stock_lot_opening import record_of
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.shop.lot import MG
from pourwright.shop.material import Eyes, Packing, RemeltPot
from pourwright.shop.money import Money
from pourwright.shop.nouns import NOUNS
from pourwright.shop.paper_file import ENDINGS, FIELD
from pourwright.shop.purchase import Purchase
from pourwright.shop.stock_lot import LotSort
from pourwright.web.event_id import event_id
from pourwright.web.form import Typed, parsed, texts_of
from pourwright.web.local_time import day_of, time_of_day
from pourwright.web.number_text import NotANumber, number_of
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.said import said
from pourwright.web.stock_graph import BROAD, NARROW, Graph, graph_of
from pourwright.web.today_here import day_here
from pourwright.web.widget import FormView, form_view

_MOST_TYPED = 2_000_000.0
_MOST_NAME = 120


@dataclass(frozen=True, slots=True)
class StockContext:
    """The shelf by material."""

    title: str
    stock: Stock

    @property
    def pots(self) -> int:
        """Remelt pots on the shelf."""
        return sum(it.sort == RemeltPot.key for it in self.stock.materials)

    @property
    def short(self) -> tuple[MaterialStock, ...]:
        """What open orders and frozen sheets want more of than is there."""
        return tuple(it for it in self.stock.materials if it.short_mg)

    @property
    def there(self) -> tuple[MaterialStock, ...]:
        """What somebody counted or bought."""
        return tuple(it for it in self.stock.materials if it.counted)

    @property
    def uncounted(self) -> tuple[MaterialStock, ...]:
        """What nobody ever counted."""
        return tuple(it for it in self.stock.materials if not it.counted)


@dataclass(frozen=True, slots=True)
class MoveRow:
    """A move as it stands on the page."""

    id: str
    when: str
    what: str
    other: str
    mg: int
    pieces: int
    money: float
    note: str
    back: bool
    own: bool
    undo_id: str


@dataclass(frozen=True, slots=True)
class PaperRow:
    """A supplier's file: where it is, its name, and what it is in words."""

    file: str
    name: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LotContext:
    """One lot."""

    title: str
    lot: LotStock
    graphs: tuple[Graph, Graph]
    rows: tuple[MoveRow, ...]
    opened: str
    record: str
    sheet: int
    shelved: bool
    by_piece: bool
    supplied: bool
    papers: tuple[PaperRow, ...]
    paper_id: str
    count_id: str
    scrap_id: str
    caution: str
    refused: str = ""

    @property
    def worth(self) -> float:
        """What is in it is worth."""
        return Money(self.lot.held.cost).amount


@dataclass(frozen=True, slots=True)
class BuyContext:
    """The form of a purchase."""

    title: str
    address: str
    form: FormView
    event: str
    caution: str
    refused: str


def stock(visit: Visit) -> Show:
    """All of it."""
    now = visit.world.clock.now()
    with visit.world.reading() as bench:
        return Show("stock/stock.html", StockContext("Stock", see_stock(bench, now, day_here(now))))


# Where a person looks for a lot that was not bought.
_UNDER = {LotSort.POURED: "/book", LotSort.BAGGED: "/rack"}


def lot(visit: Visit) -> Show:
    """One lot, found by its code."""
    return _lot(visit)


def buy(visit: Visit) -> Show | Go:
    """Write down a purchase."""
    sent = dict(visit.sent)
    event = sent.pop("@event", "")
    sent.pop("@do", None)
    if not visit.posted:
        return _buy(visit, _blank(visit), event=visit.world.ids.fresh())
    found = parsed(Purchase, sent, visit.settings)
    if found.problems:
        return _buy(visit, sent, event=event, problems=found.problems, status=422)
    sort, key = visit.part("sort"), visit.part("id")
    try:
        held = buy_lot(
            visit.world, sort, key, found.record, key=event_id(event), paper=_given(visit)
        )
    except BadInput as error:
        if error.field == FIELD:
            return _buy(visit, sent, event=event, refused=said(error), status=422)
        return _buy(visit, sent, event=event, problems={error.field: error.why}, status=422)
    except PourwrightError as error:
        return _buy(visit, sent, event=event, refused=str(error), status=error.http_status)
    return Go(f"/stock/{held.lot.code}")


def count(visit: Visit) -> Show | Go:
    """What is really there."""
    return _done(visit, count_stock)


def scrap(visit: Visit) -> Show | Go:
    """Throw some of it away."""
    return _done(visit, scrap_stock, note=dict(visit.sent).get("note", ""))


def back(visit: Visit) -> Show | Go:
    """Take a move back."""
    sent, code = dict(visit.sent), visit.part("code")
    try:
        key = event_id(sent.get("event", ""))
        reverse_move(visit.world, code, sent.get("move", ""), key=key)
    except PourwrightError as error:
        return _lot(visit, refused=str(error), status=error.http_status)
    return Go(f"/stock/{code}")


def paper(visit: Visit) -> Show | Go:
    """Keep a file of the lot's supplier."""
    sent, code = dict(visit.sent), visit.part("code")
    name, content = _given(visit) or ("", b"")
    try:
        add_paper(visit.world, code, content, name, key=event_id(sent.get("event", "")))
    except PourwrightError as error:
        return _lot(visit, refused=said(error), status=error.http_status)
    return Go(f"/stock/{code}#s-paper")


def paper_again(visit: Visit) -> Response:
    """The file as it was given; a browser saves it and does not open it within the bench."""
    code = visit.part("code")
    with visit.world.reading() as bench:
        file = paper_with(bench, code, visit.part("file"))
    name = f"supplier-{code}-{file.id[:8]}.{ENDINGS[file.media_type]}"
    headers = {
        "content-disposition": f'attachment; filename="{name}"',
        "x-content-type-options": "nosniff",
    }
    return Response(file.content, media_type=file.media_type, headers=headers)


def _given(visit: Visit) -> tuple[str, bytes] | None:
    """The name and content of the file that was sent; none where no file was chosen."""
    upload = visit.files.get(FIELD)
    if upload is None or not upload.filename:
        return None
    name = upload.filename.replace("\\", "/").rpartition("/")[2]
    return "".join(c for c in name if c.isprintable())[-_MOST_NAME:], upload.file.read()


def _done(visit: Visit, deed: Callable[..., None], **more: str) -> Show | Go:
    sent, code = dict(visit.sent), visit.part("code")
    try:
        key = event_id(sent.get("event", ""))
        deed(visit.world, code, **_amount(visit, code, sent), key=key, **more)
    except PourwrightError as error:
        return _lot(visit, refused=said(error), status=error.http_status)
    return Go(f"/stock/{code}")


def _amount(visit: Visit, code: str, sent: Mapping[str, str]) -> dict[str, int]:
    """Grams or pieces, as the lot is counted. Raises: BadInput."""
    text = sent.get("amount", "")
    try:
        value = number_of(text)
    except NotANumber as error:
        raise BadInput("amount", text, str(error) or "must be a number") from error
    if not 0 <= value <= _MOST_TYPED:
        raise BadInput("amount", text, f"must lie between 0 and {_MOST_TYPED:.0f}")
    with visit.world.reading() as bench:
        by_piece = _by_piece(record_of(bench.stock.lot(code).lot.item)[0])
    if not by_piece:
        return {"mg": round(value * MG)}
    if value != int(value):
        raise BadInput("amount", text, "must be a whole number of pieces")
    return {"pieces": int(value)}


def _by_piece(sort: str) -> bool:
    return sort in {Eyes.key, Packing.key}


def _lot(visit: Visit, *, refused: str = "", status: int = 200) -> Show:
    now, fresh = visit.world.clock.now(), visit.world.ids.fresh
    with visit.world.reading() as bench:
        found = see_lot(bench, visit.part("code"))
        held = found.held.lot
        sort, key = record_of(held.item)
        context = LotContext(
            title=f"Lot {held.code}",
            lot=found,
            graphs=(graph_of(found, NARROW), graph_of(found, BROAD)),
            rows=tuple(_row(it, now, fresh()) for it in reversed(found.moves)),
            opened=day_of(held.opened_at),
            record=f"/records/{sort}/{key}" if sort in NOUNS and not _baits(held.sort) else "",
            sheet=int(key) if held.sort is LotSort.POURED and key.isdigit() else 0,
            shelved=not _baits(held.sort),
            by_piece=_by_piece(sort),
            supplied=held.sort is LotSort.MATERIAL,
            papers=tuple(_paper_row(it) for it in papers_of(bench, held.code)),
            paper_id=fresh(),
            count_id=fresh(),
            scrap_id=fresh(),
            caution=SUPPLIER_RULES,
            refused=refused,
        )
    return Show("stock/lot.html", context, status, under=_UNDER.get(held.sort, "/stock"))


def _baits(sort: LotSort) -> bool:
    return sort in {LotSort.POURED, LotSort.BAGGED}


def _row(line: MoveLine, now: str, undo_id: str) -> MoveRow:
    move = line.move
    sign = 1 if line.into else -1
    return MoveRow(
        id=move.id,
        when=time_of_day(move.at, now),
        what=move.kind.value,
        other=move.source if line.into else move.target,
        mg=sign * move.mg,
        pieces=sign * move.pieces,
        money=Money(sign * move.cost).amount,
        note=move.note,
        back=line.back,
        own=line.own,
        undo_id=undo_id,
    )


def _paper_row(it: LotPaper) -> PaperRow:
    kind = ENDINGS[it.media_type].upper()
    words = f"{kind}, {-(-it.size // 1000):,} kB, kept {day_of(it.at)}"
    return PaperRow(it.file, it.name or "Paper without a name", words)


def _blank(visit: Visit) -> dict[str, str]:
    typed = texts_of(Purchase, None, visit.settings.system)
    return typed | ({"unit": "piece"} if _by_piece(visit.part("sort")) else {})


def _buy(
    visit: Visit, typed: Typed, *, event: str, problems: Mapping[str, str] | None = None,
    refused: str = "", status: int = 200,
) -> Show:  # fmt: skip
    sort, key = visit.part("sort"), visit.part("id")
    with visit.world.reading() as bench:
        name = bench.records.get(sort, key).noun.name
    form = form_view(
        Purchase, typed, problems=problems or {}, settings=visit.settings, references=lambda _: ()
    )
    address = f"/stock/buy/{sort}/{key}"
    context = BuyContext(f"Bought: {name}", address, form, event, SUPPLIER_RULES, refused)
    return Show("stock/buy.html", context, status)


STOCK_PAGES = (
    Page("/stock", stock),
    Page("/stock/buy/{sort}/{id}", buy, ("GET", "POST")),
    Page("/stock/{code}", lot),
    Page("/stock/{code}/count", count, ("POST",)),
    Page("/stock/{code}/scrap", scrap, ("POST",)),
    Page("/stock/{code}/paper", paper, ("POST",)),
    Page("/stock/{code}/paper/{file}", paper_again),
    Page("/stock/{code}/back", back, ("POST",)),
)
