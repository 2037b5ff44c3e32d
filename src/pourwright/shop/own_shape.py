"""A bait's shape taken over from a file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.field import flag, number, part, parts, text
from pourwright.base.record import Record
from pourwright.body.packed_mesh import MOST_TEXT, unpacked
from pourwright.body.placing import Placing
from pourwright.shop.noun import Noun

# A cavity cut, printed or cast from a file is off by a tenth of a millimeter or two: of a bait's
# volume, this share; estimate.
FILE_SHARE = 0.03


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring(Record):
    """A ring of the outline; a hole turns the other way."""

    x_mm: tuple[float, ...] = parts("Along the bait", least=3, most=1000, low=-1e4, high=1e4)
    y_mm: tuple[float, ...] = parts("Across it", least=3, most=1000, low=-1e4, high=1e4)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeMeasures(Record):
    """What was measured of the shape when it was taken over."""

    volume_ml: float = number("Volume", low=0, high=1e5)
    length_mm: float = number("Length", low=0, high=1e4)
    width_mm: float = number("Width", low=0, high=1e4)
    height_mm: float = number("Extent along the pull", low=0, high=1e4)
    thickest_mm: float = number("Thickest place", low=0, high=1e4)
    flat: bool = flag("That place cools as a slab does")
    undercut: str = text("What keeps two halves from coming off", most=400, default="")
    outline: tuple[Ring, ...] = parts("The bait seen along the pull", most=100)


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark(Record):
    """Something that was repaired or proposed."""

    words: str = text("In words", most=400)


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnShape(Noun):
    """The shape of a bait, repaired and laid into its mold."""

    key: ClassVar[str] = "own_shape"
    label: ClassVar[str] = "Shape from a file"
    plural: ClassVar[str] = "Shapes from files"

    source: str = text("File it came from", most=120)
    unit: str = text("Unit of that file", most=10)
    packed: str = text("The shape, packed", most=MOST_TEXT)
    on_side: bool = flag("It lies on its side: its back points across the pull, to +y")
    measures: ShapeMeasures = part("Measured when it was taken over")
    remarks: tuple[Remark, ...] = parts("What was repaired and proposed", most=40)

    def check(self) -> None:
        """Refuse a text that holds no mesh."""
        unpacked(self.packed)

    def placing(self) -> Placing:
        """How the packed shape lies."""
        return Placing(as_it_lies=True, on_side=self.on_side)
