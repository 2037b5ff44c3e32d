"""Mesh files that mean no body or are up to no good, and why they are refused."""

from __future__ import annotations

import io
import stat
import zipfile
from collections.abc import Callable

import numpy as np

import mesh_files as m

POINTS, FACES = m.BALL
RANDOM = np.random.default_rng(11)


def without(share: float) -> m.Skin:
    return POINTS, FACES[RANDOM.random(len(FACES)) > share]


def no_number(value: float) -> bytes:
    points = POINTS.copy()
    points[5, 1] = value
    return m.stl((points, FACES))


BOMB = "<!DOCTYPE lolz [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;'>]>"
OUTSIDE = "<!DOCTYPE x [<!ENTITY secret SYSTEM 'file:///etc/hostname'>]>"


def nested(depth: int) -> bytes:
    """Each object holds the one before twice: 2^depth boxes in a few lines."""
    objects = [m.thing(m.BOX)]
    objects += [
        f'<object id="{k}"><components><component objectid="{k - 1}"/>'
        f'<component objectid="{k - 1}"/></components></object>'
        for k in range(2, depth + 2)
    ]
    build = f'<build><item objectid="{depth + 1}"/></build>'
    return m.package(m.model(f"<resources>{''.join(objects)}</resources>{build}"))


def link_member() -> bytes:
    held = io.BytesIO(m.threemf(m.BOX))
    with zipfile.ZipFile(held, "a") as made:
        link = zipfile.ZipInfo("3D/other.model")
        link.external_attr = (stat.S_IFLNK | 0o777) << 16
        made.writestr(link, "/etc/hostname")
    return held.getvalue()


def locked() -> bytes:
    """A package whose directory says that a part is encrypted."""
    data = bytearray(m.threemf(m.BOX))
    entry = data.rfind(b"PK\x01\x02")
    data[entry + 8] |= 1
    return bytes(data)


def zip_bomb() -> bytes:
    return m.package(m.one_item(m.BOX), more=[("3D/texture.png", bytes(130_000_000))])


def lying_zip() -> bytes:
    """A bomb whose directory says that it is small."""
    data = bytearray(m.package(b" " * 60_000_000 + m.one_item(m.BOX).encode()))
    for mark, size_at in ((b"PK\x03\x04", 22), (b"PK\x01\x02", 24)):
        place = data.find(b"3D/3dmodel.model")
        while place >= 0:
            entry = data.rfind(mark, 0, place)
            if place - entry in {30, 46}:
                data[entry + size_at : entry + size_at + 4] = (900_000).to_bytes(4, "little")
            place = data.find(b"3D/3dmodel.model", place + 1)
    return bytes(data)


def twice_named() -> bytes:
    return m.package(m.one_item(m.BOX), more=[("3D/3DMODEL.model", b"other")])


def reaching_over() -> bytes:
    """Two boxes in a model, of which the first names a ninth point."""
    first = m.thing(m.BOX).replace('v1="0"', 'v1="8"')
    items = '<item objectid="1"/><item objectid="2"/>'
    objects = f"<resources>{first}{m.thing(m.BOX, id=2)}</resources>"
    return m.package(m.model(f"{objects}<build>{items}</build>"))


def components(inside: str) -> bytes:
    return m.package(m.model(inside))


def strip() -> m.Skin:
    """A strip with half a twist, closed to a ring."""
    turns = np.linspace(0, 2 * np.pi, 40, endpoint=False)
    width = np.array([-1.0, 1.0])
    x = (10 + width[:, None] * np.cos(turns / 2)) * np.cos(turns)
    y = (10 + width[:, None] * np.cos(turns / 2)) * np.sin(turns)
    z = width[:, None] * np.sin(turns / 2)
    points = np.stack([x, y, z], axis=2).reshape(-1, 3)
    k = np.arange(40)
    after = (k + 1) % 40
    here = np.stack([k, k + 40], axis=1)
    there = np.stack([after, after + 40], axis=1)
    there[-1] = there[-1][::-1]
    faces = np.vstack(
        [np.stack([here[:, 0], there[:, 0], there[:, 1]], axis=1),
         np.stack([here[:, 0], there[:, 1], here[:, 1]], axis=1)]
    )  # fmt: skip
    return points, faces


