"""What the pucks teach of the flakes of a pearl powder."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import replace

from pourwright.actions.puck_input import Gathered
from pourwright.base.errors import NoAnswer
from pourwright.color.calibrate.answer import CalibrateAnswer
from pourwright.color.calibrate.entry import PuckEntry, Use
from pourwright.color.film.powder import Powder
from pourwright.color.pearl.calibrate import PearlPucksAnswer, PearlPucksInput, pearl_calibrate
from pourwright.color.plastic import RawPlastic


def flakes_taught(question: Gathered, answer: CalibrateAnswer) -> dict[str, PearlPucksAnswer]:
    """By material: the film and quality that the pucks of one powder alone speak for.

    Only a powder whose grade or film is on the shelf has them, and a puck to teach them. One whose
    pucks no flakes tell has none, so that it spoils no other's lesson.
    """
    plastic = RawPlastic(constants=answer.plastic)
    taught = {}
    for material, pucks in _taught_by(question).items():
        asked = PearlPucksInput(powder=question.flakes[material], pucks=pucks, plastic=plastic)
        with suppress(NoAnswer):
            taught[material] = pearl_calibrate(asked)
    return taught


def as_taught(powder: Powder, taught: PearlPucksAnswer) -> Powder:
    """The powder with its film and quality as its pucks have them."""
    return replace(powder, film_nm=taught.film_nm.typical, quality=taught.quality.typical)


def lesson_notes(question: Gathered, taught: Mapping[str, PearlPucksAnswer]) -> Iterable[str]:
    """One note a powder: its film, and how far its flakes miss its pucks, or that none fit."""
    for material in sorted(_taught_by(question).keys() - taught.keys()):
        yield (
            f"{_label(question, material)}: no pearl flakes tell its pucks; check their dose, "
            "thickness and cards"
        )
    for material, found in taught.items():
        film = found.film_nm
        yield (
            f"{_label(question, material)}: film {film.typical:.0f} nm ({film.low:.0f} to "
            f"{film.high:.0f}), {found.words}, {found.misfit:.1f} CIEDE2000 off"
        )


def _taught_by(question: Gathered) -> dict[str, tuple[PuckEntry, ...]]:
    found = {material: _alone(question, material) for material in question.flakes}
    return {material: pucks for material, pucks in found.items() if pucks}


def _alone(question: Gathered, material: str) -> tuple[PuckEntry, ...]:
    label = _label(question, material)
    return tuple(
        p
        for p in question.inputs.pucks
        if p.use is Use.FIT and [d.colorant for d in p.doses] == [label]
    )


def _label(question: Gathered, material: str) -> str:
    return question.inputs.colorants[question.materials.index(material)].name
