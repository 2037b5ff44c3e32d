"""The page on which a thermometer is checked, without a browser."""

from __future__ import annotations

from urllib.parse import urlencode

import pytest

from pourwright.heat.thermometer_input import ThermometerInput
from pourwright.shop.tool import Thermometer, ThermometerKind
from pourwright.web.fill_rows import without_blank_rows
from web.client import Client, form_in, words_in

GUN = "demo-thermometer-gun"
PAGE = f"/thermometers/{GUN}/check"
# 212 °F at sea level, and a gun 9 °F under the probe: 5 K low.
READ = {
    "boiling_c[0]": "212", "altitude_m": "0",
    "pairs[0].probe_c": "345", "pairs[0].infrared_c": "336",
    "pairs[2].probe_c": "349", "pairs[2].infrared_c": "340",
}  # fmt: skip


def gun(world) -> Thermometer:
    with world.bench() as bench:
        noun = bench.records.get("thermometer", GUN).noun
    assert isinstance(noun, Thermometer)
    return noun


def add_probe(world) -> str:
    probe = Thermometer(name="Probe", reads=ThermometerKind.PROBE)
    with world.bench() as bench:
        bench.records.save("thermometer", "probe", probe, expected_version=0)
        bench.commit()
    return "/thermometers/probe/check"


def test_the_workplace_and_the_record_lead_to_the_check(full_world):
    client = Client(full_world)
    for page in ("/workplace", f"/records/thermometer/{GUN}"):
        assert f'href="{PAGE}"' in client.get(page).text
    assert "/check" not in client.get("/records/cup/demo-cup-pint").text


def test_a_fresh_page_asks_and_warns(full_world):
    page = Client(full_world).get(PAGE)
    words = words_in(page)
    assert form_in(page)["pairs#"] == "3"
    assert "What the check says" not in words
    for caution in ("metal probe in a running oven", "makes it spit", "Steam burns"):
        assert caution in words


def test_readings_are_told_at_once_and_nothing_is_kept(full_world):
    client = Client(full_world)
    answer = client.send(PAGE, form_in(client.get(PAGE)) | READ | {"@do": "try"})
    assert answer.status_code == 200
    words = words_in(answer)
    assert "It reads 5.0 K / 9.0 °F low" in words
    assert "The same with the bias taken off" in words
    assert form_in(answer)["pairs[1].probe_c"] == ""
    assert gun(full_world).bias_k is None


def test_an_address_that_holds_readings_is_answered(full_world):
    client = Client(full_world)
    typed = form_in(client.get(PAGE)) | READ
    for command in ("try", "save"):
        page = client.get(f"{PAGE}?{urlencode(typed | {'@do': command})}")
        assert "It reads 5.0 K / 9.0 °F low" in words_in(page)
    assert gun(full_world).bias_k is None


def test_the_bias_is_kept_and_shown(full_world):
    client = Client(full_world)
    answer = client.send(PAGE, form_in(client.get(PAGE)) | READ | {"@do": "save"})
    assert answer.status_code == 303
    assert gun(full_world).bias_k == pytest.approx(-4.97, abs=0.03)
    assert gun(full_world).bias_spread_k is not None
    assert "checked on 2" in words_in(client.get(PAGE))
    stored = client.send(
        f"/records/thermometer/{GUN}", form_in(client.get(f"/records/thermometer/{GUN}"))
    )
    assert stored.status_code == 303
    assert gun(full_world).bias_spread_k is not None


def test_a_slip_of_the_unit_is_asked_about_at_its_own_row(full_world):
    client = Client(full_world)
    typed = form_in(client.get(PAGE)) | READ | {"pairs[2].infrared_c": "171", "@do": "save"}
    answer = client.send(PAGE, typed)
    assert answer.status_code == 422
    words = words_in(answer)
    assert "was 171 meant in °C" in words
    assert 'href="#f-pairs-2-infrared_c"' in answer.text
    assert gun(full_world).bias_k is None


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"altitude_m": ""}, "is needed, or pressure_hpa"),
        ({"altitude_m": "50000"}, "must lie between"),
        ({"boiling_c[0]": "hot"}, "is not a number"),
        ({"pairs[0].infrared_c": ""}, "is missing: fill it in"),
        ({k: "" for k in READ if k.startswith("pairs")}, "is needed for a gun"),
        (dict.fromkeys(READ, ""), "holds no reading"),
    ],
)
def test_what_does_not_fit_is_refused_and_kept_on_the_page(full_world, change, words):
    client = Client(full_world)
    typed = form_in(client.get(PAGE)) | READ | change | {"@do": "save"}
    answer = client.send(PAGE, typed)
    assert answer.status_code == 422
    assert words in words_in(answer)
    again = form_in(answer)
    assert {k: again[k] for k in READ} == {k: typed[k] for k in READ}
    assert gun(full_world).bias_k is None


def test_a_probe_needs_only_its_pot(full_world):
    client = Client(full_world)
    page = add_probe(full_world)
    fresh = form_in(client.get(page))
    assert "pairs#" not in fresh
    assert fresh["boiling_c#"] == "3"
    told = client.send(page, fresh | {"boiling_c[1]": "214", "altitude_m": "0", "@do": "try"})
    assert "It reads 1.1 K / 2.0 °F high" in words_in(told)


def test_rows_are_added_without_a_script(full_world):
    client = Client(full_world)
    typed = form_in(client.get(PAGE)) | READ
    page = client.send(PAGE, typed | {"@do": "add:pairs"})
    more = form_in(page)
    assert "It reads 5.0 K / 9.0 °F low" in words_in(page)
    assert more["pairs#"] == "4"
    assert more["pairs[2].probe_c"] == "349"


def test_a_check_of_an_older_record_is_a_conflict_that_can_be_kept_again(full_world):
    client = Client(full_world)
    typed = form_in(client.get(PAGE)) | READ | {"@do": "save"}
    assert client.send(PAGE, typed).status_code == 303
    answer = client.send(PAGE, typed)
    assert answer.status_code == 409
    assert "Not kept" in words_in(answer)
    assert client.send(PAGE, form_in(answer) | {"@do": "save"}).status_code == 303


@pytest.mark.parametrize("key", ["nowhere", "demo-cup-pint"])
def test_what_is_no_thermometer_is_not_found(full_world, key):
    assert Client(full_world).get(f"/thermometers/{key}/check").status_code == 404


def test_markup_in_a_reading_is_shown_not_run(full_world):
    page = Client(full_world).get(f"{PAGE}?boiling_c%23=1&boiling_c%5B0%5D=%22%3E%3Cb%3E")
    assert '"><b>' not in page.text


def test_blank_rows_close_up_and_say_where_they_stood():
    typed = {"boiling_c#": "3", "boiling_c[0]": " ", "boiling_c[1]": "99", "boiling_c[2]": ""}
    typed |= {"pairs#": "11", "pairs[1].probe_c": "1", "pairs[10].probe_c": "2", "seed": "1"}
    found, places = without_blank_rows(ThermometerInput, typed)
    assert found == {
        "boiling_c#": "1", "boiling_c[0]": "99",
        "pairs#": "2", "pairs[0].probe_c": "1", "pairs[1].probe_c": "2", "seed": "1",
    }  # fmt: skip
    assert places["boiling_c[0]"] == "boiling_c[1]"
    assert places["pairs[1].probe_c"] == "pairs[10].probe_c"
