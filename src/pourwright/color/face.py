"""What the smooth face between plastic and air does to light: Fresnel and Saunderson."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.matter import water

# Plasticized PVC lies between its plasticizer (1.48 to 1.49) and its resin (1.54); estimate.
PLASTIC_INDEX = 1.5


@dataclass(frozen=True, slots=True)
class Face:
    """Shares of light that a face turns back: straight on, and diffuse from either side."""

    straight: float
    diffuse_out: float
    diffuse_in: float

    def seen(self, inside: Array) -> Array:
        """Reflectance seen from outside, mirror light left out, of one that exists inside.

        Source: Saunderson, J. Opt. Soc. Am. 32 (1942) 727, without the leading k1.
        """
        passed = (1 - self.straight) * (1 - self.diffuse_in)
        return np.asarray(passed * inside / (1 - self.diffuse_in * inside))

    def inside(self, seen: Array) -> Array:
        """Reflectance inside that would be seen so: the inverse of `seen`."""
        passed = (1 - self.straight) * (1 - self.diffuse_in)
        return np.asarray(seen / (passed + self.diffuse_in * seen))

    def ground_under_gap(self, ground: Array) -> Array:
        """A diffuse ground across a thin gap, as the plastic sees it from within.

        Light is taken as diffuse on both sides (Kubelka's sum for a face over a ground), which
        reads clear plastic too dark.
        """
        passed = (1 - self.diffuse_in) * (1 - self.diffuse_out)
        return np.asarray(self.diffuse_in + passed * ground / (1 - self.diffuse_out * ground))


def face_of(index: float) -> Face:
    """The face of a medium of that refractive index against what lies outside, index above 1.

    Straight on by Fresnel; diffuse from outside by Walsh's integral of Fresnel (Walsh 1926, as
    printed by Judd, J. Res. NBS 29 (1942) 329; from memory); diffuse from inside by reciprocity.

    >>> face = face_of(1.5)
    >>> round(face.straight, 4), round(face.diffuse_out, 4), round(face.diffuse_in, 4)
    (0.04, 0.0918, 0.5963)
    """
    n, n2, n4 = index, index**2, index**4
    outward = (
        0.5
        + (n - 1) * (3 * n + 1) / (6 * (n + 1) ** 2)
        + n2 * (n2 - 1) ** 2 / (n2 + 1) ** 3 * math.log((n - 1) / (n + 1))
        - 2 * n**3 * (n2 + 2 * n - 1) / ((n2 + 1) * (n4 - 1))
        + 8 * n4 * (n4 + 1) / ((n2 + 1) * (n4 - 1) ** 2) * math.log(n)
    )
    return Face(((n - 1) / (n + 1)) ** 2, outward, 1 - (1 - outward) / n2)


def mirrored_share(cosine: Array, index: float) -> Array:
    """Share of unpolarized light that a smooth face mirrors, by the cosine of incidence, 0 to 1.

    Source: Fresnel's equations (Born and Wolf, Principles of Optics, section 1.5.2).

    >>> mirrored_share(np.array([1.0, 0.0]), 1.5).round(9).tolist()
    [0.04, 1.0]
    """
    within = np.sqrt(index**2 - 1 + cosine**2)
    straight = (cosine - within) / (cosine + within)
    slanted = (index**2 * cosine - within) / (index**2 * cosine + within)
    return np.asarray((straight**2 + slanted**2) / 2)


WATER_INDEX = water.REFRACTIVE_INDEX
# In air, and under water.
PLASTIC_FACE = {False: face_of(PLASTIC_INDEX), True: face_of(PLASTIC_INDEX / WATER_INDEX)}
