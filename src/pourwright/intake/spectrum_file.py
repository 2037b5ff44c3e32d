"""Spectra from a CSV file: one column of wavelengths, one column a reading."""

from __future__ import annotations

import csv
import io

import numpy as np

from pourwright.actions.port import NamedSpectrum
from pourwright.base.errors import BadInput
from pourwright.spectrum.light import WAVELENGTHS_NM

FIELD = "spectra"
MOST_BYTES = 2_000_000
MOST_COLUMNS = 200
# A white ceramic reads a little over 100 %; nothing reads half as much again.
_MOST_PERCENT = 150.0
# Reflectances beyond this are percent; a share hardly passes 1.2.
_PERCENT_FROM = 1.6
_WIDEST_STEP_NM = 20.0


def spectra(data: bytes) -> tuple[NamedSpectrum, ...]:
    """Every column of a CSV file on our 31 bands, as shares.

    The first column is the wavelength in nm, the first row names the columns; comma, semicolon or
    tab apart. Percent is told from shares by size. Wavelengths must reach from 400 to 700 nm in
    steps of 20 nm at most; what lies between is interpolated.
    Raises: BadInput naming the line and the value.
    """
    names, table = _table(_text(data))
    order = np.argsort(table[:, 0])
    at = table[order, 0]
    if at[0] > WAVELENGTHS_NM[0] or at[-1] < WAVELENGTHS_NM[-1]:
        raise BadInput(FIELD, f"{at[0]:g} to {at[-1]:g} nm", "must reach from 400 to 700 nm")
    if np.diff(at).max() > _WIDEST_STEP_NM or np.diff(at).min() <= 0:
        why = "needs steps of at most 20 nm, every wavelength once"
        raise BadInput(FIELD, f"{len(at)} wavelengths", why)
    values = table[order, 1:]
    scale = 100.0 if values.max() > _PERCENT_FROM else 1.0
    if values.max() > _MOST_PERCENT:
        raise BadInput(FIELD, float(values.max()), f"must lie between 0 and {_MOST_PERCENT:g} %")
    return tuple(
        NamedSpectrum(name, tuple(np.interp(WAVELENGTHS_NM, at, column / scale).tolist()))
        for name, column in zip(names, values.T, strict=True)
    )


def _text(data: bytes) -> str:
    if len(data) > MOST_BYTES:
        raise BadInput(FIELD, len(data), f"must be at most {MOST_BYTES:,} bytes")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise BadInput(FIELD, f"{len(data)} bytes", "must be CSV text in UTF-8") from error


def _table(text: str) -> tuple[list[str], np.ndarray[tuple[int, ...], np.dtype[np.float64]]]:
    first = text.partition("\n")[0]
    apart = max(",;\t", key=first.count)
    rows = [row for row in csv.reader(io.StringIO(text), delimiter=apart) if any(row)]
    if len(rows) < 3 or not 2 <= len(rows[0]) <= MOST_COLUMNS + 1:
        why = "needs a row of names, then rows of a wavelength and its reflectances"
        raise BadInput(FIELD, f"{len(rows)} rows", why)
    width = len(rows[0])
    values = [[_number(cell, line) for cell in _whole(row, width, line)]
              for line, row in enumerate(rows[1:], start=2)]  # fmt: skip
    return [name.strip() for name in rows[0][1:]], np.array(values)


def _whole(row: list[str], width: int, line: int) -> list[str]:
    if len(row) != width:
        raise BadInput(
            FIELD, f"line {line}", f"has {len(row)} columns where the names have {width}"
        )
    return row


def _number(cell: str, line: int) -> float:
    try:
        value = float(cell)
    except ValueError:
        raise BadInput(FIELD, cell[:40], f"is no number (line {line})") from None
    if not 0 <= value < np.inf:
        raise BadInput(FIELD, value, f"must be zero or more (line {line})")
    return value
