"""A small server that answers as the bench's does: State, taps, beats, and outages on demand."""

from __future__ import annotations

import asyncio
import json
import socket
import threading
import time
from collections.abc import AsyncIterator, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import uvicorn
from starlette.applications import Starlette
from starlette.datastructures import MutableHeaders
from starlette.requests import ClientDisconnect, Request
from starlette.responses import (
    FileResponse,
    HTMLResponse,
    JSONResponse,
    Response,
    StreamingResponse,
)
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from browser.bench_states import iso
from pourwright.web.guard import HEADERS
from pourwright.web.show import Settings
from pourwright.web.template import rendered

PLACE = "/sheets/3/bench"
STATIC = Path(__file__).parents[2] / "src" / "pourwright" / "web" / "static"
BEAT_S = 0.5
END_S = 5


@dataclass
class StandIn:
    """What the server knows and what was sent to it; change it at any time."""

    state: dict[str, Any]
    port: int
    taps: list[dict[str, Any]] = field(default_factory=list)
    sent_at: list[str] = field(default_factory=list)
    posts: int = 0
    # How it misbehaves: silent (takes questions, answers none), status of /taps, words of refusal.
    silent: bool = False
    status: int = 200
    stray: str = ""
    _before: dict[str, Any] = field(default_factory=dict)
    _server: uvicorn.Server | None = None
    _thread: threading.Thread | None = None

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    def show(self, state: dict[str, Any]) -> None:
        """A State newer than the one before."""
        self.state = {**state, "newest": self.state["newest"] + 1, "now": iso()}

    def go(self) -> None:
        settings = uvicorn.Config(
            self._guarded(Starlette(routes=self._routes())),
            port=self.port,
            log_level="critical",
            ws="none",
            lifespan="off",
            timeout_graceful_shutdown=0,
        )
        self._server = uvicorn.Server(settings)
        self._thread = threading.Thread(target=self._server.run, daemon=True)
        self._thread.start()
        end = time.monotonic() + END_S
        while not self._server.started and time.monotonic() < end:
            time.sleep(0.01)

    def leave(self) -> None:
        """The laptop is gone: connections break and new ones are refused."""
        assert self._server
        assert self._thread
        self._server.should_exit = self._server.force_exit = True
        self._thread.join(END_S)

    def _routes(self) -> list[Route | Mount]:
        worker = {"service-worker-allowed": "/"}
        return [
            Route(PLACE, self._page),
            Route(f"{PLACE}/state", self._state),
            Route(f"{PLACE}/taps", self._taps, methods=["POST"]),
            Route(f"{PLACE}/stream", self._stream),
            Route(
                "/bench-worker.js",
                lambda _: FileResponse(STATIC / "bench/worker.js", headers=worker),
            ),
            Route("/book", lambda _: HTMLResponse("<title>Book</title>Batch book")),
            Mount("/static", StaticFiles(directory=STATIC)),
        ]

    def _guarded(self, app: ASGIApp) -> ASGIApp:
        """With the headers of the real server, above all what the page may load and run."""

        async def answer(scope: Scope, receive: Receive, send: Send) -> None:
            async def sending(message: Message) -> None:
                if message["type"] == "http.response.start":
                    MutableHeaders(scope=message).update(HEADERS)
                await send(message)

            await self._awake()
            await app(scope, receive, sending)

        return answer

    async def _awake(self) -> None:
        while self.silent:  # noqa: ASYNC110 - another thread sets it
            await asyncio.sleep(0.05)

    async def _page(self, _: Request) -> Response:
        page = SimpleNamespace(
            title=self.state["title"], sheet=3, code=self.state["code"], address=PLACE, device="",
            state_json=json.dumps({**self.state, "now": iso()}).replace("<", "\\u003c"),
        )  # fmt: skip
        shell = SimpleNamespace(settings=Settings(demo=True))
        return HTMLResponse(rendered("bench/bench.html", {"page": page, "shell": shell}))

    async def _state(self, _: Request) -> Response:
        return JSONResponse({**self.state, "now": iso()})

    async def _taps(self, request: Request) -> Response:
        try:
            sent = await request.json()
        except ClientDisconnect:
            return Response(status_code=400)
        self.posts += 1
        if self.status != 200:
            return JSONResponse({"error": "no", "message": "not this phone"}, self.status)
        self.sent_at.append(sent["sent_at"])
        known = {tap["id"] for tap in self.taps}
        fresh = [tap for tap in sent["taps"] if tap["id"] not in known]
        if not self.stray:
            self.taps += fresh
            self.state = {**self.state, "newest": self.state["newest"] + len(fresh)}
            for tap in fresh:
                self._follow(tap)
        kept = [{"id": t["id"], "kept": not self.stray, "words": self.stray} for t in sent["taps"]]
        return JSONResponse({"kept": kept, "newest": self.state["newest"]})

    def _follow(self, tap: dict[str, Any]) -> None:
        """Go where the pad of a tap leads; a taken back tap leads back."""
        now = self.state["screen"]
        if tap["kind"] == "taken_back":
            self.state = {**self.state, "screen": self._before.get(tap["body"]["event"], now)}
            self.state["undo"] = None
            return
        self._before[tap["id"]] = now
        pads = [pad for one in now["phases"] for pad in one["pads"]]
        pads += [one["pad"] for one in self.state["wrong"]]
        same = (
            p for p in pads if p["kind"] == tap["kind"] and p["body"].items() <= tap["body"].items()
        )
        pad = next(same, {"label": tap["kind"], "next": None})
        if pad["next"]:
            now = {**self.state["ahead"][pad["next"]], "began": iso()}
        undo = {"id": tap["id"], "words": pad["label"], "at": iso()}
        self.state = {**self.state, "screen": now, "undo": undo}

    async def _stream(self, _: Request) -> Response:
        async def beats() -> AsyncIterator[str]:
            while True:
                await self._awake()
                told = {"newest": self.state["newest"], "now": iso()}
                yield f"event: beat\ndata: {json.dumps(told)}\n\n"
                await asyncio.sleep(BEAT_S)

        return StreamingResponse(beats(), media_type="text/event-stream")


def free_port() -> int:
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        return int(found.getsockname()[1])


@contextmanager
def stand_in(state: dict[str, Any]) -> Iterator[StandIn]:
    """The stand-in, there from the start; it may leave and come back at the same address."""
    server = StandIn(state, free_port())
    server.go()
    try:
        yield server
    finally:
        server.silent = False
        server.leave()
