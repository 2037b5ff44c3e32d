"""Invented sales of the last months for the demo bench, and its tax profile."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from pourwright.actions.bait_kind import BaitKind
from pourwright.actions.invented import INVENTED
from pourwright.actions.port import Bench, Clock, Event, Ids
from pourwright.actions.tax_standing import TAX_PROFILE
from pourwright.base.record import to_json
from pourwright.shop.code import lot_code
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.sale import SOLD, Sale, SaleLine
from pourwright.shop.stock_lot import LotSort, StockLot
from pourwright.shop.tax_profile import TaxCountry, TaxProfile

PACK = 8
# What a bait of these lots weighs and cost, in mg and ten-thousandths.
_MG, _COST = 11_480, 3_200


@dataclass(frozen=True, slots=True)
class _Kind:
    """A sort of bags with the price of one."""

    kind: BaitKind
    name: str
    number: int
    price: float


_WORM = _Kind(BaitKind("demo-bait-worm", "demo-look-marsh"), "Marsh worm, marsh green", 1, 5.5)
_SHAD = _Kind(BaitKind("demo-bait-paddle", "demo-look-shad"), "Paddle tail, slough shad", 2, 6.0)
# Days ago, what and how many packs, delivery charged, and how it was sold.
_SOLD: tuple[tuple[int, _Kind, int, float, str], ...] = (
    (221, _WORM, 2, 0, "market"), (196, _SHAD, 4, 4.8, "message"), (188, _WORM, 6, 0, "market"),
    (160, _SHAD, 3, 0, "market"), (151, _WORM, 9, 5.6, "message"), (133, _SHAD, 8, 0, "market"),
    (118, _WORM, 12, 0, "market"), (104, _SHAD, 10, 6.4, "message"), (97, _WORM, 7, 0, "market"),
    (76, _SHAD, 14, 0, "market"), (64, _WORM, 11, 5.6, "message"), (52, _WORM, 16, 0, "market"),
    (41, _SHAD, 9, 6.4, "message"), (23, _WORM, 18, 0, "market"), (12, _SHAD, 12, 5.6, "message"),
    (3, _WORM, 5, 4.8, "message"),
)  # fmt: skip


def fill_demo_sales(bench: Bench, clock: Clock, ids: Ids) -> None:
    """Two lots of bags, sold out over the last months, and the country they were sold from."""
    profile = TaxProfile(country=TaxCountry.US, note=INVENTED)
    bench.records.save(TaxProfile.key, TAX_PROFILE, profile, expected_version=0)
    now = dt.datetime.fromisoformat(clock.now())
    lots = {kind: _lot(bench, ids, kind, now) for kind in (_WORM, _SHAD)}
    for days, kind, packs, delivery, channel in _SOLD:
        at = now - dt.timedelta(days=days)
        _sell(bench, ids, _sale(at, kind, lots[kind], packs, delivery, channel), at)


def _lot(bench: Bench, ids: Ids, kind: _Kind, now: dt.datetime) -> str:
    """The code of a lot that holds what is sold of it below."""
    at = now - dt.timedelta(days=_SOLD[0][0] + 1)
    code = lot_code(date=at.date().isoformat(), number=kind.number, letter="B")
    baits = sum(packs for _, it, packs, _, _ in _SOLD if it is kind) * PACK
    bench.stock.open(StockLot(
        code=code, sort=LotSort.BAGGED, item=kind.kind.item, opened_at=_utc(at),
        name=f"Invented: {kind.name}", baits_each=PACK,
    ))  # fmt: skip
    bench.stock.post(Move(
        id=ids.fresh(), at=_utc(at), kind=MoveKind.COUNTED, target=code, mg=baits * _MG,
        pieces=baits, cost=baits * _COST, note=INVENTED,
    ))  # fmt: skip
    return code


def _sale(
    at: dt.datetime, kind: _Kind, lot: str, packs: int, delivery: float, channel: str
) -> Sale:
    line = SaleLine(
        bait=kind.kind.bait, look=kind.kind.look, lot=lot, packs=packs, baits_each=PACK,
        price_money=kind.price,
    )  # fmt: skip
    return Sale(
        sold_on=at.date().isoformat(), customer="demo-customer-juniper" if delivery else "",
        channel=channel, lines=(line,), delivery_money=delivery,
        delivery_proof="receipt of the post office" if delivery else "",
        fees_money=round(packs * kind.price * 0.03, 2) if delivery else 0, note=INVENTED,
    )  # fmt: skip


def _sell(bench: Bench, ids: Ids, sale: Sale, at: dt.datetime) -> None:
    key = ids.fresh()
    bench.ledger.append(Event(key, f"sale/{key}", SOLD, _utc(at), to_json(sale)))
    for line in sale.lines:
        bench.stock.post(Move(
            id=ids.fresh(), at=_utc(at), kind=MoveKind.SOLD, source=line.lot,
            mg=line.baits * _MG, pieces=line.baits, cost=line.baits * _COST, cause=f"sale/{key}",
        ))  # fmt: skip


def _utc(at: dt.datetime) -> str:
    return at.strftime("%Y-%m-%dT%H:%M:%SZ")
