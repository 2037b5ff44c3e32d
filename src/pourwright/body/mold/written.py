"""A part as files, read back before anyone gets them."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.body.mold.facet import Facets, facets_of, loose_edges, welded
from pourwright.body.mold.part import Part
from pourwright.body.mold.stl import stl_bytes, stl_soup
from pourwright.body.mold.threemf import threemf_bytes, threemf_facets


@dataclass(frozen=True, slots=True)
class Written:
    """The files of a part, what they hold, and how many edges are open once read back.

    `meant_ml` is the volume of the solid, `volume_ml` that of the triangles in the files.
    """

    name: str
    copies: int
    triangles: int
    meant_ml: float
    volume_ml: float
    size_mm: tuple[float, float, float]
    stl: bytes
    threemf: bytes
    open_in_stl: int
    open_in_threemf: int


def written(part: Part, skin_mm: float) -> Written:
    """The files of a part as it lies on the bench; `skin_mm` may its skin move to be plainer."""
    solid = part.on_bench()
    facets = facets_of(solid.as_original().simplify(skin_mm) if skin_mm else solid)
    stl, threemf = stl_bytes(facets), threemf_bytes(facets, part.name)
    back = threemf_facets(threemf)
    return Written(
        part.name, part.copies, len(facets.corners), float(solid.volume()) / 1000,
        facets.volume_mm3 / 1000, facets.size_mm, stl, threemf,
        open_in_stl=loose_edges(welded(stl_soup(stl))),
        open_in_threemf=loose_edges(_welded_again(back)),
    )  # fmt: skip


def _welded_again(facets: Facets) -> Facets:
    return welded(facets.points[facets.corners])
