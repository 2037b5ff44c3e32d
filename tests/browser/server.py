"""A real server process, as a person starts it."""

from __future__ import annotations

import re
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

COMMAND = (sys.executable, "-m", "pourwright.cli.main", "start", "--no-browser", "--port", "0")
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
    with printed.open("w", encoding="utf-8") as out:
        server = subprocess.Popen(
            [*COMMAND, "--store", str(folder / "bench.db"), *options],
            stdin=subprocess.DEVNULL,
            stdout=out,
            stderr=subprocess.STDOUT,
        )
    try:
        yield _address(server, printed)
        _look(server, printed, "while it was in use")
    finally:
        server.terminate()
        try:
            server.wait(END_S)
        except subprocess.TimeoutExpired:
            server.kill()
            server.wait()


def _address(server: subprocess.Popen[bytes], printed: Path) -> str:
    end = time.monotonic() + START_S
    while time.monotonic() < end:
        _look(server, printed, "at its start")
        found = ADDRESS.search(printed.read_text(encoding="utf-8"))
        if found:
            return found[0]
        time.sleep(0.05)
    raise RuntimeError(f"the server named no address in {START_S} s:\n{printed.read_text()}")


def _look(server: subprocess.Popen[bytes], printed: Path, when: str) -> None:
    text = printed.read_text(encoding="utf-8")
    end = text[-MOST_SHOWN:]
    if server.poll() is not None:
        raise RuntimeError(f"the server ended {when} with {server.returncode}:\n{end}")
    if "Traceback" in text:
        raise RuntimeError(f"the server failed {when}:\n{end}")
