"""Can a person turn a bait in the hand, read its thickness, and pick a shape?"""

from __future__ import annotations

import io
import re

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Browser, Page, expect

from browser.bench_sight import barriers
from browser.watch import LAPTOP, PHONE, opened
from pourwright.actions.demo import demo_nouns
from pourwright.body.families import FAMILIES
from pourwright.body.measure import MeasureInput, measure
from pourwright.shop.mold import Bait
from pourwright.web.solid_scale import THICK

WORM, PADDLE = "/baits/demo-bait-worm", "/baits/demo-bait-paddle"
CANVAS = ".stage canvas"
# A machine that runs other tests beside this one takes its time to work out a solid.
BUSY_MS = 30_000
ANY = re.compile("[1-9]")
SMALL = (360, 640)
SIDEWAYS = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
LOW = (
    "its => its.filter(e => e.offsetParent && e.getBoundingClientRect().height < 47.5)"
    ".map(e => e.outerHTML.slice(0, 90))"
)
NO_WEBGL = """const plain = HTMLCanvasElement.prototype.getContext;
HTMLCanvasElement.prototype.getContext = function (kind, more) {
  return kind === "webgl2" ? null : plain.call(this, kind, more);
};"""
EXTENSION = (
    "window.loser = document.querySelector('.stage canvas').getContext('webgl2')"
    ".getExtension('WEBGL_lose_context')"
)


def drawn(page: Page, address: str) -> None:
    """Open the page of a bait and wait for its picture; nothing moves by itself there."""
    page.emulate_media(reduced_motion="reduce")
    page.goto(address)
    expect(page.locator("#solid")).to_have_attribute("data-live", "yes", timeout=BUSY_MS)
    expect(page.locator(CANVAS)).to_have_attribute("data-drawn", ANY)
    settle(page)


def settle(page: Page) -> None:
    """Two frames: what was asked for is drawn by then."""
    page.evaluate("() => new Promise(r => requestAnimationFrame(() => requestAnimationFrame(r)))")


def pixels(page: Page) -> np.ndarray:
    """What the canvas and the bench behind it show, one row a pixel line."""
    settle(page)
    shot = page.locator(CANVAS).screenshot()
    return np.asarray(Image.open(io.BytesIO(shot)).convert("RGB")).astype(int)


def bait_in(picture: np.ndarray) -> np.ndarray:
    """Where plastic is: greener than it is blue, as the bench behind it is nowhere."""
    return np.asarray(picture[:, :, 1] - picture[:, :, 2] > 16)


def hurdles(page: Page) -> list[str]:
    """What the accessibility checker finds in the page itself, the house around it left out."""
    return [found for found in barriers(page) if 'class="demo"' not in found]


def frames(page: Page) -> int:
    return int(page.locator(CANVAS).get_attribute("data-drawn") or 0)


def shape_of(key: str):
    noun = demo_nouns()[key]
    assert isinstance(noun, Bait)
    return noun.shape


def test_it_is_drawn_turns_by_keys_and_rests(laptop: Page) -> None:
    drawn(laptop, WORM)
    before = pixels(laptop)
    share = bait_in(before).mean()
    assert 0.01 < share < 0.6
    canvas = laptop.locator(CANVAS)
    canvas.focus()
    canvas.press("ArrowRight")
    canvas.press("ArrowUp")
    turned = pixels(laptop)
    assert np.abs(turned - before).max() > 60
    canvas.press("+")
    canvas.press("+")
    assert bait_in(pixels(laptop)).mean() > share * 1.2
    canvas.press("0")
    laptop.locator("[name=colors][value=plain]").focus()
    expect(laptop.locator(".probe")).to_have_js_property("hidden", value=False)
    rested = frames(laptop)
    laptop.wait_for_timeout(400)
    assert frames(laptop) == rested
    laptop.mouse.move(5, 5)


def drag(page: Page, right: float, down: float) -> None:
    box = page.locator(CANVAS).bounding_box()
    assert box
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + right, y + down, steps=4)
    page.mouse.up()
    page.mouse.move(5, 5)


def from_the_nose_mm(page: Page) -> float:
    """Where the middle of the picture meets the bait, as the page says it."""
    page.locator(CANVAS).press("Enter")
    return float(page.locator("#here").inner_text().split("(")[2].split(" ")[0])


