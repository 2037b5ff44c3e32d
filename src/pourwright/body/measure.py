"""Volume, surface, shadow and thickest place of a bait."""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np

from pourwright.base.calc import calculation
from pourwright.base.draws import Array
from pourwright.base.field import kind, out
from pourwright.base.record import Record
from pourwright.base.source import published
from pourwright.body.families import FAMILIES
from pourwright.body.family import Family
from pourwright.body.thickest import thickest_place

OUTLINE_POINTS = 160


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasureInput(Record):
    """A bait by ruler and caliper."""

    family: Family = kind("Shape and its measures", FAMILIES)


@dataclass(frozen=True, slots=True)
class MeasureAnswer:
    """Measures of a bait, exact for the solid that the measures describe."""

    volume_ml: float = out("Volume")
    surface_cm2: float = out("Surface")
    shadow_cm2: float = out("Area seen along the pull of the mold")
    length_mm: float = out("Length")
    width_mm: float = out("Extent in the parting plane")
    height_mm: float = out("Extent along the pull")
    thickest_mm: float = out("Thickest place: the largest ball that fits inside")
    thickest_at_mm: float = out("Where it is, from the nose")
    thickest_shape: str = out("round or flat: how that place cools")
    undercut: str = out("What keeps two halves from coming off; empty if nothing does")
    outline_mm: tuple[tuple[tuple[float, float], ...], ...] = out("Rings of the shadow, x and y")
    notes: tuple[str, ...] = out("What the figures rest on")


@calculation(
    "body.measure",
    purpose="volume, area, thickness of a bait",
    sources=(published("divergence theorem on a closed mesh; sections scaled to their true area"),),
    example={
        "family": {"kind": "worm", "length_mm": 178, "diameter_mm": 11, "tail_diameter_mm": 4}
    },
)
def measure(inputs: MeasureInput) -> MeasureAnswer:
    """Measures of the solid lofted from a family's measures."""
    return _measured(inputs.family)


@functools.lru_cache(maxsize=256)
def _measured(family: Family) -> MeasureAnswer:
    solid = family.solid()
    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    place = thickest_place(solid)
    shadow = solid.project()
    extent = high - low
    return MeasureAnswer(
        volume_ml=solid.volume() / 1000,
        surface_cm2=solid.surface_area() / 100,
        shadow_cm2=shadow.area() / 100,
        length_mm=float(extent[0]),
        width_mm=float(extent[1]),
        height_mm=float(extent[2]),
        thickest_mm=place.diameter_mm,
        thickest_at_mm=float(place.center_mm[0]),
        thickest_shape="flat" if place.flat else "round",
        undercut="the bore needs a core pin" if family.core_pin else "",
        outline_mm=tuple(_ring(p) for p in shadow.simplify(0.05).to_polygons()),
        notes=(
            "A ruler's half millimeter moves the volume by several percent; weighing is better.",
        ),
    )


def _ring(polygon: Array) -> tuple[tuple[float, float], ...]:
    points = np.asarray(polygon)
    step = max(1, -(-len(points) // OUTLINE_POINTS))
    return tuple((round(float(x), 2), round(float(y), 2)) for x, y in points[::step])
