"""What a fish makes of a look, laid out for a page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.look_to_fish import field_at, seen_by, sight_of
from pourwright.actions.port import Bench
from pourwright.base.band import Band
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.units import UNITS
from pourwright.forecast.fish_sight import FishSight, Plastic
from pourwright.water.fish.species import Species
from pourwright.water.fish.surroundings import DIM_LX
from pourwright.water.fish.told_apart import Telling
from pourwright.water.seen import SightAnswer
from pourwright.web.look_glance import water_asked
from pourwright.web.look_wish import LookWish, Waters
from pourwright.web.show import Settings, exactly, opened, shown


@dataclass(frozen=True, slots=True)
class Told:
    """One difference: in words, and in steps of what the eye can just tell."""

    words: str
    steps: str


@dataclass(frozen=True, slots=True)
class FishLine:
    """A piece of plastic against the water, or one against another; `person` is who looks level."""

    name: str
    color: Told
    brightness: Told
    person: Told | None = None


@dataclass(frozen=True, slots=True)
class FishView:
    """What a fish makes of some plastic in a water; `refused` says why it is not known."""

    title: str
    lines: tuple[FishLine, ...]
    pairs: tuple[FishLine, ...]
    notes: tuple[str, ...]
    refused: str = ""


def water_words(bench: Bench, water: Waters, settings: Settings) -> str:
    """The water in words: its look, and where a white disk goes out of sight in it."""
    asked = water_asked(bench, water)
    disk = exactly(asked.secchi_m, UNITS["m"], settings) if asked.secchi_m else ""
    return f"{asked.kind.value} water{f', white disk gone at {disk}' if disk else ''}"


def fish_view(
    bench: Bench,
    wish: LookWish,
    pieces: Mapping[str, Plastic],
    settings: Settings,
    *,
    pairs: Mapping[tuple[str, str], str] | None = None,
) -> FishView:
    """The pieces by name; `pairs` of names with the words that stand over them.

    Where there are no pairs it is also told from how far a person sees each piece.
    """
    wanted = pairs or {}
    depth, away = (exactly(m, UNITS["m"], settings) for m in (wish.depth_m, wish.distance_m))
    title = (
        f"To a {wish.fish.value}, in {water_words(bench, wish.water, settings)}, {depth} down, "
        f"from {away}"
    )
    try:
        water = water_asked(bench, wish.water)
        field = field_at(water, wish.depth_m)
        seen = seen_by(wish.fish, pieces, tuple(wanted), field, wish.distance_m)
    except (BadInput, NoAnswer) as error:
        return FishView(title, (), (), (), _said(error, wish.fish))

    def person(piece: Plastic) -> Told:
        return _person(sight_of(water, wish.depth_m, piece), settings)

    return FishView(
        title,
        tuple(
            _line(opened(name), told, None if wanted else person(pieces[name]))
            for name, told in seen.on_water.items()
        ),
        tuple(_line(wanted[pair], told) for pair, told in seen.pairs.items()),
        _notes(seen),
    )


def _said(error: BadInput | NoAnswer, fish: Species) -> str:
    return f"{opened(fish.value)} {error.why}" if isinstance(error, BadInput) else str(error)


def _line(name: str, told: Telling, person: Told | None = None) -> FishLine:
    return FishLine(
        name,
        Told(told.color_words, _steps(told.color_jnd)),
        Told(told.brightness_words, _steps(told.brightness_jnd)),
        person,
    )


def _steps(band: Band) -> str:
    return f"{band.typical:.1f} steps, {band.low:.1f} to {band.high:.1f}"


def _person(seen: SightAnswer, settings: Settings) -> Told:
    far = shown(seen.range_m, UNITS["m"], settings)
    return Told(f"to about {far.value} ({far.range})", seen.shows.value)


def _notes(seen: FishSight) -> tuple[str, ...]:
    if not seen.on_water and not seen.pairs:
        return ("Night down there, even at noon: no light is left that cones could use.",)
    dim = seen.light_lx < DIM_LX
    dusk = "Dusk down there even at noon: cones tire, and what they still tell is rougher yet."
    return (dusk,) if dim else ()
