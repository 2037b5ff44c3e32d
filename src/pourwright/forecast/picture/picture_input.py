"""What is asked of a picture: a look, a bait, an eye, a light."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.errors import BadInput
from pourwright.base.field import number, part, parts, pick, text
from pourwright.base.record import Record
from pourwright.body.body_input import BodyInput
from pourwright.body.division import Place
from pourwright.body.layering import refuse_odd_sum, refuse_same_places
from pourwright.body.split import Split
from pourwright.color.dose import Dose
from pourwright.color.plastic import RawPlastic
from pourwright.forecast.picture.light import Lighting, before_sheet, on_sheet
from pourwright.forecast.picture.light_water import UnderWater, under_water
from pourwright.spectrum.color_space import xyz_of_hex
from pourwright.spectrum.light import WEIGHTS, Light
from pourwright.spectrum.shed import ShedLight
from pourwright.spectrum.smooth import smooth_spectrum

TALL = 0.4


class Side(StrEnum):
    """The side of the bait that the eye looks at."""

    FLANK = "flank"
    BACK = "back"
    BELLY = "belly"


class Held(StrEnum):
    """How the bait is held."""

    LYING = "lying on the sheet"
    BEFORE = "held before the sheet"


_TILT_DEG = {Side.FLANK: 0.0, Side.BACK: 90.0, Side.BELLY: -90.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureLayer(Record):
    """One layer: where it lies, its share of the bait, and its recipe."""

    place: Place = pick("Layer", default=Place.BODY)
    share: float = number("Share of the bait's volume, 0 to 1", low=0.01, high=1, default=1.0)
    doses: tuple[Dose, ...] = parts("Recipe for 100 g of plastic", most=20)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sight(Record):
    """From where and in what light a bait is looked at."""

    side: Side = pick("Side it is looked at from", default=Side.FLANK)
    tilt_deg: float = number("Tilted on, its back toward the eye", low=-90, high=90, default=0)
    turn_deg: float = number("Turned on, its nose toward the eye", low=-90, high=90, default=0)
    held: Held = pick("How it is held", default=Held.LYING)
    sheet_hex: str = text(
        "Color of the sheet under or behind it", pattern="#[0-9a-fA-F]{6}", most=7,
        default="#e6e6e2",
    )  # fmt: skip
    behind: float = number(
        "How brightly a sheet behind it is lit against the bait: 1 alike, 3 held to the light",
        low=0, high=10, default=1,
    )  # fmt: skip
    light: Light = pick("Light", default=Light.D65)
    shed_light: ShedLight | None = part("Your own light, instead", default=None)

    def check(self) -> None:
        """Refuse a lit sheet under a bait that lies on it."""
        if self.held is Held.LYING and self.behind != 1:
            why = "belongs to a bait held before the sheet; one that lies on it shades it"
            raise BadInput("behind", self.behind, why)

    def lighting(self) -> Lighting:
        """The light of the picture."""
        weights = WEIGHTS[self.light] if self.shed_light is None else self.shed_light.weights()
        sheet = np.minimum(smooth_spectrum(xyz_of_hex(self.sheet_hex)), 1)
        if self.held is Held.LYING:
            return on_sheet(weights, sheet)
        return before_sheet(weights, sheet, behind=self.behind)


@dataclass(frozen=True, slots=True, kw_only=True)
class LookInput(BodyInput):
    """A look in a bait."""

    layers: tuple[PictureLayer, ...] = parts("Layers", least=1, most=5)
    split: Split = part("How the layers part", default=Split())
    plastic: RawPlastic = part("The plastic without color", default=RawPlastic())
    seed: int = number("Seed of the flakes", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse anything but one body, and layers that do not fill it."""
        BodyInput.check(self)
        refuse_odd_sum([layer.share for layer in self.layers])
        refuse_same_places(self.places())
        self.split.refuse_odd_places(self.places())

    def body(self) -> BodyInput:
        """The body alone."""
        return BodyInput(family=self.family, file=self.file, unit=self.unit, placing=self.placing)

    def places(self) -> tuple[str, ...]:
        """The layers' places."""
        return tuple(layer.place.value for layer in self.layers)


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureInput(LookInput):
    """A look in a bait, and how to picture it."""

    sight: Sight = part("From where and in what light", default=Sight())
    water: UnderWater | None = part("Under water instead of in the hand", default=None)
    pixels: int = number("Pixels from left to right", low=64, high=2048, default=640)

    def check(self) -> None:
        """Refuse, besides, a sheet or a lamp under water."""
        LookInput.check(self)
        if self.water is None:
            return
        usual = Sight()
        for name in ("held", "sheet_hex", "behind", "light", "shed_light"):
            given = getattr(self.sight, name)
            if given != getattr(usual, name):
                raise BadInput(f"sight.{name}", given, "belongs to the hand, not under water")

    def lighting(self) -> Lighting:
        """The light of the picture. Raises: NoAnswer for a water that there is not."""
        return self.sight.lighting() if self.water is None else under_water(self.water)

    def eye_deg(self) -> tuple[float, float]:
        """How far the eye is tilted toward the back and turned toward the nose."""
        return _TILT_DEG[self.sight.side] + self.sight.tilt_deg, self.sight.turn_deg

    def rows(self) -> int:
        """Pixels from top to bottom."""
        return round(self.pixels * TALL)
