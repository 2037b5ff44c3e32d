"""How a look is looked at: what the form above a picture asks, and what an address carries."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from urllib.parse import urlencode

from pourwright.base.field import number, pick, reference
from pourwright.base.record import Record
from pourwright.forecast.picture.picture_input import Side
from pourwright.shop.mold import Bait
from pourwright.water.fish.species import Species
from pourwright.web.form import UNITS_NAME, Parsed, Typed, parsed, texts_of
from pourwright.web.show import Settings

FOOT_M = 0.3048


class Where(StrEnum):
    """Where a bait is looked at."""

    HAND = "in the hand"
    LIGHT = "held to the light"
    WATER = "under water"


class Ground(StrEnum):
    """The sheet under a bait in the hand."""

    WHITE = "white card"
    GRAY = "gray bench"
    BLACK = "black card"


class Lamp(StrEnum):
    """The light a bait in the hand is looked at in."""

    DAYLIGHT = "daylight"
    FILAMENT = "filament lamp"
    OFFICE = "office lamp"
    LED = "white LED"
    SHED = "my shed light"


class Waters(StrEnum):
    """The water a bait hangs in."""

    MINE = "my water"
    CLEAR = "clear"
    GREEN = "green"
    TEA = "tea-stained"
    MUDDY = "muddy"


@dataclass(frozen=True, slots=True, kw_only=True)
class LookWish(Record):
    """A bait and how it is looked at."""

    bait: str = reference("Bait", refers=Bait.key, default="")
    where: Where = pick("Where it is looked at", default=Where.HAND)
    side: Side = pick("From which side", default=Side.FLANK)
    ground: Ground = pick("Lying on", default=Ground.WHITE)
    lamp: Lamp = pick("Light", default=Lamp.DAYLIGHT)
    water: Waters = pick("Water", default=Waters.MINE)
    depth_m: float = number("Depth of the bait", low=0.1, high=20, default=5 * FOOT_M)
    distance_m: float = number("Away from the eye", low=0.05, high=10, default=FOOT_M)
    fish: Species = pick("Fish", default=Species.LARGEMOUTH_BASS)


NAMES = frozenset(LookWish.__dataclass_fields__)


def wish_texts(sent: Mapping[str, str], settings: Settings) -> Typed:
    """The form as it was sent; whatever was not sent stands as on a fresh page."""
    fresh = texts_of(LookWish, None, settings.system)
    return fresh | {k: v for k, v in sent.items() if k in NAMES or k == UNITS_NAME}


def wish_of(sent: Mapping[str, str], settings: Settings) -> Parsed:
    """What was sent, as a wish or as problems."""
    return parsed(LookWish, wish_texts(sent, settings), settings)


def query(typed: Typed) -> str:
    """A form as an address carries it."""
    return urlencode({k: v for k, v in typed.items() if k in NAMES or k == UNITS_NAME})
