"""Where a figure came from."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Basis(StrEnum):
    """How far a figure can be trusted."""

    PUBLISHED = "published"
    LIBRARY = "library"
    PRACTICE = "common practice, no source"
    MEMORY = "from memory, unverified"
    ESTIMATE = "estimate"
    MEASURED = "measured here"


@dataclass(frozen=True, slots=True)
class Source:
    """One figure's origin: how it is known, plus author, title, year and table or equation."""

    basis: Basis
    cite: str = ""

    def __post_init__(self) -> None:
        if self.basis in {Basis.PUBLISHED, Basis.LIBRARY, Basis.MEMORY} and not self.cite:
            raise ValueError(f"a figure marked {self.basis.value!r} needs its citation")

    def __str__(self) -> str:
        return f"{self.cite} ({self.basis.value})" if self.cite else self.basis.value


def published(cite: str) -> Source:
    """A figure whose printed source is named."""
    return Source(Basis.PUBLISHED, cite)


def memory(cite: str) -> Source:
    """A figure remembered from a named work that nobody here has opened."""
    return Source(Basis.MEMORY, cite)


def estimate(cite: str = "") -> Source:
    """A figure of our own making."""
    return Source(Basis.ESTIMATE, cite)


PRACTICE = Source(Basis.PRACTICE)
