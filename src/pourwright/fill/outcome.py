"""What became of a push in every draw, and where those that stopped did so."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array
from pourwright.base.field import out
from pourwright.fill.branch import BranchPart, branch_chain
from pourwright.fill.chance import spread
from pourwright.fill.march import Flags, Front, Shot, march
from pourwright.fill.setup import Setup


@dataclass(frozen=True, slots=True, eq=False)
class Outcome:
    """A push pushed; `branches` says which of them fill in which draws."""

    shot: Shot
    front: Front
    branches: tuple[tuple[BranchPart, Flags], ...]

    @property
    def full(self) -> Flags:
        """Chain and branches, all of them."""
        return np.asarray(
            np.stack((self.front.going, *(full for _, full in self.branches))).all(axis=0)
        )

    @property
    def filled_share(self) -> Array:
        """Share of the chain's volume that was filled, 0 to 1."""
        part = self.front.volume_m3 / self.shot.chain.volume_m3.sum()
        return np.where(self.front.going, 1.0, part)


@dataclass(frozen=True, slots=True)
class Stop:
    """Where the shots that stay short do so."""

    share: float = out("Share of the draws that stop in the chain, 0 to 1")
    front_mm: Band = out("How far from the nozzle the front comes")
    front_in: str = out("Part of the mold it mostly stops in")
    shut_mm: Band | None = out("How far from the nozzle the skins meet; null where they do not")
    shut_in: str | None = out("Part of the mold in which they mostly meet; null likewise")


def outcome(setup: Setup) -> Outcome:
    """Push once in every draw: through the chain, and into each branch beside it by itself.

    A branch is pressed from its root with the whole push, since so little flows into it. While
    the body fills it is pressed less, which is left out; so is the thin end a leg only has at its
    very tip.
    """
    shot = setup.shot()
    aside = [b for b in setup.branches if b.aside]
    return Outcome(shot, march(shot), tuple((b, _alone(shot, b)) for b in aside))


def _alone(shot: Shot, branch: BranchPart) -> Flags:
    chain = branch_chain(branch, float(shot.chain.copies[-1]))
    return march(replace(shot, chain=chain)).going


def fill_seconds(found: Outcome) -> Band | None:
    """Time to fill, of the draws after the typical one that do; nothing where none does."""
    return spread(found.front.clock_s[1:][found.full[1:]])


def stop_of(found: Outcome) -> Stop | None:
    """Where it stops, from the draws after the typical one; nothing where none does."""
    chain, short = found.shot.chain, ~found.front.going
    short[0] = False
    front_mm = spread(1000 * found.front.length_m[short])
    if front_mm is None:
        return None
    shut = found.front.shut[short & (found.front.shut >= 0)]
    return Stop(
        share=float(short[1:].mean()),
        front_mm=front_mm,
        front_in=_mostly([chain.part[chain.at(m)].value for m in found.front.length_m[short]]),
        shut_mm=spread(1000 * chain.reach_m[shut]),
        shut_in=_mostly([chain.part[i].value for i in shut]) if len(shut) else None,
    )


def _mostly(names: list[str]) -> str:
    return Counter(names).most_common(1)[0][0]
