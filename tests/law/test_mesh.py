"""Promises about bodies from files, whatever family they show and however they lie."""

from __future__ import annotations

import base64
import dataclasses
import zlib

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays as drawn_arrays

import mesh_files as m
from pourwright.base.errors import BadInput
from pourwright.base.mesh import LengthUnit, Mesh
from pourwright.body.body_input import BodyInput
from pourwright.body.families import FAMILIES
from pourwright.body.packed_mesh import MOST_TEXT, packed, packed_solid, unpacked
from pourwright.body.placing import FileAxis, Placing, moments, placed
from pourwright.body.shell import arrays, closed
from pourwright.intake.mesh_child import reply
from pourwright.intake.mesh_reply import packed as packed_reply
from pourwright.intake.mesh_reply import unpacked as unpacked_reply

MM = LengthUnit.MM


def of_family(key: str) -> trimesh.Trimesh:
    points, triangles = arrays(FAMILIES[key]().solid())
    return trimesh.Trimesh(points, triangles, process=False)


# Every family as the plainest kind of file, one as the kinds that take longer to write.
WRITTEN = [(key, "stl") for key in FAMILIES]
WRITTEN += [("curl_tail_grub", kind) for kind in ("stl_ascii", "obj", "3mf")]


@pytest.mark.parametrize(("key", "kind"), WRITTEN)
def test_another_programs_file_of_a_family_comes_back_with_its_volume(key: str, kind: str) -> None:
    body = of_family(key)
    written = body.export(file_type=kind)
    found = unpacked_reply(reply(written if isinstance(written, bytes) else str(written).encode()))
    assert found.volume == pytest.approx(body.volume, rel=1e-4)
    assert found.unit is (MM if kind == "3mf" else None)
    assert not [note for note in found.notes if "Cut from" not in note]


TURNS = st.lists(st.integers(0, 3), min_size=3, max_size=3)


@settings(max_examples=8)
@given(key=st.sampled_from(list(FAMILIES)), turns=TURNS, far=st.integers(-300, 300))
def test_a_body_is_laid_into_the_mold_however_it_lay_in_the_file(
    key: str, turns: list[int], far: int
) -> None:
    solid = FAMILIES[key]().solid()
    turned = solid.rotate([90.0 * k for k in turns]).translate((far, -far, 7))
    lies = placed(turned, Placing()).solid
    assert box(lies)[:, 0] == pytest.approx(box(solid)[:, 0], abs=2e-3)
    assert sides(lies) == pytest.approx(sides(solid), abs=2e-3)
    assert lies.volume() == pytest.approx(solid.volume(), rel=1e-6)
    assert moments(lies)[1][0] <= 0.501 * sides(lies)[0]
    assert box(lies)[:, 2] == pytest.approx(box(solid)[:, 2], abs=0.01 * sides(solid)[2])


@pytest.mark.parametrize("key", ["worm", "stick", "tube"])
@pytest.mark.parametrize("tilt", [(33, 20, 40), (5, -50, 70)])
def test_a_tilted_round_body_is_found_along_its_longest_line(
    key: str, tilt: tuple[int, ...]
) -> None:
    solid = FAMILIES[key]().solid()
    tilted = solid.rotate([float(t) for t in tilt]).translate((5, 9, -4))
    lies = placed(tilted, Placing()).solid
    assert sides(lies)[0] == pytest.approx(sides(solid)[0], rel=2e-3)
    assert box(lies)[0] == pytest.approx((0, *-box(lies)[1, 1:]), abs=0.05)


def test_choices_turn_the_body_as_they_say() -> None:
    solid = FAMILIES["paddle_tail"]().solid()
    there = placed(solid, Placing(length=FileAxis.X, pull=FileAxis.Z)).solid
    back = placed(solid, Placing(nose_at_other_end=True)).solid
    heavy = [float(arrays(s)[0][:, 0].mean() / sides(s)[0]) for s in (there, back)]
    assert sum(heavy) == pytest.approx(1, abs=1e-6)
    assert heavy[0] != pytest.approx(heavy[1], abs=0.01)
    on_edge = placed(solid, Placing(pull=FileAxis.Y)).solid
    assert sides(on_edge)[[0, 2, 1]] == pytest.approx(sides(solid), abs=1e-6)
    across = placed(solid, Placing(length=FileAxis.Y, pull=FileAxis.Z)).solid
    assert sides(across)[[1, 0, 2]] == pytest.approx(sides(solid), abs=1e-6)
    as_is = placed(solid.translate((3, 4, 5)), Placing(as_it_lies=True))
    assert box(as_is.solid)[0] == pytest.approx(box(solid)[0] + (3, 4, 5))
    assert not as_is.notes


