"""The printed sheet: one page, nothing outside its margins, nothing on top of another."""

from __future__ import annotations

import dataclasses
import functools
import re

import numpy as np
import pypdfium2 as pdfium
import pytest
import zxingcpp

from example_sheet import (
    DOSES,
    LONG_NAMES,
    SIMPLE,
    cup,
    heat,
    layered,
    sheet,
)
from pourwright.base.pixels import Pixels
from pourwright.base.record import to_json
from pourwright.base.units import System
from pourwright.plan.batch import plan_batch
from pourwright.render.caution import CARE, FIRE
from pourwright.render.sheet_pdf import MARGIN, sheet_pdf
from pourwright.render.style import LEAST_SIZE
from pourwright.shop.workplace import Paper
from printed_page import boxes_of, on_top, page_of, pictures_of, words_of

TWELVE = dataclasses.replace(
    SIMPLE,
    cups=tuple(cup(n, virgin_g=330.0 - n) for n in range(1, 13)),
    heat=(heat(tuple(range(1, 13))),),
)
ALIKE = dataclasses.replace(
    SIMPLE, cups=tuple(cup(n) for n in range(1, 13)), heat=(heat(tuple(range(1, 13))),)
)
BARE = dataclasses.replace(SIMPLE, figures=(), warnings=(), shelf=(), costs=(), looks=(), heat=())
SHEETS = {
    "simple": sheet(),
    "four layers of ten doses": sheet(layered()),
    "twelve cups alike": sheet(ALIKE),
    "twelve cups, each its own": sheet(TWELVE),
    "two dozen cups, each its own": sheet(layered(6, 6, alike=False)),
    "a hundred cups": sheet(layered(25, 6, alike=False)),
    "long names": sheet(LONG_NAMES, title="Slough " * 40, number=1_234_567),
    "one endless word": sheet(title="W" * 300),
    "no figures": sheet(BARE),
}
PAPERS = {Paper.LETTER: (612, 792), Paper.A4: (595.28, 841.89)}


@functools.cache
def printed(name: str, paper: Paper = Paper.LETTER, system: System = System.US) -> bytes:
    return sheet_pdf(SHEETS[name], system=system, paper=paper)


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("name", SHEETS)
def test_one_page_and_no_letter_outside_its_margins(name, system, paper):
    pdf = printed(name, paper, system)
    assert page_of(pdf).get_size() == pytest.approx(PAPERS[paper], abs=0.01)
    boxes, _ = boxes_of(pdf)
    wide, tall = PAPERS[paper]
    assert boxes[:, 0].min() >= MARGIN - 0.5
    assert boxes[:, 1].min() >= MARGIN - 0.5
    assert boxes[:, 2].max() <= wide - MARGIN + 0.5
    assert boxes[:, 3].max() <= tall - MARGIN + 0.5


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("name", SHEETS)
def test_no_letter_lies_on_another(name, paper):
    assert on_top(printed(name, paper)) == []


@pytest.mark.parametrize("name", SHEETS)
def test_no_letter_is_too_small_for_a_home_printer(name):
    text = page_of(printed(name)).get_textpage()
    sizes = [
        pdfium.raw.FPDFText_GetFontSize(text, i)
        for i in range(text.count_chars())
        if text.get_text_range(i, 1).strip()
    ]
    assert min(sizes) >= LEAST_SIZE == 7.5


@pytest.mark.parametrize("name", ["simple", "long names", "one endless word"])
def test_its_bait_stands_in_the_head_and_on_no_letter(name):
    picture = Pixels(np.full((40, 100, 3), (200, 10, 20), np.uint8))
    pdf = sheet_pdf(SHEETS[name], system=System.US, paper=Paper.LETTER, picture=picture)
    ((left, bottom, right, top),) = pictures_of(pdf)
    assert (right - left) / (top - bottom) == pytest.approx(100 / 40, rel=1e-3)
    assert bottom > 792 - MARGIN - 60
    assert on_top(pdf) == []
    boxes, _ = boxes_of(pdf)
    apart = (boxes[:, 2] < left) | (boxes[:, 0] > right) | (boxes[:, 3] < bottom)
    assert apart.all()
    assert zxingcpp.read_barcodes(page_of(pdf).render(scale=150 / 72).to_pil())
    assert pictures_of(printed(name)) == []


