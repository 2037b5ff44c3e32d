"""What a list says about a record: its known facts, its doubts, its warnings."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from pourwright.base.field import Field
from pourwright.base.record import assumed
from pourwright.shop.look import Dose, Look, Measure
from pourwright.shop.noun import Noun
from pourwright.web.number_text import kept_unit, read_unit
from pourwright.web.order import FIRST, LAST, in_order
from pourwright.web.show import Settings, exactly, opened, percent, shown
from pourwright.web.widget import HEX_PATTERN, word

NameOf = Callable[[str, str], str]
# A list names this many facts of a record; its page has them all.
MOST_FACTS = 8
SHORT = 20
# Flags that make a thing unsafe to use as it is.
WARNINGS = frozenset({"wet"})
MEASURES = {Measure.DROPS: "drops", Measure.GRAMS: "g", Measure.SPOONS: "level tsp"}
NBSP = "\N{NO-BREAK SPACE}"


@dataclass(frozen=True, slots=True)
class Fact:
    """A known value in words; more than one line where it is a list."""

    label: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Doubted:
    """A value nobody measured, the typical one that stands in, and how to replace it."""

    label: str
    typical: str
    range: str
    measure: str


@dataclass(frozen=True, slots=True)
class Summary:
    """A record in a list."""

    color: str
    facts: tuple[Fact, ...]
    warnings: tuple[str, ...]
    marks: tuple[str, ...]
    doubts: tuple[Doubted, ...]
    note: str


def summary(noun: Noun, settings: Settings, name_of: NameOf) -> Summary:
    """A record in a list; `name_of` gives the name of the record a reference points to."""
    fields = in_order(type(noun))
    flags = [f for f in fields if f.shape == "flag" and getattr(noun, f.name)]
    facts = _layers(noun, name_of) if isinstance(noun, Look) else _facts(noun, settings, name_of)
    return Summary(
        color=next((getattr(noun, f.name) for f in fields if f.spec.pattern == HEX_PATTERN), ""),
        facts=facts[:MOST_FACTS],
        warnings=tuple(f.spec.help for f in flags if f.name in WARNINGS),
        marks=tuple(f.spec.help for f in flags if f.name not in WARNINGS),
        doubts=doubts(noun, settings),
        note=str(getattr(noun, LAST, "")),
    )


def doubts(record: object, settings: Settings) -> tuple[Doubted, ...]:
    """The measurements a record still lacks."""
    found = []
    for field in assumed(record):
        if field.spec.doubt:
            read = read_unit(field, settings.system)
            usual = shown(field.spec.doubt.band, field.unit, settings, read)
            measure = opened(field.spec.doubt.measure)
            found.append(Doubted(field.spec.help, usual.value, usual.range, measure))
    return tuple(found)


def value_text(field: Field, value: Any, settings: Settings, name_of: NameOf) -> str:
    """A field's value in words; empty where there is nothing to say."""
    if value is None or value in ("", (), False):
        return ""
    if field.spec.refers:
        return name_of(field.spec.refers, value)
    read = read_unit(field, settings.system)
    match field.shape:
        case "number" | "whole":
            return exactly(value, kept_unit(field), settings, read)
        case "pick":
            return word(value.value)
        case "flag":
            return "yes"
        case "kind":
            return f"{value.label}, {_needed(value, settings, name_of)}".rstrip(", ")
        case "record":
            return _needed(value, settings, name_of)
        case "list" if field.type in {float, int}:
            bare = ", ".join(exactly(v, None, settings) for v in value[:-1])
            last = exactly(value[-1], kept_unit(field), settings, read)
            return f"{bare}, {last}" if bare else last
        case "list":
            return str(len(value))
        case _:
            return str(value)


def short_label(field: Field) -> str:
    """Words for a narrow column: the help where it is short, else the name."""
    return field.spec.help if len(field.spec.help) <= SHORT else field.label


def _facts(noun: Noun, settings: Settings, name_of: NameOf) -> tuple[Fact, ...]:
    found = []
    for field in in_order(type(noun)):
        skipped = field.name in {FIRST, LAST} or field.spec.pattern == HEX_PATTERN
        if skipped or field.shape == "flag":
            continue
        text = value_text(field, getattr(noun, field.name), settings, name_of)
        if text:
            found.append(Fact(short_label(field), (text,)))
    return tuple(found)


def _needed(record: object, settings: Settings, name_of: NameOf) -> str:
    """The leading numbers of a part: enough to tell it from another."""
    fields = [f for f in in_order(type(record)) if f.shape == "number"][:2]
    return ", ".join(
        f"{f.spec.help[:1].lower()}{f.spec.help[1:]} {text}"
        for f in fields
        if (text := value_text(f, getattr(record, f.name), settings, name_of))
    )


def _layers(look: Look, name_of: NameOf) -> tuple[Fact, ...]:
    """Shares only where they are what is poured: a line, a vein or a core leaves them aside."""
    told = look.split.tells(tuple(layer.place for layer in look.layers))
    return tuple(
        Fact(
            opened(layer.place) if told else f"{opened(layer.place)}, {percent(layer.share)}",
            tuple(_dose(d, name_of) for d in layer.doses) or ("plain plastic",),
        )
        for layer in look.layers
    )


def _dose(dose: Dose, name_of: NameOf) -> str:
    amount = f"{dose.per_100g:g}{NBSP}{MEASURES[dose.measure]}"
    return f"{amount} {name_of('additive', dose.material)}"
