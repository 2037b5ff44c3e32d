"""Take a lot off the rack, and hang it again where that was a slip."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import urlencode

from pourwright.actions.port import Bench
from pourwright.actions.pour_standing import Standing, pour_standing
from pourwright.actions.tap_event import Tap
from pourwright.actions.tap_pour import tap_pour
from pourwright.bench.tap_body import BODIES
from pourwright.bench.tap_kind import TAKEN_BACK, TAKEN_OFF
from pourwright.web.event_id import event_id
from pourwright.web.page import Go, Page, Visit, number_in_address
from pourwright.web.rack_way import rack_way


@dataclass(frozen=True, slots=True)
class TakenOff:
    """A lot just taken off: `event` is what an undo takes back, under the id `undo_id`."""

    number: int
    title: str
    event: str
    undo_id: str


def taken_off(visit: Visit) -> Go:
    """The baits are off the rack; the same form sent twice is one event."""
    number = _sheet(visit)
    _tap(visit, number, TAKEN_OFF, {})
    return Go(_back(visit, off=str(number)))


def hung_again(visit: Visit) -> Go:
    """Take that back."""
    _tap(visit, _sheet(visit), TAKEN_BACK, {"event": event_id(dict(visit.sent).get("off", ""))})
    return Go(_back(visit))


def just_taken_off(bench: Bench, number: int, *, undo_id: str) -> TakenOff | None:
    """A sheet whose newest event took it off the rack."""
    it = pour_standing(bench, bench.sheets.get(number))
    newest = it.last(*BODIES)
    if it.standing is not Standing.OVER or newest is None or newest.kind != TAKEN_OFF:
        return None
    return TakenOff(number, it.sheet.title, newest.id, undo_id)


def _tap(visit: Visit, number: int, kind: str, body: dict[str, str]) -> None:
    key = event_id(dict(visit.sent).get("event", ""))
    now = visit.world.clock.now()
    device = str(visit.request.state.device)
    tap_pour(visit.world, number, (Tap(key, kind, now, body),), sent_at=now, by=device)


def _back(visit: Visit, **done: str) -> str:
    """The page it was pressed on."""
    sent = dict(visit.sent)
    if sent.get("back") == "rack":
        return rack_way(sent, **done)
    return f"/?{urlencode(done)}" if done else "/"


def _sheet(visit: Visit) -> int:
    return number_in_address(visit.part("number"), "number", "a sheet")


RACK_PAGES = (
    Page("/sheets/{number}/taken-off", taken_off, ("POST",)),
    Page("/sheets/{number}/hung-again", hung_again, ("POST",)),
)
