"""A mold as solids: what the page draws and what the files are written from."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.body.loft import Solid
from pourwright.body.mold.layout import Layout
from pourwright.body.mold.part import Part


@dataclass(frozen=True, slots=True)
class Mold:
    """Parts, what plastic fills, and castings where parts are masters.

    `closed` are solids that may not overlap when the mold is shut: halves or castings, and pins.
    `plastic` fills the cavities, `shot` the feed as well; `bait_ml` is the whole bait from which
    a cavity is cut. An open mold has no feed and no `layout`.
    """

    parts: tuple[Part, ...]
    plastic: Solid
    shot: Solid
    closed: tuple[tuple[str, Solid], ...]
    castings: tuple[tuple[str, Solid], ...]
    size_mm: tuple[float, float, float]
    bait_ml: float
    layout: Layout | None

    @property
    def cavity_length_mm(self) -> float:
        """Extent of a cavity along x."""
        x0, _, _, x1, _, _ = self.plastic.bounding_box()
        return float(x1 - x0)

    @property
    def shadow_cm2(self) -> float:
        """Cavities and feed seen along the pull."""
        return float(self.shot.project().area()) / 100
