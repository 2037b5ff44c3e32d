"""What a screen of the bench is made of; the browser shows it and counts time, nothing else."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True, slots=True)
class Entry:
    """A number to enter. `adds` are steps by which pads change it; `choices` are its units."""

    name: str
    label: str
    low: float
    high: float
    unit: str = ""
    step: float = 1
    value: str = ""
    required: bool = True
    adds: tuple[int, ...] = ()
    choices: tuple[tuple[str, str], ...] | None = None


@dataclass(frozen=True, slots=True)
class Clock:
    """A clock that a pad starts: of a mold by its name."""

    key: str
    name: str
    for_s: float
    over: str


@dataclass(frozen=True, slots=True)
class Row:
    """From this reading on, in that unit, the screen that follows while the laptop is away."""

    reads: float
    unit: str
    next: str


@dataclass(frozen=True, slots=True)
class Pad:
    """Something to press. With `entry` the numbers of the screen go along."""

    label: str
    kind: str = ""
    body: Mapping[str, Any] = field(default_factory=dict)
    main: bool = False
    entry: bool = False
    hold: bool = False
    late: bool = False
    next: str | None = None
    next_by: tuple[Row, ...] | None = None
    starts: Clock | None = None
    ends: str | None = None
    link: str | None = None


@dataclass(frozen=True, slots=True)
class Phase:
    """Part of a screen; one with `for_s` gives way to the next by the clock."""

    name: str
    big: str = ""
    unit: str = ""
    for_s: float | None = None
    words: tuple[str, ...] = ()
    say: str = ""
    alarm: bool = False
    entries: tuple[Entry, ...] = ()
    pads: tuple[Pad, ...] = ()
    caution: str = ""


@dataclass(frozen=True, slots=True)
class Screen:
    """One step. The same `key` is the same step; without `began` it begins when it is shown."""

    key: str
    step: str
    about: str
    phases: tuple[Phase, ...]
    began: str | None = None
