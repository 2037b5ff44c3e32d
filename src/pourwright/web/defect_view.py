"""A defect laid out for its page: answers as links, verdicts with their numbers and doors."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from pourwright.actions.defect_case import DefectCase
from pourwright.actions.heat_budget import BudgetEntry
from pourwright.actions.see_defects import Counted, DefectSeen, Suspect, Tested
from pourwright.base.band import Band
from pourwright.base.record import to_json
from pourwright.base.units import UNITS
from pourwright.body.body_input import BodyInput
from pourwright.plan.defect.defect import Ask
from pourwright.plan.defect.likelihood import SHARE, Likelihood
from pourwright.plan.defect.likelihood import Shown as Number
from pourwright.web.form import texts_of
from pourwright.web.show import Settings, exactly, percent, shown

FOR = "for"
# Pages that help where no calculation does.
_PAGES: Mapping[str, tuple[str, str]] = {
    "hot_spot": ("See inside a cup like yours", "/inside-the-cup"),
    "reads_low": ("Check a thermometer", "/workplace"),
    "scale": ("Weigh a bait in air and water", "/questions/body.weigh"),
    "hidden_air": ("Weigh a bait in air and water", "/questions/body.weigh"),
}


@dataclass(frozen=True, slots=True)
class Choice:
    """An answer to pick; picked ones are taken back by the same link."""

    label: str
    address: str
    picked: bool


@dataclass(frozen=True, slots=True)
class Question:
    """A question with its answers."""

    words: str
    choices: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class Door:
    """Where the calculation opens with these numbers; `inputs` goes along as a form."""

    label: str
    address: str
    inputs: str = ""


@dataclass(frozen=True, slots=True)
class Value:
    """A number of a verdict in the bench's units."""

    label: str
    value: str
    range: str


@dataclass(frozen=True, slots=True)
class SuspectView:
    """A cause, its verdict, what to do."""

    says: str
    why: str
    likelihood: str
    key: str
    words: str
    values: tuple[Value, ...]
    measure: str
    answers: str
    cures: tuple[str, ...]
    door: Door | None


@dataclass(frozen=True, slots=True)
class DefectView:
    """Questions, suspects, and the numbers they were tested with."""

    questions: tuple[Question, ...]
    suspects: tuple[SuspectView, ...]
    facts: tuple[Value, ...]
    counted: str


def defect_view(
    it: DefectCase, seen: DefectSeen, answers: Mapping[str, int], chosen: str, settings: Settings
) -> DefectView:
    """A defect as its page shows it; `chosen` names the lot or mold it is about."""
    address = f"/defects/{seen.defect.key}"
    return DefectView(
        questions=tuple(_question(a, answers, address, chosen) for a in seen.defect.asks),
        suspects=tuple(_suspect(s, it, settings) for s in seen.suspects),
        facts=tuple(_facts(it, settings)),
        counted=_counted(seen.counted) if seen.counted else "",
    )


def _counted(it: Counted) -> str:
    return f"In this lot {it.bad} of {it.of} were counted as {' or '.join(it.sorts)}."


def _question(ask: Ask, answers: Mapping[str, int], address: str, chosen: str) -> Question:
    now = answers.get(ask.key)
    choices = []
    for place, option in enumerate(ask.options):
        wanted = {k: v for k, v in answers.items() if k != ask.key}
        if place != now:
            wanted[ask.key] = place
        pairs = {FOR: chosen, **wanted} if chosen else wanted
        query = f"?{urlencode(pairs)}" if pairs else ""
        choices.append(Choice(option.label, f"{address}{query}#suspects", place == now))
    return Question(ask.words, tuple(choices))


def _suspect(it: Suspect, case: DefectCase, settings: Settings) -> SuspectView:
    judged = it.tested.judged
    unsure = judged.likelihood is not Likelihood.UNLIKELY
    return SuspectView(
        says=it.cause.says,
        why=it.cause.why,
        likelihood=judged.likelihood.value,
        key=judged.likelihood.name.lower().replace("_", "-"),
        words=judged.words,
        values=tuple(_value(n, settings) for n in judged.figures),
        measure=judged.measure if unsure else "",
        answers=_answers(it.points),
        cures=it.cures,
        door=_door(it, case, settings),
    )


def _answers(points: int) -> str:
    if points == 0:
        return ""
    return "Your answers point to it." if points > 0 else "Your answers speak against it."


def _value(it: Number, settings: Settings) -> Value:
    if it.unit == SHARE:
        low, high = percent(it.value.low), percent(it.value.high)
        return Value(it.label, percent(it.value.typical), f"{low} to {high}" if low != high else "")
    told = shown(it.value, UNITS[it.unit] if it.unit else None, settings)
    return Value(it.label, told.value, "" if told.sure else told.range)


def _door(it: Suspect, case: DefectCase, settings: Settings) -> Door | None:
    tested = it.tested
    if tested.inputs is None and tested.cup is None:
        found = _PAGES.get(it.cause.key)
        return Door(*found) if found else None
    return _opened(tested, case, settings)


def _opened(tested: Tested, case: DefectCase, settings: Settings) -> Door:
    label = "Open this calculation"
    if tested.cup is not None and case.lot is not None:
        return Door(label, f"/sheets/{case.lot.sheet.number}/cups/{tested.cup}")
    if isinstance(tested.inputs, BudgetEntry):
        texts = texts_of(BudgetEntry, tested.inputs, settings.system)
        return Door(label, f"/heat-budget?{urlencode(texts)}")
    if isinstance(tested.inputs, BodyInput) and tested.inputs.file is not None and case.push:
        return Door("See where it fills last", f"/baits/{case.push.case.mold.bait}")
    inputs = json.dumps(to_json(tested.inputs), separators=(",", ":"))
    return Door(label, f"/questions/{tested.name}#check-answer", inputs)


def _facts(it: DefectCase, settings: Settings) -> list[Value]:
    c = UNITS["c"]
    found = []
    if it.push is not None:
        found.append(Value("Mold", it.push.case.mold.name, "as its record stands today"))
        tool = it.push.injector.name if it.push.injector else it.push.entry.push.value
        found.append(Value("Pushed by", tool, ""))
    found.append(Value("Plastic in the cup", exactly(it.melt_c, c, settings), it.melt_from))
    if it.shot_c < it.melt_c:
        cooled = exactly(it.shot_c, c, settings)
        found.append(Value("Plastic at the push", cooled, "what a barrel leaves; an estimate"))
    dose = it.dose_share
    share = percent(dose.typical)
    found.append(Value("Heat budget used", share, f"{_between(dose)}; {it.budget_from}"))
    if it.push is not None and it.push.entry.mold_c is None:
        found.append(Value("Mold before the shot", "typical", "nobody read it"))
    return found


def _between(band: Band) -> str:
    return f"{percent(band.low)} to {percent(band.high)}"
