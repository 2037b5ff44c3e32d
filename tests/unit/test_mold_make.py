"""What a maker reads when a mold is made for a bait."""

from __future__ import annotations

import dataclasses
import functools
import itertools
from typing import Any

import manifold3d
import numpy as np
import pytest
import trimesh

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.mesh import LengthUnit, Mesh
from pourwright.body.families.craw import Craw
from pourwright.body.families.curl_tail_grub import CurlTailGrub
from pourwright.body.families.stick import Stick
from pourwright.body.families.tube import Tube
from pourwright.body.loft import joined
from pourwright.body.mold.block import Block
from pourwright.body.mold.bolt import Bolt
from pourwright.body.mold.build import builder, mold_solids
from pourwright.body.mold.cavity import nose_of
from pourwright.body.mold.feed import own_gate_mm
from pourwright.body.mold.guard import guarded
from pourwright.body.mold.layout import laid_out
from pourwright.body.mold.make import mold_make
from pourwright.body.mold.nudge import NUDGES
from pourwright.body.mold.outlet import POCKET, WIDER
from pourwright.body.mold.part import Lies, Part
from pourwright.body.mold.request import MoldInput, Route
from pourwright.body.mold.rod import ball, box, rod_x, rod_z
from pourwright.body.mold.vent import Router
from pourwright.body.mold.words import balance, caught
from pourwright.body.mold.written import written
from pourwright.body.placing import Placing
from pourwright.matter.mold_material import MoldMaterial


def capsule():
    """A rod of few triangles, 60 mm long and 8 mm thick, its ends round, as a file has it."""
    mesh = joined(
        rod_x(4, 56, 8), ball(8).translate((4, 0, 0)), ball(8).translate((56, 0, 0))
    ).to_mesh64()
    return Mesh(np.asarray(mesh.vert_properties)[:, :3], np.asarray(mesh.tri_verts, dtype=np.int64))


PLAIN: dict[str, Any] = {
    "file": capsule(), "unit": LengthUnit.MM, "placing": Placing(as_it_lies=True)
}  # fmt: skip
CAST: dict[str, Any] = {"route": Route.HALVES_MASTER, "material": MoldMaterial.PLASTER}


made_once = functools.cache(mold_make.function)


def made(**asked):
    body = {} if "family" in asked else PLAIN
    return made_once(MoldInput(**body | asked))


def noted(answer, words):
    return any(words in note for note in answer.notes)


def test_the_calculation_answers_its_own_example():
    answer = mold_make.answer(mold_make.example)
    names = [part["name"] for part in answer["parts"]]
    assert names == ["half with pins", "half with sockets"]
    assert any("turned over" in note for note in answer["notes"])
    assert noted(made(), "shrink_share was left out: typical 0.017")


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"material": "plaster"}, "material"),
        ({"route": "master for two halves"}, "material"),
        ({"injector_nose_mm": 6}, "injector_nose_mm"),
        ({"gate_mm": 9}, "gate_mm"),
        ({"gate_mm": 6, "runner_mm": 5}, "gate_mm"),
        ({"cavities": 13}, "cavities"),
        ({"shrink_share": 0.2}, "shrink_share"),
        ({"route": "clay"}, "route"),
    ],
)
def test_what_cannot_be_made_is_refused_by_name(values, field):
    family = {"kind": "stick", "length_mm": 60, "middle_mm": 8, "end_mm": 8, "rings": 0}
    with pytest.raises(BadInput, match=rf"^{field}: "):
        mold_make.answer({"family": family} | values)


def test_a_tube_has_no_open_mold():
    with pytest.raises(BadInput, match=r"^route: cannot shape a bore"):
        MoldInput(family=Tube(), route=Route.OPEN)


def test_a_cast_mold_says_how_much_to_mix():
    done = made(**CAST)
    lower, upper = done.castings
    # Two castings and what plastic fills are the box, but for the play of the keys.
    box_ml = done.block_length_mm * done.block_width_mm * done.block_height_mm / 1000
    assert lower.pour_ml + upper.pour_ml + done.shot_ml == pytest.approx(box_ml, rel=1e-3)
    # They differ by three keys and three sockets, caps of balls of 10 and 10.2 mm, and by vents.
    caps = 3 * (147.5 + 158.8) / 1000
    assert lower.pour_ml - upper.pour_ml == pytest.approx(caps, rel=0.05)
    corner = done.parts[-1]
    assert corner.copies == 2
    assert corner.height_mm == pytest.approx(done.block_height_mm / 2)
    assert noted(done, "flashes to steam")
    assert noted(done, "Print the master in any filament")
    assert noted(done, "between boards")


