"""A bench that phones may come to, and the people in front of it."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Browser, Page

from browser.conftest import ARGUMENTS, browser_file
from browser.server import running_bench
from browser.watch import PHONE

MAPPED = "--host-resolver-rules=MAP *.local 127.0.0.1, MAP *.example 127.0.0.1"
CAN = """() => ({secure: isSecureContext, awake: "wakeLock" in navigator})"""


@dataclass(frozen=True)
class PhoneBench:
    """Where the laptop asks, where phones ask, and the folder of the keys."""

    here: str
    there: str
    keys: Path


@contextmanager
def phone_bench(folder: Path) -> Iterator[PhoneBench]:
    """A demo bench started with --phone."""
    with running_bench(folder, "--demo", "--phone", "--phone-port", "0") as here:
        printed = (folder / "server.txt").read_text(encoding="utf-8")
        found = re.search(r"https://\S+", printed)
        assert found, printed
        yield PhoneBench(here, found[0], folder / "phone")


@contextmanager
def started(browser: Browser, home: Path) -> Iterator[Browser]:
    """A browser of a person who lives in that folder, on a network that knows the names."""
    own = browser.browser_type.launch(
        executable_path=browser_file(),
        args=[*ARGUMENTS, MAPPED],
        env={**os.environ, "HOME": str(home), "XDG_DATA_HOME": str(home / ".local" / "share")},
    )
    try:
        yield own
    finally:
        own.close()


@contextmanager
def fresh(browser: Browser, *, passes: bool = False) -> Iterator[Page]:
    """A phone's page; `passes` is a person who goes on past the warning."""
    width, height = PHONE
    context = browser.new_context(
        viewport={"width": width, "height": height}, ignore_https_errors=passes
    )
    try:
        yield context.new_page()
    finally:
        context.close()
