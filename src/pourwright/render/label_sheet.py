"""Labels on sheets or on a roll, as a PDF."""

from __future__ import annotations

import io
from collections.abc import Sequence

from reportlab.pdfgen.canvas import Canvas

from pourwright.render.article import draw_article_label
from pourwright.render.barcode import POINTS_PER_MM
from pourwright.render.label import draw_label
from pourwright.render.pen import Pen
from pourwright.shop.label import INVENTED, BagLabel, Face
from pourwright.shop.label_sheet import LabelSheet


def label_sheet(
    sheet: LabelSheet, labels: Sequence[BagLabel], *, first: int = 1, face: Face = Face.LOT
) -> bytes:
    """Labels from place `first` of a sheet on, further sheets as needed; same in, same bytes.

    Raises: BadInput for a place the sheet does not have, NoAnswer for labels too small and, where
    article numbers are asked for, without one.
    """
    paper = (sheet.paper_wide_mm * POINTS_PER_MM, sheet.paper_high_mm * POINTS_PER_MM)
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=paper, invariant=1)
    canvas.setTitle(_title(labels))
    canvas.setAuthor("Pourwright")
    size = (sheet.label_wide_mm * POINTS_PER_MM, sheet.label_high_mm * POINTS_PER_MM)
    draw = draw_label if face is Face.LOT else draw_article_label
    page = 0
    spots = sheet.spots(len(labels), first)
    for label, (on, left_mm, top_mm) in zip(labels, spots, strict=True):
        if on > page:
            canvas.showPage()
            page = on
        pen = Pen(canvas, left_mm * POINTS_PER_MM, paper[1] - top_mm * POINTS_PER_MM)
        draw(pen, *size, label)
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _title(labels: Sequence[BagLabel]) -> str:
    codes = sorted({label.code for label in labels})
    invented = f" ({INVENTED.lower()})" if any(label.demo for label in labels) else ""
    return f"Labels {', '.join(codes)}{invented}"
