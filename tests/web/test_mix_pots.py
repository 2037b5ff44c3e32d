"""The page that fills a pot from others."""

from __future__ import annotations

import pytest

from pourwright.shop.material import RemeltPot
from web.client import Client, form_in, words_in


@pytest.fixture
def world(empty_world):
    with empty_world.bench() as bench:
        for key, grams in (("green", 300), ("dark", 100), ("new", 0)):
            noun = RemeltPot(name=key.title(), on_hand_g=grams, dose_share=0.2)
            bench.records.save(RemeltPot.key, key, noun, expected_version=0)
        bench.commit()
    return empty_world


def grams(world, key: str) -> float:
    with world.reading() as bench:
        found: float = bench.records.get(RemeltPot.key, key).noun.on_hand_g
    return found


def test_two_pots_are_poured_into_a_third_and_its_lot_shows_both(world):
    client = Client(world)
    assert "/stock/mix/new" in client.get("/stock").text
    page = client.get("/stock/mix/new")
    assert "It is empty" in words_in(page)
    assert "Green: 300.0 g" in words_in(page)
    page = client.send("/stock/mix/new", form_in(page) | {"@do": "add:parts"})
    form = form_in(page) | {"parts[0].pot": "green", "parts[0].mass_g": "90"}
    sent = form | {"parts[1].pot": "dark", "@do": "save"}
    done = client.send("/stock/mix/new", sent)
    assert done.status_code == 303, words_in(done)
    client.send("/stock/mix/new", sent)
    assert [grams(world, key) for key in ("green", "dark", "new")] == [210, 0, 190]
    words = words_in(client.get(done.headers["location"]))
    assert "remelt, 90 g" in words
    assert "remelt, 100 g" in words
    assert words.count("Mixed") == 2


@pytest.mark.parametrize(
    ("typed", "status", "why"),
    [({"parts[0].mass_g": "301"}, 422, "Green holds 300 g"),
     ({"parts[0].pot": ""}, 422, "fill it in"),
     ({"parts[0].pot": "new"}, 422, "is this very pot"),
     ({"parts[0].mass_g": "99999999"}, 422, "must lie between")],
)  # fmt: skip
def test_what_cannot_be_poured_is_said_and_stays_typed(world, typed, status, why):
    client = Client(world)
    form = form_in(client.get("/stock/mix/new"))
    form |= {"parts[0].pot": "green", "parts[0].mass_g": "7"} | typed
    page = client.send("/stock/mix/new", form | {"@do": "save"})
    assert page.status_code == status
    assert why in words_in(page)
    assert form_in(page)["parts[0].mass_g"] == form["parts[0].mass_g"]
    assert grams(world, "new") == 0


def test_a_loop_is_refused_on_the_page(world):
    client = Client(world)
    form = form_in(client.get("/stock/mix/dark")) | {"@do": "save"}
    first = form | {"parts[0].pot": "green", "parts[0].mass_g": "50"}
    assert client.send("/stock/mix/dark", first).status_code == 303
    form = form_in(client.get("/stock/mix/green")) | {"@do": "save"}
    page = client.send("/stock/mix/green", form | {"parts[0].pot": "dark"})
    assert page.status_code == 409
    assert "already holds plastic out of Green" in words_in(page)
    assert grams(world, "green") == 250


def test_a_pot_that_is_none_is_not_found(world):
    assert Client(world).get("/stock/mix/nowhere").status_code == 404
