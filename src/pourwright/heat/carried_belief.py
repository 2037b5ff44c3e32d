"""A belief of the reduced cup as a person or a store hands it on."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.belief import Belief
from pourwright.base.errors import BadInput
from pourwright.base.field import number, parts, text
from pourwright.base.record import Record
from pourwright.heat.oven import MODEL, NAMES, VERSION

_COUNT = len(NAMES)
_LISTED = ", ".join(NAMES)


@dataclass(frozen=True, slots=True, kw_only=True)
class CarriedBelief(Record):
    """Joint normal of the reduced cup's parameters, in the order of `oven.NAMES`."""

    model: str = text("Model that learned it", most=40, default=MODEL)
    version: int = number("Version of that model", low=1, high=1000, default=VERSION)
    mean: tuple[float, ...] = parts(
        f"Means of {_LISTED}", least=_COUNT, most=_COUNT, low=-50, high=50
    )
    covariance: tuple[float, ...] = parts(
        "Their covariance, row by row", least=_COUNT**2, most=_COUNT**2, low=-1e4, high=1e4
    )

    def check(self) -> None:
        """Refuse the belief of another model, and a covariance that is none."""
        if (self.model, self.version) != (MODEL, VERSION):
            why = f"learned by another model; this one is {MODEL} version {VERSION}"
            raise BadInput("model", f"{self.model} version {self.version}", why)
        square = np.array(self.covariance).reshape(_COUNT, _COUNT)
        symmetric = np.allclose(square, square.T, rtol=1e-6, atol=1e-12)
        if not symmetric or np.linalg.eigvalsh(square).min() <= 0:
            why = "must be symmetric with every variance above zero"
            raise BadInput("covariance", list(self.covariance), why)

    def belief(self) -> Belief:
        """The belief itself."""
        rows = tuple(self.covariance[i : i + _COUNT] for i in range(0, _COUNT**2, _COUNT))
        return Belief(self.model, self.version, NAMES, self.mean, rows)


def carried_belief(belief: Belief) -> CarriedBelief:
    """A belief ready to be handed on."""
    flat = tuple(v for row in belief.covariance for v in row)
    return CarriedBelief(
        model=belief.model, version=belief.version, mean=belief.mean, covariance=flat
    )
