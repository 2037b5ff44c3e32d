"""Phones that ask at once: what a new reading taught is worked out once for all of them."""

from __future__ import annotations

import dataclasses
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from pour_player import PourPlayer, SetClock
from pourwright.actions import guide_pour as guiding
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.see_cup import CupQuestion, CupView, answered
from pourwright.bench.hand import What
from ready_store import demo_bench
from web.client import Client

PHONES = 4


def test_phones_that_ask_at_once_are_answered_one_after_another(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    clock = SetClock()
    world = dataclasses.replace(demo_bench(tmp_path), clock=clock)
    it = PourPlayer(world, freeze_sheet(world, DEMO_DRAFT).number, clock)
    it.to(What.OVEN)
    it.step()
    busy: list[CupQuestion] = []
    most: list[int] = []

    def slow(asked: CupQuestion) -> CupView:
        busy.append(asked)
        most.append(len(busy))
        time.sleep(0.1)
        busy.pop()
        return answered(asked)

    monkeypatch.setattr(guiding, "answered", slow)

    def state(_: int) -> str:
        return Client(world).ask("GET", f"/sheets/{it.sheet}/bench/state").text

    with ThreadPoolExecutor(PHONES) as phones:
        states = list(phones.map(state, range(PHONES)))
    assert '"newest":' in states[0]
    assert len(set(states)) == 1
    assert most == [1] * PHONES
