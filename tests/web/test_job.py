"""A calculation in the background, over HTTP."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from pourwright import wire
from pourwright.actions.run_job import start_job
from pourwright.base.errors import BadInput, NotFound
from pourwright.color.difference import difference


def test_a_job_gives_the_answer_of_its_calculation(tmp_path: Path) -> None:
    world = wire.world(tmp_path / "bench.db")
    state = start_job(world, "color.difference", dict(difference.example))
    for _ in range(300):
        state = world.jobs.state(state.key)
        if state.status != "running":
            break
        time.sleep(0.01)
    assert state.answer == difference.answer(difference.example)
    again = start_job(world, "color.difference", dict(difference.example))
    assert (again.key, again.status) == (state.key, "done")


def test_a_bad_input_is_refused_at_once(tmp_path: Path) -> None:
    world = wire.world(tmp_path / "bench.db")
    with pytest.raises(BadInput, match="first"):
        start_job(world, "color.difference", {})
    with pytest.raises(NotFound, match=r"no\.such"):
        start_job(world, "no.such", {})
