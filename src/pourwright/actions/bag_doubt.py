"""What speaks against bagging now: baits that still set, colors that bleed, too few bags."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pourwright.actions.bait_kind import BaitKinds
from pourwright.actions.hanging import hanging_lots
from pourwright.actions.port import Bench
from pourwright.actions.stock_lot_opening import item_of
from pourwright.base.errors import Conflict, NotFound
from pourwright.base.wording import span
from pourwright.bench.clock import seconds_between
from pourwright.shop.look import Look, LookLayer
from pourwright.shop.material import Colorant, Packing
from pourwright.shop.stock_lot import Held


class Doubted(Conflict):
    """What speaks against bagging; the person may do it all the same."""

    def __init__(self, doubts: tuple[str, ...]) -> None:
        super().__init__(" ".join(doubts))
        self.doubts = doubts


def bag_doubts(bench: Bench, lots: Sequence[Held], now: str) -> tuple[str, ...]:
    """Sentences, none where nothing speaks against it."""
    return (*_still_hanging(bench, lots, now), *_bleeding(bench, lots))


def packing_doubt(bench: Bench, packing: str, bags: int) -> tuple[str, ...]:
    """Where the books have fewer bags than are to be filled; nothing where they never had any."""
    lots = bench.stock.lots(item=item_of(Packing.key, packing)) if packing else ()
    there = sum(h.pieces for h in lots)
    if not lots or there >= bags:
        return ()
    name = bench.records.get(Packing.key, packing).noun.name
    short = f"The books have {there} of {name}, and {bags} are needed"
    return (f"{short}: count it, or only those leave the stock.",)


def _still_hanging(bench: Bench, lots: Sequence[Held], now: str) -> Iterator[str]:
    hanging = {it.sheet.code: it for it in hanging_lots(bench, now)}
    for held in lots:
        it = hanging.get(held.lot.code)
        if it is not None and not it.overdue:
            left = span(seconds_between(now, it.due_at))
            yield (
                f"{held.lot.name} should hang for another {left}: baits that are bagged while they "
                "still set keep the bend of the bag."
            )


def _bleeding(bench: Bench, lots: Sequence[Held]) -> Iterator[str]:
    """Bleeding colorants matter where different looks lie in one bag."""
    kinds = BaitKinds(bench)
    looks = {kind.look: kinds.look_name(kind) for kind in (kinds.of(h.lot) for h in lots)}
    if len(looks) < 2:
        return
    for look, name in looks.items():
        for colorant in _bleeders(bench, look):
            others = " and ".join(n for other, n in looks.items() if other != look)
            yield f"{colorant} in {name} bleeds: {others} in the same bag will take on its color."


def _bleeders(bench: Bench, look_id: str) -> tuple[str, ...]:
    try:
        look = bench.records.get(Look.key, look_id).noun
    except NotFound:
        return ()
    named = {dose.material for layer in _layers(look) for dose in layer.doses}
    found = (s.noun for s in bench.records.all(Colorant.key, retired=True) if s.id in named)
    return tuple(noun.name for noun in found if isinstance(noun, Colorant) and noun.bleeds)


def _layers(look: object) -> tuple[LookLayer, ...]:
    return look.layers if isinstance(look, Look) else ()
