"""A colorant's absorption and scattering from pucks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.calc import calculation
from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, parts, text
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, estimate
from pourwright.color.calibrate.advice import next_puck, open_color
from pourwright.color.calibrate.doubt import suspects
from pourwright.color.calibrate.entry import PuckEntry, Use
from pourwright.color.calibrate.example import EXAMPLE
from pourwright.color.constants import MOST_SPREAD, Constants, Spread
from pourwright.color.fit.forward import all_readings
from pourwright.color.fit.joint import Joint, predicts
from pourwright.color.fit.learn import learn
from pourwright.color.fit.prior import Normal
from pourwright.color.fit.reading import Puck, Reading
from pourwright.color.lab import lab_read
from pourwright.spectrum.difference import delta_e00
from pourwright.spectrum.light import BANDS

# How well a color is known, by how far its usual puck may be off in Lab units; estimate.
_OPEN_WORDS = ((1.0, "well known"), (2.5, "known"), (5.0, "roughly known"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown(Record):
    """A colorant to be learned."""

    name: str = text("Name", most=60)
    usual_g: float = number(
        "A usual dose, grams in 100 g of plastic", low=1e-4, high=50, default=0.2
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class CalibrateInput(Record):
    """Colorants and every puck there is of them."""

    colorants: tuple[Unknown, ...] = parts("Colorants", most=40)
    pucks: tuple[PuckEntry, ...] = parts("Pucks, drips and lots", least=1, most=400)

    def check(self) -> None:
        """Refuse names that occur twice, and pucks that only test."""
        for field, names in (
            ("colorants", [c.name for c in self.colorants]),
            ("pucks", [p.name for p in self.pucks]),
        ):
            twice = sorted({n for n in names if names.count(n) > 1})
            if twice:
                raise BadInput(field, twice, "occurs twice; every name must be its own")
        if all(p.use is Use.CHECK for p in self.pucks):
            raise BadInput("pucks", len(self.pucks), "only test; at least one must teach")


@dataclass(frozen=True, slots=True)
class Learned:
    """One colorant."""

    name: str = out("Name")
    constants: Constants = out("Per mm, for 1 g in 100 g of plastic, with what stays open")
    readings: int = out("Readings that speak of it")
    open_lab: float = out("How far its usual puck may be off: one deviation, Lab units")
    words: str = out("In words")


@dataclass(frozen=True, slots=True)
class PuckFit:
    """One reading against what the constants say."""

    puck: str = out("Puck")
    use: str = out("Taught or tested")
    over_lightness: float = out("L* of the card")
    delta_e00: float = out("CIEDE2000 between read and computed")


@dataclass(frozen=True, slots=True)
class Doubted:
    """A puck that does not fit."""

    puck: str = out("Puck")
    misfit: float = out("Misfit in the instrument's deviations; 1 is usual")
    why: str = out("What may be wrong, and what to do")


@dataclass(frozen=True, slots=True)
class SuggestedDose:
    """One colorant of a puck to pour."""

    colorant: str = out("Its name among the colorants")
    grams_per_100g: float = out("Grams in 100 g of plastic")


@dataclass(frozen=True, slots=True)
class Suggestion:
    """The puck that would teach the most."""

    doses: tuple[SuggestedDose, ...] = out("What to weigh or drip into it")
    open_lab: float = out("How far its color is open now: one deviation, Lab units")


@dataclass(frozen=True, slots=True)
class CalibrateAnswer:
    """What the pucks taught."""

    plastic: Constants = out("Plain plastic, per mm")
    colorants: tuple[Learned, ...] = out("Colorants")
    fits: tuple[PuckFit, ...] = out("Reading by reading")
    typical_misfit: float | None = out("Median CIEDE2000 of the readings that taught")
    check_misfit: float | None = out("Median CIEDE2000 of pucks never used in the fit")
    doubted: tuple[Doubted, ...] = out("Pucks that do not fit, worst first")
    next_puck: Suggestion | None = out("One more puck here would help most")
    notes: tuple[str, ...] = out("What was assumed, what would narrow it")


@calculation(
    "color.calibrate",
    purpose="a colorant's absorption and scattering from pucks",
    sources=(
        estimate(
            "radiative transfer in a slab; most likely constants by Gauss and Newton, their doubt "
            "by Laplace's approximation"
        ),
        estimate("generated families of pigment and dye spectra as the starting belief"),
        PRACTICE,
    ),
    example=EXAMPLE,
)  # fmt: skip
def calibrate(inputs: CalibrateInput) -> CalibrateAnswer:
    """Constants of plastic and colorants together, with their doubt, checks and advice."""
    index = {c.name: j for j, c in enumerate(inputs.colorants)}
    pucks = [(p.puck(index), p) for p in inputs.pucks]
    taught = [p for p, entry in pucks if entry.use is Use.FIT]
    joint = learn(len(index), taught)
    fits = tuple(_fit(joint, p, r, e) for p, e in pucks for r in p.readings)
    return CalibrateAnswer(
        constants(joint.parts[0]),
        tuple(_learned(c, j, joint, taught) for j, c in enumerate(inputs.colorants)),
        fits,
        _median([f.delta_e00 for f in fits if f.use == Use.FIT.value]),
        _median([f.delta_e00 for f in fits if f.use == Use.CHECK.value]),
        tuple(Doubted(s.puck, s.misfit, s.why) for s in suspects(joint, taught, len(index))),
        _suggestion(inputs, joint, taught),
        _notes(inputs),
    )


def constants(part: Normal) -> Constants:
    """A belief as a record: its means and its widest ways of being off."""
    sides, sizes, _ = np.linalg.svd(part.factor, full_matrices=False)
    ways = (sides * sizes).T[:MOST_SPREAD]
    return Constants(
        absorb_mm=_plain(np.exp(part.absorb)),
        scatter_mm=_plain(np.exp(part.scatter)),
        spread=tuple(Spread(absorb=_plain(w[:BANDS]), scatter=_plain(w[BANDS:])) for w in ways),
    )


def _learned(colorant: Unknown, j: int, joint: Joint, pucks: list[Puck]) -> Learned:
    count = sum(any(d == j for d, _, _ in p.doses) for p, _ in all_readings(pucks))
    off = open_color(joint.parts, j, colorant.usual_g)
    words = next((w for limit, w in _OPEN_WORDS if off < limit), "a guess")
    if not count:
        words = "never read: a guess from colorants at large"
    return Learned(colorant.name, constants(joint.parts[1 + j]), count, off, words)


def _fit(joint: Joint, puck: Puck, reading: Reading, entry: PuckEntry) -> PuckFit:
    ground = float(lab_read(reading.ground)[0])
    seen, said = (lab_read(v) for v in (predicts(joint.parts, puck, reading), reading.values))
    return PuckFit(puck.name, entry.use.value, ground, float(delta_e00(seen, said)))


def _suggestion(inputs: CalibrateInput, joint: Joint, pucks: list[Puck]) -> Suggestion | None:
    found = next_puck(joint.parts, [c.usual_g for c in inputs.colorants], pucks)
    if found is None:
        return None
    doses = tuple(SuggestedDose(inputs.colorants[j].name, g) for j, g in found.doses)
    return Suggestion(doses, found.open_lab)


def _notes(inputs: CalibrateInput) -> tuple[str, ...]:
    found = [
        (
            "a puck at least six thicknesses wide, read in its middle, loses no light sideways; a "
            "smaller one reads about 2 CIEDE2000 too dark"
        ),
        "poured on the card and lying on it differ by 4 to 5 CIEDE2000: say which it was",
    ]
    if not any(not p.doses for p in inputs.pucks):
        found.append("no puck of plain plastic: pour one, 5 or 10 mm, or it stays a guess")
    if not any(p.use is Use.CHECK for p in inputs.pucks):
        found.append("no check puck: keep one mixed puck out of the fit to see what it is worth")
    if not any(p.instrument.value == "spectrum" for p in inputs.pucks):
        found.append(
            "no spectra: the shapes between L*a*b* numbers come from families of real colorants"
        )
    return tuple(found)


def _median(values: list[float]) -> float | None:
    return float(np.median(values)) if values else None


def _plain(values: Array) -> tuple[float, ...]:
    return tuple(float(v) for v in values)
