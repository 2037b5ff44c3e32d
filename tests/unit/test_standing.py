"""A cup poured from is carried on from its last reading, not replayed: the same cup comes out."""

from __future__ import annotations

import numpy as np
import pytest

from cup_talk import CUP
from pourwright.base.draws import Draws
from pourwright.base.record import from_json
from pourwright.heat.doubt import judged, telling
from pourwright.heat.history import Did, Step, timed
from pourwright.heat.next_input import NextBurstInput
from pourwright.heat.standing import further, standing

TOLD = (
    Step(did=Did.HEATED, at_s=0, for_s=75),
    Step(did=Did.STIRRED, at_s=90),
    Step(did=Did.READ, at_s=90, read_c=66, while_stirring=True),
    Step(did=Did.HEATED, at_s=110, for_s=185),
    Step(did=Did.STIRRED, at_s=310),
    Step(did=Did.READ, at_s=310, read_c=152, while_stirring=True),
)
SINCE = (
    Step(did=Did.DRAWN, at_s=340, mass_g=60),
    Step(did=Did.STIRRED, at_s=400),
    Step(did=Did.DRAWN, at_s=420, mass_g=65),
)


def test_what_follows_a_reading_is_carried_on_as_if_replayed() -> None:
    asked = from_json(NextBurstInput, CUP)
    steps = timed((*TOLD, *SINCE), asked.plastic_g)
    told = telling(steps)
    assert told[-1].did is Did.READ
    assert any(s.did is Did.DRAWN for s in steps[len(told) :])
    joint = judged(asked.belief(), asked.fill(), steps, start_spread_k=1).fit.joint
    whole = standing(Draws(seed=1), joint, asked.fill(), steps)
    carried = further(standing(Draws(seed=1), joint, asked.fill(), told), steps[len(told) :])
    assert carried.plastic_kg == pytest.approx(whole.plastic_kg) == pytest.approx(0.373)
    np.testing.assert_allclose(carried.state.mean_c, whole.state.mean_c, rtol=1e-9)
    np.testing.assert_allclose(carried.state.hottest_c, whole.state.hottest_c, rtol=1e-9)
    np.testing.assert_allclose(carried.oven.power_w, whole.oven.power_w, rtol=1e-9)
    assert carried.trace[-1][0] == pytest.approx(whole.trace[-1][0])


def test_a_burst_is_never_carried_on() -> None:
    asked = from_json(NextBurstInput, CUP)
    steps = timed(TOLD, asked.plastic_g)
    joint = judged(asked.belief(), asked.fill(), steps, start_spread_k=1).fit.joint
    cup = standing(Draws(seed=1), joint, asked.fill(), steps)
    with pytest.raises(ValueError, match="heated is replayed from its start"):
        further(cup, (Step(did=Did.HEATED, for_s=10),))
