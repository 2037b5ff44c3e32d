"""A whole year of the invented shop, told into an empty store."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pourwright import wire
from pourwright.actions.freeze_sheet import sheet_of
from pourwright.actions.plan_batch import Planned, plan_batch
from pourwright.actions.port import Bench, World
from pourwright.actions.post_pour import post_pour
from pourwright.actions.pour_day_begin import beginning, keep_laid_out, needs_to_add
from pourwright.actions.pour_day_need import pour_needs
from pourwright.shop.pour_day import PourBatch, PourDay
from speed.shop_year.clock import CountedIds, ToldClock, moment
from speed.shop_year.nouns import draft, shop_nouns
from speed.shop_year.pour import PourTeller
from speed.shop_year.scale import Scale
from speed.shop_year.shared import shared
from speed.shop_year.trade import Trade

DAYS = 360
# Days a bait hangs, an order is given, and one that cannot be served is kept.
HANGS, PROMISED, PATIENCE = 1, 10, 28
# Bags are filled and parcels sent every so many days.
EVERY = 3
MOST_BATCHES_LAID = 8


def tell_year(store: Path, scale: Scale) -> World:
    """Fill an empty store; gives its world, whose clock stands at the end of the year."""
    clock, ids = ToldClock(moment(scale.year, 0, 6)), CountedIds()
    told = wire.world(store, clock=clock, ids=ids)
    with told.bench() as bench:
        _Year(shared(told, bench), bench, scale, clock, ids).tell()
        bench.commit()
    return told


class _Year:
    def __init__(
        self, world: World, bench: Bench, scale: Scale, clock: ToldClock, ids: CountedIds
    ) -> None:
        self._world, self._bench, self._scale = world, bench, scale
        self._clock, self._ids = clock, ids
        self._rng = random.Random(scale.seed)  # noqa: S311  a seeded year
        self._trade = Trade(world, self._rng)
        self._plans: list[Planned] = []
        self._hanging: list[tuple[int, PourTeller]] = []
        self._waiting: list[tuple[int, str]] = []
        self._kinds: list[tuple[str, str]] = []

    def tell(self) -> None:
        """The plans of all looks, then day by day: pour, take down and bag, sell and buy again.

        A plan is made before the first pour: one made later would learn from every cup before.
        """
        for key, noun in shop_nouns(self._scale, self._rng).items():
            self._bench.records.save(noun.key, key, noun, expected_version=0)
        self._trade.buyers()
        self._trade.buy()
        self._plans = [self._planned(look) for look in range(self._scale.looks)]
        pours, orders = _spread(self._scale.lots), _spread(self._scale.orders)
        for day in range(DAYS):
            self._clock.at = moment(self._scale.year, day, 7)
            if day % 14 == 0 and day:
                self._trade.buy()
            for n in range(next(pours)):
                self._pour(day, n)
            self._take_down(day)
            for _ in range(next(orders) if self._kinds else 0):
                due = moment(self._scale.year, day + PROMISED, 0)[:10]
                key = self._trade.order(self._kinds, self._today, due)
                self._waiting.append((day, key))
            self._send(day)
        self._lay_out()

    @property
    def _today(self) -> str:
        return self._clock.at[:10]

    def _planned(self, look: int) -> Planned:
        mold = look % self._scale.molds
        return plan_batch(self._bench, draft(f"year-mold-{mold}", f"year-look-{look}", 40))

    def _pour(self, day: int, n: int) -> None:
        look = self._rng.randrange(self._scale.looks)
        mold = look % self._scale.molds
        self._clock.at = moment(self._scale.year, day, 8 + 3 * n)
        number = self._bench.sheets.next_number()
        sheet = sheet_of(self._plans[look], number=number, at=self._clock.at)
        self._bench.sheets.add(sheet)
        teller = PourTeller(self._bench, self._ids, self._rng, sheet=sheet, at=self._clock.at)
        entry = teller.tell()
        post_pour(self._bench, sheet, entry, key=self._ids.fresh(), at=self._clock.at)
        self._hanging.append((day, teller))
        kind = (f"year-bait-{mold}", f"year-look-{look}")
        self._kinds += [] if kind in self._kinds else [kind]

    def _take_down(self, day: int) -> None:
        self._clock.at = moment(self._scale.year, day, 17)
        due = [it for it in self._hanging if it[0] + HANGS <= day]
        for hung in due:
            hung[1].off_the_rack(self._clock.at)
            self._hanging.remove(hung)
        if day % EVERY == 0:
            self._trade.bag()

    def _send(self, day: int) -> None:
        if day % EVERY:
            return
        self._clock.at = moment(self._scale.year, day, 19)
        free = self._trade.free()
        for taken, key in tuple(self._waiting):
            left = self._trade.serve(key, self._today, free)
            if not left and day - taken > PATIENCE:
                self._trade.give_up(key)
                left = True
            if left:
                self._waiting.remove((taken, key))

    def _lay_out(self) -> None:
        """The next pour day, for the orders that are still open."""
        start, needs = beginning(self._bench), needs_to_add(pour_needs(self._bench), ())
        batches = tuple(
            PourBatch(mold=it.mold, look=it.kind.look, count=it.baits, due_on=it.due_on)
            for it in needs[:MOST_BATCHES_LAID]
        )
        if batches:
            on = moment(self._scale.year, DAYS, 0)[:10]
            tools: dict[str, Any] = {**start.picked, "kits": start.kits}
            day = PourDay(name="Next pour day", day=on, batches=batches, **tools)
            keep_laid_out(self._world, day, None, expected_version=0)


def _spread(count: int) -> Iterator[int]:
    """How many of so many fall on each day."""
    for day in range(DAYS):
        yield count * (day + 1) // DAYS - count * day // DAYS
