"""Everything a page must not do while a person uses it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, ConsoleMessage, Page, Request, Response

PHONE = (390, 844)
LAPTOP = (1440, 900)

# The browser's own echo of a refused answer; `Watch` judges the answer itself.
ECHO = "Failed to load resource"
MAY_BE_REFUSED = frozenset({"document", "fetch", "xhr"})


@dataclass
class Watch:
    """Listens to a page from its birth; `wrongs` must be empty at the end."""

    address: str
    wrongs: list[str] = field(default_factory=list)

    def over(self, page: Page) -> Page:
        """Listen to this page, and give it back."""
        page.on("console", self._console)
        page.on("pageerror", lambda error: self.wrongs.append(f"script failed: {error}"))
        page.on("request", self._request)
        page.on("response", self._response)
        return page

    def _console(self, message: ConsoleMessage) -> None:
        if message.type == "error" and not message.text.startswith(ECHO):
            self.wrongs.append(f"console: {message.text}")

    def _request(self, request: Request) -> None:
        there = urlsplit(request.url)
        if there.scheme not in {"data", "blob"} and (
            f"{there.scheme}://{there.netloc}" != self.address
        ):
            self.wrongs.append(f"asked another host: {request.url}")

    def _response(self, response: Response) -> None:
        refused = response.request.resource_type not in MAY_BE_REFUSED and response.status >= 400
        if refused or response.status >= 500:
            self.wrongs.append(f"answered {response.status}: {response.url}")


@contextmanager
def opened(
    browser: Browser, address: str, size: tuple[int, int], *, touch: bool = False
) -> Iterator[Page]:
    """A fresh page of that size; fails if it did what `Watch` forbids."""
    width, height = size
    context = browser.new_context(
        base_url=address,
        viewport={"width": width, "height": height},
        has_touch=touch,
        is_mobile=touch,
        accept_downloads=True,
    )
    watch = Watch(address)
    try:
        yield watch.over(context.new_page())
    finally:
        context.close()
    if watch.wrongs:
        pytest.fail("\n".join(watch.wrongs))
