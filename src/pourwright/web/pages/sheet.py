"""The batch sheet: frozen, on screen, as one printed page and as JSON."""

from __future__ import annotations

import json
from dataclasses import dataclass

from starlette.responses import Response

from pourwright.actions.as_it_was import Past, look_of_lot
from pourwright.actions.enter_lot import add_lot_photo, enter_lot, lot_view
from pourwright.actions.keep_record import add_record
from pourwright.actions.oven_learned import LotLesson, lot_lesson
from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.actions.pour_again import pour_again
from pourwright.actions.pour_books import PourBooks, pour_books
from pourwright.actions.pour_standing import pour_standing
from pourwright.actions.see_look import Glance, picture_of
from pourwright.base.errors import BadInput, NoAnswer, NotFound, PourwrightError
from pourwright.base.pixels import Pixels
from pourwright.base.record import to_json
from pourwright.base.revive import revived
from pourwright.forecast.picture.picture_input import LookInput
from pourwright.plan.batch_plan import BatchPlan
from pourwright.shop.actual import Comparison
from pourwright.shop.lot import Lot, LotEntry
from pourwright.shop.sheet import Sheet
from pourwright.shop.workplace import Paper
from pourwright.web.bench_way import BenchWay, bench_way
from pourwright.web.cup_links import CupLinks, cup_links, note_links
from pourwright.web.form import parsed, texts_of
from pourwright.web.form_edit import edited, settled
from pourwright.web.inside_link import inside_sheet_links
from pourwright.web.look_glance import glance_of
from pourwright.web.look_wish import LookWish
from pourwright.web.mold_link import mold_of_sheet
from pourwright.web.page import Go, Page, Show, Visit, number_in_address
from pourwright.web.plan_view import PlanView, plan_view
from pourwright.web.pot_offer import PotWay, pot_way
from pourwright.web.pour_story import StoryView, story_view
from pourwright.web.thumb import LotThumbs, Thumb
from pourwright.web.widget import FormView, form_view

MOST_PHOTO = 8_000_000
# As fine as a printer shows in the head of a sheet.
HEAD_PX = 384


@dataclass(frozen=True, slots=True)
class SheetContext:
    """A frozen sheet with its plan and what came of it."""

    title: str
    sheet: Sheet
    view: PlanView
    qr: str
    lot: Lot
    cups: CupLinks
    way: BenchWay
    thumb: Thumb | None
    card: str


@dataclass(frozen=True, slots=True)
class LotContext:
    """What came out, beside what was planned."""

    title: str
    sheet: Sheet
    lot: Lot
    comparison: Comparison | None
    form: FormView
    cups: CupLinks
    lesson: LotLesson | None
    pot: PotWay | None
    way: BenchWay
    story: StoryView | None
    thumb: Thumb | None
    card: str
    books: PourBooks
    refused: str = ""


def sheet_page(visit: Visit) -> Show:
    """A sheet on screen."""
    with visit.world.reading() as bench:
        found = lot_view(bench, _number(visit))
        sheet = found.sheet
        way = bench_way(bench, pour_standing(bench, sheet))
        cups = _cups(bench, sheet, way)
        thumb = LotThumbs(bench).of(sheet)
    plan = revived(BatchPlan, sheet.plan)
    return Show(
        "sheet/sheet.html",
        SheetContext(
            f"Sheet {sheet.number}",
            sheet,
            plan_view(plan, inside_sheet_links(sheet.number, plan), mold_of_sheet(sheet.draft)),
            visit.world.printer.qr_svg(sheet.code),
            found.lot,
            cups,
            way,
            thumb,
            _card(sheet),
        ),
    )


def sheet_pdf(visit: Visit) -> Response:
    """A sheet on one printed page; `?paper=a4` or `letter`, else as the workplace prints."""
    with visit.world.reading() as bench:
        sheet, place = lot_view(bench, _number(visit)).sheet, workplace(bench)
        asked, glance = _lot_asked(bench, sheet), glance_of(bench, LookWish(), HEAD_PX)
    wanted = visit.request.query_params.get("paper", place.paper.value)
    if wanted not in set(Paper):
        raise BadInput("paper", wanted, f"must be one of {', '.join(Paper)}")
    pdf = visit.world.printer.pdf(
        sheet,
        system=place.units,
        paper=Paper(wanted),
        currency=place.currency,
        picture=_head_picture(asked, glance),
    )
    name = f"sheet-{sheet.number}-{sheet.code}.pdf"
    headers = {"content-disposition": f'attachment; filename="{name}"'}
    return Response(pdf, media_type="application/pdf", headers=headers)


def _lot_asked(bench: Bench, sheet: Sheet) -> LookInput | None:
    """The look of a lot in its bait; none where there is nothing to picture."""
    try:
        return look_of_lot(Past(bench), sheet)
    except (BadInput, NoAnswer, NotFound):
        return None


def _head_picture(asked: LookInput | None, glance: Glance) -> Pixels | None:
    """The picture in the head; a sheet prints without one that cannot be had."""
    try:
        return picture_of(asked, glance).picture if asked else None
    except (BadInput, NoAnswer, NotFound):
        return None


