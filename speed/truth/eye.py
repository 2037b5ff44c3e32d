"""A person with a good eye and no tool: the rival the product has to beat."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array

JUST_SEEN = 1.0
"""Nobody mends what cannot be seen side by side: some 1 dE00 (common practice, no source)."""


def careful_eye(first_errors: Array, tries: int = 3) -> Array:
    """Errors (tries, n) in dE00 of somebody who halves the visible error at each new pour.

    The first row is the guess they start from, such as the single-puck recipe's true errors; an
    error that cannot be seen stays. Kind to the eye: no pour of theirs has drop scatter added.
    """
    rows = [np.asarray(first_errors, dtype=float)]
    for _ in range(tries - 1):
        rows.append(np.where(rows[-1] > JUST_SEEN, rows[-1] / 2, rows[-1]))
    return np.stack(rows)
