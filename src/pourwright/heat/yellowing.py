"""How yellow plastic of a known dose is, from the maker's own samples."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput

LEAST_POINTS = 3
# Past its budget the plastic yellows faster; with so many samples there, that bend is fitted.
_BEND_AT, _TO_BEND = 1.0, 2


@dataclass(frozen=True, slots=True)
class Yellowing:
    """Yellowness = start + slope·dose + bend·(dose above 1)², between two doses.

    `spread` is the standard deviation of the samples about the line.
    """

    start: float
    slope: float
    bend: float
    spread: float
    lowest: float
    highest: float

    def at(self, dose: Array) -> Array:
        """Yellowness at a dose."""
        past = np.maximum(dose - _BEND_AT, 0.0)
        return np.asarray(self.start + self.slope * dose + self.bend * past**2)


def yellowing_of(samples: Sequence[tuple[float, float]]) -> Yellowing:
    """Least squares through doses and yellowness.

    Raises: BadInput for fewer than three samples, or for samples of hardly different doses.
    """
    if len(samples) < LEAST_POINTS:
        why = f"needs at least {LEAST_POINTS} samples of known dose, or none"
        raise BadInput("yellowed", len(samples), why)
    dose, yellow = np.array(samples, dtype=float).T
    if np.ptp(dose) < 0.05:
        raise BadInput("yellowed", float(np.ptp(dose)), "holds doses too alike to draw a line")
    past = np.maximum(dose - _BEND_AT, 0.0) ** 2
    columns = [np.ones_like(dose), dose]
    if (past > 0).sum() >= _TO_BEND and len(dose) > LEAST_POINTS:
        columns.append(past)
    table = np.stack(columns, axis=1)
    found = np.linalg.lstsq(table, yellow, rcond=None)[0]
    left = len(dose) - len(found)
    spread = float(np.sqrt(np.sum((yellow - table @ found) ** 2) / left))
    bend = float(found[2]) if len(found) > 2 else 0.0
    return Yellowing(
        float(found[0]), float(found[1]), bend, spread, float(dose.min()), float(dose.max())
    )
