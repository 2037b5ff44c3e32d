"""From a plan on its grid to the steps a person reads, the begun ones before the planned ones."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from pourwright.plan.day.day_input import BegunCup, BegunWave, DayInput
from pourwright.plan.day.day_step import BY_HAND, MICROWAVED, DayStep, StepSort
from pourwright.plan.day.left_to_plan import LeftToPlan
from pourwright.plan.day.load import Plan


def timetable(inputs: DayInput, left: LeftToPlan, plan: Plan) -> tuple[DayStep, ...]:
    """Every step of the day in order of its start."""
    steps = [*_begun_steps(inputs), *_planned_steps(inputs, left, plan)]
    laned = [*_laned(steps, MICROWAVED), *_laned(steps, BY_HAND)]
    cooling = [s for s in steps if s.sort is StepSort.COOL]
    return tuple(sorted([*laned, *cooling], key=lambda s: (s.start_s, s.end_s, s.cup, s.sort)))


def _laned(steps: Iterable[DayStep], sorts: tuple[StepSort, ...]) -> list[DayStep]:
    """Steps with their microwave or person: the one that has waited least, or one more."""
    free: list[int] = []
    laned = []
    for step in sorted(
        (s for s in steps if s.sort in sorts), key=lambda s: (s.start_s, s.end_s, s.cup)
    ):
        open_lanes = [lane for lane, until in enumerate(free) if until <= step.start_s]
        if not open_lanes:
            free.append(0)
            open_lanes = [len(free) - 1]
        lane = max(open_lanes, key=lambda at: (free[at], -at))
        free[lane] = step.end_s
        laned.append(replace(step, lane=lane + 1))
    return laned


def _step(sort: StepSort, cup: str, wave: int, start_s: int, end_s: int, kit: int) -> DayStep:
    return DayStep(sort, cup, wave, start_s, end_s, kit, 0, "", 0, begun=False)


def _heat_sort(wave: int) -> StepSort:
    return StepSort.HEAT if wave == 1 else StepSort.REWARM


def _planned_steps(inputs: DayInput, left: LeftToPlan, plan: Plan) -> list[DayStep]:
    load, grid = left.load, left.grid_s
    steps = []
    kit_of = {j: kit + 1 for kit, route in enumerate(plan.routes) for j in route}
    for (j, w), at in plan.pour.items():
        job, wave, kit = load.jobs[j], load.jobs[j].waves[w], kit_of[j]
        number, end = job.done_waves + w + 1, at + wave.pour
        if (j, w) in plan.heat:
            heat = plan.heat[j, w]
            sort = _heat_sort(number)
            steps.append(_step(sort, job.name, number, heat * grid, (heat + wave.heat) * grid, kit))
        steps.append(_step(StepSort.POUR, job.name, number, at * grid, end * grid, kit))
        for use in wave.uses:
            cool = _step(StepSort.COOL, job.name, number, end * grid, (end + use.cool) * grid, kit)
            name = inputs.molds[use.mold].name
            steps.append(replace(cool, mold=name, molds=use.units))
    for j, at in plan.clean.items():
        end_s, kit = (at + load.clean) * grid, kit_of[j]
        steps.append(_step(StepSort.CLEAN, load.jobs[j].name, 0, at * grid, end_s, kit))
    return steps


def _begun_steps(inputs: DayInput) -> list[DayStep]:
    steps = [
        _step(StepSort.CLEAN, "", 0, clean.start_s, clean.end_s, clean.kit)
        for clean in inputs.cleaned
    ]
    for cup in inputs.begun:
        for number, wave in enumerate(cup.waves, 1):
            steps += _begun_wave(inputs, cup, number, wave)
    return [replace(step, begun=True) for step in steps]


def _begun_wave(inputs: DayInput, cup: BegunCup, number: int, wave: BegunWave) -> list[DayStep]:
    heat = _step(_heat_sort(number), cup.cup, number, wave.heat_start_s, wave.heat_end_s, cup.kit)
    if wave.pour_start_s is None or wave.pour_end_s is None:
        return [heat]
    pour = _step(StepSort.POUR, cup.cup, number, wave.pour_start_s, wave.pour_end_s, cup.kit)
    cool_s = {m.name: m.cool_s for m in inputs.molds}
    cooling = [
        replace(
            pour, sort=StepSort.COOL, start_s=wave.pour_end_s,
            end_s=wave.pour_end_s + cool_s[p.mold], mold=p.mold, molds=p.shots,
        )
        for p in wave.poured
    ]  # fmt: skip
    return [heat, pour, *cooling]
