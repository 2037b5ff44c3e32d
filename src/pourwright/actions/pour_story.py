"""The story of a pour: every event of a lot, who told it, and what became of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.actions.pair_phone import phones
from pourwright.actions.port import Bench
from pourwright.actions.pour_setup import pour_setup
from pourwright.actions.pour_standing import BACK, PourStanding
from pourwright.actions.told_pour import ToldPour
from pourwright.base.errors import Conflict
from pourwright.bench.cup_story import Happening, taken_back
from pourwright.bench.fold_pour import known, pour_of
from pourwright.shop.lot import CLOCK_OFF_S, SENT_BY, SENT_LATE_S


@dataclass(frozen=True, slots=True)
class Told:
    """One event. `by` is the device it came from, `name` what a phone is called; both are empty
    where it was entered on a page.

    `late_s` is how long after it happened it was sent, `off_s` by how much the sender's clock was
    ahead. `stray` says why it does not count, `gone_at` when it was taken back; empty otherwise.
    `takes` is what it takes back.
    """

    event: Happening
    by: str
    name: str
    late_s: float
    off_s: float
    stray: str
    gone_at: str
    takes: Happening | None


@dataclass(frozen=True, slots=True)
class PourStory:
    """What was told of a pour, in the order it came in, and the pour that names its cups and parts.

    `pour` is null for a sheet that cannot be guided; nothing of it is said to be stray then.
    """

    pour: ToldPour | None
    told: tuple[Told, ...]


def pour_story(bench: Bench, it: PourStanding) -> PourStory | None:
    """The story of a pour; none where nothing of it came through the bench."""
    told = {h.id: h for h in it.happenings if known(h.kind) or h.kind in BACK}
    if not any(SENT_BY in h.body for h in told.values()):
        return None
    pour = _pour(bench, it)
    names = {phone.id: phone.name for phone in phones(bench)}
    strays = {s.id: s.why for s in pour.pour.strays} if pour else {}
    gone = _gone_at(told.values())
    lines = (
        Told(
            event=h,
            by=_by(h),
            name=names.get(_by(h), ""),
            late_s=float(h.body.get(SENT_LATE_S, 0.0)),
            off_s=float(h.body.get(CLOCK_OFF_S, 0.0)),
            stray=strays.get(h.id, ""),
            gone_at=gone.get(h.id, ""),
            takes=told.get(h.body["event"]) if h.kind in BACK else None,
        )
        for h in told.values()
    )
    return PourStory(pour, tuple(lines))


def _pour(bench: Bench, it: PourStanding) -> ToldPour | None:
    """The pour as told; when its molds are due is not reckoned."""
    try:
        setup = pour_setup(bench, it.sheet)
    except Conflict:
        return None
    pour = pour_of(setup, it.happenings)
    return ToldPour(it.sheet, setup, pour, it.happenings, firm=(), newest=0, request=None)


def _by(it: Happening) -> str:
    return str(it.body.get(SENT_BY, ""))


def _gone_at(told: Iterable[Happening]) -> dict[str, str]:
    """When each event was taken back that still is."""
    events = list(told)
    gone = taken_back(events)
    return {h.body["event"]: h.at for h in events if h.kind in BACK and h.id not in gone}
