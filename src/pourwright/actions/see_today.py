"""Today: what runs, what needs a hand, what hangs, what waits, what is short."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from pourwright.actions.enter_lot import LotView, lot_of
from pourwright.actions.hanging import Hanging, hanging_of
from pourwright.actions.port import Bench
from pourwright.actions.pour_standing import PourStanding, Standing, pour_standings, why_unguided
from pourwright.actions.see_orders import Orders, see_orders
from pourwright.actions.stock_needs import Needs, stock_needs
from pourwright.actions.told_pour import ToldPour, told_pour
from pourwright.base.errors import PourwrightError
from pourwright.bench.clock import after, seconds_between
from pourwright.bench.hand import Hand, next_hand
from pourwright.bench.tap_kind import WRONG
from pourwright.shop.lot import MG
from pourwright.shop.material import Material
from pourwright.shop.nouns import NOUNS
from pourwright.shop.sheet import Sheet

# Less than this of a package is worth a word: estimate.
LOW_SHARE = 0.15
MOST_WAITING, MOST_RECENT = 6, 4


class ClockOf(StrEnum):
    """What a clock of a pour is about, and what is due when it ends."""

    MOLD = "mold"
    OVEN = "oven"


@dataclass(frozen=True, slots=True)
class RunningClock:
    """A clock with an absolute end; `number` is that of the mold or the cup."""

    what: ClockOf
    number: int
    until: str

    def over(self, now: str) -> bool:
        """Whether it has ended."""
        return seconds_between(self.until, now) >= 0


@dataclass(frozen=True, slots=True)
class Running:
    """A pour that was begun at the bench and is not over.

    `hand` is what is done next as far as the events tell, no cup judged; `trouble` is what went
    wrong and was not followed by anything, empty where nothing did.
    """

    told: ToldPour
    hand: Hand
    since: str
    clocks: tuple[RunningClock, ...]
    trouble: str

    def needs_hand(self, now: str) -> bool:
        """Whether something is due or has gone wrong."""
        return bool(self.trouble) or any(c.over(now) for c in self.clocks)


@dataclass(frozen=True, slots=True)
class Unguided:
    """A sheet whose pour this program cannot follow, and why."""

    sheet: Sheet
    why: str


@dataclass(frozen=True, slots=True)
class Away:
    """A pour that was put away, to be taken up again."""

    sheet: Sheet
    since: str


@dataclass(frozen=True, slots=True)
class Low:
    """Something running out: `short_g` is what sheets and orders want beyond what is there."""

    sort: str
    id: str
    name: str
    left_g: float
    short_g: float


@dataclass(frozen=True, slots=True)
class Today:
    """What stands on the bench at a moment, what is most pressing first."""

    now: str
    running: tuple[Running, ...]
    lost: tuple[Unguided, ...]
    hanging: tuple[Hanging, ...]
    away: tuple[Away, ...]
    frozen: tuple[Unguided, ...]
    uncounted: tuple[Sheet, ...]
    recent: tuple[LotView, ...]
    low: tuple[Low, ...]
    orders: Orders


def see_today(bench: Bench, now: str, day: str) -> Today:
    """The bench at a moment of the maker's own calendar day.

    A sheet that cannot be guided is listed with the reason; `frozen` sheets that can be guided
    carry an empty reason.
    """
    standings = pour_standings(bench)
    running, lost = running_pours(bench, standings, now)
    frozen = [s for s in standings if s.standing is Standing.FROZEN][:MOST_WAITING]
    orders = see_orders(bench, day)
    uncounted = [s.sheet for s in standings if s.standing is Standing.BY_HAND][:MOST_WAITING]
    return Today(
        now=now,
        running=running,
        lost=lost,
        hanging=hanging_of(bench, standings, now),
        away=put_away(standings),
        frozen=not_begun(bench, frozen),
        uncounted=tuple(uncounted),
        recent=_recent(standings),
        low=running_low(bench, stock_needs(bench, standings, orders.wanted)),
        orders=orders,
    )


def running_pours(
    bench: Bench, standings: Iterable[PourStanding], now: str
) -> tuple[tuple[Running, ...], tuple[Unguided, ...]]:
    """The pours that run, those that need a hand first, and those that cannot be followed."""
    running: list[Running] = []
    lost: list[Unguided] = []
    for it in standings:
        if it.standing is not Standing.RUNNING:
            continue
        try:
            running.append(_running(bench, it, now))
        except PourwrightError as error:
            lost.append(Unguided(it.sheet, str(error)))
    running.sort(key=lambda r: not r.needs_hand(now))
    return tuple(running), tuple(lost)


def put_away(standings: Iterable[PourStanding]) -> tuple[Away, ...]:
    """The pours that were put away."""
    return tuple(Away(s.sheet, s.since) for s in standings if s.standing is Standing.AWAY)


def not_begun(bench: Bench, standings: Iterable[PourStanding]) -> tuple[Unguided, ...]:
    """The frozen sheets nobody has begun to pour."""
    return tuple(
        Unguided(s.sheet, why_unguided(bench, s.sheet))
        for s in standings
        if s.standing is Standing.FROZEN
    )


def running_low(bench: Bench, needs: Needs) -> tuple[Low, ...]:
    """What is nearly used up, or less than sheets and orders will take; the shortest first."""
    found = []
    for sort in NOUNS.values():
        if not issubclass(sort, Material):
            continue
        for stored in bench.records.all(sort.key):
            noun = stored.noun
            if not isinstance(noun, Material) or noun.on_hand_g is None:
                continue
            short_g = max(0.0, needs.mg[stored.id] / MG - noun.on_hand_g)
            if short_g or noun.on_hand_g < LOW_SHARE * (noun.package_g or 0):
                found.append(Low(sort.key, stored.id, noun.name, noun.on_hand_g, short_g))
    return tuple(sorted(found, key=lambda it: -it.short_g))


def _running(bench: Bench, it: PourStanding, now: str) -> Running:
    told = told_pour(bench, it.sheet)
    hand = next_hand(told.setup, told.pour, now=now, judged={}, due=told.due)
    newest = told.pour.newest
    trouble = str(newest.body["what"]) if newest and newest.kind == WRONG else ""
    since = newest.at if newest else it.since
    return Running(told, hand, since, _clocks(told), trouble)


def _clocks(told: ToldPour) -> tuple[RunningClock, ...]:
    found = [RunningClock(ClockOf.MOLD, f.mold, f.at) for f in told.firm]
    cup = told.pour.in_oven
    if cup is not None and cup.burst is not None:
        ends = cup.burst.ended or after(cup.burst.began, round(cup.burst.for_s))
        found.append(RunningClock(ClockOf.OVEN, cup.number, ends))
    return tuple(sorted(found, key=lambda c: c.until))


def _recent(standings: Iterable[PourStanding]) -> tuple[LotView, ...]:
    """The newest lots that were counted and stand nowhere else."""
    found: list[LotView] = []
    for it in standings:
        if len(found) == MOST_RECENT:
            break
        lot = lot_of(it.sheet, it.happenings) if it.standing is Standing.OVER else None
        if lot is not None and lot.lot.entry is not None:
            found.append(lot)
    return tuple(found)
