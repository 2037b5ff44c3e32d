"""From pucks to beliefs: plastic first, white next, then each colorant, then all together."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.color.fit.joint import Joint, fit
from pourwright.color.fit.local import relatives
from pourwright.color.fit.prior import Normal, plastic
from pourwright.color.fit.reading import Puck


def learn(colorants: int, pucks: Sequence[Puck]) -> Joint:
    """Beliefs about the plastic and each colorant.

    Colorants are taken up in the order in which pucks isolate them: those of one unknown first.
    """
    bare = [p for p in pucks if not p.doses]
    known: dict[int, Normal] = {}
    base = fit([plastic()], bare).parts[0] if bare else plastic()
    waiting = set(range(colorants))
    while waiting:
        j = min(waiting, key=lambda c: (-_alone(c, known, pucks), c))
        own = [p for p in pucks if {d for d, _, _ in p.doses} <= {j, *known}]
        known[j] = relatives(j, _table(base, known, colorants), own)
        waiting.remove(j)
    return fit([plastic(), *(known[j] for j in range(colorants))], pucks)


def _alone(colorant: int, known: dict[int, Normal], pucks: Sequence[Puck]) -> int:
    """How many pucks hold it with nothing else unknown."""
    return sum({d for d, _, _ in p.doses} - set(known) == {colorant} for p in pucks)


def _table(base: Normal, known: dict[int, Normal], colorants: int) -> list[Normal]:
    return [base, *(known.get(j, base) for j in range(colorants))]
