"""A defect looked into with the numbers of one lot: suspected causes, tested and ranked."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.answered import answered
from pourwright.actions.defect_asked import asked
from pourwright.actions.defect_case import DefectCase
from pourwright.actions.defect_known import UntoldError
from pourwright.actions.heat_budget import budget_of
from pourwright.actions.mold_case import plastic_of
from pourwright.actions.port import Bench
from pourwright.actions.see_cup import cup_view
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.base.record import Record
from pourwright.fill.air_way import AirWay
from pourwright.plan.defect.defect import Cause, Defect, Option
from pourwright.plan.defect.judge import JUDGES
from pourwright.plan.defect.likelihood import Judged, Likelihood
from pourwright.plan.defect.room import cure_words
from pourwright.plan.defect.trial import CALCULATIONS, Trial

# Where a cause stands in the list: by its test, moved by each answer; estimates.
_WORTH: Mapping[Likelihood, float] = {
    Likelihood.LIKELY: 3.0,
    Likelihood.POSSIBLE: 2.0,
    Likelihood.CANNOT_SAY: 1.5,
    Likelihood.UNLIKELY: 0.0,
}
_ANSWER_WORTH = 1.5
_YELLOW = "yellow"


@dataclass(frozen=True, slots=True)
class Tested:
    """A verdict and the question behind it; `cup` where the question is that of a cup's page."""

    judged: Judged
    name: str = ""
    inputs: Record | None = None
    cup: int | None = None


@dataclass(frozen=True, slots=True)
class Suspect:
    """A cause with its verdict; `points` counts the answers for it, less those against it."""

    cause: Cause
    tested: Tested
    points: int
    cures: tuple[str, ...]

    @property
    def worth(self) -> float:
        """Where it stands among the others."""
        return _WORTH[self.tested.judged.likelihood] + _ANSWER_WORTH * self.points


@dataclass(frozen=True, slots=True)
class Counted:
    """How many of the lot's baits were counted so; several defects may share a count."""

    bad: int
    of: int
    sorts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DefectSeen:
    """A defect with its suspects, the likeliest first."""

    defect: Defect
    suspects: tuple[Suspect, ...]
    counted: Counted | None


def see_defect(
    bench: Bench, it: DefectCase, defect: Defect, answers: Mapping[str, int], *, now: str
) -> DefectSeen:
    """Every suspected cause put to its test.

    `answers` holds the place of the option picked for a question. Raises: BadInput for a place
    that a question does not have.
    """
    picked = _picked(defect, answers)
    told = {name: value for option in picked for name, value in option.tells.items()}
    case = dataclasses.replace(it, told=told)
    room = case.room(yellowed=defect.key == _YELLOW)
    suspects = [
        Suspect(
            cause,
            _tested(bench, case, cause, now),
            sum((cause.key in o.points_to) - (cause.key in o.against) for o in picked),
            tuple(cure_words(c, room) for c in cause.cures),
        )
        for cause in defect.causes
    ]
    ranked = tuple(sorted(suspects, key=lambda s: -s.worth))
    return DefectSeen(defect, ranked, _counted(case, defect))


def _picked(defect: Defect, answers: Mapping[str, int]) -> list[Option]:
    found = []
    for ask in defect.asks:
        if ask.key not in answers:
            continue
        place = answers[ask.key]
        if not 0 <= place < len(ask.options):
            raise BadInput(ask.key, place, f"must be 0 to {len(ask.options) - 1}")
        found.append(ask.options[place])
    return found


def _tested(bench: Bench, it: DefectCase, cause: Cause, now: str) -> Tested:
    trial = cause.trial
    if trial is None:
        return Tested(Judged(Likelihood.CANNOT_SAY, cause.no_number))
    try:
        return _put(bench, it, trial, now)
    except UntoldError as why:
        return Tested(Judged(Likelihood.CANNOT_SAY, f"{why}."))
    except PourwrightError as why:
        words = f"The calculation gives no answer: {why}."
        return Tested(Judged(Likelihood.CANNOT_SAY, words))


def _put(bench: Bench, it: DefectCase, trial: Trial, now: str) -> Tested:
    name, judge = CALCULATIONS[trial], JUDGES[trial]
    told = {**it.told, **_on_record(bench, it)}
    if trial is Trial.SCORCH:
        return Tested(judge(budget_of(it.budget), told), name, it.budget)
    if trial is Trial.FUSED:
        number = _coolest_cup(it)
        if it.lot is None:
            raise UntoldError("Pick a lot whose cups were read")
        view = cup_view(bench, it.lot.sheet.number, number, now=now)
        return Tested(judge(view.answer, told), name, cup=number)
    inputs = asked(trial, it)
    return Tested(judge(answered(name, inputs), told), name, inputs)


def _coolest_cup(it: DefectCase) -> int:
    """The cup whose last reading is the lowest. Raises: UntoldError where none was read."""
    cups = it.lot.cups if it.lot else {}
    last = {
        number: reads[-1]
        for number, story in cups.items()
        if (reads := [s.read_c for s in story.steps if s.read_c is not None])
    }
    if not last:
        raise UntoldError("No reading of its cups was kept: read the next cup while you stir")
    return min(last, key=lambda number: last[number])


def _on_record(bench: Bench, it: DefectCase) -> dict[str, float]:
    """What judging takes from the records rather than from the answer."""
    found: dict[str, float] = {}
    if it.budget.used_share is None:
        found["unlogged"] = 1.0
    if it.push is not None:
        if it.push.case.mold.air is AirWay.TIGHT:
            found["tight"] = 1.0
        plastic = plastic_of(bench, it.push.entry.plastic)
        if plastic is not None and plastic.hardness_oo is not None:
            found["label_oo"] = plastic.hardness_oo
    if it.lot and it.lot.request and it.lot.request.plastic.hardness_oo is not None:
        found["label_oo"] = it.lot.request.plastic.hardness_oo
    return found


def _counted(it: DefectCase, defect: Defect) -> Counted | None:
    entry = it.lot.entry if it.lot else None
    if entry is None or not defect.counted:
        return None
    bad = sum(int(getattr(entry, name)) for name in defect.counted)
    return Counted(bad, entry.good + entry.rejected, defect.counted)
