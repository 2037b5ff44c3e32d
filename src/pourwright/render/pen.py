"""A pen on one page: black on white, points counted down from the top left of its margins."""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import Any, Literal

from reportlab.lib.utils import ImageReader

from pourwright.base.pixels import Pixels
from pourwright.render.qr import Matrix
from pourwright.render.text import fitted
from pourwright.render.type_face import BOLD, REGULAR, set_up_type, width_of

Align = Literal["left", "right", "middle"]

HAIR, THIN, THICK = 0.35, 0.7, 1.8
# Where the baseline lies below the top of a line, as a share of the type size.
_BASELINE = 0.8
_WRITE_IN_GRAY = 0.45


@dataclass(frozen=True, slots=True)
class Pen:
    """Draws on a canvas whose top left margin lies at (`left`, `top`) in page points."""

    canvas: Any
    left: float
    top: float

    def words(
        self,
        x: float,
        y: float,
        text: str,
        size: float,
        *,
        width: float | None = None,
        bold: bool = False,
        align: Align = "left",
        gray: float = 0.0,
    ) -> None:
        """One line whose top is at `y`, cut to `width` where one is given."""
        set_up_type()
        line = text if width is None else fitted(text, width, size, bold=bold)
        long = width_of(line, size, bold=bold)
        start = x - {"left": 0.0, "middle": long / 2, "right": long}[align]
        self.canvas.setFillGray(gray)
        self.canvas.setFont(BOLD if bold else REGULAR, size)
        self.canvas.drawString(self.left + start, self.top - y - _BASELINE * size, line)

    def rule(self, x: float, y: float, width: float, weight: float = HAIR) -> None:
        """A line from left to right."""
        self.canvas.setStrokeGray(0)
        self.canvas.setLineWidth(weight)
        self.canvas.line(self.left + x, self.top - y, self.left + x + width, self.top - y)

    def box(self, x: float, y: float, width: float, height: float, weight: float = THIN) -> None:
        """An empty frame."""
        self.canvas.setStrokeGray(0)
        self.canvas.setLineWidth(weight)
        self.canvas.rect(self.left + x, self.top - y - height, width, height)

    def write_in(
        self, x: float, y: float, width: float, height: float, hint: str = "", size: float = 7.5
    ) -> None:
        """A frame to write into, with what belongs there in its lower right corner."""
        self.box(x, y, width, height)
        if hint:
            at = y + height - size - 0.5
            self.words(x + width - 2, at, hint, size, align="right", gray=_WRITE_IN_GRAY)

    def swatch(
        self, x: float, y: float, width: float, height: float, over_white: str, over_dark: str
    ) -> None:
        """A framed swatch: over white on the left, over a dark ground on the right."""
        for at, color in ((x, over_white), (x + width / 2, over_dark)):
            rgb = (int(color[i : i + 2], 16) / 255 for i in (1, 3, 5))
            self.canvas.setFillColorRGB(*rgb)
            box = (self.left + at, self.top - y - height, width / 2, height)
            self.canvas.rect(*box, stroke=0, fill=1)
        self.box(x, y, width, height)

    def picture(self, x: float, y: float, width: float, pixels: Pixels) -> None:
        """A picture in its own shape, in a frame."""
        height = width * pixels.rows / pixels.columns
        image = ImageReader(io.BytesIO(pixels.png()))
        self.canvas.drawImage(image, self.left + x, self.top - y - height, width, height)
        self.box(x, y, width, height, HAIR)

    def code(self, x: float, y: float, width: float, matrix: Matrix) -> None:
        """A QR matrix; the caller leaves the quiet border."""
        module = width / len(matrix)
        path = self.canvas.beginPath()
        for i, row in enumerate(matrix):
            for j, dark in enumerate(row):
                if dark:
                    at = (self.left + x + j * module, self.top - y - (i + 1) * module)
                    path.rect(*at, module, module)
        self.canvas.setFillGray(0)
        self.canvas.drawPath(path, stroke=0, fill=1)
