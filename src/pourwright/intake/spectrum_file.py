"""Spectra from a CSV file: wavelengths down the first column or along the first row."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass

import numpy as np

from pourwright.actions.port import NamedSpectrum
from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.spectrum.light import WAVELENGTHS_NM

FIELD = "spectra"
MOST_BYTES = 2_000_000
MOST_READINGS = 200
# A white ceramic reads a little over 100 %; nothing without glow reads a fifth more.
_MOST_PERCENT = 120.0
# Up to the first, values are shares; from the second on, percent; between them nobody can tell.
_SHARES_TO, _PERCENT_FROM = 1.2, 2.0
_WIDEST_STEP_NM = 20.0
_FIRST_NM, _LAST_NM = 200.0, 2600.0
_NEEDS = "needs a row of names, then rows of a wavelength and its reflectances"


@dataclass(frozen=True, slots=True)
class _Row:
    """One line that is not empty."""

    line: int
    cells: list[str]


def spectra(data: bytes) -> tuple[NamedSpectrum, ...]:
    """Every reading of a CSV file on our 31 bands, as shares.

    The first column holds wavelengths in nm and the first row names the readings, or the other way
    round; comma, semicolon or tab apart, where the last two leave the comma for decimals. A "%" in
    the first cell says percent, "share" says shares; without either, size tells. Wavelengths must
    reach from 400 to 700 nm in steps of 20 nm at most; what lies between is interpolated.
    Raises: BadInput naming the line and the value.
    """
    apart, rows = _rows(_text(data))
    corner = rows[0].cells[0].lower()
    names, table = _table(rows, apart)
    order = np.argsort(table[:, 0])
    at, values = table[order, 0], table[order, 1:]
    _check_wavelengths(at)
    percent = _percent(corner, float(values.max()))
    most = _MOST_PERCENT if percent else _MOST_PERCENT / 100
    if values.max() > most:
        why = f"must lie between 0 and {most:g}, being {'percent' if percent else 'shares'}"
        raise BadInput(FIELD, float(values.max()), why)
    shares = values / 100 if percent else values
    return tuple(
        NamedSpectrum(name, tuple(np.interp(WAVELENGTHS_NM, at, column).tolist()), percent)
        for name, column in zip(names, shares.T, strict=True)
    )


def _check_wavelengths(at: Array) -> None:
    if at[0] > WAVELENGTHS_NM[0] or at[-1] < WAVELENGTHS_NM[-1]:
        raise BadInput(FIELD, f"{at[0]:g} to {at[-1]:g} nm", "must reach from 400 to 700 nm")
    if np.diff(at).max() > _WIDEST_STEP_NM or np.diff(at).min() <= 0:
        why = "needs steps of at most 20 nm, every wavelength once"
        raise BadInput(FIELD, f"{len(at)} wavelengths", why)


def _percent(corner: str, highest: float) -> bool:
    if "%" in corner or "percent" in corner:
        return True
    if "share" in corner or highest <= _SHARES_TO:
        return False
    if highest < _PERCENT_FROM:
        why = "may be percent or a share: write % or share into the first cell"
        raise BadInput(FIELD, highest, why)
    return True


def _text(data: bytes) -> str:
    if len(data) > MOST_BYTES:
        raise BadInput(FIELD, len(data), f"must be at most {MOST_BYTES:,} bytes")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise BadInput(FIELD, f"{len(data)} bytes", "must be CSV text in UTF-8") from error


def _rows(text: str) -> tuple[str, list[_Row]]:
    first = next((t for t in text.splitlines() if t.strip()), "")
    apart = max(";\t,", key=first.count)
    reader = csv.reader(io.StringIO(text), delimiter=apart)
    try:
        rows = [_Row(reader.line_num, row) for row in reader if any(c.strip() for c in row)]
    except csv.Error as error:
        raise BadInput(FIELD, f"line {reader.line_num}", f"is no CSV: {error}") from error
    if len(rows) < 2 or len(rows[0].cells) < 2:
        raise BadInput(FIELD, f"{len(rows)} rows", _NEEDS)
    return apart, rows


def _table(rows: list[_Row], apart: str) -> tuple[list[str], Array]:
    """Names of the readings, and a column of wavelengths before a column of each reading."""
    width = len(rows[0].cells)
    for row in rows:
        if len(row.cells) != width:
            why = f"has {len(row.cells)} columns where the first row has {width}"
            raise BadInput(FIELD, f"line {row.line}", why)
    across = _along(rows[0], apart)
    count = len(rows) - 1 if across else width - 1
    if len(rows) < (2 if across else 3) or count > MOST_READINGS:
        why = f"{_NEEDS}; at most {MOST_READINGS} readings"
        raise BadInput(FIELD, f"{count} readings", why)
    if across:
        numbers = [_numbers(row, row.cells[1:], apart) for row in rows]
        return [row.cells[0].strip() for row in rows[1:]], np.array(numbers).T
    numbers = [_numbers(row, row.cells, apart) for row in rows[1:]]
    return [name.strip() for name in rows[0].cells[1:]], np.array(numbers)


def _along(row: _Row, apart: str) -> bool:
    """Whether the first row holds the wavelengths."""
    try:
        found = [_plain(cell, apart) for cell in row.cells[1:]]
    except ValueError:
        return False
    return len(found) > 1 and all(_FIRST_NM <= v <= _LAST_NM for v in found)


def _numbers(row: _Row, cells: list[str], apart: str) -> list[float]:
    return [_number(cell, row.line, apart) for cell in cells]


def _number(cell: str, line: int, apart: str) -> float:
    try:
        value = _plain(cell, apart)
    except ValueError:
        raise BadInput(FIELD, cell[:40], f"is no number (line {line})") from None
    if not 0 <= value < np.inf:
        raise BadInput(FIELD, value, f"must be zero or more (line {line})")
    return value


def _plain(cell: str, apart: str) -> float:
    return float(cell if apart == "," else cell.replace(",", "."))
