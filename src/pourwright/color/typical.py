"""The typical value of every field that may go unmeasured, in the shape of a single draw."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.field import fields_of


def typical(record: object) -> dict[str, Array]:
    """What `base.assume.drawn` gives as its first draw, without drawing the rest."""
    found: dict[str, Array] = {}
    for field in fields_of(type(record)):
        doubt = field.spec.doubt
        if doubt is not None:
            given = getattr(record, field.name)
            found[field.name] = np.array([doubt.band.typical if given is None else given])
    return found
