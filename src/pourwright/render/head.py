"""The head of a sheet: number, title, lot code with its QR, dates, and what it is poured with."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pourwright.base.pixels import Pixels
from pourwright.base.wording import NBSP
from pourwright.render.pen import Pen
from pourwright.render.piece import Piece, paragraph, stacked
from pourwright.render.qr import QUIET_MODULES, qr_matrix
from pourwright.render.style import Style
from pourwright.render.type_face import width_of
from pourwright.shop.sheet import Sheet

_CODE_WIDTH = 50.0
_HEIGHT = 58.0
_PICTURE_WIDTH, _AIR = 125.0, 8.0
_TOOLS = (
    ("bait", "Bait"), ("mold", "Mold"), ("cup", "Cup"), ("injector", "Injector"),
    ("plastic", "Plastic"),
)  # fmt: skip


def head(
    sheet: Sheet, planned: str, width: float, style: Style, *, picture: Pixels | None = None
) -> Piece:
    """Number, title and lot code over a line of what it is poured with, its bait beside them."""
    matrix = qr_matrix(sheet.code)
    code_x = width - _CODE_WIDTH
    end = code_x - QUIET_MODULES * _CODE_WIDTH / len(matrix)
    right = end - _PICTURE_WIDTH - _AIR if picture else end

    lot = width_of(sheet.code, 13, bold=True) + 5

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.code(x + code_x, y, _CODE_WIDTH, matrix)
        if picture:
            pen.picture(x + right + _AIR, y, _PICTURE_WIDTH, picture)
        pen.words(x, y - 1, f"Batch sheet {sheet.number}", 17, bold=True)
        pen.words(x + right, y + 1, sheet.code, 13, bold=True, align="right")
        pen.words(x + right - lot, y + 5.5, "lot", 8.5, align="right")
        pen.words(x, y + 19, sheet.title, 11.5, bold=True, width=right)
        pen.words(x, y + 34, _asides(sheet, planned), 8.5, width=right)
        at = 0.0
        for label, room in (("Poured on", 0.36), ("started at", 0.26), ("by", 0.38)):
            long = width_of(label, 8.5) + 3
            pen.words(x + at, y + 47, label, 8.5)
            pen.rule(x + at + long, y + 56, right * room - long - 8)
            at += right * room

    top = Piece(_HEIGHT + 3, draw)
    tools = _tools(sheet.request)
    return stacked((top, paragraph(tools, width, style, most=2))) if tools else top


def _asides(sheet: Sheet, planned: str) -> str:
    made = f"Sheet frozen {sheet.frozen_at[:10]}, {sheet.frozen_at[11:16]} UTC"
    return made if planned == sheet.title else f"{planned} · {made}"


def _tools(request: Mapping[str, Any]) -> str:
    named = []
    for key, label in _TOOLS:
        part = request.get(key)
        if part and part.get("name"):
            named.append(f"{label}:{NBSP}{part['name']}{_count(key, part)}")
    return "  ·  ".join(named)


def _count(key: str, part: Mapping[str, Any]) -> str:
    if key != "mold" or "cavities" not in part:
        return ""
    molds = part.get("owned", 1)
    return f" ({molds} × {part['cavities']} cavities)"
