"""The sales of the books, in the order in which they were written down."""

from __future__ import annotations

import functools
import json
from dataclasses import dataclass

from pourwright.actions.port import Bench, Recorded
from pourwright.base.errors import NotFound
from pourwright.base.record import from_json
from pourwright.shop.money import Money
from pourwright.shop.sale import SALE_TAKEN_BACK, SOLD, Sale


@dataclass(frozen=True, slots=True)
class KeptSale:
    """A sale as it was written down at `at`; `taken_back` is when that was undone, else empty."""

    id: str
    at: str
    sale: Sale
    taken_back: str = ""
    why: str = ""

    def left_after(self, goods_cost: Money) -> Money:
        """What it leaves before postage and tax, where its goods had cost so much."""
        return self.sale.received - Money.of(self.sale.fees_money) - goods_cost

    @property
    def stands(self) -> bool:
        """Whether it counts."""
        return not self.taken_back


def sales_of(bench: Bench, since: str = "", before: str = "") -> tuple[KeptSale, ...]:
    """Every sale whose day is `since` or later and earlier than `before`, those undone too.

    Both are days such as 2026-04-01, by the maker's own calendar; an empty bound is none.
    """
    undone = {
        it.event.body["sale"]: it for it in bench.ledger.of_kind(SALE_TAKEN_BACK)
    }  # fmt: skip
    return tuple(
        _kept(it, undone.get(_id(it)))
        for it in bench.ledger.of_kind(SOLD)
        if since <= it.event.body["sold_on"] and (not before or it.event.body["sold_on"] < before)
    )


def sale_of(bench: Bench, id: str) -> KeptSale:
    """One sale. Raises: NotFound."""
    told = bench.ledger.of(f"sale/{id}")
    sold = next((it for it in told if it.event.kind == SOLD), None)
    if sold is None:
        raise NotFound(f"there is no sale {id!r} in the books")
    return _kept(sold, next((it for it in told if it.event.kind == SALE_TAKEN_BACK), None))


def _kept(sold: Recorded, undone: Recorded | None) -> KeptSale:
    sale = _sale(json.dumps(sold.event.body, sort_keys=True))
    if undone is None:
        return KeptSale(_id(sold), sold.event.at, sale)
    why = str(undone.event.body["why"])
    return KeptSale(_id(sold), sold.event.at, sale, undone.event.at, why)


@functools.lru_cache(maxsize=4096)
def _sale(body: str) -> Sale:
    """Sales are frozen and never change, so that one needs to be read only once."""
    return from_json(Sale, json.loads(body))


def _id(sold: Recorded) -> str:
    return sold.event.subject.removeprefix("sale/")
