"""What is told of a mold."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.field import out
from pourwright.body.mold.feed import FeedSlice


@dataclass(frozen=True, slots=True)
class MoldPart:
    """A part as it lies on the bench, its working face up, its lowest corner at the origin."""

    name: str = out("What it is")
    copies: int = out("How many of it are wanted")
    volume_ml: float = out("Volume")
    triangles: int = out("Triangles in its files")
    length_mm: float = out("Extent along x")
    width_mm: float = out("Extent along y")
    height_mm: float = out("Extent along z")
    stl_base64: str = out("STL file, millimeters, as base64")
    threemf_base64: str = out("3MF file as base64")


@dataclass(frozen=True, slots=True)
class Casting:
    """What is poured over a master."""

    name: str = out("Which casting")
    pour_ml: float = out("Casting material to mix, without spills")


@dataclass(frozen=True, slots=True)
class VentLine:
    """A vent in the parting plane, x from the nose, y from the middle of the row of cavities."""

    from_x_mm: float = out("Where it begins, along the bait")
    from_y_mm: float = out("Where it begins, across")
    to_x_mm: float = out("Where it ends, along the bait")
    to_y_mm: float = out("Where it ends, across")
    length_mm: float = out("Length")


@dataclass(frozen=True, slots=True)
class Unvented:
    """A place where filling ends and no straight vent gets out."""

    x_mm: float = out("Where, along the bait")
    y_mm: float = out("Where, across")
    thick_mm: float = out("How thick the cavity is there")
    cure: str = out("What would let the air out")


@dataclass(frozen=True, slots=True)
class OneMore:
    """The same mold with one cavity more."""

    cavities: int = out("Cavities")
    shot_ml: float = out("Plastic of one shot")
    waste_share: float = out("Share of a shot that is feed, 0 to 1")


@dataclass(frozen=True, slots=True)
class Check:
    """Something that was looked at in the finished mold and found right."""

    name: str = out("What was looked at")
    of: str = out("Which part, or which two")
    found: str = out("What was found")


@dataclass(frozen=True, slots=True)
class MoldAnswer:
    """A mold, its files and its figures."""

    parts: tuple[MoldPart, ...] = out("Parts with their files")
    castings: tuple[Casting, ...] = out("What is cast; empty where the parts are the mold")
    cavity_ml: float = out("Plastic in one cavity")
    feed_ml: float = out("Plastic in mouth, sprue, runner and gates")
    shot_ml: float = out("Plastic of one shot")
    waste_share: float = out("Share of a shot that is feed, 0 to 1")
    one_more: OneMore | None = out("With one cavity more; null for an open mold or a full one")
    shadow_cm2: float = out("Cavities and feed seen along the pull")
    bait_length_mm: Band = out("Length of a bait once it has shrunk")
    gate_mm: float | None = out("Gate at the nose; null for an open mold")
    pitch_mm: float | None = out("From one cavity to the next; null where there is but one")
    feed: tuple[FeedSlice, ...] = out("Stretches of the feed, from the mouth on")
    block_length_mm: float = out("Length of the mold, shut")
    block_width_mm: float = out("Width of the mold, shut")
    block_height_mm: float = out("Height of the mold, shut")
    vents: tuple[VentLine, ...] = out("Vents, all in the half with sockets")
    unvented: tuple[Unvented, ...] = out("Ends without a vent")
    checks: tuple[Check, ...] = out("Checks that the files and the shut mold passed")
    cut_again: int | None = out("Times it was cut anew until all checks passed; null for none")
    notes: tuple[str, ...] = out("What the figures rest on, and what to mind")
