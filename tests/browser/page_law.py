"""What every page keeps to: it fits its width, is tall enough to touch, and shuts nobody out."""

from __future__ import annotations

from playwright.sync_api import Page

from browser.bench_sight import barriers

SIDEWAYS = "document.documentElement.scrollWidth > document.documentElement.clientWidth"
LOW = (
    "its => its.filter(e => e.offsetParent && e.getBoundingClientRect().height < 47.5)"
    ".map(e => e.outerHTML.slice(0, 90))"
)


def fits(page: Page, touched: str) -> None:
    """Nothing scrolls sideways; what is touched is tall enough for a thumb."""
    page.wait_for_load_state()  # without its style sheets any page is too wide
    assert not page.evaluate(SIDEWAYS), f"{page.url} scrolls sideways"
    assert page.locator(touched).evaluate_all(LOW) == []


def open_to_all(page: Page, touched: str) -> None:
    """It fits, and the accessibility checker finds nothing."""
    fits(page, touched)
    assert barriers(page) == []
