"""The color card: one page, all inside, with the picture, the recipe, the lot and the cautions."""

from __future__ import annotations

import dataclasses
import functools

import numpy as np
import pypdfium2 as pdfium
import pytest
import zxingcpp

from pourwright.actions.look_card import CardDose, CardLayer, CardLot, LookCard
from pourwright.base.band import Band
from pourwright.base.pixels import Pixels
from pourwright.base.units import System
from pourwright.body.split import Line, Split
from pourwright.color.lab import LabBands
from pourwright.color.swatch import Swatch
from pourwright.render.caution import CARE, FIRE
from pourwright.render.look_card import INVENTED, look_card
from pourwright.render.sheet_pdf import MARGIN
from pourwright.render.style import LEAST_SIZE
from pourwright.shop.workplace import Paper
from printed_page import boxes_of, on_top, page_of, pictures_of, words_of

RED, WIDE, TALL = (200, 10, 20), 100, 40
PICTURE = Pixels(np.full((TALL, WIDE, 3), RED, np.uint8))
LAB = LabBands(lightness=Band(28, 33.56, 38.4), a=Band(-9.4, -0.04, 3), b=Band(2, 12.3, 40))
DOSES = (
    CardDose("Invented moss", "colorant", 6, "drops", Band(0.2, 0.24, 0.28)),
    CardDose("Invented glitter", "flake", 0.25, "level teaspoons", Band(0.7, 0.7, 0.7)),
    CardDose("Invented softener", "softener", 5, "grams", Band(5, 5, 5)),
    CardDose("Invented ink", "colorant", 1, "drops", Band(0.04, 0.04, 0.04)),
)
BACK = CardLayer("back", 0.4, DOSES, Swatch("#734414", "#4e2c0d"), LAB, calibrated=False)
BELLY = CardLayer("belly", 0.6, (), Swatch("#eeeeee", "#333333"), LAB, calibrated=True)
CARD = LookCard(
    name="Invented two-tone", version=3, saved_at="2026-03-04T10:00:00Z",
    printed_at="2026-05-06T10:00:00Z", note="Invented for a test.", demo=False,
    bait="Invented shad", plastic="", thick_mm=14.0, thick_known=True, layers=(BACK, BELLY),
    split=Split(line=Line.WAVY, line_height=0.6, wave_mm=1.0), picture=PICTURE,
)  # fmt: skip
LOT = dataclasses.replace(
    CARD, lot=CardLot("P2601170001K", "2026-01-17T14:05:00Z"), plastic="Invented plastisol"
)
MANY = tuple(dataclasses.replace(d, name=f"{d.name} {i}") for i in range(5) for d in DOSES)
CARDS = {
    "two layers": CARD,
    "of a lot": LOT,
    "on a demo bench": dataclasses.replace(CARD, demo=True),
    "no bait": dataclasses.replace(CARD, bait="", picture=None, no_picture="no bait is picked"),
    "bare": dataclasses.replace(CARD, note="", split=Split(), layers=(BELLY,), thick_known=False),
    "four layers of twenty": dataclasses.replace(
        LOT, layers=tuple(dataclasses.replace(BACK, name=n, doses=MANY) for n in "abcd"), demo=True
    ),
    "long names": dataclasses.replace(
        LOT, name="Slough " * 40, bait="W" * 300, note="w " * 250, plastic="Marsh " * 30,
        layers=tuple(
            dataclasses.replace(BACK, doses=(dataclasses.replace(DOSES[0], name="Moss " * 12),))
            for _ in range(4)
        ),
    ),
}  # fmt: skip
PAPERS = {Paper.LETTER: (612, 792), Paper.A4: (595.28, 841.89)}


@functools.cache
def printed(name: str, paper: Paper = Paper.LETTER, system: System = System.US) -> bytes:
    return look_card(CARDS[name], system=system, paper=paper)


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("name", CARDS)
def test_one_page_and_nothing_outside_its_margins(name, paper):
    pdf = printed(name, paper)
    wide, tall = PAPERS[paper]
    assert page_of(pdf).get_size() == pytest.approx((wide, tall), abs=0.01)
    boxes = np.concatenate([boxes_of(pdf)[0], *([[box] for box in pictures_of(pdf)])])
    assert boxes[:, :2].min() >= MARGIN - 0.5
    assert boxes[:, 2].max() <= wide - MARGIN + 0.5
    assert boxes[:, 3].max() <= tall - MARGIN + 0.5


