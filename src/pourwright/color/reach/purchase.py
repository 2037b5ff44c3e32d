"""Which bottles to keep, and which one to buy."""

from __future__ import annotations

import math

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.reach.answer import Purchase, SmallShelf
from pourwright.color.reach.found import REACHED, Found
from pourwright.color.reach.sample import sample
from pourwright.color.reach.subset import best_choice, within
from pourwright.spectrum.difference import delta_e00

# A smaller fall of the mean difference is no reason to buy; estimate.
_WORTH_DE00 = 0.05
_TRIES = 40_000


def small_shelf(own: Found, k: int) -> SmallShelf:
    """The best k bottles of the shelf, or all where it holds fewer."""
    bottles, differences = own.stock.on_shelf, own.fits.differences
    size = min(k, bottles)
    best = best_choice(own.bits, differences, bottles=bottles, k=size, near=REACHED)
    return SmallShelf(
        tuple(b.name for i, b in enumerate(own.stock.bottles) if best.bottles >> i & 1),
        best.reached,
        best.reached / len(differences),
        float(within(own.bits, differences, best.bottles).mean()),
        math.comb(bottles, size),
        best.ties,
    )


def purchases(found: Found, seed: int) -> tuple[Purchase, ...]:
    """Each candidate beside the whole shelf: most colors brought into reach first, then nearest."""
    stock, differences = found.stock, found.fits.differences
    shelf = (1 << stock.on_shelf) - 1
    had, told = within(found.bits, differences, shelf), []
    for place in range(stock.on_shelf, len(stock.bottles)):
        has = _with(found, place, seed)
        new = np.flatnonzero((has <= REACHED) & (had > REACHED))
        names = tuple(found.palette.names[i] for i in new)
        drop = float((had - has).mean())
        told.append(Purchase(stock.bottles[place].name, len(new), names, drop))
    return tuple(sorted(told, key=lambda p: (-p.adds, -p.mean_drop_de00)))


def _with(found: Found, place: int, seed: int) -> Array:
    """The nearest to each color with the shelf and one candidate: fitted, or tried in steps."""
    stock, wanted = found.stock, found.palette.labs
    has = within(found.bits, found.fits.differences, (1 << stock.on_shelf) - 1 | 1 << place)
    tried = sample(stock, found.chosen[(found.bits >> place & 1) == 1], tries=_TRIES, seed=seed)
    near = tried.nearest(wanted, has)
    nearer = near >= 0
    has[nearer] = delta_e00(tried.labs[near[nearer]], wanted[nearer])
    return has


def next_purchase(told: tuple[Purchase, ...]) -> str | None:
    """The first of them, if it helps at all."""
    best = next(iter(told), None)
    return best.name if best and (best.adds or best.mean_drop_de00 >= _WORTH_DE00) else None
