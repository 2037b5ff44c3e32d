"""The question where one makes and sells, asked at the first sale."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.port import Bench, World
from pourwright.actions.tax_standing import choose_country, tax_standing
from pourwright.base.errors import BadInput
from pourwright.shop.tax_profile import TaxCountry

COUNTRY = "country:"


@dataclass(frozen=True, slots=True)
class TaxAsk:
    """The country that was chosen; empty before, when one of the others can be."""

    country: str
    countries: tuple[TaxCountry, ...] = (TaxCountry.US, TaxCountry.ELSEWHERE)


def tax_ask(bench: Bench) -> TaxAsk:
    """What a page of a sale asks or says."""
    profile = tax_standing(bench)
    return TaxAsk(profile.country.value if profile else "")


def take_country(world: World, command: str) -> bool:
    """Whether a button chose a country, which is then kept. Raises: BadInput for no such one."""
    if not command.startswith(COUNTRY):
        return False
    text = command.removeprefix(COUNTRY)
    try:
        choose_country(world, TaxCountry(text))
    except ValueError as error:
        raise BadInput("country", text, f"must be one of {', '.join(TaxCountry)}") from error
    return True
