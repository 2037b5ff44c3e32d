"""Words made to fit: cleaned, cut with an ellipsis, or wrapped into lines."""

from __future__ import annotations

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
    while line and width_of(line + ELLIPSIS, size, bold=bold) > width:
        line = line[:-1]
    return line.rstrip() + ELLIPSIS if line else ""


def wrapped(
    words: str, width: float, size: float, *, most: int = 99, bold: bool = False
) -> tuple[str, ...]:
    """Lines no wider than `width` points; what does not fit into `most` lines is cut."""
    lines: list[str] = []
    left = clean(words).split(" ")
    while left and len(lines) < most - 1:
        taken = _taken(left, width, size, bold=bold)
        lines.append(fitted(" ".join(left[:taken]), width, size, bold=bold))
        left = left[taken:]
    if any(left):
        lines.append(fitted(" ".join(left), width, size, bold=bold))
    return tuple(lines)


def _taken(words: list[str], width: float, size: float, *, bold: bool) -> int:
    """How many words go on one line; one that is too long alone still takes its line."""
    for count in range(2, len(words) + 1):
        if width_of(" ".join(words[:count]), size, bold=bold) > width:
            return count - 1
    return len(words)
