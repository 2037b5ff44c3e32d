"""What a durometer's scale says of the modulus."""

from __future__ import annotations

import math

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import NoAnswer
from pourwright.base.source import memory, published
from pourwright.physics.indent import hertz_modulus_pa

D2240 = memory("ASTM D2240-15, springs, travel and ball of the type A and OO durometers")
HERTZ = published("Hertz, J. reine angew. Math. 92 (1881) 156: a ball pressed into a flat")
GENT = published("Gent, Rubber Chem. Technol. 31 (1958) 896: modulus of a type A reading")
QI = published(
    "Qi, Joyce and Boyce, Rubber Chem. Technol. 76 (2003) 419: log10 of the modulus against the "
    "type A reading, 20 to 80"
)

# Type OO, ASTM D2240: newtons at a reading of 0 and for every unit, travel at 0, ball.
OO_SPRING_N, OO_SPRING_N_PER_UNIT = 0.203, 0.00908
A_SPRING_N, A_SPRING_N_PER_UNIT = 0.550, 0.075
TRAVEL_M, OO_BALL_RADIUS_M = 2.54e-3, 1.19e-3

SOFTEST_OO, HARDEST_OO = 0.0, 99.5
_READINGS = np.linspace(SOFTEST_OO, HARDEST_OO, 1991)


def oo_spring_n(reading: float) -> float:
    """Spring force of a type OO durometer, N.

    Source: ASTM D2240, from memory.

    >>> round(oo_spring_n(0), 3), round(oo_spring_n(100), 3)
    (0.203, 1.111)
    """
    return OO_SPRING_N + OO_SPRING_N_PER_UNIT * reading


def a_spring_n(reading: float) -> float:
    """Spring force of a type A durometer, N.

    Source: ASTM D2240, from memory.

    >>> round(a_spring_n(0), 2), round(a_spring_n(100), 2)
    (0.55, 8.05)
    """
    return A_SPRING_N + A_SPRING_N_PER_UNIT * reading


def log_modulus_of_oo(reading: float) -> float:
    """Natural logarithm of Young's modulus in MPa of a Shore OO reading, 0 to 99.5.

    Hertz: F = 4/3·E/(1 - ν²)·√R·d^1.5 with the gauge's spring for F and what is left of its
    travel for d. Below a reading of about 50 the ball sinks in deeper than its own radius, where
    Hertz no longer holds: read the modulus as a scale on which to blend, good to a factor of 1.5.
    """
    depth = TRAVEL_M * (1 - reading / 100)
    pascal = hertz_modulus_pa(
        force_n=oo_spring_n(reading), radius_m=OO_BALL_RADIUS_M, depth_m=depth
    )
    return math.log(float(pascal) / 1e6)


def log_modulus_per_oo(reading: float) -> float:
    """How fast the logarithm of the modulus grows, for one unit of Shore OO."""
    return OO_SPRING_N_PER_UNIT / oo_spring_n(reading) + 1.5 / (100 - reading)


def oo_of_log_modulus(log_mpa: Array) -> Array:
    """Shore OO reading of moduli; what is too soft or too hard for the gauge stops at its ends.

    Raises: NoAnswer if the first, typical modulus lies outside what the gauge can read.
    """
    if not gauge_reads(float(log_mpa[0])):
        low, high = _LOG_MODULI[0], _LOG_MODULI[-1]
        raise NoAnswer(
            f"a modulus of {math.exp(log_mpa[0]):.2g} MPa lies outside what a Shore OO gauge "
            f"reads, {math.exp(low):.2g} to {math.exp(high):.2g} MPa"
        )
    return np.asarray(np.interp(log_mpa, _LOG_MODULI, _READINGS))


def gauge_reads(log_mpa: float) -> bool:
    """Whether a modulus lies on the scale of a Shore OO gauge."""
    return bool(_LOG_MODULI[0] <= log_mpa <= _LOG_MODULI[-1])


def modulus_of_a_gent(reading: float) -> float:
    """Young's modulus in MPa of a Shore A reading below 100.

    Source: Gent, Rubber Chem. Technol. 31 (1958) 896.

    >>> round(modulus_of_a_gent(50), 4)
    2.4558
    """
    return 0.0981 * (56 + 7.62336 * reading) / (0.137505 * (254 - 2.54 * reading))


def modulus_of_a_qi(reading: float) -> float:
    """Young's modulus in MPa of a Shore A reading between 20 and 80.

    Source: Qi, Joyce and Boyce, Rubber Chem. Technol. 76 (2003) 419.

    >>> round(modulus_of_a_qi(50), 4)
    3.4253
    """
    return 10 ** (0.0235 * reading - 0.6403)


def laws_apart(reading: float) -> float:
    """How many times higher the modulus by Qi, Joyce and Boyce is than that by Gent.

    >>> round(laws_apart(50), 2)
    1.39
    """
    return modulus_of_a_qi(reading) / modulus_of_a_gent(reading)


def oo_of_a(reading: float) -> float:
    """Shore OO reading of a plastic that reads so much on a Shore A gauge, by its modulus.

    Raises: NoAnswer if it is too hard for a Shore OO gauge.
    """
    return float(oo_of_log_modulus(np.array([math.log(modulus_of_a_gent(reading))]))[0])


_LOG_MODULI = np.array([log_modulus_of_oo(float(r)) for r in _READINGS])
