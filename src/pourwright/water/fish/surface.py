"""A look as a fish calculation takes it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import parts, text
from pourwright.base.record import Record
from pourwright.spectrum.light import BANDS
from pourwright.spectrum.smooth import BLACKEST
from pourwright.water.sent_back import MOST_RETURNED, sent_back

_LAB, _LIGHTEST = 3, 100.0
_ALL = 1 + 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface(Record):
    """What a bait sends back, in one of three ways."""

    color_hex: str = text(
        "As a screen color, #rrggbb", pattern="(#[0-9a-fA-F]{6})?", most=7, default=""
    )
    lab: tuple[float, ...] = parts(
        "As L*, a* and b* in daylight, three numbers", most=_LAB, low=-150, high=150
    )
    reflectance: tuple[float, ...] = parts(
        "As 31 reflectances, 400 to 700 nm by 10, 0 to 1", most=BANDS, low=0, high=MOST_RETURNED
    )
    transmittance: tuple[float, ...] = parts(
        "Share of light it lets through as a clear view, 31 numbers; left out, none",
        most=BANDS, low=0, high=1,
    )  # fmt: skip

    def check(self) -> None:
        """Refuse no color, two colors, half a color, and one blacker than any plastic."""
        given = bool(self.color_hex) + bool(self.lab) + bool(self.reflectance)
        if given != 1:
            raise BadInput("color_hex", given, "give one of color_hex, lab and reflectance")
        if self.lab and (len(self.lab) != _LAB or not 0 <= self.lab[0] <= _LIGHTEST):
            raise BadInput("lab", list(self.lab), "needs L* from 0 to 100, a* and b*")
        for name in ("reflectance", "transmittance"):
            values = getattr(self, name)
            if values and len(values) != BANDS:
                raise BadInput(name, len(values), f"needs {BANDS} values")
        if self.reflectance and max(self.reflectance) < BLACKEST:
            why = f"is blacker than any plastic, which sends back {BLACKEST:.1%}"
            raise BadInput("reflectance", max(self.reflectance), why)
        if self.transmittance and (most := float((self.sends() + self.lets()).max())) > _ALL:
            why = "comes, with what the bait sends back, to more than all light"
            raise BadInput("transmittance", most, why)

    @property
    def guessed(self) -> bool:
        """Whether its spectrum is a stand-in."""
        return not self.reflectance

    def sends(self) -> Array:
        """Share of light it sends back, (31,). Raises: NoAnswer for a color no surface shows."""
        return sent_back(self.reflectance, self.lab, self.color_hex)

    def lets(self) -> Array:
        """Share of light it lets through, (31,)."""
        return np.array(self.transmittance) if self.transmittance else np.zeros(BANDS)
