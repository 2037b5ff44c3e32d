"""The sales of the books as lines of the tax sheet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import accumulate, pairwise

from pourwright.actions.bait_kind import BaitKind, BaitKinds
from pourwright.actions.port import Bench
from pourwright.actions.sales_of import KeptSale
from pourwright.shop.money import Money
from pourwright.shop.sale import Sale, SaleLine
from pourwright.shop.tax.excise_line import ExciseLine
from pourwright.shop.tax_profile import TaxProfile


@dataclass(frozen=True, slots=True)
class TaxedSale:
    """A line of a sale as the tax sheet takes it."""

    kept: KeptSale
    line: ExciseLine


def excise_lines(
    bench: Bench, sales: Iterable[KeptSale], profile: TaxProfile
) -> tuple[TaxedSale, ...]:
    """Every line of the sales, in their order."""
    kinds = BaitKinds(bench)
    return tuple(
        TaxedSale(kept, line) for kept in sales for line in _lines(kinds, kept.sale, profile)
    )


def _lines(kinds: BaitKinds, sale: Sale, profile: TaxProfile) -> Iterator[ExciseLine]:
    share = profile.share_for(sold_on=sale.sold_on, channel=sale.channel)
    for line, delivery in zip(sale.lines, delivery_shares(sale), strict=True):
        yield ExciseLine(
            name=_name(kinds, line),
            sold_on=sale.sold_on,
            quantity=line.packs,
            price_money=Money.of(line.price_money).amount,
            tax_way=line.tax_way,
            base_share=share,
            delivery_money=delivery.amount,
            delivery_inside=sale.delivery_inside,
            delivery_proof=sale.delivery_proof,
            exempt=line.exempt,
            proof=line.proof,
        )


def _name(kinds: BaitKinds, line: SaleLine) -> str:
    kind = BaitKind(line.bait, line.look)
    each = f", {line.baits_each} to a pack" if line.baits_each > 1 else ""
    return f"{kinds.bait_name(kind)}, {kinds.look_name(kind)}{each}"


def delivery_shares(sale: Sale) -> tuple[Money, ...]:
    """The delivery of a sale over its lines, by what was asked for each; they add up to it."""
    whole = Money.of(sale.delivery_money).ten_thousandths
    weights = [line.asked.ten_thousandths for line in sale.lines]
    if not any(weights):
        weights = [1] * len(weights)
    total = sum(weights)
    reached = [whole * part // total for part in accumulate(weights)]
    return tuple(Money(to - start) for start, to in pairwise((0, *reached)))
