"""How a bait sits: free in the water, and hung on its line."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.field import number, out, parts
from pourwright.base.source import estimate, published
from pourwright.blend.bait import Bait, BaitInput, drawn_bait
from pourwright.blend.rig import Load, Weight, lead_notes, loads

_PLACE = Doubt(
    "how far along hook and weights sit", Band(-0.0015, 0, 0.0015), "measure from the nose"
)
_HEIGHT = Doubt(
    "how high hook and weights sit", Band(-0.001, 0, 0.001), "measure from the center line"
)
# Bubbles and settled salt shift the mass in a bait of one stuff by that much; estimate.
_SHIFT = Doubt("where the bait's mass lies in it", Band(-0.0003, 0, 0.0003), "")
# Closer than that, nothing brings a bait back from a twitch.
_WEAK_M = 3e-4
_LEVEL_DEG, _TURNED_DEG = 10.0, 90.0


class Posture(StrEnum):
    """How it sits, in words."""

    LEVEL = "level"
    NOSE_DOWN = "nose down"
    NOSE_UP = "nose up"
    TURNED_OVER = "turned over"
    ANY = "any way"


@dataclass(frozen=True, slots=True, kw_only=True)
class HangInput(BaitInput):
    """Centers of a bait, its rig, and where the line is tied."""

    buoyancy_at_mm: float = number(
        "Middle of the bait's volume, from the nose, as body.measure gives it", low=0, high=600
    )
    buoyancy_up_mm: float = number("The same above the center line", low=-100, high=100, default=0)
    mass_at_mm: float | None = number(
        "Middle of the bait's mass, from the nose; left out, that of its volume",
        low=0, high=600, default=None,
    )  # fmt: skip
    mass_up_mm: float | None = number(
        "The same above the center line; left out, that of its volume",
        low=-100, high=100, default=None,
    )  # fmt: skip
    weights: tuple[Weight, ...] = parts("Hooks and weights", most=6)
    tie_at_mm: float = number(
        "Where the line is tied, from the nose", low=-150, high=700, default=0
    )
    tie_up_mm: float = number("The same above the center line", low=-150, high=150, default=0)


@dataclass(frozen=True, slots=True)
class HangAnswer:
    """Angles of the center line; nose under the tail is positive."""

    free: Posture = out("How it sits free in the water")
    free_deg: Band | None = out("Nose down by, free in the water; null if nothing rights it")
    on_line: Posture = out("How it hangs on its line in the water")
    on_line_deg: Band | None = out("Nose down by, on the line; null if nothing rights it")
    apart_mm: Band = out("How far apart the middles of mass and of buoyancy are")
    net_g: Band = out("What it weighs in this water; negative if it floats")
    notes: tuple[str, ...] = out("What dominates, what would narrow it, cautions")


@dataclass(frozen=True, slots=True)
class _Pull:
    """A mass, carried or displaced, and its moment about nose and center line: along, up."""

    kg: Array
    moment: Array

    @property
    def middle(self) -> Array:
        return self.moment / self.kg


@calculation(
    "swim.hang",
    purpose="how it sits",
    sources=(
        published("Archimedes, On Floating Bodies, book I: weight and buoyancy on one upright"),
        published("Varignon (1725), moments about the tie point"),
        estimate("at rest: no line drag, no current, a bait that does not bend"),
    ),
    example={
        "mass_g": 11.9, "density_g_ml": 1.06, "buoyancy_at_mm": 44, "buoyancy_up_mm": -1,
        "weights": [{"name": "jig hook", "mass_g": 5.3, "metal": "tungsten", "at_mm": 6,
                     "up_mm": -3}],
        "tie_at_mm": 4, "tie_up_mm": 8,
    },
)  # fmt: skip
def hang(inputs: HangInput) -> HangAnswer:
    """At rest the middle of mass lies under that of buoyancy, or under and beside the line.

    Raises: BadInput for figures that make no bait.
    """
    draws = Draws(seed=inputs.seed)
    v = drawn(draws, inputs)
    bait, rig = drawn_bait(draws, inputs, v["water_c"]), loads(draws, inputs.weights)
    heavy, light = _weight(draws, inputs, bait, rig), _lift(draws, inputs, bait, rig)
    apart = heavy.middle - light.middle
    pull = (heavy.kg - light.kg) * _tie(inputs) - (heavy.moment - light.moment)
    free, line = nose_down_deg(-apart), nose_down_deg(pull)
    rests = float(np.hypot(*apart[:, 0])) > _WEAK_M
    held = rests or float(np.hypot(*pull[:, 0])) > _WEAK_M * float(heavy.kg[0])
    angles = {"free_deg": free} if rests else {}
    return HangAnswer(
        free=_posture(free, known=rests),
        free_deg=draws.band(free) if rests else None,
        on_line=_posture(line, known=held),
        on_line_deg=draws.band(line) if held else None,
        apart_mm=draws.band(1000 * np.hypot(*apart)),
        net_g=draws.band(1000 * (heavy.kg - light.kg)),
        notes=(
            *left_out(inputs),
            *width_notes(draws, angles),
            *_cautions(free, float(heavy.kg[0] - light.kg[0]), rests=rests),
            *lead_notes(inputs.weights),
        ),
    )


def nose_down_deg(up: Array) -> Array:
    """How far the nose hangs under the tail where `up` (along the body, toward its back) is up.

    Turns over at 90 and more; draws are told on the same side as the first, typical one.
    """
    angle = np.degrees(np.arctan2(up[0], up[1]))
    return np.asarray(angle[0] + (angle - angle[0] + 180) % 360 - 180)


def _weight(draws: Draws, inputs: HangInput, bait: Bait, rig: tuple[Load, ...]) -> _Pull:
    own = np.array(
        [
            _either(inputs.mass_at_mm, inputs.buoyancy_at_mm) / 1000 + _drawn(draws, "along"),
            _either(inputs.mass_up_mm, inputs.buoyancy_up_mm) / 1000 + _drawn(draws, "up"),
        ]
    )
    places = _places(draws, rig)
    moment = bait.mass_kg * own
    for one, place in zip(rig, places, strict=True):
        moment = moment + one.mass_kg * place
    return _Pull(bait.mass_kg + sum(one.mass_kg for one in rig), moment)


def _lift(draws: Draws, inputs: HangInput, bait: Bait, rig: tuple[Load, ...]) -> _Pull:
    at = np.array([[inputs.buoyancy_at_mm / 1000], [inputs.buoyancy_up_mm / 1000]])
    pushed, moment = bait.pushed_kg, bait.pushed_kg * at
    for one, place in zip(rig, _places(draws, rig), strict=True):
        own = bait.water_kg_m3 * one.volume_m3
        pushed, moment = pushed + own, moment + own * place
    return _Pull(pushed, moment)


def _places(draws: Draws, rig: tuple[Load, ...]) -> list[Array]:
    along, up = (draws.of(doubt.label, doubt) for doubt in (_PLACE, _HEIGHT))
    return [np.array([one.at_m + along, one.up_m + up]) for one in rig]


def _drawn(draws: Draws, which: str) -> Array:
    return draws.of(f"{_SHIFT.label} {which}", _SHIFT)


def _tie(inputs: HangInput) -> Array:
    return np.array([[inputs.tie_at_mm / 1000], [inputs.tie_up_mm / 1000]])


def _either(given: float | None, otherwise: float) -> float:
    return otherwise if given is None else given


def _posture(angle_deg: Array, *, known: bool) -> Posture:
    if not known:
        return Posture.ANY
    angle = float(angle_deg[0])
    if abs(angle) > _TURNED_DEG:
        return Posture.TURNED_OVER
    if abs(angle) <= _LEVEL_DEG:
        return Posture.LEVEL
    return Posture.NOSE_DOWN if angle > 0 else Posture.NOSE_UP


def _cautions(free_deg: Array, net_kg: float, *, rests: bool) -> Iterable[str]:
    if not rests:
        yield (
            "Mass and buoyancy have one middle: any twitch turns the bait, and nothing turns it "
            "back. A hook or weight under the belly rights it."
        )
    elif abs(float(free_deg[0])) > _TURNED_DEG:
        yield "Its mass lies above its buoyancy: it rolls over onto its back and stays there."
    if net_kg < 0:
        yield "It floats: on the line it stands above its tie point, and only a taut line holds it."
    yield "At rest only: pulled, it swims at another angle; a soft bait also bends at its hook."
