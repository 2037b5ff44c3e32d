"""A stored mold with its cavity and feed, and the push that a person asks about."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pourwright.actions.port import Bench, Stored
from pourwright.actions.shape_of import body_of
from pourwright.base.errors import BadInput, NotFound
from pourwright.base.field import number, pick, reference, unmeasured
from pourwright.base.record import Record
from pourwright.fill.push import Push
from pourwright.forecast.cavity_count import most_cavities
from pourwright.forecast.mold_feed import FeedSizes
from pourwright.forecast.mold_way import Cavity, cavity_of, feed_of, way_of
from pourwright.matter.mold_material import MOLD_C
from pourwright.shop.material import Plastic
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.tool import Injector

MOST_MOLDS = 8
WIDEST_PUSH_N = 5000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class MoldEntry(Record):
    """One push into the mold, and a shot that was timed, if one was."""

    plastic: str = reference("Plastic", refers="plastic", default="")
    injector: str = reference("Injector", refers="injector", default="")
    push: Push = pick("Who or what pushes", default=Push.ONE_HAND)
    push_n: float | None = number(
        "Push on the plunger, if a bathroom scale told it", low=5, high=WIDEST_PUSH_N, default=None
    )
    melt_c: float = number("Plastic when the push begins", low=100, high=220, default=165)
    mold_c: float | None = unmeasured(
        "Mold", low=0, high=120, typical=MOLD_C.ends,
        measure=MOLD_C.measure,
    )  # fmt: skip
    molds: int = number("Molds shot from one load", low=1, high=MOST_MOLDS, default=1)
    pause_s: float = number("From one push to the next", low=1, high=300, default=15)
    fill_s: float | None = number(
        "Stopwatch: first push until the mold was full", low=0.1, high=60, default=None
    )

    def check(self) -> None:
        """A lever or ram names its force, a hand pour has none; a mold is colder than plastic."""
        if self.push is Push.RAM and self.push_n is None:
            raise BadInput("push_n", None, "is required for a lever or ram")
        if self.push is Push.POUR and self.push_n is not None:
            raise BadInput("push_n", self.push_n, "goes with a plunger, not a hand pour")
        if self.mold_c is not None and self.mold_c >= self.melt_c:
            raise BadInput("mold_c", self.mold_c, "must be below the plastic's temperature")


@dataclass(frozen=True, slots=True, eq=False)
class MoldCase:
    """A mold of the bench; its cavity is none where its bait has no shape."""

    stored: Stored
    mold: Mold
    bait: Bait
    cavity: Cavity | None

    @property
    def forecast(self) -> bool:
        """Whether one push into so many cavities of a known shape can be forecast."""
        return self.cavity is not None and self.mold.cavities <= most_cavities(self.cavity.slices)

    @property
    def known(self) -> Cavity:
        """The cavity. Raises: NotFound where the bait has no shape."""
        if self.cavity is None:
            raise NotFound(f"{self.bait.name!r} has no shape yet")
        return self.cavity

    @property
    def known_feed(self) -> FeedSizes:
        """The feed to such cavities. Raises: NotFound where the bait has no shape."""
        return feed_of(self.known, self.mold.feed)

    def fields(self) -> dict[str, Any]:
        """What a question about filling takes of the mold. Raises: NotFound without a shape."""
        return {
            "chain": way_of(self.known, self.known_feed, self.mold.cavities),
            "branches": self.known.branches,
            "cavities": self.mold.cavities,
            "material": self.mold.material,
            "air": self.mold.air,
        }


def mold_case(bench: Bench, id: str) -> MoldCase:
    """A mold by its id. Raises: NotFound."""
    stored = bench.records.get(Mold.key, id)
    mold = stored.noun
    if not isinstance(mold, Mold):
        raise NotFound("there is no such mold")
    bait = bench.records.get(Bait.key, mold.bait).noun
    if not isinstance(bait, Bait):
        raise NotFound("there is no such bait")
    body = body_of(bench, bait)
    return MoldCase(stored, mold, bait, cavity_of(body) if body else None)


def first_entry(bench: Bench, mold: Mold) -> MoldEntry:
    """The push a fresh page asks about: the first plastic and injector of the bench."""
    plastics, injectors = bench.records.all(Plastic.key), bench.records.all(Injector.key)
    by_hand = mold.open_face or not injectors
    return MoldEntry(
        plastic=plastics[0].id if plastics else "",
        injector="" if by_hand else injectors[0].id,
        push=Push.POUR if by_hand else Push.ONE_HAND,
        molds=1 if by_hand else min(mold.owned, MOST_MOLDS),
    )


def push_fields(bench: Bench, push: Push, push_n: float | None, injector: str) -> dict[str, Any]:
    """What a question about filling takes of hand and injector."""
    bore = injector_of(bench, injector)
    return {
        "push": push,
        "push_n": push_n,
        "bore_mm": bore.bore_mm if bore and push is not Push.POUR else None,
    }


def injector_of(bench: Bench, id: str) -> Injector | None:
    """An injector by its id; none where none was picked. Raises: NotFound."""
    noun = bench.records.get(Injector.key, id).noun if id else None
    return noun if isinstance(noun, Injector) else None


def plastic_of(bench: Bench, id: str) -> Plastic | None:
    """A plastic by its id; none where none was picked. Raises: NotFound."""
    noun = bench.records.get(Plastic.key, id).noun if id else None
    return noun if isinstance(noun, Plastic) else None
