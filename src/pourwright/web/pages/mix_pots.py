"""Fill a remelt pot from others."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.heat_budget import pot_named
from pourwright.actions.mix_pots import MixEntry, mix_pots
from pourwright.actions.port import Stored
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.shop.material import RemeltPot
from pourwright.web.event_id import event_id
from pourwright.web.form import Typed, parsed, texts_of
from pourwright.web.form_edit import edited
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.widget import Choice, Choices, FormView, form_view

SAVE = "save"


@dataclass(frozen=True, slots=True)
class MixContext:
    """A pot about to be filled; `there_g` is what is in it, none where nobody weighed it."""

    title: str
    id: str
    there_g: float | None
    form: FormView
    event: str
    refused: str


def mix(visit: Visit) -> Show | Go:
    """Write down what went in."""
    if not visit.posted:
        typed = texts_of(MixEntry, None, visit.settings.system)
        return _page(visit, typed, event=visit.world.ids.fresh())
    sent = dict(visit.sent)
    command, event = sent.pop("@do", SAVE), sent.pop("@event", "")
    if command != SAVE:
        typed = edited(MixEntry, sent, command, visit.settings.system)
        return _page(visit, typed, event=event)
    found = parsed(MixEntry, sent, visit.settings)
    if found.problems:
        return _page(visit, sent, event=event, problems=found.problems, status=422)
    try:
        code = mix_pots(visit.world, visit.part("id"), found.record, key=event_id(event))
    except BadInput as error:
        problems = {error.field: error.why}
        return _page(visit, sent, event=event, problems=problems, status=422)
    except PourwrightError as error:
        return _page(visit, sent, event=event, refused=str(error), status=error.http_status)
    return Go(f"/stock/{code}")


def _page(
    visit: Visit, typed: Typed, *, event: str, problems: Mapping[str, str] | None = None,
    refused: str = "", status: int = 200,
) -> Show:  # fmt: skip
    key = visit.part("id")
    with visit.world.reading() as bench:
        _, pot = pot_named(bench, key)
        others = _others(bench.records.all(RemeltPot.key), key)
    form = form_view(
        MixEntry, typed, problems=problems or {}, settings=visit.settings,
        references=lambda _: others,
    )  # fmt: skip
    title = f"Fill {pot.name} from other pots"
    context = MixContext(title, key, pot.on_hand_g, form, event, refused)
    return Show("stock/mix.html", context, status)


def _others(pots: tuple[Stored, ...], key: str) -> tuple[Choices, ...]:
    """Every other pot, with what is in it."""
    named = tuple(
        Choice(it.id, f"{it.noun.name}: {_there(it.noun)}")
        for it in pots
        if it.id != key and isinstance(it.noun, RemeltPot)
    )
    return (Choices("", named),)


def _there(pot: RemeltPot) -> str:
    return "not weighed" if pot.on_hand_g is None else f"{pot.on_hand_g:,.1f} g"


MIX_PAGES = (Page("/stock/mix/{id}", mix, ("GET", "POST")),)
