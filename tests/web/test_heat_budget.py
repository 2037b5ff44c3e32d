"""The heat budget of a pot, and a lot's leftovers on their way into it, without a browser."""

from __future__ import annotations

import re
from html import unescape

import pytest

from pourwright.base.band import Band
from pourwright.shop.material import RemeltPot
from pourwright.web.budget_bar import budget_bar
from web.client import Client, form_in, words_in

POT = "demo-remelt"
PAGE = f"/remelt-pots/{POT}/heat-budget"
# By definition 9 of the stabilizer's 30 minutes at 190 °C / 374 °F use 0.3.
NINE = {
    "holds#": "1", "holds[0].held_min": "9", "holds[0].mean_c": "374", "holds[0].hottest_c": "374",
}  # fmt: skip


def pot(world) -> RemeltPot:
    with world.bench() as bench:
        noun = bench.records.get("remelt_pot", POT).noun
    assert isinstance(noun, RemeltPot)
    return noun


def test_shelf_and_record_lead_to_the_pots_budget(full_world):
    client = Client(full_world)
    for page in ("/shelf", f"/records/remelt_pot/{POT}"):
        assert f'href="{PAGE}"' in client.get(page).text
    assert "heat-budget" not in client.get("/records/salt/demo-salt").text


def test_a_pot_is_answered_with_its_values_and_the_cautions(full_world):
    page = Client(full_world).get(PAGE)
    words = words_in(page)
    assert form_in(page)["pot_g"] == "420"
    assert "15.0" in words
    for said in ("hydrogen chloride", "5 ppm", "Local codes", "Fine: heat it again",
                 "What it had used before is unknown", "347", "374", "392"):  # fmt: skip
        assert said in words
    assert "fresh_g" not in form_in(page)


def test_heats_are_reckoned_and_kept(full_world):
    client = Client(full_world)
    typed = form_in(client.get(PAGE)) | NINE | {"used_share": "0", "stable_at_190c_min": "30"}
    tried = client.send(PAGE, typed | {"@do": "try"})
    assert "Used at the hottest place: 30.0" in words_in(tried)
    assert "Use it soon" in words_in(tried)
    assert pot(full_world).dose_share is None
    assert client.send(PAGE, typed | {"@do": "save"}).status_code == 303
    assert pot(full_world).dose_share == pytest.approx(0.3, abs=0.001)
    assert form_in(client.get(PAGE))["used_share"] == "0.3"


def test_a_guess_is_not_kept(full_world):
    client = Client(full_world)
    answer = client.send(PAGE, form_in(client.get(PAGE)) | {"@do": "save"})
    assert answer.status_code == 422
    assert "a guess is not kept" in words_in(answer)
    assert pot(full_world).dose_share is None


def test_an_older_version_is_a_conflict_that_can_be_kept_again(full_world):
    client = Client(full_world)
    typed = form_in(client.get(PAGE)) | {"used_share": "0.2", "@do": "save"}
    assert client.send(PAGE, typed).status_code == 303
    answer = client.send(PAGE, typed)
    assert answer.status_code == 409
    assert "Not kept" in words_in(answer)
    assert client.send(PAGE, form_in(answer) | {"@do": "save"}).status_code == 303


@pytest.mark.parametrize(
    ("share", "words"),
    [("0.1", "Fine"), ("0.3", "Use it soon"), ("0.8", "Blend it down"), ("1.2", "Discard it")],
)
def test_any_plastic_may_be_reckoned_and_the_advice_follows(full_world, share, words):
    client = Client(full_world)
    page = client.send("/heat-budget", form_in(client.get("/heat-budget")) | {
        "used_share": share, "pot_g": "300", "@do": "try"})  # fmt: skip
    assert words in words_in(page)
    assert "Keep this share" not in page.text
    needed = "Fresh plastic to bring it under half: 180" in words_in(page)
    assert needed == (share == "0.8")


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"pot_g": "-1"}, "must lie between"),
        ({"used_share": "half"}, "is not a number"),
        (NINE | {"holds[0].hottest_c": "300"}, "is below the mean"),
        (NINE | {"holds[0].held_min": ""}, "is missing: fill it in"),
    ],
)
def test_what_does_not_fit_is_said_in_place_of_the_answer(full_world, change, words):
    client = Client(full_world)
    page = client.send(PAGE, form_in(client.get(PAGE)) | change | {"@do": "save"})
    assert page.status_code == 422
    assert words in words_in(page)
    assert pot(full_world).dose_share is None


