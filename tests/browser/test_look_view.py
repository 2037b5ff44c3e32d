"""Can a person turn a look, tilt it and make it thinner, and is it the bench's look?"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from playwright.sync_api import Browser, Page, expect

from browser.bench_sight import barriers
from browser.look_beside import CANVAS, codes, differences, everywhere, lab, other, shown, still
from browser.watch import LAPTOP, PHONE, opened
from pourwright.base.record import from_json
from pourwright.forecast.picture.picture import look_picture
from pourwright.forecast.picture.picture_input import PictureInput

NO_WEBGL = """const plain = HTMLCanvasElement.prototype.getContext;
HTMLCanvasElement.prototype.getContext = function (kind, more) {
  return kind === "webgl2" ? null : plain.call(this, kind, more);
};"""
NO_FLOATS = """WebGL2RenderingContext.prototype.getExtension = () => null;"""
NO_PROGRAMS = """WebGL2RenderingContext.prototype.compileShader = () => {};"""
NO_SUMS = """const plain = WebGL2RenderingContext.prototype.getExtension;
WebGL2RenderingContext.prototype.getExtension = function (name) {
  return name === "EXT_float_blend" ? null : plain.call(this, name);
};"""
LOSER = (
    "window.loser = document.querySelector('.turn-stage canvas').getContext('webgl2')"
    ".getExtension('WEBGL_lose_context')"
)
LOW = (
    "its => its.filter(e => e.offsetParent && e.getBoundingClientRect().height < 47.5)"
    ".map(e => e.outerHTML.slice(0, 90))"
)
SIDEWAYS = "document.documentElement.scrollWidth - document.documentElement.clientWidth"


def drops(kind: str, color_hex: str, amount: float) -> dict[str, Any]:
    colorant = {"kind": kind, "color_hex": color_hex}
    return {"name": kind, "per_100g": amount, "drop_mass_g": 0.036, "colorant": colorant}


def grams(kind: str, color_hex: str, amount: float, **more: float) -> dict[str, Any]:
    colorant = {"kind": kind, "color_hex": color_hex, **more}
    return {"name": kind, "per_100g": amount, "measure": "grams", "colorant": colorant}


GREEN, WHITE = drops("dye", "#4f6b2a", 6), drops("opaque", "#f2f0e8", 4)
SILVER = grams("pearl", "#e8ecf0", 1.2)
TURNING = {
    "name": "film", "per_100g": 1.5, "measure": "grams",
    "colorant": {"kind": "pearl_film", "film_nm": 120},
}  # fmt: skip
COPPER = grams("flake", "#b0713a", 0.5, film_um=25, size_mm=0.8)
LAMINATE = [
    {"place": "back", "share": 0.4, "doses": [GREEN]},
    {"place": "belly", "share": 0.6, "doses": [WHITE]},
]
LOOKS: dict[str, dict[str, Any]] = {
    "thin dye": {"family": {"kind": "stick"}, "layers": [{"doses": [drops("dye", "#3a5a9b", 3)]}]},
    "laminate": {"family": {"kind": "paddle_tail"}, "layers": LAMINATE},
    "pearl, tilted": {
        "family": {"kind": "paddle_tail"},
        "layers": [{"doses": [TURNING]}],
        "sight": {"tilt_deg": 30, "turn_deg": -20},
    },
    "five layers on its side": {
        "family": {"kind": "split_tail_minnow"},
        "layers": [
            {"place": "back", "share": 0.3, "doses": [drops("dye", "#1f3b6b", 9)]},
            {"place": "body", "share": 0.2, "doses": [GREEN]},
            {"place": "belly", "share": 0.3, "doses": [SILVER]},
            {"place": "vein", "share": 0.1, "doses": [drops("dye", "#b0303a", 9)]},
            {"place": "core", "share": 0.1, "doses": [drops("opaque", "#e0d040", 4)]},
        ],
        "split": {"line": "poured by hand", "wave_mm": 3, "vein_wide_mm": 4},
        "sight": {"tilt_deg": 35, "turn_deg": 15},
    },
    "hollow, held to the light": {
        "family": {"kind": "tube", "slits": 0, "skirt_mm": 0},
        "layers": [{"doses": [GREEN]}],
        "sight": {"held": "held before the sheet", "behind": 3},
    },
    "under water": {
        "family": {"kind": "paddle_tail"},
        "layers": LAMINATE,
        "water": {"water": {"kind": "green"}},
    },
}


PIXELS = 320
HALF: dict[str, float] = {"length_mm": 60, "middle_mm": 5, "end_mm": 3.75, "rings": 0, "sac_mm": 0}
LARGE: dict[str, Any] = {
    "family": {"kind": "stick", **{name: 2 * value for name, value in HALF.items()}},
    "layers": [{"doses": [GREEN]}],
}
FLAKED = {"family": {"kind": "paddle_tail"}, "layers": [{"doses": [GREEN, COPPER]}]}


@pytest.fixture(scope="module")
def turned(browser: Browser, bench_server: str) -> Iterator[Page]:
    """A page that shows any of the looks: the card's programs take their time to build."""
    with opened(browser, bench_server, LAPTOP) as page:
        looks = {name: look(name) for name in LOOKS} | {
            "flaked": asked(FLAKED),
            "large": asked(LARGE),
        }
        shown(page, looks)
        yield page


def look(name: str) -> PictureInput:
    return asked(LOOKS[name])


def asked(body: dict[str, Any], pixels: int = PIXELS) -> PictureInput:
    return from_json(PictureInput, body | {"pixels": pixels})


