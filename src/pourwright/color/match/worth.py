"""What a recipe is worth at the bench: one drop more or less, and drops that are not all alike."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.fit.reading import DROP_SCATTER
from pourwright.color.match.counter import Counter
from pourwright.color.match.objective import Objective
from pourwright.spectrum.difference import delta_e00

_POURS = 48


def pours(counter: Counter, objective: Objective, counts: Array, seed: int) -> Array:
    """CIEDE2000 to the target in daylight of seeded pours of each recipe, (recipes, pours)."""
    random = np.random.Generator(np.random.PCG64(seed))
    z = random.standard_normal((_POURS, counter.bottles))
    spread = DROP_SCATTER * np.sqrt(counts)[:, None, :] * z[None]
    poured = np.maximum(counts[:, None, :] + spread, 0)
    flat = poured.reshape(-1, counter.bottles)
    labs = counter.labs(flat)[0]
    return delta_e00(labs, objective.labs[0]).reshape(len(counts), _POURS)


def one_step(counter: Counter, recipe: Array) -> tuple[float, int]:
    """The largest CIEDE2000 that one step more or less makes, and of which bottle."""
    used = np.flatnonzero(recipe)
    if not len(used):
        return 0.0, -1
    rows = np.array([recipe + d * np.eye(len(recipe))[j] for j in used for d in (-1, 1)])
    home, *moved = counter.labs(np.concatenate([recipe[None], rows]))[0]
    off = delta_e00(np.array(moved), home)
    worst = int(off.argmax())
    return float(off[worst]), int(used[worst // 2])
