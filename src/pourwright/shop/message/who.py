"""Which bait and which looks an item names."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.shop.message.heard import BAIT, LOOK
from pourwright.shop.message.mark import Choice, chosen
from pourwright.shop.message.naming import Run

# More namings than this in one item are asked, not sorted out.
_MOST_UNCLEAR = 6


@dataclass(frozen=True, slots=True)
class Named:
    """The bait of an item, and its looks, one for each that it names apart."""

    bait: Choice
    looks: tuple[Choice, ...]


def named_in(runs: Sequence[Run], carried: tuple[str, ...]) -> Named:
    """What an item names; `carried` are the baits that were named last before it."""
    ways = {_sorted_out(way) for way in _ways(runs)}
    plain = [it for it in ways if len(it[0]) == 1 and len(it[1]) == 1] or list(ways)
    if len(plain) == 1:
        baits, looks = plain[0]
        return Named(_bait(baits, carried), tuple(chosen(it, _unclear(it)) for it in looks))
    baits_of = sorted({key for baits, _ in plain for group in baits for key in group})
    looks_of = sorted({key for _, looks in plain for group in looks for key in group})
    why = "the same words name a bait and a look"
    return Named(chosen(tuple(baits_of), why), (chosen(tuple(looks_of), why),))


_Groups = tuple[tuple[str, ...], ...]


def _ways(runs: Sequence[Run]) -> list[tuple[tuple[Run, str], ...]]:
    """Every way to take each naming for a bait or for a look."""
    sorts = [[s for s in (BAIT, LOOK) if run.of(s)] for run in runs]
    if sum(len(it) > 1 for it in sorts) > _MOST_UNCLEAR:
        sorts = [it[:1] for it in sorts]
    return [
        tuple(zip(runs, way, strict=True)) for way in itertools.product(*sorts)
    ]  # fmt: skip


def _sorted_out(way: Sequence[tuple[Run, str]]) -> tuple[_Groups, _Groups]:
    baits = _grouped([run.of(BAIT) for run, sort in way if sort == BAIT])
    looks = _grouped([run.of(LOOK) for run, sort in way if sort == LOOK])
    return baits, looks


def _grouped(options: Sequence[tuple[str, ...]]) -> _Groups:
    """Namings that can mean one record are taken together; others stand apart."""
    groups: list[tuple[str, ...]] = []
    for ids in options:
        for i, group in enumerate(groups):
            both = tuple(it for it in group if it in ids)
            if both:
                groups[i] = both
                break
        else:
            groups.append(ids)
    return tuple(groups)


def _bait(groups: _Groups, carried: tuple[str, ...]) -> Choice:
    if not groups:
        why = "is it the bait that was named before?" if carried else "no bait is named"
        return Choice(carried, sure=False, why=why)
    if len(groups) > 1:
        both = tuple(dict.fromkeys(key for group in groups for key in group))
        return Choice(both, sure=False, why="several baits are named with one number")
    return chosen(groups[0], _unclear(groups[0]))


def _unclear(ids: tuple[str, ...]) -> str:
    return "several have these words in their names" if len(ids) > 1 else ""
