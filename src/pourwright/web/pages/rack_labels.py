"""Print labels and header cards of a lot."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.responses import Response

from pourwright.actions.bait_kind import BaitKind, BaitKinds
from pourwright.actions.offered import offer_for, offers
from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.actions.print_labels import (
    MOST_LABELS,
    LabelCount,
    bag_label,
    label_count,
    label_sheets,
    print_header_cards,
    print_labels,
)
from pourwright.base.errors import BadInput
from pourwright.shop.header_card import CardShape
from pourwright.shop.label import CHECK_LOCALLY, TAKE_HOME, BagLabel, Face
from pourwright.shop.label_sheet import LabelSheet
from pourwright.shop.mold import Lead
from pourwright.shop.workplace import Paper
from pourwright.web.form import parsed, texts_of
from pourwright.web.page import Page, Show, Visit, number_in_address
from pourwright.web.widget import Choice, FormView, form_view

_USUAL_SHEET = {Paper.LETTER: "letter-30", Paper.A4: "a4-24"}


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelsContext:
    """What is printed, on which sheet, from which place on."""

    title: str
    label: BagLabel
    square: str
    sheets: tuple[Choice, ...]
    sheet_id: str
    sheet: LabelSheet
    count: LabelCount
    most: int
    faces: tuple[str, ...]
    card: FormView
    papers: tuple[str, ...]
    paper: str
    say_lead: str
    price_at: str
    take_home: str
    caution: str

    @property
    def places(self) -> tuple[int, ...]:
        """The places of the sheet, row by row."""
        return tuple(range(1, self.sheet.places + 1))


def labels(visit: Visit) -> Show:
    """Choose the sheet, the count and the first place."""
    asked = visit.request.query_params
    code = asked.get("code", "")
    with visit.world.reading() as bench:
        label, place = bag_label(bench, code), workplace(bench)
        sheets = label_sheets(bench)
        picked = asked.get("sheet", _USUAL_SHEET[place.paper])
        if picked not in sheets:
            raise BadInput("sheet", picked, f"must be one of {', '.join(sheets)}")
        held = bench.stock.lot(code)
        kind = BaitKinds(bench).of(held.lot)
        context = LabelsContext(
            title=f"Labels: {label.bait}, {label.look}",
            label=label,
            square=visit.world.printer.qr_svg(code),
            sheets=tuple(Choice(key, it.name) for key, it in sheets.items()),
            sheet_id=picked,
            sheet=sheets[picked],
            count=label_count(bench, code, _asked(asked.get("count", ""))),
            most=MOST_LABELS,
            faces=tuple(face.value for face in Face),
            card=_card_form(visit),
            papers=tuple(it.value for it in Paper),
            paper=place.paper.value,
            say_lead=_say_lead(bench, kind, label),
            price_at=_price_at(bench, kind, label),
            take_home=TAKE_HOME,
            caution=CHECK_LOCALLY,
        )
    return Show("rack/labels.html", context)


def labels_pdf(visit: Visit) -> Response:
    """The labels as a file to print at full size."""
    asked = visit.request.query_params
    face = asked.get("face", Face.LOT.value)
    if face not in set(Face):
        raise BadInput("face", face, f"must be one of {', '.join(Face)}")
    code = asked.get("code", "")
    pdf = print_labels(
        visit.world, code,
        sheet=asked.get("sheet", ""),
        count=number_in_address(asked.get("count", "1"), "count", "labels"),
        first=number_in_address(asked.get("first", "1"), "first", "a place on the sheet"),
        face=Face(face),
    )  # fmt: skip
    return _file(pdf, f"labels-{code}.pdf")


def card_pdf(visit: Visit) -> Response:
    """Header cards as a file to print at full size."""
    asked = visit.request.query_params
    found = parsed(CardShape, dict(asked), visit.settings)
    for field, why in found.problems.items():
        raise BadInput(field, asked.get(field), why)
    paper = asked.get("paper", Paper.LETTER.value)
    if paper not in set(Paper):
        raise BadInput("paper", paper, f"must be one of {', '.join(Paper)}")
    code = asked.get("code", "")
    pdf = print_header_cards(
        visit.world, code, shape=found.record, paper=Paper(paper),
        count=number_in_address(asked.get("count", "1"), "count", "cards"),
    )  # fmt: skip
    return _file(pdf, f"header-card-{code}.pdf")


def _asked(typed: str) -> int | None:
    return number_in_address(typed, "count", "labels") if typed else None


def _card_form(visit: Visit) -> FormView:
    typed = texts_of(CardShape, CardShape(), visit.settings.system)
    return form_view(
        CardShape, typed, problems={}, settings=visit.settings, references=lambda _: ()
    )


def _say_lead(bench: Bench, kind: BaitKind, label: BagLabel) -> str:
    """Where to say whether the bait contains lead, as long as nobody has."""
    unsaid = label.lead is Lead.NOT_SAID and BaitKinds(bench).bait(kind) is not None
    return f"/records/bait/{kind.bait}" if unsaid else ""


def _price_at(bench: Bench, kind: BaitKind, label: BagLabel) -> str:
    """Where the article number of such a pack is typed."""
    offer = offer_for(bench, kind.bait, kind.look, label.baits_each)
    known = (key for key, it in offers(bench) if it == offer)
    return f"/records/offer/{next(known, 'new')}"


def _file(pdf: bytes, name: str) -> Response:
    headers = {"content-disposition": f'inline; filename="{name}"'}
    return Response(pdf, media_type="application/pdf", headers=headers)


RACK_LABEL_PAGES = (
    Page("/rack/labels", labels),
    Page("/rack/labels.pdf", labels_pdf),
    Page("/rack/card.pdf", card_pdf),
)
