"""Softness of a blend, and the share that reaches a wanted softness."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import number, out, parts, text
from pourwright.base.record import Record
from pourwright.base.source import estimate, published
from pourwright.blend.gauge import modulus_of_oo, oo_of_modulus

# How far the log rule may miss between two measured grades, in Shore OO: estimate.
RULE_MISS_OO = 6.0
GAUGE_MISS_OO = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade(Record):
    """A plastic of known hardness, and how much of it goes in."""

    name: str = text("Name", most=60, default="grade")
    grams_g: float = number("Grams in the blend", low=0, high=1e6, default=0)
    hardness_oo: float = number("Hardness, Shore OO", low=1, high=99)


@dataclass(frozen=True, slots=True, kw_only=True)
class Puck(Record):
    """A measured puck of two grades: 6 mm thick or more, a day old, read at 23 °C."""

    share: float = number("Share of the first grade, 0 to 1", low=0, high=1)
    hardness_oo: float = number("Read, Shore OO", low=1, high=99)


@dataclass(frozen=True, slots=True, kw_only=True)
class HardnessInput(Record):
    """Two or more grades; a target and own pucks go with exactly two."""

    grades: tuple[Grade, ...] = parts("Grades", least=2, most=8)
    target_oo: float | None = number("Hardness wanted, Shore OO", low=1, high=99, default=None)
    pucks: tuple[Puck, ...] = parts("Own measured pucks", most=20)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a blend of nothing, and a target or pucks with more than two grades."""
        if self.target_oo is None and sum(g.grams_g for g in self.grades) <= 0:
            raise BadInput("grades", 0, "give grams, or a target hardness")
        if len(self.grades) != 2 and (self.target_oo is not None or self.pucks):
            raise BadInput("grades", len(self.grades), "a target or own pucks need two grades")
        if len({p.share for p in self.pucks}) == 1:
            raise BadInput("pucks", len(self.pucks), "two pucks of different shares make a line")


@dataclass(frozen=True, slots=True)
class HardnessAnswer:
    """Hardness of the blend, and the share for the target."""

    hardness_oo: Band = out("Hardness of the blend, Shore OO")
    share: Band | None = out("Share of the first grade for the target; null without one")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@calculation(
    "blend.hardness",
    purpose="softness of a blend, share for a target",
    sources=(
        published("ASTM D2240-15, table 1; Hertz (1881)"),
        estimate("the logarithm of the modulus runs straight with the share by weight"),
    ),
    example={
        "grades": [
            {"name": "soft", "hardness_oo": 30, "grams_g": 50},
            {"name": "firm", "hardness_oo": 70, "grams_g": 50},
        ]
    },
)
def hardness(inputs: HardnessInput) -> HardnessAnswer:
    """Hardness by the log rule, or by the maker's own line where two pucks give one.

    Raises: NoAnswer for a target outside the two grades.
    """
    draws = Draws(seed=inputs.seed)
    miss = _miss(draws, measured=bool(inputs.pucks))
    share = None
    if inputs.target_oo is not None:
        share = _share_for(inputs, miss)
    grades = inputs.grades if share is None else _at(inputs.grades, float(share[0]))
    value = np.clip(_blended(inputs, grades) + miss, 1, 99)
    notes = list(width_notes(draws, {"hardness_oo": value}))
    if not inputs.pucks:
        notes.append("A rule of thumb between two grades: two own pucks replace it by your line.")
    return HardnessAnswer(
        draws.band(value), None if share is None else draws.band(share), tuple(notes)
    )


def blend_oo(grams: tuple[float, ...], hardness_oo: tuple[float, ...]) -> float:
    """Shore OO of a blend by the log rule."""
    total = sum(grams)
    logs = (g / total * math.log(modulus_of_oo(h)) for g, h in zip(grams, hardness_oo, strict=True))
    return oo_of_modulus(math.exp(sum(logs)))


def _miss(draws: Draws, *, measured: bool) -> Array:
    spread = GAUGE_MISS_OO if measured else math.hypot(GAUGE_MISS_OO, RULE_MISS_OO)
    doubt = Doubt("the blend rule", Band(-spread, 0, spread), "pour and read two pucks")
    return draws.of("the blend rule", doubt)


def _blended(inputs: HardnessInput, grades: tuple[Grade, ...]) -> float:
    if inputs.pucks:
        slope, start = _own_line(inputs.pucks)
        share = grades[0].grams_g / sum(g.grams_g for g in grades)
        return oo_of_modulus(math.exp(start + slope * share))
    return blend_oo(tuple(g.grams_g for g in grades), tuple(g.hardness_oo for g in grades))


def _own_line(pucks: tuple[Puck, ...]) -> tuple[float, float]:
    shares = np.array([p.share for p in pucks])
    logs = np.array([math.log(modulus_of_oo(p.hardness_oo)) for p in pucks])
    slope, start = np.polyfit(shares, logs, 1)
    return float(slope), float(start)


def _share_for(inputs: HardnessInput, miss: Array) -> Array:
    first, second = (g.hardness_oo for g in inputs.grades)
    if inputs.pucks:
        slope, start = _own_line(inputs.pucks)
    else:
        start = math.log(modulus_of_oo(second))
        slope = math.log(modulus_of_oo(first)) - start
    target = inputs.target_oo or 0.0
    low, high = sorted((first, second))
    if not low <= target <= high or abs(slope) < 1e-9:
        raise NoAnswer(f"{target:g} lies outside the grades, {low:g} to {high:g} Shore OO")
    wanted = np.array([math.log(modulus_of_oo(float(t))) for t in np.clip(target - miss, 1, 99)])
    return np.clip((wanted - start) / slope, 0, 1)


def _at(grades: tuple[Grade, ...], share: float) -> tuple[Grade, ...]:
    first, second = grades
    return (
        Grade(name=first.name, grams_g=100 * share, hardness_oo=first.hardness_oo),
        Grade(name=second.name, grams_g=100 * (1 - share), hardness_oo=second.hardness_oo),
    )
