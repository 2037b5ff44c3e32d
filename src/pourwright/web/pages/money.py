"""Money: the months and quarters of a year, and the tax sheet of a quarter."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.responses import Response

from pourwright.actions.excise_quarter import (
    FIRST_YEAR,
    LAST_YEAR,
    QuarterSheet,
    excise_quarter,
)
from pourwright.actions.excise_table import EXCISE_HEADER, excise_table
from pourwright.actions.money_totals import MoneyTotals, joined, money_months
from pourwright.actions.plan_batch import workplace
from pourwright.actions.tax_standing import TAX_PROFILE, choose_country, tax_standing
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.shop.tax.caution import ELSEWHERE, NOT_ADVICE
from pourwright.shop.tax.quarter import Quarter
from pourwright.shop.tax_profile import TaxCountry, TaxProfile
from pourwright.web.money_chart import MoneyChart, sales_chart, stock_chart
from pourwright.web.money_view import (
    MonthRow,
    QuarterCard,
    begun,
    month_rows,
    months_of,
    quarter_cards,
)
from pourwright.web.page import Go, Page, Show, Visit, number_in_address
from pourwright.web.today_here import day_here

COUNTRIES = (TaxCountry.US, TaxCountry.ELSEWHERE)


@dataclass(frozen=True, slots=True, kw_only=True)
class MoneyContext:
    """A year."""

    title: str
    year: int
    this_year: int
    saved: bool
    profile: TaxProfile | None
    countries: tuple[TaxCountry, ...]
    totals: MoneyTotals
    sales: MoneyChart
    stock: MoneyChart
    quarters: tuple[QuarterCard, ...]
    months: tuple[MonthRow, ...]
    elsewhere: str

    @property
    def empty(self) -> bool:
        """Whether there is nothing to draw."""
        it = self.totals
        return not (it.sales or it.bought.ten_thousandths or it.stock_end.ten_thousandths)


@dataclass(frozen=True, slots=True, kw_only=True)
class QuarterContext:
    """The tax sheet of a quarter."""

    title: str
    sheet: QuarterSheet
    countries: tuple[TaxCountry, ...]
    runs: bool
    before: Quarter
    after: Quarter
    not_advice: str
    elsewhere: str


def money(visit: Visit) -> Show:
    """A year of money; `?year=` picks which."""
    today = day_here(visit.world.clock.now())
    asked = visit.request.query_params
    year = _year(asked.get("year", today[:4]))
    with visit.world.reading() as bench:
        profile = tax_standing(bench)
        months = money_months(bench, months_of(year), day_here)
    shown = begun(months, today)
    context = MoneyContext(
        title="Money",
        year=year,
        this_year=int(today[:4]),
        saved=asked.get("saved", "") == TAX_PROFILE,
        profile=profile,
        countries=COUNTRIES,
        totals=joined(shown or months[:1]),
        sales=sales_chart(months, visit.settings),
        stock=stock_chart(months, len(shown), visit.settings),
        quarters=quarter_cards(months, today),
        months=month_rows(months, today),
        elsewhere=ELSEWHERE,
    )
    return Show("money/money.html", context)


def country(visit: Visit) -> Go:
    """Settle the country."""
    sent = dict(visit.sent)
    named = sent.get("country", "")
    if named not in set(COUNTRIES):
        raise BadInput("country", named, f"must be one of {', '.join(COUNTRIES)}")
    choose_country(visit.world, TaxCountry(named))
    quarter = sent.get("quarter", "")
    return Go(f"/money/quarter/{_quarter(quarter).name}" if quarter else "/money")


def quarter(visit: Visit) -> Show:
    """The tax sheet of a quarter on the screen."""
    sheet = _sheet(visit)
    context = QuarterContext(
        title=f"Tax sheet {sheet.quarter.name}",
        sheet=sheet,
        countries=COUNTRIES,
        runs=sheet.quarter.last >= day_here(visit.world.clock.now()),
        before=sheet.quarter.moved(-1),
        after=sheet.quarter.moved(1),
        not_advice=NOT_ADVICE,
        elsewhere=ELSEWHERE,
    )
    return Show("money/quarter.html", context)


def quarter_pdf(visit: Visit) -> Response:
    """The same on paper."""
    sheet = _sheet(visit)
    with visit.world.reading() as bench:
        place = workplace(bench)
    if sheet.answer is None:
        raise NoAnswer(_NO_FIGURE)
    invented = ", invented" if place.demo else ""
    of = f"{place.name}{invented}, as of {day_here(visit.world.clock.now())}"
    pdf = visit.world.printer.excise(
        sheet.answer, of=of, asides=sheet.asides, paper=place.paper, sign=place.currency
    )
    return _file(pdf, "application/pdf", f"tax-sheet-{sheet.quarter.name}.pdf")


def quarter_csv(visit: Visit) -> Response:
    """Its lines as a table."""
    sheet = _sheet(visit)
    if sheet.answer is None:
        raise NoAnswer(_NO_FIGURE)
    table = visit.world.printer.csv(EXCISE_HEADER, excise_table(sheet))
    return _file(table, "text/csv; charset=utf-8", f"tax-sheet-{sheet.quarter.name}.csv")


_NO_FIGURE = (
    "no figure is reckoned: the tax profile names no country whose rules are here. Choose one "
    "under Money"
)


def _sheet(visit: Visit) -> QuarterSheet:
    with visit.world.reading() as bench:
        return excise_quarter(bench, _quarter(visit.part("quarter")))


def _quarter(text: str) -> Quarter:
    """A quarter as addresses name it, such as 2026-Q2 or 2026-2. Raises: BadInput."""
    year, _, number = text.upper().replace("Q", "").partition("-")
    if number not in {"1", "2", "3", "4"}:
        raise BadInput("quarter", text, "must be a quarter such as 2026-Q2")
    return Quarter(_year(year), int(number))


def _year(text: str) -> int:
    year = number_in_address(text, "year", "a year")
    if not FIRST_YEAR <= year <= LAST_YEAR:
        raise BadInput("year", year, f"must lie between {FIRST_YEAR} and {LAST_YEAR}")
    return year


def _file(content: bytes, kind: str, name: str) -> Response:
    headers = {"content-disposition": f'attachment; filename="{name}"'}
    return Response(content, media_type=kind, headers=headers)


MONEY_PAGES = (
    Page("/money", money),
    Page("/money/country", country, ("POST",)),
    Page("/money/quarter/{quarter}", quarter),
    Page("/money/quarter/{quarter}/sheet.pdf", quarter_pdf),
    Page("/money/quarter/{quarter}/sheet.csv", quarter_csv),
)
