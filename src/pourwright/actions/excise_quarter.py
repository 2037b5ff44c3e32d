"""The tax sheet of a quarter, from the sales of the books."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.excise_lines import TaxedSale, excise_lines
from pourwright.actions.port import Bench
from pourwright.actions.sales_of import KeptSale, sales_of
from pourwright.actions.tax_standing import tax_standing
from pourwright.base.errors import BadInput
from pourwright.shop.tax.excise import ExciseAnswer, ExciseInput, excise
from pourwright.shop.tax.quarter import Quarter
from pourwright.shop.tax_profile import TaxProfile

FIRST_YEAR, LAST_YEAR = 1990, 2199


@dataclass(frozen=True, slots=True)
class QuarterSheet:
    """A quarter's sheet; without a profile of the United States it carries no figure.

    `taken_back` are sales of the quarter undone within it, which the sheet leaves out; `back_later`
    those undone after it, which it still holds; `back_here` sales of earlier quarters undone in
    this one.
    """

    quarter: Quarter
    profile: TaxProfile | None
    sales: tuple[TaxedSale, ...]
    answer: ExciseAnswer | None
    taken_back: tuple[KeptSale, ...]
    back_later: tuple[KeptSale, ...]
    back_here: tuple[KeptSale, ...]

    @property
    def asides(self) -> tuple[str, ...]:
        """Sales taken back, in words."""
        return (
            *(f"Left out, since it was taken back: {_told(it)}." for it in self.taken_back),
            *(
                f"Still on this sheet, though taken back after the quarter: {_told(it)}. Whether "
                "the return is put right or a credit is taken is for an adviser."
                for it in self.back_later
            ),
            *(
                f"Not on this sheet, sold in an earlier quarter and taken back in this one: "
                f"{_told(it)}. Whether a credit is taken is for an adviser."
                for it in self.back_here
            ),
        )


def excise_quarter(bench: Bench, quarter: Quarter) -> QuarterSheet:
    """The sheet of a quarter. Raises: BadInput for a year long gone or far off."""
    if not FIRST_YEAR <= quarter.year <= LAST_YEAR:
        raise BadInput("year", quarter.year, f"must lie between {FIRST_YEAR} and {LAST_YEAR}")
    profile = tax_standing(bench)
    told = sales_of(bench, before=quarter.moved(1).first)
    of_it = [it for it in told if it.sale.sold_on >= quarter.first]
    counted = [it for it in of_it if counts(it)]
    lines: tuple[TaxedSale, ...] = ()
    answer = None
    if profile is not None and profile.reckons:
        lines = excise_lines(bench, counted, profile)
        answer = excise(_asked(quarter, profile, lines))
    return QuarterSheet(
        quarter=quarter,
        profile=profile,
        sales=lines,
        answer=answer,
        taken_back=tuple(it for it in of_it if not counts(it)),
        back_later=tuple(it for it in counted if it.taken_back),
        back_here=tuple(it for it in told if _undone_in(quarter, it)),
    )


def counts(kept: KeptSale) -> bool:
    """Whether a sale stands on the sheet of its quarter: one undone after it still does.

    The return of that quarter may be filed by then; whether it is put right or a credit is taken
    is for an adviser.
    """
    return kept.stands or _day_undone(kept) > Quarter.of(kept.sale.sold_on).last


def _told(kept: KeptSale) -> str:
    sale = kept.sale
    return f"sale of {sale.sold_on} for {sale.received}, {_day_undone(kept)}, {kept.why}"


def _undone_in(quarter: Quarter, kept: KeptSale) -> bool:
    earlier = kept.sale.sold_on < quarter.first
    return earlier and quarter.first <= _day_undone(kept) <= quarter.last


def _day_undone(kept: KeptSale) -> str:
    return kept.taken_back[:10]


def _asked(quarter: Quarter, profile: TaxProfile, lines: tuple[TaxedSale, ...]) -> ExciseInput:
    return ExciseInput(
        year=quarter.year,
        quarter=quarter.number,
        lines=tuple(it.line for it in lines),
        registration=profile.registration,
        registered_on=profile.registered_on,
        base_adviser=profile.base_adviser,
        base_since=profile.base_since,
    )
