"""Steps that share machines, in a constraint model: the core of any timetable.

Knows nothing of cups. A step has a start and a length; steps can follow one another, and share
machines of which a few are there. One worker searches, and its search is counted
in the solver's own deterministic time, so that the same question has the same answer again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

STALL_FACTOR, STALL_S = 40, 10


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
    effort: float


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
        self,
        cost: Any,
        *,
        effort: float,
        seed: int,
        better: Callable[[Any], None] | None = None,
        brief: bool = False,
    ) -> Found:
        """The solution of least cost that the effort, in deterministic seconds, can find.

        A brief search spends little on getting ready. What `better` raises ends the search and is
        raised on.
        """
        from ortools.sat.python import cp_model as cp  # noqa: PLC0415  a second to load

        self.cp.minimize(cost)
        solver = cp.CpSolver()
        asked = solver.parameters
        asked.num_workers, asked.random_seed = 1, seed
        asked.max_deterministic_time = effort
        asked.catch_sigint_signal = False  # Ctrl-C belongs to the program
        asked.max_time_in_seconds = STALL_S + STALL_FACTOR * effort
        if brief:
            asked.cp_model_probing_level, asked.linearization_level = 0, 0
            asked.symmetry_level = 0
            asked.search_branching = cp.PORTFOLIO_WITH_QUICK_RESTART_SEARCH
        watcher = _watcher(better) if better else None
        status = solver.solve(self.cp, watcher)
        if watcher is not None and watcher.raised is not None:
            raise watcher.raised
        return Found(
            values=solver.value if status in (cp.OPTIMAL, cp.FEASIBLE) else None,
            bound=solver.best_objective_bound,
            proven=status in (cp.OPTIMAL, cp.INFEASIBLE),
            stalled=solver.wall_time >= asked.max_time_in_seconds,
            effort=solver.deterministic_time,
        )


def _watcher(better: Callable[[Any], None]) -> Any:
    from ortools.sat.python import cp_model as cp  # noqa: PLC0415  a second to load

    class Watcher(cp.CpSolverSolutionCallback):
        raised: Exception | None = None

        def on_solution_callback(self) -> None:
            try:
                better(self.value)
            except Exception as error:  # noqa: BLE001  raised on once the solver has stopped
                self.raised = error
                self.stop_search()

    return Watcher()
