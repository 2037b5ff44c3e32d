"""A frozen batch sheet as one printed page."""

from __future__ import annotations

import io
import math
from dataclasses import dataclass

from reportlab.lib.pagesizes import A4, LETTER
from reportlab.pdfgen.canvas import Canvas

from pourwright.base.pixels import Pixels
from pourwright.base.revive import revived
from pourwright.base.units import System
from pourwright.plan.batch_plan import BatchPlan
from pourwright.render.caution import cautions
from pourwright.render.figure_strip import figure_strip
from pourwright.render.head import head
from pourwright.render.heat_table import heat_table
from pourwright.render.notice import notices
from pourwright.render.pen import Pen
from pourwright.render.piece import Piece, gap, stacked
from pourwright.render.result import note_box, results
from pourwright.render.style import STYLES, Style
from pourwright.render.weigh import weigh
from pourwright.shop.sheet import Sheet
from pourwright.shop.workplace import Paper

SIZES = {Paper.LETTER: LETTER, Paper.A4: A4}
# What a home printer can reach on every side.
MARGIN = 30.0
_FOOT = 11.0
# Of a page too full, the share of what is left that each section may keep.
_NOTICE_SHARE = 0.1
_HEAT_SHARE = 0.4


@dataclass(frozen=True, slots=True)
class _Page:
    """What one page shows, and how."""

    sheet: Sheet
    plan: BatchPlan
    system: System
    sign: str
    width: float
    height: float
    picture: Pixels | None


@dataclass(frozen=True, slots=True)
class _Flexible:
    """The sections that grow with the batch, and can be cut."""

    notice: Piece
    weigh: Piece
    heat: Piece

    @property
    def height(self) -> float:
        """All of them."""
        return self.notice.height + self.weigh.height + self.heat.height


def sheet_pdf(
    sheet: Sheet, *, system: System, paper: Paper, sign: str = "$", picture: Pixels | None = None
) -> bytes:
    """One page in PDF; the same sheet gives the same bytes.

    `sign` is the currency sign, `picture` that of the bait to be poured. Whatever does not fit is
    counted on the page as rows to see on the screen; nothing runs over.
    """
    wide, tall = SIZES[paper]
    page = _Page(
        sheet,
        revived(BatchPlan, sheet.plan),
        system,
        sign,
        wide - 2 * MARGIN,
        tall - 2 * MARGIN,
        picture,
    )
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=(wide, tall), invariant=1)
    canvas.setTitle(f"Batch sheet {sheet.number}, {sheet.code}")
    canvas.setAuthor("Pourwright")
    pen = Pen(canvas, MARGIN, tall - MARGIN)
    body, style = _laid_out(page)
    body.draw(pen, 0, 0)
    _foot(pen, page, style)
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _laid_out(page: _Page) -> tuple[Piece, Style]:
    """The roomiest style in which everything fits, else the tightest with its tables cut."""
    for style in STYLES:
        room = _room(page, style)
        found = _flexible(page, style)
        if found.height <= room:
            break
    else:
        style = STYLES[-1]
        room = _room(page, style)
        found = _cut_to(page, style, room)
    left = room - found.height
    pieces = _stack(page, style, found)
    return stacked((*pieces, note_box(page.width, left, style))), style


def _stack(page: _Page, style: Style, found: _Flexible) -> tuple[Piece, ...]:
    plan, system, width, space = page.plan, page.system, page.width, gap(style.gap)
    return (
        head(page.sheet, plan.title, width, style, picture=page.picture),
        space,
        cautions(width, style),
        space,
        figure_strip(plan, system, page.sign, width=width, style=style),
        space,
        found.notice,
        space,
        found.weigh,
        space,
        found.heat,
        space,
        results(plan, system, width=width, style=style),
    )


def _room(page: _Page, style: Style) -> float:
    """What the fixed sections leave for those that grow with the batch."""
    nothing = _Flexible(gap(0), gap(0), gap(0))
    return page.height - _FOOT - sum(p.height for p in _stack(page, style, nothing))


def _flexible(
    page: _Page, style: Style, *, notice: float = math.inf, heat: float = math.inf,
    to_weigh: float = math.inf,
) -> _Flexible:  # fmt: skip
    plan, system, width = page.plan, page.system, page.width
    return _Flexible(
        notices(plan, system, page.sign, width=width, style=style, most=notice),
        weigh(plan, system, width=width, style=style, most=to_weigh),
        heat_table(plan.heat, system, width=width, style=style, most=heat),
    )


def _cut_to(page: _Page, style: Style, room: float) -> _Flexible:
    """Notices and heat keep a share, weighing gets the rest; what it cannot use goes to heat."""
    whole = _flexible(page, style)
    notice = min(whole.notice.height, room * _NOTICE_SHARE)
    heat = min(whole.heat.height, max(room * _HEAT_SHARE, room - notice - whole.weigh.height))
    first = _flexible(page, style, notice=notice, heat=heat, to_weigh=room - notice - heat)
    rest = room - notice - first.weigh.height
    return _flexible(page, style, notice=notice, heat=rest, to_weigh=first.weigh.height)


def _foot(pen: Pen, page: _Page, style: Style) -> None:
    words = [
        "Large figures are typical; ranges hold nine times in ten.",
        f"Sheet {page.sheet.number}, calculations {page.sheet.version}.",
    ]
    if style.compact:
        words.insert(1, "Full sheet: notes, cost by kind and hottest places are on the screen.")
    size = style.small
    pen.words(0, page.height - size, " ".join(words), size, width=page.width)
