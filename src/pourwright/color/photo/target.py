"""Printed targets whose reflectances are known."""

from __future__ import annotations

from abc import abstractmethod
from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import parts
from pourwright.base.kind import Kinds
from pourwright.base.record import Record
from pourwright.color.photo import camera
from pourwright.spectrum.light import BANDS, xyz_of
from pourwright.spectrum.patches import COLUMNS, PATCH_NAMES, PATCH_REFLECTANCE, ROWS


class Target(Record):
    """A grid of patches, named and measured left to right, row by row."""

    __slots__ = ()
    key: ClassVar[str]
    label: ClassVar[str]

    @property
    @abstractmethod
    def rows(self) -> int:
        """Rows of patches, the target upright."""

    @property
    @abstractmethod
    def columns(self) -> int:
        """Patches in a row."""

    @property
    @abstractmethod
    def names(self) -> tuple[str, ...]:
        """What each patch is called."""

    @abstractmethod
    def reflectance(self) -> Array:
        """Reflectance of each patch on the 31 bands, 0 to 1."""

    def xyz(self) -> Array:
        """D65 XYZ of each patch, white at Y = 100."""
        return xyz_of(self.reflectance())

    @property
    @abstractmethod
    def prior(self) -> Array:
        """Precision of the coefficients, (k,)."""

    @abstractmethod
    def monomials(self, linear: Array) -> Array:
        """What is fitted to the patches, (n, 3, k)."""

    @abstractmethod
    def outputs(self) -> Array:
        """What the fit is to give for each patch, (n, 3)."""

    @abstractmethod
    def to_xyz(self) -> Array:
        """From what the fit gives to XYZ, as a matrix on its right, (3, 3)."""

    @abstractmethod
    def camera_doubt(self, outputs: Array) -> Array:
        """Covariance (3, 3) of an output that no patch can tell of."""

    def centers(self) -> Array:
        """Middle of each patch on the unit square, (n, 2)."""
        across, down = np.meshgrid(np.arange(self.columns), np.arange(self.rows))
        step = np.array([self.columns, self.rows])
        return np.asarray((np.stack([across.ravel(), down.ravel()], axis=1) + 0.5) / step)


@dataclass(frozen=True, slots=True, kw_only=True)
class ColorPatches(Target):
    """The camera test target of four rows of six patches, white to black in the last row."""

    key = "24 patches"
    label = "24 color patches"

    @property
    def rows(self) -> int:
        """Four rows."""
        return ROWS

    @property
    def columns(self) -> int:
        """Six to a row."""
        return COLUMNS

    @property
    def names(self) -> tuple[str, ...]:
        """Their colors in words."""
        return PATCH_NAMES

    def reflectance(self) -> Array:
        """As published; prints differ by about one CIEDE2000."""
        return PATCH_REFLECTANCE

    @property
    def prior(self) -> Array:
        """Roots are held small."""
        return camera.ROOT_PRIOR

    def monomials(self, linear: Array) -> Array:
        """Root-polynomial terms."""
        return camera.root_monomials(linear)

    def outputs(self) -> Array:
        """XYZ."""
        return self.xyz()

    def to_xyz(self) -> Array:
        """They are XYZ already."""
        return np.eye(3)

    def camera_doubt(self, outputs: Array) -> Array:
        """None: patches of all colors show what the camera does."""
        return np.zeros((len(outputs), len(outputs)))


@dataclass(frozen=True, slots=True, kw_only=True)
class GrayStrip(Target):
    """A row of gray patches, printed or bought, whose reflectances are known."""

    key = "gray strip"
    label = "Strip of grays"

    shares: tuple[float, ...] = parts(
        "Reflectance of each patch from end to end, 0 to 1", least=3, most=24, low=0.01, high=1.0
    )

    def check(self) -> None:
        """Refuse a strip whose patches cannot be told apart."""
        if max(self.shares) < 4 * min(self.shares):
            why = "needs a light and a dark patch, one reflecting four times the other or more"
            raise BadInput("shares", f"{min(self.shares):g} to {max(self.shares):g}", why)

    @property
    def rows(self) -> int:
        """One row."""
        return 1

    @property
    def columns(self) -> int:
        """As many as there are shares."""
        return len(self.shares)

    @property
    def names(self) -> tuple[str, ...]:
        """Their reflectances."""
        return tuple(f"gray {share:.0%}" for share in self.shares)

    def reflectance(self) -> Array:
        """The same in every band."""
        return np.repeat(np.array(self.shares)[:, None], BANDS, axis=1)

    @property
    def prior(self) -> Array:
        """One free gain a channel."""
        return camera.GAIN_PRIOR

    def monomials(self, linear: Array) -> Array:
        """Each channel by itself."""
        return camera.gain_monomials(linear)

    def outputs(self) -> Array:
        """Linear sRGB, white at 100."""
        return np.repeat(100 * np.array(self.shares)[:, None], 3, axis=1)

    def to_xyz(self) -> Array:
        """By the primaries of sRGB, which most cameras aim at."""
        return camera.PRIMARIES / 100

    def camera_doubt(self, outputs: Array) -> Array:
        """Grays do not show how a camera mixes its channels: colors are doubtful, grays are not."""
        colored = outputs - outputs.mean()
        return np.asarray(camera.MIXING**2 * (colored @ colored) * np.eye(3))


TARGETS: Kinds[Target] = Kinds(ColorPatches, GrayStrip)