def zipped(parts: dict[str, bytes]) -> bytes:
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as made:
        for name, body in parts.items():
            made.writestr(name, body)
    return held.getvalue()


def torn(data: bytes) -> bytes:
    middle = data.find(b"3D/3dmodel.model") + 2000
    return data[:middle] + bytes(200) + data[middle + 200 :]


def million() -> bytes:
    """A million triangles of fifty bytes are more bytes than any file may have."""
    return m.stl((POINTS, np.tile(FACES, (782, 1))))


def million_faces() -> bytes:
    return b"v 0 0 0\nv 1 0 0\nv 0 1 0\n" + b"f 1 2 3\n" * 1_000_000


def crowd(count: int) -> m.Skin:
    return m.both(*(m.moved(m.BOX, (9.0 * k, 0, 0)) for k in range(count)))


# Name, file, and a piece of why it is refused.
BROKEN: tuple[tuple[str, Callable[[], bytes], str], ...] = (
    ("nothing", lambda: b"", "is empty"),
    ("big hole", lambda: m.stl((POINTS, FACES[POINTS[FACES].mean(axis=1)[:, 0] < 8])),
     "is open: at most 20 holes of together 1% .*1 hole,"),
    ("2 % of the faces missing", lambda: m.stl(without(0.02)), "is open"),
    ("flat sheet", lambda: m.stl((POINTS, FACES[:1])), "is open"),
    ("sheet of both sides",
     lambda: m.stl((m.BOX[0], np.vstack([m.BOX[1][:2], m.BOX[1][:2, ::-1]]))),
     "is open"),
    ("as thin as a hair's shadow", lambda: m.stl((m.BOX[0] * (1, 1, 1e-7), m.BOX[1])),
     "no thickness"),
    ("a closed sheet", lambda: m.obj(
        [(0, 0, 0), (9, 0, 0), (9, 9, 0), (0, 9, 0)], [(1, 2, 3), (1, 3, 4), (2, 1, 4), (2, 4, 3)]),
     "no thickness"),
    ("not a number", lambda: no_number(float("nan")), "no number, or infinite .*point"),
    ("infinite", lambda: no_number(float("inf")), "no number, or infinite"),
    ("text not a number", lambda: m.stl_text(m.BOX).replace(b"1.5", b"nan"), "no number"),
    ("text no number at all", lambda: m.stl_text(m.BOX).replace(b"1.5", b"wide"), "is no triangle"),
    ("header promises more", lambda: m.stl(m.BALL, promised=4_000_000_000),
     "says 4,000,000,000 triangles but holds 1,280.0"),
    ("header promises less", lambda: m.stl(m.BALL, promised=12), "says 12 triangles"),
    ("cut short", lambda: m.stl(m.BALL)[:-70], "cut short"),
    ("shorter than a header", lambda: b"\0" * 50, "cut short"),
    ("text cut short", lambda: m.stl_text(m.BALL)[:-200], "is no STL after line"),
    ("text junk", lambda: b"I am no mesh at all\n" * 50, "neither an STL, a 3MF nor an OBJ"),
    ("solid junk", lambda: b"solid\n" + b"rubbish endfacet\n" * 50, "is no STL after line"),
    ("noise", lambda: RANDOM.bytes(5000), "neither|cut short"),
    ("no triangles", lambda: m.stl((POINTS, FACES[:0])), "no surface"),
    ("a single point", lambda: m.stl((POINTS * 0, FACES)), "single point"),
    ("smaller than dust", lambda: m.obj_of((m.BOX[0] * 1e-120, m.BOX[1])), "single point"),
    ("too far away", lambda: m.stl(m.moved(m.BOX, (3e30, 0, 0))), "farther than"),
    ("one side only", lambda: m.stl(strip()), "one side only|is open"),
    ("index too high", lambda: m.obj(POINTS[:4], [(1, 2, 9)]), "named by a face"),
    ("index zero", lambda: m.obj(POINTS[:4], [(0, 1, 2)]), "not there"),
    ("index too far back", lambda: m.obj(POINTS[:4], [(-1, -2, -5)]), r"not there \(line 8\)"),
    ("index of letters", lambda: m.obj(POINTS[:4], [("a", "b", "c")]), "is no face"),
    ("a face of two", lambda: m.obj(POINTS[:4], [(1, 2)]), "3 to 400 corners"),
    ("a point of two", lambda: m.obj_of(m.BOX) + b"\nv 1 2\n", "is no point"),
    ("faces without points", lambda: b"v 0 0 0\nf 1 1 1\n", "single point"),
    ("a wrong zip", lambda: m.package("hello", links="<x/>"), "one model part"),
    ("a zip of anything", lambda: zipped({"notes.txt": b"hello"}), "is no 3MF"),
    ("an empty zip", lambda: zipped({}), "is no 3MF"),
    ("zip cut short", lambda: m.threemf(m.BALL)[:-400], "damaged"),
    ("zip with a torn part", lambda: torn(m.threemf(m.BALL)), "damaged|no sound XML"),
    ("no model part",
     lambda: m.package(m.one_item(m.BOX), links=m.LINKS.replace("3dmodel.model", "a")),
     "one model part"),
    ("model elsewhere", lambda: m.package(
        m.one_item(m.BOX), links=m.LINKS.replace('Target="/', 'TargetMode="External" Target="/')),
     "one model part"),
    ("a part that leads out", lambda: m.package(m.one_item(m.BOX), more=[("../../x", b"")]),
     "leads out"),
    ("an absolute part", lambda: m.package(m.one_item(m.BOX), more=[("/etc/x", b"")]), "leads out"),
    ("a part named twice", twice_named, "twice"),
    ("a link as part", link_member, "is a link"),
    ("an encrypted part", locked, "is encrypted"),
    ("a zip of 130 MB", zip_bomb, "must unpack to at most"),
    ("a zip that swells", lambda: m.package(m.one_item(m.BOX), more=[("x", bytes(90_000_000))]),
     "100 times"),
    ("a zip that lies", lying_zip, "damaged|no sound XML"),
    ("a zip of many parts", lambda: m.package("", more=[(f"{k}", b"") for k in range(2000)]),
     "more than 1000 parts"),
    ("an entity bomb", lambda: m.package(m.one_item(m.BOX, before=BOMB)), "document type"),
    ("an outside entity", lambda: m.package(m.one_item(m.BOX, before=OUTSIDE)), "document type"),
    ("links with entities", lambda: m.package(m.one_item(m.BOX), links=BOMB + m.LINKS),
     "document type|no sound XML"),
    ("an unknown unit", lambda: m.threemf(m.BOX, unit="cubit"), "no unit of 3MF"),
    ("an extension it needs",
     lambda: m.threemf(m.BOX, more='requiredextensions="p"'), "extensions"),
    ("objects within objects", lambda: nested(15), "200,000 triangles"),
    ("objects nested deep", lambda: nested(20), "nested deeper"),
    ("an object of itself", lambda: components(
        '<resources><object id="1"><components><component objectid="1"/></components></object>'
        '</resources><build><item objectid="1"/></build>'), "stands before its use"),
    ("an object twice", lambda: components(f"<resources>{2 * m.thing(m.BOX)}</resources>"),
     "id of two objects"),
    ("nothing built", lambda: components(f"<resources>{m.thing(m.BOX)}</resources><build/>"),
     "builds nothing"),
    ("only empty objects built", lambda: components(
        '<resources><object id="1"/></resources><build><item objectid="1"/></build>'),
     "no surface"),
    ("a point of the next object", reaching_over, "number of a point that is not there"),
    ("a transform of eleven", lambda: components(
        f"<resources>{m.thing(m.BOX)}</resources>"
        '<build><item objectid="1" transform="1 0 0 0 1 0 0 0 1 0 0"/></build>'), "twelve numbers"),
    ("a transform of nothing", lambda: components(
        f"<resources>{m.thing(m.BOX)}</resources>"
        '<build><item objectid="1" transform="0 0 0 0 0 0 0 0 0 0 0 0"/></build>'), "single point"),
    ("another namespace", lambda: m.package(m.one_item(m.BOX).replace("2015/02", "2099/01")),
     "builds nothing"),
    ("a million triangles", million, "at most 40,000,000 bytes"),
    ("a million faces", million_faces, "200,000"),
    ("more pieces than anybody needs", lambda: m.stl(crowd(400)), "at most 300"),
)  # fmt: skip
