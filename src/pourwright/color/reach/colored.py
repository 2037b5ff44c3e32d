"""Color by color: how near the shelf comes, in what way it misses, and what to count out."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.match.bottle import Bottle
from pourwright.color.match.miss import miss_in_words
from pourwright.color.match.steps import Bench, in_words
from pourwright.color.reach.answer import PaletteColor, Within
from pourwright.color.reach.found import REACHED, Found
from pourwright.color.reach.gamut import screen_hex
from pourwright.color.reach.question import ReachInput


def colored(
    inputs: ReachInput, own: Found, counts: Array, counted: Array
) -> tuple[PaletteColor, ...]:
    """The palette against the shelf alone, with its recipes in whole steps and their CIEDE2000."""
    wanted, apart = own.palette.labs, own.nearest()
    nearest = own.stock.labs_of(*own.nearest_steps())
    shown, shown_nearest = screen_hex(wanted), screen_hex(nearest)
    return tuple(
        PaletteColor(
            own.palette.names[i],
            float(wanted[i, 0]),
            float(wanted[i, 1]),
            float(wanted[i, 2]),
            shown[i],
            float(apart[i]),
            shown_nearest[i],
            bool(apart[i] <= REACHED),
            miss_in_words(wanted[i], nearest[i]) if apart[i] > REACHED else "",
            float(counted[i]),
            _counted(own.stock.bottles, counts[i], inputs.bench()),
        )
        for i in range(len(wanted))
    )


def within_of(colors: tuple[PaletteColor, ...], apart: float) -> Within:
    """Shares of the colors that lie within a difference."""
    smooth, counted = (
        float(np.mean([value <= apart for value in values]))
        for values in ([c.nearest_de00 for c in colors], [c.counted_de00 for c in colors])
    )
    return Within(apart, smooth, counted)


def at_the_limit(own: Found) -> int:
    """Colors out of reach whose nearest recipe takes every step allowed."""
    totals = own.nearest_steps()[1].sum(axis=1)
    return int(((own.nearest() > REACHED) & (totals > own.stock.most_steps - 0.5)).sum())


def _counted(bottles: Sequence[Bottle], counts: Array, bench: Bench) -> str:
    taken = [(b, round(float(n))) for b, n in zip(bottles, counts, strict=False) if n > 0]
    said = [f"{b.name} {in_words(b, n, bench)}" for b, n in taken]
    return ", ".join(said) or "nothing: the plastic as it is"
