"""How far melt creeps into a gap before its own skins meet."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.source import estimate

FLASH_SOURCE = estimate("slot flow closing by the skins of erf conduction; good to a factor of two")
# ∫ (1 - √τ)³ dτ from 0 to 1: what is left of the slot's flow while its skins grow.
CLOSING = 0.1
# Flash of that length is seen and trimmed; common practice, no source.
SEEN_MM = 0.5
# Where the face is too warm for a skin, the push ends it; estimate.
_LONGEST_S = 30.0


def creep_m(
    *, gap_m: Array | float, push_pa: Array, viscosity_pa_s: Array, growth_m_rs: Array | float
) -> Array:
    """Length of flash; `growth_m_rs` is the skin's thickness over the root of time, m/√s.

    The slot narrows from both faces, h·(1 - √(t/t_c)), and is shut at t_c = (h / 2·growth)²; its
    flow (Bird, Stewart and Lightfoot, Transport Phenomena, 2nd ed., problem 2B.3) then gives
    L² = 0.1·P·h²·t_c / (6·η), so that L grows with the square of the gap.
    """
    shut_s = np.minimum(_shut_s(gap_m, growth_m_rs), _LONGEST_S)
    return np.asarray(gap_m * np.sqrt(CLOSING * push_pa * shut_s / (6 * viscosity_pa_s)))


def never_shuts(gap_m: Array | float, growth_m_rs: Array) -> float:
    """Share of the draws in which no skin shuts the gap while one pushes."""
    return float(np.mean(_shut_s(gap_m, growth_m_rs)[1:] > _LONGEST_S))


def _shut_s(gap_m: Array | float, growth_m_rs: Array | float) -> Array:
    return np.asarray((gap_m / (2 * np.maximum(growth_m_rs, 1e-9))) ** 2)
