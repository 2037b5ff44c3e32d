"""Listeners that start together and end together."""

from __future__ import annotations

import gc
import logging
import socket
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from threading import Event, Thread
from types import FrameType

import uvicorn
from starlette.types import ASGIApp

END_S = 3.0


@dataclass(frozen=True, slots=True)
class Listener:
    """An application on a socket that is bound already; `keys` (PEM) make it https."""

    app: ASGIApp
    listening: socket.socket
    keys: Path | None = None


def serve(
    front: Listener, beside: tuple[Listener, ...], *, closing: Event, ready: Callable[[], None]
) -> None:
    """Serve until Ctrl-C; `closing` is set at once, so that answers without an end can end.

    Raises: KeyboardInterrupt once everything has ended.
    """
    logging.getLogger("uvicorn.error").addFilter(_worth_saying)
    others = tuple(uvicorn.Server(_config(it)) for it in beside)
    for other in others:
        other.config.load()  # keys that do not fit must fail here, not in a thread
    threads = tuple(
        Thread(target=other.run, args=([it.listening],), daemon=True)
        for other, it in zip(others, beside, strict=True)
    )
    for thread in threads:
        thread.start()
    # What is loaded by now stays; swept again each time, it held up a page for a third of a second.
    gc.freeze()
    try:
        _Front(_config(front), others, closing, ready).run(sockets=[front.listening])
    finally:
        _end(others, closing)
        for thread in threads:
            thread.join(END_S)


class _Front(uvicorn.Server):
    """The listener in the main thread: it hears the signals and passes them on."""

    def __init__(
        self,
        config: uvicorn.Config,
        others: tuple[uvicorn.Server, ...],
        closing: Event,
        ready: Callable[[], None],
    ) -> None:
        super().__init__(config)
        self._others, self._closing, self._ready = others, closing, ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Begin to answer, then say so."""
        await super().startup(sockets)
        self._ready()

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        """End all listeners, open streams first."""
        _end(self._others, self._closing)
        super().handle_exit(sig, frame)


def _worth_saying(record: logging.LogRecord) -> bool:
    """A phone that sleeps never says goodbye, so that being cut off at the end is no mistake."""
    return "timeout graceful shutdown exceeded" not in str(record.msg)


def _end(servers: tuple[uvicorn.Server, ...], closing: Event) -> None:
    closing.set()
    for server in servers:
        server.should_exit = True


def _config(listener: Listener) -> uvicorn.Config:
    return uvicorn.Config(
        listener.app,
        log_level="warning",
        server_header=False,
        date_header=False,
        timeout_graceful_shutdown=1,
        lifespan="off",
        ssl_certfile=listener.keys,
    )