def test_masters_lie_flat_on_their_plates():
    for part in mold_solids(MoldInput(**PLAIN, **CAST)).parts[:2]:
        x0, y0, bottom, x1, y1, _ = part.solid.bounding_box()
        assert part.solid.slice(bottom + 0.01).area() == pytest.approx((x1 - x0) * (y1 - y0))


def test_two_corners_close_the_box_on_its_plate():
    mold = mold_solids(MoldInput(**PLAIN, **CAST))
    plate, corner = mold.parts[0].solid, mold.parts[2].solid
    block = laid_out(MoldInput(**PLAIN, **CAST)).block
    (x0, y0), (x1, y1) = block.low, block.high
    other = corner.rotate((0, 0, 180)).translate((x0 + x1, y0 + y1, 0))
    assert (corner ^ other).volume() == pytest.approx(0, abs=1e-3)
    ring = (corner + other).slice(5.0)
    assert ring.num_contour() == 2
    assert ring.area() == pytest.approx((x1 - x0 + 10) * (y1 - y0 + 10) - (x1 - x0) * (y1 - y0))
    assert ((corner + other) ^ plate).volume() == pytest.approx(0, abs=1e-2)


def test_a_printed_mold_is_warned_of_softening():
    done = made(material=MoldMaterial.PRINTED_RESIN)
    assert noted(done, "98 °C / 209 °F")
    assert noted(done, "cast the mold")
    assert not noted(made(), "filament")
    assert noted(made(), "pry in the 3 mm deep notches")


def test_silicone_wants_boards():
    assert noted(made(**CAST | {"material": MoldMaterial.SILICONE}), "stiff boards")


def test_a_hard_overhang_is_told_with_its_cure():
    beam = joined(
        box((0, -2, -4), (40, 2, 0)), box((0, -6, 0), (40, 6, 2)), box((0, -6, -6), (40, 6, -4))
    ).to_mesh64()
    mesh = Mesh(np.asarray(beam.vert_properties), np.asarray(beam.tri_verts, dtype=np.int64))
    told = list(caught(MoldInput(file=mesh, unit=LengthUnit.MM, placing=Placing(as_it_lies=True))))
    assert "under plastic" in told[0]
    assert "may tear" in told[0]
    assert "cast the mold in silicone" in told[1]
    assert list(caught(MoldInput(**PLAIN))) == []


def test_an_open_mold_has_neither_feed_nor_vents():
    done = made(route=Route.OPEN)
    assert (done.feed_ml, done.waste_share, done.feed, done.vents) == (0, 0, (), ())
    assert done.gate_mm is None
    assert done.one_more is None
    assert noted(done, "one flat side")
    assert not noted(done, "notches")


def test_feed_is_told_as_waste_with_its_cure():
    done = made()
    assert done.waste_share > 0.25
    assert done.one_more.waste_share < done.waste_share
    assert noted(done, "With 3 cavities instead of 2")
    assert made(cavities=12, vents=False).one_more is None
    assert done.cut_again is None
    # 8 mm of bait, larger by the shrink and the corners of its facets, and 8 mm of mold.
    assert done.pitch_mm == pytest.approx(8 / (1 - 0.017) + 8, abs=0.05)
    assert made(cavities=1).pitch_mm is None


def test_cavities_far_from_the_sprue_are_told_to_begin_late():
    near, far = (laid_out(MoldInput(**PLAIN, cavities=n, vents=False)) for n in (2, 6))
    assert near.late_share == pytest.approx(0, abs=0.03)
    assert 0.1 < far.late_share < 0.9
    late = list(balance(far))
    assert len(late) == 1
    assert "widen the runner" in late[0]
    assert list(balance(near)) == []


