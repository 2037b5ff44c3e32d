"""The best timetable of a pour day."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from pourwright.base.calc import calculation
from pourwright.base.field import out
from pourwright.base.source import PRACTICE, estimate, published
from pourwright.plan.day.bound import least_points
from pourwright.plan.day.day_input import DayInput
from pourwright.plan.day.day_step import DayStep, DayTotals, StepSort
from pourwright.plan.day.greedy import Rule
from pourwright.plan.day.left_to_plan import LeftToPlan, left_to_plan
from pourwright.plan.day.load import Plan, points
from pourwright.plan.day.multistart import by_rules, shaken
from pourwright.plan.day.search import Searched, Share, searched
from pourwright.plan.day.timetable import timetable
from pourwright.plan.day.verify import broken_rules
from pourwright.plan.day.words import CAUTION, LEFT_OUT, gap_told, gap_words, stall_told

STARTS = 24
MINUTE_S = 60
Better = Callable[["DayAnswer"], None]


@dataclass(frozen=True, slots=True)
class RuleTried:
    """What a simple rule comes to."""

    rule: Rule = out("Rule")
    totals: DayTotals = out("What its timetable comes to")


@dataclass(frozen=True, slots=True)
class CupDone:
    """When a cup's last mold is opened."""

    cup: str = out("Cup")
    kit: int = out("Injector kit, from 1")
    done_s: int = out("Its last mold is opened, from the start of the day")
    late_s: int = out("How late that is")


@dataclass(frozen=True, slots=True)
class DayAnswer:
    """A timetable, what it comes to, and how far from the best it can be."""

    steps: tuple[DayStep, ...] = out("The timetable, in order of the starts")
    cups: tuple[CupDone, ...] = out("When each cup is done, in the order given")
    totals: DayTotals = out("Span, lateness, clean-ups, and points by their weights")
    bound: float = out("Points that no timetable can go below")
    proven: bool = out("No timetable has fewer points")
    gap: float | None = out(
        "Share of the points, 0 to 1, that a better timetable could save at most; null where the "
        "bound is too far away to mean something"
    )
    gap_words: str = out("The gap in words")
    rules: tuple[RuleTried, ...] = out("The simple rules, each tried")
    verified: bool = out("A check that knows no solver found every rule of the day kept")
    notes: tuple[str, ...] = out("Cautions, and what is left out")


@calculation(
    "plan.day",
    purpose="the best timetable of a pour day",
    sources=(
        PRACTICE,
        estimate("hold, rewarming, clean-up and the weights of points, where they are left out"),
        published(
            "Graham, Lawler, Lenstra and Rinnooy Kan (1979), Optimization and approximation in "
            "deterministic sequencing and scheduling, Annals of Discrete Mathematics 5"
        ),
    ),
    example={
        "cups": [
            {"name": "white", "heat_s": 240, "shade": 5, "due_min": 45,
             "fills": [{"mold": "stick", "shots": 3, "pour_s": 60}]},
            {"name": "green", "heat_s": 300, "shade": 60,
             "fills": [{"mold": "craw", "shots": 2, "pour_s": 60}]},
            {"name": "black", "heat_s": 180, "shade": 100,
             "fills": [{"mold": "stick", "shots": 1, "pour_s": 60},
                       {"mold": "craw", "shots": 1, "pour_s": 60}]},
        ],
        "molds": [{"name": "stick", "count": 2, "cool_s": 300},
                  {"name": "craw", "cool_s": 360}],
        "kits": 2,
        "effort": 2,
    },
)  # fmt: skip
def plan_day(inputs: DayInput) -> DayAnswer:
    """Every cup is heated, poured, rewarmed and poured again until its molds are filled.

    A microwave heats one cup at a time; one person pours or cleans at a time; a mold serves one
    shot from the start of its pour until it has cooled; a kit holds one cup from its first heating
    to its last pour, and is cleaned before a lighter color. A heated cup is poured within the hold
    limit. The points of span, lateness and clean-ups are as few as the search can make them: four
    simple rules, shaken starts of them, then a constraint search. The same input gives the same
    answer; the effort is counted in steps of the search, not by the clock.
    Raises: BadInput for facts that cannot be.
    """
    return best_day(inputs)


