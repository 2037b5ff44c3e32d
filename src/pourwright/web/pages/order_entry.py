"""Take an order by hand or from a message, and change one: the same form for all three."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from pourwright.actions.kept_order import open_order_at
from pourwright.actions.read_message import message_read
from pourwright.actions.take_order import OrderEntry, change_order, entry_of, take_order
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.shop.message.read import MessageAnswer
from pourwright.web.event_id import event_id
from pourwright.web.form import Typed, parsed, texts_of
from pourwright.web.form_edit import edited, settled
from pourwright.web.message_ask import NO_DAY, Asked, asked_of, typed_from
from pourwright.web.message_view import Marked, marked_text
from pourwright.web.names import Names
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.today_here import day_here
from pourwright.web.widget import FormView, form_view

SAVE, READ = "save", "read"
DO, VERSION, EVENT, MESSAGE, ON_DAY = "@do", "@version", "@event", "@message", "@on_day"
PICK = "pick:"


@dataclass(frozen=True, slots=True)
class EntryContext:
    """An order being entered; `said` is its message as it was understood."""

    title: str
    address: str
    back: str
    form: FormView
    event: str
    version: int
    kept: Mapping[str, str]
    said: Marked | None
    asked: tuple[Asked, ...]
    refused: str


@dataclass(frozen=True, slots=True)
class PasteContext:
    """A message to paste."""

    title: str
    message: str
    on_day: str
    refused: str = ""


@dataclass(frozen=True, slots=True)
class _Entry:
    """What a view knows while it answers."""

    title: str
    address: str
    back: str
    typed: Typed
    event: str
    version: int = 0
    message: str = ""
    on_day: str = ""
    problems: Mapping[str, str] = field(default_factory=dict)
    refused: str = ""


def new_order(visit: Visit) -> Show | Go:
    """An order by hand."""
    entry = _Entry("Take an order", "/orders/new", "/orders", {}, "")
    if visit.posted:
        return _posted(visit, entry, dict(visit.sent))
    typed = texts_of(OrderEntry, None, visit.settings.system) | {"taken_on": _today(visit)}
    return _page(visit, replace(entry, typed=typed, event=visit.world.ids.fresh()))


def from_message(visit: Visit) -> Show | Go:
    """Paste a message; then confirm what was understood."""
    if not visit.posted:
        return Show("orders/paste.html", PasteContext("Read a message", "", _today(visit)))
    sent = dict(visit.sent)
    message = sent.pop(MESSAGE, "").replace("\r\n", "\n")
    entry = _Entry(
        "Read a message", "/orders/message", "/orders", {}, "", message=message,
        on_day=sent.pop(ON_DAY, "").strip(),
    )  # fmt: skip
    try:
        answer = _read(visit, entry)
    except BadInput as error:
        said = f"{error.field.replace('_', ' ')} {error.why}"
        shown = PasteContext(entry.title, message, entry.on_day, said)
        return Show("orders/paste.html", shown, error.http_status)
    if sent.get(DO) == READ:
        empty = texts_of(OrderEntry, None, visit.settings.system)
        typed = empty | typed_from(answer) | {"taken_on": entry.on_day, "channel": "message"}
        return _page(visit, replace(entry, typed=typed, event=visit.world.ids.fresh()))
    return _posted(visit, entry, sent)


def change(visit: Visit) -> Show | Go:
    """Change what is wanted."""
    key = visit.part("id")
    entry = _Entry("Change the order", f"/orders/{key}/change", f"/orders/{key}", {}, "")
    if visit.posted:
        return _posted(visit, entry, dict(visit.sent))
    with visit.world.reading() as bench:
        stored, order = open_order_at(bench, key)
    typed = texts_of(OrderEntry, entry_of(order), visit.settings.system)
    return _page(visit, replace(entry, typed=typed, version=stored.version))


def _posted(visit: Visit, entry: _Entry, sent: dict[str, str]) -> Show | Go:
    command = sent.pop(DO, SAVE)
    entry = replace(entry, event=sent.pop(EVENT, ""), version=visit.whole(VERSION))
    sent.pop(VERSION, None)
    if command.startswith(PICK):
        path, _, value = command.removeprefix(PICK).partition("=")
        sent[path] = value
    typed, _ = settled(OrderEntry, sent, visit.settings.system)
    entry = replace(entry, typed=edited(OrderEntry, typed, command, visit.settings.system))
    return _saved(visit, entry) if command == SAVE else _page(visit, entry)


def _saved(visit: Visit, entry: _Entry) -> Show | Go:
    found = parsed(OrderEntry, entry.typed, visit.settings)
    problems = dict(found.problems) | _open_day(visit, entry)
    if problems:
        return _page(visit, replace(entry, problems=problems), status=422)
    try:
        return Go(f"/orders/{_keep(visit, entry, found.record)}")
    except BadInput as error:
        return _page(visit, replace(entry, problems={error.field: error.why}), status=422)
    except PourwrightError as error:
        return _page(visit, replace(entry, refused=str(error)), status=error.http_status)


def _keep(visit: Visit, entry: _Entry, record: OrderEntry) -> str:
    if "id" not in visit.request.path_params:
        key = event_id(entry.event)
        return take_order(visit.world, record, message=entry.message, key=key)
    key = visit.part("id")
    change_order(visit.world, key, record, expected_version=entry.version)
    return key


def _open_day(visit: Visit, entry: _Entry) -> dict[str, str]:
    """A day that the message may name is settled by the person, or said to be none."""
    if not entry.message or entry.typed.get("due_on", "").strip() or entry.typed.get(NO_DAY):
        return {}
    due = _read(visit, entry).due
    why = "the message may name a day: tap the one it means, or “No day was meant”"
    return {"due_on": why} if due.options else {}


def _read(visit: Visit, entry: _Entry) -> MessageAnswer:
    with visit.world.reading() as bench:
        return message_read(bench, entry.message, on_day=entry.on_day)


def _page(visit: Visit, entry: _Entry, status: int = 200) -> Show:
    answer = _read(visit, entry) if entry.message else None
    with visit.world.reading() as bench:
        names = Names(bench)
        form = form_view(
            OrderEntry,
            entry.typed,
            problems=entry.problems,
            settings=visit.settings,
            references=names.choices,
        )
        asked = asked_of(answer, entry.message, entry.typed, names) if answer else ()
    kept = {MESSAGE: entry.message, ON_DAY: entry.on_day} if entry.message else {}
    context = EntryContext(
        title=entry.title,
        address=entry.address,
        back=entry.back,
        form=form,
        event=entry.event,
        version=entry.version,
        kept=kept | _out_of_sight(entry.typed),
        said=marked_text(entry.message, answer) if answer else None,
        asked=asked,
        refused=entry.refused,
    )
    return Show("orders/entry.html", context, status)


def _out_of_sight(typed: Typed) -> dict[str, str]:
    """What the form carries beside its boxes: which line of the message a row is from."""
    return {k: v for k, v in typed.items() if k.endswith(".from") or k == NO_DAY}


def _today(visit: Visit) -> str:
    return day_here(visit.world.clock.now())


ORDER_ENTRY_PAGES = (
    Page("/orders/new", new_order, ("GET", "POST")),
    Page("/orders/message", from_message, ("GET", "POST")),
    Page("/orders/{id}/change", change, ("GET", "POST")),
)
