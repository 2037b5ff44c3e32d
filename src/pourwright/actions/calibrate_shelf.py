"""Learn every colorant of the shelf from the pucks in the store."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from pourwright.actions.pearl_lesson import as_taught, flakes_taught, lesson_notes
from pourwright.actions.port import Bench, World
from pourwright.actions.puck_input import Gathered, gathered
from pourwright.base.errors import NotFound
from pourwright.color.calibrate.answer import CalibrateAnswer, SuggestedDose, calibrate
from pourwright.color.constants import Constants
from pourwright.color.pearl.calibrate import PearlPucksAnswer
from pourwright.shop.calibration import Calibration, PuckUsed
from pourwright.shop.lesson import Lesson, Remark
from pourwright.shop.look import Dose, Measure
from pourwright.shop.noun import Noun
from pourwright.shop.puck import Puck

# There is one lesson, and this is its id.
LESSON = "color-lesson"
_MOST = 1000.0


@dataclass(frozen=True, slots=True)
class Calibrated:
    """What the pucks taught, and the question it answers."""

    answer: CalibrateAnswer
    gathered: Gathered
    flakes: dict[str, PearlPucksAnswer]


def calibrated(bench: Bench) -> Calibrated:
    """Constants of everything in a puck, without keeping them; takes seconds.

    Raises: NoAnswer where no puck teaches yet.
    """
    return _learned(gathered(bench))


def calibrate_shelf(world: World) -> Calibrated:
    """Learn from every puck; keep a belief for each material and plastic, and the lesson.

    A belief whose pucks are gone is taken off. The store is free while the fit runs.
    Raises: NoAnswer where no puck teaches yet.
    """
    with world.bench() as bench:
        question = gathered(bench)
    found = _learned(question)
    with world.bench() as bench:
        beliefs = _beliefs(found)
        for key, belief in beliefs.items():
            _keep(bench, key, belief)
        for stored in bench.records.all(Calibration.key):
            if stored.id not in beliefs:
                bench.records.retire(Calibration.key, stored.id, expected_version=stored.version)
        _keep(bench, LESSON, _lesson(found))
        bench.commit()
    return found


def _learned(question: Gathered) -> Calibrated:
    answer = calibrate(question.inputs)
    return Calibrated(answer, question, flakes_taught(question, answer))


def last_lesson(bench: Bench) -> Lesson | None:
    """What came out when the pucks were last learned from."""
    found = (s.noun for s in bench.records.all(Lesson.key))
    return next((n for n in found if isinstance(n, Lesson)), None)


def _beliefs(found: Calibrated) -> dict[str, Calibration]:
    """By the id it is stored under; nothing for what no puck taught."""
    pucks = found.gathered.pucks
    learned = zip(found.gathered.materials, found.answer.colorants, strict=True)
    beliefs = {
        f"color-{material}": Calibration(
            name=f"Color of {it.name}"[:60],
            material=material,
            constants=_with_flakes(found, material, it.constants),
            words=it.words,
            open_lab=min(it.open_lab, _MOST),
            pucks=_used(k for k, p in pucks.items() if _holds(p, material)),
        )
        for material, it in learned
        if it.readings
    }
    for plastic in sorted({p.plastic for p in pucks.values() if p.plastic}):
        beliefs[f"color-{plastic}"] = _plain(plastic, pucks, found.answer)
    return beliefs


def _with_flakes(found: Calibrated, material: str, constants: Constants) -> Constants:
    taught = found.flakes.get(material)
    if taught is None:
        return constants
    return replace(constants, pearl=as_taught(found.gathered.flakes[material], taught))


def _plain(plastic: str, pucks: Mapping[str, Puck], answer: CalibrateAnswer) -> Calibration:
    alone = [k for k, p in pucks.items() if p.plastic == plastic and not p.doses]
    words = "by plain pucks" if alone else "only by pucks with colorants in them"
    return Calibration(
        name="Color of plain plastic",
        material=plastic,
        constants=answer.plastic,
        words=words,
        open_lab=0.0,
        pucks=_used(k for k, p in pucks.items() if p.plastic == plastic),
    )


def _lesson(found: Calibrated) -> Lesson:
    answer, question = found.answer, found.gathered
    following = answer.next_puck
    return Lesson(
        name="What the pucks taught",
        seen=question.seen,
        typical_misfit=_within(answer.typical_misfit),
        check_misfit=_within(answer.check_misfit),
        doubted=tuple(Remark(puck=question.named[d.puck], why=d.why) for d in answer.doubted),
        left_out=question.left_out,
        next_puck=tuple(_dose(d, question) for d in following.doses) if following else (),
        next_open_lab=min(following.open_lab, _MOST) if following else 0.0,
        notes="\n".join((*question.notes, *lesson_notes(question, found.flakes), *answer.notes)),
    )


def _dose(asked: SuggestedDose, question: Gathered) -> Dose:
    """A suggested dose, in whole drops where the material is counted."""
    names = [c.name for c in question.inputs.colorants]
    material = question.materials[names.index(asked.colorant)]
    drop = question.drop_g.get(material)
    if drop is None:
        return Dose(material=material, per_100g=asked.grams_per_100g, measure=Measure.GRAMS)
    return Dose(material=material, per_100g=max(1.0, round(asked.grams_per_100g / drop)))


def _within(value: float | None) -> float | None:
    return None if value is None else min(value, _MOST)


def _used(ids: Iterable[str]) -> tuple[PuckUsed, ...]:
    return tuple(PuckUsed(puck=k) for k in ids)


def _holds(puck: Puck, material: str) -> bool:
    return any(d.material == material for d in puck.doses)


def _keep(bench: Bench, key: str, noun: Noun) -> None:
    try:
        version = bench.records.get(noun.key, key).version
    except NotFound:
        version = 0
    bench.records.save(noun.key, key, noun, expected_version=version)
