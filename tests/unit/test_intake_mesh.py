"""A mesh file is repaired or refused in words, within limits, whatever is in it."""

from __future__ import annotations

import sys
from collections.abc import Callable

import numpy as np
import pytest
import trimesh
from hypothesis import given
from hypothesis import strategies as st

import mesh_files as m
from bad_mesh_files import BROKEN, lying_zip, million_faces
from odd_mesh_files import REPAIRED, l_prism, two_placed
from pourwright.base.errors import BadInput
from pourwright.base.mesh import LengthUnit
from pourwright.intake import mesh_child
from pourwright.intake.mesh import mesh
from pourwright.intake.mesh_reply import unpacked
from pourwright.intake.mesh_soup import MOST_BYTES
from watched_child import read

MOST_MB, MOST_S = 300, 10


def fine(count: int) -> m.Skin:
    """A ball of many triangles."""
    ball = trimesh.creation.uv_sphere(radius=50, count=[count, count])
    return np.array(ball.vertices), np.array(ball.faces)


def turned(skin: m.Skin) -> m.Skin:
    faces = skin[1].copy()
    some = np.random.default_rng(3).random(len(faces)) < 0.5
    faces[some] = faces[some][:, ::-1]
    return skin[0], faces


SOUND = (
    m.stl(m.BOX), m.stl_text(m.BOX), m.obj_of(m.BOX), m.threemf(m.BOX), m.one_item(m.BOX).encode()
)  # fmt: skip


@given(
    which=st.sampled_from(range(len(SOUND))),
    changes=st.dictionaries(st.integers(0, 10**6), st.integers(0, 255), max_size=6),
    cut=st.none() | st.integers(0, 10**6),
)
def test_a_torn_file_is_read_or_refused_in_words(which, changes, cut) -> None:
    torn = bytearray(SOUND[which])
    for place, byte in changes.items():
        torn[place % len(torn)] = byte
    data = bytes(torn[: cut % len(torn)] if cut is not None else torn)
    # The model of a 3MF file is torn on its own too, for its package would not let it through.
    data = m.package(data) if which == len(SOUND) - 1 else data
    try:
        found = unpacked(mesh_child.reply(data))
    except BadInput as refusal:
        assert refusal.field == "file"  # noqa: PT017  either outcome is right, no other is
    else:
        assert found.volume > 0


HEAVY: tuple[tuple[str, Callable[[], bytes]], ...] = (
    ("STL of mixed winding", lambda: m.stl(turned(fine(220)))),
    ("text STL", lambda: m.stl_text(fine(200))),
    ("OBJ", lambda: m.obj_of(fine(220))),
    ("3MF", lambda: m.threemf(fine(220))),
    ("a million faces", million_faces),
    ("a million points", lambda: b"v 0 0 0\n" * 1_000_000 + b"f 1 2 3\n"),
    ("a zip that lies", lying_zip),
    ("lines of nothing", lambda: b"v 0 0 0\nf 1 1 1\n" + b"\n" * 20_000_000),
)


@pytest.mark.parametrize(
    ("data", "volume", "said"), [p[1:] for p in REPAIRED], ids=[p[0] for p in REPAIRED]
)
def test_a_file_is_read_and_repaired(data: Callable[[], bytes], volume: float, said: str) -> None:
    found = unpacked(mesh_child.reply(data()))
    assert found.volume == pytest.approx(volume, rel=1e-5)
    assert said in " ".join(found.notes)
    assert bool(found.notes) == bool(said)
    again = unpacked(mesh_child.reply(m.obj_of((found.points, found.triangles))))
    assert again.volume == pytest.approx(volume, rel=1e-5)
    assert not [
        n for n in again.notes if "pieces" not in n and "hollow" not in n and "left" not in n
    ]


@pytest.mark.parametrize(("data", "why"), [b[1:] for b in BROKEN], ids=[b[0] for b in BROKEN])
def test_a_bad_file_is_refused_in_words(data: Callable[[], bytes], why: str) -> None:
    with pytest.raises(BadInput, match=why) as refusal:
        unpacked(mesh_child.reply(data()))
    assert refusal.value.field == "file"


@pytest.mark.parametrize("data", [h[1] for h in HEAVY], ids=[h[0] for h in HEAVY])
def test_the_largest_files_stay_within_memory_and_time(data: Callable[[], bytes]) -> None:
    taken = read(data())
    assert taken.peak_mb < MOST_MB
    assert taken.seconds < MOST_S
    assert taken.refusal or taken.mesh is not None