@settings(max_examples=12)
@given(
    st.sampled_from([None, *FileAxis]), st.sampled_from([None, *FileAxis]),
    st.booleans(), st.booleans(),
)  # fmt: skip
def test_a_body_is_turned_and_moved_but_never_mirrored(length, pull, nose, down) -> None:
    if length is not None and length is pull:
        return
    solid = FAMILIES["curl_tail_grub"]().solid().rotate((90.0, 0.0, 90.0))
    placing = Placing(length=length, pull=pull, nose_at_other_end=nose, upside_down=down)
    before, after = (arrays(s)[0] for s in (solid, placed(solid, placing).solid))
    turn = np.linalg.lstsq(before - before.mean(axis=0), after - after.mean(axis=0))[0]
    assert turn @ turn.T == pytest.approx(np.eye(3), abs=1e-5)
    assert np.linalg.det(turn) == pytest.approx(1, abs=1e-5)
    opens = np.abs(turn[:, 2])
    assert pull is None or opens["xyz".index(pull)] == pytest.approx(1, abs=1e-5)
    along = np.abs(turn[:, 0])
    assert length is None or along["xyz".index(length)] == pytest.approx(1, abs=1e-5)


def test_upside_down_turns_the_flat_belly_up() -> None:
    dome = closed(*m.BALL).trim_by_plane((0.0, 0.0, 1.0), 0.0).scale((6.0, 1.0, 0.5))
    belly_down = placed(dome, Placing()).solid
    belly_up = placed(dome, Placing(upside_down=True)).solid
    assert box(belly_down)[:, 2] == pytest.approx((0, 5), abs=0.1)
    assert box(belly_up)[:, 2] == pytest.approx((-5, 0), abs=0.1)


@given(st.sampled_from(list(LengthUnit)))
def test_the_same_body_in_another_unit_is_the_same_body(unit: LengthUnit) -> None:
    points, triangles = m.BALL
    here = BodyInput(file=Mesh(points * 4, triangles), unit=MM).solid()
    there = BodyInput(file=Mesh(points * 4 / unit.mm, triangles), unit=unit).solid()
    assert there.volume() == pytest.approx(here.volume(), rel=1e-6)


@pytest.mark.parametrize("key", FAMILIES)
def test_a_packed_solid_comes_back_in_a_short_line(key: str) -> None:
    solid = FAMILIES[key]().solid()
    text = packed_solid(solid)
    again = closed(*unpacked(text))
    assert len(text) < 300_000
    assert again.volume() == pytest.approx(solid.volume(), rel=2e-5)
    assert box(again) == pytest.approx(box(solid), abs=sides(solid)[0] / 60_000)
    assert packed_solid(again) == packed(*arrays(again))


@given(st.integers(0, 400), st.integers(0, 63))
def test_a_text_that_was_changed_is_refused_or_is_a_mesh(place: int, letter: int) -> None:
    text = packed(*m.BOX)
    letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/"
    at = place % len(text)
    changed = text[:at] + letters[letter] + text[at + 1 :]
    if base64.b64decode(changed) == base64.b64decode(text):
        return
    with pytest.raises(BadInput, match="packed: is no packed mesh"):
        unpacked(changed)


@pytest.mark.parametrize("corner", [-1, 8])
def test_packed_corners_that_are_not_there_are_refused(corner: int) -> None:
    faces = m.BOX[1].copy()
    faces[0, 0] = corner
    with pytest.raises(BadInput, match="packed: is no packed mesh"):
        unpacked(packed(m.BOX[0], faces))


def test_packed_bytes_of_another_kind_or_length_are_refused() -> None:
    body = zlib.decompress(base64.b64decode(packed(*m.BOX)))
    for changed in (b"XXXX" + body[4:], body[:-4], body + bytes(4), body[:20], bytes(9_000_000)):
        with pytest.raises(BadInput, match="packed: is no packed mesh"):
            unpacked(base64.b64encode(zlib.compress(changed)).decode())


