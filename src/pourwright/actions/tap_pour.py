"""Keep what was tapped at the bench: every well-formed tap is an event, fitting or not."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from pourwright.actions.cup_fill import cup_fill
from pourwright.actions.enter_lot import lot_of
from pourwright.actions.oven_history import begun
from pourwright.actions.port import Bench, Event, World
from pourwright.actions.post_pour import post_pour, poured_lot
from pourwright.actions.tap_event import Tap, happening_of
from pourwright.actions.told_pour import ToldPour, told_pour
from pourwright.base.errors import BadInput, Conflict, NotFound, PourwrightError
from pourwright.bench.clock import before, seconds_between
from pourwright.bench.cup_story import UNDONE, WORKED, Happening
from pourwright.bench.fold_pour import grown
from pourwright.bench.tap_kind import DIPPED, DRIED, TAKEN_BACK
from pourwright.bench.told_fill import told_fill
from pourwright.shop.lot import CLOCK_OFF_S, COUNTED, SENT_BY, SENT_LATE_S
from pourwright.shop.mold import Mold
from pourwright.shop.tool import Cup

# Later than this a tap counts as sent late; a clock further off is put right, and said to be off.
LATE_S = 10.0
OFF_S = 2.0
# What changes the count of a lot.
_COUNTS = frozenset({COUNTED, UNDONE, TAKEN_BACK})
# No tap is taken to be older: a clock that was never set says so.
OLDEST_S = 366 * 86_400.0


@dataclass(frozen=True, slots=True)
class Kept:
    """What became of a tap; `words` say why it was not kept, or why it does not fit."""

    id: str
    kept: bool
    words: str = ""


def tap_pour(
    world: World, sheet: int, taps: Sequence[Tap], *, sent_at: str, by: str
) -> tuple[Kept, ...]:
    """Keep taps in the order they were made; one known already changes nothing.

    A tap is dated by the laptop's time where its sender knew that, otherwise by `sent_at`, the
    sender's clock as it sends. `by` is who sent them. A tap that cannot be read is answered in
    words and the others are kept. Raises: NotFound, Conflict for a sheet that cannot guide a pour.
    """
    sent = _Sent(world.clock.now(), sent_at, by)
    kept: list[Kept] = []
    counted = ""
    with world.bench() as bench:
        found = bench.sheets.get(sheet)
        told = told_pour(bench, found)
        known = {h.id for h in told.happenings}
        for tap in taps:
            if tap.id in known:
                kept.append(Kept(tap.id, kept=True))
                continue
            try:
                it = _stored(world, bench, told, tap, sent)
            except (BadInput, NotFound, Conflict) as error:
                kept.append(Kept(tap.id, kept=False, words=str(error)))
                continue
            known.add(tap.id)
            told = _grown(told, it)
            counted = tap.id if it.kind in _COUNTS else counted
            _flag_mold(bench, told, it)
            why = (s.why for s in told.pour.strays if s.id == tap.id)
            kept.append(Kept(tap.id, kept=True, words=next(why, "")))
        if counted:
            kept = _booked(bench, told, kept, key=counted, at=sent.now)
        bench.commit()
    return tuple(kept)


@dataclass(frozen=True, slots=True)
class _Sent:
    """When the laptop got it, the sender's clock then, and who sent it."""

    now: str
    clock: str
    by: str

    def happened(self, tap: Tap) -> str:
        """When a tap happened on the laptop's clock."""
        return before(self.now, round(self._age_s(tap)))

    def meta(self, tap: Tap) -> dict[str, Any]:
        """What an event carries of its sending: by whom, how late, by how much a clock was off."""
        found: dict[str, Any] = {SENT_BY: self.by}
        if self._age_s(tap) > LATE_S:
            found[SENT_LATE_S] = round(self._age_s(tap))
        known = tap.laptop_at
        ahead = seconds_between(known, tap.at) if known else seconds_between(self.now, self.clock)
        if abs(ahead) > OFF_S:
            found[CLOCK_OFF_S] = round(ahead)
        return found

    def _age_s(self, tap: Tap) -> float:
        """How long ago it was: since the laptop's time of it, else as long as the sender says."""
        known = tap.laptop_at
        age = seconds_between(known, self.now) if known else seconds_between(tap.at, self.clock)
        return min(max(0.0, age), OLDEST_S)


def _booked(bench: Bench, told: ToldPour, kept: list[Kept], *, key: str, at: str) -> list[Kept]:
    """Post what the batch used and gave; where that cannot be, its tap says why and is kept.

    It says too what the books had less of than was used.
    """
    entry = lot_of(told.sheet, told.happenings).lot.entry
    if entry is None and poured_lot(bench, told.sheet) is None:
        return kept
    try:
        took = post_pour(bench, told.sheet, entry, key=key, at=at)
        words = "; ".join(it.words for it in took if it.found_mg)
    except PourwrightError as error:
        words = str(error)
    return [dataclasses.replace(k, words=words) if k.id == key and words else k for k in kept]


def _grown(told: ToldPour, it: Happening) -> ToldPour:
    """The same pour with one event more; when its molds are due is not asked here."""
    happenings = (*told.happenings, it)
    pour = grown(told.setup, told.pour, happenings)
    return dataclasses.replace(told, happenings=happenings, pour=pour)


def _stored(world: World, bench: Bench, told: ToldPour, tap: Tap, sent: _Sent) -> Happening:
    it = happening_of(told, tap, at=sent.happened(tap))
    body = {**it.body, **sent.meta(tap)}
    bench.ledger.append(Event(tap.id, f"lot/{told.sheet.code}", it.kind, it.at, body))
    if it.kind == WORKED:
        _tell_oven(world, bench, told, it)
    if it.kind == DRIED:
        _flag(bench, it, wet=False)
    if it.kind == TAKEN_BACK:
        for named in told.happenings:
            if named.kind == DRIED and named.id == it.body["event"]:
                _flag(bench, named, wet=True)
    return it


def _flag(bench: Bench, it: Happening, *, wet: bool) -> None:
    """A tool said to be dry loses its wet flag; taken back, it has it again."""
    if "id" not in it.body:
        return
    try:
        stored = bench.records.get(str(it.body.get("sort", "")), it.body["id"])
    except NotFound:
        return
    if isinstance(stored.noun, Mold | Cup) and stored.noun.wet is not wet:
        noun = dataclasses.replace(stored.noun, wet=wet)
        bench.records.save(stored.sort, stored.id, noun, expected_version=stored.version)


def _flag_mold(bench: Bench, told: ToldPour, it: Happening) -> None:
    """The record of the molds is wet while one of them is, so that the next pour asks too."""
    named = next((h for h in told.happenings if h.id == it.body.get("event")), it)
    if named.kind != DIPPED and not (named.kind == DRIED and "mold" in named.body):
        return
    body = {"sort": Mold.key, "id": str(told.sheet.draft.get(Mold.key) or "")}
    _flag(bench, Happening(it.id, it.kind, it.at, body), wet=bool(told.pour.wet))


def _tell_oven(world: World, bench: Bench, told: ToldPour, it: Happening) -> None:
    """The first round of a cup is told to its oven; a cup too small to be followed is not."""
    number = int(it.body["cup"])
    story = told.pour.stories.get(number)
    if story is not None and story.entries:
        return
    try:
        fill = told_fill(told.happenings, number, cup_fill(told.sheet, number))
    except BadInput:
        return
    bench.ledger.append(begun(told.sheet, number, fill, id=world.ids.fresh(), at=it.at))
