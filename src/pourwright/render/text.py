"""Words made to fit: cleaned, cut with an ellipsis, or wrapped into lines."""

from __future__ import annotations

import bisect
import itertools
from collections.abc import Sequence

from pourwright.render.type_face import width_of

ELLIPSIS = "…"


def clean(words: str) -> str:
    """One line without control characters; no-break spaces stay."""
    kept = "".join(c if c.isprintable() or c == "\N{NO-BREAK SPACE}" else " " for c in words)
    return " ".join(part for part in kept.split(" ") if part)


def fitted(words: str, width: float, size: float, *, bold: bool = False) -> str:
    """A line no wider than `width` points, its end cut where it must be."""
    line = clean(words)
    if width_of(line, size, bold=bold) <= width:
        return line
    kept = bisect.bisect_right(
        range(len(line)), width, key=lambda n: width_of(line[:n] + ELLIPSIS, size, bold=bold)
    )
    return line[: kept - 1].rstrip() + ELLIPSIS if kept > 1 else ""


def wrapped(
    words: str, width: float, size: float, *, most: int = 99, bold: bool = False
) -> tuple[str, ...]:
    """Lines no wider than `width` points; what does not fit into `most` lines is cut."""
    lines: list[str] = []
    left = [word for word in clean(words).split(" ") if word]
    while left and len(lines) < most - 1:
        taken = _taken(left, width, size, bold=bold)
        lines.append(fitted(" ".join(left[:taken]), width, size, bold=bold))
        left = left[taken:]
    if left:
        lines.append(fitted(" ".join(left), width, size, bold=bold))
    return tuple(lines)


def _taken(words: Sequence[str], width: float, size: float, *, bold: bool) -> int:
    """How many words go on one line; one that is too long alone still takes its line."""
    space = width_of(" ", size, bold=bold)
    ends = itertools.accumulate(width_of(word, size, bold=bold) + space for word in words)
    return max(1, sum(1 for _ in itertools.takewhile(lambda end: end - space <= width, ends)))