def best_day(inputs: DayInput, better: Better | None = None, at: Share | None = None) -> DayAnswer:
    """The answer of `plan.day`; every better timetable on the way is handed to `better`.

    The first is handed over at once. A day of many cups is searched in rounds; after each, `at`
    hears the share of the effort that is spent. What either raises ends the search.
    """
    left = left_to_plan(inputs)
    load = left.load
    rules = by_rules(load)
    first = min(rules.values(), key=lambda plan: points(load, plan))
    tried = _Tried(inputs, left, rules, better)
    tried.tell(first)
    plan, effort = first, inputs.effort
    if load.jobs and effort > 0:
        plan = shaken(load, first, starts=STARTS, seed=inputs.seed)
        tried.tell(plan)
    if load.jobs and effort > 0 and points(load, plan) > least_points(load):
        found = searched(
            load,
            plan,
            effort=effort,
            seed=inputs.seed,
            better=tried.tell if better else None,
            at=at,
        )
        return tried.best(found)
    proven = points(load, plan) <= least_points(load)
    return tried.best(Searched(plan, least_points(load), proven, stalled=False))


class _Tried:
    """Timetables of one day, each checked before anyone sees it."""

    def __init__(
        self, inputs: DayInput, left: LeftToPlan, rules: dict[Rule, Plan], better: Better | None
    ) -> None:
        self.inputs, self.left, self.better = inputs, left, better
        self.rules = tuple(RuleTried(rule, self.checked(plan)[1]) for rule, plan in rules.items())
        self.fewest: float | None = None

    def checked(self, plan: Plan) -> tuple[tuple[DayStep, ...], DayTotals]:
        """The steps and sums of a plan. Raises: RuntimeError where it breaks a rule of the day."""
        steps = timetable(self.inputs, self.left, plan)
        totals = _totals(self.inputs, self.left, plan, steps)
        broken = broken_rules(self.inputs, steps, totals)
        if broken:
            raise RuntimeError(f"a timetable breaks rules of the day: {'; '.join(broken[:5])}")
        return steps, totals

    def tell(self, plan: Plan) -> None:
        """Hand over a plan that is better than those before."""
        if self.better is None:
            return
        answer = self.best(Searched(plan, least_points(self.left.load), False, False))
        if self.fewest is None or answer.totals.objective < self.fewest:
            self.fewest = answer.totals.objective
            self.better(answer)

    def best(self, found: Searched) -> DayAnswer:
        """The answer for a plan and its bound."""
        steps, totals = self.checked(found.plan)
        bound = max(found.bound, least_points(self.left.load)) / MINUTE_S
        bound = min(bound, totals.objective)
        proven = found.proven or bound >= totals.objective
        gap = gap_told(totals.objective, bound)
        notes = (*_rewarmed(self.left), *stall_told(found.stalled), *LEFT_OUT, CAUTION)
        return DayAnswer(
            steps, _cups(self.inputs, steps), totals, totals.objective if proven else bound,
            proven, 0.0 if proven else gap, gap_words(gap, proven=proven), self.rules,
            True, notes,
        )  # fmt: skip


def _rewarmed(left: LeftToPlan) -> tuple[str, ...]:
    return tuple(
        f"{cup} has waited hot for too long: it is rewarmed before its pour."
        for cup in left.rewarmed
    )


def _totals(
    inputs: DayInput, left: LeftToPlan, plan: Plan, steps: tuple[DayStep, ...]
) -> DayTotals:
    cups = _cups(inputs, steps)
    return DayTotals(
        max((cup.done_s for cup in cups), default=0),
        sum(cup.late_s for cup in cups),
        sum(step.sort is StepSort.CLEAN for step in steps),
        points(left.load, plan) / MINUTE_S,
    )


def _cups(inputs: DayInput, steps: tuple[DayStep, ...]) -> tuple[CupDone, ...]:
    done: dict[str, tuple[int, int]] = {}
    for step in steps:
        if step.sort is StepSort.COOL:
            done[step.cup] = max(done.get(step.cup, (0, 0)), (step.end_s, step.kit))
    due = {c.name: c.due_min for c in inputs.cups}
    return tuple(
        CupDone(c.name, done[c.name][1], done[c.name][0], _late_s(done[c.name][0], due[c.name]))
        for c in inputs.cups if c.name in done
    )  # fmt: skip


def _late_s(done_s: int, due_min: int | None) -> int:
    return 0 if due_min is None else max(0, done_s - due_min * MINUTE_S)
