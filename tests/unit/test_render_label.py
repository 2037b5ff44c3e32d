"""Labels: an independent reader reads both codes of each one, as printers print them."""

from __future__ import annotations

import dataclasses

import pypdfium2 as pdfium
import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.render.label import packed
from pourwright.render.label_sheet import label_sheet
from pourwright.render.type_face import width_of
from pourwright.shop.code import lot_code
from pourwright.shop.label import INVENTED, TAKE_HOME, BagLabel, Face
from pourwright.shop.label_sheet import LEAST_HIGH_MM, LEAST_WIDE_MM, USUAL, LabelSheet
from pourwright.shop.mold import Lead
from printed_codes import PRINTERS, codes_in, printed
from printed_page import on_top, words_of

LABEL = BagLabel(
    code=lot_code(date="2026-11-25", number=7), bait="Marsh worm", look="Dusk with copper",
    baits_each=8, poured_on="2026-11-25", lead=Lead.NO, net_mg=60_123,
)  # fmt: skip
LONGEST = dataclasses.replace(
    LABEL, bait="W" * 60, look="M" * 60, baits_each=200, poured_on="since 2026-11-20",
    lead=Lead.NOT_SAID, net_mg=2_412_345, demo=True,
)  # fmt: skip
LEAST = LabelSheet(
    name="Least", paper_wide_mm=LEAST_WIDE_MM, paper_high_mm=LEAST_HIGH_MM,
    label_wide_mm=LEAST_WIDE_MM, label_high_mm=LEAST_HIGH_MM,
)  # fmt: skip
SHEETS = {**USUAL, "least": LEAST}
BOTH = ["Code 128", "QR Code"]


def boxes(sheet: LabelSheet, count: int, first: int = 1):
    return [
        (left, top, sheet.label_wide_mm, sheet.label_high_mm)
        for _, left, top in sheet.spots(count, first)
    ]


@pytest.mark.parametrize("dpi", PRINTERS)
@pytest.mark.parametrize("key", SHEETS)
def test_both_codes_of_every_label_are_read_back(key, dpi):
    sheet = SHEETS[key]
    labels = [
        dataclasses.replace(LABEL, code=lot_code(date="2026-11-25", number=n + 1))
        for n in range(sheet.places)
    ]
    image = printed(label_sheet(sheet, labels), dpi)
    for label, box in zip(labels, boxes(sheet, sheet.places), strict=True):
        assert codes_in(image, box, dpi) == [(kind, label.code) for kind in BOTH]


@pytest.mark.parametrize("key", SHEETS)
def test_the_words_stand_on_it_and_nothing_on_anything_else(key):
    pdf = label_sheet(SHEETS[key], [LABEL])
    words = words_of(pdf)
    for said in ("Marsh worm", "Dusk with copper", "8 baits", "about 60.1 g (2.12 oz)",
                 "Poured 2026-11-25", "Contains lead: no", TAKE_HOME, LABEL.code):  # fmt: skip
        assert said in words
    assert on_top(pdf) == []


@pytest.mark.parametrize("dpi", PRINTERS)
@pytest.mark.parametrize("key", SHEETS)
def test_the_longest_words_are_cut_and_leave_the_codes_readable(key, dpi):
    sheet = SHEETS[key]
    pdf = label_sheet(sheet, [LONGEST])
    (box,) = boxes(sheet, 1)
    assert codes_in(printed(pdf, dpi), box, dpi) == [(kind, LONGEST.code) for kind in BOTH]
    words = words_of(pdf)
    assert "Contains lead: not said" in words
    assert INVENTED in words
    assert on_top(pdf) == []


@pytest.mark.parametrize("key", ["roll-2x1", "letter-10"])
def test_both_codes_keep_the_white_border_a_reader_needs(key):
    # ISO/IEC 18004:2015, section 6.3.8: 4 modules; ISO/IEC 15417:2007, section 4.4.1: 10.
    image = printed(label_sheet(USUAL[key], [LABEL]), 600).convert("L")
    for code in zxingcpp.read_barcodes(image):
        start, end = code.position.top_left, code.position.top_right
        square = "QR" in str(code.format)
        module = (end.x - start.x) / (21 if square else 134)
        border = round((4 if square else 10) * module) - 4
        middle = (start.y + code.position.bottom_left.y) // 2
        left = image.crop((start.x - border, middle, start.x - 4, middle + 1))
        right = image.crop((end.x + 4, middle, end.x + border, middle + 1))
        assert left.size[0] > 0
        assert left.getextrema() == right.getextrema() == (255, 255)
        assert start.x - border >= 0


