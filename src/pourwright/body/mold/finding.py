"""What is looked at in a finished mold."""

from __future__ import annotations

import itertools
from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.body.mold.mold import Mold
from pourwright.body.mold.overlap import common_rays, shared_mm3
from pourwright.body.mold.written import Written

# Skins that only touch share this much at most: a hundredth of a millimeter of a square centimeter.
TOUCH_MM3 = 1.0
# What rounding to a file may change of a part's volume.
VOLUME_MISS = 1e-4


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing looked at, what was found, and whether that is right."""

    name: str
    of: str
    found: str
    right: bool


def fit_findings(mold: Mold) -> Iterable[Finding]:
    """Parts and shot in one piece; nothing overlaps when the mold is shut."""
    for name, solid in [*((p.name, p.solid) for p in mold.parts), *mold.castings]:
        pieces = len(solid.decompose())
        yield Finding("one piece", name, f"{pieces}", pieces == 1)
    if mold.layout:
        pieces = len(mold.shot.decompose())
        yield Finding("one piece", "the shot, feed and all", f"{pieces}", pieces == 1)
    shut = [*mold.closed, ("what plastic fills", mold.shot)]
    rays = common_rays([solid for _, solid in shut])
    named = zip((name for name, _ in shut), rays, strict=True)
    for (first, a), (second, b) in itertools.combinations(named, 2):
        shared = shared_mm3(a, b)
        found = f"{shared:.3f} mm³, by rays {a.grid.pitch:.2f} mm apart"
        yield Finding("no overlap when shut", f"{first} and {second}", found, shared <= TOUCH_MM3)


def file_findings(file: Written) -> Iterable[Finding]:
    """A part's files read back closed, with the volume of the part."""
    for kind, left in (("STL", file.open_in_stl), ("3MF", file.open_in_threemf)):
        yield Finding(f"closed, read back from {kind}", file.name, f"{left} open edges", not left)
    miss = abs(file.volume_ml / file.meant_ml - 1)
    yield Finding("volume kept in the files", file.name, f"{miss:.1e} off", miss <= VOLUME_MISS)
