"""What a thermometer check is reckoned from: a boiling pot, pairs of readings, or both."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.field import number, parts
from pourwright.base.record import Record
from pourwright.heat.thermometer_doubt import check_pair, check_pressure, check_water
from pourwright.matter.boiling import HIGHEST_M, LOWEST_M, boiling_c, standard_pressure_pa


@dataclass(frozen=True, slots=True, kw_only=True)
class ProbeAndGun(Record):
    """Hot plastic, stirred: probe and gun read together."""

    probe_c: float = number("Probe", low=10, high=480)
    infrared_c: float = number("Infrared gun", low=10, high=480)

    def check(self) -> None:
        """Refuse two readings that cannot be of one temperature."""
        check_pair(self.probe_c, self.infrared_c)


@dataclass(frozen=True, slots=True, kw_only=True)
class ThermometerInput(Record):
    """The probe in boiling water, the gun against the probe, or both."""

    boiling_c: tuple[float, ...] = parts("Probe in water at a full boil", most=20, low=0, high=300)
    altitude_m: float | None = number(
        "Altitude above the sea", low=LOWEST_M, high=HIGHEST_M, default=None
    )
    pressure_hpa: float | None = number(
        "Air pressure where you stand, not reduced to the sea", low=480, high=1090, default=None
    )
    pairs: tuple[ProbeAndGun, ...] = parts("Gun beside probe in stirred plastic", most=20)
    working_c: float = number("Temperature you pour at", low=100, high=200, default=175)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a check of nothing, and water that cannot have boiled."""
        check_pressure(self.altitude_m, self.pressure_hpa)
        found = self.typical_boiling_c
        check_water(self.boiling_c, found, pairs=len(self.pairs))

    @property
    def typical_boiling_c(self) -> float | None:
        """Where water boils by the pressure, else by the altitude; none if neither is known."""
        if self.pressure_hpa is not None:
            return float(boiling_c(self.pressure_hpa * 100))
        if self.altitude_m is not None:
            return float(boiling_c(standard_pressure_pa(self.altitude_m)))
        return None
