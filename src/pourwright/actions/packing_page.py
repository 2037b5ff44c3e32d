"""What stands on a packing list."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.shop.order import SetAside


@dataclass(frozen=True, slots=True)
class PackingLine:
    """A line of the list; `missing` packs are not set aside yet, `sent` left before."""

    bait: str
    look: str
    packs: int
    baits_each: int
    lots: tuple[SetAside, ...]
    missing: int
    picked: bool
    sent: int = 0


@dataclass(frozen=True, slots=True)
class PackingList:
    """A parcel; prices do not stand on it."""

    customer: str
    ship_to: str
    taken_on: str
    due_on: str
    lines: tuple[PackingLine, ...]
    demo: bool

    @property
    def packs(self) -> int:
        """Packs in all."""
        return sum(line.packs for line in self.lines)
