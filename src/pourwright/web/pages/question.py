"""Questions: any calculation a maker may ask by hand, as a form and an answer."""

from __future__ import annotations

import json
import shlex
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from starlette.responses import JSONResponse, Response

from pourwright.actions.catalog import CATALOG
from pourwright.base.calc import Calculation
from pourwright.base.errors import BadInput
from pourwright.base.record import to_json
from pourwright.base.units import System
from pourwright.web.form import UNITS_NAME, Typed, system_of, texts_of
from pourwright.web.form_edit import edited, settled
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.question.ask import Asked, ask, read, refusal
from pourwright.web.question.form import Asking, asking
from pourwright.web.question.opened import fitting, tree_of_address, tree_of_text
from pourwright.web.question.record import asked_record
from pourwright.web.question.topic import (
    ON_DEMAND,
    OWN_PAGE,
    Caution,
    Topic,
    caution_of,
    heading_of,
    question_named,
    topics,
)
from pourwright.web.question.tree import Tree, asked_tree
from pourwright.web.question.view import AnswerView, answer_view
from pourwright.web.show import opened
from pourwright.web.widget import form_view

_COMMAND, _OPENED = "@do", "inputs"
_ASK, _TRY = "ask", "try"
_ANSWER_FILE, _INPUT_FILE = "answer-json", "inputs-json"
_ASKING = frozenset({_ASK, _TRY, _ANSWER_FILE, _INPUT_FILE})


@dataclass(frozen=True, slots=True)
class QuestionsContext:
    """Every question, under its heading."""

    title: str
    topics: tuple[Topic, ...]


@dataclass(frozen=True, slots=True)
class QuestionContext:
    """A form and what it says; `opened` is the JSON it began with."""

    title: str
    name: str
    address: str
    heading: str
    asking: Asking
    opened: str
    command: str
    on_demand: bool
    example: bool
    caution: Caution | None = None
    answer: AnswerView | None = None
    refused: str = ""


@dataclass(frozen=True, slots=True)
class _Draft:
    """A form on its way: what it was opened with, what stands in it, what is to be done."""

    opened: Tree
    typed: Typed
    command: str = _TRY
    problems: Mapping[str, str] | None = None
    example: bool = False


def questions(_: Visit) -> Show:
    """Every question a maker may ask by hand."""
    return Show("question/list.html", QuestionsContext("Questions", topics(CATALOG.values())))


def question(visit: Visit) -> Show | Go | Response:
    """Ask one: with its example, with what another page hands over, or as typed."""
    calculation = question_named(visit.part("name"))
    if calculation.name in OWN_PAGE:
        return Go(OWN_PAGE[calculation.name])
    draft = _draft(visit, calculation)
    asked = _asked(visit, calculation, draft)
    if draft.command == _INPUT_FILE and asked.given is not None:
        return _file(f"{calculation.name}.input.json", asked.given)
    if draft.command == _ANSWER_FILE and asked.answer is not None:
        return _file(f"{calculation.name}.answer.json", to_json(asked.answer))
    return _page(visit, calculation, draft, asked)


def _draft(visit: Visit, calculation: Calculation[Any, Any]) -> _Draft:
    sent = dict(visit.sent)
    if visit.posted and UNITS_NAME in sent:
        return _filled_in(visit, calculation, sent)
    command = _TRY
    try:
        if visit.posted:
            tree = tree_of_text(sent.get(_OPENED, ""))
        else:
            pairs = visit.request.query_params.multi_items()
            tree = tree_of_address(calculation.takes, pairs) or dict(calculation.example)
    except BadInput as error:
        return _fresh(visit, calculation, {}, {error.field: error.why})
    draft = _fresh(visit, calculation, tree, refusal(calculation, tree, visit.world.readers))
    example = not visit.posted and tree == calculation.example
    return replace(draft, example=example, command="" if calculation.name in ON_DEMAND else command)


def _fresh(
    visit: Visit, calculation: Calculation[Any, Any], tree: Tree, problems: Mapping[str, str]
) -> _Draft:
    shown = fitting(calculation.takes, tree) if problems else tree
    texts = asked_tree(calculation.takes, shown)
    typed = texts_of(asked_record(calculation.takes), texts, visit.settings.system)
    return _Draft(shown, typed, problems=problems)


def _filled_in(visit: Visit, calculation: Calculation[Any, Any], sent: dict[str, str]) -> _Draft:
    asked = asked_record(calculation.takes)
    command = sent.pop(_COMMAND, _ASK)
    try:
        opened: Tree = fitting(calculation.takes, tree_of_text(sent.pop(_OPENED, "{}")))
    except BadInput:
        opened = {}
    typed, appeared = settled(asked, sent, visit.settings.system)
    typed = edited(asked, typed, command, visit.settings.system)
    return _Draft(opened, typed, "" if appeared else command)


def _changed(calculation: Calculation[Any, Any], draft: _Draft) -> frozenset[str]:
    """The paths at which the form no longer says what it was opened with."""
    system = system_of(draft.typed, System.METRIC)
    tree = asked_tree(calculation.takes, draft.opened)
    fresh = texts_of(asked_record(calculation.takes), tree, system)
    paths = fresh.keys() | draft.typed.keys()
    return frozenset(p for p in paths if fresh.get(p, "") != draft.typed.get(p, ""))


def _asked(visit: Visit, calculation: Calculation[Any, Any], draft: _Draft) -> Asked:
    if draft.problems:
        return Asked(problems=draft.problems)
    if draft.command not in _ASKING:
        return Asked()
    readers = visit.world.readers
    found = read(calculation, draft.typed, draft.opened, visit.settings, readers)
    if found.given is None or draft.command == _INPUT_FILE:
        return found
    return ask(calculation, found.given, readers)


def _file(name: str, content: Tree) -> Response:
    """A file to keep, or to ask again from the command line."""
    return JSONResponse(content, headers={"content-disposition": f'attachment; filename="{name}"'})


def _page(visit: Visit, calculation: Calculation[Any, Any], draft: _Draft, asked: Asked) -> Show:
    form = form_view(
        asked_record(calculation.takes), draft.typed, problems=asked.problems,
        settings=visit.settings, references=lambda _: (),
    )  # fmt: skip
    wrong = bool(asked.problems or asked.refused)
    context = QuestionContext(
        title=opened(calculation.purpose),
        name=calculation.name,
        address=f"/questions/{calculation.name}",
        heading=heading_of(calculation.name),
        asking=asking(
            calculation.takes, form, draft.opened, _changed(calculation, draft), visit.settings
        ),
        opened=json.dumps(draft.opened, separators=(",", ":")),
        command=f"pourwright calc {calculation.name} < {shlex.quote(calculation.name)}.input.json",
        on_demand=calculation.name in ON_DEMAND,
        example=draft.example,
        caution=caution_of(calculation.name),
        answer=(
            None if asked.answer is None else answer_view(calculation, asked.answer, visit.settings)
        ),
        refused=asked.refused,
    )
    return Show("question/question.html", context, 422 if wrong and draft.command != _TRY else 200)


QUESTION_PAGES = (
    Page("/questions", questions),
    Page("/questions/{name}", question, ("GET", "POST")),
)