@pytest.mark.parametrize("name", CARDS)
def test_no_letter_lies_on_another_or_on_the_picture(name):
    pdf = printed(name)
    assert on_top(pdf) == []
    boxes, _ = boxes_of(pdf)
    for left, bottom, right, top in pictures_of(pdf):
        apart = (boxes[:, 2] < left) | (boxes[:, 0] > right) | (boxes[:, 3] < bottom)
        assert (apart | (boxes[:, 1] > top)).all()


def test_no_letter_is_too_small_for_a_home_printer():
    text = page_of(printed("four layers of twenty")).get_textpage()
    sizes = [
        pdfium.raw.FPDFText_GetFontSize(text, i)
        for i in range(text.count_chars())
        if text.get_text_range(i, 1).strip()
    ]
    assert min(sizes) >= LEAST_SIZE


def test_the_same_card_gives_the_same_bytes():
    again = look_card(CARDS["of a lot"], system=System.US, paper=Paper.LETTER)
    assert again == printed("of a lot")


@pytest.mark.parametrize("name", CARDS)
def test_cautions_stand_on_every_card(name):
    words = words_of(printed(name))
    for lead, caution in (*FIRE, *CARE):
        assert f"{lead} {caution}" in words


def test_recipe_color_and_lines_stand_on_the_card():
    words = words_of(printed("two layers"))
    assert "Color card, version 3 of 2026-03-04" in words
    assert "Back, 40% of the bait" in words
    assert "L* 33.6 (28 to 38) a* 0.0 (−9 to 3) b* 12.3 (2 to 40)" in words
    assert words.count("uncalibrated") == 1
    assert "Invented moss, colorant 6 drops 0.24 g (0.20–0.28 g)" in words
    assert "Invented glitter, flake 0.25 level tsp 0.7 g" in words
    assert "Invented softener 5 g" in words
    assert "1 drop 0.04 g" in words
    assert "Plain plastic" in words
    assert "Line wavy · Back above 60% of the bait's height · Swing of the line 0.0394 in" in words
    assert "lot" not in words.split()
    assert INVENTED not in words


def test_thickness_stands_in_the_chosen_units():
    # 25.4 mm to the inch: NIST SP 811 (2008), appendix B.8.
    assert f"{14 / 25.4:.3f} in thick, as the thickest place is" in words_of(printed("two layers"))
    metric = printed("two layers", Paper.A4, System.METRIC)
    assert "14 mm thick, as the thickest place is" in words_of(metric)
    assert "as the thickest place is" not in words_of(printed("bare"))


@pytest.mark.parametrize("paper", Paper)
def test_the_code_of_the_lot_can_be_read_off_the_page(paper):
    image = page_of(printed("of a lot", paper)).render(scale=150 / 72).to_pil()
    (code,) = zxingcpp.read_barcodes(image)
    assert (code.text, code.format) == ("P2601170001K", zxingcpp.BarcodeFormat.QRCode)
    words = words_of(printed("of a lot", paper))
    assert "lot P2601170001K, frozen 2026-01-17" in words
    assert "Plastic: Invented plastisol" in words


def test_the_picture_stands_on_the_page_in_its_own_shape_and_color():
    ((left, bottom, right, top),) = pictures_of(printed("two layers"))
    assert (right - left) / (top - bottom) == pytest.approx(WIDE / TALL, rel=1e-3)
    image = page_of(printed("two layers")).render(scale=1).to_pil()
    middle = image.getpixel((round((left + right) / 2), round(792 - (bottom + top) / 2)))
    assert middle == RED


def test_a_look_without_a_picture_says_why():
    assert pictures_of(printed("no bait")) == []
    assert "No picture: no bait is picked." in words_of(printed("no bait"))


def test_invented_data_is_marked():
    assert INVENTED in words_of(printed("on a demo bench"))


def test_rows_that_do_not_fit_are_counted():
    words = words_of(printed("four layers of twenty"))
    shown = words.count("Invented ") - words.count(INVENTED)
    heads = words.count("L* ")
    left_out = int(words.split(" more row")[0].split()[-1])
    # The bait, the plastic and the note are invented, too, and the name of the look.
    assert shown - 4 + heads + left_out == 4 * len(MANY) + 4
