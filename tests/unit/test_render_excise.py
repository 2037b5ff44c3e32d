"""The printed tax sheet: every line and every caution is on it, on any number of pages."""

from __future__ import annotations

import dataclasses

import pypdfium2 as pdfium
import pytest

from pourwright.base.record import from_json
from pourwright.render.excise_sheet import excise_sheet
from pourwright.shop.sale import Exempt
from pourwright.shop.tax.excise import ExciseAnswer, ExciseInput, excise
from pourwright.shop.tax.excise_line import ExciseLine
from pourwright.shop.workplace import Paper
from printed_page import on_top, words_of

EXAMPLE = from_json(ExciseInput, excise.example)
BACK = "Left out, since it was taken back: sale of 2026-05-01 for 22.00, 2026-06-01, torn parcel."


def printed(answer: ExciseAnswer, paper: Paper = Paper.LETTER, sign: str = "$") -> bytes:
    return excise_sheet(
        answer, of="Heron Slough, as of 2026-11-27", asides=(BACK,), paper=paper, sign=sign
    )


def pages_of(pdf: bytes) -> list[str]:
    document = pdfium.PdfDocument(pdf)
    return [" ".join(page.get_textpage().get_text_range().split()) for page in document]


@pytest.mark.parametrize("paper", Paper)
def test_all_of_it_stands_on_the_paper(paper):
    answer = excise(EXAMPLE)
    pdf = printed(answer, paper)
    words = words_of(pdf)
    for said in (
        "Tax sheet 2026-Q2", "$17.50", "due 2026-07-31", "Form 720, Part II, IRS No. 41",
        "worms, 8 to a pack (tax inside)", "75% of the price", "$110.00", "$6.40", "$10.0000",
        "$7.5000", "$175.00", answer.not_advice, BACK, *answer.notes, *answer.ask_adviser,
    ):  # fmt: skip
        assert " ".join(said.split()) in words
    for caution in answer.cautions:
        assert caution.words in words
        assert f"[{caution.source}]" in words
    assert on_top(pdf) == []
    assert pdf == printed(excise(EXAMPLE), paper)


def test_no_line_is_left_out_and_every_page_has_its_heads():
    lines = tuple(
        ExciseLine(
            name=f"bait number {n:03}, in a look whose name goes on to a second line of the table",
            quantity=n, price_money=1.1, exempt=Exempt.EXPORT, sold_on="2026-05-01",
        )
        for n in range(1, 301)
    )  # fmt: skip
    answer = excise(dataclasses.replace(EXAMPLE, lines=lines))
    pages = pages_of(printed(answer))
    assert len(pages) > 5
    for n in range(1, 301):
        assert sum(f"bait number {n:03}" in words for words in pages) == 1
    for number, words in enumerate(pages, start=1):
        assert f"Page {number} of {len(pages)}. Not tax advice." in words
        assert "bait number" not in words or "What was sold" in words
    assert sum("Quarter, rounded once" in words for words in pages) == 1


def test_a_quarter_without_sales_is_printed_too():
    answer = excise(ExciseInput(year=2026, quarter=3))
    assert "$0.00" in words_of(printed(answer))
    assert "a quarter without sales is filed too" in words_of(printed(answer))
