"""The pour of a sheet as the ledger tells it, judged by physics: hot cups, firm baits."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from pourwright.actions.oven_history import happenings
from pourwright.actions.port import Bench
from pourwright.actions.pour_setup import pour_setup
from pourwright.base.band import Band
from pourwright.base.errors import PourwrightError
from pourwright.base.record import from_json
from pourwright.bench.clock import after, seconds_between
from pourwright.bench.cup_story import Happening
from pourwright.bench.fold_pour import pour_of
from pourwright.bench.hand import SOFT_MORE_S, Due
from pourwright.bench.pour import MoldUse, Pour
from pourwright.bench.pour_setup import PourSetup
from pourwright.forecast.mold_in_use import Use
from pourwright.forecast.request import BatchRequest
from pourwright.plan.opening import opening, ring_s
from pourwright.shop.sheet import Sheet

# A bait soft for longer than that was forgotten, or its clock was: estimate.
MOST_LONGER = 2.0


@dataclass(frozen=True, slots=True)
class Firm:
    """When a full mold may be opened, and how sure that is.

    `longer` is by how much it was stretched because a bait of this pour was still soft.
    """

    mold: int
    filled: str
    at: str
    after_s: Band
    longer: float = 1.0

    @property
    def wait_s(self) -> float:
        """From its filling to when it may be opened."""
        return max(1.0, seconds_between(self.filled, self.at))

    @property
    def due(self) -> Due:
        """The mold and its time."""
        return Due(self.mold, self.at)


@dataclass(frozen=True, slots=True)
class ToldPour:
    """A sheet, what it asks for, what was done, and when each full mold is due.

    `newest` is the place of its newest event in the ledger; `request` is what the sheet was
    computed from, null where its version's cannot be read.
    """

    sheet: Sheet
    setup: PourSetup
    pour: Pour
    happenings: tuple[Happening, ...]
    firm: tuple[Firm, ...]
    newest: int
    request: BatchRequest | None

    @property
    def due(self) -> tuple[Due, ...]:
        """The full molds and their times."""
        return tuple(f.due for f in self.firm)


def told_pour(bench: Bench, sheet: Sheet) -> ToldPour:
    """Where the pour of a sheet stands. Raises: Conflict for a sheet that cannot guide one."""
    setup = pour_setup(bench, sheet)
    told = happenings(bench, sheet.code)
    pour = pour_of(setup, told)
    newest = bench.ledger.newest(f"lot/{sheet.code}")
    request = _request(sheet)
    firm = _firm_times(_Molds(sheet, setup, request), pour)
    return ToldPour(sheet, setup, pour, told, firm, newest, request)


@dataclass(frozen=True, slots=True)
class _Molds:
    """What opening times are reckoned from."""

    sheet: Sheet
    setup: PourSetup
    request: BatchRequest | None


def _firm_times(molds: _Molds, pour: Pour) -> tuple[Firm, ...]:
    """When each full mold may be opened, by how each was filled and emptied in this pour.

    A mold found soft waits a minute more from then; the molds after it wait longer in proportion.
    """
    longer = _longer(molds, pour)
    found = []
    for use in pour.full:
        band = _firm_after(molds, pour, use).scaled(longer)
        at = after(use.filled, round(ring_s(band)))
        if use.soft_at:
            at = max(at, after(use.soft_at[-1], SOFT_MORE_S))
        found.append(Firm(use.mold, use.filled, at, band, longer))
    return tuple(found)


def with_pour(told: ToldPour, pour: Pour) -> ToldPour:
    """The same sheet after something that may yet happen."""
    firm = _firm_times(_Molds(told.sheet, told.setup, told.request), pour)
    return dataclasses.replace(told, pour=pour, firm=firm)


def _request(sheet: Sheet) -> BatchRequest | None:
    try:
        return from_json(BatchRequest, sheet.request)
    except PourwrightError:
        return None


def _longer(molds: _Molds, pour: Pour) -> float:
    """By how much the baits of this pour were slower than reckoned, as far as they were soft."""
    found = 1.0
    for use in pour.uses:
        if use.soft_at:
            waited = seconds_between(use.filled, use.soft_at[-1]) + SOFT_MORE_S
            found = max(found, waited / ring_s(_firm_after(molds, pour, use)))
    return min(found, MOST_LONGER)


def _firm_after(molds: _Molds, pour: Pour, use: MoldUse) -> Band:
    if molds.request is None:
        return _printed(molds.sheet)
    before = [u for u in pour.uses if u.mold == use.mold]
    uses = tuple(
        Use(
            seconds_between(before[0].filled, u.filled),
            seconds_between(before[0].filled, u.opened) if u is not use else None,
        )
        for u in before[: before.index(use) + 1]
    )
    shot_g = sum({c.layer: c.shot_g for c in molds.setup.cups}.values())
    return opening(molds.request, shot_g, uses)


def _printed(sheet: Sheet) -> Band:
    """The time the sheet carries, where its version's request cannot be reckoned anew."""
    value = next(f["value"] for f in sheet.plan["figures"] if f["key"] == "open_s")
    return Band(value["low"], value["typical"], value["high"])
