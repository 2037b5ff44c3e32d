"""The pouring of a plan's first cup, as its page and its sheet show it."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.field import out
from pourwright.forecast.busy_molds import busy
from pourwright.forecast.pour_rotation import MoldCount, RotationAct, acts_of, mold_count
from pourwright.forecast.pouring import FOLLOWED_SHOTS, Pouring
from pourwright.forecast.rotation import Doing


@dataclass(frozen=True, slots=True)
class PourPlan:
    """Acts of one pair of hands from the hot cup to the last empty mold, on typical values."""

    shots: int = out("Shots shown; a longer cup goes on in the same way")
    whole: bool = out("Whether these are all the shots of the cup")
    molds: int = out("Molds shot in turn")
    in_a_row: int = out("Molds shot in a row from one load")
    acts: tuple[RotationAct, ...] = out("Every act")
    minutes: Band = out("Until the last mold is empty")
    idle_s: Band = out("Hands wait")
    rewarms: int = out("Times the cup is warmed again")
    counts: tuple[MoldCount, ...] = out("The same with one mold, two, and so on")
    busy_molds: int | None = out("Fewest molds that leave hands idle under 15 % of the time")


def pour_plan(done: Pouring, shots: int) -> PourPlan:
    """The first cup, which gives so many shots."""
    found = done.first
    return PourPlan(
        shots=min(shots, FOLLOWED_SHOTS),
        whole=shots <= FOLLOWED_SHOTS,
        molds=found.molds,
        in_a_row=done.in_a_row,
        acts=acts_of(found),
        minutes=done.draws.band(found.seconds / 60),
        idle_s=done.draws.band(found.idle_s),
        rewarms=found.count(Doing.REWARM),
        counts=tuple(mold_count(r) for r in done.others),
        busy_molds=busy(done.others),
    )
