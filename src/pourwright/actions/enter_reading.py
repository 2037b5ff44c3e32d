"""Write down what an instrument read of a puck over a card, or of a bare card."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from pourwright.actions.keep_record import add_record, change_record
from pourwright.actions.port import Stored, World
from pourwright.base.errors import BadInput
from pourwright.color.calibrate.entry import Read
from pourwright.color.fit.reading import Instrument
from pourwright.color.lab import Lab
from pourwright.color.slab import Placing
from pourwright.shop.card import Card
from pourwright.shop.puck import OverCard, Puck


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What was read, by what, and how the puck lay."""

    lab: Lab
    instrument: Instrument
    placing: Placing


def read_puck(world: World, puck: str, card: str, reading: Reading) -> Stored:
    """Add a reading to a puck; one over the same card stays, for readings are averaged.

    Raises: BadInput for a puck already read otherwise, NotFound.
    """
    with world.bench() as bench:
        stored = bench.records.get(Puck.key, puck)
    old = stored.noun
    if not isinstance(old, Puck):
        raise BadInput("puck", puck, "is no puck")
    if old.readings:
        _check_alike(old, reading)
    new = dataclasses.replace(
        old,
        instrument=reading.instrument,
        placing=reading.placing,
        readings=(*old.readings, OverCard(card=card, read=Read(lab=reading.lab))),
    )
    return change_record(world, new, id=puck, expected_version=stored.version)


def _check_alike(old: Puck, reading: Reading) -> None:
    """One puck holds readings of one sort: a second sort is a second puck of the same recipe."""
    for field, before, now in (
        ("instrument", old.instrument, reading.instrument),
        ("placing", old.placing, reading.placing),
    ):
        if before is not now:
            raise BadInput(
                field, now.value,
                f"was {before.value} when {old.name} was read before; read it that way again, or "
                "enter it a second time under another name",
            )  # fmt: skip


def read_card(world: World, name: str, lab: Lab) -> Stored:
    """Keep a new bare card."""
    return add_record(world, Card(name=name, bare=Read(lab=lab)))
