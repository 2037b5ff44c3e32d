"""A real server process, with the options a person starts it with."""

from __future__ import annotations

import re
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from browser.nursery import Grown, grown

COMMAND = ("start", "--no-browser", "--port", "0")
ADDRESS = re.compile(r"http://127\.0\.0\.1:\d+")
START_S = 60
END_S = 10
MOST_SHOWN = 4000


@contextmanager
def running_bench(folder: Path, *options: str) -> Iterator[str]:
    """Serve a bench whose store lies in `folder`; gives its address.

    Raises: RuntimeError, with what the server printed last, if it does not come up, dies on the
    way, or printed a traceback.
    """
    printed = folder / "server.txt"
    printed.touch()
    server = grown((*COMMAND, "--store", str(folder / "bench.db"), *options), printed)
    try:
        yield _address(server, printed)
        _look(server, printed, "while it was in use")
    finally:
        server.end(END_S)


def _address(server: Grown, printed: Path) -> str:
    end = time.monotonic() + START_S
    while time.monotonic() < end:
        _look(server, printed, "at its start")
        found = ADDRESS.search(printed.read_text(encoding="utf-8"))
        if found:
            return found[0]
        time.sleep(0.05)
    raise RuntimeError(f"the server named no address in {START_S} s:\n{printed.read_text()}")


def _look(server: Grown, printed: Path, when: str) -> None:
    text = printed.read_text(encoding="utf-8")
    end = text[-MOST_SHOWN:]
    if not server.lives():
        raise RuntimeError(f"the server ended {when}:\n{end}")
    if "Traceback" in text:
        raise RuntimeError(f"the server failed {when}:\n{end}")
