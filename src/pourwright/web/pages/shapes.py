"""The shapes a bait can have, each drawn small: where a new bait begins."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.responses import Response

from pourwright.actions.see_solid import FamilyView, see_families, see_family
from pourwright.base.units import UNITS
from pourwright.matter.plastisol import COLD_DENSITY_G_ML, PACKED_RATIO
from pourwright.web.extent import extent
from pourwright.web.page import Page, Show, Visit
from pourwright.web.portrait import Portrait, outlined
from pourwright.web.show import Settings, exactly
from pourwright.web.solid_bytes import sent


@dataclass(frozen=True, slots=True)
class Shape:
    """A family on its card; `outline` stands there until a script draws the solid."""

    key: str
    name: str
    size: str
    weight: str
    core_pin: bool
    outline: Portrait


@dataclass(frozen=True, slots=True)
class ShapesContext:
    """Every family there is."""

    title: str
    shapes: tuple[Shape, ...]


def shapes(visit: Visit) -> Show:
    """All families, at their usual measures."""
    found = tuple(_shape(view, visit.settings) for view in see_families())
    return Show("bait/shapes.html", ShapesContext("Shapes", found))


def shape_solid(visit: Visit) -> Response:
    """The solid of a family, coarse, for the script that draws it."""
    return sent(see_family(visit.part("key")), visit.request)


def _shape(view: FamilyView, settings: Settings) -> Shape:
    packed = COLD_DENSITY_G_ML.typical * PACKED_RATIO.typical
    return Shape(
        key=view.family.key,
        name=view.family.label,
        size=extent(*view.sides_mm, settings),
        weight=exactly(round(view.volume_ml * packed, 1), UNITS["g"], settings),
        core_pin=view.family.core_pin,
        outline=outlined(view.outline_mm),
    )


SHAPE_PAGES = (Page("/shapes", shapes), Page("/shapes/{key}/solid", shape_solid))
