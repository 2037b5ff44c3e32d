"""Drag of cylinders and balls, and the steady speed at which drag carries a weight."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from pourwright.base.draws import Array

# Length over diameter against drag across and along the flow: Matthews, Aeronautical Engineer's
# Data Book (2002), fig. 5.13(b); the long cylinder across is 1.20.
_ACROSS_LENGTH = np.log([1.0, 2.0, 5.0, 10.0, 40.0, 1000.0])
_ACROSS = np.array([0.63, 0.68, 0.74, 0.82, 0.98, 1.20]) / 1.20
_ALONG_LENGTH = np.array([1.0, 2.0, 4.0, 7.0])
_ALONG = np.array([0.91, 0.85, 0.87, 0.99])
# Below the first the ends of a cylinder do not matter, from the second on they do in full.
_ENDS_FROM_RE, _ENDS_FULL_RE = 1.0, 100.0
SLOWEST_M_S, FASTEST_M_S = 1e-6, 30.0
_HALVINGS = 40


def cylinder_drag(reynolds: Array) -> Array:
    """Drag coefficient of a long cylinder across the flow, Re 1 to 2e5.

    Source: White, Fluid Mechanics and Viscous Fluid Flow, curve fit 1 + 10/Re^(2/3).
    """
    return np.asarray(1 + 10 / reynolds ** (2 / 3))


def end_share(slenderness: float) -> float:
    """Drag of a short cylinder across the flow against that of a long one, L/D 1 and more."""
    return float(np.interp(np.log(slenderness), _ACROSS_LENGTH, _ACROSS))


def finite_cylinder_drag(reynolds: Array, slenderness: float) -> Array:
    """Drag coefficient of a cylinder of length over diameter `slenderness` across the flow."""
    ends = np.interp(np.log(reynolds), np.log([_ENDS_FROM_RE, _ENDS_FULL_RE]), [0.0, 1.0])
    return np.asarray(cylinder_drag(reynolds) * (1 - (1 - end_share(slenderness)) * ends))


def along_cylinder_drag(slenderness: float) -> float:
    """Drag coefficient of a blunt cylinder along the flow, on its end's area, L/D 1 to 7."""
    return float(np.interp(slenderness, _ALONG_LENGTH, _ALONG))


def skin_friction(reynolds: Array) -> Array:
    """Friction of a laminar flat plate on its wetted area, Re of its length 1e3 to 5e5.

    Source: Blasius (1908), 1.328/√Re.
    """
    return np.asarray(1.328 / np.sqrt(reynolds))


def ball_drag(reynolds: Array) -> Array:
    """Drag coefficient of a ball, Re 0.1 to 2e5.

    Source: Perry's Chemical Engineers' Handbook, sec. 6: 24/Re·(1 + 0.14·Re^0.7), 0.44 above 1000.
    """
    return np.where(reynolds < 1000, 24 / reynolds * (1 + 0.14 * reynolds**0.7), 0.44)


def steady_speed_m_s(force_n: Array, drag_n: Callable[[Array], Array]) -> Array:
    """Speed at which a drag that grows with speed balances a force; 0 where there is none.

    From SLOWEST_M_S to FASTEST_M_S; signs are the caller's: the force is taken as positive.
    """
    low, high = np.full_like(force_n, SLOWEST_M_S), np.full_like(force_n, FASTEST_M_S)
    for _ in range(_HALVINGS):
        middle = np.sqrt(low * high)
        short = drag_n(middle) < force_n
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    return np.where(force_n > 0, np.sqrt(low * high), 0.0)
