"""A shape taken over from a file is kept with its measures, and every page finds it."""

from __future__ import annotations

import manifold3d
import numpy as np
import pytest

import mesh_files as m
from fake_bench import FakeJobs, FakeStore
from pourwright import wire
from pourwright.actions.demo import DEMO_DRAFT, demo_nouns
from pourwright.actions.import_shape import keep_shape, look_at, read_shape
from pourwright.actions.keep_record import retire_record
from pourwright.actions.plan_batch import plan_batch
from pourwright.actions.port import Stored, World
from pourwright.actions.see_look import look_of
from pourwright.actions.see_record import see_bait
from pourwright.actions.shape_of import body_of, measures_of, own_shape_of, shape_of
from pourwright.base.errors import BadInput, Conflict
from pourwright.base.mesh import LengthUnit, Mesh
from pourwright.body.body_input import BodyInput
from pourwright.body.division import Place
from pourwright.body.families.stick import Stick
from pourwright.body.measure import OUTLINE_RINGS
from pourwright.body.placing import FileAxis, Placing
from pourwright.body.shell import arrays
from pourwright.body.split import Split
from pourwright.forecast.picture.picture import scene_of
from pourwright.plan.bait_build import bait_build
from pourwright.plan.bait_part import bait_part
from pourwright.shop.look import Look, LookLayer
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.own_shape import FILE_SHARE, OwnShape

MM = LengthUnit.MM
# A body of 100 x 20 x 12 mm, as its file lies: nose at x = 40, and across.
SKIN = (m.BALL[0] * (1.0, 5.0, 0.6) + (40, 0, 0), m.BALL[1])
VOLUME_ML = m.BALL_VOLUME * 3 / 1000


def fake_world() -> World:
    store, stub = FakeStore(), None
    return World(
        bench=store.bench, reading=store.bench, clock=store.clock, ids=store.ids,
        jobs=FakeJobs(), readers=wire.READERS, printer=stub, picture=stub, spectra=stub,  # type: ignore[arg-type]
        exchange=stub,  # type: ignore[arg-type]
    )  # fmt: skip


@pytest.fixture(params=["memory", "SQLite"])
def world(request, tmp_path) -> World:
    return fake_world() if request.param == "memory" else wire.world(tmp_path / "bench.db")


def kept(world: World, *, unit: LengthUnit | None = MM, name: str = "Own") -> Stored:
    mesh = Mesh(*SKIN, notes=("Closed 1 hole.",))
    return keep_shape(world, mesh, unit=unit, placing=Placing(), name=name, source="own.stl")


def bait_of(stored: Stored) -> Bait:
    assert isinstance(stored.noun, Bait)
    return stored.noun


def test_a_shape_is_kept_and_read_back_as_it_was(world):
    stored = kept(world)
    with world.bench() as bench:
        bait = bait_of(bench.records.get(Bait.key, stored.id))
        own, solid = own_shape_of(bench, bait), shape_of(bench, bait)
        measured, body = measures_of(bench, bait), body_of(bench, bait)
    assert own is not None
    assert solid is not None
    assert measured is not None
    assert body is not None
    assert (own.name, own.source, own.unit) == ("Own", "own.stl", "mm")
    assert own.measures.volume_ml == pytest.approx(VOLUME_ML, rel=1e-5)
    assert own.measures.length_mm == pytest.approx(100, rel=1e-5)
    assert own.measures.height_mm == pytest.approx(12, rel=1e-5)
    assert own.measures.thickest_mm == pytest.approx(12, rel=0.01)
    assert own.remarks[0].words == "Closed 1 hole."
    assert "Proposed from the shape" in own.remarks[1].words
    assert solid.volume() / 1000 == pytest.approx(VOLUME_ML, rel=1e-5)
    assert np.array(solid.bounding_box()) == pytest.approx((0, -10, -6, 100, 10, 6), abs=0.01)
    assert measured.volume_ml == pytest.approx(own.measures.volume_ml, rel=1e-5)
    assert measured.thickest_mm == pytest.approx(own.measures.thickest_mm, rel=1e-3)
    assert body.solid().volume() == pytest.approx(solid.volume())


def test_a_shape_stays_as_it_was_laid(world):
    """Thicker toward its upper end, and told to lie with the other end as its nose."""
    thicker = 1 + 0.3 * SKIN[0][:, 1:2] / 50 * np.array((0, 0, 1))
    body = Mesh(SKIN[0] * thicker, SKIN[1])
    placing = Placing(nose_at_other_end=True)
    stored = keep_shape(world, body, unit=MM, placing=placing, name="Own", source="own.stl")
    with world.bench() as bench:
        measured = measures_of(bench, bait_of(stored))
    assert measured is not None
    assert measured.center_x_mm > 51


@pytest.mark.parametrize(("on_side", "up", "high_mm"), [(False, 2, 12), (True, 1, 20)])
def test_layers_of_a_shape_lie_along_its_back(world, on_side, up, high_mm):
    mesh, placing = Mesh(*SKIN), Placing(on_side=on_side)
    stored = keep_shape(world, mesh, unit=MM, placing=placing, name="Own", source="own.stl")
    bait = bait_of(stored)
    look = Look(
        name="Laid",
        layers=tuple(LookLayer(place=p, share=0.5, doses=()) for p in (Place.BELLY, Place.BACK)),
        split=Split(line_height=0.75),
    )
    with world.bench() as bench:
        own, asked = own_shape_of(bench, bait), look_of(bench, look, bait)
        drawn = scene_of(asked).division
    build = bait_build(bait, own)
    assert build is not None
    assert (build.up, asked.up(), drawn.up) == (up, up, up)
    assert build.high_mm - build.low_mm == pytest.approx(high_mm, rel=1e-3)
    assert (drawn.line_mm - drawn.low_mm) / high_mm == pytest.approx(0.75, rel=1e-3)


