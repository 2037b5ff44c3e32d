"""Steps that share machines, in a constraint model: the core of any timetable.

Knows nothing of cups. A step has a start and a length; steps can follow one another, and share
machines of which a few are there. The solver is asked in a way that gives the same answer again:
its search is counted in its own deterministic time, its workers take turns in a fixed order.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

WORKERS = 2
STALL_FACTOR, STALL_S = 5, 20


@dataclass(frozen=True, slots=True)
class ModelStep:
    """A step in the model."""

    start: Any
    length: int
    interval: Any

    @property
    def end(self) -> Any:
        """When it ends."""
        return self.start + self.length


@dataclass(frozen=True, slots=True)
class Found:
    """The best values found, what no solution can go below, and whether a stall cut it short."""

    values: Callable[[Any], int] | None
    bound: float
    proven: bool
    stalled: bool


class Model:
    """A timetable in the making."""

    def __init__(self, horizon: int) -> None:
        from ortools.sat.python import cp_model as cp  # noqa: PLC0415  a second to load

        self.cp: cp_model.CpModel = cp.CpModel()
        self.horizon = horizon

    def step(self, length: int, *, least: int = 0, most: int | None = None) -> ModelStep:
        """A step that happens."""
        start = self.time(least, most)
        return ModelStep(start, length, self.cp.new_fixed_size_interval_var(start, length, ""))

    def optional_step(self, length: int, happens: Any, *, least: int = 0) -> ModelStep:
        """A step that happens only where the flag says so."""
        start = self.time(least, None)
        interval = self.cp.new_optional_fixed_size_interval_var(start, length, happens, "")
        return ModelStep(start, length, interval)

    def time(self, least: int = 0, most: int | None = None) -> Any:
        """A time."""
        return self.cp.new_int_var(least, self.horizon if most is None else most, "")

    def taken(self, start: int, end: int) -> ModelStep:
        """A step whose time is a fact."""
        interval = self.cp.new_fixed_size_interval_var(start, end - start, "")
        return ModelStep(start, end - start, interval)

    def follows(self, step: ModelStep, later: ModelStep) -> None:
        """The later step starts no sooner than the step ends."""
        self.cp.add(later.start >= step.end)

    def share(self, steps: Iterable[tuple[ModelStep, int]], machines: int) -> None:
        """No more machines in use at any time than there are; each step uses so many."""
        intervals, uses = [], []
        for step, units in steps:
            intervals.append(step.interval)
            uses.append(units)
        if machines == 1:
            self.cp.add_no_overlap(intervals)
        elif sum(uses) > machines:
            self.cp.add_cumulative(intervals, uses, machines)

    def least(
        self, cost: Any, *, effort: float, seed: int, better: Callable[[Any], None] | None = None
    ) -> Found:
        """The solution of least cost that the effort, in deterministic seconds, can find."""
        from ortools.sat.python import cp_model as cp  # noqa: PLC0415  a second to load

        self.cp.minimize(cost)
        solver = cp.CpSolver()
        asked = solver.parameters
        asked.num_workers, asked.interleave_search = WORKERS, True
        asked.random_seed, asked.max_deterministic_time = seed, effort
        asked.max_time_in_seconds = STALL_S + STALL_FACTOR * effort
        status = solver.solve(self.cp, _watcher(better) if better else None)
        solved = status in (cp.OPTIMAL, cp.FEASIBLE)
        return Found(
            values=solver.value if solved else None,
            bound=solver.best_objective_bound,
            proven=status == cp.OPTIMAL,
            stalled=solver.wall_time >= asked.max_time_in_seconds,
        )


def _watcher(better: Callable[[Any], None]) -> Any:
    from ortools.sat.python import cp_model as cp  # noqa: PLC0415  a second to load

    class Watcher(cp.CpSolverSolutionCallback):
        def on_solution_callback(self) -> None:
            better(self.value)

    return Watcher()
