"""From a day as typed to what is left to plan: begun steps become times when things are free."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from pourwright.base.errors import BadInput
from pourwright.plan.day.day_input import BegunCup, BegunWave, DayCup, DayInput
from pourwright.plan.day.free_time import Lanes, Molds
from pourwright.plan.day.load import Job, KitState, Load, Taken, Use, Wave, Weights
from pourwright.plan.day.time_grid import grid_s
from pourwright.plan.day.wave_split import ShotsLeft, waves_of

MINUTE_S = 60


@dataclass(frozen=True, slots=True)
class LeftToPlan:
    """What is left, the seconds in a step of its grid, and cups that got cold in waiting."""

    load: Load
    grid_s: int
    rewarmed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Day:
    inputs: DayInput
    grid: int

    @property
    def counts(self) -> dict[str, int]:
        return {m.name: m.count for m in self.inputs.molds}

    @property
    def cool_s(self) -> dict[str, int]:
        return {m.name: m.cool_s for m in self.inputs.molds}

    @property
    def place(self) -> dict[str, int]:
        return {m.name: i for i, m in enumerate(self.inputs.molds)}

    @property
    def begun(self) -> dict[str, BegunCup]:
        return {b.cup: b for b in self.inputs.begun}

    def steps(self, seconds: int) -> int:
        return seconds // self.grid


def left_to_plan(inputs: DayInput) -> LeftToPlan:
    """What is left of the day.

    Raises: BadInput where more runs at once than there are microwaves, people, kits or molds.
    """
    day = _Day(inputs, grid_s(inputs))
    jobs = tuple(job for cup in inputs.cups if (job := _job(day, cup)) is not None)
    load = Load(
        jobs=jobs,
        molds=tuple(m.count for m in inputs.molds),
        taken=_taken(day),
        microwaves=_free(day, _heat_ends(inputs), inputs.microwaves, "microwaves"),
        hands=_free(day, _hand_ends(inputs), inputs.hands, "hands"),
        kits=_kits(day, jobs),
        hold=day.steps(inputs.hold_s),
        clean=day.steps(inputs.clean_s),
        now=day.steps(inputs.now_s),
        weights=Weights(
            inputs.span_weight * day.grid,
            inputs.late_weight * day.grid,
            inputs.clean_weight * MINUTE_S,
        ),
        span_so_far=max([0, *(day.steps(end) for _, end in _done(day))]),
        late_so_far=sum(_late(day, cup, end) for cup, end in _done(day)),
        cleans_so_far=len(inputs.cleaned),
    )
    return _hot_cups_settled(load, day.grid, day.steps(inputs.rewarm_s))


def _job(day: _Day, cup: DayCup) -> Job | None:
    """What is left of a cup; none when it is done."""
    begun = day.begun.get(cup.name)
    waves = begun.waves if begun else ()
    left = [ShotsLeft(f.mold, f.shots - _shots(waves, f.mold), f.pour_s) for f in cup.fills]
    split = waves_of(left, day.counts, day.inputs.pour_most_s)
    if not split:
        return None
    hot = begun is not None and begun.waves[-1].pour_start_s is None
    last = begun.waves[-1] if begun else None
    ready = day.inputs.now_s if last is None else max(day.inputs.now_s, _end_s(last))
    heats = [day.inputs.rewarm_s] * len(split)
    if begun is None:
        heats[0] = cup.heat_s
    job_waves = [_wave(day, h, wave) for h, wave in zip(heats, split, strict=True)]
    if hot and last is not None:
        until = day.steps(last.heat_end_s + day.inputs.hold_s)
        job_waves[0] = replace(job_waves[0], heat=0, hot=True, last=until)
    return Job(
        name=cup.name,
        shade=cup.shade,
        due=None if cup.due_min is None else day.steps(cup.due_min * MINUTE_S),
        ready=day.steps(ready),
        waves=tuple(job_waves),
        kit=begun.kit - 1 if begun else None,
        done_waves=len(waves) - hot,
        opens=max((day.steps(end_s) for end_s in _opened(day, waves)), default=0),
    )


def _shots(waves: tuple[BegunWave, ...], mold: str) -> int:
    return sum(p.shots for w in waves for p in w.poured if p.mold == mold)


def _end_s(wave: BegunWave) -> int:
    return wave.heat_end_s if wave.pour_end_s is None else wave.pour_end_s


def _wave(day: _Day, heat_s: int, wave: tuple[ShotsLeft, ...]) -> Wave:
    uses = (Use(day.place[s.mold], s.shots, day.steps(day.cool_s[s.mold])) for s in wave)
    pour_s = sum(s.shots * s.pour_s for s in wave)
    return Wave(day.steps(heat_s), day.steps(pour_s), tuple(uses))


def _taken(day: _Day) -> tuple[Taken, ...]:
    cooling = []
    for wave in _poured_waves(day.inputs):
        for poured in wave.poured:
            until = day.steps(_end_s(wave) + day.cool_s[poured.mold])
            if until > day.steps(day.inputs.now_s):
                cooling.append(Taken(day.place[poured.mold], poured.shots, until))
    for mold, count in day.counts.items():
        busy = sum(t.units for t in cooling if t.mold == day.place[mold])
        if busy > count:
            raise BadInput("begun", busy, f"molds {mold} are full at once; there are {count}")
    return tuple(cooling)


def _poured_waves(inputs: DayInput) -> list[BegunWave]:
    waves = (wave for begun in inputs.begun for wave in begun.waves)
    return [wave for wave in waves if wave.pour_end_s is not None]


def _heat_ends(inputs: DayInput) -> list[int]:
    return [wave.heat_end_s for begun in inputs.begun for wave in begun.waves]


def _hand_ends(inputs: DayInput) -> list[int]:
    return [_end_s(w) for w in _poured_waves(inputs)] + [c.end_s for c in inputs.cleaned]


def _free(day: _Day, ends_s: list[int], lanes: int, field: str) -> tuple[int, ...]:
    """From when each lane is free; lanes at rest are free now."""
    now = day.inputs.now_s
    busy = sorted(day.steps(end) for end in ends_s if end > now)
    if len(busy) > lanes:
        raise BadInput(field, lanes, f"{len(busy)} are said to be busy at once")
    return (*(day.steps(now),) * (lanes - len(busy)), *busy)


def _kits(day: _Day, jobs: tuple[Job, ...]) -> tuple[KitState, ...]:
    for kit in range(day.inputs.kits):
        held = [job.name for job in jobs if job.kit == kit]
        if len(held) > 1:
            raise BadInput("begun", kit + 1, f"the kit holds {' and '.join(held)} at once")
    return tuple(_kit(day, kit + 1) for kit in range(day.inputs.kits))


def _kit(day: _Day, kit: int) -> KitState:
    shades = {cup.name: cup.shade for cup in day.inputs.cups}
    told = [(_end_s(b.waves[-1]), shades[b.cup]) for b in day.inputs.begun if b.kit == kit]
    cleans = [(clean.end_s, None) for clean in day.inputs.cleaned if clean.kit == kit]
    end, shade = max([*told, *cleans], key=lambda fact: fact[0], default=(0, None))
    return KitState(max(day.steps(end), day.steps(day.inputs.now_s)), shade)


def _done(day: _Day) -> list[tuple[DayCup, int]]:
    """Cups with pours begun, and when the last mold of those is opened, in seconds."""
    ends = []
    for cup in day.inputs.cups:
        waves = day.begun[cup.name].waves if cup.name in day.begun else ()
        opened = _opened(day, waves)
        if opened:
            ends.append((cup, max(opened)))
    return ends


def _opened(day: _Day, waves: Iterable[BegunWave]) -> list[int]:
    """When the molds of pours begun are opened, in seconds."""
    return [_end_s(w) + day.cool_s[p.mold] for w in waves for p in w.poured]


def _late(day: _Day, cup: DayCup, end_s: int) -> int:
    """Lateness of a cup that is done; one that is not counts when its last mold is opened."""
    left = sum(f.shots - _shots(day.begun[cup.name].waves, f.mold) for f in cup.fills)
    if left or cup.due_min is None:
        return 0
    return max(0, day.steps(end_s - cup.due_min * MINUTE_S))


def _hot_cups_settled(load: Load, grid: int, rewarm: int) -> LeftToPlan:
    """Hot cups that no one can pour before they get cold are rewarmed instead."""
    hands, molds = Lanes(load.hands), Molds(load.molds, load.taken)
    jobs, rewarmed = list(load.jobs), []
    hot = [j for j, job in enumerate(jobs) if job.waves[0].hot]
    for j in sorted(hot, key=lambda j: (jobs[j].waves[0].last, j)):
        wave = jobs[j].waves[0]
        pour = hands.fit(molds.earliest(wave.uses, jobs[j].ready), wave.pour)
        if pour <= wave.last:
            hands.take(pour, wave.pour)
            molds.take(wave.uses, pour + wave.pour)
            continue
        cold = replace(wave, heat=rewarm, hot=False, last=0)
        done = jobs[j].done_waves + 1
        jobs[j] = replace(jobs[j], waves=(cold, *jobs[j].waves[1:]), done_waves=done)
        rewarmed.append(jobs[j].name)
    return LeftToPlan(replace(load, jobs=tuple(jobs)), grid, tuple(rewarmed))
