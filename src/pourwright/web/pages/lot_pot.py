"""The page on which what a lot left over goes into a remelt pot."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.enter_lot import lot_view
from pourwright.actions.fill_pot import fill_pot
from pourwright.base.errors import BadInput, Conflict
from pourwright.shop.sheet import Sheet
from pourwright.web.event_id import event_id
from pourwright.web.number_text import NotANumber, number_of
from pourwright.web.page import Go, Page, Show, Visit, number_in_address
from pourwright.web.pot_offer import PotOffer, pot_offer


@dataclass(frozen=True, slots=True)
class LotPotContext:
    """What is left of a lot, what it has been through, and the pots that could take it."""

    title: str
    sheet: Sheet
    pot: PotOffer


def lot_pot(visit: Visit) -> Show | Go:
    """Put plastic of the lot into a remelt pot."""
    number = number_in_address(visit.part("number"), "number", "a sheet")
    if not visit.posted:
        return _shown(visit, number)
    sent = dict(visit.sent)
    typed, status = sent.get("grams", ""), BadInput.http_status
    try:
        grams = number_of(typed, unit="g")
        given = event_id(sent.get("event", ""))
        fill_pot(visit.world, number, sent.get("pot", ""), grams, event_id=given)
    except NotANumber as error:
        why = str(error)
    except BadInput as error:
        why = error.why
    except Conflict as error:
        why, status = str(error), error.http_status
    else:
        return Go(f"/lots/{number}/pot")
    return _shown(visit, number, typed, why, status)


def _shown(
    visit: Visit, number: int, typed: str = "", problem: str = "", status: int = 200
) -> Show:
    with visit.world.reading() as bench:
        sheet = lot_view(bench, number).sheet
        offer = pot_offer(visit.world, bench, number, typed=typed, problem=problem)
    context = LotPotContext(f"Lot {sheet.code} into the remelt pot", sheet, offer)
    return Show("sheet/lot_pot.html", context, status)


LOT_POT_PAGES = (Page("/lots/{number}/pot", lot_pot, ("GET", "POST")),)
