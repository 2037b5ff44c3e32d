"""A process that has loaded everything already, out of which servers grow.

Loading takes seconds, and every module of browser tests wants a server of its own. That the command
starts by itself as well is for the tests of the command.
"""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from contextlib import suppress
from functools import cache
from pathlib import Path

PROGRAM = Path(__file__).with_name("grow_servers.py")
LOOK_S = 0.02


class Grown:
    """A server that grew in the nursery."""

    def __init__(self, pid: int) -> None:
        self._pid = pid

    def lives(self) -> bool:
        """Whether it has not ended."""
        try:
            os.kill(self._pid, 0)
        except ProcessLookupError:
            return False
        return True

    def end(self, within_s: float) -> None:
        """Ask it to end; it is killed where it does not in that time."""
        end = time.monotonic() + within_s
        with suppress(ProcessLookupError):
            os.kill(self._pid, signal.SIGTERM)
            while self.lives() and time.monotonic() < end:
                time.sleep(LOOK_S)
            os.kill(self._pid, signal.SIGKILL)


def grown(arguments: tuple[str, ...], printed: Path) -> Grown:
    """A server that prints to that file."""
    nursery = _nursery()
    if nursery.stdin is None or nursery.stdout is None:
        raise RuntimeError("the nursery has no pipes")
    nursery.stdin.write(json.dumps([str(printed), *arguments]) + "\n")
    nursery.stdin.flush()
    return Grown(int(nursery.stdout.readline()))


@cache
def _nursery() -> subprocess.Popen[str]:
    """One for this test process; it ends with it."""
    return subprocess.Popen(
        [sys.executable, str(PROGRAM)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
