"""Names and lists of stored records, for whatever refers to them."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.keep_record import sorts_of
from pourwright.actions.port import Bench
from pourwright.base.errors import NotFound
from pourwright.shop.nouns import NOUNS
from pourwright.web.widget import Choice, Choices

TAKEN_OFF = "taken off the bench"


@dataclass(frozen=True, slots=True)
class Names:
    """Looks records up in one unit of work."""

    bench: Bench

    def name_of(self, refers: str, id: str) -> str:
        """The name of the record a reference points to."""
        for sort in sorts_of(refers):
            try:
                found = self.bench.records.get(sort, id)
            except NotFound:
                continue
            return f"{found.noun.name} ({TAKEN_OFF})" if found.retired else found.noun.name
        return "no longer there"

    def choices(self, refers: str) -> tuple[Choices, ...]:
        """Every record a reference may point to, by sort."""
        return tuple(
            Choices(NOUNS[sort].plural, options)
            for sort in sorts_of(refers)
            if (options := self._options(sort))
        )

    def _options(self, sort: str) -> tuple[Choice, ...]:
        return tuple(Choice(s.id, s.noun.name) for s in self.bench.records.all(sort))
