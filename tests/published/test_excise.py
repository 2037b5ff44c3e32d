"""The quarter's sheet against the statute, the rulings and the calendar."""

from __future__ import annotations

import calendar
import datetime as dt
from typing import Any

import pytest

from pourwright.base.errors import BadInput
from pourwright.shop.sale import Exempt, TaxWay
from pourwright.shop.tax.excise import ExciseInput, excise
from pourwright.shop.tax.excise_line import ExciseLine
from pourwright.shop.tax.quarter import Quarter

TOLD = {"base_adviser": "an invented adviser", "base_since": "2026-01-01"}


def sheet(*lines: ExciseLine, **more: Any):
    return excise(ExciseInput(year=2026, quarter=2, lines=lines, **more))


def line(price: float, **more: Any) -> ExciseLine:
    return ExciseLine(quantity=1, price_money=price, **more)


def test_ten_percent_lies_inside_a_price():
    # 26 USC 4161(a)(1)(A) (read): 10 percent of the price; 4216(a) (read): the price excludes the
    # tax; Rev. Rul. 65-41 (read): a price is presumed to hold it. So 110.00 = 100.00 + 10.00.
    answer = sheet(line(110))
    assert (answer.base_money, answer.tax_money) == (100, 10)


def test_three_quarters_of_a_retail_price():
    # Rev. Rul. 80-273 (read): 75 percent of the selling price after the adjustments of 4216(a),
    # which take the tax out: 0.10 x 0.75 x 100.00 = 7.50 on top, and as much inside 107.50.
    for price, way in ((100, TaxWay.ADDED), (107.5, TaxWay.INSIDE)):
        answer = sheet(line(price, tax_way=way, base_share=0.75), **TOLD)
        assert (answer.base_money, answer.tax_money) == (75, 7.5)


def test_delivery_leaves_the_price_only_where_it_is_established():
    # 26 USC 4216(a) (read): delivery is excluded only if its amount is established.
    for inside in (False, True):
        price = 110 + 11 * inside
        told = line(price, delivery_money=11, delivery_inside=inside, delivery_proof="receipt")
        untold = line(price, delivery_money=11, delivery_inside=inside)
        assert sheet(told).tax_money == 10
        assert sheet(untold).tax_money == 11
        assert "4216(a)" in sheet(untold).lines[0].notes[0]


@pytest.mark.parametrize(
    ("registration", "registered_on", "proof", "tax"),
    [("A1", "2026-05-01", "bill of lading", 0), ("", "", "bill of lading", 10),
     ("A1", "2026-05-02", "bill of lading", 10), ("A1", "2026-05-01", " ", 10)],
)  # fmt: skip
def test_a_free_sale_needs_registration_and_proof(registration, registered_on, proof, tax):
    # 26 USC 4221(a)(2), (b), 4222 (read): otherwise the seller stays liable.
    answer = sheet(
        line(110, sold_on="2026-05-01", exempt=Exempt.EXPORT, proof=proof),
        registration=registration, registered_on=registered_on,
    )  # fmt: skip
    assert answer.tax_money == tax
    assert answer.free_money == (0 if tax else 110)
    assert answer.lines[0].free is not bool(tax)
    said = answer.lines[0].notes[0]
    assert ("it lacks" in said) == bool(tax)


@pytest.mark.parametrize(
    ("sold_on", "proof_by"),
    [("2026-05-01", "2026-11-01"), ("2026-08-31", "2027-02-28"), ("2027-08-30", "2028-02-29")],
)
def test_the_proof_is_due_within_six_months(sold_on, proof_by):
    # 26 USC 4221(b) (read): within the 6-month period that begins with the sale.
    quarter = Quarter.of(sold_on)
    free = line(1, sold_on=sold_on, exempt=Exempt.EXPORT, proof="bill")
    answer = excise(ExciseInput(
        year=quarter.year, quarter=quarter.number, lines=(free,), registration="A1"
    ))  # fmt: skip
    assert answer.lines[0].proof_by == proof_by


