"""Buy a lot of a material, with what its supplier says of it."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.actions.lot_paper import given_paper, note_paper
from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench, Event, Stored, World
from pourwright.actions.post_material import Deed, keep_balance, lots_of
from pourwright.actions.stock_lot_opening import item_of, open_lot
from pourwright.base.band import Band, exact
from pourwright.base.errors import BadInput
from pourwright.base.record import from_json, to_json
from pourwright.base.typical import doubt_of
from pourwright.shop.material import Eyes, Material, Packing, Plastic, RemeltPot
from pourwright.shop.money import Money
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.purchase import Bought, BuyUnit, Purchase, bought
from pourwright.shop.stock_lot import Held
from pourwright.shop.stock_value import Method

PAPERED = "bought_lot"
AVERAGED = "price averaged over the lots of this material"
SUPPLIER_RULES = (
    "The supplier's safety data sheet rules: read it before you open the package. What stands here "
    "is what you typed from it; nothing here classifies a chemical or picks a pictogram."
)


def buy_lot(
    world: World, sort: str, id: str, purchase: Purchase, *, key: str,
    paper: tuple[str, bytes] | None = None,
) -> Held:  # fmt: skip
    """The new lot. The same `key` a second time changes nothing.

    `paper` is its supplier's paper, by name and content.
    Raises: NotFound; BadInput for what is not bought, a unit that does not fit it, a volume
    without a density, or a paper that is not kept.
    """
    file = given_paper(world, paper[1]) if paper else None
    with world.bench() as bench:
        deed = Deed(key, world.clock.now(), buy_cause(key))
        known = bench.stock.moves(cause=deed.cause)
        if known:
            return bench.stock.lot(known[0].target)
        stored = bench.records.get(sort, id)
        came = _came(stored, purchase)
        held = _keep(bench, stored, purchase, came, deed)
        if paper and file:
            code, id_ = held.lot.code, deed.next_id()
            note_paper(bench, code, file, paper[0], id=id_, at=deed.at)
        bench.commit()
    return held


def buy_cause(key: str) -> str:
    """What the moves of a purchase belong to."""
    return f"buy/{key}"


def paper_of(bench: Bench, code: str) -> Purchase | None:
    """What was typed when the lot was bought; none where it came otherwise."""
    told = [it for it in bench.ledger.of(f"stock/{code}") if it.event.kind == PAPERED]
    return from_json(Purchase, told[-1].event.body["purchase"]) if told else None


def _density_of(stored: Stored) -> Band | None:
    """The density of a plastic: measured, or the typical range; of nothing else."""
    if not isinstance(stored.noun, Plastic):
        return None
    if stored.noun.cold_density_g_ml is not None:
        return exact(stored.noun.cold_density_g_ml)
    return doubt_of(Plastic, "cold_density_g_ml").band


def _came(stored: Stored, purchase: Purchase) -> Bought:
    by_piece = isinstance(stored.noun, Eyes | Packing)
    if isinstance(stored.noun, RemeltPot) or not (by_piece or isinstance(stored.noun, Material)):
        raise BadInput("sort", stored.sort, "is not bought: pick a material from the shelf")
    if by_piece != (purchase.unit is BuyUnit.PIECE):
        why = "must be piece" if by_piece else "must be a weight or a volume"
        raise BadInput("unit", purchase.unit, f"{why}: so it is counted on the shelf")
    return bought(purchase, _density_of(stored))


def _keep(bench: Bench, stored: Stored, purchase: Purchase, came: Bought, deed: Deed) -> Held:
    item = item_of(stored.sort, stored.id)
    lots_of(bench, item, deed)
    code = open_lot(bench, item, stored.noun.name, at=deed.at).code
    body = {"purchase": to_json(purchase), "rests_on": came.words}
    bench.ledger.append(Event(deed.next_id(), f"stock/{code}", PAPERED, deed.at, body))
    bench.stock.post(Move(
        id=deed.next_id(), at=deed.at, kind=MoveKind.BOUGHT, target=code, mg=came.mg,
        pieces=came.pieces, cost=Money.of(purchase.price_money).ten_thousandths,
        cause=deed.cause, note=came.words,
    ))  # fmt: skip
    if workplace(bench).stock_method is Method.AVERAGE:
        bench.stock.post(*_averaged(bench, item, deed))
    keep_balance(bench, item)
    return bench.stock.lot(code)


def _averaged(bench: Bench, item: str, deed: Deed) -> Iterator[Move]:
    """Cost moved between the lots so that all of a material have one price; nothing else moves."""
    lots = bench.stock.lots(item=item, present=True)
    amounts = [h.mg or h.pieces for h in lots]
    worth, total = sum(h.cost for h in lots), sum(amounts)
    shares = [worth * amount // total for amount in amounts]
    shares[-1] += worth - sum(shares)
    for held, share in zip(lots, shares, strict=True):
        change = share - held.cost
        if change:
            yield Move(
                id=deed.next_id(), at=deed.at, kind=MoveKind.COUNTED, cost=abs(change),
                source=held.lot.code if change < 0 else "",
                target=held.lot.code if change > 0 else "", cause=deed.cause, note=AVERAGED,
            )  # fmt: skip
