"""The live page of a cup: what to do next, what was read, and the form for a round."""

from __future__ import annotations

import math
from collections.abc import Callable

from pourwright.actions.heat_cup import mean_unit, pour_cup, step_cup, undo_cup
from pourwright.actions.see_cup import cup_view
from pourwright.base.errors import BadInput, Conflict
from pourwright.base.units import convert
from pourwright.bench.round_entry import RoundEntry
from pourwright.web.cup_links import cup_links
from pourwright.web.cup_view import cup_context
from pourwright.web.event_id import event_id
from pourwright.web.form import parsed
from pourwright.web.page import Go, Page, Show, Visit, number_in_address

_TEMPLATE = "cup/cup.html"
_ID = "@id"
_STARTED = "@started_ago_s"
# What the calculation calls a thing, and the box it was typed into.
_BOXES = {"mass_g": "drawn_g", "for_s": "heated_s", "at_s": "heated_s"}


def cup(visit: Visit) -> Show | Go:
    """See a cup, and enter a round."""
    if visit.posted:
        return _posted(visit)
    return _page(visit, late=visit.request.query_params.get("late") == "1")


def undo(visit: Visit) -> Show | Go:
    """Take back what was entered last."""

    def deed(sent: dict[str, str], id: str) -> None:
        undo_cup(visit.world, *_where(visit), sent["event"], event_id=id)

    return _done(visit, deed)


def meant(visit: Visit) -> Show | Go:
    """Say in which unit the newest reading was meant."""

    def deed(sent: dict[str, str], id: str) -> None:
        read_c = _number(sent["read_c"])
        mean_unit(visit.world, *_where(visit), sent["event"], read_c, event_id=id)

    return _done(visit, deed)


def poured(visit: Visit) -> Show | Go:
    """Write down that the cup was poured."""

    def deed(_: dict[str, str], id: str) -> None:
        pour_cup(visit.world, *_where(visit), event_id=id)

    return _done(visit, deed)


def _posted(visit: Visit) -> Show | Go:
    sent = dict(visit.sent)
    sent_id = event_id(sent.pop(_ID, ""))
    started = sent.pop(_STARTED, "")
    if sent.pop("@do", "") == "other_unit" and sent.get("read_c", "").isdigit():
        sent["read_c"] = f"{convert(float(sent['read_c']), 'f', 'c'):.1f}"
    sent["heated_s"] = _in_seconds(sent.get("heated_s", ""))
    found = parsed(RoundEntry, sent, visit.settings)
    if found.problems:
        return _page(visit, typed=sent, problems=dict(found.problems), status=422)
    try:
        step_cup(
            visit.world, *_where(visit), found.record, event_id=sent_id,
            started_ago_s=_number(started) if started else None,
        )  # fmt: skip
    except BadInput as error:
        wrong = {_box(error.field): error.why}
        return _page(visit, typed=sent, problems=wrong, status=error.http_status)
    except Conflict as error:
        return _page(visit, typed=sent, refused=str(error), status=error.http_status)
    return Go(_address(visit) + ("?late=1" if found.record.late else ""))


def _done(visit: Visit, deed: Callable[[dict[str, str], str], None]) -> Show | Go:
    sent = dict(visit.sent)
    try:
        deed({"event": "", "read_c": ""} | sent, event_id(sent.get(_ID, "")))
    except (BadInput, Conflict) as error:
        return _page(visit, refused=str(error), status=error.http_status)
    return Go(_address(visit))


def _page(
    visit: Visit, *, typed: dict[str, str] | None = None, problems: dict[str, str] | None = None,
    refused: str = "", late: bool = False, status: int = 200,
) -> Show:  # fmt: skip
    sheet, number = _where(visit)
    with visit.world.reading() as bench:
        view = cup_view(bench, sheet, number, now=visit.world.clock.now())
        cups = cup_links(bench, view.sheet)
    context = cup_context(
        view, cups, visit.settings, id=visit.world.ids.fresh(), typed=typed, problems=problems,
        refused=refused, late=late,
    )  # fmt: skip
    return Show(_TEMPLATE, context, status)


def _where(visit: Visit) -> tuple[int, int]:
    return (
        number_in_address(visit.part("number"), "number", "a sheet"),
        number_in_address(visit.part("cup"), "cup", "a cup"),
    )


def _address(visit: Visit) -> str:
    sheet, number = _where(visit)
    return f"/sheets/{sheet}/cups/{number}"


def _box(field: str) -> str:
    last = field.rpartition(".")[2]
    return _BOXES.get(last, last)


def _in_seconds(text: str) -> str:
    """Seconds, also where they were typed as the oven shows them: 1:25."""
    minutes, colon, seconds = text.strip().partition(":")
    if colon and minutes.isdigit() and seconds.isdigit() and len(minutes) + len(seconds) < 6:
        return str(int(minutes) * 60 + int(seconds))
    return text


def _number(text: str) -> float:
    """A number a form carries out of sight. Raises: BadInput."""
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not math.isfinite(value) or abs(value) > 1e6:
        raise BadInput("read_c", text, "is not a number")
    return value


CUP_PAGES = (
    Page("/sheets/{number}/cups/{cup}", cup, ("GET", "POST")),
    Page("/sheets/{number}/cups/{cup}/undo", undo, ("POST",)),
    Page("/sheets/{number}/cups/{cup}/meant", meant, ("POST",)),
    Page("/sheets/{number}/cups/{cup}/poured", poured, ("POST",)),
)
