"""What a form shows: boxes, groups and rows, made from declarations and typed texts."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Literal, cast

from pourwright.base.field import Field
from pourwright.web.form import Typed, kinds_of, rows_of, system_of, typed_default
from pourwright.web.number_text import kept_unit, read_unit
from pourwright.web.order import in_order
from pourwright.web.show import Settings, label_of, opened, shown

Look = Literal["number", "text", "long", "color", "flag", "pick", "reference"]
HEX_PATTERN = "#[0-9a-fA-F]{6}"
# Longer texts get a box of several lines.
LONG_TEXT = 121
ABBREVIATION = 2


@dataclass(frozen=True, slots=True)
class Choice:
    """One option of a list to pick from."""

    value: str
    label: str


@dataclass(frozen=True, slots=True)
class Choices:
    """Options under a heading; `add` is where to make the first one."""

    label: str
    options: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class Box:
    """One value to enter."""

    path: str
    look: Look
    label: str
    value: str
    problem: str
    unit: str = ""
    money: bool = False
    placeholder: str = ""
    hint: str = ""
    required: bool = False
    most: int = 0
    choices: tuple[Choices, ...] = ()
    add: str = ""
    remove: str = ""
    shape: Literal["box"] = "box"

    @property
    def id(self) -> str:
        """Its anchor on the page."""
        return anchor(self.path)


@dataclass(frozen=True, slots=True)
class Group:
    """Fields that belong together: a part, or a part of a chosen kind."""

    path: str
    label: str
    problem: str
    children: tuple[Widget, ...]
    there: bool = True
    optional: bool = False
    kinds: tuple[Choice, ...] = ()
    kind: str = ""
    remove: str = ""
    shape: Literal["group"] = "group"

    @property
    def id(self) -> str:
        """Its anchor on the page."""
        return anchor(self.path)


@dataclass(frozen=True, slots=True)
class Rows:
    """A list whose rows can be added and removed."""

    path: str
    label: str
    problem: str
    rows: tuple[Group | Box, ...]
    full: bool
    next: str
    shape: Literal["rows"] = "rows"

    @property
    def id(self) -> str:
        """Its anchor on the page."""
        return anchor(self.path)


Widget = Box | Group | Rows
References = Callable[[str], tuple[Choices, ...]]


@dataclass(frozen=True, slots=True)
class FormView:
    """A whole form: its widgets, and the problems no widget shows."""

    widgets: tuple[Widget, ...]
    problems: tuple[Problem, ...]
    units: str


@dataclass(frozen=True, slots=True)
class Problem:
    """A problem in the list above the form, leading to its box."""

    anchor: str
    label: str
    why: str


def form_view(
    record: type[Any],
    typed: Typed,
    *,
    problems: Mapping[str, str],
    settings: Settings,
    references: References,
) -> FormView:
    """The form of a record as it was typed so far.

    `references` gives the stored records a field of that sort may refer to.
    """
    system = system_of(typed, settings.system)
    maker = _Maker(typed, problems, dataclasses.replace(settings, system=system), references)
    widgets = maker.fields(record, "")
    labels = dict(_labels(widgets))
    listed = tuple(
        Problem(anchor(path) if path in labels else "", labels.get(path, path), why)
        for path, why in problems.items()
    )
    return FormView(widgets, listed, system.value)


def anchor(path: str) -> str:
    """The id of a path's box in the page."""
    return "f-" + path.replace("[", "-").replace("]", "").replace(".", "-")


