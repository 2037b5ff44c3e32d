"""Units: the suffix of a field name says its unit; bench units exist only at the edges."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.errors import BadInput


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: SI value = value * scale + offset."""

    key: str
    label: str
    dimension: str
    scale: float
    offset: float = 0.0

    def to_si(self, value: float) -> float:
        """The value in the dimension's SI unit."""
        return value * self.scale + self.offset

    def from_si(self, value: float) -> float:
        """An SI value in this unit."""
        return (value - self.offset) / self.scale


class System(StrEnum):
    """The two sets of units a bench can be shown in."""

    METRIC = "metric"
    US = "us"


# Exact by definition: NIST SP 811 (2008), appendix B.8 (inch, pound, US gallon and
# its parts; the inch of mercury there is a measured one, 3386.389 Pa).
_INCH_M = 0.0254
_POUND_KG = 0.45359237
_GALLON_M3 = 231 * _INCH_M**3

UNITS: dict[str, Unit] = {
    u.key: u
    for u in (
        Unit("c", "°C", "temperature", 1.0, 273.15),
        Unit("f", "°F", "temperature", 5 / 9, 273.15 - 32 * 5 / 9),
        Unit("k", "K", "temperature difference", 1.0),
        Unit("f_diff", "°F", "temperature difference", 5 / 9),
        Unit("s", "s", "time", 1.0),
        Unit("min", "min", "time", 60.0),
        Unit("h", "h", "time", 3600.0),
        Unit("g", "g", "mass", 1e-3),
        Unit("kg", "kg", "mass", 1.0),
        Unit("mg", "mg", "mass", 1e-6),
        Unit("oz", "oz", "mass", _POUND_KG / 16),
        Unit("mm", "mm", "length", 1e-3),
        Unit("cm", "cm", "length", 1e-2),
        Unit("um", "µm", "length", 1e-6),
        Unit("nm", "nm", "length", 1e-9),
        Unit("m", "m", "length", 1.0),
        Unit("in", "in", "length", _INCH_M),
        Unit("ft", "ft", "length", 12 * _INCH_M),
        Unit("ml", "mL", "volume", 1e-6),
        Unit("fl_oz", "fl oz", "volume", _GALLON_M3 / 128),
        Unit("cup", "cup", "volume", _GALLON_M3 / 16),
        Unit("tsp", "tsp", "volume", _GALLON_M3 / 768),
        Unit("ml_s", "mL/s", "flow", 1e-6),
        Unit("per_m", "1/m", "attenuation", 1.0),
        Unit("per_ft", "1/ft", "attenuation", 1 / (12 * _INCH_M)),
        Unit("mm2", "mm²", "area", 1e-6),
        Unit("cm2", "cm²", "area", 1e-4),
        Unit("m2", "m²", "area", 1.0),
        Unit("in2", "in²", "area", _INCH_M**2),
        Unit("w", "W", "power", 1.0),
        Unit("kwh", "kWh", "energy", 3.6e6),
        Unit("kj_mol", "kJ/mol", "energy of an amount", 1e3),
        Unit("pa", "Pa", "pressure", 1.0),
        Unit("hpa", "hPa", "pressure", 100.0),
        Unit("kpa", "kPa", "pressure", 1000.0),
        Unit("psi", "psi", "pressure", _POUND_KG * 9.80665 / _INCH_M**2),
        Unit("inhg", "inHg", "pressure", 3386.389),
        Unit("pa_s", "Pa·s", "viscosity", 1.0),
        Unit("n", "N", "force", 1.0),
        Unit("lbf", "lbf", "force", _POUND_KG * 9.80665),
        Unit("n_m", "N·m", "torque", 1.0),
        Unit("lbf_in", "lbf·in", "torque", _POUND_KG * 9.80665 * _INCH_M),
        Unit("kg_m3", "kg/m³", "density", 1.0),
        Unit("g_m3", "g/m³", "density", 1e-3),
        Unit("mg_m3", "mg/m³", "density", 1e-6),
        Unit("g_ml", "g/mL", "density", 1e3),
        Unit("j_kgk", "J/(kg·K)", "specific heat", 1.0),
        Unit("w_k", "W/K", "heat loss", 1.0),
        Unit("w_m2k", "W/(m²·K)", "heat transfer", 1.0),
        Unit("w_mk", "W/(m·K)", "conductivity", 1.0),
        Unit("mm2_s", "mm²/s", "diffusivity", 1e-6),
        Unit("m_s", "m/s", "speed", 1.0),
        Unit("ft_s", "ft/s", "speed", 12 * _INCH_M),
        Unit("mm_min", "mm/min", "speed", 1e-3 / 60),
        Unit("in_min", "in/min", "speed", _INCH_M / 60),
        Unit("deg", "°", "angle", math.pi / 180),
        Unit("lx", "lx", "illuminance", 1.0),
        Unit("money", "$", "money", 1.0),
    )
}
_LONGEST_FIRST = sorted(UNITS, key=len, reverse=True)

# A share is kept from 0 to 1 and read in hundredths; its field declares it, no name ends in it.
SHARE = Unit("share", "", "share", 1.0)
PERCENT = Unit("percent", "%", "share", 0.01)
# Stands before an amount in the words of an answer, which know no currency: U+00A4 of Unicode.
ANY_CURRENCY = "\N{CURRENCY SIGN}"

# What a maker with US bench gear reads instead. Grams stay: recipes are in grams, and the scales
# that weigh drops and baits read them.
US_BENCH = {
    "c": "f", "k": "f_diff", "mm": "in", "m": "ft", "ml": "fl_oz", "mm2": "in2", "cm2": "in2",
    "n": "lbf", "hpa": "inhg", "kpa": "psi", "n_m": "lbf_in", "m_s": "ft_s", "mm_min": "in_min",
    "per_m": "per_ft",
}  # fmt: skip


@functools.lru_cache(maxsize=4096)
def unit_of(field_name: str) -> Unit | None:
    """The unit a field's name ends in, or none for counts, shares and words.

    >>> unit_of("cup_mass_g").label, unit_of("density_kg_m3").label, unit_of("cavities")
    ('g', 'kg/m³', None)
    >>> unit_of("flakes_per_cm2") is None
    True
    """
    for key in _LONGEST_FIRST:
        if field_name.endswith(f"_{key}"):
            return None if field_name.endswith(f"_per_{key}") else UNITS[key]
    return None


def shown_in(unit: Unit, system: System) -> Unit:
    """The unit in which a system shows a value kept in `unit`."""
    if system is System.US and unit.key in US_BENCH:
        return UNITS[US_BENCH[unit.key]]
    return unit


def convert(value: float, given: str, wanted: str) -> float:
    """A value in another unit of the same dimension.

    Raises: BadInput if the unit is unknown or of another dimension.
    Source: NIST SP 811 (2008), appendix B.8.

    >>> convert(1.0, "cup", "ml")
    236.5882365
    >>> convert(350.0, "f", "c")
    176.666666666667
    """
    for key in (given, wanted):
        if key not in UNITS:
            raise BadInput("unit", key, f"must be one of {', '.join(UNITS)}")
    a, b = UNITS[given], UNITS[wanted]
    if a.dimension != b.dimension:
        raise BadInput("unit", wanted, f"is a {b.dimension}, not a {a.dimension}")
    return round(b.from_si(a.to_si(value)), 12)


def in_both(celsius: float) -> str:
    """A temperature for a sentence that every maker must be able to read.

    >>> in_both(180.0)
    '180 °C / 356 °F'
    """
    return f"{celsius:.0f} °C / {convert(celsius, 'c', 'f'):.0f} °F"