# The others stand in `run.py speed picture`.
@pytest.mark.parametrize("name", ["thin dye", "laminate", "five layers on its side", "under water"])
def test_flat_patches_are_those_of_the_bench(turned: Page, name: str) -> None:
    """Within 3 CIEDE2000; a difference of 1 is just seen side by side."""
    other(turned, name)
    off = differences(look(name), codes(turned))
    assert len(off) >= 8
    assert off.max() < 3
    assert off.mean() < 0.5
    assert everywhere(look(name), codes(turned)) < 0.8


def test_a_card_that_sums_no_full_floats_draws_the_same(
    browser: Browser, bench_server: str
) -> None:
    with opened(browser, bench_server, PHONE) as page:
        page.add_init_script(NO_SUMS)
        shown(page, {"": look("thin dye")})
        assert differences(look("thin dye"), codes(page)).max() < 3


def test_half_as_thick_is_the_look_of_a_bait_half_as_large(turned: Page) -> None:
    """Light tells no sizes, only how much of its way is plastic."""
    other(turned, "large")
    small = asked({"family": {"kind": "stick", **HALF}, "layers": LARGE["layers"]})
    assert differences(small, codes(turned)).mean() > 5
    turned.fill("#turn-thick", "0.5")
    expect(turned.locator(".turn output")).to_have_text("0.24 in (6.0 mm)")
    expect(turned.locator("#turn-thick")).to_have_attribute(
        "aria-valuetext", re.compile("thickest")
    )
    still(turned)
    assert differences(small, codes(turned)).max() < 3
    turned.press("#turn-thick", "ArrowRight")
    expect(turned.locator(".turn output")).to_have_text("0.26 in (6.6 mm)")


def test_flakes_lie_and_glint_where_the_bench_has_them(turned: Page) -> None:
    of_bench = asked(FLAKED)
    other(turned, "flaked")
    bench, browser = (lab(v) for v in (picture_of(of_bench), codes(turned)))
    bait = np.abs(bench - bench[0, 0]).sum(axis=2) > 10
    assert np.corrcoef(bench[bait][:, 0], browser[bait][:, 0])[0, 1] > 0.95
    assert np.abs(bench[bait].mean(axis=0) - browser[bait].mean(axis=0)).max() < 1
    assert bench[bait][:, 0].std() == pytest.approx(browser[bait][:, 0].std(), rel=0.2)


def test_keys_and_a_drag_turn_it_and_a_key_lays_it_back(turned: Page) -> None:
    other(turned, "laminate")
    before = codes(turned)
    canvas = turned.locator(CANVAS)
    for _ in range(3):
        canvas.press("ArrowUp")
    still(turned)
    # The eye rises, and the green back comes down toward it.
    assert lowest_green(codes(turned)) > lowest_green(before) + 4
    rested = canvas.get_attribute("data-drawn")
    turned.wait_for_timeout(300)
    assert canvas.get_attribute("data-drawn") == rested
    canvas.press("0")
    turned.focus("#turn-thick")
    still(turned)
    assert np.abs(codes(turned) - before).max() < 3
    drag(turned, 0, 60)
    assert lowest_green(codes(turned)) > lowest_green(before) + 4


def test_a_pad_shows_another_side(turned: Page) -> None:
    other(turned, "laminate")
    turned.click("[data-view=back]")
    still(turned)
    off = differences(asked(LOOKS["laminate"] | {"sight": {"side": "back"}}), codes(turned))
    assert len(off) >= 8
    assert off.max() < 3
    turned.click("[data-view=flank]")


def test_the_light_of_the_page_leaves_the_look_alone_and_a_lost_picture_comes_back(
    turned: Page,
) -> None:
    other(turned, "thin dye")
    before = codes(turned)
    turned.evaluate("document.documentElement.dataset.light = 'dark'")
    assert np.abs(codes(turned) - before).max() < 3
    turned.evaluate(LOSER)
    turned.evaluate("window.loser.loseContext()")
    expect(turned.locator(".turn-trouble")).to_contain_text("comes back by itself")
    expect(turned.locator(".turn-stage img")).to_be_visible()
    turned.evaluate("window.loser.restoreContext()")
    expect(turned.locator(".turn-trouble")).to_be_hidden()
    still(turned)
    assert np.abs(codes(turned) - before).max() < 4


@pytest.mark.parametrize("script", [NO_WEBGL, NO_FLOATS, NO_PROGRAMS])
def test_without_floats_the_picture_of_the_bench_stays(
    browser: Browser, bench_server: str, script: str
) -> None:
    with opened(browser, bench_server, PHONE) as page:
        page.add_init_script(script)
        shown(page, {"": look("thin dye")}, wait=False)
        expect(page.locator(".turn-trouble")).to_contain_text("the bench’s own")
        expect(page.locator(".turn-stage img")).to_be_visible()
        expect(page.locator("#turn-thick")).to_be_hidden()
        expect(page.locator(CANVAS)).to_be_hidden()


def test_it_fits_a_small_phone_and_has_no_barriers(browser: Browser, bench_server: str) -> None:
    with opened(browser, bench_server, (360, 640), touch=True) as page:
        shown(page, {"": look("thin dye")})
        assert page.evaluate(SIDEWAYS) <= 0
        assert page.locator(".turn button, .turn input").evaluate_all(LOW) == []
        assert barriers(page) == []


def picture_of(found: PictureInput) -> Any:
    return look_picture(found).picture.codes.astype(float)


def lowest_green(picture: Any) -> int:
    """Row of the lowest green in the thick of the bait."""
    column = picture[:, round(0.3 * picture.shape[1])]
    return int(np.flatnonzero(column[:, 1] - column[:, 2] > 40)[-1])


def drag(page: Page, right: float, down: float) -> None:
    box = page.locator(CANVAS).bounding_box()
    assert box
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + right, y + down, steps=3)
    page.mouse.up()
    still(page)
