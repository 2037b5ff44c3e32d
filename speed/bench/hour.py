"""What page and server hold after an hour of a pour, beside what they held in its first minute."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import CDPSession

from browser.pour_hand import ASK, Hand
from browser.pour_kitchen import TWO_CUPS
from speed.bench.place import Place, opened, phone, place

HOUR_S, BEATS, LOOK_AGAIN_S = 3600.0, 3600, 15.0
BEAT_S = 0.02
KINDS = {"JSHeapUsedSize": "heap", "Nodes": "nodes", "JSEventListeners": "listeners"}


@dataclass(frozen=True)
class Held:
    """Bytes of the page's heap after a collection, its nodes and listeners, the server's bytes."""

    heap: float
    nodes: float
    listeners: float
    server: float


@dataclass
class Hour:
    """Two looks, and what came between them."""

    looks: list[Held] = field(default_factory=list)
    taps: int = 0
    states: int = 0
    beats: int = 0


def hour() -> Hour:
    """A whole pour by touch, then a wait to the full hour, at fifty beats a second."""
    found = Hour()
    with place(TWO_CUPS, beat_s=BEAT_S) as it, phone() as page:
        page.on("request", lambda asked: _count(found, asked.url))
        page.add_init_script(COUNTS_BEATS)
        opened(page, it)
        shots = {c.number: c.shot_g for c in it.player.guide().told.setup.cups}
        hand = Hand(page, it.server, it.kitchen, shots, {"Good": 20})
        session = page.context.new_cdp_session(page)
        session.send("Performance.enable")
        hand.play_to("Oven started")
        found.looks.append(_held(session, it))
        hand.play_to("See the lot")
        while it.server.ahead_s < HOUR_S or page.evaluate("window.beats") < BEATS:
            it.server.pass_s(LOOK_AGAIN_S)
            page.evaluate(ASK)
            page.wait_for_timeout(200)
        found.looks.append(_held(session, it))
        found.taps, found.beats = len(hand.made), page.evaluate("window.beats")
    return found


COUNTS_BEATS = """
  window.beats = 0;
  const plain = EventSource.prototype.addEventListener;
  EventSource.prototype.addEventListener = function (name, ...rest) {
    if (name === 'beat') plain.call(this, name, () => { window.beats += 1; });
    return plain.call(this, name, ...rest);
  };
"""


def _count(found: Hour, url: str) -> None:
    found.states += url.endswith("/state")


def _held(session: CDPSession, it: Place) -> Held:
    session.send("HeapProfiler.collectGarbage")
    told = {m["name"]: m["value"] for m in session.send("Performance.getMetrics")["metrics"]}
    values = {ours: told[theirs] for theirs, ours in KINDS.items()}
    return Held(server=_resident(it.server.pid), **values)


def _resident(pid: int) -> float:
    """Bytes of resident memory (Linux)."""
    lines = Path(f"/proc/{pid}/status").read_text(encoding="ascii").splitlines()
    return 1024.0 * int(next(x for x in lines if x.startswith("VmRSS")).split()[1])
