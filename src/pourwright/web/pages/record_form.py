"""The form of any record: made from its declarations, losing nothing that was typed."""

from __future__ import annotations

import inspect
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from pourwright.actions.keep_record import add_record, change_record, sort_named, users_of
from pourwright.actions.oven_learned import oven_learned
from pourwright.actions.port import Bench, Stored
from pourwright.base.errors import BadInput, Conflict
from pourwright.shop.noun import Noun
from pourwright.shop.tool import Microwave
from pourwright.web.deed import Deed, deeds_of
from pourwright.web.difference import Difference, differences
from pourwright.web.form import Typed, parsed, texts_of
from pourwright.web.form_edit import edited, settled
from pourwright.web.names import Names
from pourwright.web.oven_chart import OvenChart, oven_chart
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.portrait import NOTHING, Portrait, portrait
from pourwright.web.widget import FormView, form_view

BUTTON = "@do"
SAVE = "save"
VERSION = "@version"
KIND = ".kind"


@dataclass(frozen=True, slots=True)
class FormContext:
    """A record being entered or changed."""

    title: str
    help: str
    sort: str
    address: str
    back: str
    version: int
    form: FormView
    portrait: Portrait = NOTHING
    deeds: tuple[Deed, ...] = ()
    oven: OvenChart | None = None
    used_by: tuple[str, ...] = ()
    conflict: str = ""
    differences: tuple[Difference, ...] = ()


@dataclass(frozen=True, slots=True)
class _Draft:
    """What a view knows while it answers."""

    sort: type[Noun]
    stored: Stored | None
    typed: Typed
    version: int
    problems: Mapping[str, str] = field(default_factory=dict)
    conflict: str = ""


def new_record(visit: Visit) -> Show | Go:
    """Enter a new record."""
    return _form(visit, sort_named(visit.part("sort")), None)


def one_record(visit: Visit) -> Show | Go:
    """Look at a record, and change it."""
    sort = sort_named(visit.part("sort"))
    with visit.world.reading() as bench:
        stored = bench.records.get(sort.key, visit.part("id"))
    if stored.retired:
        return Go(f"/records/{sort.key}/{stored.id}/history")
    return _form(visit, sort, stored)


def _form(visit: Visit, sort: type[Noun], stored: Stored | None) -> Show | Go:
    if visit.posted:
        return _posted(visit, sort, stored)
    if stored is None:
        return _page(visit, _Draft(sort, None, _empty(visit, sort), 0))
    typed = texts_of(sort, stored.noun, visit.settings.system)
    return _page(visit, _Draft(sort, stored, typed, stored.version))


def _empty(visit: Visit, sort: type[Noun]) -> Typed:
    """An empty form with the kinds that the address names, as in `?shape.kind=tube`."""
    typed = texts_of(sort, None, visit.settings.system)
    named = {k: v for k, v in visit.request.query_params.items() if k in typed and k.endswith(KIND)}
    return settled(sort, typed | named, visit.settings.system)[0]


def _posted(visit: Visit, sort: type[Noun], stored: Stored | None) -> Show | Go:
    sent = dict(visit.sent)
    command = sent.pop(BUTTON, SAVE)
    sent.pop(VERSION, None)
    typed, appeared = settled(sort, sent, visit.settings.system)
    draft = _Draft(
        sort, stored, edited(sort, typed, command, visit.settings.system), visit.whole(VERSION)
    )
    if command != SAVE or appeared:
        return _page(visit, draft)
    return _saved(visit, draft)


def _saved(visit: Visit, draft: _Draft) -> Show | Go:
    found = parsed(
        draft.sort, draft.typed, visit.settings, draft.stored.noun if draft.stored else None
    )
    if found.problems:
        return _page(visit, replace(draft, problems=found.problems), status=422)
    try:
        kept = _keep(visit, draft, found.record)
    except BadInput as error:
        wrong = {error.field: error.why}
        return _page(visit, replace(draft, problems=wrong), status=error.http_status)
    except Conflict as error:
        return _page(visit, _after(draft, error), status=error.http_status)
    return Go(f"/{draft.sort.place}?saved={kept.id}#r-{kept.id}")


def _keep(visit: Visit, draft: _Draft, noun: Noun) -> Stored:
    if draft.stored is None:
        return add_record(visit.world, noun)
    return change_record(visit.world, noun, id=draft.stored.id, expected_version=draft.version)


def _after(draft: _Draft, error: Conflict) -> _Draft:
    """The draft after a conflict: saving it again goes over what is stored now."""
    version = draft.stored.version if draft.stored else draft.version
    return replace(draft, version=version, conflict=str(error))


def _page(visit: Visit, draft: _Draft, status: int = 200) -> Show:
    sort, stored = draft.sort, draft.stored
    with visit.world.reading() as bench:
        names = Names(bench)
        form = form_view(
            sort,
            draft.typed,
            problems=draft.problems,
            settings=visit.settings,
            references=names.choices,
        )
        users = users_of(bench, sort.key, stored.id) if stored else ()
        seen = portrait(bench, stored.noun, visit.settings) if stored else NOTHING
        differences = _differences(visit, draft, names) if draft.conflict else ()
        oven = _oven(visit, bench, stored) if stored else None
    base = f"/records/{sort.key}"
    context = FormContext(
        title=stored.noun.name if stored else f"Add: {sort.label.lower()}",
        help=(inspect.getdoc(sort) or "").partition("\n")[0],
        sort=sort.label,
        address=f"{base}/{stored.id}" if stored else f"{base}/new",
        back=f"/{sort.place}",
        version=draft.version,
        form=form,
        portrait=seen,
        deeds=deeds_of(stored) if stored else (),
        oven=oven,
        used_by=tuple(s.noun.name for s in users),
        conflict=draft.conflict,
        differences=differences,
    )
    return Show("record/form.html", context, status)


def _oven(visit: Visit, bench: Bench, stored: Stored) -> OvenChart | None:
    if not isinstance(stored.noun, Microwave):
        return None
    return oven_chart(oven_learned(bench, stored.id, stored.noun), visit.settings)


def _differences(visit: Visit, draft: _Draft, names: Names) -> tuple[Difference, ...]:
    """Where the stored record differs from what was typed."""
    if draft.stored is None:
        return ()
    noun = draft.stored.noun
    typed = parsed(draft.sort, draft.typed, visit.settings, noun).record
    return differences(noun, typed, visit.settings, names.name_of)


FORM_PAGES = (
    Page("/records/{sort}/new", new_record, ("GET", "POST")),
    Page("/records/{sort}/{id}", one_record, ("GET", "POST")),
)
