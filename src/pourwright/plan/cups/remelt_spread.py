"""Remelt into the colors that may take it: as much as pots and shares allow."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from scipy.optimize import linprog

from pourwright.plan.cups.cups_input import RemeltStock

# What is less than this is not worth a weighing.
LEAST_G = 0.05


def spread(
    pots: Sequence[RemeltStock], most_g: Mapping[str, float]
) -> dict[tuple[str, str], float]:
    """Grams by pot and color; the sum is the largest possible.

    `most_g` says how much each color takes. A pot bound to one color goes before the others, so
    that free ones are left for colors that have no pot of their own.
    """
    ways = [
        (pot, color) for pot in pots for color in most_g if pot.only_into in {"", color}
    ]  # fmt: skip
    if not ways:
        return {}
    rows = [[float(pot is other) for pot, _ in ways] for other in pots]
    rows += [[float(color == other) for _, color in ways] for other in most_g]
    limits = [pot.on_hand_g for pot in pots] + list(most_g.values())
    worth = [-1.001 if pot.only_into else -1.0 for pot, _ in ways]
    found = linprog(worth, A_ub=np.array(rows), b_ub=np.array(limits), method="highs")
    grams = zip(ways, np.asarray(found.x), strict=True)
    return {(pot.name, color): float(g) for (pot, color), g in grams if g >= LEAST_G}
