"""What the answer of a calculation says of a suspected cause."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from pourwright.plan.defect.judge_heat import judge_fused, judge_open, judge_scorch, judge_window
from pourwright.plan.defect.judge_mix import (
    judge_bubbles,
    judge_join,
    judge_settle,
    judge_sink,
    judge_softness,
    judge_steam,
)
from pourwright.plan.defect.judge_mold import (
    judge_air,
    judge_clamp,
    judge_cold_mold,
    judge_ends,
    judge_full,
    judge_gap,
    judge_hold,
)
from pourwright.plan.defect.likelihood import Judged
from pourwright.plan.defect.trial import Trial

# What a person told by picking answers, in SI units by name.
Told = Mapping[str, float]

JUDGES: Mapping[Trial, Callable[[Any, Told], Judged]] = {
    Trial.CLAMP: judge_clamp,
    Trial.GAP: judge_gap,
    Trial.FULL: judge_full,
    Trial.COLD_MOLD: judge_cold_mold,
    Trial.AIR: judge_air,
    Trial.ENDS: judge_ends,
    Trial.HOLD: judge_hold,
    Trial.OPEN: judge_open,
    Trial.BUBBLES: judge_bubbles,
    Trial.STEAM: judge_steam,
    Trial.FLAKE: judge_settle,
    Trial.SALT: judge_settle,
    Trial.JOIN: judge_join,
    Trial.SCORCH: judge_scorch,
    Trial.FUSED: judge_fused,
    Trial.WINDOW: judge_window,
    Trial.SOFTNESS: judge_softness,
    Trial.SINK: judge_sink,
}
