"""A photo as numbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True, eq=False)
class Picture:
    """Codes of a photo, 0 to 255 in a screen's curve, shape (height, width, 3), upright.

    `profile` is the color profile its file names; empty where it names none.
    """

    called: ClassVar[str] = "a photo"

    codes: NDArray[np.uint8]
    profile: str = ""

    def __post_init__(self) -> None:
        if self.codes.dtype != np.uint8 or self.codes.ndim != 3 or self.codes.shape[2] != 3:
            raise ValueError(f"a picture is bytes of three channels, not {self.codes.shape}")

    @property
    def width_px(self) -> int:
        """Pixels from left to right."""
        return int(self.codes.shape[1])

    @property
    def height_px(self) -> int:
        """Pixels from top to bottom."""
        return int(self.codes.shape[0])
