"""What holds two halves together, and how hard."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.assume import drawn
from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.field import number, unmeasured
from pourwright.base.kind import Kinds
from pourwright.base.record import Record
from pourwright.base.source import memory, published

BOLT_SOURCE = memory("Shigley, Mechanical Engineering Design: T = K·F·d, K 0.2 as bought")
TOGGLE_SOURCE = published(
    "application notes of a maker of toggle clamps: by hand about half of the holding capacity"
)
_FRICTION = Doubt("friction of the bolts", Band(0.15, 0.2, 0.3), "oil their threads")
_BY_HAND = Doubt("share of its capacity that a toggle clamp grips with", Band(0.3, 0.5, 0.7), "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Clamp(Record):
    """Some clamps of one kind; each kind says how hard one of them presses."""

    key: ClassVar[str] = ""
    label: ClassVar[str] = ""

    count: int = number("How many", low=1, high=40, default=2)

    def force_n(self, draws: Draws, prefix: str) -> Array:
        """Draws of what one of them presses with."""
        raise NotImplementedError


@dataclass(frozen=True, slots=True, kw_only=True)
class Bolt(Clamp):
    """Bolts or wing nuts."""

    key: ClassVar[str] = "bolt"
    label: ClassVar[str] = "Bolts or wing nuts"

    bolt_mm: float = number("Bolt across its thread", low=2, high=25, default=5)
    torque_n_m: float | None = unmeasured(
        "How hard they are turned", low=0.05, high=100, typical=(0.3, 0.5, 0.9),
        label="how hard the bolts are turned",
        measure="tighten them with a torque screwdriver", logarithmic=True,
    )  # fmt: skip

    def force_n(self, draws: Draws, prefix: str) -> Array:
        """Torque over friction and diameter."""
        friction = draws.of(_FRICTION.label, _FRICTION)
        torque = drawn(draws, self, prefix)["torque_n_m"]
        return np.asarray(torque / (friction * self.bolt_mm / 1000))


@dataclass(frozen=True, slots=True, kw_only=True)
class Toggle(Clamp):
    """Toggle clamps."""

    key: ClassVar[str] = "toggle"
    label: ClassVar[str] = "Toggle clamps"

    holding_n: float | None = unmeasured(
        "Holding capacity of one, as its maker states it", low=50, high=20_000,
        typical=(400, 900, 1600), label="holding capacity of a toggle clamp",
        measure="read it off its data sheet", logarithmic=True,
    )  # fmt: skip

    def force_n(self, draws: Draws, prefix: str) -> Array:
        """Part of the stated capacity."""
        grip = draws.of(_BY_HAND.label, _BY_HAND)
        return np.asarray(drawn(draws, self, prefix)["holding_n"] * grip)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spring(Clamp):
    """Spring clamps."""

    key: ClassVar[str] = "spring"
    label: ClassVar[str] = "Spring clamps"

    grip_n: float | None = unmeasured(
        "What one presses with", low=5, high=1000, typical=(100, 150, 200),
        label="grip of a spring clamp",
        measure="open it with a luggage scale on one jaw",
    )  # fmt: skip

    def force_n(self, draws: Draws, prefix: str) -> Array:
        """As stated or typical."""
        return drawn(draws, self, prefix)["grip_n"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar(Clamp):
    """Bar and screw clamps."""

    key: ClassVar[str] = "bar"
    label: ClassVar[str] = "Bar or screw clamps"

    grip_n: float | None = unmeasured(
        "What one presses with", low=20, high=20_000, typical=(500, 800, 1300),
        label="grip of a bar clamp",
        measure="squeeze a bathroom scale in it", logarithmic=True,
    )  # fmt: skip

    def force_n(self, draws: Draws, prefix: str) -> Array:
        """As stated or typical."""
        return drawn(draws, self, prefix)["grip_n"]


CLAMPS: Kinds[Clamp] = Kinds(Bolt, Toggle, Spring, Bar)


@dataclass(frozen=True, slots=True, eq=False)
class Grip:
    """Draws of what one clamp of each row presses with, and of all together."""

    each_n: tuple[Array, ...]
    all_n: Array


def grip(draws: Draws, clamps: tuple[Clamp, ...]) -> Grip:
    """What the clamps at hand press with."""
    each = tuple(c.force_n(draws, f"clamps[{i}].") for i, c in enumerate(clamps))
    total = draws.known(0)
    for clamp, one in zip(clamps, each, strict=True):
        total = total + clamp.count * one
    return Grip(each, total)
