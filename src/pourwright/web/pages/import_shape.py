"""A bait's shape from a file: choose it, say its unit, look how it lies, keep it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeVar

from pourwright.actions.import_shape import Look, keep_shape, look_at, read_shape
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.base.mesh import LengthUnit, Mesh
from pourwright.base.units import UNITS
from pourwright.body.packed_mesh import packed, unpacked
from pourwright.body.placing import FileAxis, Placing
from pourwright.body.unit_question import UnitWeight
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.portrait import Portrait, outlined
from pourwright.web.show import Settings, exactly, opened

E = TypeVar("E", bound=StrEnum)

ADDRESS = "/baits/import"
MOST_NAME = 60
# The outline is drawn this long, so that its margin looks as on other outlines.
DRAWN_MM = 100.0
SPOKEN = {
    LengthUnit.MM: "Millimeters",
    LengthUnit.CM: "Centimeters",
    LengthUnit.M: "Meters",
    LengthUnit.IN: "Inches",
    LengthUnit.FT: "Feet",
    LengthUnit.UM: "Micrometers",
}


@dataclass(frozen=True, slots=True)
class UnitChoice:
    """A unit the file may be drawn in, and what the bait would be then."""

    unit: str
    label: str
    length: str
    weight: str
    likely: bool
    chosen: bool


@dataclass(frozen=True, slots=True)
class FoundContext:
    """What a file holds."""

    packed: str
    said: str
    source: str
    remarks: str
    notes: tuple[str, ...]
    units: tuple[UnitChoice, ...]
    outline: Portrait
    axes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ImportContext:
    """The page: before a file is chosen, and after."""

    title: str
    typed: Mapping[str, str]
    found: FoundContext | None
    refused: str


@dataclass(frozen=True, slots=True)
class _Held:
    """A mesh between two visits, the same as text, and the name of its file."""

    mesh: Mesh
    packed: str
    source: str


def import_shape(visit: Visit) -> Show | Go:
    """Read a file, show what it holds, keep it as a bait."""
    typed = dict(visit.sent)
    if not visit.posted:
        return _page(visit, typed, None, None)
    held = None
    try:
        held = _held(visit, typed)
        if typed.get("do") != "keep":
            return _page(visit, typed, held, None)
        return Go(f"/baits/{_keep(visit, typed, held)}")
    except PourwrightError as error:
        return _page(visit, typed, held, error)


def _held(visit: Visit, typed: Mapping[str, str]) -> _Held:
    """The mesh of the file just sent, or the one the page carries along."""
    upload = visit.files.get("file")
    if upload is not None and upload.filename:
        mesh = read_shape(visit.world, upload.file.read())
        return _Held(mesh, packed(mesh.points, mesh.triangles), upload.filename[-120:])
    text = typed.get("packed", "")
    if not text:
        raise BadInput("file", None, "choose an STL, 3MF or OBJ file first")
    unit = _one_of(LengthUnit, typed.get("said", ""), "said")
    mesh = Mesh(*unpacked(text), unit, _remarks(typed))
    return _Held(mesh, text, typed.get("source", "")[-120:])


def _remarks(typed: Mapping[str, str]) -> tuple[str, ...]:
    try:
        found = json.loads(typed.get("remarks", "[]"))
    except ValueError:
        found = None
    if not isinstance(found, list) or not all(isinstance(words, str) for words in found):
        raise BadInput("remarks", typed.get("remarks"), "must be a list of words")
    return tuple(found)


def _keep(visit: Visit, typed: Mapping[str, str], held: _Held) -> str:
    name = typed.get("name", "").strip()
    if not 0 < len(name) <= MOST_NAME:
        raise BadInput("name", name, "give the bait a name")
    stored = keep_shape(
        visit.world,
        held.mesh,
        unit=_one_of(LengthUnit, typed.get("unit", ""), "unit"),
        placing=_placing(typed),
        name=name,
        source=held.source or "a file",
    )
    return stored.id


def _placing(typed: Mapping[str, str]) -> Placing:
    return Placing(
        length=_one_of(FileAxis, typed.get("length", ""), "length"),
        pull=_one_of(FileAxis, typed.get("pull", ""), "pull"),
        nose_at_other_end="nose" in typed,
        upside_down="down" in typed,
        on_side="side" in typed,
    )


def _one_of(kind: type[E], text: str, field: str) -> E | None:
    if not text:
        return None
    try:
        return kind(text)
    except ValueError:
        raise BadInput(field, text, f"must be one of {', '.join(kind)}") from None


def _page(
    visit: Visit, typed: Mapping[str, str], held: _Held | None, error: PourwrightError | None
) -> Show:
    found = None
    if held is not None:
        try:
            look = look_at(held.mesh, _placing(typed))
        except BadInput as wrong:
            error, look = error or wrong, look_at(held.mesh, Placing())
        found = _found(held, look, typed, visit.settings)
    keys = ("name", "length", "pull", "nose", "down", "side")
    context = ImportContext(
        "A shape from a file",
        {key: typed.get(key, "") for key in keys},
        found,
        str(error) if error else "",
    )
    return Show("bait/import.html", context, error.http_status if error else 200)


def _found(held: _Held, look: Look, typed: Mapping[str, str], settings: Settings) -> FoundContext:
    mesh = held.mesh
    rings = tuple(tuple((x * DRAWN_MM, y * DRAWN_MM) for x, y in ring) for ring in look.outline)
    return FoundContext(
        packed=held.packed,
        said=mesh.unit.value if mesh.unit else "",
        source=held.source,
        remarks=json.dumps(mesh.notes),
        notes=tuple(opened(words) for words in (*mesh.notes, *look.notes)),
        units=tuple(_unit_choice(it, typed, settings) for it in look.units),
        outline=outlined(rings),
        axes=tuple(axis.value for axis in FileAxis),
    )


def _unit_choice(it: UnitWeight, typed: Mapping[str, str], settings: Settings) -> UnitChoice:
    return UnitChoice(
        unit=it.unit.value,
        label=SPOKEN[it.unit],
        length=exactly(round(it.length_mm, 1), UNITS["mm"], settings),
        weight=exactly(float(f"{it.weight_g:.3g}"), UNITS["g"], settings),
        likely=it.likely,
        chosen=typed.get("unit") == it.unit.value,
    )


IMPORT_PAGES = (Page(ADDRESS, import_shape, ("GET", "POST"), takes_file=True),)
