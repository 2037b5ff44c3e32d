"""The routes of the kits: which cup follows which in a kit, from the rack and back to it.

A node is a cup, or, after the cups, a kit that holds none but has a past: a color still in it, or
a clean-up that still runs. Kits without a past are alike, so a route is free to be any of theirs.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import Any

from pourwright.plan.day.core import Model
from pourwright.plan.day.decided import Decided
from pourwright.plan.day.load import Load, Plan

RACK = -1
Arc = tuple[int, int]
Open = Callable[[int, int], bool]


def add_kits(model: Model, load: Load, decided: Decided, is_open: Open) -> None:
    """Routes over the arcs that are open, and a clean-up wherever a lighter color comes next."""
    cups = range(len(load.jobs))
    past = [len(cups) + i for i in range(len(_with_past(load)))]
    nodes = [*cups, *past]
    arcs = [(RACK, node) for node in nodes] + [(node, RACK) for node in nodes]
    arcs += [(a, j) for j in cups if load.jobs[j].kit is None for a in nodes if a != j]
    for a, b in arcs:
        if is_open(a, b):
            decided.arcs[a, b] = model.cp.new_bool_var("")
    model.cp.add_multiple_circuit([(a + 1, b + 1, arc) for (a, b), arc in decided.arcs.items()])
    for j in [*(j for j in cups if load.jobs[j].kit is not None), *past]:
        model.cp.add(decided.arcs[RACK, j] == 1)
    fresh = [j for j in cups if load.jobs[j].kit is None and (RACK, j) in decided.arcs]
    model.cp.add(sum(decided.arcs[RACK, j] for j in fresh) <= len(_fresh(load)))
    for j in cups:
        if load.jobs[j].kit is None:
            _comes_after(model, load, decided, j)
    _kits_in_use(model, load, decided)


def _comes_after(model: Model, load: Load, decided: Decided, j: int) -> None:
    """A cup is heated once its kit is free, and clean if what was in it is darker."""
    shade, washed = load.jobs[j].shade, []
    clean, heat = decided.clean[j].start, decided.heat[j, 0].start
    for (a, b), arc in decided.arcs.items():
        if b == j and a != RACK:
            end, before = _left(load, decided, a)
            model.cp.add(clean >= end).only_enforce_if(arc)
            if before is not None and shade < before:
                washed.append(arc)
    model.cp.add(sum(washed) == decided.cleaned[j])
    model.cp.add(heat >= clean + load.clean * decided.cleaned[j])


def _left(load: Load, decided: Decided, node: int) -> tuple[Any, int | None]:
    """When a node leaves its kit, and the shade it leaves there."""
    if node < len(load.jobs):
        job = load.jobs[node]
        return decided.pour[node, len(job.waves) - 1].end, job.shade
    kit = load.kits[_with_past(load)[node - len(load.jobs)]]
    return kit.free, kit.shade


def _kits_in_use(model: Model, load: Load, decided: Decided) -> None:
    """No more cups in work than kits: follows from the routes, and helps the proof."""
    stays = []
    for j, job in enumerate(load.jobs):
        last = decided.pour[j, len(job.waves) - 1]
        start = load.now if job.kit is not None else decided.heat[j, 0].start
        size, end = model.time(), model.time()
        model.cp.add(end == last.end)
        stays.append(model.cp.new_interval_var(start, size, end, ""))
    model.cp.add_cumulative(stays, [1] * len(stays), len(load.kits))


def _with_past(load: Load) -> list[int]:
    """Kits that hold no cup but have a past."""
    held = {job.kit for job in load.jobs}
    past = (k for k, kit in enumerate(load.kits) if kit.shade is not None or kit.free > load.now)
    return [k for k in past if k not in held]


def _fresh(load: Load) -> list[int]:
    """Kits that are clean and idle."""
    held, past = {job.kit for job in load.jobs}, _with_past(load)
    return [k for k in range(len(load.kits)) if k not in held and k not in past]


def nodes_of(load: Load, plan: Plan) -> list[list[int]]:
    """The nodes of each route of a plan, from the rack to the rack."""
    n, past = len(load.jobs), _with_past(load)
    routes = (
        [*([n + past.index(k)] if k in past else []), *route] for k, route in enumerate(plan.routes)
    )
    return [[RACK, *route, RACK] for route in routes if route]


def arcs_of(load: Load, plan: Plan) -> set[Arc]:
    """The arcs that a plan uses."""
    return {arc for nodes in nodes_of(load, plan) for arc in pairwise(nodes)}


def routes_of(load: Load, on: set[Arc]) -> tuple[tuple[int, ...], ...]:
    """The jobs of each kit; a kit that nothing has been in takes any of the free routes."""
    n, past, fresh = len(load.jobs), _with_past(load), _fresh(load)
    later = {a: b for a, b in on if a != RACK}
    routes: list[tuple[int, ...]] = [()] * len(load.kits)
    for start in sorted(b for a, b in on if a == RACK):
        route = [start]
        while later[route[-1]] != RACK:
            route.append(later[route[-1]])
        if start >= n:
            routes[past[start - n]] = tuple(route[1:])
        elif (kit := load.jobs[start].kit) is not None:
            routes[kit] = tuple(route)
        else:
            routes[fresh.pop(0)] = tuple(route)
    return tuple(routes)
