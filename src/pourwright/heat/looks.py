"""What the thermometer was asked of a cup, and whether that is enough to go on."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.heat.history import Did, Step

# A cup that stands unstirred keeps its heat better than the reduced cup, which is always as good as
# stirred: in the independent kitchen of `speed` it lost 27 K in five minutes where 42 K were
# reckoned, and a burst from there overshot. How long the difference does no harm: estimate.
UNSTIRRED_S = 120.0


def looks_since_heat(steps: Sequence[Step]) -> int:
    """How often the cup was read since it was heated last."""
    return sum(s.did is Did.READ for s in steps[_newest(steps, Did.HEATED) or 0 :])


def unread(steps: Sequence[Step]) -> bool:
    """Whether the cup was heated after the last reading of a stirred cup."""
    stirred, heated = True, False
    for step in steps:
        if step.did is Did.HEATED:
            stirred, heated = False, True
        elif step.did in {Did.STIRRED, Did.ADDED}:
            stirred = True
        elif step.did is Did.READ and (stirred or step.while_stirring):
            stirred, heated = True, False
    return heated


def stood_unread(steps: Sequence[Step], stood_s: float) -> bool:
    """Whether the cup stood so long since it was read that its cooling is not to be trusted.

    `stood_s` is how long it stands since the last of the steps.
    """
    last = _newest(steps, Did.READ)
    if last is None:
        return False
    rested = sum(s.lasted_s for s in steps[last:] if s.did is Did.RESTED)
    return rested + stood_s > UNSTIRRED_S


def _newest(steps: Sequence[Step], did: Did) -> int | None:
    return max((i for i, s in enumerate(steps) if s.did is did), default=None)
