"""Check a thermometer: enter the readings, see what they say, keep the bias."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from pourwright.actions.check_thermometer import checked, keep_check, thermometer_named
from pourwright.base.errors import BadInput, Conflict
from pourwright.heat.thermometer_check import ThermometerAnswer
from pourwright.heat.thermometer_input import ThermometerInput
from pourwright.heat.thermometer_words import CAUTIONS
from pourwright.shop.tool import Thermometer, ThermometerKind
from pourwright.web.fill_rows import without_blank_rows
from pourwright.web.form import Typed, parsed, texts_of
from pourwright.web.form_edit import edited
from pourwright.web.names import Names
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.widget import FormView, Widget, form_view

_SHOWN = {
    ThermometerKind.PROBE: ("boiling_c", "altitude_m", "pressure_hpa", "working_c"),
    ThermometerKind.INFRARED: ("pairs", "boiling_c", "altitude_m", "pressure_hpa", "working_c"),
}
# Rows a fresh form offers: three readings are better than one.
_ROWS = {
    ThermometerKind.PROBE: {"boiling_c": 3, "pairs": 0},
    ThermometerKind.INFRARED: {"boiling_c": 1, "pairs": 3},
}
_SAVE = "save"


@dataclass(frozen=True, slots=True)
class CheckContext:
    """The form and what it says so far."""

    title: str
    gun: bool
    address: str
    back: str
    version: int
    form: FormView
    widgets: tuple[Widget, ...]
    cautions: tuple[str, ...]
    answer: ThermometerAnswer | None = None
    known: Thermometer | None = None
    conflict: str = ""


@dataclass(frozen=True, slots=True)
class _Tried:
    """What the typed readings come to."""

    answer: ThermometerAnswer | None = None
    inputs: ThermometerInput | None = None
    problems: Mapping[str, str] = field(default_factory=dict)


def check(visit: Visit) -> Show | Go:
    """Try readings, by address or form; `save` keeps the bias."""
    with visit.world.reading() as bench:
        stored, thermometer = thermometer_named(bench, visit.part("id"))
    sent = dict(visit.sent) if visit.posted else dict(visit.request.query_params)
    command = sent.pop("@do", "")
    version = visit.whole("@version") or stored.version
    sent.pop("@version", None)
    if not sent:
        return _page(visit, thermometer, _fresh(visit, thermometer), _Tried(), version)
    typed = edited(ThermometerInput, sent, command, visit.settings.system)
    tried = _try(visit, thermometer, typed)
    if command not in {"", "try", _SAVE}:
        return _page(visit, thermometer, typed, _Tried(tried.answer), version)
    if tried.inputs is None or not (visit.posted and command == _SAVE):
        status = 422 if tried.problems and command == _SAVE else 200
        return _page(visit, thermometer, typed, tried, version, status=status)
    try:
        kept = keep_check(visit.world, stored.id, tried.inputs, expected_version=version)
    except BadInput as error:
        wrong = _Tried(tried.answer, tried.inputs, {error.field: error.why})
        return _page(visit, thermometer, typed, wrong, version, status=error.http_status)
    except Conflict as error:
        return _page(
            visit, thermometer, typed, tried, stored.version, status=error.http_status,
            conflict=str(error),
        )  # fmt: skip
    return Go(f"/workplace?saved={kept.id}#r-{kept.id}")


def _fresh(visit: Visit, thermometer: Thermometer) -> dict[str, str]:
    typed = texts_of(ThermometerInput, None, visit.settings.system)
    for path, rows in _ROWS[thermometer.reads].items():
        for _ in range(rows):
            typed = edited(ThermometerInput, typed, f"add:{path}", visit.settings.system)
    return typed


def _try(visit: Visit, thermometer: Thermometer, typed: Typed) -> _Tried:
    filled, places = without_blank_rows(ThermometerInput, typed)
    found = parsed(ThermometerInput, filled, visit.settings)
    problems = found.problems
    if not problems:
        try:
            return _Tried(checked(thermometer.reads, found.record), found.record)
        except BadInput as error:
            problems = {error.field: error.why}
    return _Tried(problems={places.get(path, path): why for path, why in problems.items()})


def _page(
    visit: Visit, thermometer: Thermometer, typed: Typed, tried: _Tried, version: int, *,
    status: int = 200, conflict: str = "",
) -> Show:  # fmt: skip
    with visit.world.reading() as bench:
        form = form_view(
            ThermometerInput, typed, problems=tried.problems, settings=visit.settings,
            references=Names(bench).choices,
        )  # fmt: skip
    by_path = {w.path: w for w in form.widgets}
    context = CheckContext(
        title=f"Check: {thermometer.name}",
        gun=thermometer.reads is ThermometerKind.INFRARED,
        address=f"/thermometers/{visit.part('id')}/check",
        back="/workplace",
        version=version,
        form=form,
        widgets=tuple(by_path[p] for p in _SHOWN[thermometer.reads]),
        cautions=CAUTIONS,
        answer=tried.answer,
        known=thermometer if thermometer.bias_k is not None else None,
        conflict=conflict,
    )
    return Show("thermometer/check.html", context, status)


THERMOMETER_PAGES = (Page("/thermometers/{id}/check", check, ("GET", "POST")),)
