"""The color page keeps what it was given, and says in plain words what it cannot take."""

from __future__ import annotations

import re
import time

import pytest

from pourwright.shop.look import Dose, Look, LookLayer
from web.client import Client, words_in

LOOKS = ("demo-look-marsh", "demo-look-shad")
MARSH = "/looks/demo-look-marsh/color"
FORM = {
    "rows": "2", "layer": "0", "light": "D65",
    "material-0": "demo-color-moss", "measure-0": "drops", "amount-0": "6",
    "material-1": "demo-color-brown", "measure-1": "drops", "amount-1": "1",
}  # fmt: skip


@pytest.mark.parametrize("look", LOOKS)
def test_every_layer_opens(full_world, look):
    with full_world.bench() as bench:
        layers = len(bench.records.get("look", look).noun.layers)
    for layer in range(layers):
        page = Client(full_world).get(f"/looks/{look}/color?layer={layer}")
        assert page.status_code == 200
        assert "swatch-table" in page.text


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("layer", ["9", "x", "-1"])
def test_a_layer_that_is_not_there_is_refused(full_world, look, layer):
    page = Client(full_world).get(f"/looks/{look}/color?layer={layer}")
    assert page.status_code == 422
    assert "layer" in page.text


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"light": "candle"}, "Light: must be one of"),
        ({"rows": "x"}, "rows: must be a whole number"),
        ({"rows": ""}, "rows: must be a whole number"),
    ],
)
def test_what_the_form_cannot_have_sent_is_refused(full_world, change, words):
    sent = FORM | change
    answer = Client(full_world).send("/looks/demo-look-marsh/color/preview", sent)
    assert answer.status_code == 422
    assert words in answer.text


def test_a_recipe_is_not_emptied_by_a_broken_form(full_world):
    sent = FORM | {"rows": "x", "layer": "0", "@version": "1"}
    assert Client(full_world).send("/looks/demo-look-marsh/color", sent).status_code == 422
    with full_world.bench() as bench:
        assert bench.records.get("look", "demo-look-marsh").version == 1


def test_half_a_drip_is_refused_by_the_number_that_is_missing(full_world):
    sent = FORM | {
        "target_l": "52", "target_a": "-24", "target_b": "40",
        "drip_white_card": "demo-card-white", "drip_white_l": "60", "drip_white_a": "-5",
    }  # fmt: skip
    answer = Client(full_world).send("/looks/demo-look-marsh/color/cure", sent)
    assert answer.status_code == 422
    assert "Drip over white, b*: is missing" in answer.text


def test_a_look_that_is_not_there_is_said(empty_world):
    assert Client(empty_world).get("/looks/nowhere/color").status_code == 404


def test_no_dose_slips_away_behind_one_that_is_gone(full_world):
    """Rows are counted; a dose whose material is gone must not push the last one off the form."""
    doses = tuple(Dose(material=m, per_100g=2) for m in ("gone", "demo-color-moss"))
    look = Look(name="Orphan", layers=(LookLayer(share=1.0, doses=doses),))
    with full_world.bench() as bench:
        bench.records.save(Look.key, "orphan", look, expected_version=0)
        bench.commit()
    text = Client(full_world).get("/looks/orphan/color").text
    rows = int(re.findall('name="rows" id="rows" value="([0-9]+)"', text)[0])
    sent = {int(n) for n in re.findall('name="amount-([0-9]+)"', text)}
    assert sent == set(range(rows)) == {0, 1}
    assert "no longer on the shelf" in text


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"measure-1": "buckets"}, "Dose 2: must be one of drops, grams, level teaspoons"),
        ({"amount-0": "many"}, "Dose 1: must be a number"),
        ({"target_l": "900", "target_a": "0", "target_b": "0"}, "Target L*: must lie between"),
        ({"cup_g": "nan"}, "Cup (g of plastic): must lie between"),
    ],
)
def test_what_cannot_be_is_said_by_its_label(full_world, change, words):
    answer = Client(full_world).send(f"{MARSH}/preview", FORM | change)
    assert answer.status_code == 422
    assert words in words_in(answer)


def test_a_recipe_changed_meanwhile_is_not_overwritten(full_world):
    client = Client(full_world)
    mine = FORM | {"@version": "1"}
    assert client.send(MARSH, mine).status_code == 303
    assert client.send(MARSH, mine | {"amount-0": "30"}).status_code == 409
    with full_world.bench() as bench:
        assert bench.records.get(Look.key, "demo-look-marsh").noun.layers[0].doses[0].per_100g == 6


def test_a_screen_color_becomes_lab(full_world):
    """sRGB red is L* 53.24, a* 80.09, b* 67.20 (IEC 61966-2-1 primaries, D65); from memory."""
    lab = Client(full_world).get(f"{MARSH}/target?hex=%23ff0000").json()
    assert [lab[k] for k in ("lightness", "a", "b")] == pytest.approx([53.24, 80.09, 67.20], abs=1)
    assert Client(full_world).get(f"{MARSH}/target?hex=red").status_code == 422


def test_names_and_units_keep_their_letters(full_world):
    target = {"target_l": "46", "target_a": "-22", "target_b": "34"}
    words = words_in(Client(full_world).send(f"{MARSH}/recipes", FORM | target))
    assert "CIEDE2000" in words
    assert "Bog brown" in words


def test_a_changed_dose_costs_little(full_world):
    """The processor's time alone, the best of several: a stall, five times the usual and more."""
    client, taken = Client(full_world), []
    for drops in range(1, 16):
        began = time.process_time()
        answer = client.send(f"{MARSH}/preview", FORM | {"amount-0": str(drops)})
        taken.append(time.process_time() - began)
        assert answer.status_code == 200
    assert min(taken) < 0.15
