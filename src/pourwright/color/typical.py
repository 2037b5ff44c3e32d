"""The typical value of every field that may go unmeasured, in the shape of a single draw."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.typical import all_typical


def typical(record: object) -> dict[str, Array]:
    """What `base.assume.drawn` gives as its first draw, without drawing the rest."""
    return {name: np.array([value]) for name, value in all_typical(record).items()}
