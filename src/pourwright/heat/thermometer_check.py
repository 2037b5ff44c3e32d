"""How far a thermometer is off: a probe in boiling water, a gun against the probe."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Z90, Array, Doubt, Draws
from pourwright.base.field import out
from pourwright.base.source import estimate, memory, published
from pourwright.heat.belief import GUN_SPREAD_K, PROBE_BIAS_SPREAD_K
from pourwright.heat.gun_pairs import DRIFT_PER_K, Excess, Pair, excess_of
from pourwright.heat.learn import PROBE_NOISE_K, STIRRING_NOISE_K
from pourwright.heat.thermometer_input import ThermometerInput
from pourwright.heat.thermometer_words import CAUTIONS, advice_of
from pourwright.matter.boiling import boiling_c, standard_pressure_pa

# 90 % bands about zero, estimates unless a source is named.
_WEATHER_PA, _BAROMETER_PA = 2000.0, 150.0
_DIPPED_K = 0.5
_IN_WATER_K = 0.8
_SURFACE_K = 0.8
# Thermocouples of class 2 may be off by 0.75 % of the reading above 333 °C and 2.5 K below it
# (IEC 60584-1); what water cannot show is taken as that share of the way from boiling to hot.
_SCALE = 0.0075


@dataclass(frozen=True, slots=True)
class OddPair:
    """A pair left out because the others contradict it."""

    index: int = out("Its place in `pairs`, from 0")
    why: str = out("The reason")


@dataclass(frozen=True, slots=True)
class ThermometerAnswer:
    """How much too high the thermometer reads, and what knowing that is worth."""

    bias_k: Band = out(
        "Reads high by, at the working temperature: the gun where pairs were given, else the probe"
    )
    bias_spread_k: float = out("Standard deviation of that")
    boiling_c: Band | None = out("Boiling point used; null without a reading in water")
    probe_bias_k: Band | None = out("Of the probe, at the working temperature; null without water")
    infrared_bias_k: Band | None = out("Of the gun, at the working temperature; null without pairs")
    unchecked_final_c: Band = out("Where a cup that reads the working temperature is, unchecked")
    checked_final_c: Band = out("The same with the bias taken off")
    odd_pairs: tuple[OddPair, ...] = out("Pairs left out")
    advice: tuple[str, ...] = out("What to do with it")
    cautions: tuple[str, ...] = out("What can hurt")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@calculation(
    "thermometer.check",
    purpose="how far this thermometer is off",
    sources=(
        published("IAPWS-IF97 (revised release, 2007), eq. 31: boiling point from pressure"),
        published("U.S. Standard Atmosphere (1976): pressure from altitude"),
        memory("IEC 60584-1, class 2: 0.75 % of the reading"),
        estimate(
            "weather 2 kPa; a gun reads stirred plastic within 1.3 K, a probe within 0.8 K (sd)"
        ),
    ),
    example={
        "boiling_c": [98.9, 99.2],
        "altitude_m": 180,
        "pairs": [
            {"probe_c": 168, "infrared_c": 164.5},
            {"probe_c": 172.5, "infrared_c": 169},
            {"probe_c": 176, "infrared_c": 171.5},
        ],
    },
)
def thermometer_check(inputs: ThermometerInput) -> ThermometerAnswer:
    """Bias at the working temperature, positive where the thermometer reads high.

    A gun's error differs between 100 and 175 °C, so pairs near the working temperature count
    most; an offset found in water is carried up with the doubt of the probe's scale.
    """
    draws = Draws(seed=inputs.seed)
    boils = _boiling(draws, inputs) if inputs.boiling_c else None
    excess = _excess(inputs)
    probe = None if boils is None else _probe_bias(draws, inputs, boils, inputs.working_c)
    gun = None if excess is None else _gun_bias(draws, inputs, boils, excess)
    bias = gun if gun is not None else probe
    if bias is None:
        raise TypeError("a check holds water or pairs")
    spread = float(np.std(bias[1:]))
    usual, noise = (
        (PROBE_BIAS_SPREAD_K, PROBE_NOISE_K) if gun is None else (GUN_SPREAD_K, STIRRING_NOISE_K)
    )
    return ThermometerAnswer(
        bias_k=draws.band(bias),
        bias_spread_k=spread,
        boiling_c=None if boils is None else draws.band(boils),
        probe_bias_k=None if probe is None else draws.band(probe),
        infrared_bias_k=None if gun is None else draws.band(gun),
        unchecked_final_c=_final(inputs.working_c, usual, noise),
        checked_final_c=_final(inputs.working_c, _joined(spread, usual), noise),
        odd_pairs=_odd_pairs(excess),
        advice=advice_of(
            float(bias[0]), gun=gun is not None, water=boils is not None, excess=excess,
            working_c=inputs.working_c, worth=spread < usual,
        ),
        cautions=CAUTIONS,
        notes=width_notes(draws, {"bias_k": bias}),
    )  # fmt: skip


def _boiling(draws: Draws, inputs: ThermometerInput) -> Array:
    if inputs.pressure_hpa is not None:
        read = _about_zero(draws, "pressure as read", _BAROMETER_PA)
        return boiling_c(inputs.pressure_hpa * 100 + read)
    weather = _about_zero(
        draws, "weather, since only the altitude is known", _WEATHER_PA,
        "read the station pressure off a barometer or from the nearest airport",
    )  # fmt: skip
    return boiling_c(standard_pressure_pa(inputs.altitude_m or 0.0) + weather)


def _probe_bias(draws: Draws, inputs: ThermometerInput, boils: Array, at_c: float) -> Array:
    """How much too high the probe reads at a temperature."""
    count = len(inputs.boiling_c)
    noise = _about_zero(
        draws, "one reading in the water", _IN_WATER_K / math.sqrt(count),
        "read the boiling water five times, the tip out and in again" if count < 5 else "",
    )  # fmt: skip
    dipped = _about_zero(draws, "depth of the tip, minerals and stem of the probe", _DIPPED_K)
    scale = _about_zero(draws, "scale of the probe from boiling to hot", _SCALE)
    offset = math.fsum(inputs.boiling_c) / count - boils
    return np.asarray(offset + noise + dipped + scale * (at_c - boils))


def _gun_bias(draws: Draws, inputs: ThermometerInput, boils: Array | None, excess: Excess) -> Array:
    if boils is None:
        probe = _about_zero(
            draws, "the probe, itself unchecked", Z90 * PROBE_BIAS_SPREAD_K,
            "check the probe in boiling water",
        )  # fmt: skip
    else:
        probe = _probe_bias(draws, inputs, boils, excess.at_c)
    noise = _about_zero(
        draws, "the readings of the pairs", Z90 * excess.noise_k, "read five pairs while you stir"
    )
    surface = _about_zero(draws, "the surface against what the probe feels", _SURFACE_K)
    drift = _about_zero(
        draws, "pairs away from the working temperature", Z90 * DRIFT_PER_K * excess.reach_k,
        f"read the pairs near {inputs.working_c:g} °C",
    )  # fmt: skip
    return np.asarray(excess.excess_k + probe + noise + surface + drift)


def _excess(inputs: ThermometerInput) -> Excess | None:
    pairs = [Pair(p.probe_c, p.infrared_c) for p in inputs.pairs]
    return excess_of(pairs, working_c=inputs.working_c) if pairs else None


def _about_zero(draws: Draws, label: str, half_width: float, measure: str = "") -> Array:
    return draws.of(label, Doubt(label, Band(-half_width, 0.0, half_width), measure))


def _joined(spread_k: float, usual_k: float) -> float:
    """The spread of the bias once the check and what such thermometers usually do are joined."""
    return 1 / math.hypot(1 / spread_k, 1 / usual_k)


def _final(working_c: float, bias_spread_k: float, noise_k: float) -> Band:
    """Where the cup may be: the last reading's noise, and the bias nobody takes off."""
    half = Z90 * math.hypot(bias_spread_k, noise_k)
    return Band(working_c - half, working_c, working_c + half)


def _odd_pairs(excess: Excess | None) -> tuple[OddPair, ...]:
    if excess is None:
        return ()
    return tuple(
        OddPair(
            i,
            f"the gun reads {abs(k):.1f} K {'higher' if k > 0 else 'lower'} than the other pairs "
            "say: a shiny wall, a cold skin, or a slip of the pen; left out",
        )
        for i, k in excess.odd
    )
