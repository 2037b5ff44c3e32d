"""A real browser and a real server process, seen from a phone and from a laptop."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright

from browser.bench_sight import bench_page
from browser.bench_stand_in import StandIn, stand_in
from browser.bench_states import state, weigh
from browser.server import running_bench
from browser.watch import LAPTOP, PHONE, opened
from ready_store import demo_bench

NAMES = (
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "chrome",
    "msedge",
)
# How long a page on a busy machine may take to show what it is asked for, where no test says less.
PATIENCE_S = 20.0
ARGUMENTS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip


def browser_file() -> str | None:
    """The browser on this machine; POURWRIGHT_BROWSER names one that is not on the path."""
    named = os.environ.get("POURWRIGHT_BROWSER")
    return named or next(filter(None, map(shutil.which, NAMES)), None)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One browser for the whole run; without one, CI fails and other machines skip."""
    file = browser_file()
    if file is None:
        why = "no Chromium found: install one, or name it in POURWRIGHT_BROWSER"
        if os.environ.get("CI") == "true":
            pytest.fail(why)
        pytest.skip(why)
    expect.set_options(timeout=1e3 * PATIENCE_S)
    with sync_playwright() as play:
        driven = play.chromium.launch(executable_path=file, args=list(ARGUMENTS))
        yield driven
        driven.close()


@pytest.fixture(scope="module")
def bench_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a server on a demo bench of this module's own."""
    folder = tmp_path_factory.mktemp("demo")
    demo_bench(folder)
    with running_bench(folder, "--demo") as address:
        yield address


@pytest.fixture(scope="module")
def empty_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a server on a bench where nobody has entered anything yet."""
    with running_bench(tmp_path_factory.mktemp("empty")) as address:
        yield address


@pytest.fixture
def phone(browser: Browser, bench_server: str) -> Iterator[Page]:
    """A page of the demo bench on a phone; `phone.goto("/plan")` opens the plan."""
    with opened(browser, bench_server, PHONE, touch=True) as page:
        yield page


@pytest.fixture
def laptop(browser: Browser, bench_server: str) -> Iterator[Page]:
    """A page of the demo bench on a laptop."""
    with opened(browser, bench_server, LAPTOP) as page:
        yield page


@pytest.fixture
def server() -> Iterator[StandIn]:
    """A stand-in for the laptop that shows the bench page a step of weighing."""
    with stand_in(state(weigh())) as found:
        yield found


@pytest.fixture
def page(browser: Browser, server: StandIn) -> Iterator[Page]:
    """The bench page on a phone; a request that fails, fails the test."""
    with bench_page(browser, server) as found:
        yield found


@pytest.fixture
def faulty_page(browser: Browser, server: StandIn) -> Iterator[Page]:
    """The same, but its requests may fail."""
    with bench_page(browser, server, faults=False) as found:
        yield found
