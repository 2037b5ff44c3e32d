"""A look on a page of its own, so that what the browser draws lies beside what the bench draws."""

from __future__ import annotations

import io
from collections.abc import Mapping
from urllib.parse import parse_qs, quote, unquote

import numpy as np
from PIL import Image
from playwright.sync_api import Page, Route, expect
from scipy.ndimage import maximum_filter, minimum_filter

from pourwright.actions.see_solid import drawn
from pourwright.base.draws import Array
from pourwright.body.seen_skin import eye_at, seen_skin
from pourwright.forecast.picture.picture import look_picture, scene_of
from pourwright.forecast.picture.picture_input import PictureInput
from pourwright.spectrum.color_space import lab_of, xyz_of_hex
from pourwright.spectrum.difference import delta_e00
from pourwright.web import look_optics, solid_bytes
from pourwright.web.template import environment

CANVAS = ".turn-stage canvas"
# A patch is so many pixels wide and tall, faces the eye so straight, and differs in L*, a* and b*
# by no more from what lies around it, within a share of the picture.
PATCH, FLAT, EVEN, AROUND = 4, 0.8, 8.0, 1 / 35
DRAWN_MS = 60_000
STYLES = ("type", "shell", "data", "form", "import", "look/turn")
STYLE = """h1 { height: 48px; margin: 0 } main { padding: 0 }
#wish { position: absolute; bottom: 0 }
.turn { max-width: 100% } .turn-stage > canvas { border: 0; border-radius: 0 }
.turn-stage > img { display: block; width: 100%; height: auto }"""
PAGE = """{% from "look/turn.html" import turn %}
<!doctype html><html lang="en"><head><meta charset="utf-8"><title>A look</title>
{% for it in styles %}<link rel="stylesheet" href="/static/{{ it }}.css">{% endfor %}
<style>{{ style|safe }} .turn { width: {{ wide }}px }</style>
<script type="module" src="/static/look/look.js"></script></head><body><main><h1>A look</h1>
<form id="wish"><label>Look <input name="look"></label></form>
{% call turn("/beside/optics", "A look", "us", "#wish") %}
<img src="/beside/picture.png" alt="A look in a bait" width="{{ wide }}" height="{{ high }}">
{% endcall %}</main></body></html>"""


def shown(page: Page, looks: Mapping[str, PictureInput], *, wait: bool = True) -> None:
    """Open a page with the first of those looks; `other` goes on to another."""
    first = next(iter(looks.values()))
    values = {"styles": STYLES, "style": STYLE, "wide": first.pixels, "high": first.rows()}
    text = environment().from_string(PAGE).render(values)

    def answered(route: Route) -> None:
        what, _, name = route.request.url.rsplit("/beside/")[1].partition("/")
        if what == "optics":
            sent = parse_qs(route.request.post_data or "").get("look", [next(iter(looks))])
            route.fulfill(body=optics_of(sent[0], looks[sent[0]]))
        elif what == "solid":
            route.fulfill(body=solid_bytes.packed(drawn(looks[unquote(name)].solid())))
        elif what == "picture.png":
            route.fulfill(body=look_picture(first).picture.png(), content_type="image/png")
        else:
            route.fulfill(body=text, content_type="text/html")

    page.route("**/beside/**", answered)
    page.goto("/beside/page")
    if wait:
        still(page)


def other(page: Page, name: str) -> None:
    """Go on to another of the looks, through the form beside it."""
    turn = page.locator(".turn")
    before = int(turn.get_attribute("data-looked") or 0)
    page.fill("#turn-thick", "1")
    page.fill("[name=look]", name)
    expect(turn).to_have_attribute("data-looked", str(before + 1), timeout=DRAWN_MS)
    still(page)


def optics_of(name: str, asked: PictureInput) -> bytes:
    """What the bench sends of a look."""
    words = {"solid": f"/beside/solid/{quote(name)}", "thickestMm": 12.0}
    return look_optics.packed(scene_of(asked), asked, words)


def still(page: Page) -> None:
    """Wait until the finest drawing stands."""
    expect(page.locator(".turn")).to_have_attribute("data-live", "yes", timeout=DRAWN_MS)
    expect(page.locator(CANVAS)).to_have_attribute("data-still", "yes", timeout=DRAWN_MS)


def codes(page: Page) -> Array:
    """What the canvas shows, (rows, columns, 3)."""
    shot = page.locator(CANVAS).screenshot()
    return np.asarray(Image.open(io.BytesIO(shot)).convert("RGB")).astype(float)


def lab(picture: Array) -> Array:
    """L*a*b* of screen codes."""
    share = picture / 255
    linear = np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)
    primaries = np.stack([xyz_of_hex(h) for h in ("#ff0000", "#00ff00", "#0000ff")])
    return lab_of(linear @ primaries, xyz_of_hex("#ffffff"))


def differences(asked: PictureInput, drawn_codes: Array) -> Array:
    """CIEDE2000 between browser and bench, patch by patch where the skin faces the eye."""
    bench = look_picture(asked).picture.codes.astype(float)
    if bench.shape != drawn_codes.shape:
        raise ValueError(f"{bench.shape} against {drawn_codes.shape}")
    quiet = np.logical_and(_flat(asked), _even(lab(bench)))
    mine, other, flat = (_patches(v) for v in (lab(bench), lab(drawn_codes), quiet[..., None]))
    chosen = flat.all(axis=(1, 2))
    return delta_e00(mine[chosen].mean(axis=1), other[chosen].mean(axis=1))


def _even(colors: Array) -> Array:
    """Where no crease and no mirrored window is near; on a pale bait hue tells the window."""
    near = (*[round(AROUND * colors.shape[1])] * 2, 1)
    span = maximum_filter(colors, near) - minimum_filter(colors, near)
    return np.asarray((span < EVEN).all(axis=-1))


def everywhere(asked: PictureInput, drawn_codes: Array) -> float:
    """Mean CIEDE2000 over all of the bait, its steep skin and the edges of its gloss too."""
    bench = look_picture(asked).picture.codes.astype(float)
    whole = _flat(asked, facing=0.0)
    return float(delta_e00(lab(bench[whole]), lab(drawn_codes[whole])).mean())


def _patches(picture: Array) -> Array:
    """Squares of a picture, (patches, pixels, channels)."""
    rows, columns = (n // PATCH for n in picture.shape[:2])
    held = picture[: rows * PATCH, : columns * PATCH]
    parted = held.reshape(rows, PATCH, columns, PATCH, -1).swapaxes(1, 2)
    return parted.reshape(rows * columns, PATCH * PATCH, -1)


def _flat(asked: PictureInput, facing: float = FLAT) -> Array:
    tilt, turn = np.radians(asked.eye_deg())
    eye = eye_at(asked.up(), turn_rad=float(turn), tilt_rad=float(tilt))
    skin = seen_skin(asked.solid(), eye, columns=asked.pixels, rows=asked.rows())
    found = np.zeros((skin.rows, skin.columns), bool)
    ahead = skin.normal @ skin.eye.toward
    found[skin.row, skin.column] = (skin.cover == 1) & (ahead > facing)
    return found
