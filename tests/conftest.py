"""What holds for every test: repeatable draws, and no browser test left out quietly."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

BROWSER_TESTS = Path(__file__).parent / "browser"

# Tests already keep every core at work: more threads a process only get in each other's way. Read
# when numpy is first imported, which is after this.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

settings.register_profile(
    "house",
    derandomize=True,
    deadline=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow],  # a busy machine must not turn a run red
)
settings.load_profile("house")


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Browser tests go last: their library keeps an event loop running in the main thread.

    The whole pours, which take longest, come first among them.
    """
    items.sort(key=lambda item: (_drives_a_browser(item), "whole_pour" not in item.path.stem))
    for item in filter(_drives_a_browser, items):
        item.add_marker(pytest.mark.browser)


def _drives_a_browser(item: pytest.Item) -> bool:
    return BROWSER_TESTS in item.path.parents


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say in plain sight what this run did not try."""
    skipped = [r for r in terminalreporter.stats.get("skipped", []) if "browser" in r.keywords]
    if skipped:
        terminalreporter.section("NOT TESTED HERE")
        terminalreporter.line(f"{len(skipped)} browser tests: {skipped[0].longrepr[2]}")
