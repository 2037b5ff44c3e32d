"""Keep and undo timed shots, and what they tell of how a plastic flows."""

from __future__ import annotations

import functools
import itertools
from dataclasses import dataclass
from typing import Any

from pourwright.actions.keep_record import add_record, retire_record
from pourwright.actions.mold_case import MoldEntry, mold_case, push_fields
from pourwright.actions.port import Bench, Stored, World
from pourwright.base.band import Band
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.fill.timed_shot import TimedShot as Timing
from pourwright.fill.timed_shot import TimedShotAnswer, TimedShotInput, fill_timed_shot
from pourwright.shop.mold import Mold
from pourwright.shop.timed_shot import TimedShot

# The fit takes so many shots of one mold and push at once; the newest ones count.
MOST_AT_ONCE = 8


@dataclass(frozen=True, slots=True)
class Believed:
    """How a plastic flows by its timed shots; the band is none where there are none."""

    melt_pa_s: Band | None = None
    factor_before: float = 0.0
    factor_now: float = 0.0
    shots: tuple[Stored, ...] = ()
    notes: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()


def keep_timed_shot(world: World, mold_id: str, entry: MoldEntry) -> Stored:
    """Keep a full shot by the stopwatch.

    Raises: BadInput without a time or a plastic, NotFound for a mold that makes a bait without a
    shape, NoAnswer where no plastic within reach fills the mold in that time.
    """
    if entry.fill_s is None:
        raise BadInput("fill_s", None, "type what the stopwatch showed")
    if not entry.plastic:
        raise BadInput("plastic", "", "pick the plastic that was shot")
    with world.bench() as bench:
        name = bench.records.get(Mold.key, mold_id).noun.name
        shot = TimedShot(
            name=f"{entry.fill_s:g} s into {name}"[:60],
            mold=mold_id, plastic=entry.plastic, injector=entry.injector, push=entry.push,
            push_n=entry.push_n, melt_c=entry.melt_c, mold_c=entry.mold_c, fill_s=entry.fill_s,
        )  # fmt: skip
        _fitted(_timing(bench, (shot,), None))
    return add_record(world, shot)


def undo_timed_shot(world: World, shot_id: str, *, expected_version: int) -> Stored:
    """Take a timed shot off, as if it had not been kept. Raises: Conflict, NotFound."""
    return retire_record(world, TimedShot.key, shot_id, expected_version=expected_version)


def shots_of(bench: Bench, plastic: str) -> tuple[Stored, ...]:
    """The timed shots of a plastic, the oldest first."""
    found = [s for s in bench.records.all(TimedShot.key) if _told_by(s).plastic == plastic]
    return tuple(sorted(found, key=lambda s: (s.changed_at, s.id)))


def believed(bench: Bench, plastic: str) -> Believed:
    """What all timed shots of a plastic tell: mold by mold, each on what the ones before told."""
    shots = shots_of(bench, plastic) if plastic else ()
    found: TimedShotAnswer | None = None
    before, doubts = 0.0, []
    for group in _alike(shots):
        try:
            told = _fitted(_timing(bench, group, found.melt_pa_s if found else None))
        except PourwrightError as error:
            doubts.append(f"{group[0].name} is left out: {error}")
            continue
        before = before or told.factor_before
        found = told
    if found is None:
        return Believed(shots=shots, doubts=tuple(doubts))
    return Believed(found.melt_pa_s, before, found.factor_now, shots, found.notes, tuple(doubts))


def _told_by(stored: Stored) -> TimedShot:
    if not isinstance(stored.noun, TimedShot):
        raise TypeError("no timed shot")
    return stored.noun


def _alike(shots: tuple[Stored, ...]) -> list[tuple[TimedShot, ...]]:
    """Shots of one mold, injector, push and mold temperature together, the newest of them."""
    told = sorted((_told_by(s) for s in shots), key=_setting)
    groups = itertools.groupby(told, key=_setting)
    return [tuple(group)[-MOST_AT_ONCE:] for _, group in groups]


def _setting(shot: TimedShot) -> tuple[Any, ...]:
    known = (shot.push_n or 0.0, -1.0 if shot.mold_c is None else shot.mold_c)
    return (shot.mold, shot.injector, shot.push.value, *known)


def _timing(bench: Bench, group: tuple[TimedShot, ...], prior: Band | None) -> TimedShotInput:
    first = group[0]
    return TimedShotInput(
        **mold_case(bench, first.mold).fields(),
        **push_fields(bench, first.push, first.push_n, first.injector),
        melt_c=first.melt_c,
        mold_c=first.mold_c,
        melt_pa_s=prior,
        shots=tuple(Timing(fill_s=s.fill_s, melt_c=s.melt_c) for s in group),
    )


@functools.lru_cache(maxsize=64)
def _fitted(asked: TimedShotInput) -> TimedShotAnswer:
    return fill_timed_shot(asked)
