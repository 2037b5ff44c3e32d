"""The form of a question: what it was opened with first, the rest folded, long things carried."""

from __future__ import annotations

import json
import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from pourwright.base.band import Band
from pourwright.base.field import fields_of
from pourwright.base.units import shown_in, unit_of
from pourwright.web.number_text import NotANumber, number_of
from pourwright.web.question.shape import CARRIED_TEXT, without_rows
from pourwright.web.question.tree import Ranges, Tree, ranges_in
from pourwright.web.question.words import in_words, summary
from pourwright.web.show import Settings, converted, grouped, shown
from pourwright.web.widget import (
    Box,
    FormView,
    Group,
    Problem,
    Rows,
    Widget,
    anchor,
)

# A list of more boxes than this starts folded.
LONG_LIST = 20
_LENGTH = "length_"
_SAME = 1e-4


@dataclass(frozen=True, slots=True)
class Carried:
    """A value that goes with the form unseen, said in one line."""

    path: str
    label: str
    text: str
    summary: str

    @property
    def id(self) -> str:
        """Its anchor on the page."""
        return anchor(self.path)


@dataclass(frozen=True, slots=True)
class Asking:
    """Boxes to fill in, boxes one may leave, and what is carried along.

    `folded` has one line for each list too long to stand open; `unfolded` are those that were
    changed or do not fit.
    """

    main: tuple[Widget, ...]
    more: tuple[Widget, ...]
    carried: tuple[Carried, ...]
    folded: Mapping[str, str]
    unfolded: frozenset[str]
    problems: tuple[Problem, ...]
    units: str
    more_open: bool


def asking(
    record: type[Any], form: FormView, opened: Tree, changed: Collection[str], settings: Settings
) -> Asking:
    """A form in the order a person needs it.

    `record` is the calculation's input, `opened` what the form began with, `changed` the paths
    that were changed since.
    """
    hinter = _Hinter(record, ranges_in(record, opened), settings)
    seen = tuple(w for it in form.widgets if (w := hinter.seen(it)) is not None)
    first = {f.name for f in fields_of(record) if f.required} | opened.keys()
    more = tuple(w for w in seen if w.path not in first)
    return Asking(
        main=tuple(w for w in seen if w.path in first),
        more=more,
        carried=tuple(c for it in form.widgets for c in _carried(it)),
        folded={w.path: _line(w) for w in seen if isinstance(w, Rows) and _is_long(w)},
        problems=tuple(
            replace(p, label=in_words(p.label, record), why=in_words(p.why, record))
            for p in form.problems
        ),
        units=form.units,
        unfolded=frozenset(w.path for w in seen if _touched(w, changed)),
        more_open=any(_touched(w, changed) for w in more),
    )


@dataclass(frozen=True, slots=True)
class _Hinter:
    record: type[Any]
    ranges: Ranges
    settings: Settings

    def seen(self, widget: Widget) -> Widget | None:
        """A widget in words, without what is carried; a number that stands for a range says so."""
        label = in_words(widget.label, self.record)
        if isinstance(widget, Box):
            return None if _is_carried(widget) else replace(self.hinted(widget), label=label)
        if isinstance(widget, Group):
            children = tuple(w for it in widget.children if (w := self.seen(it)) is not None)
            return replace(widget, label=label, children=children)
        rows = tuple(w for it in widget.rows if isinstance(w := self.seen(it), (Group, Box)))
        return replace(widget, label=label, rows=rows)

    def hinted(self, box: Box) -> Box:
        path = without_rows(box.path)
        for (where, typical), band in self.ranges.items():
            if where == path and band["low"] < band["high"] and self.stands_for(box, typical):
                unit = unit_of(path)
                words = shown(Band(**band), unit, self.settings).range
                return replace(box, hint=f"Stands for {words} as long as it stays as it is.")
        return box

    def stands_for(self, box: Box, typical: float) -> bool:
        unit = unit_of(box.path)
        read = typical
        if unit is not None:
            read = converted(typical, unit, shown_in(unit, self.settings.system))
        return abs(_number(box) - read) <= _SAME * abs(read)


def _carried(widget: Widget) -> Iterator[Carried]:
    if isinstance(widget, Box):
        if _is_carried(widget) and widget.value:
            words = _carried_words(widget.value)
            yield Carried(widget.path, widget.label, widget.value, words)
    else:
        for it in widget.children if isinstance(widget, Group) else widget.rows:
            yield from _carried(it)


def _carried_words(text: str) -> str:
    try:
        return summary(json.loads(text))
    except ValueError:
        return "cannot be read back"


def _is_carried(box: Box) -> bool:
    return box.most == CARRIED_TEXT


def _is_long(rows: Rows) -> bool:
    return sum(1 for row in rows.rows for _ in _boxes(row)) > LONG_LIST


def _line(rows: Rows) -> str:
    """How many rows, and how long they are in all where they have a length."""
    lengths = [b for row in rows.rows for b in _boxes(row) if _name(b).startswith(_LENGTH)]
    words = f"{len(rows.rows)} rows"
    if not lengths:
        return words
    return f"{words}, {grouped(sum(map(_number, lengths)), 1)} {lengths[0].unit} in all"


def _boxes(widget: Widget) -> Iterator[Box]:
    if isinstance(widget, Box):
        yield widget
    elif isinstance(widget, Group):
        for child in widget.children:
            yield from _boxes(child)
    else:
        for row in widget.rows:
            yield from _boxes(row)


def _name(box: Box) -> str:
    return box.path.rpartition(".")[2]


def _number(box: Box) -> float:
    try:
        return number_of(box.value, unit=box.unit)
    except NotANumber:
        return 0.0


def _touched(widget: Widget, changed: Collection[str]) -> bool:
    return _wrong(widget) or any(re.split(r"[.\[#?@]", path)[0] == widget.path for path in changed)


def _wrong(widget: Widget) -> bool:
    if widget.problem or isinstance(widget, Box):
        return bool(widget.problem)
    return any(map(_wrong, widget.children if isinstance(widget, Group) else widget.rows))
