"""Softness of a blend, and the share that reaches a wanted softness."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import flag, number, out, part, parts, pick, text
from pourwright.base.record import Record
from pourwright.blend.gauge import (
    D2240,
    GENT,
    HARDEST_OO,
    HERTZ,
    QI,
    SOFTEST_OO,
    laws_apart,
    log_modulus_of_oo,
    log_modulus_per_oo,
    oo_of_a,
    oo_of_log_modulus,
)
from pourwright.blend.press import FLOOR, Press, press_oo
from pourwright.blend.rule import (
    LOG_RULE,
    SOFTENER_POWER,
    SOFTENER_RULE,
    Line,
    blended,
    line_through,
    mixedness,
    softening,
)
from pourwright.matter.plasticizer import SUBSTITUTION, SUBSTITUTION_SOURCE, Plasticizer

# Half-widths of 90 % bands in Shore OO; estimates.
PUCK_MISS_OO, LABEL_MISS_OO, A_SCALE_MISS_OO = 2.0, 4.0, 8.0
# What the log rule misses at equal shares, for each unit between hardest and softest; estimate.
RULE_MISS_SHARE = 0.15
OWN_LINE_MISS_OO = 2.0
PUCK_HOW = "6 mm thick, a day old, at 23 °C, read 12 mm in from its edge"


@dataclass(frozen=True, slots=True, kw_only=True)
class Grade(Record):
    """A plastic or hardener of known hardness, and how much of it goes in."""

    name: str = text("Name", most=60, default="")
    grams_g: float = number("Grams in the blend", low=0, high=1e6, default=0)
    hardness_oo: float | None = number("Hardness, Shore OO", low=5, high=95, default=None)
    hardness_a: float | None = number(
        "Hardness, Shore A, for stiff grades", low=5, high=80, default=None
    )
    press: Press | None = part("Or a ball pressed into a puck of it", default=None)
    measured: bool = flag("Read on your own puck, not from the label")

    def check(self) -> None:
        """Refuse a grade with no hardness, or with two."""
        _one_of(self.hardness_oo, self.hardness_a, self.press)

    @property
    def reading_oo(self) -> float:
        """Hardness in Shore OO: given, by a pressed ball, or by the modulus of Shore A."""
        if self.press is not None:
            return press_oo(self.press).typical
        return oo_of_a(self.hardness_a or 0) if self.hardness_oo is None else self.hardness_oo

    @property
    def miss_oo(self) -> float:
        """Half-width of what the reading may be off."""
        if self.press is not None:
            return press_oo(self.press).half_width
        if self.hardness_oo is None:
            return A_SCALE_MISS_OO
        return PUCK_MISS_OO if self.measured else LABEL_MISS_OO

    @property
    def own(self) -> bool:
        """Whether it was read or pressed on an own puck."""
        return self.measured or self.press is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class Puck(Record):
    """An own puck of the two grades, poured, cooled and read."""

    share: float = number("Share of the first grade, 0 to 1", low=0, high=1)
    hardness_oo: float | None = number("Read, Shore OO", low=5, high=95, default=None)
    press: Press | None = part("Or a ball pressed into it", default=None)

    def check(self) -> None:
        """Refuse a puck not read, or read twice."""
        _one_of(self.hardness_oo, None, self.press)

    @property
    def reading(self) -> Band:
        """Hardness in Shore OO with what it may be off."""
        if self.press is not None:
            return press_oo(self.press)
        read = self.hardness_oo or 0.0
        return Band(read - PUCK_MISS_OO, read, read + PUCK_MISS_OO)


def _one_of(hardness_oo: float | None, hardness_a: float | None, press: Press | None) -> None:
    if sum(value is not None for value in (hardness_oo, hardness_a, press)) != 1:
        why = "give either Shore OO or Shore A or a pressed ball"
        raise BadInput("hardness_oo", hardness_oo, why)


@dataclass(frozen=True, slots=True, kw_only=True)
class HardnessInput(Record):
    """Two or more grades; a target and own pucks go with exactly two."""

    grades: tuple[Grade, ...] = parts("Grades", least=2, most=8)
    target_oo: float | None = number("Hardness wanted, Shore OO", low=5, high=95, default=None)
    softener_per_100g: float = number(
        "Grams of softener to 100 g of the grades", low=0, high=60, default=0
    )
    softener: Plasticizer | None = pick("What the softener is, if its sheet says so", default=None)
    pucks: tuple[Puck, ...] = parts("Own measured pucks of the two grades", most=20)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a blend of nothing, and a target or pucks with more than two grades."""
        if self.target_oo is None and self.total_g <= 0:
            raise BadInput("grades", self.total_g, "give grams, or a target hardness")
        if len(self.grades) != 2 and (self.target_oo is not None or self.pucks):
            raise BadInput("grades", len(self.grades), "a target or own pucks need two grades")
        if self.pucks and len({p.share for p in self.pucks}) < 2:
            raise BadInput("pucks", len(self.pucks), "a line needs pucks of two different shares")

    @property
    def total_g(self) -> float:
        """All grades together."""
        return sum(g.grams_g for g in self.grades)


