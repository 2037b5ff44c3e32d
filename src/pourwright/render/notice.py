"""What to know before pouring: what is short, what is risky, what the cost is made of."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from pourwright.base.units import System
from pourwright.base.wording import money, prose
from pourwright.render.figure_strip import grams
from pourwright.render.piece import Piece, cut, heading, paragraph, stacked
from pourwright.render.style import Style

_LEVELS = {"stop": "STOP", "risk": "RISK", "note": "Note"}


def notices(plan: Mapping[str, Any], system: System, sign: str, *, width: float, style: Style,
            most: float) -> Piece:  # fmt: skip
    """The section with at most `most` points, the gravest first."""
    title = heading("Before you start", "", width, style)
    texts = (*_warnings(plan, system), *_short(plan["shelf"]), *_costs(plan["costs"], sign))
    rows = [paragraph(text, width, style, most=2) for text in texts]
    if not rows:
        return stacked(())
    return stacked((title, *cut(rows, most - title.height, width, style)))


def _warnings(plan: Mapping[str, Any], system: System) -> list[str]:
    short = [line["name"] for line in plan["shelf"] if line["short_g"] > 0]
    found = []
    for level, word in _LEVELS.items():
        for warning in plan["warnings"]:
            of_shelf = level == "stop" and any(name in warning["text"] for name in short)
            if warning["level"] == level and not of_shelf:
                found.append(f"{word}: {prose(warning['text'], system)}")
    return found


def _short(shelf: Sequence[Mapping[str, Any]]) -> list[str]:
    lines = [
        f"{line['name']} {grams(line['short_g'])} of {grams(line['need_g'])}"
        for line in shelf
        if line["short_g"] > 0
    ]
    return [f"STOP, short on the shelf: {'; '.join(lines)}."] if lines else []


def _costs(costs: Sequence[Mapping[str, Any]], sign: str) -> list[str]:
    parts = [f"{c['kind']} {money(c['amount_money']['typical'], sign)}" for c in costs]
    return [f"Cost: {', '.join(parts)}."] if parts else []