def test_a_gate_of_its_own_is_half_of_the_nose():
    assert own_gate_mm(5, 6) == 2.5
    assert own_gate_mm(30, 6) == 4
    assert own_gate_mm(30, 3) == 3
    # A nose 8 mm thick, larger by the shrink, 2.4 mm behind its tip.
    chord = 2 * np.sqrt(2 * 4.07 * 2.4 - 2.4**2)
    assert made().gate_mm == pytest.approx(chord / 2, abs=0.05)
    assert noted(made(), "gate_mm was left out: 3.7 mm")
    assert made(gate_mm=3).gate_mm == 3
    assert not noted(made(gate_mm=3), "gate_mm")


def test_a_nose_off_the_parting_plane_has_no_gate():
    with pytest.raises(NoAnswer, match="no plastic on the parting plane"):
        nose_of(ball(10).translate((5, 0, 8)))


def test_the_wider_piece_of_a_nose_takes_the_gate():
    two = joined(rod_x(0, 30, 4).translate((0, 6, 0)), rod_x(0, 30, 8).translate((0, -6, 0)))
    nose = nose_of(two)
    assert nose.y_mm == pytest.approx(-6, abs=0.01)
    assert nose.thick_mm == pytest.approx(8, rel=0.01)


def test_vents_end_where_filling_ends():
    tails = made(cavities=1).vents
    assert len(tails) == 1
    assert (tails[0].from_x_mm, tails[0].to_y_mm) == pytest.approx((61, 0), abs=1.5)
    assert tails[0].length_mm == pytest.approx(10, abs=1.5)
    bare = made(vents=False)
    assert bare.vents == ()
    assert noted(bare, "Without vents")


def test_vents_are_cut_into_the_half_with_sockets_alone():
    with_vents, without = (mold_solids(MoldInput(**PLAIN, vents=v)) for v in (True, False))
    pairs = zip(without.closed, with_vents.closed, strict=True)
    lost = [float(a.volume() - b.volume()) for (_, a), (_, b) in pairs]
    assert lost[0] == pytest.approx(0, abs=1e-6)
    # Two lands 4 by 6 by 0.1 mm in part inside the tails, and reliefs of 0.6 mm.
    assert 15 < lost[1] < 2 * 4 * (6 * 0.1 + 5.5 * 0.6)


def test_tails_that_curl_inward_are_turned_over():
    layout = laid_out(MoldInput(family=CurlTailGrub(), cavities=2))
    assert layout.nest.turned
    assert layout.outlets.shut == ()


def test_ends_without_a_vent_come_with_their_cure():
    tight = laid_out(MoldInput(family=Craw(), cavities=3, spacing_mm=2))
    assert WIDER in {shut.cure for shut in tight.outlets.shut}
    loose = laid_out(MoldInput(family=Craw(), cavities=1))
    assert len(loose.outlets.shut) < len(tight.outlets.shut)


def test_an_end_shut_in_by_its_own_bait_wants_a_pocket():
    ring = np.array([(10 * np.cos(t), 10 * np.sin(t)) for t in np.linspace(0, 6.28, 200)])
    section = manifold3d.CrossSection.square((2, 2), center=True)
    block = Block((-30, -30), (30, 30), 10, 10)
    shut = Router(block, ring, hole_mm=6, width_mm=4)
    assert shut.way_out((0.0, 0.0), section) is None
    gap = Router(block, ring[abs(ring[:, 1]) > 4.5], hole_mm=6, width_mm=4)
    way = gap.way_out((0.0, 0.0), section)
    assert way is not None
    assert way.end[1] == pytest.approx(0, abs=1e-9)
    assert way.length_mm == pytest.approx(30)
    assert "pocket" in POCKET
    bolted = dataclasses.replace(block, bolts=((20.0, 0.0), (-20.0, 0.0)))
    held = Router(bolted, ring[abs(ring[:, 1]) > 4.5], hole_mm=6, width_mm=4)
    assert held.way_out((0.0, 0.0), section) is None


def test_a_vent_opens_into_the_cavity_or_is_none():
    block = Block((-30, -30), (30, 30), 10, 10)
    router = Router(block, np.array([(0.0, 0.0)]), hole_mm=6, width_mm=4)
    elsewhere = manifold3d.CrossSection.square((2, 2)).translate((100, 100))
    assert router.way_out((0.0, 0.0), elsewhere) is None


