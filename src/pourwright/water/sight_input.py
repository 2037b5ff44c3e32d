"""A bait in water and the eye that looks for it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number, parts, text, unmeasured
from pourwright.spectrum.light import BANDS
from pourwright.water.ask import WaterAsk
from pourwright.water.sent_back import MOST_RETURNED, sent_back


@dataclass(frozen=True, slots=True, kw_only=True)
class SightInput(WaterAsk):
    """A bait's light, its water, and where the eye looks from."""

    reflectance: tuple[float, ...] = parts(
        "Share of light the bait sends back at 400, 410 ... 700 nm, 31 numbers",
        most=BANDS, low=0, high=MOST_RETURNED,
    )  # fmt: skip
    color_hex: str = text(
        "Color of the bait; or give its L*a*b* or its spectrum",
        most=7,
        default="",
        pattern="(#[0-9a-fA-F]{6})?",
    )
    lab: tuple[float, ...] = parts(
        "Its daylight L*, a*, b*, in place of a color", most=3, low=-150, high=150, label="L*a*b*"
    )
    transmittance: tuple[float, ...] = parts(
        "Share of light it lets through as a clear view at the same bands; left out: none",
        most=BANDS, low=0, high=1,
    )  # fmt: skip
    look_up_deg: float = number(
        "Where the eye looks: 0 level, 90 straight up at the bait, -90 straight down at it",
        low=-90, high=90, default=0,
    )  # fmt: skip
    threshold: float | None = unmeasured(
        "Least contrast in brightness that the eye makes out", label="the eye's least contrast",
        low=0.002, high=0.5, typical=(0.008, 0.02, 0.06),
    )  # fmt: skip

    def check(self) -> None:
        """Refuse more or less than one color, spectra of other lengths, and light from nothing."""
        WaterAsk.check(self)
        given = [bool(v) for v in (self.reflectance, self.color_hex, self.lab)]
        if sum(given) != 1:
            raise BadInput("color_hex", self.color_hex, "give one of reflectance, color and L*a*b*")
        _check_length("reflectance", self.reflectance, BANDS)
        _check_length("transmittance", self.transmittance, BANDS)
        _check_length("lab", self.lab, 3)
        if self.transmittance and (most := float((self.sends() + self.lets()).max())) > 1 + 1e-9:
            raise BadInput(
                "transmittance", most, "and what the bait sends back come to more than all light"
            )

    def sends(self) -> Array:
        """Share of light sent back, (31,). Raises: NoAnswer for a color no surface has."""
        return sent_back(self.reflectance, self.lab, self.color_hex)

    def lets(self) -> Array:
        """Share of light let through, (31,)."""
        return np.array(self.transmittance) if self.transmittance else np.zeros(BANDS)

    @property
    def sine(self) -> float:
        """Sine of the angle the eye looks up."""
        return float(np.sin(np.radians(self.look_up_deg)))


def _check_length(name: str, values: tuple[float, ...], wanted: int) -> None:
    if values and len(values) != wanted:
        raise BadInput(name, len(values), f"must have {wanted} entries")
