"""Bin packing: shots of a few sizes into the fewest cups, no shot split.

A lower bound and a packing by size come first; only where they differ is the exact search asked.
Source: Martello and Toth (1990), Knapsack Problems, ch. 8: best fit decreasing, sec. 8.2; bound
L2, eq. 8.19.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

# Sizes are compared as whole micrograms, cut off below, so that what fits by weight always fits.
_GRAINS_A_G = 1e6
_SLACK = 1e-3
# Work the exact search may spend, in the solver's own machine-independent seconds.
EFFORT = 3.0
# Cups times sizes that it is still asked about: estimate. More take minutes to write down alone.
MOST_SEARCHED = 20_000


@dataclass(frozen=True, slots=True)
class Packing:
    """Shots of every size in each cup, the fullest cup first; `least` bounds the cups below."""

    cups: tuple[tuple[int, ...], ...]
    least: int

    @property
    def proven(self) -> bool:
        """Whether no packing has fewer cups."""
        return len(self.cups) == self.least


def packed(
    sizes_g: Sequence[float], counts: Sequence[int], room_g: float, *, effort: float = EFFORT
) -> Packing:
    """The fewest cups that so much search finds; every size must fit a cup alone."""
    sizes, room = _whole(sizes_g, room_g)
    cups = best_fit(sizes, counts, room)
    least = least_cups(sizes, counts, room)
    while len(cups) > least and effort > 0 and len(cups) * len(sizes) <= MOST_SEARCHED:
        found = _in_cups(sizes, counts, room, len(cups) - 1, effort)
        if found.cups is None:
            return Packing(_fullest_first(cups, sizes), len(cups))
        if not found.cups:
            break
        cups, effort = found.cups, effort - found.effort
    return Packing(_fullest_first(cups, sizes), least)


def _whole(sizes_g: Sequence[float], room_g: float) -> tuple[list[int], int]:
    """Sizes and room as the smallest whole numbers that compare alike."""
    *grains, room = (math.floor(g * _GRAINS_A_G + _SLACK) for g in (*sizes_g, room_g))
    common = math.gcd(*grains)
    return [g // common for g in grains], room // common


def best_fit(sizes: Sequence[int], counts: Sequence[int], room: int) -> list[tuple[int, ...]]:
    """Every shot, largest first, into the fullest cup that still takes it."""
    cups: list[list[int]] = []
    left: list[int] = []
    for kind in sorted(range(len(sizes)), key=lambda k: -sizes[k]):
        size, shots = sizes[kind], counts[kind]
        for i in sorted(range(len(cups)), key=lambda i: left[i]):
            shots -= _put(cups[i], left, i, kind, min(shots, left[i] // size), size)
        while shots:
            cups.append([0] * len(sizes))
            left.append(room)
            last = len(cups) - 1
            shots -= _put(cups[last], left, last, kind, min(shots, room // size), size)
    return [tuple(cup) for cup in cups]


def _put(cup: list[int], left: list[int], i: int, kind: int, shots: int, size: int) -> int:
    cup[kind] += shots
    left[i] -= shots * size
    return shots


def least_cups(sizes: Sequence[int], counts: Sequence[int], room: int) -> int:
    """No packing has fewer cups: the best of what weight, and what large shots, demand."""
    weight = sum(s * n for s, n in zip(sizes, counts, strict=True))
    cuts = {0, *(s for s in sizes if 2 * s <= room)}
    whole = [math.ceil(n / (room // s)) for s, n in zip(sizes, counts, strict=True) if n]
    return max(-(-weight // room), *whole, *(_bound(sizes, counts, room, cut) for cut in cuts))


def _bound(sizes: Sequence[int], counts: Sequence[int], room: int, cut: int) -> int:
    """L2 at one cut: shots above half a cup stand alone, the middling ones fill their gaps."""
    pairs = list(zip(sizes, counts, strict=True))
    huge = sum(n for s, n in pairs if s > room - cut)
    large = [(s, n) for s, n in pairs if room - cut >= s > room / 2]
    small = sum(s * n for s, n in pairs if room / 2 >= s >= cut)
    alone = sum(n for _, n in large)
    gaps = alone * room - sum(s * n for s, n in large)
    return huge + alone + max(0, -(-(small - gaps) // room))


@dataclass(frozen=True, slots=True)
class _Found:
    """A packing, none where there is none, empty where the search gave up; and what it took."""

    cups: list[tuple[int, ...]] | None
    effort: float


def _in_cups(
    sizes: Sequence[int], counts: Sequence[int], room: int, cups: int, effort: float
) -> _Found:
    """A packing into so many cups."""
    from ortools.sat.python import cp_model  # noqa: PLC0415  takes a second to load

    model = cp_model.CpModel()
    most = [min(n, room // s) for s, n in zip(sizes, counts, strict=True)]
    inside = [[model.new_int_var(0, m, "") for m in most] for _ in range(cups)]
    loads = [sum(s * x for s, x in zip(sizes, cup, strict=True)) for cup in inside]
    for kind, count in enumerate(counts):
        model.add(sum(cup[kind] for cup in inside) == count)
    for load in loads:
        model.add(load <= room)
    for one, other in itertools.pairwise(loads):
        model.add(one >= other)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = effort
    solver.parameters.catch_sigint_signal = False  # Ctrl-C belongs to the program
    status = solver.solve(model)
    spent = solver.deterministic_time
    if status == cp_model.INFEASIBLE:
        return _Found(None, spent)
    if status not in {cp_model.OPTIMAL, cp_model.FEASIBLE}:
        return _Found([], spent)
    return _Found([tuple(solver.value(x) for x in cup) for cup in inside], spent)


def _fullest_first(
    cups: Sequence[tuple[int, ...]], sizes: Sequence[int]
) -> tuple[tuple[int, ...], ...]:
    def load(cup: tuple[int, ...]) -> int:
        return sum(s * n for s, n in zip(sizes, cup, strict=True))

    return tuple(sorted(cups, key=lambda cup: (-load(cup), cup)))