@pytest.mark.parametrize("name", SHEETS)
def test_the_same_sheet_gives_the_same_bytes(name):
    again = sheet_pdf(SHEETS[name], system=System.US, paper=Paper.LETTER)
    assert again == printed(name)


@pytest.mark.parametrize("name", SHEETS)
@pytest.mark.parametrize("paper", Paper)
def test_code_and_cautions_stand_on_every_sheet(name, paper):
    words = words_of(printed(name, paper))
    assert SHEETS[name].code in words
    for lead, caution in (*FIRE, *CARE):
        assert f"{lead} {caution}" in words


@pytest.mark.parametrize("paper", Paper)
def test_the_code_can_be_read_off_the_page(paper):
    image = page_of(printed("simple", paper)).render(scale=150 / 72).to_pil()
    found = zxingcpp.read_barcodes(image)
    assert [(code.text, code.format) for code in found] == [
        (SHEETS["simple"].code, zxingcpp.BarcodeFormat.QRCode)
    ]


def test_what_to_measure_stands_on_the_sheet():
    words = words_of(printed("simple"))
    assert "Cups 1, 2, each: body" in words
    assert "Fresh plastic 334.2 g" in words
    assert "24 drops 0.968 g −1%" in words
    assert "1 + 1/4 tsp 3.36 g +3%" in words
    for dose in DOSES:
        assert dose.name in words


def test_four_layers_of_ten_doses_stand_on_one_page_whole():
    for paper in Paper:
        words = words_of(printed("four layers of ten doses", paper))
        assert "see the screen" not in words
        assert words.count("Heat stabilizer") == words.count("Hollow glass") == 4


# 170 °C = 338 °F, 180 °C = 356 °F: exact by NIST SP 811 (2008), appendix B.8.
@pytest.mark.parametrize(
    ("system", "target", "limit", "reads"),
    [
        (System.US, "Pour at 338 °F", "Hot limit 356 °F", "should read °F"),
        (System.METRIC, "Pour at 170 °C", "Hot limit 180 °C", "should read °C"),
    ],
)
def test_temperatures_stand_in_the_chosen_units(system, target, limit, reads):
    words = words_of(printed("simple", Paper.LETTER, system))
    assert target in words
    assert limit in words
    assert reads in words


def test_the_reading_table_says_when_to_stop():
    words = words_of(printed("simple", Paper.A4, System.METRIC))
    assert "It reads °C 80 100 120 130 140 150 155 160 165 170" in words
    assert re.search(r"heat min:s, cups 1, 2 3:05 .*0:15\* .*stop", words)


def test_cups_alike_are_said_once():
    words = words_of(printed("twelve cups alike"))
    assert "Cups 1–12, each: body" in words
    assert words.count("Fresh plastic") == 1
    assert "see the screen" not in words


@pytest.mark.parametrize("name", ["two dozen cups, each its own", "a hundred cups"])
def test_rows_left_out_are_counted(name):
    words = words_of(printed(name))
    left_out = re.search(r"(\d+) more rows: see the screen \[a\]", words)
    assert left_out
    shown = words.count("Fresh plastic")
    rows = sum(2 + len(c["lines"]) for c in SHEETS[name].plan["cups"])
    assert shown >= 1
    assert int(left_out[1]) + 12 * shown == rows


def test_readings_of_more_cups_than_boxes_go_on_the_back():
    words = words_of(printed("two dozen cups, each its own"))
    assert "Cups 13–24: write the readings on the back." in words


def test_what_is_short_is_said_once_and_money_carries_its_sign():
    words = words_of(sheet_pdf(sheet(), system=System.US, paper=Paper.LETTER, sign="€"))
    assert "Short missing on the shelf: Marsh green 0.7 g of 1.94 g." in words
    assert "Short of Marsh green" not in words
    assert "€1.01" in words
    assert "remelt credit −€1.27" in words
    assert "$" not in words


def test_boxes_for_all_that_came_out():
    words = words_of(printed("simple"))
    for box in (
        "Shots", "Good", "Flash", "Short", "Dent", "Bubble", "Other", "Five weigh", "Cup 1",
        "Cup 2",
    ):  # fmt: skip
        assert box in words


def test_a_planned_batch_prints():
    planned = plan_batch.answer(dict(plan_batch.example))
    found = dataclasses.replace(SHEETS["simple"], plan=to_json(planned))
    words = words_of(sheet_pdf(found, system=System.US, paper=Paper.LETTER))
    assert "24 × bait" in words
    assert "Cup 1: body" in words
