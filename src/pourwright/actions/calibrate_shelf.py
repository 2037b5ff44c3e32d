"""Learn every colorant of the shelf from the pucks in the store."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from pourwright.actions.port import Bench, Stored, World
from pourwright.actions.shelf_color import ColorShelf, color_shelf
from pourwright.base.errors import NoAnswer, NotFound
from pourwright.color.calibrate.answer import (
    CalibrateAnswer,
    CalibrateInput,
    Unknown,
    calibrate,
)
from pourwright.color.calibrate.entry import CardRead, PuckDose, PuckEntry, Read, Use
from pourwright.color.constants import Constants
from pourwright.color.dose import Measured as Counted
from pourwright.color.typical import typical
from pourwright.shop.calibration import Calibration, PuckUsed
from pourwright.shop.card import Card
from pourwright.shop.look import Dose
from pourwright.shop.material import Plastic
from pourwright.shop.noun import Noun
from pourwright.shop.puck import Puck

_USUAL_G = 0.2


@dataclass(frozen=True, slots=True)
class Calibrated:
    """What the pucks taught; ids of materials in the answer's order, of pucks by name."""

    answer: CalibrateAnswer
    materials: tuple[str, ...]
    pucks: Mapping[str, str]


def puck_names(pucks: Sequence[Stored]) -> dict[str, str]:
    """Ids by name; where two pucks share a name, the second gets its id behind it."""
    found: dict[str, str] = {}
    for stored in pucks:
        name = stored.noun.name
        found[f"{name} ({stored.id[:6]})"[:60] if name in found else name] = stored.id
    return found


def calibrated(bench: Bench) -> Calibrated:
    """Constants of everything in a puck, without keeping them; takes seconds.

    Raises: NoAnswer where no puck teaches yet.
    """
    pucks = [s for s in bench.records.all(Puck.key) if isinstance(s.noun, Puck) and s.noun.readings]
    if not any(isinstance(s.noun, Puck) and s.noun.use is Use.FIT for s in pucks):
        raise NoAnswer("no puck teaches yet: pour one, read it over a card and enter it")
    shelf = color_shelf(bench)
    names = puck_names(pucks)
    materials = _materials(pucks)
    entries = tuple(
        _entry(name, bench.records.get(Puck.key, key).noun, shelf, bench)
        for name, key in names.items()
    )
    unknown = tuple(Unknown(name=_label(shelf, m), usual_g=_USUAL_G) for m in materials)
    return Calibrated(calibrate(CalibrateInput(colorants=unknown, pucks=entries)), materials, names)


def calibrate_shelf(world: World) -> Calibrated:
    """Learn from every puck and keep a belief for each material and each plastic.

    Raises: NoAnswer where no puck teaches yet.
    """
    with world.bench() as bench:
        found = calibrated(bench)
        pucks = {s.id: s.noun for s in bench.records.all(Puck.key)}
        for material, learned in zip(found.materials, found.answer.colorants, strict=True):
            used = [i for i, p in pucks.items() if isinstance(p, Puck) and _holds(p, material)]
            _keep(bench, material, learned.constants, learned.words, learned.open_lab, used)
        for plastic in _plastics(bench, pucks.values()):
            used = [i for i, p in pucks.items() if isinstance(p, Puck) and p.plastic == plastic]
            _keep(bench, plastic, found.answer.plastic, "by its own pucks", 0.0, used)
        bench.commit()
    return found


def _keep(
    bench: Bench, material: str, constants: Constants, words: str, open_lab: float,
    pucks: Sequence[str],
) -> None:  # fmt: skip
    noun = Calibration(
        name=f"Color of {material}"[:60],
        material=material,
        constants=constants,
        words=words,
        open_lab=min(open_lab, 1000.0),
        pucks=tuple(PuckUsed(puck=p) for p in pucks),
    )
    key = f"color-{material}"
    try:
        version = bench.records.get(Calibration.key, key).version
    except NotFound:
        version = 0
    bench.records.save(Calibration.key, key, noun, expected_version=version)


def _materials(pucks: Sequence[Stored]) -> tuple[str, ...]:
    found: dict[str, None] = {}
    for stored in pucks:
        if isinstance(stored.noun, Puck):
            found |= dict.fromkeys(d.material for d in stored.noun.doses)
    return tuple(found)


def _plastics(bench: Bench, pucks: Iterable[Noun]) -> tuple[str, ...]:
    named = {p.plastic for p in pucks if isinstance(p, Puck) and p.plastic}
    return tuple(sorted(named & {s.id for s in bench.records.all(Plastic.key, retired=True)}))


def _holds(puck: Puck, material: str) -> bool:
    return any(d.material == material for d in puck.doses)


def _label(shelf: ColorShelf, material: str) -> str:
    """A name no other material of the shelf has."""
    name = shelf.additives[material].noun.name
    twins = [m for m, s in shelf.additives.items() if s.noun.name == name]
    return name if len(twins) == 1 else f"{name} ({material[:6]})"[:60]


def _entry(name: str, noun: Noun, shelf: ColorShelf, bench: Bench) -> PuckEntry:
    if not isinstance(noun, Puck):
        raise NotFound(f"{name} is no puck")
    return PuckEntry(
        name=name,
        doses=tuple(_dose(d, shelf) for d in noun.doses),
        thick_mm=noun.thick_mm,
        placing=noun.placing,
        instrument=noun.instrument,
        source=noun.source,
        use=noun.use,
        readings=tuple(CardRead(over=_bare(r.card, bench), read=r.read) for r in noun.readings),
    )


def _bare(card: str, bench: Bench) -> Read:
    noun = bench.records.get(Card.key, card).noun
    if not isinstance(noun, Card):
        raise NotFound(f"{card} is no card")
    return noun.bare


def _dose(dose: Dose, shelf: ColorShelf) -> PuckDose:
    known = shelf.dose(dose)
    grams = float((dose.per_100g * known.unit_g(typical(known)))[0])
    drops = dose.per_100g if known.measure is Counted.DROPS else None
    return PuckDose(
        colorant=_label(shelf, dose.material), grams_per_100g=grams, drops=drops and max(drops, 1)
    )
