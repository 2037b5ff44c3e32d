"""Split-tail minnow: a slim fish body that ends in a fork."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.body.family import Family
from pourwright.body.loft import Solid, domed, joined, stations, swept
from pourwright.body.part.eased import eased
from pourwright.body.part.fish import FishStyle, refuse_odd_details
from pourwright.body.part.hull import Hull
from pourwright.body.part.limb import bent, shares

# Shares of the length, of the height and of the fork; a shape of our own.
NOSE, DEEPEST, STEM_FADES, LOBE_STATIONS = 0.3, 0.36, 2.5, 33
BELLY_HANGS = 0.12
DETAILS = FishStyle(
    eye_from_nose=0.085, eye_up=0.08, eye_wide=0.34,
    gill_from_nose=0.18, gill_deep=0.07,
    slot_from=0.26, slot_to=0.58, slot_wide=0.15,
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitTailMinnow(Family):
    """A split-tail minnow on its side: height in the parting plane, width along the pull."""

    key: ClassVar[str] = "split_tail_minnow"
    label: ClassVar[str] = "Split-tail minnow"
    lies_on_side: ClassVar[bool] = True

    length_mm: float = number("Length to the tips of the tail", low=30, high=350, default=105)
    height_mm: float = number("Back to belly", low=5, high=90, default=18)
    width_mm: float = number("Side to side", low=4, high=70, default=12.5)
    stem_mm: float = number("Thickness just before the tail", low=1.5, high=30, default=4.5)
    fork_mm: float = number("Depth of the fork", low=4, high=90, default=20)
    span_mm: float = number("From tip to tip of the tail", low=4, high=120, default=23)
    tail_thick_mm: float = number("Thickness of the tail", low=0.8, high=20, default=2.4)
    eye_mm: float | None = number(
        "Eye sockets across; 0 for none, in proportion if left out", low=0, high=40, default=None
    )
    gill_mm: float | None = number(
        "Depth of the gill line; 0 for none, in proportion if left out",
        low=0, high=10, default=None,
    )  # fmt: skip
    slot_mm: float = number(
        "Depth of a hook slot in the belly; 0 for none. Its mold needs a blade between the halves",
        low=0, high=60, default=0,
    )  # fmt: skip

    def check(self) -> None:
        """Refuse a stem thicker than the body, a fork out of proportion, odd details."""
        if self.stem_mm >= min(self.width_mm, self.height_mm):
            raise BadInput("stem_mm", self.stem_mm, "must be thinner than the body")
        if self.height_mm > self.length_mm * 0.5:
            raise BadInput("height_mm", self.height_mm, "is more than half the length")
        if self.width_mm > self.length_mm * 0.5:
            raise BadInput("width_mm", self.width_mm, "is more than half the length")
        if self.fork_mm > self.length_mm * 0.35:
            raise BadInput("fork_mm", self.fork_mm, "is over 0.35 of the length")
        if self.fork_mm < 2 * self.stem_mm:
            raise BadInput("fork_mm", self.fork_mm, "is less than twice the stem")
        if not 2 * self.stem_mm <= self.span_mm <= 2 * self.fork_mm:
            why = "must lie between twice the stem and twice the fork's depth"
            raise BadInput("span_mm", self.span_mm, why)
        if self.tail_thick_mm > self.stem_mm:
            raise BadInput("tail_thick_mm", self.tail_thick_mm, "is thicker than the stem")
        refuse_odd_details(self)

    def solid(self) -> Solid:
        """Body less eye sockets and slot, joined with both lobes of its tail."""
        return joined(DETAILS.body(self, self._hull()), *self._lobes())

    @property
    def _stem_ends_mm(self) -> float:
        return self.length_mm - self.fork_mm

    def _hull(self) -> Hull:
        """Half an ellipsoid in front, then eased down to the stem."""
        end = self._stem_ends_mm
        nose = NOSE * self.length_mm
        fades = min(STEM_FADES * self.stem_mm, 0.3 * end)
        x = stations(end, nose, fades, middle=41, dome=32)
        narrows = DEEPEST * self.length_mm, end - fades
        ends = domed(x, end, nose, fades)

        def half(most_mm: float) -> Array:
            return np.asarray(eased(x, narrows, (most_mm, self.stem_mm)) * ends / 2)

        sag = -BELLY_HANGS / 2 * self.height_mm * eased(x, narrows, (1.0, 0.0)) * ends
        return Hull(x=x, half_y=half(self.height_mm), half_z=half(self.width_mm), mid_y=sag)

    def _lobes(self) -> tuple[Solid, Solid]:
        """Two pointed lobes; their tips end at the stated length and span, their fork as deep."""
        s = shares(LOBE_STATIONS)
        path = bent((0.0, 0.0), (0.4, 0.02), (0.6, 0.3), (1.0, 0.5), count=LOBE_STATIONS)
        path = path * np.array([1.5 * self.fork_mm, self.span_mm])
        half = (0.4 + 0.4 * np.sin(np.pi * s) ** 2) * self.stem_mm * (1 - s**2.5) ** 0.7
        thick = self.tail_thick_mm * (1 - 0.3 * s) + (self.stem_mm - self.tail_thick_mm) * (
            np.clip(1 - s / 0.7, 0, 1) ** 2
        )
        lobe = swept(path, half, thick / 2, points=20)
        tip_x, tip_y = lobe.bounding_box()[3:5]
        deep = tip_x - _parting_x(path, half)
        lobe = lobe.translate((-tip_x, 0.0, 0.0))
        lobe = lobe.scale((self.fork_mm / deep, self.span_mm / 2 / tip_y, 1.0))
        lobe = lobe.translate((self.length_mm, 0.0, 0.0))
        return lobe, lobe.mirror((0.0, 1.0, 0.0))


def _parting_x(path: Array, half: Array) -> float:
    """Where the inner edge of a lobe leaves the middle of the tail."""
    along = np.gradient(path, axis=0)
    along = along / np.hypot(*along.T)[:, None]
    inner = path + half[:, None] * np.stack([along[:, 1], -along[:, 0]], axis=1)
    last = int(np.flatnonzero(inner[:, 1] < 0)[-1])
    return float(np.interp(0.0, inner[last : last + 2, 1], inner[last : last + 2, 0]))
