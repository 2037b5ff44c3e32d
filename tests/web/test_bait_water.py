"""The page of a bait says what the water does with it, rigged as asked."""

from __future__ import annotations

import json
import re
from html import unescape
from urllib.parse import urlencode

import pytest

from pourwright.actions.see_swim import Back
from pourwright.base.units import System
from pourwright.body.families.paddle_tail import PaddleTail
from pourwright.body.families.stick import Stick
from pourwright.matter.water import Water
from pourwright.shop.mold import Bait
from pourwright.shop.workplace import Workplace
from web.client import Client, words_in

STICK = Stick(rings=0, sac_mm=0)
LONG_MM = STICK.length_mm
VOLUME_ML = STICK.solid().volume() / 1000
# At 20 °C: fresh 0.99821 g/mL (CRC Handbook), sea of salinity 35 1.02476 (UNESCO 1981).
FRESH_G_ML, SEA_G_ML = 0.99821, 1.02476
STEEL_G_ML = 7.85
ASKED = {
    "@units": "metric", "water": "fresh", "water_c": "20", "metal": "tungsten",
    "back": "flat: its back looks along the pull",
}  # fmt: skip


@pytest.fixture
def bench(empty_world):
    with empty_world.bench() as opened:
        for key, noun in {
            "stick": Bait(name="Stick", shape=STICK, mass_g=round(1.012 * VOLUME_ML, 3)),
            "plain": Bait(name="Plain", shape=STICK),
            "light": Bait(name="Light", shape=STICK, mass_g=round(0.99 * VOLUME_ML, 3)),
            "shad": Bait(name="Shad", shape=PaddleTail()),
            "lump": Bait(name="By weight", mass_g=9.0),
        }.items():
            opened.records.save(Bait.key, key, noun, expected_version=0)
        place = Workplace(name="Bench", units=System.METRIC, water=Water.BRACKISH, water_c=12)
        opened.records.save(Workplace.key, "workplace", place, expected_version=0)
        opened.commit()
    return Client(empty_world)


def asked(client: Client, bait: str = "stick", **more: str):
    return client.get(f"/baits/{bait}?{urlencode(ASKED | more)}")


def water_of(page) -> str:
    assert page.status_code == 200
    return words_in(page).replace("\xa0", " ").replace("\u2212", "-").partition("In the water")[2]


def figure(label: str, words: str) -> float:
    found = re.search(rf"{label} (-?[0-9.]+) ", words)
    assert found, label
    return float(found[1])


def body_of(page) -> tuple[float, float, float, float]:
    """The box of the drawn bait: left, right, top and bottom, in mm from its tie point."""
    path = re.search(r'<path class="body" d="([^"]*)"', page.text)
    assert path
    numbers = [float(n) for n in re.findall(r"-?[0-9.]+", path[1])]
    xs, ys = numbers[::2], numbers[1::2]
    return min(xs), max(xs), min(ys), max(ys)


def test_it_weighs_in_the_water_what_archimedes_says(bench):
    bare = figure("Weighs in the water", water_of(asked(bench)))
    assert bare == pytest.approx((1.012 - FRESH_G_ML) * VOLUME_ML, abs=0.03)
    hooked = figure("Weighs in the water", water_of(asked(bench, hook_g="2")))
    assert hooked - bare == pytest.approx(2 * (1 - FRESH_G_ML / STEEL_G_ML), abs=0.03)


def test_what_sinks_in_the_lake_floats_in_the_sea(bench):
    light = {"hook_g": "", "weight_g": ""}
    in_sea = water_of(asked(bench, water="sea", **light))
    assert "It floats" in in_sea
    assert figure("Rises at", in_sea) > 0
    assert "Time to 10 ft" not in in_sea
    net = figure("Weighs in the water", in_sea)
    assert net == pytest.approx((1.012 - SEA_G_ML) * VOLUME_ML, abs=0.03)
    brackish = figure("Weighs in the water", water_of(asked(bench, water="brackish", **light)))
    halfway = (1.012 - (FRESH_G_ML + SEA_G_ML) / 2) * VOLUME_ML
    assert brackish == pytest.approx(halfway, abs=0.03)
    heavy = water_of(asked(bench, hook_g="2"))
    assert "It sinks" in heavy
    speed, time = figure("Sinks at", heavy), figure(r"Time to 10 ft \(3 m\)", heavy)
    assert speed * time == pytest.approx(3.048, rel=0.05)


def test_it_begins_with_the_water_of_the_bench(bench):
    page = bench.get("/baits/shad")
    assert re.search(r'<option value="brackish" selected', page.text)
    assert re.search(r'name="water_c" value="12"', page.text)
    assert re.search(r'<option value="on its side" selected', page.text)
    assert re.search(r'<option value="flat[^"]*" selected', bench.get("/baits/plain").text)
    assert "In the water" not in bench.get("/baits/lump").text


