"""Volume, surface, shadow, middle and thickest place of a bait, and how it sits in a mold."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

import manifold3d
import numpy as np

from pourwright.base.calc import calculation
from pourwright.base.draws import Array
from pourwright.base.field import out
from pourwright.base.source import estimate, published
from pourwright.body.body_input import BodyInput
from pourwright.body.center import center_mm
from pourwright.body.family import Family
from pourwright.body.filling import filling_map, nose_xy
from pourwright.body.hold_words import held_by, hold_notes
from pourwright.body.last_place import LastPlace, last_places
from pourwright.body.loft import Solid
from pourwright.body.thickest import thickest_place
from pourwright.body.undercut import undercut

# An outline has no more points than a page needs, and of many small holes the largest.
OUTLINE_POINTS, OUTLINE_RINGS = 160, 24
# A ruler reads the thickness of a soft bait within a quarter of a millimeter, so it misses the
# skin by half of that; estimate.
RULER_MISS_MM = 0.125


class Thick(StrEnum):
    """How the thickest place cools: from all around, or from two faces."""

    ROUND = "round"
    FLAT = "flat"


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasureInput(BodyInput):
    """A bait to measure."""


@dataclass(frozen=True, slots=True)
class MeasureAnswer:
    """Measures of a bait, exact for its solid."""

    volume_ml: float = out("Volume")
    surface_cm2: float = out("Surface")
    shadow_cm2: float = out("Area seen along the pull of the mold")
    length_mm: float = out("Length")
    width_mm: float = out("Extent across the length, in the parting plane")
    height_mm: float = out("Extent along the pull")
    thickest_mm: float = out("Thickest place: the largest ball that fits inside")
    thickest_at_mm: float = out("Where it is, from the nose")
    thickest_shape: Thick = out("How that place cools: round, or flat as a slab")
    center_x_mm: float = out("Middle of mass, and of buoyancy of a plain bait: from the nose")
    center_y_mm: float = out("The same: across the length, in the parting plane")
    center_z_mm: float = out("The same: along the pull, over the parting plane")
    dead_ends: tuple[LastPlace, ...] = out("Where it fills last with the gate at its nose")
    undercut_share: float = out("Share of the shadow under which a half reaches, 0 to 1")
    undercut_mm: float = out("How far a half reaches under plastic, sideways")
    undercut: str = out("What keeps two halves from coming off; empty if nothing does")
    outline_mm: tuple[tuple[tuple[float, float], ...], ...] = out(
        "The bait seen along the pull: rings of x and y, holes turn the other way"
    )
    notes: tuple[str, ...] = out("What the figures rest on")


@calculation(
    "body.measure",
    purpose="volume, area, thickness of a bait",
    sources=(
        published("Gauss, divergence theorem: volume of a closed mesh"),
        published("Gradshteyn and Ryzhik, Table of Integrals, 4.635: sections of true area"),
        published("Tonon, tetrahedron inertia tensor (2005): middle of mass"),
        published("White, Viscous Fluid Flow, 3rd ed. (2006), section 3-3: the order of filling"),
        estimate("the family stands for the bait"),
        estimate("soft plastic stretches out of an overhang of a third of its thickness"),
    ),
    example={
        "family": {"kind": "worm", "length_mm": 178, "diameter_mm": 11, "tail_diameter_mm": 4}
    },
)
def measure(inputs: MeasureInput) -> MeasureAnswer:
    """Measures of the solid lofted from a family's measures, or of that in a file.

    Against closed forms the volume of a family is right within 0.05 %, the thickest place within
    0.5 %, surface and shadow within 0.3 %. How well the shape fits the bait is another matter: see
    the notes of the answer.
    Raises: BadInput for measures that do not go together, or a file without its unit.
    """
    if inputs.family is None:
        return _of_file(inputs)
    return _of_family(inputs.family)


def measured(solid: Solid, *, core_pin: bool = False, notes: tuple[str, ...] = ()) -> MeasureAnswer:
    """Measures of a closed solid, nose at x = 0, parted at z = 0; `core_pin` where one is known
    to be needed; `notes` come first among those of the answer.
    """
    low, high = np.array(solid.bounding_box()).reshape(2, 3)
    length, width, height = (float(v) for v in high - low)
    volume, surface, shadow = solid.volume(), solid.surface_area(), solid.project()
    place, held = thickest_place(solid), undercut(solid)
    x, y, z = center_mm(solid)
    return MeasureAnswer(
        volume_ml=volume / 1000,
        surface_cm2=surface / 100,
        shadow_cm2=shadow.area() / 100,
        length_mm=length,
        width_mm=width,
        height_mm=height,
        thickest_mm=place.diameter_mm,
        thickest_at_mm=place.center_mm[0],
        thickest_shape=Thick.FLAT if place.flat else Thick.ROUND,
        center_x_mm=x,
        center_y_mm=y,
        center_z_mm=z,
        dead_ends=last_places(filling_map(solid, nose_xy(solid))),
        undercut_share=held.share,
        undercut_mm=held.depth_mm,
        undercut=held_by(held, core_pin=core_pin),
        outline_mm=_outline(shadow),
        notes=(*notes, *hold_notes(held, core_pin=core_pin)),
    )


@functools.lru_cache(maxsize=256)
def _of_family(family: Family) -> MeasureAnswer:
    solid = family.solid()
    miss = solid.surface_area() * RULER_MISS_MM / solid.volume()
    ruler = (
        f"A ruler that reads every thickness {2 * RULER_MISS_MM:g} mm off moves the volume by "
        f"{miss:.0%}; to narrow it, weigh the bait in water."
    )
    return measured(solid, core_pin=family.core_pin, notes=(ruler,))


@functools.lru_cache(maxsize=4)
def _of_file(inputs: MeasureInput) -> MeasureAnswer:
    return measured(inputs.solid(), notes=inputs.body_notes())


def _outline(shadow: Any) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Rings of a shadow, with as few points as a page needs; of many rings the largest."""
    rings = sorted(shadow.to_polygons(), key=_ring_area, reverse=True)
    shadow = manifold3d.CrossSection(rings[:OUTLINE_RINGS])
    miss_mm = 0.02
    plain = shadow.simplify(miss_mm)
    while plain.num_vert() > OUTLINE_POINTS:
        miss_mm *= 1.2
        plain = shadow.simplify(miss_mm)
    return tuple(_ring(polygon) for polygon in plain.to_polygons())


def _ring_area(polygon: Array) -> float:
    x, y = polygon.T
    return abs(float(x @ np.roll(y, -1) - y @ np.roll(x, -1)))


def _ring(polygon: Array) -> tuple[tuple[float, float], ...]:
    return tuple((round(float(x), 2), round(float(y), 2)) for x, y in polygon)
