"""Any answer as a page shows it: figures first, then facts, lists, tables and what lies deeper."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from pourwright.base.band import Band
from pourwright.base.calc import Calculation
from pourwright.web.question.note import Notes, sorted_notes
from pourwright.web.question.shape import for_machines
from pourwright.web.question.words import (
    Told,
    help_of,
    in_words,
    label_of,
    only_numbers,
    plain,
    remark_of,
    told,
)
from pourwright.web.show import Settings, in_money

NOTES = "notes"
_MOST_CELL_FIELDS = 4


@dataclass(frozen=True, slots=True)
class Figure:
    """A value with its label."""

    label: str
    told: Told
    remark: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """Records of one sort, one a row."""

    columns: tuple[str, ...]
    rows: tuple[tuple[Told, ...], ...]


@dataclass(frozen=True, slots=True)
class Section:
    """A part of an answer under its own heading."""

    title: str
    remark: str = ""
    figures: tuple[Figure, ...] = ()
    lines: tuple[str, ...] = ()
    table: Table | None = None
    sections: tuple[Section, ...] = ()
    worded: bool = False


@dataclass(frozen=True, slots=True)
class SourceLine:
    """Where a figure comes from, and how far it can be trusted."""

    basis: str
    cite: str


@dataclass(frozen=True, slots=True)
class AnswerView:
    """All of an answer; `first` is the figure that stands out, `advice` what it says in words,
    `unseen` what only its file holds.
    """

    first: Figure | None
    figures: tuple[Figure, ...]
    advice: tuple[Section, ...]
    sections: tuple[Section, ...]
    notes: Notes
    unseen: tuple[str, ...]
    sources: tuple[SourceLine, ...]


def answer_view(calculation: Calculation[Any, Any], answer: Any, settings: Settings) -> AnswerView:
    """An answer in the words and units of the bench."""
    given = tuple(str(n) for n in getattr(answer, NOTES, ()))
    notes = sorted_notes(given, calculation.takes, calculation.gives, settings)
    viewer = _Viewer(settings, calculation.takes)
    figures, sections = viewer.figures(answer), viewer.sections(answer)
    first = next((f for f in figures if not f.told.file), None)
    return AnswerView(
        first=first,
        figures=tuple(f for f in figures if f is not first),
        advice=tuple(s for s in sections if s.worded),
        sections=tuple(s for s in sections if not s.worded),
        notes=notes,
        unseen=viewer.unseen(answer),
        sources=tuple(SourceLine(s.basis.value, s.cite) for s in calculation.sources),
    )


@dataclass(frozen=True, slots=True)
class _Viewer:
    settings: Settings
    takes: type[Any]

    def figures(self, record: Any) -> tuple[Figure, ...]:
        """The values of a record that fit one line; what there is none of is not said."""
        return tuple(
            self.figure(record, name, value)
            for name, value in _values(record)
            if plain(value) and name != NOTES and told(name, value, self.settings).value
        )

    def figure(self, record: Any, name: str, value: object) -> Figure:
        return Figure(
            self.label(record, name),
            told(name, value, self.settings, help=help_of(record, name)),
            in_words(remark_of(record, name), self.takes),
        )

    def label(self, record: Any, name: str) -> str:
        return in_words(label_of(record, name), self.takes)

    def sections(self, record: Any) -> tuple[Section, ...]:
        """What takes more than a line."""
        return tuple(
            self.section(record, name, value)
            for name, value in _values(record)
            if name != NOTES and not plain(value) and not _unseen(value) and value
        )

    def unseen(self, record: Any) -> tuple[str, ...]:
        """What only the file of the answer holds."""
        return tuple(
            f"{self.label(record, name)}: {words}"
            for name, value in _values(record)
            if (words := _unseen(value))
        )

    def section(self, record: Any, name: str, value: Any) -> Section:
        title = self.label(record, name)
        remark = in_words(remark_of(record, name), self.takes)
        if isinstance(value, str):
            return Section(title, remark, lines=(in_money(value, self.settings),), worded=True)
        if isinstance(value, Mapping) or dataclasses.is_dataclass(value):
            return Section(
                title, remark, figures=self.figures(value), sections=self.sections(value)
            )
        rows = tuple(value)
        if all(dataclasses.is_dataclass(row) and not isinstance(row, Band) for row in rows):
            return Section(title, remark, table=self.table(rows))
        lines = tuple(self.cell(name, r, title).line for r in rows)
        return Section(title, remark, lines=lines, worded=all(isinstance(r, str) for r in rows))

    def table(self, rows: tuple[Any, ...]) -> Table:
        kind = type(rows[0])
        columns = {n: [getattr(r, n, None) for r in rows] for n, _ in _values(rows[0])}
        names = [n for n, cells in columns.items() if any(_is_worth(c) for c in cells)]
        return Table(
            tuple(self.label(kind, n) for n in names),
            tuple(
                tuple(self.cell(n, getattr(r, n, None), help_of(kind, n)) for n in names)
                for r in rows
            ),
        )

    def cell(self, name: str, value: Any, help: str) -> Told:
        """A value in one cell: of a record its first figures."""
        if isinstance(value, str) or plain(value):
            return told(name, value, self.settings, help=help)
        if isinstance(value, Mapping) or dataclasses.is_dataclass(value):
            figures = self.figures(value)[:_MOST_CELL_FIELDS]
            return Told("; ".join(f"{f.label} {f.told.line}" for f in figures))
        return Told("; ".join(self.cell(name, v, help).line for v in value))


def _is_worth(cell: object) -> bool:
    """Whether a cell has anything for a person."""
    if isinstance(cell, (str, tuple, list)) and not cell:
        return False
    return cell is not None and not only_numbers(cell) and not isinstance(cell, np.ndarray)


def _unseen(value: object) -> str:
    """What a value holds that is only for programs; empty where it is for people."""
    if isinstance(value, np.ndarray):
        return f"{value.size} numbers"
    if count := only_numbers(value):
        return f"{count} numbers"
    if dataclasses.is_dataclass(value) and for_machines(type(value)):
        return f"{len(dataclasses.fields(value))} values"
    return ""


def _values(record: Any) -> Iterable[tuple[str, Any]]:
    if isinstance(record, Mapping):
        return ((str(k), v) for k, v in record.items())
    return ((f.name, getattr(record, f.name)) for f in dataclasses.fields(record))
