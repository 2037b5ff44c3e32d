"""The stream of a pour: a beat a second that says how far it has come, and the laptop's time.

Server-sent events: WHATWG HTML Living Standard, section 9.2.
"""

from __future__ import annotations

import asyncio
import json
import time
from collections.abc import AsyncIterator
from threading import Event

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response, StreamingResponse
from starlette.routing import Route

from pourwright.actions.port import World
from pourwright.web.page import number_in_address

BEAT_S, LOOK_S = 1.0, 0.1
# A stream ends after so long and is asked for anew, so that a phone that was shut out is out.
LIFE_S = 60.0
RETRY_MS = 500


def stream_route(world: World, closing: Event) -> Route:
    """The address of the stream; it ends when `closing` is set or the phone has gone."""

    async def stream(request: Request) -> Response:
        number = number_in_address(request.path_params["number"], "number", "a sheet")
        code = await run_in_threadpool(_code, world, number)
        headers = {"cache-control": "no-store", "x-accel-buffering": "no"}
        return StreamingResponse(
            _beats(world, code, request, closing), media_type="text/event-stream", headers=headers
        )

    return Route("/sheets/{number}/bench/stream", stream)


async def _beats(
    world: World, code: str, request: Request, closing: Event
) -> AsyncIterator[str]:  # fmt: skip
    yield f"retry: {RETRY_MS}\n\n"
    seen, beat = -1, 0.0
    end = time.monotonic() + LIFE_S
    while not closing.is_set() and time.monotonic() < end:
        newest = await run_in_threadpool(_newest, world, code)
        if newest != seen or time.monotonic() - beat >= BEAT_S:
            seen, beat = newest, time.monotonic()
            told = {"newest": newest, "now": world.clock.moment()}
            yield f"event: beat\ndata: {json.dumps(told)}\n\n"
            if await request.is_disconnected():
                return
        for _ in range(round(BEAT_S / 2 / LOOK_S)):
            if closing.is_set():
                return
            await asyncio.sleep(LOOK_S)


def _code(world: World, number: int) -> str:
    with world.reading() as bench:
        return bench.sheets.get(number).code


def _newest(world: World, code: str) -> int:
    with world.reading() as bench:
        return bench.ledger.newest(f"lot/{code}")
