"""A world whose units of work are all one: a year is kept in one go, not order by order."""

from __future__ import annotations

import dataclasses
from types import TracebackType
from typing import Any, Self

from pourwright.actions.port import Bench, World


class SharedBench:
    """The one unit of work, handed out again and again; only the year itself commits it."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def __getattr__(self, name: str) -> Any:
        return getattr(self._bench, name)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        pass

    def commit(self) -> None:
        """Later, with everything else."""


def shared(world: World, bench: Bench) -> World:
    """The world as the year's deeds see it."""
    one = SharedBench(bench)
    return dataclasses.replace(world, bench=lambda: one, reading=lambda: one)