def test_a_large_mesh_keeps_its_volume_in_fewer_triangles() -> None:
    points, faces = fine(120)
    found = unpacked(mesh_child.reply(m.stl((points, faces))))
    assert len(found.triangles) <= 24_000
    assert found.volume == pytest.approx(trimesh.Trimesh(points, faces).volume, rel=1e-6)
    assert "triangles of the same volume" in found.notes[-1]


@pytest.mark.parametrize("first", range(6))
@pytest.mark.parametrize("axes", [(0, 1, 2), (1, 2, 0), (2, 0, 1), (1, 0, 2), (0, 2, 1)])
def test_a_face_that_bulges_inward_is_cut_within_itself(first: int, axes: tuple[int, ...]) -> None:
    # An L of five unit sides of skin per unit of height: two faces of 3, a rim of 8.
    found = unpacked(mesh_child.reply(l_prism(first=first, axes=axes)))
    assert trimesh.Trimesh(found.points, found.triangles).area == pytest.approx(2 * 3 + 8)
    assert found.volume == pytest.approx(3)


def test_a_hole_is_told_by_its_share_of_the_skin_and_its_width() -> None:
    ball = trimesh.Trimesh(*m.BALL)
    missing = float(ball.area_faces[0])
    width = np.ptp(m.BALL[0][m.BALL[1][0]], axis=0).max() / 20
    notes = unpacked(mesh_child.reply(m.stl((m.BALL[0], m.BALL[1][1:])))).notes
    share = missing / (ball.area - missing)
    assert notes[0] == (
        f"Closed 1 small hole, {share:.2%} of the skin; the widest measures {width:.1%} of the "
        "length."
    )


@pytest.mark.parametrize("unit", ["micron", "millimeter", "centimeter", "inch", "foot", "meter"])
def test_a_3mf_file_says_its_unit(unit: str) -> None:
    found = unpacked(mesh_child.reply(m.threemf(m.BOX, unit=unit)))
    words = {
        "micron": "um",
        "millimeter": "mm",
        "centimeter": "cm",
        "inch": "in",
        "foot": "ft",
        "meter": "m",
    }
    assert found.unit is LengthUnit(words[unit])
    assert found.extents == pytest.approx((2, 3, 4))


def test_items_and_components_stand_where_they_are_put() -> None:
    # 3MF Core Specification 1.3, section 3.3: points are rows, the last row of a transform moves.
    found = unpacked(mesh_child.reply(two_placed()))
    second = found.points[found.points[:, 0] > 50]
    assert second.min(axis=0) == pytest.approx((98.5, 5, -2))
    assert second.max(axis=0) == pytest.approx((101.5, 7, 2))


def test_a_file_is_read_in_a_process_of_its_own() -> None:
    found = mesh(m.stl(m.BALL))
    assert found.volume == pytest.approx(m.BALL_VOLUME, rel=1e-5)
    assert found.unit is None
    with pytest.raises(BadInput, match="is open"):
        mesh(m.stl((m.BALL[0], m.BALL[1][:900])))


def test_too_many_bytes_are_refused_unread(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("pourwright.intake.mesh._COMMAND", ("false",))
    with pytest.raises(BadInput, match="file: must be at most 40,000,000 bytes"):
        mesh(bytes(MOST_BYTES + 1))


@pytest.mark.parametrize(
    ("program", "why"),
    [
        ("import time; time.sleep(60)", "takes more than 0.5 s"),
        ("import os; os.kill(os.getpid(), 9)", "more memory or time than a mesh may"),
        ("held = [bytes(10**7) for _ in range(200)]", "more memory or time than a mesh may"),
    ],
)
def test_a_reading_that_will_not_end_or_fit_is_ended(
    monkeypatch: pytest.MonkeyPatch, program: str, why: str
) -> None:
    limited = f"from pourwright.intake import mesh_child\nassert mesh_child.limited()\n{program}"
    python = sys.executable
    monkeypatch.setattr("pourwright.intake.mesh._COMMAND", (python, "-c", limited))
    monkeypatch.setattr("pourwright.intake.mesh.MOST_S", 0.5 if "sleep" in program else 10)
    with pytest.raises(BadInput, match=why):
        mesh(b"anything")


def test_our_own_mistake_is_no_fault_of_the_file(monkeypatch: pytest.MonkeyPatch) -> None:
    python = sys.executable
    monkeypatch.setattr("pourwright.intake.mesh._COMMAND", (python, "-c", "1 / 0"))
    with pytest.raises(RuntimeError, match="ZeroDivisionError"):
        mesh(b"anything")