def test_a_tube_gets_a_core_pin_for_each_cavity_and_no_vent_at_its_tail():
    done = made(family=Tube(skirt_mm=20), cavities=2)
    pin = done.parts[-1]
    assert (pin.name, pin.copies) == ("core pin", 2)
    assert done.vents == done.unvented == ()
    assert noted(done, "cut them when the bait is cold")
    # Standing on its handle: bore of 90 - 14 mm, a seat of 16 mm and more, a handle of 16 mm.
    assert pin.height_mm == pytest.approx((90 - 14) / (1 - 0.017) + 16.5 + 16, abs=1)
    # Slits of the skirt are cut later, so they neither hold plastic back nor leave fins.
    slit, whole = (mold_solids(MoldInput(family=Tube(skirt_mm=s))).plastic for s in (36, 0))
    assert slit.volume() == pytest.approx(whole.volume(), rel=1e-9)


def test_bolts_and_their_pockets_leave_the_halves():
    bare, bolted = (MoldInput(**PLAIN, bolt=b) for b in (Bolt.NONE, Bolt.M5))
    block = laid_out(bolted).block
    assert laid_out(bare).block.bolts == ()
    assert len({y for _, y in block.bolts}) == 2
    lower, upper = (solid for _, solid in mold_solids(bolted).closed)
    nut = manifold3d.Manifold.cylinder(4.7, 8 / np.sqrt(3), 8 / np.sqrt(3), 6)
    for x, y in block.bolts:
        through = rod_z(-30, 30, 5.4).translate((x, y, 0))
        assert (lower ^ through).volume() == pytest.approx(0, abs=1e-6)
        assert (upper ^ through).volume() == pytest.approx(0, abs=1e-6)
        pocketed = nut.translate((x, y, -block.below_mm))
        assert (lower ^ pocketed).volume() == pytest.approx(0, abs=1e-6)
        # Some mold is left between each pocket and the edge.
        assert min(y - block.low[1], block.high[1] - y) >= 8 / np.sqrt(3) + 3.99
    assert block.below_mm >= 4.7 + 4


def test_walls_are_at_least_as_thick_as_asked():
    layout = laid_out(MoldInput(**PLAIN, wall_mm=14, base_mm=11, spacing_mm=9))
    solid = layout.nest.hollow
    _, y0, z0, x1, y1, z1 = solid.bounding_box()
    block = layout.block
    assert block.high[0] - x1 == pytest.approx(14)
    assert min(block.high[1] - y1, y0 - block.low[1]) >= 14 - 1e-6
    assert min(block.below_mm + z0, block.above_mm - z1) >= 11 - 1e-6
    one, two = sorted(solid.decompose(), key=lambda piece: piece.bounding_box()[1])
    assert one.min_gap(two, 50) == pytest.approx(9, abs=0.05)


def test_parts_lie_with_their_working_face_up():
    answer = made(bolt=Bolt.NONE)
    mold = mold_solids(MoldInput(**PLAIN, bolt=Bolt.NONE))
    for part, told in zip(mold.parts, answer.parts, strict=True):
        on_bench = part.on_bench()
        assert on_bench.bounding_box()[:3] == pytest.approx((0, 0, 0), abs=1e-9)
        # Low down the block is whole, at the parting face it is cut.
        area = on_bench.slice(1.0).area()
        assert area == pytest.approx(answer.block_length_mm * answer.block_width_mm, rel=1e-4)
        assert on_bench.slice(14 - 0.1).area() < area - 500
        assert told.height_mm >= 14


def test_a_shape_from_a_file_gets_its_mold_with_what_was_found_in_it():
    # An ellipsoid 1 by 0.4 by 0.3 in that an independent library drew: 4/3 pi abc.
    egg = trimesh.creation.icosphere(subdivisions=4)
    mesh = Mesh(egg.vertices * (0.5, 0.2, 0.15), egg.faces, notes=("one hole was closed",))
    done = mold_make(MoldInput(file=mesh, unit=LengthUnit.IN, cavities=1, shrink_share=0.0))
    assert done.cavity_ml == pytest.approx(4 / 3 * np.pi * 0.5 * 0.2 * 0.15 * 16.387, rel=0.01)
    assert noted(done, "one hole was closed")
    assert done.bait_length_mm.typical == pytest.approx(25.4, rel=1e-3)