@dataclass(frozen=True, slots=True)
class _Maker:
    typed: Typed
    problems: Mapping[str, str]
    settings: Settings
    references: References

    def fields(self, record: type[Any], prefix: str) -> tuple[Widget, ...]:
        return tuple(self.widget(entry, prefix + entry.name) for entry in in_order(record))

    def widget(self, entry: Field, path: str) -> Widget:
        match entry.shape:
            case "record":
                there = not entry.optional or bool(self.typed.get(f"{path}?"))
                children = self.fields(entry.type, f"{path}.") if there else ()
                return Group(
                    path, entry.spec.help, self.problem(path), children,
                    there=there, optional=entry.optional,
                )  # fmt: skip
            case "kind":
                return self.kind(entry, path)
            case "list":
                return self.rows(entry, path)
            case _:
                return self.box(entry, path)

    def kind(self, entry: Field, path: str) -> Group:
        kinds = kinds_of(entry)
        key = self.typed.get(f"{path}.kind", "")
        children = self.fields(kinds[key], f"{path}.") if key in kinds else ()
        return Group(
            path,
            entry.spec.help,
            self.problem(path) or self.problem(f"{path}.kind"),
            children,
            optional=entry.optional,
            kinds=tuple(Choice(k, c.label) for k, c in kinds.items()),
            kind=key,
        )

    def rows(self, entry: Field, path: str) -> Rows:
        count = rows_of(self.typed, path, entry.spec.most)
        return Rows(
            path,
            entry.spec.help,
            self.problem(path),
            tuple(self.row(entry, f"{path}[{i}]", i) for i in range(count)),
            full=count >= entry.spec.most,
            next=anchor(f"{path}[{count}]"),
        )

    def row(self, entry: Field, path: str, place: int) -> Group | Box:
        label = f"{entry.spec.help}: {place + 1}"
        if dataclasses.is_dataclass(entry.type):
            children = self.fields(cast("type[Any]", entry.type), f"{path}.")
            return Group(path, label, self.problem(path), children, remove=path)
        return Box(
            path, "number", label, self.typed.get(path, ""), self.problem(path),
            unit=self.unit(entry), required=True, remove=path,
        )  # fmt: skip

    def box(self, entry: Field, path: str) -> Box:
        spec = entry.spec
        refers = spec.refers
        choices = self.references(refers) if refers else _picks(entry)
        return Box(
            path,
            _look(entry),
            spec.help,
            self.typed.get(path, ""),
            self.problem(path),
            unit=self.unit(entry) if kept_unit(entry) else "",
            money=bool(entry.unit and entry.unit.key == "money"),
            placeholder=self.placeholder(entry),
            hint="" if self.typed.get(path) else _hint(entry),
            required=entry.required,
            most=spec.most if entry.shape == "text" else 0,
            choices=choices,
            add=refers if refers and not any(c.options for c in choices) else "",
        )

    def placeholder(self, entry: Field) -> str:
        if entry.spec.doubt:
            read = read_unit(entry, self.settings.system)
            usual = shown(entry.spec.doubt.band, entry.unit, self.settings, read)
            return f"typical {usual.value} ({usual.low} to {usual.high})"
        if entry.shape in {"number", "whole"} and not entry.required:
            return typed_default(entry, self.settings.system)
        return ""

    def unit(self, entry: Field) -> str:
        return label_of(read_unit(entry, self.settings.system), self.settings)

    def problem(self, path: str) -> str:
        return self.problems.get(path, "")


def _look(entry: Field) -> Look:
    if entry.spec.refers:
        return "reference"
    match entry.shape:
        case "flag":
            return "flag"
        case "pick":
            return "pick"
        case "text":
            if entry.spec.pattern == HEX_PATTERN:
                return "color"
            return "long" if entry.spec.most >= LONG_TEXT else "text"
        case _:
            return "number"


def _picks(entry: Field) -> tuple[Choices, ...]:
    if entry.shape != "pick":
        return ()
    named = Choices("", tuple(Choice(o.value, word(o.value)) for o in entry.type))
    return (Choices("", (Choice("", "not said"),)), named) if entry.optional else (named,)


def _hint(entry: Field) -> str:
    doubt = entry.spec.doubt
    if doubt is None or not doubt.measure:
        return ""
    return f"Not measured? {opened(doubt.measure)}."


def word(choice: str) -> str:
    """An enumeration's word as people read it.

    >>> word("us"), word("metric")
    ('US', 'Metric')
    """
    return choice.upper() if len(choice) <= ABBREVIATION else opened(choice)


def _labels(widgets: tuple[Widget, ...], before: str = "") -> list[tuple[str, str]]:
    """The words for each path; what stands in a row says in which."""
    found: list[tuple[str, str]] = []
    for widget in widgets:
        label = before + widget.label
        found.append((widget.path, label))
        if isinstance(widget, Group):
            inside = f"{label}, " if widget.remove else before
            found.extend(_labels(widget.children, inside))
            if widget.kinds:
                found.append((f"{widget.path}.kind", label))
        elif isinstance(widget, Rows):
            found.extend(_labels(widget.rows, before))
    return found
