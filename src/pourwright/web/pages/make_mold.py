"""A mold for a bait: asked for, looked at, and taken along as files."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from threading import Lock

from starlette.responses import Response

from pourwright.actions.draw_mold import draw_mold
from pourwright.actions.make_mold import file_name, made, mold_body, mold_input, part_file
from pourwright.actions.port import Stored
from pourwright.actions.see_record import see_bait
from pourwright.base.errors import BadInput, NoAnswer, NotFound
from pourwright.body.body_input import BodyInput
from pourwright.body.mold.request import MoldInput, MoldWish
from pourwright.shop.mold import Bait
from pourwright.web.form import parsed, texts_of
from pourwright.web.make_mold_view import MadeView, made_view
from pourwright.web.page import Page, Show, Visit, number_in_address
from pourwright.web.portrait import Portrait, outlined
from pourwright.web.solid_bytes import sent
from pourwright.web.widget import FormView, Widget, form_view

MAIN = ("route", "material", "cavities", "shrink_share")
SEED = "seed"
MEDIA = {"stl": "model/stl", "3mf": "model/3mf"}
# One mold is cut at a time; whoever asks for it meanwhile finds it made.
_TURN = Lock()


@dataclass(frozen=True, slots=True)
class MakeMoldContext:
    """What is asked of a mold, and the mold, once somebody asked."""

    title: str
    bait: str
    back: str
    address: str
    portrait: Portrait
    form: FormView
    main: tuple[Widget, ...]
    more: tuple[Widget, ...]
    more_open: bool
    made: MadeView | None
    refused: str


@dataclass(frozen=True, slots=True)
class _Shaped:
    """A stored bait with its body."""

    stored: Stored
    bait: Bait
    body: BodyInput


@dataclass(frozen=True, slots=True)
class _Tried:
    view: MadeView | None = None
    problems: Mapping[str, str] = field(default_factory=dict)
    refused: str = ""


def make_mold(visit: Visit) -> Show:
    """The form, and the mold that the address asks for."""
    it = _shaped(visit)
    with visit.world.reading() as bench:
        outline = outlined(see_bait(bench, it.bait).outline_mm)
    typed = dict(visit.request.query_params)
    tried = _tried(visit, it) if typed else _Tried()
    form = form_view(
        MoldWish, typed or texts_of(MoldWish, MoldWish(), visit.settings.system),
        problems=tried.problems, settings=visit.settings, references=lambda _: (),
    )  # fmt: skip
    widgets = {w.path: w for w in form.widgets if w.path != SEED}
    context = MakeMoldContext(
        title=f"A mold for {it.bait.name}",
        bait=it.bait.name,
        back=f"/baits/{it.stored.id}",
        address=f"/baits/{it.stored.id}/mold",
        portrait=outline,
        form=form,
        main=tuple(widgets.pop(path) for path in MAIN),
        more=tuple(widgets.values()),
        more_open=any(w.problem for w in widgets.values()),
        made=tried.view,
        refused=tried.refused,
    )
    return Show(
        "make_mold/make_mold.html", context, 422 if tried.problems or tried.refused else 200
    )


def mold_solid(visit: Visit) -> Response:
    """The parts side by side, for the script that draws them."""
    inputs = _asked(visit, _shaped(visit))
    with _TURN:
        drawn = draw_mold(inputs)
    return sent(drawn.solid, visit.request)


def mold_file(visit: Visit) -> Response:
    """A part as a file, under a name that says what it is."""
    number, _, sort = visit.part("file").partition(".")
    part = number_in_address(number, "file", "a part")
    it = _shaped(visit)
    inputs = _asked(visit, it)
    with _TURN:
        answer = made(inputs)
    content = part_file(answer, part, sort)
    name = file_name(it.bait, answer.parts[part - 1].name, sort)
    headers = {"content-disposition": f'attachment; filename="{name}"'}
    return Response(content, media_type=MEDIA[sort], headers=headers)


def _tried(visit: Visit, it: _Shaped) -> _Tried:
    found = parsed(MoldWish, dict(visit.request.query_params), visit.settings)
    if found.problems:
        return _Tried(problems=found.problems)
    try:
        inputs = mold_input(it.body, found.record)
        with _TURN:
            answer, drawn = made(inputs), draw_mold(inputs)
    except BadInput as error:
        return _Tried(problems={error.field: error.why})
    except NoAnswer as error:
        return _Tried(refused=str(error))
    query = visit.request.url.query
    return _Tried(made_view(it.stored, inputs, answer, drawn, query, visit.settings))


def _asked(visit: Visit, it: _Shaped) -> MoldInput:
    """What the address asks for. Raises: BadInput where it does not fit."""
    found = parsed(MoldWish, dict(visit.request.query_params), visit.settings)
    for path, why in found.problems.items():
        raise BadInput(path, None, why)
    return mold_input(it.body, found.record)


def _shaped(visit: Visit) -> _Shaped:
    """The bait of the address. Raises: NotFound if it is gone, or has no shape."""
    with visit.world.reading() as bench:
        stored = bench.records.get(Bait.key, visit.part("id"))
        if stored.retired or not isinstance(stored.noun, Bait):
            raise NotFound("there is no such bait on the bench")
        return _Shaped(stored, stored.noun, mold_body(bench, stored.noun))


MAKE_MOLD_PAGES = (
    Page("/baits/{id}/mold", make_mold),
    Page("/baits/{id}/mold/solid", mold_solid),
    Page("/baits/{id}/mold/files/{file}", mold_file),
)
