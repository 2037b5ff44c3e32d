"""An answer's notes, sorted: what to measure, what widens it, what stands in, what to mind."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any, cast

from pourwright.base.field import Field, fields_of
from pourwright.web.form import kinds_of
from pourwright.web.number_text import read_unit
from pourwright.web.question.words import in_words, label_of
from pourwright.web.show import Settings, in_money, opened, shown

_TO_NARROW, _WIDENED = ": to narrow it, ", ": the range comes mostly"
_NARROW = re.compile(f"([^:]+){_TO_NARROW}.+")
_WIDE = re.compile(f"([^:]+){_WIDENED}.+")
_LEFT_OUT = re.compile(
    r"(.+?) was left out: typical (.+) \((.+)\) stands in\.(?: To replace it, (.+)\.)?"
)


@dataclass(frozen=True, slots=True)
class About:
    """A remark about figures of the answer."""

    label: str
    words: str


@dataclass(frozen=True, slots=True)
class StandIn:
    """A value nobody measured, the typical one in its place, and how to measure it."""

    label: str
    value: str
    range: str
    measure: str


@dataclass(frozen=True, slots=True)
class Notes:
    """All of them, each told once."""

    mind: tuple[str, ...] = ()
    narrow: tuple[About, ...] = ()
    widen: tuple[About, ...] = ()
    stand_ins: tuple[StandIn, ...] = ()


def sorted_notes(
    notes: Iterable[str], takes: type[Any], gives: type[Any], settings: Settings
) -> Notes:
    """The notes of an answer to `takes`, in the words and units of the bench."""
    fields = {f.name: f for f in _all_fields(takes)}
    mind: list[str] = []
    narrow: list[About] = []
    widen: list[About] = []
    stand_ins: list[StandIn] = []
    for note in notes:
        if hit := _LEFT_OUT.fullmatch(note):
            stand_ins.append(_stand_in(hit, fields, settings))
            continue
        words = in_money(in_words(note, takes, gives), settings)
        if hit := _NARROW.fullmatch(note):
            narrow.append(About(label_of(gives, hit[1]), opened(_after(words, _TO_NARROW))))
        elif hit := _WIDE.fullmatch(note):
            widen.append(About(label_of(gives, hit[1]), f"Mostly{_after(words, _WIDENED)}"))
        else:
            mind.append(opened(words))
    return Notes(tuple(mind), _merged(narrow), _merged(widen), tuple(dict.fromkeys(stand_ins)))


def _merged(remarks: Iterable[About]) -> tuple[About, ...]:
    """Remarks in the same words as one, about all their figures."""
    found: dict[str, About] = {}
    for it in remarks:
        before = found.get(it.words)
        if before is None:
            found[it.words] = it
        else:
            label = f"{before.label}, {it.label[:1].lower()}{it.label[1:]}"
            found[it.words] = About(label, it.words)
    return tuple(found.values())


def _stand_in(hit: re.Match[str], fields: dict[str, Field], settings: Settings) -> StandIn:
    """A value left out, in bench units where its field is known."""
    label, value, ends, measure = hit.groups("")
    field = fields.get(label.rpartition(".")[2])
    if field is None:
        return StandIn(opened(label), value, ends, opened(measure))
    if field.spec.doubt is None:
        return StandIn(field.spec.help, value, ends, opened(measure))
    usual = shown(field.spec.doubt.band, field.unit, settings, read_unit(field, settings.system))
    return StandIn(field.spec.help, usual.value, usual.range, opened(measure))


def _after(words: str, mark: str) -> str:
    return words.partition(mark)[2]


def _all_fields(record: type[Any]) -> Iterator[Field]:
    """The fields of a record and of all its parts, its own last."""
    own = fields_of(record)
    for field in own:
        for part in _parts(field):
            yield from _all_fields(part)
    yield from own


def _parts(field: Field) -> tuple[type[Any], ...]:
    if field.spec.kinds is not None:
        return tuple(kinds_of(field).values())
    if field.shape in {"record", "list"} and dataclasses.is_dataclass(field.type):
        return (cast("type[Any]", field.type),)
    return ()
