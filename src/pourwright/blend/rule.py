"""How softness blends: the logarithm of the modulus runs straight with the share by weight."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt
from pourwright.base.errors import NoAnswer
from pourwright.base.source import estimate, published
from pourwright.blend.gauge import log_modulus_of_oo, oo_of_log_modulus

LOG_RULE = estimate("the logarithm of the modulus runs straight with the share by weight")
SOFTENER_RULE = published(
    "Li and Aoki, Macromolecules 31 (1998) 740: the modulus of PVC gels in bis(2-ethylhexyl) "
    "phthalate grows with (c - c_gel)^2.6; carried to bait plastic, an estimate"
)
SOFTENER_POWER = Doubt(
    "how softener thins the resin", Band(2.0, 2.6, 3.5), "pour a puck of the blend and read it"
)


@dataclass(frozen=True, slots=True)
class Line:
    """Logarithm of the modulus against the share of the first grade; draws along the arrays."""

    at_none: Array
    at_all: Array

    def at(self, share: float) -> Array:
        """Logarithm of the modulus at a share."""
        return np.asarray(self.at_none + (self.at_all - self.at_none) * share)

    def share_at(self, log_modulus: Array) -> Array:
        """Share at which the line reaches a modulus; may lie outside 0 to 1.

        Raises: NoAnswer if both grades are equally hard.
        """
        rise = self.at_all - self.at_none
        if abs(rise[0]) < 1e-6:
            raise NoAnswer("both grades are equally hard: no blend differs from them")
        return np.asarray((log_modulus - self.at_none) / np.where(rise == 0, rise[0], rise))


def line_through(shares: Sequence[float], log_moduli: Sequence[Array]) -> Line:
    """The straight line closest to measured pucks (least squares); shares must differ."""
    x = np.array(shares)
    y = np.stack(log_moduli)
    off = x - x.mean()
    slope = off @ y / float(off @ off)
    at_none = y.mean(axis=0) - slope * x.mean()
    return Line(at_none, at_none + slope)


def blended(shares: Sequence[float], log_moduli: Sequence[Array]) -> Array:
    """Logarithm of the modulus of a blend by the log rule; the shares add up to one."""
    return np.asarray(np.array(shares) @ np.stack(log_moduli))


def mixedness(shares: Sequence[float]) -> float:
    """0 for one grade alone, 1 for equal shares of all."""
    count = len(shares)
    return (1 - sum(s * s for s in shares)) * count / (count - 1)


def softening(*, softener_per_100g: float, power: Array, substitution: float = 1.0) -> Array:
    """By how much softener lowers the logarithm of the modulus.

    `substitution` is how many parts of it do what one of bis(2-ethylhexyl) phthalate does.

    Li and Aoki (1998) far above the gel point: E ~ c^2.6; 100 g become 100 + s g, so the resin's
    share c falls by 1 + s/100.
    """
    return np.asarray(power * np.log1p(softener_per_100g / substitution / 100))


def blend_oo(grams: Sequence[float], hardness_oo: Sequence[float]) -> float:
    """Shore OO of a blend by the log rule, without its band.

    >>> blend_oo((50, 50), (40, 40))
    40.0
    """
    shares = [g / sum(grams) for g in grams]
    logs = [np.array([log_modulus_of_oo(h)]) for h in hardness_oo]
    return round(float(oo_of_log_modulus(blended(shares, logs))[0]), 6)
