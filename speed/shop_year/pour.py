"""Tells of one pour at the bench, tap by tap, as a hand that is good at it would have."""

from __future__ import annotations

import random
from typing import Any

from pourwright.actions.cup_fill import cup_fill
from pourwright.actions.oven_history import begun
from pourwright.actions.port import Bench, Event, Ids
from pourwright.actions.pour_setup import pour_setup
from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import after
from pourwright.bench.cup_story import POURED, WORKED, Entry, worked_body
from pourwright.bench.pour_setup import CupTask
from pourwright.bench.tap_body import CameOut
from pourwright.heat.history import Did, Step
from pourwright.shop.lot import COUNTED, SENT_BY, LotEntry, body_of
from pourwright.shop.sheet import Sheet

READS_C = (96.0, 128.0, 151.0, 166.0, 174.0)
REJECTS = ("flash", "short", "dent", "bubble", "torn", "other")


class PourTeller:
    """Keeps the taps of one pour that begins at `at`; gives what was counted."""

    def __init__(
        self, bench: Bench, ids: Ids, rng: random.Random, *, sheet: Sheet, at: str
    ) -> None:
        self._bench, self._ids, self._rng = bench, ids, rng
        self._sheet, self._at = sheet, at
        self._setup = pour_setup(bench, sheet)

    def tell(self) -> LotEntry:
        """From the first look at the jug to the rack."""
        for item in self._setup.ready:
            if item != "start":
                self._tap(kind.READY, 15, item=item)
        self._tap(kind.READ_START, 10, plastic_c=21.0, air_c=22.0)
        for cup in self._setup.cups:
            self._cook(cup)
        shots = self._fill()
        entry = self._count(shots)
        self._tap(kind.FINISHED, 300, what="trim")
        self._tap(kind.HUNG, 30, place="rack", for_h=24.0)
        return entry

    def off_the_rack(self, at: str) -> None:
        """Taken off, at that moment."""
        self._at = at
        self._tap(kind.TAKEN_OFF, 0)

    def _tap(self, kind_of: str, takes_s: float, /, **body: Any) -> str:
        key, sent = self._ids.fresh(), {**body, SENT_BY: "laptop"}
        self._bench.ledger.append(Event(key, f"lot/{self._sheet.code}", kind_of, self._at, sent))
        self._at = after(self._at, round(takes_s))
        return key

    def _cook(self, cup: CupTask) -> None:
        for weighed in cup.weigh:
            told = {
                "part": weighed.key, "grams": weighed.scale_g, "wanted_g": weighed.grams
            }  # fmt: skip
            self._tap(kind.PART_IN, 20, cup=cup.number, **told)
        for n, reads_c in enumerate(READS_C):
            self._round(cup.number, 120.0 if n == 0 else 40.0, reads_c + self._rng.gauss(0, 2))
            if n == 0:
                fill = cup_fill(self._sheet, cup.number)
                self._bench.ledger.append(
                    begun(self._sheet, cup.number, fill, id=self._ids.fresh(), at=self._at)
                )
        self._tap(kind.HOT, 5, cup=cup.number)
        for part in (*(p.key for p in cup.tint), "card"):
            self._tap(kind.TINTED, 15, cup=cup.number, part=part)
        self._tap(kind.PRIMED, 20, cup=cup.number)

    def _round(self, cup: int, for_s: float, reads_c: float) -> None:
        self._tap(kind.BEGUN, 0, cup=cup, for_s=for_s)
        steps = (
            Step(did=Did.HEATED, at_s=0, for_s=for_s),
            Step(did=Did.STIRRED, at_s=for_s + 15),
            Step(did=Did.READ, at_s=for_s + 15, read_c=round(reads_c, 1), while_stirring=True),
        )
        self._tap(WORKED, for_s + 20, **worked_body(cup, Entry("", self._at, steps)))

    def _fill(self) -> int:
        shots, molds = max(c.shots for c in self._setup.cups), len(self._setup.molds)
        drawn = {str(c.number): c.shot_g for c in self._setup.cups if c.shots}
        for shot in range(shots):
            mold = shot % molds + 1
            self._tap(kind.FILLED, 15, mold=mold, drawn_g=drawn)
            self._tap(kind.OPENED, 240, mold=mold)
        for cup in self._setup.cups:
            self._tap(POURED, 5, cup=cup.number)
        return shots

    def _count(self, shots: int) -> LotEntry:
        made = shots * self._setup.cavities
        bad = dict.fromkeys(REJECTS, 0)
        for _ in range(made):
            if self._rng.random() < 0.07:
                bad[self._rng.choice(REJECTS)] += 1
        good = made - sum(bad.values())
        bait_g = _figure(self._sheet, "bait_g")
        for name in (CameOut.GOOD, CameOut.FLASH, CameOut.SHORT):
            n = good if name is CameOut.GOOD else bad[name.value]
            self._tap(kind.TALLIED, 20, came_out=name.value, n=n)
        five_g = round(5 * bait_g * self._rng.gauss(1, 0.01), 1) if good else None
        self._tap(kind.WEIGHED_FIVE, 20, five_g=five_g)
        remelt_g, sprue_g = round(sum(bad.values()) * bait_g, 1), round(shots * 5.2, 1)
        self._tap(kind.KEPT_BACK, 20, remelt_g=remelt_g, sprue_g=sprue_g)
        entry = LotEntry(
            shots=shots, good=good, five_g=five_g, remelt_g=remelt_g, sprue_g=sprue_g,
            minutes=round(self._rng.uniform(50, 110), 1), flash=bad["flash"], short=bad["short"],
            dent=bad["dent"], bubble=bad["bubble"], torn=bad["torn"], other=bad["other"],
        )  # fmt: skip
        self._tap(COUNTED, 10, **body_of(entry))
        return entry


def _figure(sheet: Sheet, key: str) -> float:
    return float(next(f["value"]["typical"] for f in sheet.plan["figures"] if f["key"] == key))
