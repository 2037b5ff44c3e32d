"""An amount changed in a record's form is a count, and moves the difference."""

from __future__ import annotations

import dataclasses

from pourwright.actions.port import Bench, World
from pourwright.actions.post_count import count_item
from pourwright.actions.post_material import Deed
from pourwright.actions.stock_lot_opening import item_of
from pourwright.shop.lot import MG
from pourwright.shop.material import Material
from pourwright.shop.noun import Noun


def counted_by_hand(world: World, bench: Bench, noun: Noun, id: str) -> Noun:
    """Post what a typed amount adds to the lots of a material, or takes from them.

    The answer is the record to keep. A material without lots has no books yet: what the form says
    is all there is. An amount left empty is no count: the lots hold what they held.
    """
    if not isinstance(noun, Material):
        return noun
    item = item_of(noun.key, id)
    lots = bench.stock.lots(item=item)
    if not lots:
        return noun
    there = sum(h.mg for h in lots)
    if noun.on_hand_g is None:
        return dataclasses.replace(noun, on_hand_g=there / MG)
    mg = round(noun.on_hand_g * MG)
    if there != mg:
        key = world.ids.fresh()
        deed = Deed(key, world.clock.now(), f"count/{key}")
        count_item(bench, item, mg, noun, deed)
    return noun
