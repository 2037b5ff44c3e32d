"""A mold for a bait: asked for, looked at, and taken along as files."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from starlette.responses import Response

from pourwright.actions.draw_mold import draw_mold
from pourwright.actions.make_mold import file_name, made, mold_input, part_file
from pourwright.actions.port import Stored
from pourwright.actions.see_record import see_bait
from pourwright.base.errors import BadInput, NoAnswer, NotFound
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
class _Tried:
    inputs: MoldInput | None = None
    view: MadeView | None = None
    problems: Mapping[str, str] = field(default_factory=dict)
    refused: str = ""


def make_mold(visit: Visit) -> Show:
    """The form, and the mold that the address asks for."""
    stored, bait = _bait(visit)
    with visit.world.reading() as bench:
        outline = outlined(see_bait(bench, bait).outline_mm)
    typed = dict(visit.request.query_params)
    tried = _made(visit, stored) if typed else _Tried()
    form = form_view(
        MoldWish, typed or texts_of(MoldWish, MoldWish(), visit.settings.system),
        problems=tried.problems, settings=visit.settings, references=lambda _: (),
    )  # fmt: skip
    widgets = {w.path: w for w in form.widgets if w.path != SEED}
    context = MakeMoldContext(
        title=f"A mold for {bait.name}",
        bait=bait.name,
        back=f"/baits/{stored.id}",
        address=f"/baits/{stored.id}/mold",
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
    return sent(draw_mold(_asked(visit)).solid, visit.request)


def mold_file(visit: Visit) -> Response:
    """A part as a file, under a name that says what it is."""
    number, _, sort = visit.part("file").partition(".")
    part = number_in_address(number, "file", "a part")
    answer = made(_asked(visit))
    content = part_file(answer, part, sort)
    _, bait = _bait(visit)
    name = file_name(bait, answer.parts[part - 1].name, sort)
    headers = {"content-disposition": f'attachment; filename="{name}"'}
    return Response(content, media_type=MEDIA[sort], headers=headers)


def _made(visit: Visit, stored: Stored) -> _Tried:
    found = parsed(MoldWish, dict(visit.request.query_params), visit.settings)
    if found.problems:
        return _Tried(problems=found.problems)
    try:
        inputs = _inputs(visit, found.record)
        answer, drawn = made(inputs), draw_mold(inputs)
    except BadInput as error:
        return _Tried(problems={error.field: error.why})
    except NoAnswer as error:
        return _Tried(refused=str(error))
    query = visit.request.url.query
    return _Tried(inputs, made_view(stored, inputs, answer, drawn, query, visit.settings))


def _asked(visit: Visit) -> MoldInput:
    """What the address asks for. Raises: BadInput where it does not fit."""
    found = parsed(MoldWish, dict(visit.request.query_params), visit.settings)
    for path, why in found.problems.items():
        raise BadInput(path, None, why)
    return _inputs(visit, found.record)


def _inputs(visit: Visit, wish: MoldWish) -> MoldInput:
    _, bait = _bait(visit)
    with visit.world.reading() as bench:
        return mold_input(bench, bait, wish)


def _bait(visit: Visit) -> tuple[Stored, Bait]:
    with visit.world.reading() as bench:
        stored = bench.records.get(Bait.key, visit.part("id"))
    if stored.retired or not isinstance(stored.noun, Bait):
        raise NotFound("there is no such bait on the bench")
    return stored, stored.noun


MAKE_MOLD_PAGES = (
    Page("/baits/{id}/mold", make_mold),
    Page("/baits/{id}/mold/solid", mold_solid),
    Page("/baits/{id}/mold/files/{file}", mold_file),
)
