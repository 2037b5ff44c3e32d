"""Can a person do the job: plan, freeze, print, enter what came out, pour again?"""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest
from playwright.sync_api import Page

ENTRIES = {"shots": "8", "good": "25", "flash": "2", "short": "1", "minutes": "44"}
PAGES = (
    "/",
    "/plan",
    "/looks",
    "/baits",
    "/shelf",
    "/book",
    "/book/charts",
    "/exchange",
    "/workplace",
    "/sheets/1",
    "/lots/1",
)


def fits(page: Page) -> None:
    wide, room = page.evaluate(
        "[document.documentElement.scrollWidth, document.documentElement.clientWidth]"
    )
    assert wide <= room, f"{page.url} scrolls sideways: {wide} > {room}"


def plan_to_lot(page: Page, folder: Path) -> None:
    page.goto("/plan")
    page.fill("[name=count]", "24")
    page.click("#plan-form button[value=freeze]:not(.first)")
    page.wait_for_url("**/sheets/*")
    number = page.url.rsplit("/", 1)[1]
    with page.expect_download() as download:
        page.click("text=Print it")
    file = folder / "sheet.pdf"
    download.value.save_as(file)
    pdf = pypdfium2.PdfDocument(file)
    assert len(pdf) == 1
    code = page.locator(".code").inner_text()
    assert code in pdf[0].get_textpage().get_text_range()
    pdf.close()
    page.click("text=Enter what came out")
    page.wait_for_url("**/lots/*")
    for name, value in ENTRIES.items():
        page.fill(f"[name={name}]", value)
    page.click("text=Keep what came out")
    page.wait_for_selector("text=Planned against actual")
    assert "10.7" in page.locator("main").inner_text()  # 3 of 28 rejected
    assert page.url.endswith(f"/lots/{number}")
    page.click("text=Pour this again")
    page.wait_for_url("**/plan?draft=*")
    assert page.locator("[name=count]").input_value() == "24"


@pytest.mark.parametrize("size", ["phone", "laptop"])
def test_from_plan_to_lot(size: str, request: pytest.FixtureRequest, tmp_path: Path) -> None:
    plan_to_lot(request.getfixturevalue(size), tmp_path)


@pytest.mark.parametrize("size", ["phone", "laptop"])
@pytest.mark.parametrize("path", PAGES)
def test_no_page_scrolls_sideways(
    size: str, path: str, request: pytest.FixtureRequest, tmp_path: Path
) -> None:
    page = request.getfixturevalue(size)
    page.goto("/book")
    if page.locator("text=No sheet is frozen yet").count():
        plan_to_lot(page, tmp_path)
    page.goto(path)
    fits(page)
    page.set_viewport_size({"width": 360, "height": 640})
    fits(page)


def test_a_changed_count_changes_the_plan_without_a_reload(laptop: Page) -> None:
    laptop.goto("/plan")
    before = laptop.locator("[data-figure=plastic_g] [data-value]").first.inner_text()
    laptop.locator("[data-figure=minutes] summary").first.click()
    laptop.fill("[name=count]", "60")
    laptop.wait_for_function(
        "was => document.querySelector('[data-figure=plastic_g] [data-value]').innerText !== was",
        arg=before,
    )
    assert laptop.locator("[data-figure=minutes]").first.get_attribute("open") is not None


def test_a_count_that_makes_no_sense_is_said_and_freezes_nothing(laptop: Page) -> None:
    laptop.goto("/book")
    sheets = laptop.locator(".book li").count()
    laptop.goto("/plan")
    laptop.fill("[name=count]", "-3")
    laptop.wait_for_selector("#plan-result .refused")
    laptop.click("#plan-form button[value=freeze]:not(.first)")
    laptop.wait_for_selector(".problems")
    assert laptop.locator("[name=count]").input_value() == "-3"
    laptop.goto("/book")
    assert laptop.locator(".book li").count() == sheets


def test_first_start_asks_five_questions_and_lands_on_a_plan(
    empty_server: str, browser: object
) -> None:
    from browser.watch import PHONE, opened  # noqa: PLC0415

    with opened(browser, empty_server, PHONE) as page:  # type: ignore[arg-type]
        page.goto("/")
        page.wait_for_url("**/welcome")
        page.click("text=Answer five questions")
        page.fill("[name=label_w]", "700")
        page.click("text=Make my bench")
        page.wait_for_url("**/plan?draft=*")
        assert page.locator("[data-figure=plastic_g]").count()
        page.click(".assumed summary")
        assert "was left out" in page.locator(".assumed").inner_text()