def test_a_bore_that_no_half_can_shape_is_told():
    pipe = rod_x(0, 40, 14) - rod_x(12, 50, 8)
    points, triangles = pipe.to_mesh64().vert_properties, pipe.to_mesh64().tri_verts
    mesh = Mesh(np.asarray(points)[:, :3], np.asarray(triangles, dtype=np.int64))
    done = mold_make(
        MoldInput(
            file=mesh, unit=LengthUnit.MM, placing=Placing(as_it_lies=True), cavities=1, gate_mm=3
        )
    )
    assert noted(done, "no half can shape")
    assert not noted(made(family=Tube(skirt_mm=20), cavities=2), "no half can shape")


def test_thin_fins_and_plaster_are_told_together():
    craw = mold_make(MoldInput(family=Craw(), cavities=1, **CAST))
    assert noted(craw, "break off plaster")
    assert not noted(made(), "thin fin")


def test_a_mold_that_does_not_read_back_closed_is_made_anew():
    good = builder(MoldInput(**PLAIN, cavities=1))
    edge = joined(box((0, 0, 0), (5, 5, 5)), box((5, 5, 0), (9, 9, 5)))
    asked = []

    def spoiled(nudge):
        asked.append(nudge)
        mold = good(nudge)
        if len(asked) < 3:
            mold = dataclasses.replace(mold, parts=(*mold.parts, Part("spoiled", edge)))
        return mold

    done = guarded(spoiled)
    assert done.tries == 3
    assert asked == list(NUDGES[:3])
    assert done.wrong == ()


def test_a_mold_that_never_comes_out_right_is_no_answer():
    block = box((0, 0, 0), (5, 5, 5))
    good = builder(MoldInput(**PLAIN, cavities=1))(NUDGES[0])
    twice = dataclasses.replace(
        good, parts=(), castings=(), closed=(("one half", block), ("the other", block))
    )
    with pytest.raises(NoAnswer, match=r"in 6 tries .* one half and the other \(125"):
        guarded(lambda _: twice)


def test_a_part_in_two_pieces_is_found():
    apart = joined(box((0, 0, 0), (1, 1, 1)), box((3, 0, 0), (4, 1, 1)))
    good = builder(MoldInput(**PLAIN, cavities=1))(NUDGES[0])
    loose = dataclasses.replace(good, parts=(Part("loose", apart),), closed=())
    with pytest.raises(NoAnswer, match=r"one piece: loose \(2\)"):
        guarded(lambda _: loose)


def test_a_gate_that_misses_its_cavity_is_found():
    good = builder(MoldInput(**PLAIN, cavities=1))(NUDGES[0])
    missed = joined(good.plastic.translate((3, 0, 0)), box((-30, -2, -2), (-10, 2, 2)))
    cut_off = dataclasses.replace(good, parts=(), closed=(), shot=missed)
    with pytest.raises(NoAnswer, match=r"one piece: the shot, feed and all \(2\)"):
        guarded(lambda _: cut_off)


def test_printed_sockets_are_looser_than_cut_ones():
    def sockets(material):
        asked = MoldInput(**PLAIN, cavities=1, material=material, bolt=Bolt.NONE, vents=False)
        return mold_solids(asked).closed[1][1].volume()

    def cone(play):
        # A pin 6 mm wide at its foot and 4.8 at its top, with its play all around.
        wide, top = 6 + 2 * play, 4.8 + 2 * play
        return np.pi * (6 + play) * (wide**2 + wide * top + top**2) / 12

    looser = sockets(MoldMaterial.ALUMINUM) - sockets(MoldMaterial.PRINTED_RESIN)
    assert looser == pytest.approx(3 * (cone(0.15) - cone(0.05)), rel=0.02)


def test_a_plainer_skin_still_reads_back_closed():
    stick = Stick(rings=0, sac_mm=0).solid()
    file = written(Part("stick", stick, Lies.ROLLED_OVER), 0.05)
    assert (file.open_in_stl, file.open_in_threemf) == (0, 0)
    assert file.triangles < written(Part("stick", stick), 0.0).triangles / 2
    assert file.volume_ml == pytest.approx(file.meant_ml, rel=0.03)


def test_later_nudges_change_every_measure():
    assert len(set(NUDGES)) == 6
    assert all(a.reach_mm > b.reach_mm for a, b in itertools.pairwise(NUDGES))
    assert NUDGES[0].skin_mm == 0