@pytest.mark.parametrize(
    ("name", "first", "last", "due"),
    [
        # Instructions for Form 720 (read): April 30, July 31, October 31, January 31.
        ("2020-Q1", "2020-01-01", "2020-03-31", "2020-04-30"),
        ("2025-Q2", "2025-04-01", "2025-06-30", "2025-07-31"),
        ("2023-Q3", "2023-07-01", "2023-09-30", "2023-10-31"),
        ("2001-Q4", "2001-10-01", "2001-12-31", "2002-01-31"),
        # The same: the next business day after a Saturday or Sunday. 30 April 2022 was a Saturday,
        # 31 July 2022 a Sunday; 31 January 2026 a Saturday, 31 October 2027 a Sunday (calendar).
        ("2022-Q1", "2022-01-01", "2022-03-31", "2022-05-02"),
        ("2022-Q2", "2022-04-01", "2022-06-30", "2022-08-01"),
        ("2025-Q4", "2025-10-01", "2025-12-31", "2026-02-02"),
        ("2027-Q3", "2027-07-01", "2027-09-30", "2027-11-01"),
    ],
)
def test_when_the_return_is_due(name, first, last, due):
    year, number = name.split("-Q")
    quarter = Quarter(int(year), int(number))
    assert (quarter.name, quarter.first, quarter.last) == (name, first, last)
    assert quarter.due_on == due
    assert quarter == Quarter.of(first) == Quarter.of(last)
    answer = excise(ExciseInput(year=int(year), quarter=int(number)))
    assert (answer.due_on, answer.form_line) == (due, "Form 720, Part II, IRS No. 41")


def legal_holidays(year: int) -> set[dt.date]:
    """Days of 5 USC 6103(a) and the District of Columbia's own, as observed (from memory)."""
    fixed = [(1, 1), (6, 19), (7, 4), (11, 11), (12, 25), (4, 16), (1, 20)]
    days = {dt.date(year, m, d) for m, d in fixed}
    moving = [(1, 0, 3), (2, 0, 3), (5, 0, -1), (9, 0, 1), (10, 0, 2), (11, 3, 4)]
    for month, weekday, nth in moving:
        weeks = [w[weekday] for w in calendar.monthcalendar(year, month) if w[weekday]]
        days.add(dt.date(year, month, weeks[nth - 1 if nth > 0 else -1]))
    days |= {d + dt.timedelta({5: -1, 6: 1}.get(d.weekday(), 0)) for d in days}
    return days | {dt.date(year, 12, 31)}  # New Year's Day of the next year on a Saturday


def test_no_legal_holiday_moves_a_due_day():
    for year in range(1990, 2201):
        for number in (1, 2, 3, 4):
            due = dt.date.fromisoformat(Quarter(year, number).due_on)
            assert due.weekday() < 5
            assert due not in legal_holidays(due.year)


def test_only_who_was_told_by_an_adviser_takes_less_than_the_price():
    # Rev. Rul. 80-273 (read) is no general rule: adviser and day are asked for by name.
    for name in TOLD:
        with pytest.raises(BadInput, match=name):
            sheet(line(100, base_share=0.75), **(TOLD | {name: ""}))
    with pytest.raises(BadInput, match=r"lines\[0\].base_share"):
        sheet(
            line(100, base_share=0.75, sold_on="2026-04-30"),
            **(TOLD | {"base_since": "2026-05-01"}),
        )


@pytest.mark.parametrize("name", ["registered_on", "base_since"])
def test_a_day_that_no_calendar_has_is_refused_by_name(name):
    with pytest.raises(BadInput, match=f"{name}: is no day of the calendar"):
        sheet(**{name: "2026-02-30"})


def test_a_line_of_another_quarter_is_refused_by_name():
    with pytest.raises(BadInput, match=r"lines\[1\].sold_on: lies outside 2026-Q2"):
        sheet(line(1), line(1, sold_on="2026-07-01"))


def test_every_caution_names_its_section_and_the_sheet_is_no_advice():
    answer = sheet()
    assert answer.tax_money == 0
    assert "adviser" in answer.not_advice
    assert all(it.source for it in answer.cautions)
    said = " ".join(f"{it.words} {it.source}" for it in answer.cautions) + " ".join(
        answer.ask_adviser
    )
    for section in (
        "4161(a)(1)(A)", "4162(a)(5)", "48.0-2(a)(4)", "4216(a)", "65-41", "4216(b)(1)(A)",
        "81-73", "80-273", "48.4218-2", "Form 720", "Publication 510", "Form 637", "4221", "86-18",
        "98-369", "81-226", "6416(c)", "75-18", "4162(b)", "471(c)",
    ):  # fmt: skip
        assert section in said
    assert any("quarter without sales is filed too" in note for note in answer.notes)
