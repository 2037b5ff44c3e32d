"""What a tap at the bench may carry, by its kind; checked before it is kept."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.errors import BadInput
from pourwright.base.field import number, parts, pick, text
from pourwright.base.record import Record
from pourwright.bench import tap_kind as kind
from pourwright.bench.cup_story import MEANT, POURED
from pourwright.heat.history import COLDEST_READ_C, HOTTEST_READ_C, Instrument

# What a phone calls a reading and the closing of the count; the bench makes its own events of them.
READ, COUNT_CLOSED = "cup_read", "count_closed"
# The drip on the card, among the parts of a tint.
CARD = "card"
_MOST_CUPS, _MOST_MOLDS = 500, 20
# What may be read off raw plastic, the room and a cup.
PLASTIC_C, AIR_C, READ_C = (-5.0, 60.0), (-10.0, 45.0), (COLDEST_READ_C, HOTTEST_READ_C)


class Trouble(StrEnum):
    """What went wrong."""

    HOT = "hot"
    SPILLED = "spilled"
    BURNED = "burned"
    OTHER = "other"


class Finish(StrEnum):
    """What a bait still needs."""

    TRIM = "trim"
    EYES = "eyes"
    DIP = "dip"


class CameOut(StrEnum):
    """How a bait came out, in the order of counting."""

    GOOD = "good"
    TRIMMED = "trimmed"
    FLASH = "flash"
    SHORT = "short"
    DENT = "dent"
    BUBBLE = "bubble"
    TORN = "torn"
    OTHER = "other"
    WARMUP = "warmup"


@dataclass(frozen=True, slots=True, kw_only=True)
class Nothing(Record):
    """A tap that says it all by its kind."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Item(Record):
    """Something made ready."""

    item: str = text("What", most=20)


@dataclass(frozen=True, slots=True, kw_only=True)
class Start(Record):
    """Plastic and air before heating; null where nobody read them."""

    plastic_c: float | None = number(
        "Raw plastic reads", low=PLASTIC_C[0], high=PLASTIC_C[1], default=None
    )
    air_c: float | None = number("Room", low=AIR_C[0], high=AIR_C[1], default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Dried(Record):
    """A mold of the pour, or a tool by its record."""

    mold: int | None = number("Mold", low=1, high=_MOST_MOLDS, default=None)
    sort: str = text("Sort of tool", most=20, default="")
    id: str = text("Its record", most=64, default="")

    def check(self) -> None:
        """Refuse nothing and both."""
        if (self.mold is None) == (not self.id):
            raise BadInput("mold", self.mold, "name a mold or a tool, one of the two")


@dataclass(frozen=True, slots=True, kw_only=True)
class OfCup(Record):
    """Something about a cup."""

    cup: int = number("Cup", low=1, high=_MOST_CUPS)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartIn(OfCup):
    """A part weighed into a cup, beside what was wanted."""

    part: str = text("Part", most=20)
    grams: float = number("Scale shows", low=0, high=5000)
    wanted_g: float = number("Wanted", low=0, high=5000)


@dataclass(frozen=True, slots=True, kw_only=True)
class BurstBegun(OfCup):
    """The oven starts."""

    for_s: float = number("Seconds", low=1, high=1200)


@dataclass(frozen=True, slots=True, kw_only=True)
class CupRead(OfCup):
    """A reading while stirring; `after` is the event the screen was made from, where it knew.

    `typed` is the unit in which it was typed, f or c.
    """

    read_c: float = number("It reads", low=READ_C[0], high=READ_C[1])
    instrument: Instrument = pick("Read with", default=Instrument.INFRARED)
    after: str | None = text("Event before it", most=32, default=None)
    typed: str = text("Unit it was typed in", most=1, pattern="[fc]?", default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class CupMeant(OfCup):
    """In which unit a reading was meant."""

    event: str = text("The reading's event", most=32)
    read_c: float = number("It reads", low=READ_C[0], high=READ_C[1])


@dataclass(frozen=True, slots=True, kw_only=True)
class Dripped(OfCup):
    """Drops, or what the bottle lost."""

    part: str = text("Part", most=20)
    drops: int | None = number("Drops", low=1, high=100, default=None)
    lost_g: float | None = number("Bottle lost", low=0.001, high=100, default=None)

    def check(self) -> None:
        """Refuse neither and both."""
        if (self.drops is None) == (self.lost_g is None):
            raise BadInput("drops", self.drops, "give drops or what the bottle lost, one of them")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tinted(OfCup):
    """All of a part is in; the part `card` is the drip on the card."""

    part: str = text("Part", most=20)


@dataclass(frozen=True, slots=True, kw_only=True)
class OfMold(Record):
    """Something about a mold."""

    mold: int = number("Mold", low=1, high=_MOST_MOLDS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled(OfMold):
    """A mold filled from these cups."""

    cups: tuple[int, ...] = parts("Cups", least=1, most=4, low=1, high=_MOST_CUPS)


@dataclass(frozen=True, slots=True, kw_only=True)
class OfCups(Record):
    """One more shot from these cups."""

    cups: tuple[int, ...] = parts("Cups", least=1, most=4, low=1, high=_MOST_CUPS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally(Record):
    """How many came out so."""

    came_out: CameOut = pick("How they came out")
    n: int = number("Count", low=0, high=100_000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Five(Record):
    """Weight of five good baits; null where nobody weighed."""

    five_g: float | None = number("Five weigh", low=0.1, high=3000, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptBack(Record):
    """What goes back to the remelt pot; null where nobody weighed."""

    remelt_g: float | None = number("Rejects and leftover", low=0, high=50_000, default=None)
    sprue_g: float | None = number("Sprue", low=0, high=50_000, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Finished(Record):
    """A piece of finishing is done, or not needed."""

    what: Finish = pick("What")


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung(Record):
    """Where they hang, and for how long."""

    place: str = text("Place", most=60, default="rack")
    for_h: float = number("Hours", low=1, high=720, default=24)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrong(Record):
    """Something went wrong."""

    what: Trouble = pick("What")
    note: str = text("In words", most=500, default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenBack(Record):
    """Which event is taken back."""

    event: str = text("Event", most=32)


BODIES: dict[str, type[Record]] = {
    kind.READY: Item,
    kind.READ_START: Start,
    kind.DRIED: Dried,
    kind.PART_IN: PartIn,
    kind.PARTS_IN: OfCup,
    kind.BEGUN: BurstBegun,
    kind.ENDED: OfCup,
    READ: CupRead,
    MEANT: CupMeant,
    kind.HOT: OfCup,
    kind.DRIPPED: Dripped,
    kind.TINTED: Tinted,
    kind.PRIMED: OfCup,
    kind.FILLED: Filled,
    kind.SOFT: OfMold,
    kind.OPENED: OfMold,
    kind.DIPPED: OfMold,
    kind.MORE: OfCups,
    POURED: OfCup,
    kind.DISCARDED: OfCup,
    kind.TALLIED: Tally,
    kind.WEIGHED_FIVE: Five,
    kind.KEPT_BACK: KeptBack,
    COUNT_CLOSED: Nothing,
    kind.FINISHED: Finished,
    kind.HUNG: Hung,
    kind.TAKEN_OFF: Nothing,
    kind.PUT_AWAY: Nothing,
    kind.TAKEN_UP: Nothing,
    kind.WRONG: Wrong,
    kind.WENT_ON: Nothing,
    kind.TAKEN_BACK: TakenBack,
}
