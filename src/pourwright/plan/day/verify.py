"""Whether a timetable keeps every rule of the day, read from its steps alone.

Knows nothing of how timetables are made: it takes the day as typed and the steps as printed.
What has begun is a fact; rules bind the steps that are still planned.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from pourwright.plan.day.day_input import DayCup, DayInput
from pourwright.plan.day.day_step import BY_HAND, MICROWAVED, DayStep, DayTotals, StepSort

Steps = tuple[DayStep, ...]


def broken_rules(inputs: DayInput, steps: Steps, totals: DayTotals) -> tuple[str, ...]:
    """Every broken rule in words; empty for a timetable that holds."""
    return (
        *_facts(inputs, steps),
        *_too_soon(inputs, steps),
        *_lanes(steps, MICROWAVED, inputs.microwaves, "microwave"),
        *_lanes(steps, BY_HAND, inputs.hands, "person"),
        *_molds(inputs, steps),
        *_cups(inputs, steps),
        *_kits(inputs, steps),
        *_totals(inputs, steps, totals),
    )


def _facts(inputs: DayInput, steps: Steps) -> Iterator[str]:
    """What has begun stands there as it was told, and nothing else does."""
    told = [(StepSort.CLEAN, "", 0, c.start_s, c.end_s, c.kit) for c in inputs.cleaned]
    for cup in inputs.begun:
        for number, wave in enumerate(cup.waves, 1):
            sort = StepSort.HEAT if number == 1 else StepSort.REWARM
            told.append((sort, cup.cup, number, wave.heat_start_s, wave.heat_end_s, cup.kit))
            if wave.pour_start_s is not None and wave.pour_end_s is not None:
                pour = (wave.pour_start_s, wave.pour_end_s)
                told.append((StepSort.POUR, cup.cup, number, *pour, cup.kit))
    shown = [
        (s.sort, s.cup, s.wave, s.start_s, s.end_s, s.kit)
        for s in steps if s.begun and s.sort is not StepSort.COOL
    ]  # fmt: skip
    if sorted(told) != sorted(shown):
        yield "what has begun is not shown as it was told"


def _too_soon(inputs: DayInput, steps: Steps) -> Iterator[str]:
    for s in steps:
        if not s.begun and s.start_s < inputs.now_s:
            yield f"{s.cup}: {s.sort} begins before now"


def _lanes(steps: Steps, sorts: tuple[StepSort, ...], lanes: int, what: str) -> Iterator[str]:
    """Every microwave and person does one thing at a time."""
    used = [s for s in steps if s.sort in sorts]
    for s in used:
        if not s.begun and not 1 <= s.lane <= lanes:
            yield f"{s.cup}: {s.sort} by {what} {s.lane} of {lanes}"
    for lane in {s.lane for s in used}:
        yield from _overlaps((s for s in used if s.lane == lane), f"{what} {lane}")


def _overlaps(steps: Iterable[DayStep], what: str) -> Iterator[str]:
    """Pairs that overlap, unless both are facts."""
    ordered = sorted((s for s in steps if s.end_s > s.start_s), key=lambda s: s.start_s)
    for i, one in enumerate(ordered):
        for other in ordered[i + 1 :]:
            if other.start_s >= one.end_s:
                break
            if not (one.begun and other.begun):
                yield f"{what} has {one.sort} of {one.cup} and {other.sort} of {other.cup} at once"


def _molds(inputs: DayInput, steps: Steps) -> Iterator[str]:
    """From the start of its pour until it is opened a mold serves one shot."""
    pours = {(s.cup, s.wave): s for s in steps if s.sort is StepSort.POUR}
    for mold in inputs.molds:
        cooling = [s for s in steps if s.sort is StepSort.COOL and s.mold == mold.name]
        for s in cooling:
            if (s.cup, s.wave) not in pours:
                yield f"{s.cup}: {mold.name} cools without a pour"
            elif s.start_s != pours[s.cup, s.wave].end_s or s.end_s - s.start_s != mold.cool_s:
                yield f"{s.cup}: {mold.name} does not cool {mold.cool_s} s after its pour"
        held = [
            (pours[s.cup, s.wave].start_s, s.end_s, s) for s in cooling if (s.cup, s.wave) in pours
        ]  # fmt: skip
        for start, _, s in held:
            busy = sum(o.molds for a, b, o in held if a <= start < b)
            if not s.begun and busy > mold.count:
                yield f"{s.cup}: {busy} of {mold.name} are full at once; there are {mold.count}"


def _cups(inputs: DayInput, steps: Steps) -> Iterator[str]:
    names = {cup.name for cup in inputs.cups}
    for s in steps:
        if s.cup not in names and s.sort is not StepSort.CLEAN:
            yield f"{s.cup} is not among the cups"
    for cup in inputs.cups:
        mine = tuple(s for s in steps if s.cup == cup.name and s.sort is not StepSort.CLEAN)
        yield from _shots(cup, mine)
        yield from _waves(inputs, cup, mine)


def _shots(cup: DayCup, mine: Steps) -> Iterator[str]:
    """A cup fills what it was to fill, once."""
    wanted = {fill.mold: fill.shots for fill in cup.fills}
    filled: dict[str, int] = {}
    for s in mine:
        if s.sort is StepSort.COOL:
            filled[s.mold] = filled.get(s.mold, 0) + s.molds
    if filled != wanted:
        yield f"{cup.name} fills {filled} instead of {wanted}"


def _waves(inputs: DayInput, cup: DayCup, mine: Steps) -> Iterator[str]:
    """Heat, pour, rewarm, pour: each after the one before, hot when it is poured."""
    chain = sorted((s for s in mine if s.sort is not StepSort.COOL), key=_in_chain)
    if len({s.kit for s in mine}) > 1:
        yield f"{cup.name} changes its kit"
    heated: DayStep | None = None
    ended = 0
    for s in chain:
        if not s.begun and s.start_s < ended:
            yield f"{cup.name}: {s.sort} begins before the step before it has ended"
        ended = s.end_s
        if s.sort in MICROWAVED:
            heated = s
            yield from _heating(inputs, cup, s)
        elif not s.begun:
            yield from _pour(inputs, cup, s, heated, mine)
            heated = None


def _in_chain(s: DayStep) -> tuple[int, bool]:
    return (s.wave, s.sort not in MICROWAVED)


def _heating(inputs: DayInput, cup: DayCup, s: DayStep) -> Iterator[str]:
    needed = cup.heat_s if s.wave == 1 else inputs.rewarm_s
    if not s.begun and (
        s.end_s - s.start_s != needed or (s.sort is StepSort.HEAT) != (s.wave == 1)
    ):
        yield f"{cup.name}: heating {s.wave} does not take {needed} s"


def _pour(
    inputs: DayInput, cup: DayCup, s: DayStep, heated: DayStep | None, mine: Steps
) -> Iterator[str]:
    if heated is None or heated.wave != s.wave:
        yield f"{cup.name}: pour {s.wave} has not been heated"
    elif s.start_s - heated.end_s > inputs.hold_s:
        yield f"{cup.name}: waits hot for longer than {inputs.hold_s} s"
    pour_s = {fill.mold: fill.pour_s for fill in cup.fills}
    cooling = [c for c in mine if c.sort is StepSort.COOL and c.wave == s.wave]
    needed = sum(c.molds * pour_s.get(c.mold, 0) for c in cooling)
    if s.end_s - s.start_s != needed:
        yield f"{cup.name}: pour {s.wave} does not take {needed} s"
    if inputs.pour_most_s is not None and needed > inputs.pour_most_s:
        yield f"{cup.name}: pour {s.wave} is longer than one heating allows"


def _kits(inputs: DayInput, steps: Steps) -> Iterator[str]:
    """A kit holds one cup at a time, and is cleaned between a darker and a lighter color."""
    shade = {cup.name: cup.shade for cup in inputs.cups}
    for s in steps:
        if not s.begun and not 1 <= s.kit <= inputs.kits:
            yield f"{s.cup}: kit {s.kit} of {inputs.kits}"
        if s.sort is StepSort.CLEAN and not s.begun and s.end_s - s.start_s != inputs.clean_s:
            yield f"clean-up before {s.cup} does not take {inputs.clean_s} s"
    for kit in {s.kit for s in steps}:
        yield from _stays(f"kit {kit}", _on_kit(steps, kit), shade)


def _on_kit(steps: Steps, kit: int) -> list[tuple[int, int, str, bool]]:
    """When each cup is in a kit, and clean-ups under no name: start, end, cup, fact."""
    mine = [s for s in steps if s.kit == kit and s.sort is not StepSort.COOL]
    stays = [(s.start_s, s.end_s, "", s.begun) for s in mine if s.sort is StepSort.CLEAN]
    for cup in {s.cup for s in mine if s.sort is not StepSort.CLEAN}:
        own = [s for s in mine if s.cup == cup and s.sort is not StepSort.CLEAN]
        start, end = min(s.start_s for s in own), max(s.end_s for s in own)
        stays.append((start, end, cup, any(s.begun for s in own)))
    return sorted(stays)


def _stays(
    kit: str, stays: list[tuple[int, int, str, bool]], shade: dict[str, int]
) -> Iterator[str]:
    color: int | None = None
    until = 0
    for start, end, cup, fact in stays:
        if not fact and start < until:
            yield f"{kit} takes {cup or 'a clean-up'} before it is free"
        if cup and not fact and color is not None and shade.get(cup, 0) < color:
            yield f"{kit} is not cleaned before the lighter {cup}"
        color = shade.get(cup, 0) if cup else None
        until = max(until, end)


def _totals(inputs: DayInput, steps: Steps, totals: DayTotals) -> Iterator[str]:
    """The sums are those of the steps."""
    opened: dict[str, int] = {}
    for s in steps:
        if s.sort is StepSort.COOL:
            opened[s.cup] = max(opened.get(s.cup, 0), s.end_s)
    due = {c.name: 60 * c.due_min for c in inputs.cups if c.due_min is not None}
    span = max(opened.values(), default=0)
    late = sum(max(0, at - due[cup]) for cup, at in opened.items() if cup in due)
    cleans = sum(s.sort is StepSort.CLEAN for s in steps)
    points = inputs.span_weight * span + inputs.late_weight * late
    objective = (points + 60 * inputs.clean_weight * cleans) / 60
    if (span, late, cleans, objective) != (
        totals.span_s, totals.late_s, totals.clean_ups, totals.objective,
    ):  # fmt: skip
        yield "span, lateness, clean-ups or points are not those of the steps"
