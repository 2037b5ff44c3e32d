"""A bench as a real server process, whose clock a test can set ahead and which may be killed.

Run as a program it serves one store on one port, `pour_server.py STORE PORT AHEAD BEAT`: AHEAD is a
file that holds by how many seconds this laptop's clock is ahead of the machine's, BEAT the seconds
between the beats of the stream, 0 for the usual ones.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path
from threading import Event
from typing import TypeVar

from pourwright import wire
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.port import Recorded, World
from pourwright.cli.serve import Listener, serve
from pourwright.cli.start import HOME, bound
from pourwright.shop.draft import Draft
from pourwright.shop.noun import Noun
from pourwright.web.app import application
from pourwright.web.bench import stream
from pourwright.web.guard import laptop_door

START_S, END_S, LOOK_S = 60.0, 10.0, 0.05


class AheadClock:
    """The machine's clock plus what stands in a file."""

    def __init__(self, ahead: Path) -> None:
        self._ahead = ahead

    def now(self) -> str:
        """UTC to the second."""
        return self._found().strftime("%Y-%m-%dT%H:%M:%SZ")

    def moment(self) -> str:
        """UTC to the millisecond."""
        return self._found().isoformat(timespec="milliseconds").replace("+00:00", "Z")

    def _found(self) -> dt.datetime:
        ahead_s = float(self._ahead.read_text(encoding="ascii"))
        return dt.datetime.fromtimestamp(time.time() + ahead_s, dt.UTC)


class PourServer:
    """A bench of its own in a folder; it keeps store and port when it is killed and started."""

    def __init__(self, folder: Path) -> None:
        with bound(0) as free:
            self.port = int(free.getsockname()[1])
        self.store, self._ahead = folder / "bench.db", folder / "ahead.txt"
        self._printed = folder / "printed.txt"
        self._process: subprocess.Popen[bytes] | None = None
        self.ahead_s = 0.0
        self._tell_ahead()

    @property
    def address(self) -> str:
        return f"http://{HOME}:{self.port}"

    @property
    def pid(self) -> int:
        return self._running().pid

    def fill(self, nouns: dict[str, Noun], draft: Draft) -> int:
        """Put records into the store and freeze a sheet of the draft; gives its number."""
        world = self.world()
        with world.bench() as bench:
            for key, noun in nouns.items():
                bench.records.save(noun.key, key, noun, expected_version=0)
            bench.commit()
        return freeze_sheet(world, draft).number

    def world(self) -> World:
        """The store as the server sees it, by the server's clock."""
        return dataclasses.replace(wire.world(self.store), clock=AheadClock(self._ahead))

    def lot(self, sheet: int) -> tuple[Recorded, ...]:
        """Everything the ledger holds of a sheet's lot, oldest first."""
        with self.world().bench() as bench:
            return bench.ledger.of(f"lot/{bench.sheets.get(sheet).code}")

    def now(self) -> float:
        """The laptop's clock, in seconds."""
        return time.time() + self.ahead_s

    def pass_s(self, seconds: float) -> None:
        """So much time passes at the laptop at once."""
        self.ahead_s += seconds
        self._tell_ahead()

    def start(self, beat_s: float = 0.0) -> None:
        """Serve; comes back once it answers."""
        given = (self.store, self.port, self._ahead, beat_s)
        command = [sys.executable, __file__, *map(str, given)]
        with self._printed.open("a", encoding="utf-8") as out:
            self._process = subprocess.Popen(
                command, stdin=subprocess.DEVNULL, stdout=out, stderr=subprocess.STDOUT
            )
        end = time.monotonic() + START_S
        while not self._answers():
            if self._process.poll() is not None or time.monotonic() > end:
                raise RuntimeError(f"the server did not come up:\n{self.printed()}")
            time.sleep(LOOK_S)

    def kill(self) -> None:
        """End it in the middle of whatever it does; nothing is put away."""
        process = self._running()
        process.kill()
        process.wait(END_S)

    def hold(self) -> None:
        """It hangs: connections stay, nothing is answered."""
        self._running().send_signal(signal.SIGSTOP)

    def let_go(self) -> None:
        self._running().send_signal(signal.SIGCONT)

    def printed(self) -> str:
        return self._printed.read_text(encoding="utf-8")

    def _running(self) -> subprocess.Popen[bytes]:
        if self._process is None:
            raise RuntimeError("the server was never started")
        return self._process

    def _answers(self) -> bool:
        try:
            with socket.create_connection((HOME, self.port), timeout=1):
                return True
        except OSError:
            return False

    def _tell_ahead(self) -> None:
        new = self._ahead.with_suffix(".new")
        new.write_text(f"{self.ahead_s:.3f}", encoding="ascii")
        new.replace(self._ahead)


Served = TypeVar("Served", bound=PourServer)


def pour_server(folder: Path) -> AbstractContextManager[PourServer]:
    """A server that is not started yet; see `serving`."""
    return serving(PourServer(folder))


@contextmanager
def serving(server: Served) -> Iterator[Served]:
    """That server, killed at the end. Raises: RuntimeError if it ever printed a traceback."""
    try:
        yield server
    finally:
        server.let_go()
        server.kill()
    if "Traceback" in server.printed():
        raise RuntimeError(f"the server failed:\n{server.printed()[-4000:]}")


def main(store: str, port: str, ahead: str, beat_s: str) -> None:
    """Serve until it is ended."""
    if float(beat_s):
        stream.BEAT_S, stream.LOOK_S = float(beat_s), float(beat_s) / 4
    world = dataclasses.replace(wire.world(Path(store)), clock=AheadClock(Path(ahead)))
    closing = Event()
    app = application(world, laptop_door(int(port)), closing)
    with bound(int(port)) as listening:
        serve(Listener(app, listening), (), closing=closing, ready=lambda: None)


if __name__ == "__main__":
    main(*sys.argv[1:])
