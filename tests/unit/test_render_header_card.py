"""Header cards: both panels upright once folded, codes readable, cards apart."""

from __future__ import annotations

import dataclasses

import numpy as np
import pypdfium2 as pdfium
import pytest

from pourwright.actions.header_card import HeaderCard
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.pixels import Pixels
from pourwright.render.header_card import header_card
from pourwright.shop.code import lot_code
from pourwright.shop.header_card import CardShape, Hole
from pourwright.shop.label import BagLabel
from pourwright.shop.mold import Lead
from pourwright.shop.workplace import Paper
from printed_codes import PRINTERS, all_codes, printed
from printed_page import pictures_of, words_of

LABEL = BagLabel(
    code=lot_code(date="2026-11-25", number=7), bait="Marsh worm", look="Dusk with copper",
    baits_each=8, poured_on="2026-11-25", lead=Lead.YES, net_mg=None,
)  # fmt: skip
GRAY = Pixels(np.full((40, 100, 3), 120, np.uint8))
CARD = HeaderCard(label=LABEL, picture=GRAY)
# Printed examples: GS1, how to calculate a check digit; a printed UPC; python-stdnum, stdnum.ean.
ARTICLES = {
    "6291041500213": ("EAN-13", "6291041500213"),
    "036000241457": ("EAN-13", "0036000241457"),  # a reader tells a UPC as the EAN it is
    "73513537": ("EAN-8", "73513537"),
}


@pytest.mark.parametrize("dpi", PRINTERS)
@pytest.mark.parametrize("number", ARTICLES)
def test_every_code_of_a_card_is_read_back(number, dpi):
    card = dataclasses.replace(CARD, label=dataclasses.replace(LABEL, article=number))
    pdf = header_card(card, CardShape(), paper=Paper.LETTER, count=1)
    found = [("Code 128", LABEL.code), ARTICLES[number], ("QR Code", LABEL.code)]
    assert all_codes(printed(pdf, dpi)) == sorted(found)


@pytest.mark.parametrize("paper", Paper)
def test_cards_fill_the_sheet_and_go_on_with_the_next(paper):
    shape = CardShape(wide_mm=80, folded_mm=42)
    pdf = header_card(CARD, shape, paper=paper, count=7)
    pages = pdfium.PdfDocument(pdf)
    counts = [page.get_textpage().get_text_range().count(LABEL.code) for page in pages]
    # 80 by 84 mm with 8 mm around and between: two across; three down take 284 mm, Letter has 279.
    assert counts == ([4, 3] if paper is Paper.LETTER else [6, 1])


def test_the_back_is_upside_down_above_the_fold_and_the_front_upright_below():
    pdf = header_card(CARD, CardShape(), paper=Paper.A4, count=1)
    page = pdfium.PdfDocument(pdf)[0]
    text = page.get_textpage()
    words = text.get_text_range()
    fold = page.get_height() - (8 + 51) * 72 / 25.4
    front, back = words.index("Dusk"), words.index("Contains")
    assert text.get_charbox(front)[1] < fold < text.get_charbox(back)[1]
    assert text.get_charbox(front)[0] < text.get_charbox(front + 2)[0]
    assert text.get_charbox(back)[0] > text.get_charbox(back + 2)[0]
    # The hole's middle is 8 mm off the fold and 6 mm wide: nothing is printed into it.
    names = [i for i in range(len(words)) if words.startswith("Marsh worm", i)]
    bottoms = sorted(text.get_charbox(i)[1] for i in names)
    assert bottoms[0] < fold
    assert bottoms[1] > fold + 11 * 72 / 25.4
    (picture,) = pictures_of(pdf)
    assert picture[3] < fold


def test_the_words_of_a_card():
    words = words_of(header_card(CARD, CardShape(), paper=Paper.A4, count=1))
    for said in ("Marsh worm", "Dusk with copper · 8 baits", "Contains lead: yes", "Poured 2026"):
        assert said in words


@pytest.mark.parametrize("hole", Hole)
def test_a_card_without_a_picture_says_why(hole):
    card = HeaderCard(label=LABEL, no_picture="no bait with a shape is picked")
    pdf = header_card(card, CardShape(hole=hole), paper=Paper.A4, count=1)
    assert "No picture: no bait with a shape is picked" in words_of(pdf)


def test_what_does_not_fit_is_refused_in_words():
    big = CardShape(wide_mm=200, folded_mm=120)
    with pytest.raises(NoAnswer, match=r"200 mm by 240 mm unfolded does not fit the paper, .* 194"):
        header_card(CARD, big, paper=Paper.A4, count=1)
    bars = dataclasses.replace(CARD, label=dataclasses.replace(LABEL, article="6291041500213"))
    with pytest.raises(NoAnswer, match="too narrow"):
        header_card(bars, CardShape(wide_mm=60), paper=Paper.A4, count=1)


@pytest.mark.parametrize(
    ("number", "error", "why"),
    [
        ("6291041500218", BadInput, "mistyped"),
        ("98412345678908", NoAnswer, "stand on cases"),
    ],
)
def test_no_bars_of_a_number_that_cannot_stand_on_a_bag(number, error, why):
    card = dataclasses.replace(CARD, label=dataclasses.replace(LABEL, article=number))
    with pytest.raises(error, match=why):
        header_card(card, CardShape(), paper=Paper.A4, count=1)
