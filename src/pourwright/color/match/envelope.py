"""How far reflectance and its slopes can range while absorption and scattering range.

Reflectance falls with absorption, but over a bright ground not always rises with scattering, so
ranges are taken over every cell of the table that is touched: by the largest and smallest values
of blocks of 1, 2, 4, ... cells, two of which cover any run of cells.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.color.match.cells import ALONG_FIELDS, FIELDS, cells_of, rows_of
from pourwright.color.octave import STEPS, Single
from pourwright.color.slab import ABSORB, SCATTER

_LEFT_BITS = 23 - (STEPS.bit_length() - 1)
_BIAS = 127
# 32-bit sums over the bottles are off by less.
_ROUNDING = np.float32(4e-6)
_HALF = np.float32(0.5)

Whole = NDArray[np.int32]
# The largest power of two that fits in a run of n + 1 cells, as its exponent.
_LEVEL = np.array([(n + 1).bit_length() - 1 for n in range(1024)], dtype=np.int32)


@dataclass(frozen=True, slots=True)
class Range:
    """Least and most reflectance, (boxes, bands); middle and half width of its slopes.

    Slopes (boxes, 2 bands): with absorption anywhere, then with scattering at the middle
    absorption. A way from the middle to any place runs along the second, then along the first.
    """

    low: Single
    high: Single
    middles: Single
    halves: Single


class Envelope:
    """Ranges over rectangles of (absorption, scattering) times thickness, one table to a band.

    `absorb` and `scatter` are the least and the most that will be asked for. Each table that is
    unlike the others takes some tens of megabytes.
    """

    def __init__(
        self, tables: Sequence[Single], absorb: tuple[float, float], scatter: tuple[float, float]
    ) -> None:
        distinct = {id(t): t for t in tables}
        numbers = {key: i for i, key in enumerate(distinct)}
        self._rows, self._columns = _held(absorb, ABSORB), _held(scatter, SCATTER)
        rows, columns = slice(*self._rows), slice(*self._columns)
        nodes = slice(self._rows[0], self._rows[1] + 1)
        blocks = [_blocks(cells_of(t)[rows, columns]) for t in distinct.values()]
        strips = [_strips(rows_of(t)[nodes, columns]) for t in distinct.values()]
        self._shape = blocks[0].shape[1:4]
        self._blocks = np.concatenate([b.reshape(-1, FIELDS) for b in blocks])
        self._strips = np.concatenate([s.reshape(-1, ALONG_FIELDS) for s in strips])
        number = np.array([numbers[id(t)] for t in tables], dtype=np.int32)
        self._first_block = number * np.int32(len(self._blocks) // len(distinct))
        self._first_strip = number * np.int32(len(self._strips) // len(distinct))

    def over(self, absorb: tuple[Single, Single, Single], scatter: tuple[Single, Single]) -> Range:
        """Ranges between least and most, (boxes, bands) each; `absorb` has its middle between."""
        across = _run(absorb[0], absorb[2], ABSORB, self._rows)
        along = _run(*scatter, SCATTER, self._columns)
        value, fall = np.split(self._over_blocks(across, along), 2, axis=-1)
        rise = self._over_strips(absorb[1], along)
        fields = np.concatenate([fall, rise], axis=1)
        up, down = fields[..., 1], fields[..., 0]
        return Range(-value[..., 0], value[..., 1], (up - down) * _HALF, (up + down) * _HALF)

    def _over_blocks(self, across: _Run, along: _Run) -> Single:
        levels, rows, columns = (np.int32(n) for n in self._shape)
        level = (across.size * levels + along.size) * rows
        parts = []
        for row in (across.first, across.last):
            at = (level + row) * columns + self._first_block
            parts += [np.take(self._blocks, at + c, axis=0) for c in (along.first, along.last)]
        return _largest(parts)

    def _over_strips(self, absorb: Single, along: _Run) -> Single:
        """At one absorption, between the two rows of nodes about it."""
        _, rows, columns = (np.int32(n) for n in self._shape)
        cell = np.clip(_cell(absorb, ABSORB), self._rows[0], self._rows[1] - 1)
        part = _part(absorb)[..., None]
        # Beyond the table the last row of nodes stands for all that lies there.
        part[cell == (ABSORB[1] - ABSORB[0]) * STEPS + 1] = 1
        row = cell - np.int32(self._rows[0])
        at = (along.size * (rows + 1) + row) * columns + self._first_strip
        ends = []
        for _ in range(2):
            ends.append(
                _largest([np.take(self._strips, at + c, axis=0) for c in (along.first, along.last)])
            )
            at += columns
        ends[1] -= ends[0]
        ends[1] *= part
        ends[0] += ends[1]
        return ends[0]


@dataclass(frozen=True, slots=True)
class _Run:
    """Exponents of the blocks' sizes, and the cells where the two that cover a run begin."""

    size: Whole
    first: Whole
    last: Whole


