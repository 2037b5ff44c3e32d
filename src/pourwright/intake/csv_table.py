"""Read a CSV file of ours back, without the apostrophes that kept formulas out."""

from __future__ import annotations

import csv
import io
import re

from pourwright.base.errors import BadInput

_GUARDED = re.compile(r"'+[=+\-@\t\r\n]")


def csv_rows(data: bytes) -> tuple[tuple[str, ...], ...]:
    """Every row, the header among them, as it was before it was guarded.

    Raises: BadInput for what is no CSV in UTF-8.
    """
    try:
        text = data.decode("utf-8-sig")
        rows = tuple(csv.reader(io.StringIO(text, newline=""), strict=True))
    except (UnicodeDecodeError, csv.Error) as error:
        raise BadInput("table", f"{len(data)} bytes", f"is no CSV in UTF-8: {error}") from error
    return tuple(tuple(_unguarded(cell) for cell in row) for row in rows)


def _unguarded(cell: str) -> str:
    return cell[1:] if _GUARDED.match(cell) else cell
