"""Inside the cup: a section after every burst and stir, live while the form is filled in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from pourwright.actions.see_inside import (
    MOST_BURSTS,
    USUAL,
    Inside,
    InsideEntry,
    inside_sheet,
    see_inside,
)
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.heat.scorch_words import hot_note
from pourwright.web.fill_rows import without_blank_rows
from pourwright.web.form import Typed, parsed, rows_of, texts_of
from pourwright.web.form_edit import edited
from pourwright.web.heat_scale import ScaleBar, scale_bar
from pourwright.web.page import Page, Show, Visit, number_in_address
from pourwright.web.section_view import SectionPicture, section_picture
from pourwright.web.widget import FormView, Widget, form_view

_MAIN = ("plastic_g", "cup_g", "cup_diameter_mm", "pattern", "power_w", "ends_c", "bursts")
_SHEET, _CUP = "sheet", "cup"


@dataclass(frozen=True, slots=True)
class InsideContext:
    """The form, and the pictures of what is typed; `refused` says why there are none."""

    title: str
    address: str
    form: FormView
    main: tuple[Widget, ...]
    more: tuple[Widget, ...]
    scale: ScaleBar
    about: str = ""
    back: str = ""
    inside: Inside | None = None
    picture: SectionPicture | None = None
    hot: tuple[str, ...] = ()
    refused: str = ""


@dataclass(frozen=True, slots=True)
class _Tried:
    inside: Inside | None = None
    refused: str = ""
    problems: Mapping[str, str] = field(default_factory=dict)


def inside_cup(visit: Visit) -> Show:
    """See the section of a cup: a usual one, one of a sheet, or as typed."""
    sent = dict(visit.sent) if visit.posted else dict(visit.request.query_params)
    command = sent.pop("@do", "")
    number, cup = sent.pop(_SHEET, ""), sent.pop(_CUP, "")
    fresh = texts_of(InsideEntry, _entry(visit, number, cup), visit.settings.system)
    typed = edited(InsideEntry, sent or fresh, command, visit.settings.system)
    tried = _try(visit, typed)
    form = form_view(
        InsideEntry, typed, problems=tried.problems, settings=visit.settings,
        references=lambda _: (),
    )  # fmt: skip
    by_path = {w.path: w for w in form.widgets}
    context = InsideContext(
        title="Inside the cup",
        address="/inside-the-cup",
        form=form,
        main=tuple(by_path[p] for p in _MAIN),
        more=tuple(w for p, w in by_path.items() if p not in _MAIN),
        scale=scale_bar(visit.settings.system),
        about=f"Cup {cup} of sheet {number}, by its planned rounds" if number and not sent else "",
        back=f"/sheets/{number}" if number and not sent else "/workplace",
        inside=tried.inside,
        picture=(section_picture(tried.inside.answer, visit.settings) if tried.inside else None),
        hot=hot_note(tried.inside.answer.peak_c) if tried.inside else (),
        refused=tried.refused,
    )
    return Show("heat/inside.html", context)


def _entry(visit: Visit, number: str, cup: str) -> InsideEntry:
    if not number:
        return USUAL
    with visit.world.reading() as bench:
        return inside_sheet(
            bench.sheets.get(number_in_address(number, _SHEET, "a sheet")),
            number_in_address(cup, _CUP, "a cup"),
        )


def _try(visit: Visit, typed: Typed) -> _Tried:
    filled, places = without_blank_rows(InsideEntry, _begun(typed))
    try:
        found = parsed(InsideEntry, filled, visit.settings)
        problems = found.problems
        if not problems:
            return _Tried(see_inside(found.record))
    except BadInput as error:
        problems = {error.field: error.why}
    except NoAnswer as error:
        return _Tried(refused=str(error))
    return _Tried(problems={places.get(path, path): why for path, why in problems.items()})


def _begun(typed: Typed) -> dict[str, str]:
    """The form with nothing left of the bursts that have no time yet."""
    rows = rows_of(typed, "bursts", MOST_BURSTS)
    empty = tuple(f"bursts[{i}]." for i in range(rows) if not typed.get(f"bursts[{i}].on_s"))
    return {k: "" if k.startswith(empty) else v for k, v in typed.items()}


INSIDE_PAGES = (Page("/inside-the-cup", inside_cup, ("GET", "POST")),)