def _held(ends: tuple[float, float], octaves: tuple[int, int]) -> tuple[int, int]:
    """The first cell to keep and the one past the last."""
    wider = np.array([ends[0] * 0.999, ends[1] * 1.001], dtype=np.float32)
    first, last = _cell(wider, octaves)
    return int(first), int(last) + 1


def _run(low: Single, high: Single, octaves: tuple[int, int], held: tuple[int, int]) -> _Run:
    first, last = (
        np.clip(_cell(v, octaves), held[0], held[1] - 1) - np.int32(held[0])
        for v in (low * (1 - _ROUNDING), high * (1 + _ROUNDING))
    )
    np.minimum(first, last, out=first)
    size = np.take(_LEVEL, last - first)
    last += 1
    last -= np.left_shift(np.int32(1), size)
    return _Run(size, first, last)


def _cell(values: Single, octaves: tuple[int, int]) -> Whole:
    """Cell 0 lies below the table, the last one beyond it."""
    most = (octaves[1] - octaves[0]) * STEPS
    cell = values.astype(np.float32).view(np.int32) >> _LEFT_BITS
    cell -= (_BIAS + octaves[0]) * STEPS - 1
    return np.asarray(np.clip(cell, 0, most + 1, out=cell))


def _part(values: Single) -> Single:
    """How far into its cell each lies, 0 to 1."""
    bits = values.view(np.int32) & np.int32((1 << _LEFT_BITS) - 1)
    return np.asarray(bits.astype(np.float32) * np.float32(2.0**-_LEFT_BITS))


def _largest(parts: Sequence[Single]) -> Single:
    found = parts[0]
    for part in parts[1:]:
        np.maximum(found, part, out=found)
    return found


def _blocks(cells: Array) -> Single:
    """Largest over 2^p by 2^q cells beginning at each cell: (p, q, rows, columns, fields)."""
    levels = [int(n).bit_length() for n in cells.shape[:2]]
    found = np.zeros((*levels, *cells.shape), np.float32)
    for p in range(levels[0]):
        start = _outward(cells) if p == 0 else _wider(found[p - 1, 0], 1 << (p - 1), 0)
        found[p] = _stack(start, levels[1])
    return found


def _strips(rows: Array) -> Single:
    """Largest over 2^q cells of a row of nodes beginning at each: (q, rows, columns, fields)."""
    return _stack(_outward(rows), int(rows.shape[1]).bit_length())


def _stack(start: Single, levels: int) -> Single:
    found = [start]
    for q in range(1, levels):
        found.append(_wider(found[-1], 1 << (q - 1), 1))
    return np.stack(found)


def _outward(fields: Array) -> Single:
    return np.nextafter(fields.astype(np.float32), np.float32(np.inf))


def _wider(blocks: Single, size: int, along: int) -> Single:
    found = blocks.copy()
    before = (slice(None),) * along
    here, there = (*before, slice(None, -size)), (*before, slice(size, None))
    np.maximum(found[here], blocks[there], out=found[here])
    return found
