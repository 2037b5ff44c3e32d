"""How far from the best a timetable can be, and what it leaves out, in words."""

from __future__ import annotations

MOST_GAP = 0.15
LEFT_OUT = (
    (
        "Left out: stirring between bursts, opening and closing molds, trimming. Add them to the "
        "pour or the cooling if they keep you from the next step."
    ),
    "A mold counts as taken from the start of its cup's pour until it has cooled.",
)
CAUTION = (
    "A timetable is no reason to hurry: a cup that smells sharp, smokes or yellows goes outside "
    "and is not heated again, whatever the plan says. Keep gloves, face shield and the fan on all "
    "day, keep cups and molds dry, and rest the microwave as its maker says."
)


def gap_told(objective: float, bound: float) -> float | None:
    """The gap as a share of the points; none where it would say nothing."""
    if objective <= 0:
        return 0.0
    gap = (objective - bound) / objective
    return gap if gap < MOST_GAP else None


def gap_words(gap: float | None, *, proven: bool) -> str:
    """The gap for a reader."""
    if proven:
        return "The best there is: no timetable has fewer points."
    if gap is None:
        return "How far the best possible timetable is from this one cannot be said."
    return f"At most {100 * gap:.1f} % from the best possible."


def stall_told(stalled: bool) -> tuple[str, ...]:
    """That a slow machine cut the search short, so that another may find better."""
    if not stalled:
        return ()
    return (
        (
            "The search was cut short because this machine was too busy: the same day planned "
            "again may come out better."
        ),
    )
