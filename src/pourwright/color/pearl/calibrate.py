"""A pearl powder's film and quality from one puck, or more, read over black and over white."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import out, part, parts
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, estimate
from pourwright.color.calibrate.entry import PuckEntry
from pourwright.color.film.powder import Powder
from pourwright.color.fit.forward import all_readings
from pourwright.color.fit.reading import Puck
from pourwright.color.lab import lab_read
from pourwright.color.pearl.fit import Fitted, fit_film
from pourwright.color.plastic import RawPlastic
from pourwright.matter import mica
from pourwright.spectrum.difference import delta_e00

# Median CIEDE2000 up to which clear flakes tell the powder well, and roughly; estimates.
_WELL, _ROUGHLY = 3.0, 6.0
# L* of a card below which it serves as black; estimate.
_BLACK_L = 45.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PearlPucksInput(Record):
    """A powder as it is sold, and its pucks."""

    powder: Powder = part("What is known of it", default=Powder())
    pucks: tuple[PuckEntry, ...] = parts(
        "Pucks that hold it and nothing else that colors", least=1, most=40
    )
    plastic: RawPlastic = part("The plastic without color", default=RawPlastic())

    def check(self) -> None:
        """Refuse a quality beside the pucks that tell it, and a puck that holds not it alone."""
        if self.powder.quality is not None:
            raise BadInput("powder.quality", self.powder.quality, "is for the pucks to tell")
        names = {d.colorant for p in self.pucks for d in p.doses}
        for i, entry in enumerate(self.pucks):
            if len(entry.doses) != 1 or len(names) > 1:
                raise BadInput(f"pucks[{i}].doses", len(entry.doses), "must hold the powder alone")

    def taken(self) -> list[Puck]:
        """The pucks as the fit takes them."""
        return [p.puck({d.colorant: 0 for d in p.doses}) for p in self.pucks]


@dataclass(frozen=True, slots=True)
class PearlRead:
    """One reading against the flakes."""

    puck: str = out("Puck")
    over_lightness: float = out("L* of the card")
    delta_e00: float = out("CIEDE2000 between read and computed")


@dataclass(frozen=True, slots=True)
class PearlPucksAnswer:
    """What the pucks taught of its flakes."""

    film_nm: Band = out("Film on each face of a flake")
    quality: Band = out("Share of its flakes that mirror as flakes lying flat would")
    readings: tuple[PearlRead, ...] = out("Reading by reading")
    misfit: float = out("Median CIEDE2000 of the readings")
    words: str = out("In words")
    notes: tuple[str, ...] = out("What was assumed, what would narrow it")


def _lab(lightness: float, a: float, b: float) -> dict[str, Any]:
    return {"lab": {"lightness": lightness, "a": a, "b": b}}


@calculation(
    "pearl.calibrate",
    purpose="a pearl powder's film and quality from one puck over black and white",
    sources=(
        estimate("flakes as clear mirrors, as in pearl.film; most likely film and quality, their "
                 "doubt by Laplace's approximation"),
        mica.QUALITY.source,
        mica.CORE_NM.source,
        mica.FILM_BY_COLOR.source,
        mica.FILM_BY_FIGURE.source,
        PRACTICE,
    ),
    example={
        "powder": {"grade": "blue"},
        "pucks": [{
            "name": "blue pearl, 0.2 g", "thick_mm": 5,
            "doses": [{"colorant": "blue pearl", "grams_per_100g": 0.2}],
            "readings": [
                {"over": _lab(24.1, 0.1, -0.4), "read": _lab(36.9, 0.8, -46.0)},
                {"over": _lab(94.8, -0.3, 1.6), "read": _lab(84.1, 0.2, 1.9)},
            ],
        }],
    },
)  # fmt: skip
def pearl_calibrate(inputs: PearlPucksInput) -> PearlPucksAnswer:
    """The film in nm and the share of good flakes that the readings speak for, with 90 % bands.

    Raises: NoAnswer where only flakes such as no powder has would tell the pucks.
    """
    pucks = inputs.taken()
    absorb, scatter = inputs.plastic.typical_flux()
    fitted = fit_film(inputs.powder, pucks, (absorb[0], scatter[0]))
    _check_flakes(inputs.powder, fitted)
    readings = _compared(pucks, fitted)
    misfit = float(np.median([r.delta_e00 for r in readings]))
    return PearlPucksAnswer(
        fitted.film_nm,
        fitted.quality,
        readings,
        misfit,
        _words(misfit),
        tuple(_notes(inputs, readings, misfit)),
    )


def _check_flakes(powder: Powder, fitted: Fitted) -> None:
    try:
        replace(powder, film_nm=fitted.film_nm.typical, quality=fitted.quality.typical)
    except BadInput as error:
        raise NoAnswer(
            f"no pearl flakes tell these pucks: {error}; check dose, thickness and cards"
        ) from error


def _compared(pucks: list[Puck], fitted: Fitted) -> tuple[PearlRead, ...]:
    return tuple(
        PearlRead(
            puck.name,
            float(lab_read(reading.ground)[0]),
            float(delta_e00(lab_read(said), lab_read(reading.values))),
        )
        for (puck, reading), said in zip(all_readings(pucks), fitted.expected, strict=True)
    )


def _words(misfit: float) -> str:
    if misfit < _WELL:
        return "its flakes tell its pucks well"
    return "its flakes tell its pucks roughly" if misfit < _ROUGHLY else "it is no such powder"


def _notes(
    inputs: PearlPucksInput, readings: tuple[PearlRead, ...], misfit: float
) -> Iterable[str]:
    over = [r.over_lightness for r in readings]
    if min(over) > _BLACK_L:
        yield "never read over black, where its color shows: read it over black to narrow the film"
    if max(over) < _BLACK_L:
        yield "never read over white: read it over white to check that its flakes are clear"
    if misfit >= _ROUGHLY:
        yield (
            f"clear flakes miss the readings by {misfit:.1f} CIEDE2000: check the grade, the dose "
            "and the thickness; a powder with a colored film (gold, bronze, red of iron oxide) is "
            "better told by color.calibrate"
        )
    if inputs.powder.film_index is None:
        yield "film_index was left out: a porous film is read as a thinner dense one"
    if inputs.powder.core_nm == mica.CORE_NM.typical:
        yield (
            f"mica of {mica.CORE_NM.typical:g} nm (core_nm) is what powders at large have; were it "
            "thicker, the same pucks would tell a higher quality"
        )
    if inputs.plastic.constants is None:
        yield "the plastic is taken as plastic is: calibrate plain pucks of it to narrow this"
