"""The maker's own light, as typed: a color temperature off the pack, or a measured spectrum."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number, parts, pick
from pourwright.base.record import Record
from pourwright.spectrum.lamp import (
    DAYLIGHT_K,
    FILAMENT_K,
    daylight_power,
    filament_power,
    white_led_power,
)
from pourwright.spectrum.light import BANDS, weights_of_power

# A third of the bands each, and the least share of the power in it; a candle's blue has 0.6 %, a
# colored diode next to nothing; estimate.
_THIRDS = {
    "blue (400 to 490 nm)": slice(0, 10),
    "green (500 to 590 nm)": slice(10, 20),
    "red (600 to 700 nm)": slice(20, BANDS),
}
_LEAST_SHARE = 0.003


class LightSort(StrEnum):
    """What is known of a light."""

    FILAMENT = "filament"
    DAYLIGHT = "daylight"
    WHITE_LED = "white LED"
    MEASURED = "measured"


_POWER_OF = {
    LightSort.FILAMENT: filament_power,
    LightSort.DAYLIGHT: daylight_power,
    LightSort.WHITE_LED: white_led_power,
}

_NOTE = {
    LightSort.FILAMENT: (
        "the filament is taken as a black body; dimmed, it is redder than its pack says"
    ),
    LightSort.DAYLIGHT: "daylight is taken as the CIE's average for its color temperature",
    LightSort.WHITE_LED: (
        "a white LED is taken as a blue chip under two usual phosphors: good to about 1.3 dE00, "
        "but 4 to 7 for lamps sold for true colors and 13 for a mix of red, green and blue; 31 "
        "numbers off a spectrometer narrow it"
    ),
    LightSort.MEASURED: (
        "31 numbers tell a smooth light well; for a tube with lines pick the office lamp instead"
    ),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ShedLight(Record):
    """A light by its sort and color temperature, or by its measured power."""

    sort: LightSort = pick("What kind of light it is")
    # The ending _k would mean a temperature difference and be shown in °F on a US bench.
    color_temperature_kelvin: float | None = number(
        "Color temperature printed on the lamp's pack; for daylight about 5000 in sun, 6500 under "
        "an even sky",
        low=FILAMENT_K[0], high=DAYLIGHT_K[1], default=None, label="Color temperature (K)",
    )  # fmt: skip
    power: tuple[float, ...] = parts(
        "Measured relative power at 400, 410 ... 700 nm, 31 numbers",
        most=BANDS, low=0, high=1e9, label="Measured power",
    )  # fmt: skip

    def check(self) -> None:
        """Refuse what does not go with the sort, and light too colored to judge a color by."""
        if self.sort is LightSort.MEASURED:
            self._check_measured()
        elif self.power:
            raise BadInput(
                "power", len(self.power), "goes with the sort 'measured', and only there"
            )
        elif self.color_temperature_kelvin is None:
            raise BadInput("color_temperature_kelvin", None, f"is required for {self.sort.value}")
        else:
            _POWER_OF[self.sort](self.color_temperature_kelvin)

    def weights(self) -> Array:
        """XYZ weights (31, 3), white at Y = 100."""
        kelvin = self.color_temperature_kelvin
        if kelvin is None:
            return weights_of_power(np.array(self.power) / max(self.power))
        return weights_of_power(_POWER_OF[self.sort](kelvin))

    def note(self) -> str:
        """What is assumed of it, and which measurement would narrow that."""
        return _NOTE[self.sort]

    def _check_measured(self) -> None:
        if self.color_temperature_kelvin is not None:
            why = "does not go with the sort 'measured'; leave it out"
            raise BadInput("color_temperature_kelvin", self.color_temperature_kelvin, why)
        if len(self.power) != BANDS:
            why = f"must have {BANDS} entries, one for every 10 nm from 400 to 700"
            raise BadInput("power", len(self.power), why)
        if max(self.power) <= 0:
            raise BadInput("power", 0, "must hold some light")
        for name, bands in _THIRDS.items():
            if sum(self.power[bands]) < _LEAST_SHARE * sum(self.power):
                why = f"holds next to no {name}, so most colors look alike under it"
                raise BadInput("power", sum(self.power[bands]), why)
