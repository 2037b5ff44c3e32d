"""The two forms of a look's page: how it is looked at, and where its layers part."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from pourwright.actions.port import Bench
from pourwright.base.units import System
from pourwright.body.division import Place, stack_of
from pourwright.body.split import Line, Split
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait
from pourwright.web.form import UNITS_NAME, Parsed, Typed, parsed, texts_of
from pourwright.web.look_slide import Slide, Track, slide
from pourwright.web.look_wish import LookWish
from pourwright.web.show import Settings
from pourwright.web.widget import Box, Choice, Choices, form_view, word

SPLIT = "split."
# Sliders end here; a box takes more.
_DEPTH_M, _DISTANCE_M = 6.1, 3.05
_LINES: Mapping[str, Track] = {
    "wave_mm": Track(label="Swing of the line", most=5.0),
    "line_height": Track(label="Line under the back, share of the height"),
    "belly_height": Track(label="Line over the belly, share of the height"),
    "vein_height": Track(label="Middle of the vein, share of the height"),
    "vein_thick_mm": Track(label="Vein, how high", most=12.0),
    "vein_wide_mm": Track(label="Vein, how wide", most=30.0),
    "core_share": Track(label="Core, share of the thickness"),
}


@dataclass(frozen=True, slots=True)
class WishForm:
    """How a look is looked at; boxes by the names of a wish's fields."""

    boxes: Mapping[str, Box]
    depth: Slide
    distance: Slide
    units: str
    problem: str


@dataclass(frozen=True, slots=True)
class SplitForm:
    """Where the layers of a look part."""

    lines: tuple[Choice, ...]
    picked: str
    slides: tuple[Slide, ...]
    wave: Slide
    units: str
    problem: str


def baits_with_shape(bench: Bench) -> tuple[Choice, ...]:
    """Every bait that can be pictured."""
    found = ((s.id, s.noun) for s in bench.records.all(Bait.key))
    return tuple(
        Choice(key, noun.name)
        for key, noun in found
        if isinstance(noun, Bait) and (noun.shape is not None or noun.own_shape)
    )


def wish_form(
    typed: Typed, problems: Mapping[str, str], baits: tuple[Choice, ...], settings: Settings
) -> WishForm:
    """The form of a wish; only baits with a shape may be picked."""
    view = form_view(
        LookWish, typed, problems=problems, settings=settings,
        references=lambda _: (Choices("Baits", baits),),
    )  # fmt: skip
    boxes = {w.path: w for w in view.widgets if isinstance(w, Box)}
    depth, distance = (
        slide(LookWish, name, typed, settings, Track(most=most, problem=problems.get(name, "")))
        for name, most in (("depth_m", _DEPTH_M), ("distance_m", _DISTANCE_M))
    )
    problem = next((f"{p.label}: {p.why}" for p in view.problems), "")
    return WishForm(boxes, depth, distance, view.units, problem)


def split_form(
    look: Look, typed: Typed, laid: Mapping[str, float], problem: str, settings: Settings
) -> SplitForm | None:
    """The form of a look's lines; `laid` is where they lie now. None where nothing parts."""
    names = _measures(tuple(layer.place for layer in look.layers))
    if not names:
        return None

    def line(name: str) -> Slide:
        track = replace(_LINES[name], rests_at=laid.get(name))
        return slide(Split, SPLIT + name, typed, settings, track)

    return SplitForm(
        lines=tuple(Choice(kind.value, word(kind.value)) for kind in Line),
        picked=typed.get(f"{SPLIT}line", ""),
        slides=tuple(map(line, names)),
        wave=line("wave_mm"),
        units=settings.system.value,
        problem=problem,
    )


def split_texts(look: Look, system: System) -> Typed:
    """The lines of a look as their form shows them."""
    return {SPLIT + path: text for path, text in texts_of(Split, look.split, system).items()}


def split_sent(sent: Mapping[str, str], settings: Settings) -> Parsed | None:
    """The lines as a form sent them; none where it sent none."""
    typed = {k.removeprefix(SPLIT): v for k, v in sent.items() if k.startswith(SPLIT)}
    if not typed:
        return None
    if typed.get("line") == Line.STRAIGHT:
        # Its slider is put out of sight, with what it last held.
        typed.pop("wave_mm", None)
    return parsed(
        Split, typed | {UNITS_NAME: sent.get(UNITS_NAME, settings.system.value)}, settings
    )


def _measures(places: tuple[Place, ...]) -> tuple[str, ...]:
    """The measures that mean something for these layers."""
    stack = stack_of(tuple(p.value for p in places))
    found: tuple[str, ...] = ("line_height", "belly_height")[: len(stack) - 1]
    if Place.VEIN in places and len(places) > 1:
        found += ("vein_height", "vein_thick_mm", "vein_wide_mm")
    return (*found, "core_share") if Place.CORE in places else found