def test_it_hangs_from_its_tie_point(bench):
    """Tied at the nose the tail is down; tied over the middle it lies; a nose weight tips it."""
    left, right, top, bottom = body_of(asked(bench, hook_g="1", hook_at_mm="60"))
    assert bottom == pytest.approx(LONG_MM, rel=0.02)
    assert top > -1
    assert right - left < 0.2 * LONG_MM
    level = {"tie_at_mm": f"{LONG_MM / 2:.1f}", "tie_up_mm": "6"}
    left, right, top, bottom = body_of(asked(bench, hook_g="1", hook_at_mm="60", **level))
    assert right - left > 0.97 * LONG_MM
    low = re.search(
        r'class="spot" cx="[-0-9.]+" cy="([-0-9.]+)"',
        asked(bench, hook_g="1", hook_at_mm="60", under_mm="5", **level).text,
    )
    assert low
    assert float(low[1]) == pytest.approx(11, abs=0.5)
    page = asked(bench, weight_g="3", weight_at_mm="0", **level)
    left, right, top, bottom = body_of(page)
    # The nose, at the left of a level bait, hangs down, so that the longer way is downward.
    assert bottom - top > 0.8 * LONG_MM
    assert "hangs nose down" in water_of(page)
    spot = re.search(r'<circle class="spot" cx="([-0-9.]+)" cy="([-0-9.]+)"', page.text)
    assert spot
    assert float(spot[2]) > 0.4 * LONG_MM
    line = re.search(r'<line class="line" x1="0.0" y1="0.0" x2="0.0" y2="(-?[0-9.]+)"', page.text)
    assert line
    assert float(line[1]) < 0


def test_a_shad_that_lay_on_its_side_is_seen_from_its_side(bench):
    """It is higher than it is wide, and its mold shows its side."""
    side, flat = (body_of(asked(bench, "shad", back=b)) for b in (Back.ACROSS, Back.UP))
    assert side[1] - side[0] > flat[1] - flat[0] + 2


@pytest.mark.parametrize(
    ("more", "words"),
    [({"hook_g": "2", "hook_at_mm": "500"}, "behind the tail"), ({"hook_g": "x"}, "number")],
)
def test_a_rig_that_does_not_fit_is_said(bench, more, words):
    page = asked(bench, **more)
    assert page.status_code == 422
    assert words in words_in(page)
    assert "Volume" in words_in(page)


def test_lead_comes_with_its_caution(bench):
    assert "Lead is poisonous" not in asked(bench, weight_g="3").text
    assert "Lead is poisonous" not in asked(bench, metal="lead").text
    assert "Lead is poisonous" in asked(bench, weight_g="3", metal="lead").text


def blends_of(page) -> dict[str, str]:
    found = re.findall(
        r'name="inputs" value="([^"]*)"><button type="submit" class="quiet">([^<]*)', page.text
    )
    return {label.partition(":")[0]: unescape(inputs) for inputs, label in found}


def test_another_density_is_one_question_away(bench):
    """Neutral with a hook: plastic and steel together weigh what the water they push aside does."""
    found = blends_of(asked(bench, hook_g="0.5"))
    assert list(found) == ["Hang still", "Float", "Sink about twice as fast"]
    target = json.loads(found["Hang still"])["target_g_ml"]
    hook_net = 0.5 * (1 - FRESH_G_ML / STEEL_G_ML)
    assert target == pytest.approx(FRESH_G_ML - hook_net / VOLUME_ML, abs=0.003)
    assert "hollow_glass" in found["Hang still"]
    assert '"salt"' in found["Sink about twice as fast"]
    answer = bench.send("/questions/blend.density", {"inputs": found["Hang still"]})
    assert answer.status_code == 200
    assert "Parts to 100 of base" in words_in(answer)
    assert "Hang still" not in blends_of(asked(bench, hook_g="20"))


def test_plain_plastic_heavier_than_the_target_wants_glass(bench):
    """Plain plastic is about 1.05 g/mL (common practice, no source): lighter takes hollow glass."""
    faster = blends_of(asked(bench, "light", hook_g="0.2"))["Sink about twice as fast"]
    assert 0.99 < json.loads(faster)["target_g_ml"] < 1.04
    assert "hollow_glass" in faster
    assert bench.send("/questions/blend.density", {"inputs": faster}).status_code == 200


def test_hook_and_weight_are_drawn_as_heavy_as_they_are(bench):
    """Balls: 2 g of steel at 7.85 g/mL are 3.93 mm in radius, of tungsten at 17.5 g/mL 3.01 mm."""
    page = asked(bench, hook_g="2", weight_g="2", weight_at_mm="20")
    radii = [float(r) for r in re.findall(r'class="spot"[^>]* r="([0-9.]+)"', page.text)]
    assert radii == pytest.approx([3.93, 3.01], abs=0.06)
