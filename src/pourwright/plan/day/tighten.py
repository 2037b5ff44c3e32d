"""The earliest times that keep a timetable's order; heatings then as late as no pour minds.

The order on every microwave, person, kit and mold becomes a net of least distances in time, with
the hold limit as a greatest distance. Its earliest times are longest paths, found by Bellman and
Ford's relaxation; no step of any timetable with that order can come sooner.
Source: Bellman (1958), On a routing problem, Quarterly of Applied Mathematics 16; Dechter, Meiri
and Pearl (1991), Temporal constraint networks, Artificial Intelligence 49.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable

from pourwright.plan.day.load import Load, Plan

Step = tuple[str, int, int]
HEAT, POUR, CLEAN = "heat", "pour", "clean"


class _Net:
    """Steps with their earliest times, and how far one must come after another."""

    def __init__(self) -> None:
        self.least: dict[Step, int] = {}
        self.after: dict[Step, list[tuple[Step, int]]] = {}

    def step(self, step: Step, least: int) -> None:
        self.least[step] = least
        self.after[step] = []

    def follows(self, step: Step, later: Step, lag: int) -> None:
        self.after[step].append((later, lag))

    def settle(self) -> dict[Step, int]:
        at = dict(self.least)
        moved = deque(at)
        most = (len(at) + 1) ** 2
        while moved:
            most -= 1
            if most < 0:
                raise RuntimeError("no timetable keeps this order")
            step = moved.popleft()
            for later, lag in self.after[step]:
                if at[later] < at[step] + lag:
                    at[later] = at[step] + lag
                    moved.append(later)
        return at


def tightened(load: Load, plan: Plan) -> Plan:
    """The plan with every pour and clean-up as early as its order allows."""
    net = _Net()
    _cups(net, load, plan)
    _kits(net, load, plan)
    _lanes(net, load.microwaves, _heatings(load, plan))
    _lanes(net, load.hands, _by_hand(load, plan))
    _molds(net, load, plan)
    at = net.settle()
    pour = {k: at[POUR, *k] for k in plan.pour}
    clean = {j: at[CLEAN, j, 0] for j in plan.clean}
    heat = {k: at[HEAT, *k] for k in plan.heat}
    return Plan(_late_heats(load, plan, heat, pour), pour, clean, plan.routes)


def _cups(net: _Net, load: Load, plan: Plan) -> None:
    for j, job in enumerate(load.jobs):
        for w, wave in enumerate(job.waves):
            least = max(load.now, job.ready)
            net.step((POUR, j, w), least)
            if not wave.hot:
                net.step((HEAT, j, w), least)
                net.follows((HEAT, j, w), (POUR, j, w), wave.heat)
                net.follows((POUR, j, w), (HEAT, j, w), -wave.heat - load.hold)
            if w:
                net.follows((POUR, j, w - 1), (HEAT, j, w), job.waves[w - 1].pour)
    for j in plan.clean:
        net.step((CLEAN, j, 0), load.now)


def _kits(net: _Net, load: Load, plan: Plan) -> None:
    for state, route in zip(load.kits, plan.routes, strict=True):
        before: tuple[Step, int] | None = None
        for j in route:
            first: Step = (HEAT, j, 0)
            if j in plan.clean:
                net.follows((CLEAN, j, 0), first, load.clean)
                first = (CLEAN, j, 0)
            if before is not None:
                net.follows(before[0], first, before[1])
            elif load.jobs[j].kit is None:
                net.least[first] = max(net.least[first], state.free)
            last = len(load.jobs[j].waves) - 1
            before = ((POUR, j, last), load.jobs[j].waves[last].pour)


def _heatings(load: Load, plan: Plan) -> list[tuple[int, int, Step]]:
    return [(at, load.jobs[j].waves[w].heat, (HEAT, j, w)) for (j, w), at in plan.heat.items()]


def _by_hand(load: Load, plan: Plan) -> list[tuple[int, int, Step]]:
    pours = [(at, load.jobs[j].waves[w].pour, (POUR, j, w)) for (j, w), at in plan.pour.items()]
    return pours + [(at, load.clean, (CLEAN, j, 0)) for j, at in plan.clean.items()]


def _lanes(net: _Net, free: Iterable[int], steps: list[tuple[int, int, Step]]) -> None:
    """Each step goes to the lane free last before it; it follows what that lane did."""
    lanes: list[tuple[int, Step | None, int]] = [(f, None, f) for f in free]
    for at, length, step in sorted(steps):
        best = max((i for i, lane in enumerate(lanes) if lane[0] <= at), key=lambda i: lanes[i][0])
        _follow(net, lanes[best], step)
        lanes[best] = (at + length, step, length)


def _follow(net: _Net, lane: tuple[int, Step | None, int], step: Step) -> None:
    _, before, lag = lane
    if before is None:
        net.least[step] = max(net.least[step], lag)
    else:
        net.follows(before, step, lag)


def _molds(net: _Net, load: Load, plan: Plan) -> None:
    for mold, count in enumerate(load.molds):
        taken = [
            (t.until, None, t.until) for t in load.taken if t.mold == mold for _ in range(t.units)
        ]
        units: list[tuple[int, Step | None, int]] = [*taken, *[(0, None, 0)] * (count - len(taken))]
        for (j, w), at in sorted(plan.pour.items(), key=lambda item: (item[1], item[0])):
            wave = load.jobs[j].waves[w]
            for use in (u for u in wave.uses if u.mold == mold):
                held = wave.pour + use.cool
                free = sorted(
                    (i for i, unit in enumerate(units) if unit[0] <= at),
                    key=lambda i: units[i][0], reverse=True,
                )  # fmt: skip
                for i in free[: use.units]:
                    _follow(net, units[i], (POUR, j, w))
                    units[i] = (at + held, (POUR, j, w), held)


def _late_heats(
    load: Load, plan: Plan, heat: dict[tuple[int, int], int], pour: dict[tuple[int, int], int]
) -> dict[tuple[int, int], int]:
    """Heatings moved toward their pours, in the order of their microwave."""
    late: dict[tuple[int, int], int] = {}
    for lane in _microwave_lanes(load, plan):
        limit: int | None = None
        for key in reversed(lane):
            length = load.jobs[key[0]].waves[key[1]].heat
            end = pour[key] if limit is None else min(pour[key], limit)
            late[key] = max(heat[key], end - length)
            limit = late[key]
    return late


def _microwave_lanes(load: Load, plan: Plan) -> list[list[tuple[int, int]]]:
    lanes: list[tuple[int, list[tuple[int, int]]]] = [(f, []) for f in load.microwaves]
    for at, length, (_, j, w) in sorted(_heatings(load, plan)):
        best = max((i for i, lane in enumerate(lanes) if lane[0] <= at), key=lambda i: lanes[i][0])
        lanes[best] = (at + length, [*lanes[best][1], (j, w)])
    return [keys for _, keys in lanes]
