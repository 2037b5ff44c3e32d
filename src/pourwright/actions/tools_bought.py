"""Tools and molds that were bought on a known day for a known price."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.shop.mold import Mold
from pourwright.shop.money import Money
from pourwright.shop.noun import Noun
from pourwright.shop.nouns import NOUNS
from pourwright.shop.tool import Tool


@dataclass(frozen=True, slots=True)
class ToolBought:
    """What was paid for a tool, or for all molds of one sort."""

    day: str
    sort: type[Noun]
    name: str
    paid: Money


def tools_bought(bench: Bench) -> tuple[ToolBought, ...]:
    """By day; those taken off the bench were bought as well."""
    found = (
        it
        for sort in NOUNS.values()
        if issubclass(sort, Tool | Mold)
        for stored in bench.records.all(sort.key, retired=True)
        if (it := _bought(stored.noun)) is not None
    )
    return tuple(sorted(found, key=lambda it: it.day))


def _bought(noun: Noun) -> ToolBought | None:
    if not isinstance(noun, Tool | Mold) or not (noun.bought_on and noun.price_money):
        return None
    count = noun.owned if isinstance(noun, Mold) else 1
    return ToolBought(noun.bought_on, type(noun), noun.name, Money.of(noun.price_money) * count)
