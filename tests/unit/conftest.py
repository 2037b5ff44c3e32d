"""A demo bench of a test's own, on a clock that the test sets."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from pour_player import SetClock
from pourwright import wire
from pourwright.actions.demo import fill_demo
from pourwright.actions.port import World


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    store = tmp_path_factory.mktemp("demo") / "bench.db"
    fill_demo(wire.world(store))
    return store


@pytest.fixture
def clock() -> SetClock:
    return SetClock()


@pytest.fixture
def world(demo: Path, tmp_path: Path, clock: SetClock) -> World:
    wire.back_up(demo, tmp_path / "bench.db")
    return dataclasses.replace(wire.world(tmp_path / "bench.db"), clock=clock)
