"""The lines of a tax sheet as a table."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.actions.excise_quarter import QuarterSheet
from pourwright.actions.port import Cell
from pourwright.shop.money import Money

EXCISE_HEADER = (
    "sold_on", "sale", "what", "count", "charged_money", "delivery_excluded_money", "tax_way",
    "taxed_share", "taxed_on_money", "tax_money", "free", "proof_by", "notes",
)  # fmt: skip


def excise_table(sheet: QuarterSheet) -> Iterator[tuple[Cell, ...]]:
    """A row for each line; money to four places, so that the quarter is rounded from the sheet."""
    if sheet.answer is None:
        return
    for sold, it in zip(sheet.sales, sheet.answer.lines, strict=True):
        yield (
            it.sold_on, sold.kept.id, it.name, it.quantity, Money.of(it.charged_money),
            Money.of(it.excluded_money), it.tax_way.value, it.base_share, Money.of(it.base_money),
            Money.of(it.tax_money), "yes" if it.free else "no", it.proof_by, " ".join(it.notes),
        )  # fmt: skip