def test_the_bar_marks_the_share_where_it_stands(full_world):
    client = Client(full_world)
    fresh = form_in(client.get(PAGE))
    for share in ("0", "0.5", "1"):
        page = client.send(PAGE, fresh | {"used_share": share, "@do": "try"}).text
        ticks = dict(re.findall(r'<text x="([\d.]+)" y="88"[^>]*>(\d+)%', page))
        marks = re.findall(r'class="now-dot" cx="([\d.]+)"', page)
        assert [float(ticks[x]) / 100 for x in marks] == [float(share)]


def test_the_bar_is_even_from_nothing_to_a_quarter_over_all_and_says_what_runs_off():
    bar = budget_bar(Band(0.25, 0.5, 2.0))
    assert (bar.low, bar.typical, bar.high) == (140, 260, 620)
    assert bar.beyond
    assert [(z.x, z.width) for z in bar.zones] == [(20, 120), (140, 120), (260, 240), (500, 120)]
    assert not budget_bar(Band(0, 0, 1.2)).beyond


@pytest.mark.parametrize("key", ["nowhere", "demo-salt"])
def test_what_is_no_pot_is_not_found(full_world, key):
    assert Client(full_world).get(f"/remelt-pots/{key}/heat-budget").status_code == 404


def offer(page) -> dict[str, str]:
    """The hidden event, the grams and the first pot of the form of a lot's own page for its pot."""
    _, _, form = page.text.partition('class="pot-form"')
    form, _, _ = form.partition("</form>")
    return dict(re.findall(r'name="(event|grams|pot)" value="([^"]*)"', form))


def test_a_lot_offers_what_it_left_over_and_the_pot_takes_it(full_world):
    client = Client(full_world)
    assert "127 g kept for remelt is in no pot yet" in words_in(client.get("/lots/1"))
    page = client.get("/lots/1/pot")
    assert "By its readings the plastic of this lot has used" in words_in(page)
    assert "Only dry plastic goes to the remelt pot" in words_in(page)
    more = re.findall(r'href="(/heat-budget[^"]+)"', page.text)
    typed = form_in(client.get(unescape(more[0])))
    assert float(typed["pot_g"]) == 127
    assert 0 < float(typed["used_share"]) < 0.05
    assert typed["heats"] == "1"
    sent = offer(page)
    assert (sent["grams"], sent["pot"]) == ("127", POT)
    for _ in range(2):
        assert client.send("/lots/1/pot", sent | {"grams": "100 g"}).status_code == 303
    assert pot(full_world).on_hand_g == 520
    after = client.get("/lots/1/pot")
    assert "100 g into Dark greens, once heated" in words_in(after)
    assert offer(after)["grams"] == "27"
    client.send("/lots/1/pot", offer(after))
    for address in ("/lots/1", "/lots/1/pot"):
        assert "All of the 127" in words_in(client.get(address))


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"grams": "900"}, "must lie between 0.1 and 127.0 g"),
        ({"grams": "all"}, "is not a number"),
        ({"event": "x"}, "load the page again"),
    ],
)
def test_what_cannot_go_in_is_said_beside_the_box(full_world, change, words):
    client = Client(full_world)
    answer = client.send("/lots/1/pot", offer(client.get("/lots/1/pot")) | change)
    assert answer.status_code == 422
    assert words in words_in(answer)
    assert pot(full_world).on_hand_g == 420


def test_a_pot_that_left_the_shelf_is_not_found(full_world):
    client = Client(full_world)
    sent = offer(client.get("/lots/1/pot")) | {"pot": "gone"}
    assert client.send("/lots/1/pot", sent).status_code == 404
