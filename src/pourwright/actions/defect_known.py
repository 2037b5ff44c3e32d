"""What must be known before a suspected cause can be put to its test."""

from __future__ import annotations

from pourwright.actions.defect_case import DefectCase
from pourwright.actions.mold_question import PushCase
from pourwright.fill.push import Push


class UntoldError(Exception):
    """Why a test cannot be put, in words for the person."""


def known(it: DefectCase) -> PushCase:
    """The push. Raises: UntoldError where no mold is known."""
    if it.push is None:
        raise UntoldError(f"{it.missing[:1].upper()}{it.missing[1:]}")
    return it.push


def closed(it: DefectCase) -> PushCase:
    """A push into closed cavities of known shape. Raises: UntoldError."""
    push = known(it)
    if push.case.mold.open_face:
        raise UntoldError("An open mold is filled from above, with no gate to freeze")
    if push.case.cavity is None:
        raise no_shape(push)
    if not push.case.forecast:
        raise UntoldError("So many cavities on one push are beyond the forecast")
    return push


def plunged(it: DefectCase, otherwise: str) -> PushCase:
    """A push by a plunger; `otherwise` says what a hand pour does instead. Raises: UntoldError."""
    push = closed(it)
    if push.entry.push is Push.POUR:
        raise UntoldError(f"It was poured by hand: {otherwise}")
    return push


def thickest_mm(push: PushCase) -> float:
    """The thickest place of the bait. Raises: UntoldError where nobody measured it."""
    if push.bait.thickest_mm is None:
        raise UntoldError(f"Measure the thickest place of {push.case.bait.name}")
    return push.bait.thickest_mm


def no_shape(push: PushCase) -> UntoldError:
    """The refusal for a bait whose shape nobody knows."""
    return UntoldError(f"{push.case.bait.name} has no shape yet: give it one by ruler")
