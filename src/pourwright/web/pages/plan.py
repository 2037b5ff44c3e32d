"""The Plan page: what you pick on one side, the batch it makes on the other, live."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.keep_record import add_record, change_record
from pourwright.actions.plan_batch import plan_batch
from pourwright.actions.port import Bench, Stored
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.base.field import fields_of
from pourwright.plan.batch_plan import BatchPlan
from pourwright.shop.draft import Draft
from pourwright.web.form import Typed, parsed, texts_of
from pourwright.web.inside_link import inside_plan_links
from pourwright.web.mold_link import mold_link
from pourwright.web.names import Names
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.plan_view import PlanView, plan_view
from pourwright.web.thumb import Thumb, planned_thumb
from pourwright.web.widget import FormView, Widget, form_view

MAIN = ("mold", "look", "count", "cup")
FIRST_COUNT = 12
TYPED = ("bait_g", "bait_ml", "cavities", "cup_ml")


@dataclass(frozen=True, slots=True)
class PlanContext:
    """A draft and the batch it makes; `refused` says why it makes none."""

    title: str
    draft_id: str
    version: int
    form: FormView
    main: tuple[Widget, ...]
    typed: tuple[Widget, ...]
    more: tuple[Widget, ...]
    drafts: tuple[Stored, ...] = ()
    result: PlanView | None = None
    refused: str = ""
    notes: tuple[str, ...] = field(default_factory=tuple)
    thumb: Thumb | None = None


@dataclass(frozen=True, slots=True)
class ResultContext:
    """Only the batch, for the live page."""

    title: str
    result: PlanView | None
    refused: str
    thumb: Thumb | None


@dataclass(frozen=True, slots=True)
class _Tried:
    plan: BatchPlan | None
    refused: str = ""
    problems: Mapping[str, str] = field(default_factory=dict)
    inside: tuple[str, ...] = ()
    mold: str = ""
    thumb: Thumb | None = None


def plan_page(visit: Visit) -> Show | Go:
    """Choose and see; save the draft or freeze the sheet."""
    with visit.world.reading() as bench:
        stored = _stored(bench, visit.request.query_params.get("draft", ""))
        if not visit.posted:
            draft = stored.noun if stored else Draft(count=FIRST_COUNT, **_one_of(bench))
            typed = texts_of(Draft, draft, visit.settings.system)
            return _page(visit, bench, stored, typed)
    return _posted(visit, stored)


def preview(visit: Visit) -> Show:
    """The batch of what is typed, without the page around it."""
    with visit.world.reading() as bench:
        tried = _try(visit, bench, dict(visit.sent))
    shown = plan_view(tried.plan, tried.inside, tried.mold) if tried.plan else None
    return Show("plan/result.html", ResultContext("Plan", shown, tried.refused, tried.thumb))


def _posted(visit: Visit, stored: Stored | None) -> Show | Go:
    typed = dict(visit.sent)
    command = typed.pop("@do", "save")
    found = parsed(Draft, typed, visit.settings, stored.noun if stored else None)
    if found.problems:
        with visit.world.reading() as bench:
            return _page(visit, bench, stored, typed, status=422)
    try:
        if command == "freeze":
            return Go(f"/sheets/{freeze_sheet(visit.world, found.record).number}")
        kept = _keep(visit, stored, found.record)
        return Go(f"/plan?draft={kept.id}")
    except PourwrightError as error:
        with visit.world.reading() as bench:
            return _page(visit, bench, stored, typed, status=error.http_status, refused=str(error))


def _keep(visit: Visit, stored: Stored | None, draft: Draft) -> Stored:
    if stored is None:
        return add_record(visit.world, draft)
    return change_record(visit.world, draft, id=stored.id, expected_version=stored.version)


def _page(
    visit: Visit, bench: Bench, stored: Stored | None, typed: Typed, *, status: int = 200,
    refused: str = "",
) -> Show:  # fmt: skip
    tried = _try(visit, bench, dict(typed))
    form = form_view(
        Draft, typed, problems=tried.problems, settings=visit.settings,
        references=Names(bench).choices,
    )  # fmt: skip
    by_path = {w.path: w for w in form.widgets}
    context = PlanContext(
        title="Plan",
        draft_id=stored.id if stored else "",
        version=stored.version if stored else 0,
        form=form,
        main=tuple(by_path[p] for p in MAIN),
        typed=tuple(by_path[p] for p in TYPED),
        more=tuple(w for p, w in by_path.items() if p not in {*MAIN, *TYPED}),
        drafts=bench.records.all(Draft.key),
        result=plan_view(tried.plan, tried.inside, tried.mold) if tried.plan else None,
        refused=refused or tried.refused,
        thumb=tried.thumb,
    )
    return Show("plan/plan.html", context, status)


def _try(visit: Visit, bench: Bench, typed: dict[str, str]) -> _Tried:
    found = parsed(Draft, typed, visit.settings)
    if found.problems:
        path, why = next(iter(found.problems.items()))
        return _Tried(None, f"{_label(path)}: {why}", found.problems)
    try:
        planned = plan_batch(bench, found.record)
        return _Tried(
            planned.plan, inside=inside_plan_links(planned, visit.settings),
            mold=mold_link(planned.fills, visit.settings),
            thumb=planned_thumb(bench, found.record),
        )  # fmt: skip
    except BadInput as error:
        return _Tried(None, f"{_label(error.field)}: {error.why}", {error.field: error.why})
    except PourwrightError as error:
        return _Tried(None, str(error))


def _label(path: str) -> str:
    return next((f.label for f in fields_of(Draft) if f.name == path), path)


def _stored(bench: Bench, draft_id: str) -> Stored | None:
    if draft_id:
        return bench.records.get(Draft.key, draft_id)
    drafts = bench.records.all(Draft.key)
    return max(drafts, key=lambda s: s.changed_at) if drafts else None


def _one_of(bench: Bench) -> dict[str, Any]:
    """The first record of each sort, to start a draft from."""
    sorts = ("mold", "cup", "look", "plastic", "microwave", "thermometer", "injector", "spoons",
             "scale")  # fmt: skip
    found: dict[str, Any] = {}
    for sort in sorts:
        stored = bench.records.all(sort)
        if stored:
            found[sort] = stored[0].id
    return found


PLAN_PAGES = (
    Page("/plan", plan_page, ("GET", "POST"), label="Plan", icon="plan"),
    Page("/plan/preview", preview, ("POST",)),
)
