"""An amount changed in a record's form is a count, and moves the difference."""

from __future__ import annotations

from pourwright.actions.port import Bench, World
from pourwright.actions.post_count import count_item
from pourwright.actions.post_material import Deed
from pourwright.actions.stock_lot_opening import item_of
from pourwright.shop.lot import MG
from pourwright.shop.material import Material
from pourwright.shop.noun import Noun


def counted_by_hand(world: World, bench: Bench, noun: Noun, id: str) -> None:
    """Post what a typed amount adds to the lots of a material, or takes from them.

    A material without lots has no books yet: what the form says is all there is.
    """
    if not isinstance(noun, Material) or noun.on_hand_g is None:
        return
    item = item_of(noun.key, id)
    lots = bench.stock.lots(item=item)
    mg = round(noun.on_hand_g * MG)
    if lots and sum(h.mg for h in lots) != mg:
        key = world.ids.fresh()
        deed = Deed(key, world.clock.now(), f"count/{key}")
        count_item(bench, item, mg, noun, deed)