@dataclass(frozen=True, slots=True)
class HardnessAnswer:
    """Hardness of the blend, and the share for the target."""

    hardness_oo: Band = out("Hardness of the blend, Shore OO")
    share: Band | None = out("Share of the first grade for the target; null without one")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@calculation(
    "blend.hardness",
    purpose="softness of a blend, share for a target",
    sources=(HERTZ, D2240, GENT, QI, FLOOR, LOG_RULE, SOFTENER_RULE, SUBSTITUTION_SOURCE),
    example={
        "grades": [
            {"name": "soft", "hardness_oo": 30, "grams_g": 50},
            {"name": "firm", "hardness_oo": 70, "grams_g": 50},
        ]
    },
)
def hardness(inputs: HardnessInput) -> HardnessAnswer:
    """Hardness by the log rule, or by the maker's own line where two pucks give one.

    With a target, the hardness is that of the typical share for it.
    Raises: NoAnswer for a target that no share of the two grades reaches, or a blend outside what
    a Shore OO gauge reads.
    """
    draws = Draws(seed=inputs.seed)
    softer = _softening(inputs, draws)
    share = None if inputs.target_oo is None else _share_for(inputs, inputs.target_oo, draws)
    shares = _shares(inputs, share)
    log_modulus = _unsoftened(inputs, shares, draws) - softer
    typical = float(oo_of_log_modulus(log_modulus)[0])
    miss = log_modulus_per_oo(typical) * _rule_miss_oo(inputs, shares, draws)
    value = oo_of_log_modulus(log_modulus + miss)
    return HardnessAnswer(
        draws.band(value),
        None if share is None else draws.band(np.clip(share, 0, 1)),
        tuple(_notes(inputs, draws, value, share)),
    )


def _shares(inputs: HardnessInput, share: Array | None) -> tuple[float, ...]:
    if share is not None:
        return float(share[0]), 1 - float(share[0])
    return tuple(g.grams_g / inputs.total_g for g in inputs.grades)


def _unsoftened(inputs: HardnessInput, shares: tuple[float, ...], draws: Draws) -> Array:
    if len(shares) == 2:
        return _line(inputs, draws).at(shares[0])
    return blended(shares, _grades(inputs, draws))


def _line(inputs: HardnessInput, draws: Draws) -> Line:
    if not inputs.pucks:
        first, second = _grades(inputs, draws)
        return Line(at_none=second, at_all=first)
    moduli = [
        _read(draws, f"puck {i + 1}", p.reading.typical, p.reading.half_width)
        for i, p in enumerate(inputs.pucks)
    ]
    return line_through([p.share for p in inputs.pucks], moduli)


def _grades(inputs: HardnessInput, draws: Draws) -> list[Array]:
    return [
        _read(draws, g.name or f"grade {i + 1}", g.reading_oo, g.miss_oo, puck=not g.own)
        for i, g in enumerate(inputs.grades)
    ]


