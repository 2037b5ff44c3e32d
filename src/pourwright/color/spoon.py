"""Level spoons: which of them make up an amount."""

from __future__ import annotations

import functools
from fractions import Fraction

KITCHEN_SPOONS = (1.0, 0.5, 0.25, 0.125)
# Nobody counts more of the smaller spoons than this.
MOST_SMALL = 8
_SAME = 1e-9

Spoons = tuple[tuple[float, int], ...]


def spooned(teaspoons: float, sizes: tuple[float, ...]) -> Spoons:
    """The level spoons that come closest to an amount, and of those the fewest; largest first.

    Amount and sizes in teaspoons, sizes above 0. Any number of the largest spoon is taken with up
    to eight of the smaller ones; of two amounts equally close the lesser is taken, since more can
    be added but none taken out.

    >>> spooned(1.3, (1, 0.5, 0.25))
    ((1, 1), (0.25, 1))
    >>> spooned(7 / 12, (1, 1 / 3, 1 / 4)) == ((1 / 3, 1), (1 / 4, 1))
    True
    """
    ordered = tuple(sorted(set(sizes), reverse=True))
    largest = ordered[0]
    best: tuple[float, int, float] | None = None
    chosen: Spoons = ()
    for small, count, spoons in _small_sums(ordered[1:]):
        for n in _nearest_counts((teaspoons - small) / largest):
            amount = n * largest + small
            rank = (_stepped(abs(amount - teaspoons)), n + count, amount)
            if best is None or rank < best:
                best, chosen = rank, ((largest, n), *spoons) if n else spoons
    return chosen


def total(spoons: Spoons) -> float:
    """Teaspoons in a handful of spoons."""
    return sum(size * n for size, n in spoons)


def in_words(spoons: Spoons) -> str:
    """Spoons as a cook writes them.

    >>> in_words(((1.0, 2), (0.25, 1)))
    '2 × 1 + 1/4 tsp'
    """
    if not spoons:
        return "none"
    parts = (f"{n} × {in_fraction(s)}" if n > 1 else in_fraction(s) for s, n in spoons)
    return f"{' + '.join(parts)} tsp"


def in_fraction(size: float) -> str:
    """A spoon's size as a fraction where a simple one fits, else as a decimal.

    >>> in_fraction(1 / 3), in_fraction(1.5), in_fraction(0.507)
    ('1/3', '1 1/2', '0.507')
    """
    near = Fraction(size).limit_denominator(32)
    if abs(float(near) - size) > 1e-4:
        return f"{size:g}"
    whole, rest = divmod(near, 1)
    return " ".join(str(part) for part in (whole, rest) if part)


@functools.lru_cache(maxsize=64)
def _small_sums(sizes: tuple[float, ...]) -> tuple[tuple[float, int, Spoons], ...]:
    """Every sum of up to eight of these spoons, each made in the fewest ways."""
    found: dict[float, tuple[float, int, Spoons]] = {0.0: (0.0, 0, ())}
    for size in sizes:
        for small, count, spoons in tuple(found.values()):
            for n in range(1, MOST_SMALL - count + 1):
                amount = small + n * size
                key = _stepped(amount)
                if key not in found or count + n < found[key][1]:
                    found[key] = (amount, count + n, (*spoons, (size, n)))
    return tuple(found.values())


def _nearest_counts(share: float) -> tuple[int, ...]:
    low = max(int(share // 1), 0)
    return (low, low + 1)


def _stepped(amount: float) -> float:
    return round(amount / _SAME) * _SAME
