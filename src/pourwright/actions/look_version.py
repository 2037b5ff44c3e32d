"""Every version of a look that was ever saved; one of them brought back is saved as the newest."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.keep_record import change_record, history_of
from pourwright.actions.port import Bench, Stored, World
from pourwright.base.errors import NotFound
from pourwright.shop.look import Look


@dataclass(frozen=True, slots=True)
class LookVersion:
    """A look as it was saved at a time; versions count from 1."""

    number: int
    at: str
    look: Look
    before: Look | None


def look_versions(bench: Bench, id: str) -> tuple[LookVersion, ...]:
    """The versions of a look, oldest first; taking it off the bench is none of its own."""
    return tuple(
        LookVersion(number, change.at, change.after, _look(change.before))
        for number, change in enumerate(history_of(bench, Look.key, id), start=1)
        if isinstance(change.after, Look) and not change.retired
    )


def stored_look(bench: Bench, id: str) -> tuple[Stored, Look]:
    """A look as it stands. Raises: NotFound."""
    stored = bench.records.get(Look.key, id)
    if not isinstance(stored.noun, Look):
        raise NotFound("there is no such look")
    return stored, stored.noun


def look_at(bench: Bench, id: str, version: int) -> Look:
    """A look as it was in that version; 0 stands for the newest. Raises: NotFound."""
    stored, look = stored_look(bench, id)
    if version in {0, stored.version}:
        return look
    for it in look_versions(bench, id):
        if it.number == version:
            return it.look
    raise NotFound(f"{look.name!r} has no version {version}")


def bring_back(world: World, id: str, version: int, *, expected_version: int) -> Stored:
    """Save an earlier version of a look as its newest.

    Raises: NotFound, Conflict if somebody changed the look meanwhile, BadInput where one of its
    materials is gone.
    """
    with world.reading() as bench:
        look = look_at(bench, id, version)
    return change_record(world, look, id=id, expected_version=expected_version)


def _look(noun: object) -> Look | None:
    return noun if isinstance(noun, Look) else None
