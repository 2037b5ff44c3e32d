"""The fold: events of a lot, oldest first, into where its pour stands."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Sequence

from pourwright.bench import tap_kind as kind
from pourwright.bench.cup_story import TOLD_OF_CUPS, Happening, cup_stories, taken_back
from pourwright.bench.fold_bait import BAIT_FOLDS
from pourwright.bench.fold_cup import CUP_FOLDS
from pourwright.bench.fold_mold import MOLD_FOLDS
from pourwright.bench.fold_whole import WHOLE_FOLDS
from pourwright.bench.pour import CupNow, Newest, Pour, Stray
from pourwright.bench.pour_setup import PourSetup
from pourwright.bench.unfit import Unfit

_FOLDS = WHOLE_FOLDS | CUP_FOLDS | MOLD_FOLDS | BAIT_FOLDS


def pour_of(setup: PourSetup, happenings: Iterable[Happening]) -> Pour:
    """The pour that the events tell. Events of other kinds are left alone.

    The same id a second time changes nothing; an event that was taken back counts as if it had
    not happened, and what came after it and no longer fits becomes a stray.
    """
    told = list({h.id: h for h in happenings}.values())
    gone = taken_back(told)
    kept = [h for h in told if h.id not in gone]
    pour = Pour(cups={c.number: CupNow(c.number) for c in setup.cups}, stories=cup_stories(told))
    ids = {h.id for h in told}
    for it in kept:
        if it.kind in _FOLDS:
            pour = after(setup, pour, it)
        elif it.kind == kind.TAKEN_BACK and it.body["event"] not in ids:
            pour = _astray(pour, it, "what it takes back was never kept")
    return pour


def after(setup: PourSetup, pour: Pour, it: Happening) -> Pour:
    """The pour after one more event; one that does not fit is kept among the strays."""
    try:
        found = _FOLDS[it.kind](setup, pour, it)
    except Unfit as why:
        return _astray(pour, it, str(why))
    newest = Newest(it.id, it.kind, it.at, it.body)
    return dataclasses.replace(found, newest=newest, began_at=found.began_at or it.at)


def grown(setup: PourSetup, pour: Pour, happenings: Sequence[Happening]) -> Pour:
    """The pour after the newest of its events, as `pour_of` of all of them."""
    it = happenings[-1]
    if it.kind not in _FOLDS:
        return pour_of(setup, happenings)
    found = after(setup, pour, it)
    if it.kind not in TOLD_OF_CUPS:
        return found
    return dataclasses.replace(found, stories=cup_stories(happenings))


def _astray(pour: Pour, it: Happening, why: str) -> Pour:
    return dataclasses.replace(pour, strays=(*pour.strays, Stray(it.id, it.kind, it.at, why)))


def known(kind_of_event: str) -> bool:
    """Whether the fold has a use for events of that kind."""
    return kind_of_event in _FOLDS
