"""Every handful of bottles against every color wanted."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.reach.fit import Fits, fits
from pourwright.color.reach.handful import bits, bits_of
from pourwright.color.reach.palette import Palette
from pourwright.color.reach.stock import Places, Stock
from pourwright.color.reach.subset import Bits

REACHED = 2.0


@dataclass(frozen=True, slots=True, eq=False)
class Found:
    """Handfuls, their bottles as bits, and how near each comes to each color."""

    stock: Stock
    palette: Palette
    chosen: Places
    bits: Bits
    fits: Fits

    def of_shelf(self) -> Found:
        """The handfuls that need no candidate."""
        own = self.bits < 1 << self.stock.on_shelf
        kept = Fits(self.fits.differences[:, own], self.fits.steps[:, own])
        return Found(self.stock, self.palette, self.chosen[own], self.bits[own], kept)

    def nearest(self) -> Array:
        """CIEDE2000 of the nearest recipe to each color."""
        return np.asarray(self.fits.differences.min(axis=1))

    def nearest_steps(self) -> tuple[Places, Array]:
        """Handful and steps of that recipe, both (colors, colorants)."""
        best = self.fits.differences.argmin(axis=1)
        return self.chosen[best], self.fits.steps[np.arange(len(best)), best]

    def informed(self, counts: Array, apart: Array) -> Found:
        """With recipes in whole steps, one for each color, where they come nearer than the fit.

        Counts, (colors, bottles + 1), and their CIEDE2000, (colors,).
        """
        colors = np.flatnonzero(apart < self.nearest())
        order = np.argsort(self.bits)
        taken = bits_of(counts[colors, :-1] > 0)
        rows = order[np.searchsorted(self.bits[order], taken)]
        differences, steps = self.fits.differences.copy(), self.fits.steps.copy()
        differences[colors, rows] = apart[colors]
        steps[colors, rows] = np.take_along_axis(counts[colors], self.chosen[rows], axis=1)
        return replace(self, fits=Fits(differences, steps))


def found_for(stock: Stock, palette: Palette, chosen: Places) -> Found:
    """The fits of these handfuls to the palette."""
    return Found(stock, palette, chosen, bits(stock, chosen), fits(stock, chosen, palette.labs))
