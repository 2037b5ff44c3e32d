"""Mesh files made for tests, sound and otherwise, by writers of their own."""

from __future__ import annotations

import io
import struct
import zipfile
from collections.abc import Iterable

import numpy as np
import trimesh

CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
LINK = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"
LINKS = (
    '<?xml version="1.0" encoding="UTF-8"?>'
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    f'<Relationship Id="r0" Type="{LINK}" Target="/3D/3dmodel.model"/></Relationships>'
)
HEAD = '<?xml version="1.0" encoding="UTF-8"?>'

# A ball of radius 10 in 1,280 triangles.
_BALL = trimesh.creation.icosphere(subdivisions=3, radius=10)
BALL = (np.array(_BALL.vertices), np.array(_BALL.faces))
BALL_VOLUME = float(_BALL.volume)
_BOX = trimesh.creation.box((2, 3, 4))
BOX = (np.array(_BOX.vertices), np.array(_BOX.faces))

Skin = tuple[np.ndarray, np.ndarray]


def both(*skins: Skin) -> Skin:
    """Several skins as one."""
    starts = np.cumsum([0, *(len(points) for points, _ in skins)])
    corners = [faces + start for (_, faces), start in zip(skins, starts, strict=False)]
    return np.vstack([points for points, _ in skins]), np.vstack(corners)


def moved(skin: Skin, by: tuple[float, float, float], *, scale: float = 1.0) -> Skin:
    return skin[0] * scale + by, skin[1]


def inside_out(skin: Skin) -> Skin:
    return skin[0], skin[1][:, ::-1]


def stl(skin: Skin, *, promised: int | None = None) -> bytes:
    points, faces = skin
    rows = np.zeros(len(faces), np.dtype([("n", "<f4", 3), ("p", "<f4", (3, 3)), ("a", "<u2")]))
    rows["p"] = points[faces]
    count = len(faces) if promised is None else promised
    return b"made for a test".ljust(80) + struct.pack("<I", count) + rows.tobytes()


def stl_text(skin: Skin) -> bytes:
    points, faces = skin
    facet = (
        "facet normal 0 0 0\nouter loop\n" + 3 * "vertex %.9g %.9g %.9g\n" + "endloop\nendfacet\n"
    )
    body = _filled(facet, points[faces].reshape(-1, 9))
    return f"solid made for a test\n{body}endsolid made for a test\n".encode()


def _filled(row: str, values: np.ndarray) -> str:
    """A row of text for each row of values; one formatting of all is much faster than many."""
    return (row * len(values)) % tuple(values.ravel().tolist())


def obj(points: Iterable[Iterable[float]], faces: Iterable[Iterable[object]]) -> bytes:
    """Faces as written: indices from 1, or texts such as -4 or 3/1/2."""
    lines = ["# made for a test", "mtllib none.mtl", "o thing"]
    lines += ["v {:.9g} {:.9g} {:.9g}".format(*p) for p in points]
    lines += ["f " + " ".join(str(i) for i in face) for face in faces]
    return "\n".join(lines).encode()


def obj_of(skin: Skin) -> bytes:
    rows = _filled("v %.9g %.9g %.9g\n", skin[0]) + _filled("f %d %d %d\n", skin[1] + 1)
    return rows.encode()


def mesh_xml(skin: Skin) -> str:
    points = _filled('<vertex x="%.9g" y="%.9g" z="%.9g"/>', skin[0])
    faces = _filled('<triangle v1="%d" v2="%d" v3="%d"/>', skin[1])
    return f"<mesh><vertices>{points}</vertices><triangles>{faces}</triangles></mesh>"


def model(inside: str, *, unit: str = "millimeter", more: str = "", before: str = "") -> str:
    return f'{HEAD}{before}<model unit="{unit}" xmlns="{CORE}" {more}>{inside}</model>'


def thing(skin: Skin, *, id: int = 1, sort: str = "model") -> str:
    return f'<object id="{id}" type="{sort}">{mesh_xml(skin)}</object>'


def one_item(skin: Skin, **how: str) -> str:
    """A model of one object built once."""
    inside = f'<resources>{thing(skin)}</resources><build><item objectid="1"/></build>'
    return model(inside, **how)


def package(
    model_text: str | bytes, *, links: str = LINKS, more: Iterable[tuple[str, bytes]] = ()
) -> bytes:
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as made:
        made.writestr("_rels/.rels", links)
        made.writestr("3D/3dmodel.model", model_text)
        for name, body in more:
            made.writestr(name, body)
    return held.getvalue()


def threemf(skin: Skin, **how: str) -> bytes:
    return package(one_item(skin, **how))