def test_a_list_shows_it_without_measuring_it_again(world, monkeypatch):
    stored = kept(world)
    monkeypatch.setattr("pourwright.body.measure.thickest_place", None)
    with world.bench() as bench:
        view = see_bait(bench, bait_of(stored))
    assert view.volume_ml is not None
    assert view.length_mm == pytest.approx(100, rel=1e-5)
    assert view.volume_ml.typical == pytest.approx(VOLUME_ML, rel=1e-5)
    assert view.volume_ml.high == pytest.approx(VOLUME_ML * (1 + FILE_SHARE), rel=1e-5)
    xs = [x for ring in view.outline_mm for x, _ in ring]
    assert (min(xs), max(xs)) == pytest.approx((0, 100), abs=0.1)


def test_a_plan_weighs_a_bait_from_a_file(world):
    bait = kept(world)
    with world.bench() as bench:
        for key, noun in demo_nouns().items():
            bench.records.save(noun.key, key, noun, expected_version=0)
        mold = bench.records.get(Mold.key, DEMO_DRAFT.mold)
        own = Mold(name="Own mold", bait=bait.id, cavities=2)
        bench.records.save(Mold.key, mold.id, own, expected_version=mold.version)
        request = plan_batch(bench, DEMO_DRAFT).request
        shape = own_shape_of(bench, bait_of(bait))
    assert request.bait.volume_ml is not None
    assert request.bait.volume_ml.typical == pytest.approx(VOLUME_ML, rel=1e-5)
    assert request.bait.thickest_mm == pytest.approx(12, rel=0.01)
    heavier = bait_part(Bait(name="Own", own_shape=bait_of(bait).own_shape, thickest_mm=9), shape)
    assert heavier.thickest_mm == 9


def test_a_shape_in_use_stays_on_the_bench(world):
    bait = kept(world)
    with pytest.raises(Conflict, match="still needed by Own"):
        retire_record(world, OwnShape.key, bait_of(bait).own_shape, expected_version=1)


def test_nothing_is_kept_of_a_body_without_a_unit_or_a_size(world):
    with pytest.raises(BadInput, match="unit: is needed"):
        kept(world, unit=None)
    with pytest.raises(BadInput, match="unit: makes the body 100,000 mm long"):
        kept(world, unit=LengthUnit.M)
    with pytest.raises(BadInput, match="name"):
        kept(world, name="")
    with world.bench() as bench:
        assert not bench.records.all(OwnShape.key)
        assert not bench.records.all(Bait.key)


def pierced(holes: int) -> Mesh:
    """A plate of 120 x 30 x 4 mm with many holes of 1 mm, and a larger one."""
    plate = manifold3d.Manifold.cube((120.0, 30.0, 4.0))
    pin = manifold3d.Manifold.cylinder(8.0, 0.5, circular_segments=12, center=True)
    pins = [pin.translate((2.0 + 2 * (i % 50), 2.0 + 3 * (i // 50), 2)) for i in range(holes)]
    large = pin.scale((16.0, 16.0, 1.0)).translate((110.0, 15.0, 2.0))
    skin = manifold3d.Manifold.batch_boolean([plate, large, *pins], manifold3d.OpType.Subtract)
    return Mesh(*arrays(skin))


def test_a_shape_full_of_holes_is_kept_with_its_largest(world):
    placing = Placing(length=FileAxis.X, pull=FileAxis.Z)
    stored = keep_shape(world, pierced(130), unit=MM, placing=placing, name="Net", source="n.stl")
    with world.bench() as bench:
        own = own_shape_of(bench, bait_of(stored))
    assert own is not None
    widths = sorted(max(ring.x_mm) - min(ring.x_mm) for ring in own.measures.outline)
    assert widths[-2:] == pytest.approx([16, 120], rel=0.02)
    assert len(widths) <= OUTLINE_RINGS


def test_a_look_tells_every_unit_or_the_one_the_file_says():
    look = look_at(Mesh(*SKIN), Placing())
    assert [u.unit.value for u in look.units] == ["mm", "cm", "in"]
    assert [u.likely for u in look.units] == [True, True, False]
    xs = [x for ring in look.outline for x, _ in ring]
    assert (min(xs), max(xs)) == pytest.approx((0, 1), abs=0.002)
    said = look_at(Mesh(*SKIN, LengthUnit.CM), Placing())
    assert [u.unit.value for u in said.units] == ["cm"]
    assert said.units[0].length_mm == pytest.approx(1000)


def test_a_file_is_read_through_the_bench(world):
    found = read_shape(world, m.threemf(SKIN))
    assert found.unit is MM
    assert found.volume == pytest.approx(VOLUME_ML * 1000, rel=1e-5)


def test_a_bait_has_one_shape():
    with pytest.raises(BadInput, match="own_shape: give a shape by ruler or from a file"):
        Bait(name="Two", shape=Stick(), own_shape="x")
    with pytest.raises(BadInput, match="mass_g: give a shape"):
        Bait(name="None")


def test_a_bait_by_family_is_found_the_same_way(world):
    bait = Bait(name="Stick", shape=Stick())
    with world.bench() as bench:
        assert own_shape_of(bench, bait) is None
        solid = shape_of(bench, bait)
        assert solid is not None
        assert solid.volume() == pytest.approx(Stick().solid().volume())
        assert body_of(bench, bait) == BodyInput(family=Stick())
        assert shape_of(bench, Bait(name="By weight", mass_g=9)) is None
        assert measures_of(bench, Bait(name="By weight", mass_g=9)) is None
