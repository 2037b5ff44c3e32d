"""What the pucks in the store say, as the calibration takes it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.actions.port import Bench, Stored
from pourwright.actions.shelf_color import ColorShelf, color_shelf
from pourwright.base.errors import NoAnswer, NotFound
from pourwright.color.calibrate.answer import CalibrateInput, Unknown
from pourwright.color.calibrate.entry import CardRead, PuckDose, PuckEntry, Read, Use
from pourwright.color.dose import Measured as Counted
from pourwright.color.film.powder import Powder
from pourwright.color.typical import typical
from pourwright.shop.card import Card
from pourwright.shop.lesson import Remark, Seen
from pourwright.shop.look import Dose, Look
from pourwright.shop.material import Colorant, Flake, PearlPowder
from pourwright.shop.noun import Noun
from pourwright.shop.puck import Puck

_USUAL_G = 0.2
_PLASTICS = (
    "pucks of {count} plastics were learned from as one; if their plain pucks differ to the eye, "
    "keep to one plastic"
)


@dataclass(frozen=True, slots=True)
class Gathered:
    """The question to `color.calibrate`; `materials` in the order of its colorants.

    `pucks` holds the teaching pucks by id, `named` every id by the name the question gives it,
    `drop_g` the weight of a drop of what is counted in drops, `flakes` what is known of those of a
    pearl powder.
    """

    inputs: CalibrateInput
    materials: tuple[str, ...]
    pucks: dict[str, Puck]
    named: dict[str, str]
    drop_g: dict[str, float]
    flakes: dict[str, Powder]
    seen: tuple[Seen, ...]
    left_out: tuple[Remark, ...]
    notes: tuple[str, ...]


def gathered(bench: Bench) -> Gathered:
    """Every puck that was read and can teach.

    Raises: NoAnswer where no puck teaches yet.
    """
    shelf, stored = color_shelf(bench), read_pucks(bench)
    odd = {s.id: why for s, puck in stored if (why := _unfit(puck, shelf))}
    taken = [(s, puck) for s, puck in stored if s.id not in odd]
    teach = {s.id: puck for s, puck in taken if puck.use is Use.FIT}
    if not teach:
        raise NoAnswer("no puck teaches yet: pour one, read it over a card and enter it")
    names = puck_names([s for s, _ in taken])
    materials = _materials(taken, shelf)
    usual = _usual_g(bench, shelf)
    return Gathered(
        CalibrateInput(
            colorants=tuple(
                Unknown(name=label(shelf, m), usual_g=usual.get(m, _USUAL_G)) for m in materials
            ),
            pucks=tuple(
                _entry(name, puck, shelf, bench)
                for name, (_, puck) in zip(names, taken, strict=True)
            ),
        ),
        materials,
        teach,
        names,
        {
            m: grams(Dose(material=m, per_100g=1), shelf)
            for m in materials
            if isinstance(shelf.noun(m), Colorant)
        },
        {m: flakes for m in materials if (flakes := _flakes(shelf.noun(m))) is not None},
        seen_now(bench),
        tuple(Remark(puck=key, why=why) for key, why in odd.items()),
        _notes(list(teach.values())),
    )


def read_pucks(bench: Bench) -> tuple[tuple[Stored, Puck], ...]:
    """The pucks that have a reading."""
    found = ((s, s.noun) for s in bench.records.all(Puck.key))
    return tuple((s, n) for s, n in found if isinstance(n, Puck) and n.readings)


def seen_now(bench: Bench) -> tuple[Seen, ...]:
    """What a lesson would be learned from: read pucks and the cards, as they are now."""
    read = [s for s, _ in read_pucks(bench)] + list(bench.records.all(Card.key))
    return tuple(Seen(record=s.id, version=s.version) for s in sorted(read, key=lambda s: s.id))


def puck_names(pucks: Sequence[Stored]) -> dict[str, str]:
    """Ids by name; where two pucks share a name, the second gets its id behind it."""
    found: dict[str, str] = {}
    for stored in pucks:
        name = stored.noun.name
        found[f"{name[:45]} ({stored.id[-12:]})" if name in found else name] = stored.id
    return found


def label(shelf: ColorShelf, material: str) -> str:
    """A name no other material of the shelf has."""
    name = shelf.noun(material).name
    twins = [m for m, s in shelf.additives.items() if s.noun.name == name]
    return name if len(twins) == 1 else f"{name[:45]} ({material[-12:]})"


def grams(dose: Dose, shelf: ColorShelf) -> float:
    """Typical grams of a dose to 100 g."""
    known = shelf.dose(dose)
    return dose.per_100g * float(known.unit_g(typical(known))[0])


def _unfit(puck: Puck, shelf: ColorShelf) -> str:
    """Why a puck cannot teach; empty where it can."""
    for dose in puck.doses:
        noun = shelf.noun(dose.material)
        if isinstance(noun, Colorant) and noun.glows:
            return f"holds {noun.name}, which is fluorescent: shown as entered, never forecast"
        if isinstance(noun, Flake):
            return f"holds the flake {noun.name}, which no reading takes for an even color"
    return ""


def _materials(pucks: Sequence[tuple[Stored, Puck]], shelf: ColorShelf) -> tuple[str, ...]:
    """What colors or clouds; scent, softener and the like are not learned."""
    held = dict.fromkeys(d.material for _, puck in pucks for d in puck.doses)
    return tuple(m for m in held if shelf.colorant(m) is not None)


def _flakes(noun: Noun) -> Powder | None:
    return noun.flakes() if isinstance(noun, PearlPowder) else None


def _usual_g(bench: Bench, shelf: ColorShelf) -> dict[str, float]:
    """Median grams of a material in the looks."""
    found: dict[str, list[float]] = {}
    for look in (s.noun for s in bench.records.all(Look.key)):
        if isinstance(look, Look):
            for dose in (d for layer in look.layers for d in layer.doses):
                if dose.material in shelf.additives:
                    found.setdefault(dose.material, []).append(grams(dose, shelf))
    return {m: min(max(float(np.median(g)), 1e-4), 50.0) for m, g in found.items()}


def _notes(pucks: Sequence[Puck]) -> tuple[str, ...]:
    plastics = {p.plastic for p in pucks if p.plastic}
    return (_PLASTICS.format(count=len(plastics)),) if len(plastics) > 1 else ()


def _entry(name: str, puck: Puck, shelf: ColorShelf, bench: Bench) -> PuckEntry:
    return PuckEntry(
        name=name,
        doses=tuple(_dose(d, shelf) for d in puck.doses if shelf.colorant(d.material) is not None),
        thick_mm=puck.thick_mm,
        placing=puck.placing,
        instrument=puck.instrument,
        source=puck.source,
        use=puck.use,
        readings=tuple(CardRead(over=_bare(r.card, bench), read=r.read) for r in puck.readings),
    )


def _bare(card: str, bench: Bench) -> Read:
    noun: Noun = bench.records.get(Card.key, card).noun
    if not isinstance(noun, Card):
        raise NotFound(f"{card} is no card")
    return noun.bare


def _dose(dose: Dose, shelf: ColorShelf) -> PuckDose:
    counted = dose.measure.value == Counted.DROPS.value
    return PuckDose(
        colorant=label(shelf, dose.material),
        grams_per_100g=grams(dose, shelf),
        drops=max(dose.per_100g, 1.0) if counted else None,
    )
