"""Timetables by simple rules: at every turn the best step by the rule is put where it fits first.

Hot cups that wait for their pour come first, the most urgent before the others: `left_to_plan`
has made sure that they fit so.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from pourwright.plan.day.free_time import Lanes, Molds
from pourwright.plan.day.load import Load, Plan, Wave

NEVER = 10**9


class Rule(StrEnum):
    """By which rule the next step is chosen."""

    EARLIEST_POUR = "earliest pour"
    DUE_FIRST = "due first"
    LIGHT_TO_DARK = "light to dark"
    BALANCE = "balance"


@dataclass(slots=True)
class _Kit:
    free: int
    shade: int | None
    job: int | None = None
    wave: int = 0
    route: list[int] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Spot:
    """Where a step of a cup would fit on a kit."""

    kit: int
    job: int
    clean: int | None
    heat: int
    pour: int


class _Day:
    """A timetable that grows step by step."""

    def __init__(self, load: Load, jig: tuple[float, ...]) -> None:
        self.load, self.jig = load, jig
        self.microwaves, self.hands = Lanes(load.microwaves), Lanes(load.hands)
        self.molds = Molds(load.molds, load.taken)
        self.kits = [_Kit(k.free, k.shade) for k in load.kits]
        self.heat: dict[tuple[int, int], int] = {}
        self.pour: dict[tuple[int, int], int] = {}
        self.clean: dict[int, int] = {}
        self.waiting: list[int] = []
        for j, job in enumerate(load.jobs):
            if job.kit is None:
                self.waiting.append(j)
            else:
                kit = self.kits[job.kit]
                kit.job, kit.free = j, job.ready
                kit.route.append(j)

    def fill_hot(self) -> None:
        jobs = self.load.jobs
        hot = [j for j, job in enumerate(jobs) if job.waves[0].hot]
        for j in sorted(hot, key=lambda j: (jobs[j].waves[0].last, j)):
            kit = jobs[j].kit
            if kit is not None:
                self.put(self.spot(kit, j))

    def spot(self, place: int, j: int) -> _Spot:
        kit, job = self.kits[place], self.load.jobs[j]
        wave = job.waves[kit.wave if kit.job == j else 0]
        ready, clean = max(kit.free, job.ready), None
        if kit.job is None and kit.shade is not None and job.shade < kit.shade:
            clean = self.hands.fit(kit.free, self.load.clean)
            ready = max(ready, clean + self.load.clean)
        if wave.hot:
            return _Spot(place, j, clean, 0, self.pour_from(ready, wave))
        heat = self.microwaves.fit(ready, wave.heat)
        pour = self.pour_from(heat + wave.heat, wave)
        while pour > heat + wave.heat + self.load.hold:
            heat = self.microwaves.fit(pour - wave.heat - self.load.hold, wave.heat)
            pour = self.pour_from(heat + wave.heat, wave)
        return _Spot(place, j, clean, heat, pour)

    def pour_from(self, at: int, wave: Wave) -> int:
        return self.hands.fit(self.molds.earliest(wave.uses, at), wave.pour)

    def put(self, spot: _Spot) -> None:
        kit, job = self.kits[spot.kit], self.load.jobs[spot.job]
        if kit.job is None:
            kit.job, kit.wave = spot.job, 0
            kit.route.append(spot.job)
            self.waiting.remove(spot.job)
        wave = job.waves[kit.wave]
        if spot.clean is not None:
            self.clean[spot.job] = spot.clean
            self.hands.take(spot.clean, self.load.clean)
        if not wave.hot:
            self.heat[spot.job, kit.wave] = spot.heat
            self.microwaves.take(spot.heat, wave.heat)
        self.pour[spot.job, kit.wave] = spot.pour
        self.hands.take(spot.pour, wave.pour)
        self.molds.take(wave.uses, spot.pour + wave.pour)
        kit.free, kit.shade, kit.wave = spot.pour + wave.pour, job.shade, kit.wave + 1
        if kit.wave == len(job.waves):
            kit.job = None

    def spots(self) -> list[_Spot]:
        """Every step that could come next; kits that are alike are asked once."""
        found, seen = [], set()
        for place, kit in enumerate(self.kits):
            if kit.job is not None:
                found.append(self.spot(place, kit.job))
            elif (kit.free, kit.shade) not in seen:
                seen.add((kit.free, kit.shade))
                found += [self.spot(place, j) for j in self.waiting]
        return found

    def key(self, rule: Rule, spot: _Spot) -> tuple[float, ...]:
        """The smaller, the sooner."""
        job, jig = self.load.jobs[spot.job], self.jig[spot.job]
        due = NEVER if job.due is None else job.due
        fresh, dirty = self.kits[spot.kit].job is None, spot.clean is not None
        wait = self.load.clean * jig
        match rule:
            case Rule.EARLIEST_POUR:
                return (spot.pour + wait, dirty, due, job.shade, spot.job)
            case Rule.DUE_FIRST:
                return (fresh, due + 2 * wait, dirty, job.shade, spot.pour, spot.job)
            case Rule.LIGHT_TO_DARK:
                return (fresh, dirty, job.shade + 3 * jig, due, spot.pour, spot.job)
            case Rule.BALANCE:
                pull = self.load.clean * (0.5 * dirty - 0.5 * (not fresh))
                return (spot.pour + wait + pull + min(due, 100_000) / 40, job.shade, spot.job)


def greedy(load: Load, rule: Rule, jig: tuple[float, ...] | None = None) -> Plan:
    """A timetable by a rule; `jig` moves each cup a little in the rule's order."""
    day = _Day(load, jig or (0.0,) * len(load.jobs))
    day.fill_hot()
    while day.waiting or any(kit.job is not None for kit in day.kits):
        day.put(min(day.spots(), key=lambda spot: day.key(rule, spot)))
    return Plan(day.heat, day.pour, day.clean, tuple(tuple(k.route) for k in day.kits))
