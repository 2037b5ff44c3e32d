"""How a look is split into layers, as a maker says it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.band import Band
from pourwright.base.errors import BadInput
from pourwright.base.field import number, pick, unmeasured
from pourwright.base.record import Record
from pourwright.body.division import STACK, Place, stack_of

# Swing of a line that was not poured level; estimate.
SWING_MM = Band(0.3, 0.7, 1.5)


class Line(StrEnum):
    """How the line between two layers runs."""

    STRAIGHT = "straight"
    WAVY = "wavy"
    POURED = "poured by hand"


@dataclass(frozen=True, slots=True, kw_only=True)
class Split(Record):
    """Where the layers of a look part. What is left out follows from their shares."""

    line: Line = pick("How the line between two layers runs", default=Line.STRAIGHT)
    line_height: float | None = number(
        "Height of the line under the back, as a share of the bait's height, 0 to 1; left out: "
        "from the shares",
        low=0.02, high=0.98, default=None,
    )  # fmt: skip
    belly_height: float | None = number(
        "Of three layers one over the other, where the belly ends, the same way",
        low=0.02, high=0.98, default=None,
    )  # fmt: skip
    wave_mm: float | None = unmeasured(
        "How far a line that is not straight swings, up and down", low=0, high=15,
        typical=(SWING_MM.low, SWING_MM.typical, SWING_MM.high), label="swing of the line",
        measure="cut one bait across in five places and measure how high its line lies",
    )  # fmt: skip
    vein_height: float | None = number(
        "Height of the middle of the vein, as a share of the bait's height; left out: on the line, "
        "or half way up",
        low=0.02, high=0.98, default=None,
    )  # fmt: skip
    vein_thick_mm: float | None = number(
        "Height of the vein from edge to edge; left out: from its share",
        low=0.2, high=40, default=None,
    )  # fmt: skip
    vein_wide_mm: float | None = number(
        "Width of the vein across the bait; left out: through to both flanks",
        low=0.2, high=90, default=None,
    )  # fmt: skip
    core_share: float | None = number(
        "Thickness of the core as a share of the bait's, 0 to 1; left out: from its share",
        low=0.1, high=0.95, default=None,
    )  # fmt: skip

    def check(self) -> None:
        """Refuse a belly that reaches over the line under the back, and a straight one's swing."""
        if self.line_height and self.belly_height and self.belly_height >= self.line_height:
            raise BadInput(
                "belly_height", self.belly_height,
                f"must be under the line of the back at {self.line_height:g}",
            )  # fmt: skip
        if self.wave_mm is not None and self.line is Line.STRAIGHT:
            raise BadInput("wave_mm", self.wave_mm, "a straight line does not swing")

    def refuse_odd_places(self, places: tuple[str, ...]) -> None:
        """Refuse measures without their layers, and a core without plastic around it.

        Raises: BadInput naming the entry of a record that holds `layers` and their `split`.
        """
        stack = stack_of(places)
        if Place.CORE in places and stack[0] not in STACK:
            why = "a core needs a belly, body or back around it"
            raise BadInput("layers", list(places), why)
        within = set(places) - set(stack)
        line = len(stack) > 1, "a line needs two of belly, body and back, one on either side"
        belly = len(stack) > 2, "a second line needs all three of belly, body and back"
        vein = Place.VEIN in within, "there is no vein within other layers"
        core = Place.CORE in within, "there is no core within other layers"
        meant = {
            "line_height": line, "belly_height": belly, "vein_height": vein,
            "vein_thick_mm": vein, "vein_wide_mm": vein, "core_share": core,
        }  # fmt: skip
        for name, (known, why) in meant.items():
            given = getattr(self, name)
            if given is not None and not known:
                raise BadInput(f"split.{name}", given, why)

    def tells(self, places: tuple[str, ...]) -> bool:
        """Whether a measure of a layer is given, so that shares follow from the bait's shape."""
        return (
            self.line_height is not None
            or self.belly_height is not None
            or (Place.VEIN in places and self.vein_thick_mm is not None)
            or (Place.CORE in places and self.core_share is not None)
        )