def sheet_json(visit: Visit) -> Response:
    """A sheet as JSON, lossless."""
    with visit.world.reading() as bench:
        sheet = lot_view(bench, _number(visit)).sheet
    words = json.dumps(to_json(sheet), indent=2, sort_keys=True, ensure_ascii=False)
    return Response(words, media_type="application/json")


def lot_page(visit: Visit) -> Show | Go:
    """Enter what came out, and see it beside the plan."""
    number = _number(visit)
    if visit.posted:
        return _posted(visit, number)
    with visit.world.reading() as bench:
        entry = lot_view(bench, number).lot.entry
    return _lot(visit, number, texts_of(LotEntry, entry, visit.settings.system))


def lot_photo(visit: Visit) -> Go:
    """Keep a picture of the lot."""
    number = _number(visit)
    upload = visit.files.get("photo")
    if upload is None or not upload.size:
        raise BadInput("photo", None, "choose a picture first")
    if upload.size > MOST_PHOTO:
        raise BadInput("photo", upload.size, f"must be at most {MOST_PHOTO:,} bytes")
    add_lot_photo(visit.world, number, visit.world.picture(upload.file.read()))
    return Go(f"/lots/{number}")


def photo(visit: Visit) -> Response:
    """A kept picture."""
    with visit.world.reading() as bench:
        return Response(bench.photos.get(visit.part("photo")), media_type="image/jpeg")


def again(visit: Visit) -> Go:
    """Start a new plan from this sheet."""
    with visit.world.reading() as bench:
        found = pour_again(bench, _number(visit))
    return Go(f"/plan?draft={add_record(visit.world, found.draft).id}")


def _posted(visit: Visit, number: int) -> Show | Go:
    sent = dict(visit.sent)
    command = sent.pop("@do", "save")
    typed, appeared = settled(LotEntry, sent, visit.settings.system)
    typed = edited(LotEntry, typed, command, visit.settings.system)
    if command != "save" or appeared:
        return _lot(visit, number, typed)
    found = parsed(LotEntry, typed, visit.settings)
    if found.problems:
        return _lot(visit, number, typed, problems=dict(found.problems), status=422)
    try:
        enter_lot(visit.world, number, found.record)
    except BadInput as error:
        wrong = {error.field: error.why}
        return _lot(visit, number, typed, problems=wrong, status=error.http_status)
    except PourwrightError as error:
        return _lot(visit, number, typed, refused=str(error), status=error.http_status)
    return Go(f"/lots/{number}")


def _lot(
    visit: Visit, number: int, typed: dict[str, str], *, problems: dict[str, str] | None = None,
    refused: str = "", status: int = 200,
) -> Show:  # fmt: skip
    with visit.world.reading() as bench:
        found = lot_view(bench, number)
        standing = pour_standing(bench, found.sheet)
        way = bench_way(bench, standing)
        thumb, pot = LotThumbs(bench).of(found.sheet), pot_way(bench, number)
        books = pour_books(bench, found.sheet, found.lot.entry)
        cups, lesson = _cups(bench, found.sheet, way), lot_lesson(bench, found.sheet)
        story = story_view(
            bench,
            standing,
            visit.settings,
            now=visit.world.clock.now(),
            part=_part_of_story(visit),
        )
    form = form_view(
        LotEntry, typed, problems=problems or {}, settings=visit.settings,
        references=lambda _: (),
    )  # fmt: skip
    context = LotContext(
        f"Lot {found.sheet.code}",
        found.sheet,
        found.lot,
        found.comparison,
        form,
        cups,
        lesson,
        pot,
        way,
        story,
        thumb,
        _card(found.sheet),
        books,
        refused,
    )
    return Show("sheet/lot.html", context, status)


def _card(sheet: Sheet) -> str:
    """Where the color card of the lot is found; empty where it was poured without a look."""
    look = str(sheet.draft.get("look") or "")
    return f"/looks/{look}/card.pdf?lot={sheet.number}" if look else ""


def _cups(bench: Bench, sheet: Sheet, way: BenchWay) -> CupLinks:
    """Once the bench guides a pour, the pages of its cups take what stands in notes."""
    return note_links(bench, sheet) if way.guided else cup_links(bench, sheet)


def _part_of_story(visit: Visit) -> int:
    wanted = visit.request.query_params.get("events", "")
    return number_in_address(wanted, "events", "a part of the story") if wanted else 0


def _number(visit: Visit) -> int:
    return number_in_address(visit.part("number"), "number", "a sheet")


SHEET_PAGES = (
    Page("/sheets/{number}", sheet_page),
    Page("/sheets/{number}/sheet.pdf", sheet_pdf),
    Page("/sheets/{number}/sheet.json", sheet_json),
    Page("/sheets/{number}/again", again, ("POST",)),
    Page("/lots/{number}", lot_page, ("GET", "POST")),
    Page("/lots/{number}/photo", lot_photo, ("POST",)),
    Page("/photos/{photo}", photo),
)
