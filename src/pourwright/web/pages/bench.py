"""The Bench page: its first screen, its state, and the taps it sends."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from threading import Lock

from starlette.responses import JSONResponse, Response

from pourwright.actions.guide_pour import guide_pour
from pourwright.actions.tap_pour import Kept, tap_pour
from pourwright.base.record import to_json
from pourwright.web.bench.sent_taps import sent_taps
from pourwright.web.bench.state import State, as_json, in_page, state_of
from pourwright.web.page import Page, Show, Visit, number_in_address

WORKER = Path(__file__).parents[1] / "static" / "bench" / "worker.js"
# One at a time, since phones ask at once after each tap, and again when the answer is slow: the
# first works a new reading out, and whoever waited finds it kept.
_RECKONING = Lock()


@dataclass(frozen=True, slots=True)
class BenchContext:
    """The shell of the page; everything that changes is in the state."""

    title: str
    sheet: int
    code: str
    address: str
    state_json: str
    device: str


def bench(visit: Visit) -> Show:
    """The page with the state it opens on."""
    state = _state(visit)
    context = BenchContext(
        title=f"Bench: {state.title}",
        sheet=state.sheet,
        code=state.code,
        address=f"/sheets/{state.sheet}/bench",
        state_json=in_page(state),
        device=_device(visit),
    )
    return Show("bench/bench.html", context)


def state(visit: Visit) -> Response:
    """Where the pour stands."""
    return JSONResponse(as_json(_state(visit)))


def taps(visit: Visit) -> Response:
    """Keep what was tapped; the answer lists what became of each tap."""
    sent = sent_taps(visit.body)
    number = _sheet(visit)
    kept = tap_pour(visit.world, number, sent.taps, sent_at=sent.sent_at, by=_device(visit))
    unread = tuple(Kept(key, kept=False, words=why) for key, why in sent.refused.items())
    with visit.world.reading() as bench:
        newest = bench.ledger.newest(f"lot/{bench.sheets.get(number).code}")
    return JSONResponse({"kept": to_json((*kept, *unread)), "newest": newest})


def worker(_: Visit) -> Response:
    """The script that keeps the bench for a reload without the laptop."""
    headers = {"service-worker-allowed": "/", "cache-control": "no-cache"}
    return Response(WORKER.read_bytes(), media_type="text/javascript", headers=headers)


def _state(visit: Visit) -> State:
    with _RECKONING:
        guide = guide_pour(visit.world, _sheet(visit))
    return state_of(guide, visit.settings)


def _sheet(visit: Visit) -> int:
    return number_in_address(visit.part("number"), "number", "a sheet")


def _device(visit: Visit) -> str:
    return str(getattr(visit.request.state, "device", "laptop"))


BENCH_PAGES = (
    Page("/sheets/{number}/bench", bench),
    Page("/sheets/{number}/bench/state", state),
    Page("/sheets/{number}/bench/taps", taps, ("POST",)),
    Page("/bench-worker.js", worker),
)
