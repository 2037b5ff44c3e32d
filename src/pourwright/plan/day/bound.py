"""What no timetable of a load can go below, without a solver.

Each sort of machine is busy for all its work, and no cup goes faster than alone.
"""

from __future__ import annotations

from pourwright.plan.day.load import Job, Load


def alone(load: Load, job: Job) -> int:
    """When a cup is done if nothing else is in its way."""
    at = max(load.now, job.ready)
    opened = max(at, job.opens)
    for wave in job.waves:
        pour = at + wave.heat
        opened = max(opened, pour + wave.tail)
        at = pour + wave.pour
    return opened


def least_span(load: Load) -> int:
    """The earliest that the last mold can be opened."""
    if not load.jobs:
        return load.span_so_far
    return max(
        load.span_so_far, *(alone(load, job) for job in load.jobs),
        _microwaves(load), _hands(load), *(_mold(load, m) for m in range(len(load.molds))),
    )  # fmt: skip


def least_points(load: Load) -> int:
    """Points that no timetable can go below."""
    late = load.late_so_far + sum(
        max(0, alone(load, job) - job.due) for job in load.jobs if job.due is not None
    )
    w = load.weights
    return w.span * least_span(load) + w.late * late + w.clean * load.cleans_so_far


def _shared(free: tuple[int, ...], work: int) -> int:
    """When lanes that share some work are done at the earliest."""
    return -(-(sum(free) + work) // len(free))


def _microwaves(load: Load) -> int:
    waves = [wave for job in load.jobs for wave in job.waves if not wave.hot]
    if not waves:
        return 0
    work = sum(wave.heat for wave in waves)
    tail = min(job.waves[-1].tail for job in load.jobs)
    return _shared(load.microwaves, work) + (tail if len(load.microwaves) == 1 else 0)


def _hands(load: Load) -> int:
    """Nobody pours before the first cup is hot, unless one is already; then molds cool."""
    work = sum(wave.pour for job in load.jobs for wave in job.waves)
    tail = min(job.waves[-1].tail - job.waves[-1].pour for job in load.jobs)
    alone = len(load.hands) == 1
    return _shared(_from(load, load.hands), work) + (tail if alone else 0)


def _from(load: Load, free: tuple[int, ...]) -> tuple[int, ...]:
    """From when lanes can begin to pour."""
    first = min(job.waves[0].heat + max(load.now, job.ready) for job in load.jobs)
    return tuple(max(at, first) for at in free)


def _mold(load: Load, mold: int) -> int:
    taken = [t for t in load.taken if t.mold == mold]
    uses = [
        (wave.pour + use.cool) * use.units
        for job in load.jobs for wave in job.waves for use in wave.uses if use.mold == mold
    ]  # fmt: skip
    if not uses:
        return 0
    busy = sum(t.units * (t.until - load.now) for t in taken)
    return load.now - (-(sum(uses) + busy) // load.molds[mold])