def test_a_drag_turns_it_and_a_reset_lays_it_back(laptop: Page) -> None:
    drawn(laptop, PADDLE)
    before = pixels(laptop)
    drag(laptop, 90, 40)
    assert (bait_in(pixels(laptop)) != bait_in(before)).mean() > 0.02
    laptop.click("text=From the side")
    seen = from_the_nose_mm(laptop)
    drag(laptop, 60, 0)
    # What faces the eye follows the hand: to the right, so that the middle shows more of the nose.
    assert from_the_nose_mm(laptop) < seen - 1.5
    laptop.click("text=As it lies")
    laptop.mouse.move(5, 5)
    assert (bait_in(pixels(laptop)) != bait_in(before)).mean() < 0.005


def test_two_fingers_enlarge_it(phone: Page) -> None:
    drawn(phone, PADDLE)
    before = bait_in(pixels(phone)).mean()
    box = phone.locator(CANVAS).bounding_box()
    assert box
    session = phone.context.new_cdp_session(phone)
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    for kind, gap in (("touchStart", 30), ("touchMove", 45), ("touchMove", 60)):
        points = [{"x": x - gap, "y": y, "id": 0}, {"x": x + gap, "y": y, "id": 1}]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
    session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    assert bait_in(pixels(phone)).mean() > 1.8 * before


def test_the_thickest_place_has_the_top_color_and_is_read_in_both_units(laptop: Page) -> None:
    drawn(laptop, PADDLE)
    laptop.check("[value=thickness]", force=True)
    laptop.click("text=From above")
    picture = pixels(laptop)
    box = laptop.locator(CANVAS).bounding_box()
    ring = laptop.locator(".mark[data-mode=thickness]").bounding_box()
    assert box
    assert ring
    x, y = round(ring["x"] - box["x"]), round(ring["y"] - box["y"])
    top = [int(THICK[-1][i : i + 2], 16) for i in (1, 3, 5)]
    assert np.abs(picture[y, x] - top).max() < 40
    tail = picture[:, round(picture.shape[1] * 0.8) :]
    assert np.abs(tail - top).sum(axis=2).min() > 100
    laptop.mouse.move(ring["x"], ring["y"])
    words = laptop.locator("#here")
    expect(words).to_contain_text("thick here")
    # What a mouse only passes over is not read out; what was asked for is.
    expect(words).to_have_attribute("aria-live", "off")
    thickest = measure(MeasureInput(family=shape_of("demo-bait-paddle"))).thickest_mm
    inches, metric = (float(v.split(" ")[0]) for v in words.inner_text().split(" (")[:2])
    assert metric == pytest.approx(thickest, rel=0.05)
    assert inches == pytest.approx(metric / 25.4, abs=0.01)


def test_a_finger_touches_the_skin_that_it_sees(laptop: Page) -> None:
    """Two walls one behind the other: the nearer counts, and what is known there."""
    laptop.goto("/baits")
    found = laptop.evaluate("""async () => {
      const { touched } = await import("/static/solid/touched.js");
      const wall = z => [0, 0, z, 4, 0, z, 0, 4, z];
      const mesh = { points: [...wall(1), ...wall(2)], triangles: [0, 1, 2, 3, 4, 5],
                     thick: [9, 9, 9, 1, 5, 3], order: [1, 1, 1, 0, 0, 1] };
      const at = (x, y) => touched(mesh, { from: [x, y, 7], along: [0, 0, -1] });
      return [at(1, 2), at(3, 3)];
    }""")
    # Halfway up and a quarter along: 1 + (5 - 1) / 4 + (3 - 1) / 2.
    assert found == [{"point": [1, 2, 2], "thick": 3, "order": 0.5}, None]


def test_keys_read_the_thickness_of_a_worm(phone: Page) -> None:
    """A worm is as thick as its caliper says, wherever one looks at its body."""
    drawn(phone, WORM)
    canvas = phone.locator(CANVAS)
    canvas.press("Enter")
    expect(phone.locator("#here")).to_contain_text("thick here")
    expect(phone.locator("#here")).to_have_attribute("aria-live", "polite")
    phone.click("text=From above")
    canvas.press("Enter")
    metric = float(phone.locator("#here").inner_text().split("(")[1].split(" ")[0])
    worm = shape_of("demo-bait-worm")
    assert worm.tail_diameter_mm * 0.9 < metric < worm.diameter_mm * 1.1


