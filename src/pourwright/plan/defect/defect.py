"""A defect as a maker sees it: questions that tell its causes apart, and what to do."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from pourwright.plan.defect.trial import Trial


@dataclass(frozen=True, slots=True)
class Cure:
    """One thing to do otherwise.

    A `hotter` cure is only said where the plastic has room to be heated, with how far, and one
    that `reheats` only where its heat budget allows that; otherwise `instead` is said.
    """

    words: str
    hotter: bool = False
    reheats: bool = False
    instead: str = ""


@dataclass(frozen=True, slots=True)
class Cause:
    """Why it may look so; `trial` tests it, or `no_number` says why nothing does."""

    key: str
    says: str
    why: str
    cures: tuple[Cure, ...]
    trial: Trial | None = None
    no_number: str = ""


@dataclass(frozen=True, slots=True)
class Option:
    """An answer: causes it points to, causes it speaks against, what it tells in numbers."""

    label: str
    points_to: tuple[str, ...] = ()
    against: tuple[str, ...] = ()
    tells: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Ask:
    """A question that tells causes apart."""

    key: str
    words: str
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class Defect:
    """What a maker sees; `counted` names the rejects of a lot that are counted as it."""

    key: str
    sees: str
    look: str
    asks: tuple[Ask, ...]
    causes: tuple[Cause, ...]
    counted: tuple[str, ...] = ()
    caution: str = ""
