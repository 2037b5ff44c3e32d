"""Ask a calculation what a form holds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from pourwright.base.calc import Calculation
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.file import Readers
from pourwright.base.record import from_json, to_json
from pourwright.web.fill_rows import without_blank_rows
from pourwright.web.form import Typed, parsed
from pourwright.web.question.record import asked_record
from pourwright.web.question.shape import asked_path
from pourwright.web.question.tree import Tree, asked_tree, given_tree, ranges_in
from pourwright.web.show import Settings


@dataclass(frozen=True, slots=True)
class Asked:
    """An input and its answer, or why there is none."""

    given: Tree | None = None
    answer: Any = None
    problems: Mapping[str, str] = field(default_factory=dict)
    refused: str = ""


def read(
    calculation: Calculation[Any, Any], typed: Typed, opened: Tree, settings: Settings,
    readers: Readers,
) -> Asked:  # fmt: skip
    """The input a form holds; numbers and ranges left as they were `opened` stay exact."""
    filled, places = without_blank_rows(asked_record(calculation.takes), typed)
    found = parsed(asked_record(calculation.takes), filled, settings, _kept(calculation, opened))
    problems = found.problems
    given: Tree = {}
    if not problems:
        try:
            given = given_tree(
                calculation.takes, to_json(found.record), ranges_in(calculation.takes, opened)
            )
            problems = refusal(calculation, given, readers)
        except BadInput as error:
            problems = {error.field: error.why}
    if problems:
        return Asked(problems={places.get(path, path): why for path, why in problems.items()})
    return Asked(given)


def ask(calculation: Calculation[Any, Any], given: Tree, readers: Readers) -> Asked:
    """The answer to an input, or a refusal that only the calculation could know of."""
    try:
        return Asked(given, calculation(from_json(calculation.takes, given, readers=readers)))
    except BadInput as error:
        return Asked(problems={asked_path(calculation.takes, error.field): error.why})
    except NoAnswer as error:
        return Asked(given, refused=str(error))


def refusal(calculation: Calculation[Any, Any], tree: Tree, readers: Readers) -> Mapping[str, str]:
    """What of an input does not fit, by path."""
    try:
        from_json(calculation.takes, tree, readers=readers)
    except BadInput as error:
        return {asked_path(calculation.takes, error.field): error.why}
    return {}


def _kept(calculation: Calculation[Any, Any], opened: Tree) -> object:
    """What the form was opened with, where it was whole."""
    try:
        return from_json(asked_record(calculation.takes), asked_tree(calculation.takes, opened))
    except BadInput:
        return None
