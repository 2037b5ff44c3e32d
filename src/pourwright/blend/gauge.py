"""What a durometer's scale says of the modulus."""

from __future__ import annotations

import math

from scipy.optimize import brentq

from pourwright.base.errors import NoAnswer

BALL_M = 1.19e-3
TRAVEL_M = 2.54e-3
POISSON = 0.5


def oo_spring_n(reading: float) -> float:
    """Spring force of a type OO gauge, N (ASTM D2240-15, table 1).

    >>> round(oo_spring_n(100), 3)
    1.111
    """
    return 0.203 + 0.00908 * reading


def a_spring_n(reading: float) -> float:
    """Spring force of a type A gauge, N (ASTM D2240-15, table 1).

    >>> round(a_spring_n(100), 2)
    8.05
    """
    return 0.550 + 0.075 * reading


def modulus_of_oo(reading: float) -> float:
    """Young's modulus in MPa of a Shore OO reading, 1 to 99.

    Hertz ball of 1.19 mm radius pressed by the gauge's spring: F = 4/3·E/(1-ν²)·√R·d^1.5
    (Hertz 1881; D2240 for spring and travel).
    """
    depth = TRAVEL_M * (1 - reading / 100)
    force = oo_spring_n(reading)
    return float(0.75 * (1 - POISSON**2) * force / (math.sqrt(BALL_M) * depth**1.5) / 1e6)


def oo_of_modulus(modulus_mpa: float) -> float:
    """Shore OO reading of a modulus.

    Raises: NoAnswer outside what the gauge can read.
    """
    low, high = 1.0, 99.0
    if not modulus_of_oo(low) <= modulus_mpa <= modulus_of_oo(high):
        raise NoAnswer(f"a modulus of {modulus_mpa:.3g} MPa lies outside the Shore OO scale")
    return float(brentq(lambda s: modulus_of_oo(s) - modulus_mpa, low, high, xtol=1e-9))


def modulus_of_a_gent(reading: float) -> float:
    """Young's modulus in MPa of a Shore A reading.

    Source: Gent, Rubber Chem. Technol. 31 (1958) 896.

    >>> round(modulus_of_a_gent(50), 2)
    2.46
    """
    return 0.0981 * (56 + 7.62336 * reading) / (0.137505 * (254 - 2.54 * reading))


def modulus_of_a_qi(reading: float) -> float:
    """Young's modulus in MPa of a Shore A reading between 20 and 80.

    Source: Qi, Joyce and Boyce, Rubber Chem. Technol. 76 (2003) 419.
    """
    return float(10 ** (0.0235 * reading - 0.6403))
