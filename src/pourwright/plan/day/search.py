"""The best timetable by constraint search, from one that is known."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from pourwright.plan.day.alike import in_order
from pourwright.plan.day.bound import least_points, least_span
from pourwright.plan.day.core import Found, Model, ModelStep
from pourwright.plan.day.load import Load, Plan, opened

Key = tuple[int, int]
OUT = -1


@dataclass(slots=True)
class _Vars:
    """What the solver decides."""

    heat: dict[Key, ModelStep]
    pour: dict[Key, ModelStep]
    clean: dict[int, ModelStep]
    cleaned: dict[int, Any]
    arcs: dict[tuple[int, int], Any]
    span: Any = None
    late: dict[int, Any] | None = None


@dataclass(frozen=True, slots=True)
class Searched:
    """The best plan found, what none can go below, whether that was proven or cut short."""

    plan: Plan
    bound: float
    proven: bool
    stalled: bool


def searched(
    load: Load,
    known: Plan,
    *,
    effort: float,
    seed: int,
    better: Callable[[Plan], None] | None = None,
) -> Searched:
    """The best plan that the effort finds; never worse than the one known."""
    known = in_order(load, known)
    latest = max(opened(load, known, j) for j in range(len(load.jobs)))
    model = Model(2 * latest + load.clean)
    found_vars = _variables(model, load)
    _machines(model, load, found_vars)
    _kits(model, load, found_vars)
    _alike(model, load, found_vars)
    cost = _cost(model, load, found_vars)
    _hint(model, load, found_vars, known)

    def told(value: Callable[[Any], int]) -> None:
        if better is not None:
            better(_plan(load, found_vars, value))

    found = model.least(cost, effort=effort, seed=seed, better=told if better else None)
    return _searched(load, found, found_vars, known)


def _searched(load: Load, found: Found, v: _Vars, known: Plan) -> Searched:
    plan = known if found.values is None else _plan(load, v, found.values)
    return Searched(plan, found.bound, found.proven, found.stalled)


def _variables(model: Model, load: Load) -> _Vars:
    v = _Vars({}, {}, {}, {}, {})
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


def _machines(model: Model, load: Load, v: _Vars) -> None:
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


def _kits(model: Model, load: Load, v: _Vars) -> None:
    """Routes of the kits: node 0 is the rack, then the jobs, then used kits that hold none."""
    n, arcs = len(load.jobs), []
    used, fresh = _used(load), _fresh(load)

    def arc(a: int, b: int) -> Any:
        v.arcs[a, b] = literal = model.cp.new_bool_var("")
        arcs.append((a + 1, b + 1, literal))
        return literal

    starts = [arc(OUT, j) for j in range(n)]
    for j in range(n):
        arc(j, OUT)
        if load.jobs[j].kit is not None:
            model.cp.add(starts[j] == 1)
    for i in range(len(used)):
        model.cp.add(arc(OUT, n + i) == 1)
        arc(n + i, OUT)
    free_starts = [starts[j] for j in range(n) if load.jobs[j].kit is None]
    model.cp.add(sum(free_starts) <= len(fresh))
    for j in range(n):
        if load.jobs[j].kit is None:
            _comes_to(model, load, v, j, used, arc)
    model.cp.add_multiple_circuit(arcs)
    _kits_in_use(model, load, v)


def _comes_to(
    model: Model, load: Load, v: _Vars, j: int, used: list[int], arc: Callable[[int, int], Any]
) -> None:
    n, job, washed = len(load.jobs), load.jobs[j], []
    sources: list[tuple[int, Any, int]] = []
    for i, before in enumerate(load.jobs):
        if i != j:
            sources.append((i, v.pour[i, len(before.waves) - 1].end, before.shade))
    for i, k in enumerate(used):
        sources.append((n + i, load.kits[k].free, load.kits[k].shade or 0))
    for node, end, shade in sources:
        literal = arc(node, j)
        if job.shade < shade:
            washed.append(literal)
        model.cp.add(v.clean[j].start >= end).only_enforce_if(literal)
    model.cp.add(sum(washed) == v.cleaned[j])
    model.cp.add(v.heat[j, 0].start >= v.clean[j].start + load.clean * v.cleaned[j])


def _kits_in_use(model: Model, load: Load, v: _Vars) -> None:
    """No more cups in work than kits: follows from the routes, and helps the proof."""
    spans = []
    for j, job in enumerate(load.jobs):
        last = v.pour[j, len(job.waves) - 1]
        start = load.now if job.kit is not None else v.heat[j, 0].start
        size, end = model.time(), model.time()
        model.cp.add(end == last.end)
        spans.append(model.cp.new_interval_var(start, size, end, ""))
    model.cp.add_cumulative(spans, [1] * len(spans), len(load.kits))


def _alike(model: Model, load: Load, v: _Vars) -> None:
    """Of cups that could change places the first in the list comes first."""
    last: dict[object, int] = {}
    for j, job in enumerate(load.jobs):
        if job.kit is None:
            if job.alike in last:
                before = last[job.alike]
                model.cp.add(v.heat[before, 0].start <= v.heat[j, 0].start)
                if (j, before) in v.arcs:
                    model.cp.add(v.arcs[j, before] == 0)
            last[job.alike] = j


def _cost(model: Model, load: Load, v: _Vars) -> Any:
    v.span, v.late = model.time(least_span(load), 2 * model.horizon), {}
    for j, job in enumerate(load.jobs):
        if job.due is not None:
            v.late[j] = model.time(0, 2 * model.horizon)
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


def _hint(model: Model, load: Load, v: _Vars, known: Plan) -> None:
    for steps, starts in ((v.heat, known.heat), (v.pour, known.pour)):
        for key, step in steps.items():
            model.cp.add_hint(step.start, starts[key])
    for j, flag in v.cleaned.items():
        model.cp.add_hint(flag, j in known.clean)
        model.cp.add_hint(v.clean[j].start, known.clean.get(j, load.now))
    on = _arcs_of(load, known)
    for ends, literal in v.arcs.items():
        model.cp.add_hint(literal, ends in on)
    done = {j: opened(load, known, j) for j in range(len(load.jobs))}
    model.cp.add_hint(v.span, max(load.span_so_far, *done.values()))
    for j, late in (v.late or {}).items():
        model.cp.add_hint(late, max(0, done[j] - (load.jobs[j].due or 0)))


def _used(load: Load) -> list[int]:
    """Kits that hold no cup but have a past: a color in them, or a clean-up that still runs."""
    held = {job.kit for job in load.jobs}
    past = (k for k, kit in enumerate(load.kits) if kit.shade is not None or kit.free > load.now)
    return [k for k in past if k not in held]


def _fresh(load: Load) -> list[int]:
    """Kits that are clean and idle."""
    held = {job.kit for job in load.jobs}
    used = _used(load)
    return [k for k in range(len(load.kits)) if k not in held and k not in used]


def _arcs_of(load: Load, plan: Plan) -> set[tuple[int, int]]:
    n, used = len(load.jobs), _used(load)
    on = set()
    for k, route in enumerate(plan.routes):
        nodes = [*([n + used.index(k)] if k in used else []), *route]
        if nodes:
            on |= set(zip([OUT, *nodes], [*nodes, OUT], strict=True))
    return on


def _plan(load: Load, v: _Vars, value: Callable[[Any], int]) -> Plan:
    return Plan(
        {key: value(step.start) for key, step in v.heat.items()},
        {key: value(step.start) for key, step in v.pour.items()},
        {j: value(v.clean[j].start) for j, flag in v.cleaned.items() if value(flag)},
        _routes(load, {ends for ends, literal in v.arcs.items() if value(literal)}),
    )


def _routes(load: Load, on: set[tuple[int, int]]) -> tuple[tuple[int, ...], ...]:
    """The jobs of each kit; a kit that nothing has been in takes any of the free routes."""
    n, used = len(load.jobs), _used(load)
    later = {a: b for a, b in on if a != OUT}
    routes: list[tuple[int, ...]] = [()] * len(load.kits)
    fresh = _fresh(load)
    for start in sorted(b for a, b in on if a == OUT):
        route = [start]
        while later[route[-1]] != OUT:
            route.append(later[route[-1]])
        if start >= n:
            routes[used[start - n]] = tuple(route[1:])
        elif (kit := load.jobs[start].kit) is not None:
            routes[kit] = tuple(route)
        else:
            routes[fresh.pop(0)] = tuple(route)
    return tuple(routes)
