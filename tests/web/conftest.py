"""A bench without anything, and one with everything."""

from __future__ import annotations

import pytest
from fake_bench import fake_world

from pourwright.actions.demo import demo_nouns


@pytest.fixture
def empty_world():
    return fake_world()


@pytest.fixture
def full_world(empty_world):
    with empty_world.bench() as bench:
        for key, noun in demo_nouns().items():
            bench.records.save(noun.key, key, noun, expected_version=0)
        bench.commit()
    return empty_world
