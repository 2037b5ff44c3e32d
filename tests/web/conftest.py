"""A bench without anything, and one with everything."""

from __future__ import annotations

import pytest

from pourwright import wire


@pytest.fixture
def empty_world(tmp_path):
    return wire.world(tmp_path / "bench.db")


@pytest.fixture
def full_world(empty_world):
    wire.fill_demo_if_empty(empty_world)
    return empty_world
