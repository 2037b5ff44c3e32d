"""The heat budget: what plastic has used of it and what to do; of any pot, or one on the shelf."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from pourwright.actions.heat_budget import (
    BudgetEntry,
    budget_of,
    entry_of,
    keep_budget,
    pot_named,
)
from pourwright.actions.port import Stored
from pourwright.base.errors import BadInput, Conflict
from pourwright.heat.scorch_answer import ScorchAnswer
from pourwright.heat.scorch_words import HCL
from pourwright.shop.material import RemeltPot
from pourwright.web.budget_bar import BudgetBar, budget_bar
from pourwright.web.fill_rows import without_blank_rows
from pourwright.web.form import Typed, parsed, texts_of
from pourwright.web.form_edit import edited
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.widget import FormView, Widget, form_view

_SAVE = "save"
_MAIN = ("used_share", "heats", "holds", "pot_g", "fresh_g")
# Into a pot of the shelf fresh plastic goes by its record, not by this page.
_NOT_OF_A_POT = {"fresh_g"}


@dataclass(frozen=True, slots=True)
class BudgetContext:
    """The form and what it says so far; `pot` where it is one of the shelf."""

    title: str
    address: str
    version: int
    form: FormView
    main: tuple[Widget, ...]
    more: tuple[Widget, ...]
    hcl: str
    pot: RemeltPot | None = None
    entry: BudgetEntry | None = None
    answer: ScorchAnswer | None = None
    bar: BudgetBar | None = None
    conflict: str = ""


@dataclass(frozen=True, slots=True)
class _Tried:
    entry: BudgetEntry | None = None
    answer: ScorchAnswer | None = None
    problems: Mapping[str, str] = field(default_factory=dict)


def budget(visit: Visit) -> Show | Go:
    """Reckon what any plastic has used."""
    return _answered(visit, None, None)


def pot_budget(visit: Visit) -> Show | Go:
    """The same for a pot of the shelf; `save` keeps the share."""
    with visit.world.reading() as bench:
        stored, pot = pot_named(bench, visit.part("id"))
    return _answered(visit, stored, pot)


def _answered(visit: Visit, stored: Stored | None, pot: RemeltPot | None) -> Show | Go:
    sent = dict(visit.sent) if visit.posted else dict(visit.request.query_params)
    command = sent.pop("@do", "")
    version = visit.whole("@version") or (stored.version if stored else 0)
    sent.pop("@version", None)
    fresh = texts_of(BudgetEntry, entry_of(pot) if pot else None, visit.settings.system)
    typed = edited(
        BudgetEntry, sent if visit.posted else fresh | sent, command, visit.settings.system
    )
    tried = _try(visit, typed)
    if stored is None or command != _SAVE or not visit.posted:
        return _page(visit, pot, typed, tried, version)
    if tried.entry is None:
        return _page(visit, pot, typed, tried, version, status=422)
    try:
        kept = keep_budget(visit.world, stored.id, tried.entry, expected_version=version)
    except BadInput as error:
        wrong = _Tried(tried.entry, tried.answer, {error.field: error.why})
        return _page(visit, pot, typed, wrong, version, status=error.http_status)
    except Conflict as error:
        return _page(
            visit, pot, typed, tried, stored.version, status=error.http_status, conflict=str(error)
        )
    return Go(f"/shelf?saved={kept.id}#r-{kept.id}")


def _try(visit: Visit, typed: Typed) -> _Tried:
    filled, places = without_blank_rows(BudgetEntry, typed)
    found = parsed(BudgetEntry, filled, visit.settings)
    problems = found.problems
    if not problems:
        try:
            return _Tried(found.record, budget_of(found.record))
        except BadInput as error:
            problems = {error.field: error.why}
    return _Tried(problems={places.get(path, path): why for path, why in problems.items()})


def _page(
    visit: Visit, pot: RemeltPot | None, typed: Typed, tried: _Tried, version: int, *,
    status: int = 200, conflict: str = "",
) -> Show:  # fmt: skip
    form = form_view(
        BudgetEntry, typed, problems=tried.problems, settings=visit.settings,
        references=lambda _: (),
    )  # fmt: skip
    by_path = {w.path: w for w in form.widgets}
    hidden = _NOT_OF_A_POT if pot else set()
    context = BudgetContext(
        title=f"Heat budget: {pot.name}" if pot else "Heat budget",
        address=f"/remelt-pots/{visit.part('id')}/heat-budget" if pot else "/heat-budget",
        version=version,
        form=form,
        main=tuple(by_path[p] for p in _MAIN if p not in hidden),
        more=tuple(w for p, w in by_path.items() if p not in _MAIN),
        hcl=HCL,
        pot=pot,
        entry=tried.entry,
        answer=tried.answer,
        bar=budget_bar(tried.answer.dose_share) if tried.answer else None,
        conflict=conflict,
    )
    return Show("heat/budget.html", context, status)


SCORCH_PAGES = (
    Page("/heat-budget", budget, ("GET", "POST")),
    Page("/remelt-pots/{id}/heat-budget", pot_budget, ("GET", "POST")),
)
