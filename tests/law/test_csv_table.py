"""Laws of tables as CSV: every text comes back, and none is a formula on the way."""

from __future__ import annotations

import csv
import io
from decimal import Decimal

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from pourwright.base.errors import BadInput
from pourwright.intake.csv_table import csv_rows
from pourwright.render.csv_table import csv_bytes
from pourwright.shop.money import Money

lawful = settings(derandomize=True, deadline=None, max_examples=300)

# "CSV Injection", OWASP Foundation (community page): the characters that begin a formula.
STARTS = "=+-@\t\r\n"
text = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
awkward = st.builds(
    str.__add__, st.text(f"'{STARTS}", max_size=4), st.text(st.sampled_from("a,\"';\r\n é")),
)  # fmt: skip
tables = st.integers(1, 4).flatmap(
    lambda wide: st.lists(st.lists(text | awkward, min_size=wide, max_size=wide), min_size=1)
)


@lawful
@given(tables)
@example([["'=x"], ["''-1"], ["'plain"], [""], ["'"]])
def test_every_text_comes_back(rows):
    data = csv_bytes(rows[0], rows[1:])
    assert csv_rows(data) == tuple(map(tuple, rows))


@lawful
@given(tables)
def test_an_independent_reader_sees_the_table_and_no_formula(rows):
    data = csv_bytes(rows[0], rows[1:])
    read = list(csv.reader(io.StringIO(data.decode("utf-8"), newline="")))
    assert [len(row) for row in read] == [len(row) for row in rows]
    assert not [cell for row in read for cell in row if cell.startswith(tuple(STARTS))]


@lawful
@given(st.integers() | st.decimals(-(10**9), 10**9, places=4))
def test_numbers_are_not_guarded(value):
    (_, cells) = csv_rows(csv_bytes(["n"], [[value]]))
    assert Decimal(cells[0]) == value


def test_lines_end_and_quotes_double_as_the_standard_says():
    # RFC 4180 (2005), section 2: rules 1, 5, 6 and 7.
    data = csv_bytes(["a", "b"], [["x, y", 'say "hook"'], ["two\r\nlines", None]])
    assert data == b'a,b\r\n"x, y","say ""hook"""\r\n"two\r\nlines",\r\n'


def test_money_keeps_its_ten_thousandths_and_its_sign():
    assert csv_bytes(["left"], [[Money(-12_345)]]) == b"left\r\n-1.2345\r\n"


def test_a_row_of_another_width_is_our_own_slip():
    with pytest.raises(ValueError, match="a row of 2 cells under a header of 1"):
        csv_bytes(["a"], [["x", "y"]])


@pytest.mark.parametrize("data", [b"\xff\xfe", b'a,b\r\n"open'])
def test_what_is_no_table_is_refused_in_words(data):
    with pytest.raises(BadInput, match="is no CSV in UTF-8"):
        csv_rows(data)
