"""Begin a pour day with what is on the bench and what orders want, and keep it laid out."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from pourwright.actions.keep_record import add_record, change_record
from pourwright.actions.port import Bench, Stored, World
from pourwright.actions.pour_day_lay import KeptDay, laid
from pourwright.actions.pour_day_need import Need
from pourwright.shop.material import RemeltPot
from pourwright.shop.pour_day import PourDay
from pourwright.shop.tool import Injector

# Fields of a day that name a tool or a material, and the sort of record each picks from.
PICKED = {
    "cup": "cup", "plastic": "plastic", "microwave": "microwave", "thermometer": "thermometer",
    "injector": Injector.key, "spoons": "spoons", "scale": "scale", "remelt": RemeltPot.key,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Beginning:
    """What a new day begins with: the first of each sort by field, and a kit to each injector."""

    picked: dict[str, str]
    kits: int


def beginning(bench: Bench) -> Beginning:
    """What a new day begins with, by what is on the bench."""
    stored = {field: bench.records.all(sort) for field, sort in PICKED.items()}
    return Beginning(
        {field: its[0].id for field, its in stored.items() if its},
        max(1, len(stored["injector"])),
    )


def needs_to_add(
    needs: Iterable[Need], there: Collection[tuple[str, str]]
) -> tuple[Need, ...]:  # fmt: skip
    """What orders want and a mold pours; `there` are the molds and looks of the day already."""
    return tuple(
        need
        for need in needs
        if need.baits and need.mold and (need.mold, need.kind.look) not in there
    )


def keep_laid_out(
    world: World, day: PourDay, kept: KeptDay | None, *, expected_version: int
) -> Stored:
    """The day with its timetable, kept; one whose sheets are frozen stays and a new one is made.

    Raises: as `laid`; Conflict for a day that changed since.
    """
    with world.reading() as bench:
        made = laid(bench, day)
    if kept is None or kept.day.frozen or kept.retired:
        return add_record(world, made)
    return change_record(world, made, id=kept.id, expected_version=expected_version)
