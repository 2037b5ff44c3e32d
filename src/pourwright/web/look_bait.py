"""The bait a look is shown in where none was picked."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.actions.can_picture import no_picture_of
from pourwright.actions.port import Bench
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait
from pourwright.web.widget import Choice


def usual_bait(bench: Bench, looks: Sequence[Look], baits: Sequence[Choice]) -> Choice | None:
    """The first of the baits that can have the layers of all these looks, else the first."""
    fits = (choice for choice in baits if all(_fits(bench, look, choice) for look in looks))
    return next(fits, next(iter(baits), None))


def _fits(bench: Bench, look: Look, choice: Choice) -> bool:
    bait = bench.records.get(Bait.key, choice.value).noun
    return isinstance(bait, Bait) and not no_picture_of(bench, look, bait)
