"""Can a person pour what the guide asks for, read it, learn, and tap a photo by hand or by keys?"""

from __future__ import annotations

import base64
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from pourwright.color.photo.read import photo

SIZES = pytest.mark.parametrize("size", ["phone", "laptop"])
PAGES = ["/pucks", "/pucks/reading", "/photo"]
TALL = (
    "its => its.filter(e => e.offsetParent && e.getBoundingClientRect().height < 47.5)"
    ".map(e => e.outerHTML.slice(0, 90))"
)


@pytest.fixture
def taken(tmp_path: Path) -> Path:
    """The made-up photo of the worked example, as a file."""
    file = tmp_path / "photo.png"
    file.write_bytes(base64.b64decode(photo.example["photo"]))
    return file


def tap(page: Page, place: dict[str, float]) -> None:
    canvas = page.locator("#tap")
    canvas.scroll_into_view_if_needed()
    box = canvas.bounding_box()
    assert box is not None
    scale = box["width"] / int(canvas.get_attribute("width") or 1)
    canvas.click(position={"x": place["x_px"] * scale, "y": place["y_px"] * scale})


def typed_reading(page: Page, card: str, lab: tuple[float, float, float]) -> None:
    page.select_option("[name=card]", label=card)
    for name, value in zip("lab", lab, strict=True):
        page.fill(f"[name={name}]", str(value))
    page.select_option("[name=placing]", index=1)
    page.click("text=Keep the reading")
    expect(page.locator("text=Reading kept.")).to_be_visible()


def test_a_puck_is_poured_read_over_both_cards_and_learned(laptop: Page) -> None:
    laptop.goto("/pucks")
    laptop.get_by_label("I pour this: Dawn rose, 2 drops").click()
    expect(laptop.locator("text=Dawn rose, 2 drops: poured, not read yet.")).to_be_visible()
    laptop.get_by_label("Enter a reading: Dawn rose, 2 drops").click()
    typed_reading(laptop, "White card", (66, 30, 4))
    laptop.get_by_label("Enter a reading: Dawn rose, 2 drops").click()
    typed_reading(laptop, "Black card", (14, 6, 1))
    laptop.locator("text=Learn from the pucks").first.click()
    expect(laptop.locator("#h-taught")).to_be_visible(timeout=30_000)
    expect(laptop.locator("[id='m-demo-color-rose'] p").first).not_to_contain_text("ncalibrated")


@SIZES
def test_a_tapped_color_becomes_a_target_or_a_reading(
    size: str, request: pytest.FixtureRequest, taken: Path
) -> None:
    page: Page = request.getfixturevalue(size)
    page.goto("/photo")
    page.set_input_files("#photo", taken)
    page.fill("#radius", "8")
    for corner in photo.example["corners"]:
        tap(page, corner)
    page.click("#next")
    tap(page, photo.example["spots"][0])
    page.get_by_label("Left", exact=True).click()
    page.click("#read")
    expect(page.locator("#found")).to_contain_text("Nine in ten within")
    entry = page.locator("#found a", has_text="puck reading").get_attribute("href") or ""
    page.select_option("#found select", index=1)
    page.click("text=Use as target")
    page.wait_for_url("**/color?target_l=*")
    page.goto(entry)
    assert 40 < float(page.locator("[name=l]").input_value()) < 55
    assert page.locator("[name=instrument]").input_value() == "photo"


def test_the_photo_can_be_tapped_by_keys_and_taps_undone(laptop: Page, taken: Path) -> None:
    laptop.goto("/photo")
    laptop.set_input_files("#photo", taken)
    laptop.locator("#tap").focus()
    for _ in range(4):
        laptop.keyboard.press("ArrowRight")
        laptop.keyboard.press("Enter")
    expect(laptop.locator("#step")).to_contain_text("bare white card")
    laptop.click("#undo")
    expect(laptop.locator("#step")).to_contain_text("corner 4 of 4")
    expect(laptop.locator("#read")).to_be_disabled()


def test_a_photo_that_cannot_tell_is_refused_and_keeps_its_taps(laptop: Page, taken: Path) -> None:
    laptop.goto("/photo")
    laptop.set_input_files("#photo", taken)
    for x in (100, 106, 106, 100):
        tap(laptop, {"x_px": x, "y_px": 20 + (x % 7) * 9})
    laptop.click("#next")
    tap(laptop, photo.example["spots"][0])
    laptop.click("#read")
    expect(laptop.locator("#wrong")).to_contain_text("Not read.")
    expect(laptop.locator("#step")).to_contain_text("(1 so far)")


def test_a_file_that_is_no_picture_is_refused(laptop: Page, tmp_path: Path) -> None:
    file = tmp_path / "a.jpg"
    file.write_text("no picture")
    laptop.goto("/photo")
    laptop.set_input_files("#photo", file)
    expect(laptop.locator("#wrong")).to_contain_text("no picture")


@SIZES
@pytest.mark.parametrize("path", PAGES)
def test_pages_fit_and_what_is_touched_is_tall_enough(
    size: str, path: str, request: pytest.FixtureRequest, taken: Path
) -> None:
    """48 px, as the house asks of everything off the bench."""
    page: Page = request.getfixturevalue(size)
    page.goto(path)
    if path == "/photo":
        page.set_input_files("#photo", taken)
        expect(page.locator("#work")).to_be_visible()
    for details in page.locator("main details").all():
        details.locator("summary").click()
    touched = page.locator(
        "main button, main select, main input:not([type=hidden]), main a.button, main summary"
    )
    assert touched.evaluate_all(TALL) == []
    page.set_viewport_size({"width": 360, "height": 640})
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
