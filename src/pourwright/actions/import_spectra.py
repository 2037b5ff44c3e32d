"""Take spectra of cards and pucks from a file."""

from __future__ import annotations

import dataclasses

from pourwright.actions.port import Bench, NamedSpectrum, Stored, World
from pourwright.base.errors import BadInput
from pourwright.color.calibrate.entry import Read
from pourwright.color.fit.reading import Instrument
from pourwright.shop.card import Card
from pourwright.shop.puck import OverCard, Puck


def import_spectra(world: World, data: bytes) -> tuple[str, ...]:
    """Put each column where its name says; what was done, in words. All of it or nothing.

    A column is named like a card, for the bare card, or "puck / card". A puck's readings by
    another instrument are replaced.
    Raises: BadInput for a file that cannot be read or a name that nothing on the bench has.
    """
    columns = world.spectra(data)
    with world.bench() as bench:
        cards = {s.noun.name: s for s in bench.records.all(Card.key)}
        done = [_bare(bench, cards[c.name], c) for c in columns if c.name in cards]
        by_puck: dict[str, list[tuple[str, NamedSpectrum]]] = {}
        for column in columns:
            if column.name not in cards:
                puck, _, card = (part.strip() for part in column.name.rpartition("/"))
                if card not in cards:
                    raise _unknown(column.name, tuple(cards))
                by_puck.setdefault(puck, []).append((cards[card].id, column))
        done += [_over(bench, name, readings) for name, readings in by_puck.items()]
        bench.commit()
    return tuple(done)


def _bare(bench: Bench, stored: Stored, column: NamedSpectrum) -> str:
    card = Card(name=stored.noun.name, bare=_read(column))
    bench.records.save(Card.key, stored.id, card, expected_version=stored.version)
    return f"{card.name}: bare spectrum taken in, {_as(column)}"


def _over(bench: Bench, name: str, readings: list[tuple[str, NamedSpectrum]]) -> str:
    stored = next((s for s in bench.records.all(Puck.key) if s.noun.name == name), None)
    if stored is None or not isinstance(stored.noun, Puck):
        raise _unknown(name, tuple(s.noun.name for s in bench.records.all(Puck.key)))
    old = stored.noun
    new = {card: OverCard(card=card, read=_read(column)) for card, column in readings}
    kept = [r for r in old.readings if old.instrument is Instrument.SPECTRUM and r.card not in new]
    changed = dataclasses.replace(
        old, instrument=Instrument.SPECTRUM, readings=(*kept, *new.values())
    )
    bench.records.save(Puck.key, stored.id, changed, expected_version=stored.version)
    return f"{name}: {len(new)} spectra taken in, {_as(readings[0][1])}"


def _read(column: NamedSpectrum) -> Read:
    return Read(reflectance=column.reflectance)


def _as(column: NamedSpectrum) -> str:
    return "read as percent" if column.percent else "read as shares from 0 to 1"


def _unknown(name: str, known: tuple[str, ...]) -> BadInput:
    there = ", ".join(known[:12]) or "none yet"
    return BadInput("spectra", name, f"names nothing on the bench; there are {there}")
