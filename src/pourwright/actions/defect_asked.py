"""The question each test asks, with the numbers of the lot; or why it cannot be asked."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from pourwright.actions import defect_mix_asked as mix
from pourwright.actions import defect_mold_asked as mold
from pourwright.actions.defect_case import DefectCase
from pourwright.base.record import Record
from pourwright.plan.defect.trial import Trial

_ASKED: Mapping[Trial, Callable[[DefectCase], Record]] = {
    Trial.CLAMP: mold.clamp,
    Trial.GAP: mold.clamp,
    Trial.FULL: mold.full,
    Trial.COLD_MOLD: mold.cold_mold,
    Trial.AIR: mold.air,
    Trial.ENDS: mold.ends,
    Trial.HOLD: mold.hold,
    Trial.OPEN: mold.opening,
    Trial.WINDOW: mold.window,
    Trial.BUBBLES: mix.bubbles,
    Trial.STEAM: mix.steam,
    Trial.FLAKE: mix.flake,
    Trial.SALT: mix.salt,
    Trial.JOIN: mix.join,
    Trial.SOFTNESS: mix.softness,
    Trial.SINK: mix.sink,
}


def asked(trial: Trial, it: DefectCase) -> Record:
    """The input of a test. Raises: UntoldError where the bench does not know enough."""
    return _ASKED[trial](it)
