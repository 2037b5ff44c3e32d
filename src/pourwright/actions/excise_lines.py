"""The sales of the books as lines of the tax sheet."""

from __future__ import annotations

import functools
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, pairwise

from pourwright.actions.bait_kind import BaitKind, BaitKinds
from pourwright.actions.port import Bench
from pourwright.actions.sales_of import KeptSale
from pourwright.shop.money import Money, as_typed
from pourwright.shop.sale import Sale, SaleLine, TaxWay
from pourwright.shop.tax.excise import RATE
from pourwright.shop.tax.excise_line import ExciseLine
from pourwright.shop.tax.line_tax import Seller, taxed
from pourwright.shop.tax_profile import TaxProfile

# The pages ask for the same sales again and again; a busy year has fewer.
KEPT = 4096


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
        TaxedSale(kept, line)
        for kept in sales
        for line in _lines(
            kept.sale, profile, tuple(_name(kinds, line) for line in kept.sale.lines)
        )
    )


@functools.lru_cache(maxsize=KEPT)
def taxes_of(sale: Sale, profile: TaxProfile) -> tuple[tuple[TaxWay, Fraction], ...]:
    """The tax of each line of a sale, exact, and whether it lies inside the price."""
    seller, rate = seller_of(profile), as_typed(RATE)
    lines = _lines(sale, profile, ("",) * len(sale.lines))
    return tuple((it.tax_way, taxed(it, rate=rate, seller=seller).tax) for it in lines)


def seller_of(profile: TaxProfile) -> Seller:
    """The registration of a profile."""
    return Seller(profile.registration, profile.registered_on)


@functools.lru_cache(maxsize=KEPT)
def _lines(sale: Sale, profile: TaxProfile, names: tuple[str, ...]) -> tuple[ExciseLine, ...]:
    share = profile.share_for(sold_on=sale.sold_on, channel=sale.channel)
    return tuple(
        ExciseLine(
            name=name,
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
        for line, delivery, name in zip(sale.lines, delivery_shares(sale), names, strict=True)
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
