"""A server with a sheet to pour, someone who plays the pour up to a step, and a phone before it."""

from __future__ import annotations

import dataclasses
import datetime as dt
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from browser.conftest import ARGUMENTS, browser_file
from browser.pour_hand import LINKED
from browser.pour_kitchen import Kitchen, records
from browser.pour_server import PourServer, pour_server
from browser.watch import PHONE
from pour_player import PourPlayer, SetClock
from pourwright.shop.draft import Draft

SEED = 7


class LaptopClock(SetClock):
    """The server's own clock, which passes by itself and can be made to pass."""

    def __init__(self, server: PourServer) -> None:
        super().__init__()
        self._server = server

    @property
    def at(self) -> str:
        return dt.datetime.fromtimestamp(self._server.now(), dt.UTC).strftime("%Y-%m-%dT%H:%M:%SZ")

    @at.setter
    def at(self, _: str) -> None:
        pass

    def goes(self, seconds: float) -> None:
        self._server.pass_s(round(seconds))


@dataclass(frozen=True)
class Place:
    """A server, its kitchen, the number of its sheet, and a player of its pour."""

    server: PourServer
    kitchen: Kitchen
    sheet: int
    player: PourPlayer

    @property
    def address(self) -> str:
        return f"{self.server.address}/sheets/{self.sheet}/bench"


@contextmanager
def place(draft: Draft, *, beat_s: float = 0.0) -> Iterator[Place]:
    """A bench that serves a fresh sheet of that draft; `beat_s` hurries the beats of its stream."""
    with tempfile.TemporaryDirectory() as folder, pour_server(Path(folder)) as server:
        kitchen = Kitchen(SEED)
        sheet = server.fill(records(kitchen), draft)
        server.start(beat_s)
        world = dataclasses.replace(server.world(), clock=LaptopClock(server))
        yield Place(server, kitchen, sheet, PourPlayer(world, sheet, LaptopClock(server)))


@contextmanager
def phone() -> Iterator[Page]:
    """A phone with nothing open yet. Raises: RuntimeError where no browser is found."""
    file = browser_file()
    if file is None:
        raise RuntimeError("no browser found")
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=file, args=list(ARGUMENTS))
        width, height = PHONE
        context = browser.new_context(
            viewport={"width": width, "height": height}, has_touch=True, is_mobile=True
        )
        yield context.new_page()
        browser.close()


def opened(page: Page, place: Place) -> Page:
    """The bench of a place, linked."""
    page.goto(place.address)
    page.wait_for_function(LINKED)
    return page
