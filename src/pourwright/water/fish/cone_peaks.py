"""The maker's own figures for an eye."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.base.band import Band, exact
from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.base.record import Record
from pourwright.spectrum.light import WAVELENGTHS_NM
from pourwright.water.fish.eye import Cone, Eye
from pourwright.water.fish.pigment import LONGEST_NM

_EVEN = Band(0.5, 1.0, 2.0)
_EITHER = Band(0.0, 0.5, 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class ConePeak(Record):
    """A class of cone, by the wavelength it answers to best."""

    peak_nm: float = number(
        "Wavelength it answers to best", low=float(WAVELENGTHS_NM[0]), high=LONGEST_NM
    )
    cells: float | None = number(
        "Its cells in one unit of the mosaic; left out, about as many as of the others",
        low=0.05, high=50, default=None,
    )  # fmt: skip


def own_eye(peaks: Sequence[ConePeak]) -> Eye:
    """An eye of one's own cones. Raises: BadInput for one cone, or two of one peak."""
    cones = sorted((_cone(p) for p in peaks), key=lambda c: c.peak_nm)
    if len({c.peak_nm for c in cones}) < len(cones):
        raise BadInput("cones", [c.peak_nm for c in cones], "needs a peak for each, all different")
    return Eye("own cones", tuple(cones), _EITHER)


def _cone(peak: ConePeak) -> Cone:
    return Cone(peak.peak_nm, _EVEN if peak.cells is None else exact(peak.cells))
