"""One mold: will it fill, how long to hold, do the clamps hold, one cavity more, timed shots."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from urllib.parse import urlencode

from pourwright.actions.mold_case import MoldCase, MoldEntry, first_entry, mold_case
from pourwright.actions.port import Bench
from pourwright.actions.see_mold import see_mold
from pourwright.actions.time_shot import keep_timed_shot, undo_timed_shot
from pourwright.base.errors import BadInput, NoAnswer, NotFound
from pourwright.shop.mold import Bait, Mold
from pourwright.web.form import Typed, parsed, texts_of
from pourwright.web.mold_view import MoldView, mold_view
from pourwright.web.names import Names
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.question.topic import PRESSED, Caution
from pourwright.web.widget import FormView, Widget, form_view

_TIME, _STOPWATCH = "time", "fill_s"


@dataclass(frozen=True, slots=True)
class MoldContext:
    """A mold, the push in the form, and what becomes of it."""

    title: str
    address: str
    record: str
    bait: str
    bait_address: str
    charts: str
    mold: Mold
    form: FormView
    widgets: tuple[Widget, ...]
    stopwatch: Widget
    view: MoldView | None
    caution: Caution = PRESSED


@dataclass(frozen=True, slots=True)
class _Tried:
    view: MoldView | None = None
    entry: MoldEntry | None = None
    problems: Mapping[str, str] = field(default_factory=dict)


def one_mold(visit: Visit) -> Show | Go:
    """See a push, by address or form; `time` keeps a shot by the stopwatch."""
    sent = dict(visit.sent) if visit.posted else dict(visit.request.query_params)
    command = sent.pop("@do", "")
    mold_id = visit.part("id")
    with visit.world.reading() as bench:
        stored = bench.records.get(Mold.key, mold_id)
        if stored.retired:
            return Go(f"/records/{Mold.key}/{mold_id}/history")
        case = mold_case(bench, mold_id)
        fresh = texts_of(MoldEntry, first_entry(bench, case.mold), visit.settings.system)
        typed = sent or fresh
        tried = _try(visit, bench, case, typed)
        timed = visit.posted and command == _TIME
        if not timed or tried.entry is None:
            return _page(visit, bench, case, typed, tried, status=422 if timed else 200)
    return _kept(visit, case, typed, tried, tried.entry)


def undo(visit: Visit) -> Go:
    """Take a timed shot off."""
    mold_id = visit.part("id")
    undo_timed_shot(visit.world, visit.part("shot"), expected_version=visit.whole("@version"))
    return Go(f"/molds/{mold_id}#flow")


def _kept(visit: Visit, case: MoldCase, typed: Typed, tried: _Tried, entry: MoldEntry) -> Show | Go:
    try:
        keep_timed_shot(visit.world, case.stored.id, entry)
    except BadInput as error:
        problems = {error.field: error.why}
    except (NoAnswer, NotFound) as error:
        problems = {_STOPWATCH: str(error)}
    else:
        again = urlencode({**typed, _STOPWATCH: ""})
        return Go(f"/molds/{case.stored.id}?{again}#flow")
    with visit.world.reading() as bench:
        return _page(visit, bench, case, typed, _Tried(tried.view, entry, problems), status=422)


def _try(visit: Visit, bench: Bench, case: MoldCase, typed: Typed) -> _Tried:
    found = parsed(MoldEntry, typed, visit.settings)
    if found.problems:
        return _Tried(problems=found.problems)
    try:
        seen = see_mold(bench, case, found.record)
    except BadInput as error:
        return _Tried(problems={error.field: error.why})
    return _Tried(mold_view(case, seen, visit.settings), found.record)


def _page(
    visit: Visit, bench: Bench, case: MoldCase, typed: Typed, tried: _Tried, *, status: int = 200
) -> Show:
    form = form_view(
        MoldEntry, typed, problems=tried.problems, settings=visit.settings,
        references=Names(bench).choices,
    )  # fmt: skip
    stored, by_path = case.stored, {w.path: w for w in form.widgets}
    context = MoldContext(
        title=case.mold.name,
        address=f"/molds/{stored.id}",
        record=f"/records/{Mold.key}/{stored.id}",
        bait=case.bait.name,
        bait_address=f"/{Bait.place}/{case.mold.bait}",
        charts=f"/book/charts?of=mold-{stored.id}",
        mold=case.mold,
        form=form,
        widgets=tuple(w for p, w in by_path.items() if p != _STOPWATCH),
        stopwatch=by_path[_STOPWATCH],
        view=tried.view,
    )
    return Show("mold/mold.html", context, status)


MOLD_PAGES = (
    Page("/molds/{id}", one_mold, ("GET", "POST")),
    Page("/molds/{id}/timed-shots/{shot}/undo", undo, ("POST",)),
)