@given(
    drawn_arrays(float, (7, 3), elements=st.floats(-1e6, 1e6)),
    st.sampled_from([None, *LengthUnit]),
    st.lists(st.text(max_size=30), max_size=3),
)
def test_a_reply_comes_back_as_it_was(points, unit, notes) -> None:
    sent = Mesh(points, np.array([[0, 1, 2], [6, 5, 4]]), unit, tuple(notes))
    found = unpacked_reply(packed_reply(sent))
    assert np.array_equal(found.points, points)
    assert np.array_equal(found.triangles, sent.triangles)
    assert (found.unit, found.notes) == (unit, tuple(notes))


def noise(triangles: int) -> tuple[np.ndarray, np.ndarray]:
    """Triangles that no packing makes smaller."""
    draws = np.random.default_rng(5)
    count = triangles // 2
    return draws.random((count, 3)), draws.integers(0, count, (triangles, 3))


@pytest.mark.parametrize("triangles", [60_001, 55_000])
def test_a_skin_too_fine_or_too_rough_to_keep_is_refused_in_words(triangles: int) -> None:
    with pytest.raises(BadInput, match="file: is too fine or too rough") as refusal:
        packed(*noise(triangles))
    assert f"{triangles:,} triangles" in str(refusal.value)


def test_what_is_packed_fits_into_a_record() -> None:
    text = packed(*noise(30_000))
    assert 300_000 < len(text) <= MOST_TEXT
    assert len(unpacked(text)[1]) == 30_000


HOLLOW = m.inside_out(m.moved(m.BALL, (0, 0, 0), scale=0.5))


@pytest.mark.parametrize(
    ("skin", "why"),
    [
        (
            m.both(m.BALL, m.moved(m.BALL, (40, 0, 0), scale=0.5)),
            "must hold one bait in one piece.*smallest 11.11% of",
        ),
        (m.both(m.BALL, HOLLOW), "must be solid.*a hollow of 12.5% of"),
        (m.inside_out(m.BALL), "must enclose a body"),
    ],
)
def test_what_no_mold_can_shape_is_refused_in_words(skin: m.Skin, why: str) -> None:
    """Balls of radius 10 and 5: the small one is an eighth of the large, a ninth of both."""
    for placing in (Placing(), Placing(as_it_lies=True)):
        with pytest.raises(BadInput, match=f"file: {why}"):
            BodyInput(file=Mesh(*skin), unit=MM, placing=placing).solid()


def test_a_slight_hollow_is_filled_and_said() -> None:
    """A ball of a tenth of the radius: a thousandth of the body."""
    hollow = m.inside_out(m.moved(m.BALL, (2, 0, 0), scale=0.1))
    body = BodyInput(file=Mesh(*m.both(m.BALL, hollow)), unit=MM)
    assert body.solid().volume() == pytest.approx(m.BALL_VOLUME, rel=1e-6)
    assert body.body_notes()[0].startswith("Filled what was hollow inside, 0.10% of the body")
    assert "Filled" not in " ".join(BodyInput(file=Mesh(*m.BALL), unit=MM).body_notes())


def test_exactly_one_body_is_asked_about() -> None:
    worm = FAMILIES["worm"]()
    ball = Mesh(*m.BALL)
    with pytest.raises(BadInput, match="family: give either a family or a file"):
        BodyInput()
    with pytest.raises(BadInput, match="family: give either a family or a file"):
        BodyInput(family=worm, file=ball, unit=MM)
    with pytest.raises(BadInput, match="unit: belongs to a file"):
        BodyInput(family=worm, unit=MM)
    with pytest.raises(BadInput, match="placing: belongs to a file"):
        BodyInput(family=worm, placing=Placing(upside_down=True))
    with pytest.raises(BadInput, match="pull: must be another axis"):
        Placing(length=FileAxis.X, pull=FileAxis.X)
    with pytest.raises(BadInput, match="as_it_lies: leaves no axis"):
        Placing(as_it_lies=True, upside_down=True)
    assert BodyInput(family=worm).body_notes() == ()
    assert dataclasses.replace(BodyInput(family=worm)).solid().volume() > 0


def box(solid) -> np.ndarray:
    return np.asarray(solid.bounding_box()).reshape(2, 3)


def sides(solid) -> np.ndarray:
    return np.asarray(np.ptp(box(solid), axis=0))
