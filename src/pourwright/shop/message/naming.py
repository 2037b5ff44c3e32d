"""Names of the bench's own records in a text: whole, or by some of their words."""

from __future__ import annotations

import itertools
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from pourwright.shop.message.word import Word, named_key, words_of

# Words that stand between others and say nothing alone.
LINKS = frozenset(
    ["a", "an", "and", "the", "of", "in", "on", "with", "for", "to", "at", "or", "by"]
)
_SKIPPED = {"-", "'", "’"}
_BREAKS = {",", ":", "/", "(", ")", "&", "+", "."}


@dataclass(frozen=True, slots=True)
class Known:
    """A record with its name as keys; `broken` are places before which the name has a sign."""

    sort: str
    id: str
    keys: tuple[str, ...]
    broken: frozenset[int]


@dataclass(frozen=True, slots=True)
class Run:
    """Words of a text from `first` up to `end` that name records, by sort."""

    first: int
    end: int
    length: int
    named: tuple[Known, ...]

    def of(self, sort: str) -> tuple[str, ...]:
        """Ids of the records of a sort; those whose whole name this is go before others."""
        some = [it for it in self.named if it.sort == sort]
        whole = [it for it in some if len(it.keys) == self.length]
        return tuple(it.id for it in whole or some)

    def whole(self, sort: str) -> bool:
        """Whether it is the whole name of a record of a sort."""
        return any(it.sort == sort and len(it.keys) == self.length for it in self.named)


def known(sort: str, id: str, name: str) -> Known:
    """A record as it can be named."""
    keys: list[str] = []
    broken: set[int] = set()
    for word in words_of(name):
        if word.is_word or word.is_number or word.key == "inch":
            inches = word.key == "in" and keys[-1:] != [] and keys[-1].isdigit()
            keys.append("inch" if inches else named_key(word))
        elif word.key not in _SKIPPED:
            broken.add(len(keys))
    return Known(sort, id, tuple(keys), frozenset(broken))


def runs_in(words: Sequence[Word], records: Iterable[Known], free: Sequence[bool]) -> list[Run]:
    """The longest namings, left to right, none over another."""
    by_key: dict[str, list[Known]] = defaultdict(list)
    for record in records:
        for key in dict.fromkeys(record.keys):
            by_key[key].append(record)
    found: list[Run] = []
    at = 0
    while at < len(words):
        begun = by_key.get(named_key(words[at]), []) if free[at] else []
        run = _best(words, begun, at, free)
        if run is not None:
            found.append(run)
        at = run.end if run else at + 1
    return found


def _best(
    words: Sequence[Word], records: Sequence[Known], at: int, free: Sequence[bool]
) -> Run | None:
    """The naming that begins here, by every record that has as many of these words."""
    tried = [(_Walk(words, free, record), record) for record in records]
    walked = [(*walk.from_(at), record) for walk, record in tried]
    longest = max((length for length, _, _ in walked), default=0)
    if not longest:
        return None
    best = [(end, record) for length, end, record in walked if length == longest]
    return Run(at, max(end for end, _ in best), longest, tuple(record for _, record in best))


@dataclass(frozen=True, slots=True)
class _Walk:
    """Follows one name through a text."""

    words: Sequence[Word]
    free: Sequence[bool]
    record: Known

    def from_(self, at: int) -> tuple[int, int]:
        """How many words of the name stand here together, and where they end."""
        left = Counter(self.record.keys)
        length, end, place, last = 0, at, at, -1
        while place < len(self.words) and self.free[place]:
            word = self.words[place]
            if word.key in _SKIPPED and length:
                place += 1
                continue
            if word.key in _BREAKS and length:
                if not self._goes_on(place + 1, last):
                    break
                place += 1
                continue
            here = self._place_of(place, left, last)
            if here < 0:
                break
            left[self.record.keys[here]] -= 1
            last, place = here, place + 1
            if self.record.keys[here] not in LINKS:
                end = place
            length += 1
        return self._without_links(at, length, end)

    def _without_links(self, at: int, length: int, end: int) -> tuple[int, int]:
        """Words that only link do not name anything at either end."""
        if self.words[at].key in LINKS:
            return 0, at
        kept = sum(1 for w in self.words[at:end] if w.is_word or w.is_number or w.key == "inch")
        return min(length, kept), end

    def _place_of(self, place: int, left: Counter[str], last: int) -> int:
        """Which word of the name stands here; a number only as the name has it."""
        keys = self.record.keys
        if last + 1 < len(keys) and keys[last + 1] == self._key(place) and last >= 0:
            return last + 1 if left[keys[last + 1]] > 0 else -1
        wanted = self._key(place)
        if left[wanted] <= 0:
            return -1
        here = next(i for i, key in enumerate(keys) if key == wanted)
        if wanted.isdigit() and not self._sized(place, here):
            return -1
        return here

    def _sized(self, place: int, here: int) -> bool:
        """Whether a number is followed by the word that follows it in the name."""
        following = self.record.keys[here + 1 : here + 2]
        after = next((w for w in self.words[place + 1 : place + 3] if w.key not in _SKIPPED), None)
        if not following or after is None:
            return False
        return named_key(after) == following[0] or (after.key, following[0]) == ("in", "inch")

    def _goes_on(self, place: int, last: int) -> bool:
        """Whether the name has a sign here too, and its next word after it."""
        if last + 1 >= len(self.record.keys) or last + 1 not in self.record.broken:
            return False
        return place < len(self.words) and self._key(place) == self.record.keys[last + 1]

    def _key(self, place: int) -> str:
        """The key here; "7 in" is a size only where the name has it so."""
        key = named_key(self.words[place])
        before = named_key(self.words[place - 1]) if place else ""
        inches = key == "in" and before.isdigit() and "inch" in self._following(before)
        return "inch" if inches else key

    def _following(self, key: str) -> set[str]:
        keys = self.record.keys
        return {after for before, after in itertools.pairwise(keys) if before == key}
