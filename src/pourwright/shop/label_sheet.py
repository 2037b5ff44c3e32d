"""Sheets of labels, described by their plain dimensions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.errors import BadInput
from pourwright.base.field import number, text
from pourwright.shop.noun import Noun

INCH = 25.4
# A tenth of a millimeter: rows that add up to the edge of the paper, rounded as they are printed.
_SLACK_MM = 0.1
# Under this a lot's bars, its square and its words do not fit together.
LEAST_WIDE_MM, LEAST_HIGH_MM = 48, 25


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelSheet(Noun):
    """A sheet or a roll of labels: one label after another, row by row from the top left."""

    key: ClassVar[str] = "label_sheet"
    label: ClassVar[str] = "Label sheet"
    plural: ClassVar[str] = "Label sheets"
    place: ClassVar[str] = "workplace"

    paper_wide_mm: float = number("Width of the paper", low=40, high=450)
    paper_high_mm: float = number("Height of the paper", low=20, high=650)
    columns: int = number("Labels side by side", low=1, high=10, default=1)
    rows: int = number("Labels one below another", low=1, high=30, default=1)
    label_wide_mm: float = number("Width of a label", low=LEAST_WIDE_MM, high=300)
    label_high_mm: float = number("Height of a label", low=LEAST_HIGH_MM, high=300)
    left_mm: float = number(
        "From the left edge of the paper to the first label", low=0, high=100, default=0
    )
    top_mm: float = number(
        "From the upper edge of the paper to the first label", low=0, high=100, default=0
    )
    across_mm: float | None = number(
        "From the left edge of a label to that of its neighbor; left out, they touch",
        low=LEAST_WIDE_MM, high=300, default=None,
    )  # fmt: skip
    down_mm: float | None = number(
        "From the upper edge of a label to that of the one below; left out, they touch",
        low=LEAST_HIGH_MM, high=300, default=None,
    )  # fmt: skip
    note: str = text("Note", most=500, default="")

    def check(self) -> None:
        """Refuse labels that overlap, or run off the paper."""
        self._refuse_overlap("across_mm", self.across_mm, self.label_wide_mm)
        self._refuse_overlap("down_mm", self.down_mm, self.label_high_mm)
        right = self.left_mm + (self.columns - 1) * self._across + self.label_wide_mm
        low = self.top_mm + (self.rows - 1) * self._down + self.label_high_mm
        if right > self.paper_wide_mm + _SLACK_MM:
            why = f"{self.columns} labels reach {right:.1f} mm across, past the paper"
            raise BadInput("columns", self.columns, why)
        if low > self.paper_high_mm + _SLACK_MM:
            why = f"{self.rows} labels reach {low:.1f} mm down, past the paper"
            raise BadInput("rows", self.rows, why)

    @property
    def places(self) -> int:
        """Labels on one sheet."""
        return self.columns * self.rows

    def spots(self, count: int, first: int) -> Iterator[tuple[int, float, float]]:
        """Sheet, and left and upper edge in mm, of so many labels from place `first` on.

        Raises: BadInput for a place the sheet does not have.
        """
        if not 1 <= first <= self.places:
            raise BadInput("first", first, f"must be a place of the sheet, 1 to {self.places}")
        for place in range(first - 1, first - 1 + count):
            sheet, on_sheet = divmod(place, self.places)
            row, column = divmod(on_sheet, self.columns)
            yield sheet, self.left_mm + column * self._across, self.top_mm + row * self._down

    @property
    def _across(self) -> float:
        return self.label_wide_mm if self.across_mm is None else self.across_mm

    @property
    def _down(self) -> float:
        return self.label_high_mm if self.down_mm is None else self.down_mm

    def _refuse_overlap(self, field: str, step: float | None, size: float) -> None:
        if step is not None and step < size:
            raise BadInput(field, step, f"the labels would overlap: one is {size:g} mm")


# Sizes that are sold everywhere: common practice, no source.
USUAL: dict[str, LabelSheet] = {
    "letter-30": LabelSheet(
        name="Letter, 30 labels of 2.625 × 1 in",
        paper_wide_mm=8.5 * INCH, paper_high_mm=11 * INCH, columns=3, rows=10,
        label_wide_mm=2.625 * INCH, label_high_mm=INCH, left_mm=0.1875 * INCH, top_mm=0.5 * INCH,
        across_mm=2.75 * INCH,
    ),
    "letter-10": LabelSheet(
        name="Letter, 10 labels of 4 × 2 in",
        paper_wide_mm=8.5 * INCH, paper_high_mm=11 * INCH, columns=2, rows=5,
        label_wide_mm=4 * INCH, label_high_mm=2 * INCH, left_mm=0.15625 * INCH, top_mm=0.5 * INCH,
        across_mm=4.1875 * INCH,
    ),
    "a4-24": LabelSheet(
        name="A4, 24 labels of 70 × 37 mm",
        paper_wide_mm=210, paper_high_mm=297, columns=3, rows=8, label_wide_mm=70,
        label_high_mm=37, top_mm=0.5,
    ),
    "a4-21": LabelSheet(
        name="A4, 21 labels of 63.5 × 38.1 mm",
        paper_wide_mm=210, paper_high_mm=297, columns=3, rows=7, label_wide_mm=63.5,
        label_high_mm=38.1, left_mm=7.21, top_mm=15.15, across_mm=66.04,
    ),
    "roll-2x1": LabelSheet(
        name="Roll, single labels of 2 × 1 in",
        paper_wide_mm=2 * INCH, paper_high_mm=INCH, label_wide_mm=2 * INCH, label_high_mm=INCH,
    ),
}  # fmt: skip
