"""A day as a constraint model."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from pourwright.plan.day.bound import least_points, least_span
from pourwright.plan.day.core import Model, ModelStep
from pourwright.plan.day.decided import Decided
from pourwright.plan.day.kit_routes import Open, add_kits, arcs_of, routes_of
from pourwright.plan.day.load import Load, Plan, opened


class DayModel:
    """The model of a load over the arcs that are open, and how plans go into it and come out."""

    def __init__(self, load: Load, latest: int, is_open: Open = lambda _a, _b: True) -> None:
        self.load = load
        self.model = Model(2 * latest + load.clean)
        self.decided = _variables(self.model, load)
        _machines(self.model, load, self.decided)
        add_kits(self.model, load, self.decided, is_open)
        self.cost = _cost(self.model, load, self.decided)

    def keep_list_order(self) -> None:
        """Of cups that could change places the first in the list comes first."""
        _alike(self.model, self.load, self.decided)

    def hint(self, known: Plan) -> None:
        """Start the search at a plan."""
        _hint(self.model, self.load, self.decided, known)

    def plan(self, value: Callable[[Any], int]) -> Plan:
        """The plan that the solver found."""
        return _plan(self.load, self.decided, value)


def _variables(model: Model, load: Load) -> Decided:
    v = Decided()
    for j, job in enumerate(load.jobs):
        least = max(load.now, job.ready)
        for w, wave in enumerate(job.waves):
            most = wave.last if wave.hot else None
            v.pour[j, w] = model.step(wave.pour, least=least, most=most)
            if wave.hot:
                continue
            v.heat[j, w] = model.step(wave.heat, least=least)
            model.follows(v.heat[j, w], v.pour[j, w])
            model.cp.add(v.pour[j, w].start <= v.heat[j, w].end + load.hold)
            if w:
                model.follows(v.pour[j, w - 1], v.heat[j, w])
    return v


def _machines(model: Model, load: Load, v: Decided) -> None:
    for j, job in enumerate(load.jobs):
        if job.kit is None:
            v.cleaned[j] = model.cp.new_bool_var("")
            v.clean[j] = model.optional_step(load.clean, v.cleaned[j], least=load.now)
    for free, steps in ((load.microwaves, [*v.heat.values()]),
                        (load.hands, [*v.pour.values(), *v.clean.values()])):  # fmt: skip
        busy = [model.taken(load.now, until) for until in free if until > load.now]
        model.share([(step, 1) for step in (*busy, *steps)], len(free))
    for mold, count in enumerate(load.molds):
        fills = [
            (model.taken(load.now, t.until), t.units) for t in load.taken if t.mold == mold
        ]  # fmt: skip
        for (j, w), pour in v.pour.items():
            wave = load.jobs[j].waves[w]
            for use in (u for u in wave.uses if u.mold == mold):
                length = wave.pour + use.cool
                held = model.cp.new_fixed_size_interval_var(pour.start, length, "")
                fills.append((ModelStep(pour.start, length, held), use.units))
        model.share(fills, count)


def _cost(model: Model, load: Load, v: Decided) -> Any:
    v.span = model.time(least_span(load), 2 * model.horizon)
    for j, job in enumerate(load.jobs):
        if job.due is not None:
            v.late[j] = model.time(max(0, job.opens - job.due), 2 * model.horizon)
        for w, wave in enumerate(job.waves):
            done = v.pour[j, w].start + wave.tail
            model.cp.add(v.span >= done)
            if job.due is not None:
                model.cp.add(v.late[j] >= done - job.due)
    weights = load.weights
    late = sum(v.late.values()) + load.late_so_far
    cleans = sum(v.cleaned.values()) + load.cleans_so_far
    cost = weights.span * v.span + weights.late * late + weights.clean * cleans
    model.cp.add(cost >= least_points(load))
    return cost


def _alike(model: Model, load: Load, v: Decided) -> None:
    last: dict[object, int] = {}
    for j, job in enumerate(load.jobs):
        if job.kit is None:
            if job.alike in last:
                before = last[job.alike]
                model.cp.add(v.heat[before, 0].start <= v.heat[j, 0].start)
                if (j, before) in v.arcs:
                    model.cp.add(v.arcs[j, before] == 0)
            last[job.alike] = j


def _hint(model: Model, load: Load, v: Decided, known: Plan) -> None:
    for steps, starts in ((v.heat, known.heat), (v.pour, known.pour)):
        for key, step in steps.items():
            model.cp.add_hint(step.start, starts[key])
    for j, flag in v.cleaned.items():
        model.cp.add_hint(flag, j in known.clean)
        model.cp.add_hint(v.clean[j].start, known.clean.get(j, load.now))
    on = arcs_of(load, known)
    for ends, literal in v.arcs.items():
        model.cp.add_hint(literal, ends in on)
    done = {j: opened(load, known, j) for j in range(len(load.jobs))}
    model.cp.add_hint(v.span, max(load.span_so_far, *done.values()))
    for j, late in v.late.items():
        model.cp.add_hint(late, max(0, done[j] - (load.jobs[j].due or 0)))


def _plan(load: Load, v: Decided, value: Callable[[Any], int]) -> Plan:
    return Plan(
        {key: value(step.start) for key, step in v.heat.items()},
        {key: value(step.start) for key, step in v.pour.items()},
        {j: value(v.clean[j].start) for j, flag in v.cleaned.items() if value(flag)},
        routes_of(load, {ends for ends, literal in v.arcs.items() if value(literal)}),
    )
