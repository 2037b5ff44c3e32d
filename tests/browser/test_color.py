"""Can a person meet a target, learn from pucks and read a photo?"""

from __future__ import annotations

import base64
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from pourwright.color.photo.read import photo

SIZES = pytest.mark.parametrize("size", ["phone", "laptop"])
COLOR = "/looks/demo-look-marsh/color"


@SIZES
def test_a_target_is_met_from_the_shelf(size: str, request: pytest.FixtureRequest) -> None:
    page: Page = request.getfixturevalue(size)
    page.goto(f"{COLOR}?target_l=52&target_a=-24&target_b=40")
    before = float(page.locator("[data-off]").inner_text())
    page.click("#find")
    page.locator(".recipe .use").first.click()
    expect(page.locator("#swatches")).to_have_attribute("data-turn", "1")
    assert float(page.locator("[data-off]").inner_text()) < before


@SIZES
def test_a_slider_moves_the_swatches(size: str, request: pytest.FixtureRequest) -> None:
    page: Page = request.getfixturevalue(size)
    page.goto(COLOR)
    first = page.locator(".swatch-table rect").first.get_attribute("fill")
    page.locator("[data-row='0'] input[type=range]").fill("30")
    expect(page.locator(".swatch-table rect").first).not_to_have_attribute("fill", first or "")
    assert page.locator("#amount-0").input_value() == "30"


def test_the_best_recipe_is_proven_in_the_background(laptop: Page) -> None:
    laptop.goto(f"{COLOR}?target_l=52&target_a=-24&target_b=40")
    laptop.click("#prove")
    expect(laptop.locator("#proof")).to_contain_text("the model, not", timeout=60_000)


@SIZES
def test_the_shelf_learns_from_its_pucks(size: str, request: pytest.FixtureRequest) -> None:
    page: Page = request.getfixturevalue(size)
    page.goto("/pucks")
    page.click("text=Learn from the pucks")
    expect(page.locator("#h-taught")).to_be_visible(timeout=20_000)
    expect(page.locator("text=Check pucks")).to_be_visible()


@SIZES
def test_a_photo_is_read_by_taps(size: str, request: pytest.FixtureRequest, tmp_path: Path) -> None:
    page: Page = request.getfixturevalue(size)
    example = photo.example
    file = tmp_path / "photo.png"
    file.write_bytes(base64.b64decode(example["photo"]))
    page.goto("/photo")
    page.set_input_files("#photo", file)
    page.wait_for_selector("#tap-box:not([hidden])")
    canvas = page.locator("#tap")
    wide = int(canvas.get_attribute("width") or 1)
    page.fill("#radius", str(example["spots"][0]["radius_px"]))

    def tap(place: dict[str, float]) -> None:
        canvas.scroll_into_view_if_needed()
        box = canvas.bounding_box()
        assert box is not None
        scale = box["width"] / wide
        canvas.click(position={"x": place["x_px"] * scale, "y": place["y_px"] * scale})

    for corner in example["corners"]:
        tap(corner)
    page.click("#next")
    tap(example["spots"][0])
    page.click("#read")
    expect(page.locator("#found")).to_contain_text("Nine in ten within")
    href = page.locator("#found a").first.get_attribute("href") or ""
    assert "target_l=" in href


@pytest.mark.parametrize("path", [COLOR, "/pucks", "/photo", "/reach", "/records/puck/new"])
@pytest.mark.parametrize("wide", [360, 390, 1440])
def test_pages_of_color_do_not_scroll_sideways(laptop: Page, path: str, wide: int) -> None:
    laptop.set_viewport_size({"width": wide, "height": 800})
    laptop.goto(path)
    assert laptop.evaluate("document.documentElement.scrollWidth") <= wide