def test_the_nose_fills_first(laptop: Page) -> None:
    drawn(laptop, WORM)
    laptop.check("[value=filling]", force=True)
    laptop.click("text=From above")
    expect(laptop.locator("[data-scale=filling]")).to_be_visible()
    expect(laptop.locator("[data-scale=thickness]")).to_be_hidden()
    picture = pixels(laptop)
    plastic = np.ptp(picture, axis=2) > 40
    columns = np.flatnonzero(plastic.any(axis=0))
    lightness = [picture[:, x][plastic[:, x]].sum(axis=1).max() for x in columns]
    tenth = len(lightness) // 10
    assert np.mean(lightness[:tenth]) < 0.5 * np.mean(lightness[-tenth:])


def test_a_lost_picture_comes_back(laptop: Page) -> None:
    drawn(laptop, PADDLE)
    before = pixels(laptop)
    laptop.evaluate(EXTENSION)
    laptop.evaluate("window.loser.loseContext()")
    expect(laptop.locator("#no-picture")).to_contain_text("comes back by itself")
    assert bait_in(pixels(laptop)).mean() < 0.001
    laptop.evaluate("window.loser.restoreContext()")
    expect(laptop.locator("#no-picture")).to_be_hidden()
    assert np.abs(pixels(laptop) - before).max() < 4


def test_without_webgl_the_outline_stays(browser: Browser, bench_server: str) -> None:
    with opened(browser, bench_server, PHONE) as page:
        page.add_init_script(NO_WEBGL)
        page.goto(PADDLE)
        expect(page.locator("#no-picture")).to_contain_text("no WebGL 2")
        expect(page.locator(".stage .outline")).to_be_visible()
        expect(page.locator("[name=colors]").first).to_be_hidden()
        assert hurdles(page) == []
        page.goto("/shapes")
        expect(page.locator(".shape .outline").first).to_be_visible()


def test_in_every_light_the_bait_stands_out(laptop: Page) -> None:
    drawn(laptop, PADDLE)
    picture = pixels(laptop)
    before = picture[bait_in(picture)].mean(axis=0)
    for light in ("sunlight", "dark", "auto"):
        laptop.click("#light")
        expect(laptop.locator("html")).to_have_attribute("data-light", light)
        picture = pixels(laptop)
        plastic = bait_in(picture)
        assert 0.02 < plastic.mean() < 0.6
        gap = np.abs(picture[plastic].mean(axis=0) - picture[~plastic].mean(axis=0)).max()
        assert gap > 50, light
        assert np.abs(picture[plastic].mean(axis=0) - before).max() > 8, light
        before = picture[plastic].mean(axis=0)


@pytest.mark.parametrize("size", [PHONE, SMALL, LAPTOP])
def test_it_fits_and_has_no_barriers(
    browser: Browser, bench_server: str, size: tuple[int, int]
) -> None:
    with opened(browser, bench_server, size) as page:
        drawn(page, PADDLE)
        page.check("[value=thickness]", force=True)
        page.click("#rig summary")
        assert page.evaluate(SIDEWAYS) <= 0
        assert page.locator("main button, main a.button, .modes span").evaluate_all(LOW) == []
        stage = page.locator(".stage").bounding_box()
        assert stage
        assert stage["width"] > 0.5 * min(size[0], 1216)
        assert stage["y"] + stage["height"] < size[1] or size == SMALL
        assert stage["height"] <= 0.56 * size[1] + 4
        assert hurdles(page) == []


def test_every_shape_is_drawn_and_leads_to_its_form(phone: Page) -> None:
    page = phone
    page.goto("/shapes")
    cards = page.locator(".shape")
    assert cards.count() == len(FAMILIES)
    for i in range(cards.count()):
        cards.nth(i).scroll_into_view_if_needed()
        expect(cards.nth(i).locator("canvas")).to_have_attribute("data-drawn", ANY)
        shot = cards.nth(i).locator("canvas").screenshot()
        picture = np.asarray(Image.open(io.BytesIO(shot)).convert("RGB")).astype(int)
        assert 0.01 < bait_in(picture).mean() < 0.6
    assert page.evaluate(SIDEWAYS) <= 0
    assert hurdles(page) == []
    page.click("text=Tube")
    expect(page.locator("select[name='shape.kind']")).to_have_value("tube")
    expect(page.locator("[name='shape.wall_mm']")).to_be_visible()