def _read(
    draws: Draws, name: str, reading_oo: float, miss_oo: float, *, puck: bool = False
) -> Array:
    """Draws of the logarithm of the modulus behind a reading."""
    how = f"pour a puck of it and read it: {PUCK_HOW}" if puck else ""
    miss = draws.of(
        f"hardness of {name}", Doubt(f"hardness of {name}", Band(-miss_oo, 0, miss_oo), how)
    )
    return np.asarray(log_modulus_of_oo(reading_oo) + log_modulus_per_oo(reading_oo) * miss)


def _rule_miss_oo(inputs: HardnessInput, shares: tuple[float, ...], draws: Draws) -> Array:
    if inputs.pucks:
        spread, how = OWN_LINE_MISS_OO, ""
    else:
        readings = [g.reading_oo for g in inputs.grades]
        spread = RULE_MISS_SHARE * (max(readings) - min(readings)) * mixedness(shares)
        how = f"pour two pucks of different shares and read them: {PUCK_HOW}"
    label = "own line" if inputs.pucks else "blend rule"
    return draws.of(label, Doubt(label, Band(-spread, 0, spread), how))


def _softening(inputs: HardnessInput, draws: Draws) -> Array:
    """By how much the logarithm of the modulus falls."""
    if not inputs.softener_per_100g:
        return draws.known(0)
    power = draws.of("softener", SOFTENER_POWER)
    substitution = 1.0 if inputs.softener is None else SUBSTITUTION[inputs.softener]
    return softening(
        softener_per_100g=inputs.softener_per_100g, power=power, substitution=substitution
    )


def _share_for(inputs: HardnessInput, target_oo: float, draws: Draws) -> Array:
    line, softer = _line(inputs, draws), _softening(inputs, draws)
    wanted = log_modulus_of_oo(target_oo) + softer
    typical = float(line.share_at(wanted)[0])
    if not 0 <= typical <= 1:
        ends = sorted(float(oo_of_log_modulus(end - softer)[0]) for end in (line.at(0), line.at(1)))
        raise NoAnswer(
            f"{target_oo:g} lies outside what these two grades reach, {ends[0]:.0f} to "
            f"{ends[1]:.0f} Shore OO"
        )
    miss = log_modulus_per_oo(target_oo) * _rule_miss_oo(inputs, (typical, 1 - typical), draws)
    return line.share_at(wanted - miss)


def _notes(inputs: HardnessInput, draws: Draws, value: Array, share: Array | None) -> Iterable[str]:
    yield from width_notes(draws, {"hardness_oo": value})
    if inputs.pucks:
        yield "Your own pucks replace the grades' hardness and the blend rule."
        poured = [p.share for p in inputs.pucks]
        if not min(poured) <= _shares(inputs, share)[0] <= max(poured):
            yield "The blend lies beyond your pucks: pour one nearer to it."
    else:
        yield "The blend rule is an estimate; two own pucks replace it by your line."
    if inputs.softener_per_100g:
        yield "What softener does is an estimate: pour a puck of the blend to narrow it."
    if value.min() <= SOFTEST_OO or value.max() >= HARDEST_OO:
        yield "At one end of the range the gauge itself runs out of scale."
    for grade in inputs.grades:
        if grade.hardness_a is not None:
            yield _shore_a_words(grade.hardness_a)
    if any(g.press for g in inputs.grades) or any(p.press for p in inputs.pucks):
        yield (
            "A pressed ball is a coarse gauge: blend.press_test says how coarse, and compares two "
            "pucks far better than it names one."
        )
    if share is not None and not (share.min() >= 0 and share.max() <= 1):
        yield "Within the ranges given, one grade alone may miss the target; the share stops there."


def _shore_a_words(reading: float) -> str:
    """Two printed laws, and which one is used."""
    words = f"Shore A turns into Shore OO by its modulus, within {A_SCALE_MISS_OO:g} (estimate)."
    if not 20 < reading < 80:
        return words
    apart = laws_apart(reading) - 1
    return f"{words} Two printed laws disagree: Qi and others (2003) put it {apart:+.0%} over Gent."
