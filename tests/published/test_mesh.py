"""Bodies from files against closed forms, printed conversions and an independent library."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pymeshfix
import pytest
import trimesh

import mesh_files as m
from pourwright.base.errors import BadInput
from pourwright.base.mesh import LengthUnit, Mesh
from pourwright.body.measure import MeasureInput, measure
from pourwright.body.placing import moments
from pourwright.body.shell import closed
from pourwright.body.unit_question import unit_of_file, weight_in
from pourwright.intake.mesh_child import reply
from pourwright.intake.mesh_reply import unpacked

# A scanned figure and a bare sheet that a repair library ships for its own examples.
SHIPPED = Path(pymeshfix.__file__).parent / "examples"


def read(mesh: trimesh.Trimesh, kind: str = "stl") -> Mesh:
    written = mesh.export(file_type=kind)
    return unpacked(reply(written if isinstance(written, bytes) else str(written).encode()))


def test_a_scanned_figure_measures_as_an_independent_library_measures_it() -> None:
    """Oracle: trimesh, on a mesh that is not ours, its base closed by the library it comes with."""
    raw = trimesh.load_mesh(SHIPPED / "StanfordBunny.ply")
    fixed = pymeshfix.MeshFix(np.asarray(raw.vertices), np.asarray(raw.faces))
    fixed.repair()
    figure = trimesh.Trimesh(fixed.points, fixed.faces)
    assert figure.is_watertight
    found = read(figure)
    ours = closed(found.points, found.triangles)
    assert ours.volume() == pytest.approx(figure.volume, rel=1e-5)
    assert ours.surface_area() == pytest.approx(figure.area, rel=5e-3)
    size = figure.extents.max()
    assert moments(ours)[1] == pytest.approx(figure.center_mass, abs=5e-4 * size)
    assert found.extents == pytest.approx(figure.extents, rel=2e-3)


def test_a_shipped_sheet_is_refused() -> None:
    with pytest.raises(BadInput, match="is open"):
        read(trimesh.load_mesh(SHIPPED / "planar_mesh.ply"))


@pytest.mark.parametrize("kind", ["stl", "obj", "3mf"])
def test_a_ring_has_the_volume_that_pappus_gives_it(kind: str) -> None:
    """Pappus of Alexandria, Collection, book VII: 2 π² R r²; facets take under 1 % of it."""
    ring = trimesh.creation.torus(major_radius=20, minor_radius=4, major_sections=96,
                                  minor_sections=64)  # fmt: skip
    assert read(ring, kind).volume == pytest.approx(2 * math.pi**2 * 20 * 4**2, rel=4e-3)


def test_two_balls_over_each_other_make_the_lens_once() -> None:
    """Common part of two balls: Weisstein, Sphere-Sphere Intersection, π (4 R + d)(2 R - d)² / 12
    for equal radii R at distance d.
    """
    ball = trimesh.creation.icosphere(subdivisions=5, radius=10)
    skin = (np.array(ball.vertices), np.array(ball.faces))
    found = unpacked(reply(m.stl(m.both(skin, m.moved(skin, (12, 0, 0))))))
    lens = math.pi * (4 * 10 + 12) * (2 * 10 - 12) ** 2 / 12
    assert found.volume == pytest.approx(2 * 4 / 3 * math.pi * 10**3 - lens, rel=2e-3)


def test_spread_of_a_box_is_a_twelfth_of_its_sides_squared() -> None:
    """Closed form, as every handbook of mechanics prints it: side squared over twelve."""
    spread, middle = moments(closed(*m.moved(m.BOX, (5, 6, 7))))
    assert spread == pytest.approx(np.diag([4, 9, 16]) / 12, abs=1e-9)
    assert middle == pytest.approx((5, 6, 7))


@pytest.mark.parametrize(
    ("unit", "mm"), [("mm", 1), ("cm", 10), ("m", 1000), ("in", 25.4), ("ft", 304.8), ("um", 0.001)]
)
def test_units_are_as_long_as_printed(unit: str, mm: float) -> None:
    """NIST SP 811 (2008), appendix B.8: the inch is 25.4 mm exactly, the foot 304.8 mm."""
    assert LengthUnit(unit).mm == pytest.approx(mm, rel=1e-12)


def test_the_question_names_what_the_body_would_weigh_in_each_unit() -> None:
    """A 5 x 0.4 x 0.4 bar of 1.052 g/mL by hand: 0.8 mm³ is 0.84 mg, 0.8 cm³ 0.84 g, and an inch
    cubed is 16.387 mL (NIST SP 811, appendix B.8), so 13.8 g.
    """
    bar = trimesh.creation.box((5, 0.4, 0.4))
    mesh = Mesh(np.array(bar.vertices), np.array(bar.faces))
    assert weight_in(mesh, LengthUnit.IN).weight_g == pytest.approx(0.8 * 16.387064 * 1.052)
    assert weight_in(mesh, LengthUnit.CM).length_mm == pytest.approx(50)
    with pytest.raises(
        BadInput,
        match=r"unit: is needed.*as mm 5 mm long and 0\.000842 g; "
        r"as cm 50 mm long and 0\.842 g; as in 127 mm long and 13\.8 g: which",
    ):
        unit_of_file(mesh, None)
    with pytest.raises(BadInput, match="unit: makes the body 1,520 mm long"):
        unit_of_file(mesh, LengthUnit.FT)
    said = Mesh(mesh.points, mesh.triangles, LengthUnit.IN)
    assert unit_of_file(said, LengthUnit.IN) is LengthUnit.IN
    with pytest.raises(BadInput, match="unit: is not what the file says: in"):
        unit_of_file(said, LengthUnit.MM)


def test_a_ball_from_a_file_measures_as_a_ball() -> None:
    """Sphere of radius 10 mm: 4/3 π r³, 4 π r², π r², thickest 2 r; facets take under half a %."""
    ball = trimesh.creation.icosphere(subdivisions=5, radius=10)
    file = Mesh(
        np.array(ball.vertices) + np.array((7, 8, 9)), np.array(ball.faces), notes=("As found.",)
    )
    answer = measure(MeasureInput(file=file, unit=LengthUnit.MM))
    assert answer.volume_ml == pytest.approx(4 / 3 * math.pi, rel=5e-3)
    assert answer.surface_cm2 == pytest.approx(4 * math.pi, rel=5e-3)
    assert answer.shadow_cm2 == pytest.approx(math.pi, rel=5e-3)
    assert answer.thickest_mm == pytest.approx(20, rel=5e-3)
    assert answer.thickest_at_mm == pytest.approx(10, abs=0.1)
    assert "As found." in answer.notes
    assert any("Proposed from the shape" in note for note in answer.notes)
