"""What is left of a day, in whole steps of its time grid: the form that rules and search read.

Only what has not begun is planned. What runs or cools beyond now stands here as times from
which a microwave, a person, a mold or a kit is free again.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Use:
    """Molds of one sort that a wave fills; `pour + cool` is how long they are taken."""

    mold: int
    units: int
    cool: int


@dataclass(frozen=True, slots=True)
class Wave:
    """Heating and pour; a wave that is hot already has no heating and must pour until `last`."""

    heat: int
    pour: int
    uses: tuple[Use, ...]
    hot: bool = False
    last: int = 0

    @property
    def tail(self) -> int:
        """From the start of its pour until its last mold is opened."""
        return self.pour + max((u.cool for u in self.uses), default=0)


@dataclass(frozen=True, slots=True)
class Job:
    """What is left of a cup; `kit` is the place of the kit that it has been begun on.

    `opens` is when the molds that it has filled already are all opened.
    """

    name: str
    shade: int
    due: int | None
    ready: int
    waves: tuple[Wave, ...]
    kit: int | None = None
    done_waves: int = 0
    opens: int = 0

    @property
    def alike(self) -> tuple[object, ...]:
        """Equal for two cups that could change places unnoticed."""
        return (self.shade, self.due, self.ready, self.waves)


@dataclass(frozen=True, slots=True)
class KitState:
    """A kit as it stands: from when it is free, and the shade in it; none when it is clean."""

    free: int
    shade: int | None


@dataclass(frozen=True, slots=True)
class Taken:
    """Molds that still cool from pours begun."""

    mold: int
    units: int
    until: int


@dataclass(frozen=True, slots=True)
class Weights:
    """Points of a grid step of span, of a grid step of lateness, of a clean-up."""

    span: int
    late: int
    clean: int


@dataclass(frozen=True, slots=True)
class Load:
    """What is left to plan, and what is there to do it with."""

    jobs: tuple[Job, ...]
    molds: tuple[int, ...]
    taken: tuple[Taken, ...]
    microwaves: tuple[int, ...]
    hands: tuple[int, ...]
    kits: tuple[KitState, ...]
    hold: int
    clean: int
    now: int
    weights: Weights
    span_so_far: int
    late_so_far: int
    cleans_so_far: int


@dataclass(frozen=True, slots=True)
class Plan:
    """Starts by (job, wave), starts of the clean-ups before jobs, jobs of each kit in order."""

    heat: dict[tuple[int, int], int]
    pour: dict[tuple[int, int], int]
    clean: dict[int, int]
    routes: tuple[tuple[int, ...], ...]


def opened(load: Load, plan: Plan, job: int) -> int:
    """When the last mold of a cup is opened."""
    it = load.jobs[job]
    return max(it.opens, *(plan.pour[job, w] + wave.tail for w, wave in enumerate(it.waves)))


def points(load: Load, plan: Plan) -> int:
    """Span, lateness and clean-ups by their weights."""
    span, late = load.span_so_far, load.late_so_far
    for j, job in enumerate(load.jobs):
        at = opened(load, plan, j)
        span = max(span, at)
        late += max(0, at - job.due) if job.due is not None else 0
    w = load.weights
    return w.span * span + w.late * late + w.clean * (load.cleans_so_far + len(plan.clean))
