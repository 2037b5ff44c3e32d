"""The model part of a 3MF file, read as a stream: objects, parts of objects, what is built."""

from __future__ import annotations

from array import array
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from pourwright.base.mesh import LengthUnit
from pourwright.intake.mesh_soup import MOST_POINTS, MOST_TRIANGLES, check_count, refused
from pourwright.intake.xml_stream import read_elements

# 3MF Core Specification 1.3 (2021), section 3.4: the units a model may be drawn in.
UNITS = {
    "micron": LengthUnit.UM,
    "millimeter": LengthUnit.MM,
    "centimeter": LengthUnit.CM,
    "inch": LengthUnit.IN,
    "foot": LengthUnit.FT,
    "meter": LengthUnit.M,
}
CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
MOST_OBJECTS, MOST_DEPTH = 2000, 16

Matrix = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Placed:
    """An object put somewhere: points as rows times the matrix (4, 4)."""

    object: str
    matrix: Matrix


@dataclass(slots=True, eq=False)
class Thing:
    """An object: its own skin, or placed others.

    `count` is its triangles with all its parts, or a third of its points where those are more.
    """

    sort: str = "model"
    points: array[float] = field(default_factory=lambda: array("d"))
    triangles: array[int] = field(default_factory=lambda: array("q"))
    parts: list[Placed] = field(default_factory=list)
    count: int = 0
    depth: int = 1


@dataclass(slots=True, eq=False)
class Model:
    """Everything of a model that a skin is made of."""

    unit: LengthUnit = LengthUnit.MM
    things: dict[str, Thing] = field(default_factory=dict)
    build: list[Placed] = field(default_factory=list)


def model_of(pieces: Iterable[bytes]) -> Model:
    """The model in pieces of XML. Raises: BadInput for what is no model, or an unsafe one."""
    reading = _Reading()
    read_elements(pieces, "a 3MF model", reading.start, reading.end)
    return reading.model


class _Reading:
    """Collects the core elements and passes over all others."""

    def __init__(self) -> None:
        self.model = Model()
        self._now, self._key = Thing(), ""
        self._points = self._triangles = 0
        self._open: dict[str, Callable[[Mapping[str, str]], None]] = {
            f"{CORE} model": self._start_model,
            f"{CORE} object": self._start_object,
            f"{CORE} vertex": self._vertex,
            f"{CORE} triangle": self._triangle,
            f"{CORE} component": self._component,
            f"{CORE} item": self._item,
        }

    def start(self, name: str, said: Mapping[str, str]) -> None:
        """An element begins."""
        known = self._open.get(name)
        if known is not None:
            known(said)

    def end(self, name: str) -> None:
        """An object counts once it has ended, so that none can hold itself."""
        if name == f"{CORE} object":
            self._end_object()

    def _start_model(self, said: Mapping[str, str]) -> None:
        unit = said.get("unit", "millimeter")
        if unit not in UNITS:
            raise refused(unit[:40], f"is no unit of 3MF: {', '.join(UNITS)}")
        needs = said.get("requiredextensions", "").strip()
        if needs:
            why = "are extensions this 3MF file cannot do without; save it as plain 3MF or as STL"
            raise refused(needs[:40], why)
        self.model.unit = UNITS[unit]

    def _start_object(self, said: Mapping[str, str]) -> None:
        key = _said(said, "id")
        if key in self.model.things:
            raise refused(key[:40], "is the id of two objects")
        if len(self.model.things) >= MOST_OBJECTS:
            raise refused(f"{MOST_OBJECTS} objects", "are too many")
        self._now = Thing(sort=said.get("type", "model"))
        self._key = key

    def _end_object(self) -> None:
        now = self._now
        inner = [self.model.things[p.object] for p in now.parts]
        own = max(len(now.triangles) // 3, len(now.points) // 9)
        now.count = own + sum(thing.count for thing in inner)
        now.depth = 1 + max((thing.depth for thing in inner), default=0)
        if now.depth > MOST_DEPTH:
            raise refused(f"object {self._key[:40]}", f"is nested deeper than {MOST_DEPTH}")
        self.model.things[self._key] = now

    def _vertex(self, said: Mapping[str, str]) -> None:
        self._points += 1
        if self._points > MOST_POINTS:
            raise refused("a 3MF model", f"has more than {MOST_POINTS:,} points")
        self._now.points.extend([_number(said, key) for key in "xyz"])

    def _triangle(self, said: Mapping[str, str]) -> None:
        self._triangles += 1
        if self._triangles > MOST_TRIANGLES:
            check_count(self._triangles)
        corners = [_whole(_said(said, key), key) for key in ("v1", "v2", "v3")]
        if max(corners) >= len(self._now.points) // 3:
            raise refused(max(corners), "is the number of a point that is not there")
        self._now.triangles.extend(corners)

    def _component(self, said: Mapping[str, str]) -> None:
        self._now.parts.append(self._placed(said))

    def _item(self, said: Mapping[str, str]) -> None:
        self.model.build.append(self._placed(said))

    def _placed(self, said: Mapping[str, str]) -> Placed:
        key = _said(said, "objectid")
        if key not in self.model.things:
            raise refused(key[:40], "is no object that stands before its use")
        return Placed(key, _matrix(said.get("transform", "")))


def _said(said: Mapping[str, str], key: str) -> str:
    if key not in said:
        raise refused("a 3MF model", f"leaves out {key}")
    return said[key]


def _number(said: Mapping[str, str], key: str) -> float:
    text = _said(said, key)
    try:
        return float(text)
    except ValueError:
        raise refused(text[:40], f"is no number for {key}") from None


def _whole(text: str, key: str) -> int:
    if not (text.isascii() and text.isdigit() and len(text) < 10):
        raise refused(text[:40], f"is no number of a point for {key}")
    return int(text)


def _matrix(text: str) -> Matrix:
    """Twelve numbers, row by row; the last row moves. 3MF Core Specification 1.3, section 3.3."""
    matrix = np.eye(4)
    if not text.strip():
        return matrix
    try:
        numbers = [float(word) for word in text.split()]
    except ValueError:
        numbers = []
    if len(numbers) != 12:
        raise refused(text[:40], "is no transform of twelve numbers")
    matrix[:, :3] = np.array(numbers).reshape(4, 3)
    return matrix
