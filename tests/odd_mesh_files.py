"""Mesh files that mean a body although something is odd about them, and what they mean."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

import mesh_files as m

POINTS, FACES = m.BALL
RANDOM = np.random.default_rng(7)


def mixed() -> m.Skin:
    faces = FACES.copy()
    turned = RANDOM.random(len(faces)) < 0.3
    faces[turned] = faces[turned][:, ::-1]
    return POINTS, faces


def first_turned(skin: m.Skin) -> m.Skin:
    """A skin of which the first tenth of the faces looks the wrong way."""
    points, faces = skin[0], skin[1].copy()
    few = len(faces) // 10
    faces[:few] = faces[:few, ::-1]
    return points, faces


def mirrored(skin: m.Skin) -> m.Skin:
    """The skin in a mirror that stands at its lower end, where the faces of both meet."""
    low = skin[0].min(axis=0)[0]
    return (skin[0] - (low, 0, 0)) * (-1, 1, 1) + (low, 0, 0), skin[1][:, ::-1]


def nearly_met() -> bytes:
    """Loose triangles whose corners miss each other by a ten-millionth of the size."""
    loose = POINTS[FACES].reshape(-1, 3) + RANDOM.uniform(-2e-6, 2e-6, (3 * len(FACES), 3))
    return m.obj_of((loose, np.arange(len(loose)).reshape(-1, 3)))


def quads() -> bytes:
    """A box of six faces of four corners, textured as programs write it."""
    box = [(x, y, z) for x in (0, 2) for y in (0, 3) for z in (0, 4)]
    faces = [(1, 2, 4, 3), (5, 7, 8, 6), (1, 5, 6, 2), (3, 4, 8, 7), (1, 3, 7, 5), (2, 6, 8, 4)]
    return m.obj(box, [[f"{i}/1/1" for i in face] for face in faces])


def l_prism(*, first: int = 0, axes: tuple[int, ...] = (0, 1, 2)) -> bytes:
    """A prism over an L: two faces of six corners, one of them inward.

    `first` is the corner that its faces begin with, `axes` the order of its coordinates.
    """
    ell = [(0, 0), (2, 0), (2, 1), (1, 1), (1, 2), (0, 2)]
    points = np.array([(x, y, z) for z in (0, 1) for x, y in ell])[:, axes]
    around = [(first + k) % 6 + 1 for k in range(6)]
    sides = [(i + 1, (i + 1) % 6 + 1, (i + 1) % 6 + 7, i + 7) for i in range(6)]
    return m.obj(points, [around[::-1], [i + 6 for i in around], *sides])


def obj_more(skin: m.Skin, scale: float, by: tuple[float, float, float]) -> bytes:
    """Another body for the end of an OBJ file: its faces count back from its own points."""
    points, faces = m.moved(skin, by, scale=scale)
    return b"\n" + m.obj(points, faces - len(points))


def counted_back() -> bytes:
    """A box whose faces count back from the newest point."""
    points, faces = m.BOX
    return m.obj(points, faces - len(points))


def two_placed() -> bytes:
    """A box at x 0 to 2, built twice: as it is; and moved along x by 5, then turned a quarter
    about z (x to y), then moved along x by 100.
    """
    built = (
        '<item objectid="1"/>'
        '<item objectid="2" transform="0 1 0 -1 0 0 0 0 1 100 0 0"/>'
    )  # fmt: skip
    parts = (
        '<object id="2"><components><component objectid="1" transform="1 0 0 0 1 0 0 0 1 5 0 0"/>'
        "</components></object>"
    )
    box = m.thing(m.moved(m.BOX, (1, 0, 0)))
    inside = f"<resources>{box}{parts}</resources><build>{built}</build>"
    return m.package(m.model(inside))


def with_support() -> bytes:
    inside = (
        f"<resources>{m.thing(m.BOX)}{m.thing(m.BALL, id=2, sort='support')}</resources>"
        '<build><item objectid="1"/><item objectid="2"/></build>'
    )
    return m.package(m.model(inside))


# Name, file, volume of what comes out, and a piece of what is said of it.
REPAIRED: tuple[tuple[str, Callable[[], bytes], float, str], ...] = (
    ("plain binary STL", lambda: m.stl(m.BALL), m.BALL_VOLUME, ""),
    ("plain text STL", lambda: m.stl_text(m.BALL), m.BALL_VOLUME, ""),
    ("upper-case text STL", lambda: m.stl_text(m.BOX).upper(), 24, ""),
    ("plain OBJ", lambda: m.obj_of(m.BALL), m.BALL_VOLUME, ""),
    ("plain 3MF", lambda: m.threemf(m.BALL), m.BALL_VOLUME, ""),
    ("inside out", lambda: m.stl(m.inside_out(m.BALL)), m.BALL_VOLUME, "right side out"),
    ("mixed winding", lambda: m.stl(mixed()), m.BALL_VOLUME, "faced the other way"),
    ("one face missing", lambda: m.stl((POINTS, FACES[1:])), m.BALL_VOLUME, "1 small hole"),
    ("box, one face missing", lambda: m.stl((m.BOX[0], m.BOX[1][1:])), 24, "1 small hole"),
    ("faces twice", lambda: m.stl((POINTS, np.vstack([FACES, FACES[:9]]))), m.BALL_VOLUME,
     "Dropped 9 facets that lay on another"),
    ("all faces twice", lambda: m.stl((POINTS, np.vstack([FACES, FACES]))), m.BALL_VOLUME,
     "changed the volume by -50.00%"),
    ("both sides", lambda: m.stl((POINTS, np.vstack([FACES, FACES[:, ::-1]]))), m.BALL_VOLUME,
     "encloses 0.0% of the volume"),
    ("faces without area", lambda: m.stl((POINTS, np.vstack([FACES, FACES[:3, [0, 0, 1]]]))),
     m.BALL_VOLUME, "Dropped 3 facets without any area"),
    ("two boxes over each other", lambda: m.stl(m.both(m.BOX, m.moved(m.BOX, (1, 0, 0)))), 36,
     "Joined 2 pieces"),
    ("two boxes side by side", lambda: m.stl(m.both(m.BOX, m.moved(m.BOX, (2, 0, 0)))), 48,
     "Joined 2 pieces"),
    ("two boxes with a wall between", lambda: m.stl(m.both(m.BOX, mirrored(m.BOX))), 48,
     "Dropped 4 facets that lay on another"),
    ("corners that nearly meet", nearly_met, m.BALL_VOLUME, ""),
    ("hollow of mixed winding", lambda: m.stl(m.both(
        m.BALL,
        first_turned(m.inside_out(m.moved(m.BALL, (0, 0, 0), scale=0.5))))),
     m.BALL_VOLUME * 7 / 8, "Found a hollow"),
    ("a core in a hollow", lambda: m.stl(m.both(
        m.BALL, m.inside_out(m.moved(m.BALL, (0, 0, 0), scale=0.5)),
        m.moved(m.BALL, (0, 0, 0), scale=0.25))),
     m.BALL_VOLUME * (1 - 1 / 8 + 1 / 64), "2 pieces that do not touch"),
    ("a bead in the corner of an L", lambda: l_prism() + obj_more(m.BOX, 0.2, (1.6, 1.5, 0.5)),
     3 + 24 * 0.2**3, "2 pieces that do not touch"),
    ("a crumb", lambda: m.stl(m.both(m.BALL, m.moved(m.BOX, (20, 0, 0), scale=0.01))),
     m.BALL_VOLUME, "Dropped 1 crumb too small"),
    ("two boxes on an edge", lambda: m.stl(m.both(m.BOX, m.moved(m.BOX, (2, 3, 0)))), 48,
     "2 pieces that do not touch"),
    ("two boxes apart", lambda: m.stl(m.both(m.BOX, m.moved(m.BOX, (9, 0, 0)))), 48,
     "2 pieces that do not touch"),
    ("a ball within a ball", lambda: m.stl(m.both(m.BALL, m.moved(m.BALL, (0, 0, 0), scale=0.5))),
     m.BALL_VOLUME, "Joined 2 pieces"),
    ("hollow", lambda: m.stl(m.both(m.BALL, m.inside_out(m.moved(m.BALL, (0, 0, 0), scale=0.5)))),
     m.BALL_VOLUME * 7 / 8, "Found a hollow"),
    ("hollow inside out",
     lambda: m.stl(m.both(m.inside_out(m.BALL), m.moved(m.BALL, (0, 0, 0), scale=0.5))),
     m.BALL_VOLUME * 7 / 8, "Found a hollow"),
    ("an eye inside out",
     lambda: m.stl(m.both(m.BOX, m.inside_out(m.moved(m.BOX, (9, 0, 0))))), 48,
     "Turned the skin right side out"),
    ("faces of four corners", quads, 24, ""),
    ("faces that bulge inward", l_prism, 3, ""),
    ("faces counted back", counted_back, 24, ""),
    ("far from its origin", lambda: m.obj_of(m.moved(m.BALL, (1e5, -1e5, 3e4))), m.BALL_VOLUME, ""),
    ("two items placed", two_placed, 48, "2 pieces that do not touch"),
    ("a support left out", with_support, 24, "Left out 1 supports"),
)  # fmt: skip
