"""A demo bench of a test's own, on a clock that the test sets."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from pour_player import SetClock
from pourwright.actions.port import World
from ready_store import demo_bench


@pytest.fixture
def clock() -> SetClock:
    return SetClock()


@pytest.fixture
def world(tmp_path: Path, clock: SetClock) -> World:
    return dataclasses.replace(demo_bench(tmp_path), clock=clock)
