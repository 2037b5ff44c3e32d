"""How many packs of how many baits an item asks for."""

from __future__ import annotations

from pourwright.shop.message.item import Item
from pourwright.shop.message.mark import Count, counted
from pourwright.shop.message.quantity import Unit


def baits_each(item: Item, listed: tuple[int, ...]) -> Count:
    """Baits to a pack: as it is said, or else as the price list has it."""
    if item.count is not None and item.count.unit is Unit.UNCLEAR:
        return counted(item.count.numbers, item.count.why)
    if item.size is not None:
        return counted(item.size.numbers)
    if len(listed) == 1:
        return Count(listed, sure=True, why="not said; so the price list has it")
    if listed:
        return counted(listed, "not said; sold in several packs")
    return Count((), sure=False, why="how many are in a pack is not said")


def packs(item: Item, listed: tuple[int, ...], *, looks: int) -> Count:
    """Packs of each look."""
    count = item.count
    if count is None:
        return Count((), sure=False, why="no number stands with it")
    if item.against:
        return counted(_options(item, listed), "a word beside it may turn its meaning")
    if looks > 1 and not item.each:
        return counted(count.numbers, "of each look, or all together?")
    if len(count.numbers) != 1 or count.why:
        return counted(count.numbers, count.why or "how many?")
    return _one(item, listed, count.numbers[0])


def _one(item: Item, listed: tuple[int, ...], number: int) -> Count:
    said = item.size.numbers if item.size else ()
    options = _options(item, listed)
    match item.count.unit if item.count else Unit.UNREAD:
        case Unit.PACKS:
            return counted((number,))
        case Unit.BAITS if said or listed == (1,):
            return counted(options, "" if _even(number, (*said, *listed)[0]) else _uneven(number))
        case Unit.BAITS:
            return counted(options, f"{number} baits: how many packs?")
        case _ if said or listed == (1,):
            return counted((number,))
        case _:
            return counted(options, f"{number} packs, or {number} baits?")


def _options(item: Item, listed: tuple[int, ...]) -> tuple[int, ...]:
    """Packs that the number may mean."""
    count = item.count
    if count is None or count.unit is Unit.UNCLEAR or len(count.numbers) != 1:
        return count.numbers if count else ()
    number = count.numbers[0]
    sizes = item.size.numbers if item.size else listed
    packs_of = [n for size in sizes for n in _whole(number, size)]
    if count.unit is Unit.BAITS:
        return tuple(dict.fromkeys(packs_of))
    even = [number // size for size in sizes if _even(number, size)]
    return tuple(dict.fromkeys([number, *even])) if count.unit is Unit.UNSAID else (number,)


def _whole(number: int, size: int) -> tuple[int, ...]:
    """The packs that hold so many baits: exactly, or a few less and a few more."""
    down, over = divmod(number, size)
    return (down,) if not over else tuple(n for n in (down, down + 1) if n)


def _even(number: int, size: int) -> bool:
    return number % size == 0


def _uneven(number: int) -> str:
    return f"{number} baits fill no whole packs"
