"""The water's hold on a bait and its rig, lying level or end first."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.source import memory
from pourwright.blend.bait import Bait
from pourwright.blend.rig import Load
from pourwright.matter.water import viscosity_pa_s
from pourwright.physics.convection import GRAVITY_M_S2
from pourwright.physics.drag import (
    SLOWEST_M_S,
    along_cylinder_drag,
    ball_drag,
    finite_cylinder_drag,
    skin_friction,
    steady_speed_m_s,
)

_SHAPE = Doubt(
    "drag of this shape", Band(0.7, 1.0, 1.45),
    "time one fall beside a dock or in a tall clear tube", logarithmic=True,
)  # fmt: skip
# Against a blunt end; estimate.
_END = Doubt("drag of the rounded end", Band(0.3, 0.5, 1.0), "", logarithmic=True)
TRAVEL_SOURCE = memory(
    "Joessel (1870), plates tilted into a stream: the hold lies 0.195 + 0.305·sin of the tilt of "
    "the length behind the leading edge; carried to a soft rod, an estimate"
)
_TRAVEL = Doubt(
    "how the water's hold moves as it tilts", Band(0.2, 0.305, 0.4),
    "drop the rigged bait in a clear tub and look", logarithmic=True,
)  # fmt: skip


@dataclass(frozen=True, slots=True, eq=False)
class Steady:
    """A steady fall or rise; each a draw."""

    down_m_s: Array
    along_m_s: Array
    tilt_deg: Array
    path_deg: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Fall:
    """A rod of the bait's thickness, length and shadow with its rig, in its water."""

    thick_m: float
    length_m: float
    shadow_m2: float
    rig: tuple[Load, ...]
    water_kg_m3: Array
    viscosity_pa_s: Array
    shape: Array
    end: Array
    travel: Array

    def reynolds(self, speed_m_s: Array, size_m: Array | float) -> Array:
        """Reynolds number of a length at a speed."""
        return np.asarray(self.water_kg_m3 * speed_m_s * size_m / self.viscosity_pa_s)

    def steady(self, net_kg: Array, offset: Array) -> Steady:
        """Steady fall under a net weight that pulls `offset` of the length ahead of the middle.

        The water's hold moves ahead as the rod tilts into the flow, from the middle when it lies
        across; the tilt is where the hold meets the weight.
        """
        sine = np.clip(1 - offset / self.travel, 0.0, 1.0)
        force = np.abs(net_kg) * GRAVITY_M_S2
        along = steady_speed_m_s(force, lambda v: np.hypot(*self._hold_n(v, sine)))
        across_n, along_n = self._hold_n(along, sine)
        tilt = np.arctan2(along_n, across_n)
        path = np.where(force > 0, tilt + np.arcsin(sine), 0.0)
        down = np.sign(net_kg) * along * np.sin(path)
        return Steady(np.asarray(down), along, np.degrees(tilt), np.degrees(path))

    def _hold_n(self, speed_m_s: Array, sine: Array) -> tuple[Array, Array]:
        """Drag across the rod and along it, in a flow that meets it at an angle of that sine."""
        cosine = np.sqrt(1 - sine**2)
        pressure = 0.5 * self.water_kg_m3 * speed_m_s**2
        rig_m2 = self._rig_m2(speed_m_s)
        across_m2 = self._across_m2(speed_m_s * sine) * sine**2 + rig_m2 * sine
        along_m2 = self._along_m2(speed_m_s) * cosine**2 + rig_m2 * cosine
        return pressure * across_m2, pressure * along_m2

    def _across_m2(self, speed_m_s: Array) -> Array:
        reynolds = self.reynolds(np.maximum(speed_m_s, SLOWEST_M_S), self.thick_m)
        across = finite_cylinder_drag(reynolds, self.length_m / self.thick_m)
        return np.asarray(self.shape * across * self.shadow_m2)

    def _along_m2(self, speed_m_s: Array) -> Array:
        """A rounded end, and friction on the skin."""
        face_m2, skin_m2 = math.pi / 4 * self.thick_m**2, math.pi * self.shadow_m2
        end = self.end * along_cylinder_drag(self.length_m / self.thick_m)
        rub = skin_friction(self.reynolds(speed_m_s, self.length_m))
        return np.asarray(self.shape * (end * face_m2 + rub * skin_m2))

    def _rig_m2(self, speed_m_s: Array) -> Array:
        area = np.zeros_like(speed_m_s)
        for one in self.rig:
            area = area + ball_drag(self.reynolds(speed_m_s, one.size_m)) * one.drag_m2
        return area


def drawn_fall(
    draws: Draws,
    bait: Bait,
    rig: tuple[Load, ...],
    *,
    thick_m: float,
    length_m: float,
    shadow_m2: float,
    salinity: float,
) -> Fall:
    """A fall with what nobody knows of its drag drawn."""
    return Fall(
        thick_m=thick_m,
        length_m=length_m,
        shadow_m2=shadow_m2,
        rig=rig,
        water_kg_m3=bait.water_kg_m3,
        viscosity_pa_s=viscosity_pa_s(bait.water_c, salinity),
        shape=draws.of(_SHAPE.label, _SHAPE),
        end=draws.of(_END.label, _END),
        travel=draws.of(_TRAVEL.label, _TRAVEL),
    )
