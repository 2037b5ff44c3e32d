"""Run a calculation in the background: ask for it, look how far it has come, stop it."""

from __future__ import annotations

from collections.abc import Mapping

from pourwright.actions.catalog import named
from pourwright.actions.port import JobState, Progress, World
from pourwright.base.record import from_json


def start_job(world: World, name: str, data: object) -> JobState:
    """Begin a calculation, or find its kept answer.

    A bad input is refused at once, not in the background. Raises: NotFound, BadInput.
    """
    calculation = named(name)
    from_json(calculation.takes, data, readers=world.readers)

    def work(progress: Progress) -> Mapping[str, object]:
        progress.at(0.0)
        return calculation.answer(data, world.readers)

    content = data if isinstance(data, Mapping) else {}
    return world.jobs.start(name, content, work)
