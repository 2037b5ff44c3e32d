"""Take over the shape of a bait from a file: read it, look at it, keep it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.actions.port import Stored, World
from pourwright.base.mesh import LengthUnit, Mesh
from pourwright.body.body_input import BodyInput
from pourwright.body.measure import MeasureAnswer, MeasureInput, Thick, measure
from pourwright.body.one_bait import one_bait
from pourwright.body.packed_mesh import packed_solid
from pourwright.body.placing import Placing, placed
from pourwright.body.shell import closed
from pourwright.body.unit_question import ASKED, UnitWeight, weight_in
from pourwright.shop.mold import Bait
from pourwright.shop.own_shape import OwnShape, Remark, Ring, ShapeMeasures

# An outline is drawn this fine, as a share of its length.
OUTLINE_SHARE = 1 / 800

Outline = tuple[tuple[tuple[float, float], ...], ...]


@dataclass(frozen=True, slots=True)
class Look:
    """How a mesh would lie: outline along the pull, as shares of its length; sizes in each unit."""

    outline: Outline
    units: tuple[UnitWeight, ...]
    notes: tuple[str, ...]


def read_shape(world: World, data: bytes) -> Mesh:
    """The repaired mesh of an STL, 3MF or OBJ file. Raises: BadInput saying what is wrong."""
    mesh: Mesh = world.readers[Mesh](data)
    one_bait(closed(mesh.points, mesh.triangles))
    return mesh


def look_at(mesh: Mesh, placing: Placing) -> Look:
    """A mesh laid into its mold, whatever its unit may be."""
    size = float(mesh.extents.max())
    lies = placed(closed(mesh.points / size, mesh.triangles), placing)
    rings = lies.solid.project().simplify(OUTLINE_SHARE).to_polygons()
    outline = tuple(tuple((float(x), float(y)) for x, y in ring) for ring in rings)
    units = (mesh.unit,) if mesh.unit else ASKED
    return Look(outline, tuple(weight_in(mesh, unit) for unit in units), lies.notes)


def keep_shape(
    world: World,
    mesh: Mesh,
    *,
    unit: LengthUnit | None,
    placing: Placing,
    name: str,
    source: str,
) -> Stored:
    """Keep a mesh as the shape of a new bait; the answer is the bait.

    Raises: BadInput where the unit is not known, or the name or the size makes no bait.
    """
    body = BodyInput(file=mesh, unit=unit, placing=placing)
    it = measure(MeasureInput(file=mesh, unit=unit, placing=placing))
    shape = OwnShape(
        name=name,
        source=source,
        unit=str(unit or mesh.unit),
        packed=packed_solid(body.solid()),
        on_side=placing.on_side,
        measures=_kept(it),
        remarks=tuple(Remark(words=words) for words in body.body_notes()),
    )
    with world.bench() as bench:
        own = bench.records.save(OwnShape.key, world.ids.fresh(), shape, expected_version=0)
        bait = Bait(name=name, own_shape=own.id)
        stored = bench.records.save(Bait.key, world.ids.fresh(), bait, expected_version=0)
        bench.commit()
    return stored


def _kept(it: MeasureAnswer) -> ShapeMeasures:
    return ShapeMeasures(
        volume_ml=it.volume_ml,
        length_mm=it.length_mm,
        width_mm=it.width_mm,
        height_mm=it.height_mm,
        thickest_mm=it.thickest_mm,
        flat=it.thickest_shape is Thick.FLAT,
        undercut=it.undercut,
        outline=tuple(_ring(ring) for ring in it.outline_mm),
    )


def _ring(ring: tuple[tuple[float, float], ...]) -> Ring:
    x, y = np.array(ring).T.tolist()
    return Ring(x_mm=tuple(x), y_mm=tuple(y))
