"""The move where agreeing readings lie far below all that was learned: safe if they are wrong.

The same slip of the unit or of the aim agrees with itself, so a burst built on such a pair must
also be one that the cup stands which everything else speaks of.
"""

from __future__ import annotations

from dataclasses import replace

from pourwright.base.units import in_both
from pourwright.heat.next_step import REST_S, Move, Next
from pourwright.heat.standing import Standing, after_burst


def safe_either_way(move: Move, now: Standing, hotter: Move) -> Move:
    """The move as believed, cut to what is also asked of the hotter cup; else another look."""
    if move.do is Next.HEAT and hotter.do is Next.HEAT:
        if move.for_s <= hotter.for_s:
            return move
        hot, after = after_burst(now, hotter.for_s, REST_S)
        after = replace(after, mean_c=after.mean_c + now.mixing_k)
        return replace(move, for_s=hotter.for_s, hot=hot, after=after, limited=True)
    if move.do in {Next.HEAT, Next.POUR} and move.do is not hotter.do:
        return Move(Next.READ_AGAIN, 0.0, now.state, now.state)
    return move


def colder_than_learned(hotter: Standing) -> str:
    """What to ask where the readings agree, yet nothing else bears them out."""
    return (
        "The readings agree with each other, but by all that was learned the cup may be at about "
        f"{in_both(float(hotter.state.mean_c[0]))}. Check the unit, the aim, and the times "
        "entered; do not heat before a probe, or a corrected entry, settles it."
    )
