"""Bring the books of the stock into step with what a batch used and gave."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from pourwright.actions.port import Bench
from pourwright.actions.post_material import Deed, Took, item_by_id, keep_balance, take
from pourwright.actions.stock_lot_opening import item_of
from pourwright.base.errors import Conflict, NotFound
from pourwright.shop.lot import MG, LotEntry
from pourwright.shop.material import EYES_A_BAIT, Eyes, Plastic, RemeltPot
from pourwright.shop.move import Move, MoveKind, contrary, standing
from pourwright.shop.nouns import ADDITIVES
from pourwright.shop.potted import POTTED, potted
from pourwright.shop.sheet import Sheet
from pourwright.shop.stock_lot import Held, LotSort, StockLot

LOSS = "stayed in cups and barrel, or thrown away as rejects"
CORRECTED = "the count was corrected"


def post_pour(
    bench: Bench, sheet: Sheet, entry: LotEntry | None, *, key: str, at: str
) -> tuple[Took, ...]:
    """Post what a counted batch used and gave, all of it or nothing; what stands is left as it is.

    A count that was taken back takes everything back. Returns what was used for the first time.
    Raises: Conflict where a count leaves fewer baits than went on already.
    """
    with bench.together():
        return _posted(bench, sheet, entry, key=key, at=at)


def _posted(
    bench: Bench, sheet: Sheet, entry: LotEntry | None, *, key: str, at: str
) -> tuple[Took, ...]:
    deed = Deed(key, at, sheet_cause(sheet.number))
    stands = standing(bench.stock.moves(cause=deed.cause))
    _refuse_fewer_than_gone(bench, sheet, stands, entry.good if entry else 0)
    if entry is None:
        back = [m for m in stands if m.kind is not MoveKind.POTTED]
        _take_back(bench, reversed(back), deed)
        _give_back_eyes(bench, deed)
        return ()
    open_poured(bench, sheet, at=at)
    took: tuple[Took, ...] = ()
    if not any(m.kind is MoveKind.USED for m in stands):
        took = tuple(_used(bench, sheet, deed))
    _make(bench, sheet, entry, [m for m in stands if m.kind is MoveKind.MADE], deed)
    _lose(bench, sheet, entry, [m for m in stands if m.kind is MoveKind.SCRAPPED], deed)
    return took


def sheet_cause(number: int) -> str:
    """What the moves of a batch belong to."""
    return f"sheet/{number}"


def poured_lot(bench: Bench, sheet: Sheet) -> Held | None:
    """The lot of a sheet; none before it was counted."""
    try:
        return bench.stock.lot(sheet.code)
    except NotFound:
        return None


def open_poured(bench: Bench, sheet: Sheet, *, at: str) -> None:
    """Begin the lot of a sheet, unless it was begun before."""
    if poured_lot(bench, sheet) is None:
        item = sheet_cause(sheet.number)
        bench.stock.open(
            StockLot(code=sheet.code, sort=LotSort.POURED, item=item, opened_at=at,
                     name=sheet.title)
        )  # fmt: skip


def _refuse_fewer_than_gone(bench: Bench, sheet: Sheet, stands: list[Move], good: int) -> None:
    held = poured_lot(bench, sheet)
    if held is None:
        return
    made = sum(m.pieces for m in stands if m.kind is MoveKind.MADE)
    gone = made - held.pieces
    if good < gone:
        raise Conflict(
            f"{gone} baits of lot {sheet.code} are bagged, sold or gone already: {good} good ones "
            "cannot be all there were; take back what followed first"
        )


def _take_back(bench: Bench, moves: Iterable[Move], deed: Deed) -> None:
    for move in moves:
        bench.stock.post(contrary(move, id=deed.next_id(), at=deed.at, note=CORRECTED))
        if move.source:
            keep_balance(bench, bench.stock.lot(move.source).lot.item)


def _used(bench: Bench, sheet: Sheet, deed: Deed) -> Iterator[Took]:
    """Everything the frozen sheet took: virgin materials, and remelt from its pot."""
    for line in sheet.plan["shelf"]:
        mg = round(line["need_g"] * MG)
        if line["material"] and mg:
            item = item_by_id(bench, (Plastic.key, *ADDITIVES), line["material"])
            if item:
                yield take(bench, item, mg, target=sheet.code, deed=deed)
    remelt_mg = round(sum(cup["remelt_g"] for cup in sheet.plan["cups"]) * MG)
    if remelt_mg and sheet.draft.get("remelt"):
        pot = item_of(RemeltPot.key, sheet.draft["remelt"])
        yield take(bench, pot, remelt_mg, target=sheet.code, deed=deed)


def _make(bench: Bench, sheet: Sheet, entry: LotEntry, old: list[Move], deed: Deed) -> None:
    """The good baits stand in the lot; the new count is there before the old one goes."""
    if sum(m.pieces for m in old) == entry.good:
        return
    if entry.good:
        bench.stock.post(Move(
            id=deed.next_id(), at=deed.at, kind=MoveKind.MADE, target=sheet.code,
            pieces=entry.good, cause=deed.cause,
        ))  # fmt: skip
    _take_back(bench, old, deed)
    _take_eyes(bench, sheet, entry.good, deed)


def _lose(bench: Bench, sheet: Sheet, entry: LotEntry, old: list[Move], deed: Deed) -> None:
    """What neither a bait nor a pot will carry away is the loss of the batch; it costs nothing.

    What it had cost is borne by the baits that came of it.
    """
    held = bench.stock.lot(sheet.code)
    told = bench.ledger.of(f"lot/{sheet.code}")
    put = potted([(e.event.kind, e.event.at, e.event.body) for e in told
                  if e.event.kind == POTTED])  # fmt: skip
    kept_g = (entry.remelt_g or 0) + (entry.sprue_g or 0) - sum(p.grams for p in put)
    stays = round(held.pieces * bait_mg(sheet, entry) + max(kept_g, 0) * MG)
    lost = sum(m.mg for m in old)
    wanted = max(0, held.mg + lost - stays)
    if wanted == lost:
        return
    _take_back(bench, old, deed)
    if wanted:
        bench.stock.post(Move(
            id=deed.next_id(), at=deed.at, kind=MoveKind.SCRAPPED, source=sheet.code,
            mg=wanted, cause=deed.cause, note=LOSS,
        ))  # fmt: skip


def bait_mg(sheet: Sheet, entry: LotEntry) -> float:
    """What one bait weighs: by the five that were weighed, else as planned."""
    if entry.bait_g is not None:
        return entry.bait_g * MG
    figures = {f["key"]: f["value"]["typical"] for f in sheet.plan["figures"]}
    return float(figures["bait_g"]) * MG


def _take_eyes(bench: Bench, sheet: Sheet, good: int, deed: Deed) -> None:
    """Eyes by the piece, as far as they are in stock; they leave for no lot of baits."""
    if not sheet.draft.get("eyes"):
        return
    _give_back_eyes(bench, deed)
    left = EYES_A_BAIT * good
    for held in bench.stock.lots(item=item_of(Eyes.key, sheet.draft["eyes"]), present=True):
        part = min(left, held.pieces)
        if part:
            left -= part
            bench.stock.post(Move(
                id=deed.next_id(), at=deed.at, kind=MoveKind.USED, source=held.lot.code,
                pieces=part, cost=held.cost_of(pieces=part), cause=eyes_cause(deed.cause),
            ))  # fmt: skip


def _give_back_eyes(bench: Bench, deed: Deed) -> None:
    _take_back(bench, standing(bench.stock.moves(cause=eyes_cause(deed.cause))), deed)


def eyes_cause(cause: str) -> str:
    """What the eyes of a batch belong to: they do not count among what its baits cost."""
    return f"{cause}/eyes"
