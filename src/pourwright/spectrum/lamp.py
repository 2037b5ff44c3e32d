"""Relative power, on the 31 bands, of lights known by their color temperature only."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.spectrum.daylight_basis import S0, S1, S2
from pourwright.spectrum.light import EYE, WAVELENGTHS_NM

Range = tuple[float, float]

# From a candle to a photo flood; nearly the melting point of tungsten.
FILAMENT_K: Range = (1500, 3500)
# CIE 15:2004, section 3.1 (published).
DAYLIGHT_K: Range = (4000, 25000)
# What is sold for rooms; common practice, no source.
WHITE_LED_K: Range = (2200, 7000)

# Second radiation constant, ISO 11664-2:2007.
_C2_NM_K = 1.4388e7

# Middle and standard deviation, nm, of the blue chip and of the green and the red phosphor: the
# round figures that follow CIE LED-B1 to LED-B5 best with their own color temperatures; estimate.
_CHIP_AND_PHOSPHORS = ((451, 11), (544, 45), (618, 42))


def filament_power(kelvin: float) -> Array:
    """A glowing filament as a black body, 1 at 560 nm; 1500 to 3500 K.

    Source: ISO 11664-2:2007 (Planck's law).
    """
    _within(kelvin, FILAMENT_K)
    return _black_body(kelvin)


def daylight_power(kelvin: float) -> Array:
    """A phase of daylight, 100 at 560 nm; 4000 to 25000 K.

    Source: CIE 15:2004, section 3.1 (Judd, MacAdam and Wyszecki, JOSA 54 (1964) 1031).
    """
    _within(kelvin, DAYLIGHT_K)
    t = 1000 / kelvin
    if kelvin <= 7000:
        x = ((-4.6070 * t + 2.9678) * t + 0.09911) * t + 0.244063
    else:
        x = ((-2.0064 * t + 1.9018) * t + 0.24748) * t + 0.237040
    y = (-3.000 * x + 2.870) * x - 0.275
    share = 0.0241 + 0.2562 * x - 0.7341 * y
    m1 = (-1.3515 - 1.7703 * x + 5.9114 * y) / share
    m2 = (0.0300 - 31.4424 * x + 30.0717 * y) / share
    return np.asarray(np.array(S0) + m1 * np.array(S1) + m2 * np.array(S2))


def white_led_power(kelvin: float) -> Array:
    """A blue chip under two phosphors, mixed to the black body's color, Y = 1; 2200 to 7000 K.

    An estimate: lamps of one color temperature differ in chip and phosphors. Against the lamps of
    CIE 15:2018 it reads surfaces within 1.3 CIEDE2000 for the five blue-pumped ones, within 7 for
    those with a violet chip or a red one beside it, within 13 for three colored chips.
    """
    _within(kelvin, WHITE_LED_K)
    parts = np.array(
        [np.exp(-(((WAVELENGTHS_NM - m) / s) ** 2) / 2) for m, s in _CHIP_AND_PHOSPHORS]
    )
    wanted = _black_body(kelvin) @ EYE
    shares = np.linalg.solve((parts @ EYE).T, wanted / wanted[1])
    return np.asarray(shares @ parts)


def _black_body(kelvin: float) -> Array:
    steep = _C2_NM_K / kelvin
    middle = np.expm1(steep / 560)
    return np.asarray((560 / WAVELENGTHS_NM) ** 5 * middle / np.expm1(steep / WAVELENGTHS_NM))


def _within(kelvin: float, limits: Range) -> None:
    low, high = limits
    if not low <= kelvin <= high:
        raise BadInput(
            "color_temperature_kelvin", kelvin, f"must lie between {low:g} and {high:g} K"
        )
