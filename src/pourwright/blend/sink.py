"""How fast a bait sinks or rises, and which way it lies."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, parts
from pourwright.base.source import estimate, memory, published
from pourwright.blend.bait import HANG_IT, Bait, BaitInput, drawn_bait
from pourwright.blend.fall import TRAVEL_SOURCE, Fall, drawn_fall
from pourwright.blend.rig import Load, Weight, lead_notes, loads

# Shadow of a bait against its length times its thickness; estimate.
_FULLNESS = 0.85
_LONGEST_S = 3600.0
# Loaded within that of the middle, in lengths, a bait is said to lie level; estimate.
LEVEL_OFFSET = 0.05
_END_FIRST_DEG = 60.0
# How far off the middle of the bait may be, as a share of its length: guessed and measured.
_UNMEASURED, _MEASURED = 0.03, 0.005
_LEAST_RE, _LONGEST_ALONG = 1.0, 7.0
LEFT_OUT = (
    "Line, current, bubbles on the bait and the tail's own swimming are left out; salt leaches "
    "out and the bait grows lighter in use."
)
_PLACE = Doubt("places of hook and weights", Band(-0.002, 0, 0.002), "measure them from the nose")


class Attitude(StrEnum):
    """How it lies as it goes."""

    LEVEL = "level"
    NOSE_AHEAD = "slanting, nose ahead"
    TAIL_AHEAD = "slanting, tail ahead"
    NOSE_FIRST = "nose first"
    TAIL_FIRST = "tail first"


@dataclass(frozen=True, slots=True, kw_only=True)
class SinkInput(BaitInput):
    """A bait, its rig and its water."""

    length_mm: float = number("Length", low=10, high=600)
    thick_mm: float = number("Thickness where it is thickest", low=1, high=100)
    shadow_cm2: float | None = number(
        "Area seen from above as it falls level; for a bait that lies on its side in its mold that "
        "is not the mold's shadow",
        low=0.1,
        high=500,
        default=None,
    )
    center_x_mm: float | None = number(
        "Middle of the bait's volume, from the nose", low=0, high=600, default=None
    )
    shadow_center_mm: float | None = number(
        "Middle of that area, from the nose", low=0, high=600, default=None
    )
    weights: tuple[Weight, ...] = parts("Hooks and weights", most=6)
    depth_m: float = number("Depth to reach", low=0.1, high=100, default=3.048)

    def check(self) -> None:
        """Refuse measures that do not go together."""
        BaitInput.check(self)
        if self.thick_mm > self.length_mm:
            raise BadInput("thick_mm", self.thick_mm, "must not exceed the length")
        for name in ("center_x_mm", "shadow_center_mm"):
            at = getattr(self, name)
            if at is not None and at > self.length_mm:
                raise BadInput(name, at, f"must lie within the {self.length_mm:g} mm of the bait")

    @property
    def shadow_m2(self) -> float:
        """The area that falls on the water, given or guessed."""
        if self.shadow_cm2 is not None:
            return self.shadow_cm2 / 1e4
        return _FULLNESS * self.length_mm * self.thick_mm / 1e6


@dataclass(frozen=True, slots=True)
class SinkAnswer:
    """How it goes down, or up."""

    speed_m_s: Band = out("How fast it sinks once steady; negative if it rises")
    sinks_share: float = out("Odds that it sinks, 0 to 1")
    net_g: Band = out("What bait, hook and weights weigh in this water; negative if they float")
    water_kg_m3: Band = out("Density of this water")
    attitude: Attitude = out("How it most likely lies as it goes")
    level_share: float = out("Odds that it goes level, 0 to 1")
    offset_share: Band = out(
        "How far behind the middle of its shadow its net weight pulls, in lengths; ahead is "
        "negative"
    )
    nose_down_deg: Band = out("How far its nose hangs under its tail as it goes; up is negative")
    path_deg: Band = out("How steep its way is: 90 straight down or up, less where it glides ahead")
    level_m_s: Band = out("The same if it went level")
    end_first_m_s: Band = out("The same if it went end first")
    reynolds: Band = out("Reynolds number of its thickness at the steady speed")
    to_depth_s: Band | None = out("Time to sink to the depth; null if it floats")
    notes: tuple[str, ...] = out("What dominates, what would narrow it, cautions")


@calculation(
    "swim.sink",
    purpose="how fast it sinks, or floats",
    sources=(
        published("UNESCO Technical Papers in Marine Science 36 (1981), density of the water"),
        published("Sharqawy, Lienhard and Zubair, Desal. Water Treat. 16 (2010) 354, eqs. 22, 23"),
        memory("White, Viscous Fluid Flow: drag of a cylinder across the flow, 1 + 10/Re^(2/3)"),
        published("Matthews, Aeronautical Engineer's Data Book (2002), fig. 5.13(b): short rods"),
        TRAVEL_SOURCE,
        estimate("a bait as a stiff rod of its thickness and shadow"),
    ),
    example={
        "mass_g": 8.2, "density_g_ml": 1.06, "length_mm": 127, "thick_mm": 9.5, "shadow_cm2": 11.1,
        "weights": [{"name": "hook", "mass_g": 1.4, "at_mm": 40}],
    },
)  # fmt: skip
def sink(inputs: SinkInput) -> SinkAnswer:
    """Steady speed at which drag carries what the water does not.

    Line, current and the tail's own swimming are left out.
    Raises: BadInput for figures that make no bait.
    """
    draws = Draws(seed=inputs.seed)
    v = drawn(draws, inputs)
    bait, rig = drawn_bait(draws, inputs, v["water_c"]), loads(draws, inputs.weights)
    net = net_kg(bait, rig)
    none = draws.known(0)
    offset = _offset(draws, inputs, bait, rig, net)
    fall = drawn_fall(
        draws, bait, rig, thick_m=inputs.thick_mm / 1000, length_m=inputs.length_mm / 1000,
        shadow_m2=inputs.shadow_m2, salinity=inputs.salinity,
    )  # fmt: skip
    real, level, end = (fall.steady(net, off) for off in (np.abs(offset), none, none + 1))
    speed = real.down_m_s
    reynolds = fall.reynolds(real.along_m_s, fall.thick_m)
    notes = (
        *left_out(inputs),
        *_defaults(inputs),
        *width_notes(draws, {"speed_m_s": speed}),
        *_near_neutral(inputs, net, speed),
        *_speed_words(fall, reynolds),
        LEFT_OUT,
        *lead_notes(inputs.weights),
    )
    return SinkAnswer(
        speed_m_s=draws.band(speed),
        sinks_share=float(np.mean(net[1:] > 0)),
        net_g=draws.band(1000 * net),
        water_kg_m3=draws.band(bait.water_kg_m3),
        attitude=_attitude(float(offset[0]), float(real.tilt_deg[0])),
        level_share=float(np.mean(np.abs(offset[1:]) <= LEVEL_OFFSET)),
        offset_share=draws.band(offset),
        nose_down_deg=draws.band(-np.sign(net * offset) * real.tilt_deg),
        path_deg=draws.band(real.path_deg),
        level_m_s=draws.band(level.down_m_s),
        end_first_m_s=draws.band(end.down_m_s),
        reynolds=draws.band(reynolds),
        to_depth_s=draws.band(_time_s(inputs.depth_m, speed)) if speed[0] > 0 else None,
        notes=notes,
    )


def net_kg(bait: Bait, rig: tuple[Load, ...]) -> Array:
    """What bait and rig weigh in the water."""
    net = bait.mass_kg - bait.pushed_kg
    for one in rig:
        net = net + one.mass_kg - bait.water_kg_m3 * one.volume_m3
    return np.asarray(net)


def _offset(
    draws: Draws, inputs: SinkInput, bait: Bait, rig: tuple[Load, ...], net: Array
) -> Array:
    """How far behind the middle of the shadow the net weight pulls, as a share of the length.

    Without a weight a bait of one stuff is pulled at the middle of its volume.
    """
    length = inputs.length_mm / 1000
    center = _center_m(draws, inputs)
    place = draws.of(_PLACE.label, _PLACE)
    moment = (bait.mass_kg - bait.pushed_kg) * center
    for one in rig:
        own = one.mass_kg - bait.water_kg_m3 * one.volume_m3
        moment = moment + own * (one.at_m + place)
    shadow = _first(inputs.shadow_center_mm, inputs.center_x_mm, inputs.length_mm / 2) / 1000
    pulled = np.divide(moment, net, out=np.full_like(net, shadow), where=net != 0)
    return np.asarray((pulled - shadow) / length)


def _center_m(draws: Draws, inputs: SinkInput) -> Array:
    miss = inputs.length_mm / 1000 * (_UNMEASURED if inputs.center_x_mm is None else _MEASURED)
    label = "middle of the bait's volume"
    off = draws.of(label, Doubt(label, Band(-miss, 0, miss), "measure the shape with body.measure"))
    return np.asarray(_first(inputs.center_x_mm, inputs.length_mm / 2) / 1000 + off)


def _first(*values: float | None) -> float:
    return next(value for value in values if value is not None)


def _attitude(offset: float, tilt_deg: float) -> Attitude:
    if abs(offset) <= LEVEL_OFFSET:
        return Attitude.LEVEL
    if tilt_deg < _END_FIRST_DEG:
        return Attitude.NOSE_AHEAD if offset < 0 else Attitude.TAIL_AHEAD
    return Attitude.NOSE_FIRST if offset < 0 else Attitude.TAIL_FIRST


def _time_s(depth_m: float, speed_m_s: Array) -> Array:
    slowest = depth_m / _LONGEST_S
    return np.asarray(depth_m / np.maximum(speed_m_s, slowest))


def _defaults(inputs: SinkInput) -> Iterable[str]:
    if inputs.shadow_cm2 is None:
        yield (
            f"shadow_cm2 was left out: {_FULLNESS:.0%} of length times thickness stands in. "
            "body.measure gives it for a bait that lies flat in its mold."
        )
    if inputs.center_x_mm is None:
        yield "center_x_mm was left out: half the length stands in. body.measure gives it."


def _near_neutral(inputs: SinkInput, net: Array, speed: Array) -> Iterable[str]:
    sinks = float(np.mean(net[1:] > 0))
    if 0.05 < sinks < 0.95:
        yield (
            f"Close to neutral: it sinks in {sinks:.0%} of the cases. The speed goes with the root "
            "of a small difference of densities, so that half a percent decides."
        )
        if inputs.hung_g is None:
            yield f"speed_m_s: to settle it, {HANG_IT}."
    if speed[0] > 0 and float(np.min(speed[1:])) < inputs.depth_m / _LONGEST_S:
        yield "to_depth_s: where it would take over an hour or floats, an hour stands in."


def _speed_words(fall: Fall, reynolds: Array) -> Iterable[str]:
    if reynolds[0] < _LEAST_RE:
        yield "So slow that the drag law runs out: it hangs or drifts."
    if fall.length_m / fall.thick_m > _LONGEST_ALONG:
        yield "end_first_m_s: for a slender bait the drag of its end is that of a shorter one."
