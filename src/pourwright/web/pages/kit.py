"""The kit: what to buy within a budget, and what the next purchase does best."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.growth import NextDollar, next_dollar
from pourwright.actions.starter_kit import Slice, best_of, spent, wishes
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.base.units import UNITS
from pourwright.plan.kit.starter_kit import StarterKitAnswer
from pourwright.shop.wish import Wish
from pourwright.web.number_text import NotANumber, number_of
from pourwright.web.page import Page, Show, Visit
from pourwright.web.show import label_of

# What a newcomer's kit is tried with before a budget was typed: estimate.
FIRST_BUDGET = "250"
_BOXES = {
    "budget_money": "what you may spend",
    "wanted_packs_per_month": "packs you could sell in a month",
}


@dataclass(frozen=True, slots=True)
class Typed:
    """A box as it was typed, with what is wrong with it."""

    text: str
    value: float | None
    problem: str


@dataclass(frozen=True, slots=True)
class KitContext:
    """The wish list: the best of it, and what of it pays back soonest."""

    title: str
    listed: tuple[tuple[str, Wish], ...]
    got: tuple[tuple[str, Wish], ...]
    saved: str
    budget: Typed
    wanted: Typed
    kit: StarterKitAnswer | None
    kit_refused: str
    slices: tuple[Slice, ...]
    next: NextDollar | None
    next_refused: str


def kit(visit: Visit) -> Show:
    """What to buy, with the budget and the market as the address gives them."""
    query = visit.request.query_params
    budget = _typed(visit, query.get("budget", FIRST_BUDGET), "type what you may spend")
    wanted = _typed(visit, query.get("wanted", ""), "")
    with visit.world.reading() as bench:
        listed = wishes(bench)
        best, kit_refused = _kit(listed, budget)
        ranked, next_refused = None, ""
        if listed and not wanted.problem:
            try:
                ranked = next_dollar(bench, listed, wanted.value)
            except PourwrightError as error:
                next_refused = _told(error)
        every = bench.records.all(Wish.key)
    context = KitContext(
        title="What to buy",
        listed=tuple(listed.items()),
        got=tuple((s.id, s.noun) for s in every if isinstance(s.noun, Wish) and s.noun.got),
        saved=query.get("saved", ""),
        budget=budget,
        wanted=wanted,
        kit=best,
        kit_refused=kit_refused,
        slices=spent(best, budget.value) if best and budget.value else (),
        next=ranked,
        next_refused=next_refused,
    )
    return Show("kit/kit.html", context)


def _kit(listed: dict[str, Wish], budget: Typed) -> tuple[StarterKitAnswer | None, str]:
    if not listed or budget.value is None:
        return None, ""
    try:
        return best_of(listed, budget.value), ""
    except PourwrightError as error:
        return None, _told(error)


def _told(error: PourwrightError) -> str:
    """What is wrong, by what the box on the page is called."""
    if isinstance(error, BadInput) and error.field in _BOXES:
        return f"{_BOXES[error.field]} {error.why}"
    return str(error)


def _typed(visit: Visit, text: str, missing: str) -> Typed:
    if not text.strip():
        return Typed(text, None, missing)
    try:
        return Typed(text, number_of(text, unit=label_of(UNITS["money"], visit.settings)), "")
    except NotANumber as error:
        return Typed(text, None, str(error))


KIT_PAGES = (Page("/kit", kit),)
