"""Level spoons: which of them make up an amount."""

from __future__ import annotations

from fractions import Fraction

TEASPOON_ML = 4.92892159375
MOST_SPOONS = 60


def spooned(teaspoons: float, sizes: tuple[float, ...]) -> tuple[tuple[float, int], ...]:
    """Fewest level spoons that come closest to an amount, largest first.

    Every size counts; the answer is the nearest multiple of the smallest one, taken with the
    largest spoons first.

    >>> spooned(1.3, (1, 0.5, 0.25))
    ((1, 1), (0.25, 1))
    """
    ordered = sorted(sizes, reverse=True)
    left = round(teaspoons / ordered[-1]) * ordered[-1]
    taken: list[tuple[float, int]] = []
    for size in ordered:
        n = int(left / size + 1e-9)
        if n:
            taken.append((size, n))
            left -= n * size
    return tuple(taken)


def total(spoons: tuple[tuple[float, int], ...]) -> float:
    """Teaspoons in a handful of spoons."""
    return sum(size * n for size, n in spoons)


def in_words(spoons: tuple[tuple[float, int], ...]) -> str:
    """Spoons as a cook writes them.

    >>> in_words(((1.0, 2), (0.25, 1)))
    '2 × 1 tsp + 1/4 tsp'
    """
    if not spoons:
        return "none"
    return " + ".join(f"{n} × {_size(s)}" if n > 1 else _size(s) for s, n in spoons)


def _size(teaspoons: float) -> str:
    fraction = Fraction(teaspoons).limit_denominator(32)
    return f"{fraction} tsp"