@pytest.mark.parametrize("dpi", PRINTERS)
@pytest.mark.parametrize("key", SHEETS)
def test_an_article_number_is_read_back(key, dpi):
    # GS1, how to calculate a check digit manually.
    label = dataclasses.replace(LONGEST, article="6291041500213")
    pdf = label_sheet(SHEETS[key], [label], face=Face.ARTICLE)
    (box,) = boxes(SHEETS[key], 1)
    assert codes_in(printed(pdf, dpi), box, dpi) == [("EAN-13", "6291041500213")]
    assert "6 291041 500213" in words_of(pdf)
    assert on_top(pdf) == []


def test_no_article_label_without_a_number_that_was_issued():
    with pytest.raises(NoAnswer, match="has no article number"):
        label_sheet(USUAL["a4-24"], [LABEL], face=Face.ARTICLE)


def test_a_begun_sheet_goes_on_where_it_was_left_and_onto_the_next():
    sheet = USUAL["letter-30"]
    pdf = label_sheet(sheet, [LABEL] * 4, first=29)
    pages = pdfium.PdfDocument(pdf)
    assert [page.get_textpage().get_text_range().count(LABEL.code) for page in pages] == [2, 2]
    spots = [(on, round(left, 2), round(top, 2)) for on, left, top in sheet.spots(4, 29)]
    # In inches: columns at 0.1875, 2.9375 and 5.6875, rows 1 apart from 0.5 on.
    assert spots == [(0, 74.61, 241.3), (0, 144.46, 241.3), (1, 4.76, 12.7), (1, 74.61, 12.7)]
    dpi = PRINTERS[0]
    first, last = boxes(sheet, 1, 28)[0], boxes(sheet, 1, 29)[0]
    assert codes_in(printed(pdf, dpi), first, dpi) == []
    assert codes_in(printed(pdf, dpi), last, dpi) != []


@pytest.mark.parametrize("first", [0, 31])
def test_a_place_the_sheet_does_not_have_is_refused(first):
    with pytest.raises(BadInput, match="1 to 30"):
        label_sheet(USUAL["letter-30"], [LABEL], first=first)


@pytest.mark.parametrize(
    ("changed", "field", "why"),
    [
        ({"columns": 4}, "columns", "4 labels reach 280.0 mm across, past the paper"),
        ({"rows": 9}, "rows", "9 labels reach 333.5 mm down"),
        ({"across_mm": 60}, "across_mm", "overlap: one is 70 mm"),
        ({"down_mm": 30}, "down_mm", "overlap: one is 37 mm"),
        ({"left_mm": 1}, "columns", "past the paper"),
        ({"label_wide_mm": 20}, "label_wide_mm", "between 48 and 300"),
    ],
)
def test_a_sheet_that_cannot_be_is_refused_by_name(changed, field, why):
    with pytest.raises(BadInput, match=why) as refused:
        dataclasses.replace(USUAL["a4-24"], **changed)
    assert refused.value.field == field


def test_a_code_too_long_for_its_label_is_refused_in_words():
    with pytest.raises(NoAnswer, match="too narrow for the bars"):
        label_sheet(LEAST, [dataclasses.replace(LABEL, code="P" + "QRSTUVWXYZ" * 2)])


def test_the_same_labels_are_the_same_file():
    sheet = USUAL["a4-21"]
    assert label_sheet(sheet, [LABEL]) == label_sheet(sheet, [LABEL])


@settings(deadline=None)
@given(st.lists(st.text("abc ", min_size=1, max_size=12), max_size=6), st.integers(60, 300))
def test_packed_phrases_keep_their_order_and_their_room(phrases, room):
    wanted = [p.strip() for p in phrases if p.strip()]
    lines = packed(wanted, room, 8)
    assert all(width_of(line, 8) <= room for line in lines)
    if all(width_of(w, 8) <= room for w in wanted):
        joined = " · ".join(lines).split(" · ")
        assert [" ".join(w.split()) for w in joined if w] == [" ".join(w.split()) for w in wanted]
