"""Labels and header cards of a lot, from what the bench knows of it."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.as_it_was import Past, look_of_lot
from pourwright.actions.bait_kind import BaitKind, BaitKinds
from pourwright.actions.header_card import HeaderCard
from pourwright.actions.offered import offer_for
from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench, World
from pourwright.actions.see_look import Glance, look_of, picture_of
from pourwright.actions.stock_share import share_of
from pourwright.base.errors import BadInput, NoAnswer, NotFound
from pourwright.forecast.picture.picture_input import LookInput, Sight
from pourwright.forecast.picture.sheet import WHITE_CARD_HEX
from pourwright.shop.header_card import CardShape
from pourwright.shop.label import BagLabel, Face
from pourwright.shop.label_sheet import USUAL, LabelSheet
from pourwright.shop.move import MoveKind
from pourwright.shop.stock_lot import Held, LotSort
from pourwright.shop.workplace import Paper

MOST_LABELS = 500
_CARD_PX = 960


def label_sheets(bench: Bench) -> Mapping[str, LabelSheet]:
    """Every sheet of labels that can be printed on: the bench's own first, then the usual ones."""
    own = {
        stored.id: stored.noun
        for stored in bench.records.all(LabelSheet.key)
        if isinstance(stored.noun, LabelSheet)
    }
    return {**own, **USUAL}


def bag_label(bench: Bench, code: str) -> BagLabel:
    """The label of one bag of a bagged lot, or of all that a poured one holds loose.

    Raises: NotFound; BadInput for a lot that is not of baits.
    """
    held = bench.stock.lot(code)
    lot = held.lot
    if lot.sort not in {LotSort.POURED, LotSort.BAGGED}:
        raise BadInput("code", code, "is a lot of a material: labels are for baits")
    each = lot.baits_each if lot.sort is LotSort.BAGGED else held.pieces
    kinds = BaitKinds(bench)
    kind = kinds.of(lot)
    return BagLabel(
        code=code,
        bait=kinds.bait_name(kind),
        look=kinds.look_name(kind),
        baits_each=each,
        poured_on=_poured_on(bench, held),
        lead=kinds.lead(kind),
        net_mg=_net_mg(bench, held, each),
        article=_article(bench, kind, each),
        demo=workplace(bench).demo,
    )


@dataclass(frozen=True, slots=True)
class LabelCount:
    """How many labels to print; `left` are the bags that one print leaves without."""

    count: int
    left: int = 0


def label_count(bench: Bench, code: str, asked: int | None) -> LabelCount:
    """As many as were asked for, else one for each whole bag, as far as one print goes.

    Raises: NotFound; BadInput for a count that no print takes.
    """
    if asked is not None:
        _refuse_count(asked)
        return LabelCount(asked)
    held = bench.stock.lot(code)
    bags = held.pieces // held.lot.baits_each if held.lot.sort is LotSort.BAGGED else 1
    count = min(max(bags, 1), MOST_LABELS)
    return LabelCount(count, max(0, bags - count))


def print_labels(
    world: World, code: str, *, sheet: str, count: int, first: int, face: Face
) -> bytes:
    """Labels of a lot as a PDF.

    Raises: NotFound; BadInput for a count or a place the sheet does not have; NoAnswer for a
    label that is too small.
    """
    with world.reading() as bench:
        label = bag_label(bench, code)
        sheets = label_sheets(bench)
    if sheet not in sheets:
        raise NotFound(f"there is no label sheet {sheet!r}")
    _refuse_count(count)
    return world.printer.labels(sheets[sheet], [label] * count, first=first, face=face)


def print_header_cards(
    world: World, code: str, *, shape: CardShape, paper: Paper, count: int
) -> bytes:
    """Header cards of a lot as a PDF. Raises: as `print_labels`."""
    with world.reading() as bench:
        card = HeaderCard(label=bag_label(bench, code))
        try:
            asked = _look_asked(bench, code)
        except (BadInput, NoAnswer, NotFound) as error:
            asked, card = None, dataclasses.replace(card, no_picture=str(error))
    _refuse_count(count)
    return world.printer.header_card(_pictured(card, asked), shape, paper=paper, count=count)


def _pictured(card: HeaderCard, asked: LookInput | None) -> HeaderCard:
    """The card with its picture, which is reckoned when the bench is closed again."""
    if asked is None:
        return card
    glance = Glance(sight=Sight(sheet_hex=WHITE_CARD_HEX), pixels=_CARD_PX)
    try:
        return dataclasses.replace(card, picture=picture_of(asked, glance).picture)
    except (BadInput, NoAnswer, NotFound) as error:
        return dataclasses.replace(card, no_picture=str(error))


def _look_asked(bench: Bench, code: str) -> LookInput:
    """As it was poured where one lot is in the bag; as the look is now where several are."""
    sheets = _sheets(bench, bench.stock.lot(code))
    if len(sheets) == 1:
        return look_of_lot(Past(bench), bench.sheets.get(sheets[0]))
    kinds = BaitKinds(bench)
    kind = kinds.of(bench.stock.lot(code).lot)
    look, bait = kinds.look(kind), kinds.bait(kind)
    if look is None or bait is None:
        raise NoAnswer("several looks lie in one bag, or its records are no longer on the bench")
    return look_of(bench, look, bait)


def _sheets(bench: Bench, held: Held) -> tuple[int, ...]:
    """The sheets whose baits are in a lot."""
    return tuple(sorted({int(it.lot.item.removeprefix("sheet/")) for it in _poured(bench, held)}))


def _poured(bench: Bench, held: Held) -> tuple[Held, ...]:
    """The poured lots whose baits are in a lot; one that is poured is its own."""
    if held.lot.sort is LotSort.POURED:
        return (held,)
    bagged = [m for m in bench.stock.moves(lot=held.lot.code) if m.target == held.lot.code]
    sources = dict.fromkeys(m.source for m in bagged if m.kind is MoveKind.BAGGED)
    return tuple(bench.stock.lot(code) for code in sources)


def _poured_on(bench: Bench, held: Held) -> str:
    days = sorted({it.lot.opened_at[:10] for it in _poured(bench, held)})
    if len(days) > 1:
        return f"since {days[0]}"
    return "".join(days)


def _net_mg(bench: Bench, held: Held, each: int) -> int | None:
    """What so many baits weigh; of bags the mean of all that ever came in; none where unknown."""
    if held.lot.sort is LotSort.POURED:
        return share_of(bench, held, each).mg or None
    into = [m for m in bench.stock.moves(lot=held.lot.code) if m.target == held.lot.code]
    pieces, mg = sum(m.pieces for m in into), sum(m.mg for m in into)
    return round(mg / pieces * each) if pieces and mg else None


def _article(bench: Bench, kind: BaitKind, each: int) -> str:
    """The number the maker was issued for such a pack, empty for none."""
    offer = offer_for(bench, kind.bait, kind.look, each)
    return offer.article_number if offer else ""


def _refuse_count(count: int) -> None:
    if not 1 <= count <= MOST_LABELS:
        raise BadInput("count", count, f"must lie between 1 and {MOST_LABELS}")
