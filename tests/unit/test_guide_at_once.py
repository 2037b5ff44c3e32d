"""Phones that ask at once: what a new reading taught is worked out once for all of them."""

from __future__ import annotations

import time
from concurrent.futures import ThreadPoolExecutor

import pytest

from pour_player import PourPlayer, SetClock
from pourwright.actions import guide_pour as guiding
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.port import World
from pourwright.actions.see_cup import CupQuestion, CupView, answered
from pourwright.bench.hand import What

PHONES = 4


def test_phones_that_ask_at_once_are_answered_one_after_another(
    world: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    clock = world.clock
    assert isinstance(clock, SetClock)
    it = PourPlayer(world, freeze_sheet(world, DEMO_DRAFT).number, clock)
    it.to(What.OVEN)
    it.step()
    busy, most = [], []

    def slow(asked: CupQuestion) -> CupView:
        busy.append(asked)
        most.append(len(busy))
        time.sleep(0.1)
        busy.pop()
        return answered(asked)

    monkeypatch.setattr(guiding, "answered", slow)
    with ThreadPoolExecutor(PHONES) as phones:
        guides = list(phones.map(lambda _: it.guide(), range(PHONES)))
    assert len({guide.cups[1].answer for guide in guides}) == 1
    assert most == [1] * PHONES
