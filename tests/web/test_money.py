"""The money page and the tax sheet: empty, with sales, without a country, on paper, as a table."""

from __future__ import annotations

import csv
import io
import re

import pypdfium2 as pdfium
import pytest

from pourwright.actions.tax_standing import choose_country, tax_standing
from pourwright.shop.sale import Exempt, Sale
from pourwright.shop.tax.caution import ELSEWHERE
from pourwright.shop.tax_profile import TaxCountry
from pourwright.web.today_here import day_here
from sold_bench import bought, line, sold, stocked, taken_back
from web.client import Client, form_in, words_in

SHEET = "/money/quarter/2026-Q2"


@pytest.fixture
def world(empty_world):
    stocked(empty_world)
    bought(empty_world, at="2026-04-03T12:00:00Z", cost="12.34")
    one = Sale(
        sold_on="2026-05-10", lines=(line(110),), fees_money=3, delivery_money=6,
        delivery_proof="receipt",
    )  # fmt: skip
    sold(empty_world, one, at="2026-05-10T12:00:00Z", costs=["40"])
    return empty_world


def test_an_empty_year_says_where_its_figures_will_come_from(empty_world):
    words = words_in(Client(empty_world).get("/money"))
    assert "Nothing was sold or bought" in words
    assert "A maker&#39;s tax may be due" in words


def test_the_demo_bench_shows_bars_and_sums(full_world):
    year = day_here(full_world.clock.now())[:4]
    page = Client(full_world).get(f"/money?year={year}")
    assert page.status_code == 200
    assert "<h1>Money</h1>" in page.text
    if 'class="money-tally"' in page.text:  # early in January nothing was sold yet
        assert page.text.count('class="outer') >= 1


def test_a_year_with_sales_in_bars_words_and_sums(world):
    choose_country(world, TaxCountry.US)
    page = Client(world).get("/money?year=2026")
    words = words_in(page)
    # 110.00 less 3.00, 40.00 and the 10.00 inside it (26 USC 4161(a)(1)(A), 4216(a)).
    assert "Left $57.00" in words
    assert "2026-05: sold $110.00, left $57.00" in page.text
    assert "2026-04: bought $12.34, stock at its end $5,012.34" in page.text
    assert page.text.count("<rect") == 3
    assert "not tax advice" in words
    assert "Return due Fri, Jul 31, 2026" in words


def test_what_takes_more_than_it_brings_hangs_below_the_line(world):
    dear = Sale(sold_on="2026-06-10", lines=(line(1),))
    sold(world, dear, at="2026-06-10T12:00:00Z", costs=["20"])
    page = Client(world).get("/money?year=2026")
    assert 'class="inner below"' in page.text
    assert "−$19.00" in words_in(page)


@pytest.mark.parametrize("year", ["", "abc", "1850", "9999", "-1"])
def test_a_year_that_is_none_is_refused_in_words(world, year):
    page = Client(world).get(f"/money?year={year}")
    assert page.status_code == 422
    assert "year" in words_in(page)


def test_no_tax_figure_before_a_country_is_chosen(world):
    client = Client(world)
    for path in ("/money?year=2026", SHEET):
        page = client.get(path)
        assert "Where do you make your baits" in words_in(page)
        assert "$10.00" not in page.text
    for kind in ("pdf", "csv"):
        refused = client.get(f"{SHEET}/sheet.{kind}")
        assert refused.status_code == 422
        assert "no figure is reckoned" in words_in(refused)


def test_the_country_is_asked_for_and_kept(world):
    client = Client(world)
    fields = {"country": TaxCountry.US.value, "quarter": "2026-Q2"}
    answer = client.send("/money/country", fields)
    assert answer.headers["location"] == SHEET
    assert "Tax of the quarter $10.00" in words_in(client.get(SHEET))
    assert client.send("/money/country", {"country": "atlantis"}).status_code == 422
    with world.reading() as bench:
        kept = tax_standing(bench)
    assert kept is not None
    assert kept.country is TaxCountry.US


def test_elsewhere_there_are_cautions_and_no_figure(world):
    choose_country(world, TaxCountry.ELSEWHERE)
    client = Client(world)
    for path in ("/money?year=2026", SHEET):
        page = client.get(path)
        assert ELSEWHERE.partition("Makers")[0].strip() in words_in(page)
        assert "$10.00" not in page.text
    assert client.get(f"{SHEET}/sheet.csv").status_code == 422


def test_the_profile_is_changed_in_its_form(world):
    choose_country(world, TaxCountry.US)
    client = Client(world)
    address = "/records/tax_profile/tax_profile"
    refused = client.send(address, form_in(client.get(address)) | {"base_share": "75"})
    assert refused.status_code == 422
    assert "needs the name of the adviser" in words_in(refused)
    answer = client.send(address, form_in(client.get(address)))
    assert answer.headers["location"].startswith("/money?saved=tax_profile")
    assert "Saved" in words_in(client.get(answer.headers["location"]))


def test_the_sheet_line_by_line_with_what_is_open(world):
    choose_country(world, TaxCountry.US)
    key = sold(
        world, Sale(sold_on="2026-06-30", lines=(line(11, exempt=Exempt.EXPORT),)),
        at="2026-06-30T12:00:00Z", costs=["1"],
    )  # fmt: skip
    late = sold(
        world, Sale(sold_on="2026-06-30", lines=(line(22),)), at="2026-06-30T12:00:00Z",
        costs=["1"],
    )  # fmt: skip
    taken_back(world, late, at="2026-07-09T12:00:00Z", why="=1+1")
    page = Client(world).get(SHEET)
    words = words_in(page)
    assert "Tax of the quarter $13.00" in words
    assert f"/sales/{key}" in page.text
    assert "but taxed here: it lacks" in words
    assert "Still on this sheet, though taken back after the quarter" in words
    assert "26 CFR 48.4218-1(b), 48.4218-2(a), (b)" in words
    assert words.count("Ask a licensed adviser.") == 5
    assert page.text.index("Not tax advice") < page.text.index("$13.00")


@pytest.mark.parametrize("name", ["2026-Q5", "2026", "Q2", "x-1", "2026-Q2-3"])
def test_a_quarter_that_is_none_is_refused_in_words(world, name):
    assert Client(world).get(f"/money/quarter/{name}").status_code == 422


def test_the_sheet_on_paper(world):
    choose_country(world, TaxCountry.US)
    answer = Client(world).get("/money/quarter/2026-2/sheet.pdf")
    assert answer.headers["content-type"] == "application/pdf"
    assert "tax-sheet-2026-Q2.pdf" in answer.headers["content-disposition"]
    words = pdfium.PdfDocument(answer.content)[0].get_textpage().get_text_range()
    assert "$10.00" in words


def test_the_lines_as_a_table_in_which_no_text_becomes_a_formula(world):
    choose_country(world, TaxCountry.US)
    evil = Sale(sold_on="2026-06-01", lines=(line(11, bait="=HYPERLINK(1)", exempt=Exempt.EXPORT),))
    sold(world, evil, at="2026-06-01T12:00:00Z", costs=["1"])
    answer = Client(world).get(f"{SHEET}/sheet.csv")
    rows = list(csv.DictReader(io.StringIO(answer.content.decode())))
    assert [row["tax_money"] for row in rows] == ["10.0000", "1.0000"]
    assert rows[0]["delivery_excluded_money"] == "6.0000"
    assert not re.search(r"(^|,)\"?[=+@]", answer.content.decode(), re.MULTILINE)
