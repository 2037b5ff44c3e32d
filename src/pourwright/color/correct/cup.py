"""What is in the cup, as its drip tells."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.fit.joint import Joint
from pourwright.color.fit.prior import Normal
from pourwright.color.fit.reading import Puck
from pourwright.spectrum.light import BANDS

DRIP = "drip"


@dataclass(frozen=True, slots=True, eq=False)
class Cup:
    """Absorption and reduced scattering per mm, (31,), and of one gram of each bottle, (n, 31)."""

    absorb: Array
    scatter: Array
    gram_absorb: Array
    gram_scatter: Array


def most_likely(joint: Joint, drip: Puck) -> Cup:
    """The cup at the most likely constants and doses."""
    logs = np.stack([p.mean for p in joint.parts])
    return _cup(logs, joint, drip)


def possible(joint: Joint, drip: Puck, count: int, seed: int) -> tuple[Cup, ...]:
    """Seeded cups that the readings leave possible."""
    random = np.random.Generator(np.random.PCG64(seed))
    return tuple(
        _cup(np.stack([_drawn(p, random) for p in joint.parts]), joint, drip) for _ in range(count)
    )


def _drawn(part: Normal, random: np.random.Generator) -> Array:
    return part.mean + part.factor @ random.standard_normal(part.factor.shape[1])


def _cup(logs: Array, joint: Joint, drip: Puck) -> Cup:
    constants = np.exp(logs)
    absorb, scatter = constants[:, :BANDS], constants[:, BANDS:]
    amounts = np.zeros(len(logs))
    amounts[0] = 1
    for j, grams, _ in drip.doses:
        amounts[1 + j] = grams * joint.doses.get((drip.name, j), 1.0)
    return Cup(amounts @ absorb, amounts @ scatter, absorb[1:], scatter[1:])


def steps_of(cup: Cup, step_share: Sequence[float]) -> tuple[Array, Array]:
    """What one step of each bottle adds, (n, 31) each; shares are grams in 100 g of the cup."""
    share = np.asarray(step_share)[:, None]
    return share * cup.gram_absorb, share * cup.gram_scatter
