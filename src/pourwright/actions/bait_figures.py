"""What a bait comes to, as numbers that can be opened."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pourwright.actions.see_record import Ring
from pourwright.base.band import Band, exact
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.body.measure import RULER_MISS_MM, MeasureAnswer
from pourwright.forecast.request import BaitPart
from pourwright.matter import plastisol
from pourwright.plan.bait_part import RULER_SHARE
from pourwright.plan.batch_plan import Figure
from pourwright.plan.figure import figure
from pourwright.shop.mold import Bait
from pourwright.shop.own_shape import FILE_SHARE

_GLASS = "weigh it in air, then let it hang in a glass of water on the scale"
_FINER = "weigh it in water on a finer scale"


@dataclass(frozen=True, slots=True)
class Trust:
    """How far the solid of a bait may be off the bait itself: its volume, and its skin."""

    solid: str
    told_by: str
    volume_share: float
    miss_mm: float
    measure: str


BY_RULER = Trust(
    "the closed solid made of the bait's measures", "a ruler", RULER_SHARE, RULER_MISS_MM,
    f"a ruler misses thicknesses by {2 * RULER_MISS_MM:g} mm, a caliper by far less",
)  # fmt: skip
BY_FILE = Trust(
    "the closed solid of its file", "a cavity made from a file", FILE_SHARE, 0.1,
    "measure one bait with a caliper",
)  # fmt: skip


def bait_figures(bait: Bait, part: BaitPart, measured: MeasureAnswer | None) -> tuple[Figure, ...]:
    """Volume and weight of any bait; what its shape adds, where it has one."""
    draws, trust = Draws(), BY_FILE if bait.own_shape else BY_RULER
    found = []
    if part.volume_ml is not None:
        found.append(_volume(draws, bait, trust, part.volume_ml))
    if bait.weighing is not None:
        found.append(_entered(draws, "on_scale_g", "On the scale", bait.weighing.air_g, "g"))
    if part.mass_g is not None:
        found.append(_entered(draws, "weight_g", "Weight of one", part.mass_g.typical, "g"))
    elif part.volume_ml is not None:
        found.append(_weight(draws, part.volume_ml))
    if measured is not None:
        found += _thickest(draws, bait.thickest_mm, trust, measured)
        found += _faces(draws, trust, measured)
        found.append(_middle(draws, trust, measured))
    return tuple(found)


def _volume(draws: Draws, bait: Bait, trust: Trust, volume: Band) -> Figure:
    if bait.weighing is not None:
        return figure(
            draws, "volume_ml", "Volume", _drawn_volume(draws, volume, _FINER), unit="ml",
            inputs=("the bait weighed in air and in water",), source="Archimedes' principle",
        )  # fmt: skip
    within = f"{trust.told_by}, right within {trust.volume_share:.0%} of the volume"
    return figure(
        draws, "volume_ml", "Volume", _drawn_volume(draws, volume, _GLASS), unit="ml",
        inputs=(trust.solid, within), source="divergence theorem over the skin",
    )  # fmt: skip


def _weight(draws: Draws, volume: Band) -> Figure:
    cold = plastisol.COLD_DENSITY_G_ML.drawn(draws)
    packed = cold * plastisol.PACKED_RATIO.drawn(draws)
    return figure(
        draws, "weight_g", "Weight of one, in plain plastic",
        _drawn_volume(draws, volume, _GLASS) * packed, unit="g",
        inputs=("its volume", "cold density of the plastic", "what a cavity packs of it"),
        source="mass = volume × packed density; salt and glass come with the look",
    )  # fmt: skip


def _drawn_volume(draws: Draws, volume: Band, measure: str) -> Array:
    return draws.of("volume", Doubt("volume of the bait", volume, measure))


def _thickest(
    draws: Draws, entered_mm: float | None, trust: Trust, it: MeasureAnswer
) -> list[Figure]:
    if entered_mm is not None:
        return [_entered(draws, "thickest_mm", "Thickest place", entered_mm, "mm")]
    off = Doubt("its thickness", _within(it.thickest_mm, 2 * trust.miss_mm), trust.measure)
    source = f"search over {trust.solid}"
    return [
        figure(
            draws, "thickest_mm", "Thickest place", draws.of("thickest", off), unit="mm",
            inputs=("the largest ball that fits inside",), source=source,
        ),
        figure(
            draws, "thickest_at_mm", "Where that is, from the nose", it.thickest_at_mm, unit="mm",
            inputs=("the middle of that ball",), source=source,
        ),
    ]  # fmt: skip


def _faces(draws: Draws, trust: Trust, it: MeasureAnswer) -> list[Figure]:
    """The shadow grows all along its rim; skin goes with thickness, and volume with its square."""
    rim = _within(it.shadow_cm2, _around_mm(it.outline_mm) * trust.miss_mm / 100)
    skin = _within(it.surface_cm2, it.surface_cm2 * trust.volume_share / 2)
    return [
        figure(
            draws, "shadow_cm2", "Shadow along the pull",
            draws.of("shadow", Doubt("its outline", rim, trust.measure)), unit="cm2",
            inputs=("the outline of the solid, seen along the pull",),
            source="projected area; the push times it lifts the halves of a mold",
        ),
        figure(
            draws, "surface_cm2", "Skin",
            draws.of("skin", Doubt("its skin", skin, trust.measure)), unit="cm2",
            inputs=("all faces of the solid",), source="sum of its faces",
        ),
    ]  # fmt: skip


def _middle(draws: Draws, trust: Trust, it: MeasureAnswer) -> Figure:
    return figure(
        draws, "center_x_mm", "Middle of mass, from the nose", it.center_x_mm, unit="mm",
        inputs=(trust.solid, "one density throughout: no salt at one end, no hook"),
        source="Tonon, tetrahedron inertia tensor (2005)",
    )  # fmt: skip


def _entered(draws: Draws, key: str, label: str, value: float, unit: str) -> Figure:
    return figure(draws, key, label, exact(value), unit=unit, inputs=("entered",), source="entered")


def _within(value: float, miss: float) -> Band:
    return Band(max(value - miss, 0.0), value, value + miss)


def _around_mm(rings: tuple[Ring, ...]) -> float:
    """Length of an outline."""
    return sum(
        math.dist(a, b) for ring in rings for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)
    )
