"""Readings of a thermometer check that cannot be meant as they stand; asks, and never guesses."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.base.errors import BadInput
from pourwright.base.units import convert, in_both
from pourwright.matter.boiling import standard_pressure_pa

FAR_FROM_BOILING_K = 12.0
FAR_APART_K = 40.0
# A slip between °C and °F lands this near to the right figure.
_SLIP_K = 12.0
# Beyond any weather: the lowest and highest pressures ever seen at the sea differ less.
_WEATHER_HPA = 60.0


def check_pressure(altitude_m: float | None, pressure_hpa: float | None) -> None:
    """Refuse a pressure that was reduced to sea level, as weather reports give it."""
    if altitude_m is None or pressure_hpa is None:
        return
    usual = standard_pressure_pa(altitude_m) / 100
    if abs(pressure_hpa - usual) > _WEATHER_HPA:
        why = (
            f"does not go with {altitude_m:g} m, where about {usual:.0f} hPa are usual; weather "
            "reports give the pressure reduced to the sea: enter what a barometer reads where you "
            "stand, or leave it out"
        )
        raise BadInput("pressure_hpa", pressure_hpa, why)


def check_water(readings_c: Sequence[float], boils_c: float | None, *, pairs: int) -> None:
    """Refuse nothing at all, water without its boiling point, and water that did not boil."""
    if not readings_c and not pairs:
        why = "holds no reading: enter the probe in boiling water, or pairs of gun and probe"
        raise BadInput("boiling_c", None, why)
    if not readings_c:
        return
    if boils_c is None:
        why = "is needed, or pressure_hpa: water boils about 1 °C cooler for every 300 m"
        raise BadInput("altitude_m", None, why)
    for i, read in enumerate(readings_c):
        if abs(read - boils_c) > FAR_FROM_BOILING_K:
            raise BadInput(f"boiling_c[{i}]", read, _why_not_boiling(read, boils_c))


def check_pair(probe_c: float, infrared_c: float) -> None:
    """Refuse a gun and a probe that cannot have read the same plastic."""
    if abs(infrared_c - probe_c) <= FAR_APART_K:
        return
    slip = _slip(infrared_c, probe_c)
    why = slip or (
        f"is {abs(infrared_c - probe_c):.0f} K from the probe's {in_both(probe_c)}: read both "
        "again, at the same moment, while you stir"
    )
    raise BadInput("infrared_c", infrared_c, why)


def _why_not_boiling(read_c: float, boils_c: float) -> str:
    slip = _slip(read_c, boils_c)
    return slip or (
        f"is far from {in_both(boils_c)}, where water boils here: was it at a full boil, with the "
        "tip of the probe in the middle? A probe that still says so is of no use"
    )


def _slip(read_c: float, about_c: float) -> str:
    """A question, where the figure would fit in the other unit."""
    if abs(convert(read_c, "f", "c") - about_c) < _SLIP_K:
        return f"looks like a reading in °F: {read_c:g} °F would fit. Was it °F? Enter it as such"
    if abs(convert(read_c, "c", "f") - about_c) < _SLIP_K:
        typed = convert(read_c, "c", "f")
        return f"looks like a reading in °C taken for °F: was {typed:.0f} meant in °C?"
    return ""
