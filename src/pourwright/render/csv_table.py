"""A table as a CSV file that no spreadsheet takes for formulas.

RFC 4180: commas, CRLF, quotes around what needs them; UTF-8. A text that a spreadsheet would
reckon out gets an apostrophe before it, and so does one that looks guarded already: taking one
apostrophe away from what looks guarded (`pourwright.intake.csv_table`) gives every text back.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence
from decimal import Decimal

from pourwright.actions.port import Cell
from pourwright.shop.money import Money

# What a cell that becomes a formula begins with, after any apostrophes.
_RECKONED = re.compile(r"'*[=+\-@\t\r\n]")


def csv_bytes(header: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
    r"""The file. Money is written to four places, numbers as they are, nothing as an empty cell.

    Raises: ValueError for a row that is longer or shorter than the header.

    >>> csv_bytes(["name", "left_g"], [["=1+1", -2.5]])
    b"name,left_g\r\n'=1+1,-2.5\r\n"
    """
    text = io.StringIO()
    out = csv.writer(text, lineterminator="\r\n")
    out.writerow([_guarded(name) for name in header])
    for row in rows:
        if len(row) != len(header):
            raise ValueError(f"a row of {len(row)} cells under a header of {len(header)}")
        out.writerow([_written(cell) for cell in row])
    return text.getvalue().encode()


def _written(cell: Cell) -> str | int | float | Decimal | None:
    if isinstance(cell, Money):
        return cell.decimal()
    return _guarded(cell) if isinstance(cell, str) else cell


def _guarded(text: str) -> str:
    return f"'{text}" if _RECKONED.match(text) else text
