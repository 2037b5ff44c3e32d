"""Pours told event by event at chosen times, as the bench keeps them; every number is invented."""

from __future__ import annotations

from typing import Any

from pourwright.actions.port import Event, World
from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import after, before
from pourwright.bench.cup_story import POURED, WORKED, Entry, worked_body
from pourwright.bench.pour_setup import PourSetup
from pourwright.heat.history import Did, Step
from pourwright.shop.lot import COUNTED, LotEntry, body_of
from pourwright.shop.sheet import Sheet

BURST_S = 60
ENTRY = LotEntry(shots=4, good=13, trimmed=3, short=1, torn=2, minutes=55)


class Teller:
    """Tells of one lot: what happened so many seconds ago, newest last."""

    def __init__(self, world: World, sheet: Sheet, *, by: str | None = "laptop") -> None:
        self.world, self.sheet, self.by = world, sheet, by
        self.now = world.clock.now()

    def tell(self, ago_s: float, kind_of: str, /, **body: Any) -> str:
        """Keep an event; the answer is its id."""
        sent = {} if self.by is None or "by" in body else {"by": self.by}
        key = self.world.ids.fresh()
        at = before(self.now, round(ago_s))
        with self.world.bench() as bench:
            subject = f"lot/{self.sheet.code}"
            bench.ledger.append(Event(key, subject, kind_of, at, {**body, **sent}))
            bench.commit()
        return key

    def read(self, ago_s: float, cup: int, read_c: float, *, heated_s: float = BURST_S) -> str:
        """A round of a cup that ended so long ago."""
        steps = (
            Step(did=Did.HEATED, at_s=0, for_s=heated_s),
            Step(did=Did.STIRRED, at_s=heated_s + 15),
            Step(did=Did.READ, at_s=heated_s + 15, read_c=read_c, while_stirring=True),
        )
        began = ago_s + heated_s + 15
        entry = Entry("", after(self.now, -round(began)), steps)
        return self.tell(began, WORKED, **worked_body(cup, entry))

    def ready(self, ago_s: float, setup: PourSetup) -> None:
        """Everything made ready and weighed into the first cup."""
        for item in setup.ready:
            if item != "start":
                self.tell(ago_s, kind.READY, item=item)
        self.tell(ago_s, kind.READ_START, plastic_c=21.0, air_c=22.0)
        for part in setup.cups[0].weigh:
            self.tell(ago_s, kind.PART_IN, cup=1, part=part.key, grams=part.scale_g,
                      wanted_g=part.grams)  # fmt: skip

    def hot(self, ago_s: float, setup: PourSetup) -> None:
        """The first cup ready to pour from."""
        self.ready(ago_s + 400, setup)
        self.tell(ago_s + 300, kind.BEGUN, cup=1, for_s=BURST_S)
        self.read(ago_s + 200, 1, 172.0)
        self.tell(ago_s + 100, kind.HOT, cup=1)
        for part in (*(p.key for p in setup.cups[0].tint), "card"):
            self.tell(ago_s + 50, kind.TINTED, cup=1, part=part)
        self.tell(ago_s, kind.PRIMED, cup=1)

    def fill(self, ago_s: float, mold: int) -> str:
        """A mold filled from the first cup."""
        shot_g = self.sheet.plan["cups"][0]["total_g"] / self.sheet.plan["cups"][0]["shots"]
        return self.tell(ago_s, kind.FILLED, mold=mold, drawn_g={"1": round(shot_g, 2)})

    def finish(self, ago_s: float, setup: PourSetup, entry: LotEntry = ENTRY) -> None:
        """Poured, counted and trimmed, ready to hang."""
        self.hot(ago_s + 1000, setup)
        self.fill(ago_s + 900, 1)
        self.tell(ago_s + 600, kind.OPENED, mold=1)
        for cup in setup.cups:
            self.tell(ago_s + 500, POURED, cup=cup.number)
        self.tell(ago_s + 300, COUNTED, **body_of(entry))
        for what in ("trim", "eyes", "dip"):
            self.tell(ago_s + 100, kind.FINISHED, what=what)

    def hang(self, ago_s: float, *, for_h: float = 24.0, place: str = "rack") -> str:
        """Hung so long ago."""
        return self.tell(ago_s, kind.HUNG, place=place, for_h=for_h)
