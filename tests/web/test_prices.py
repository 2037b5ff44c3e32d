"""The price list and the kit as pages: what they show, what they refuse, what they survive."""

from __future__ import annotations

import dataclasses

import pytest

from pourwright.actions.port import World
from pourwright.shop.offer import Offer
from pourwright.shop.wish import Wish
from web.client import Client, form_in, words_in

PRICES = ("/prices", "/prices/demo-offer-worm", "/prices/demo-offer-shad")


def plain(answer) -> str:
    return words_in(answer).replace("\N{NO-BREAK SPACE}", " ")


def put(world: World, key: str, noun: Offer | Wish) -> None:
    with world.bench() as bench:
        bench.records.save(noun.key, key, noun, expected_version=0)
        bench.commit()


@pytest.mark.parametrize("path", ["/prices", "/kit"])
def test_an_empty_bench_is_told_how_to_begin(empty_world, path):
    page = Client(empty_world).get(path)
    assert page.status_code == 200
    sort = {"/prices": "offer", "/kit": "wish"}[path]
    assert f'href="/records/{sort}/new"' in page.text


@pytest.mark.parametrize("path", PRICES)
def test_a_price_shows_cost_margin_and_floor(full_world, path):
    page = Client(full_world).get(path)
    words = plain(page)
    assert page.status_code == 200
    for said in ("A pack costs", "You ask", "floor of 20%", "left"):
        assert said in words
    assert "Remelt of one color is credited at 50 % of fresh plastic" in words


def test_the_first_price_under_the_floor_is_marked(full_world):
    page = Client(full_world).get("/prices/demo-offer-worm")
    assert "The first under your floor of 20% is the price from 25 packs" in plain(page)
    assert page.text.count('class="is-below"') == 1
    assert "What another mold would pay back" in plain(page)
    assert "Pays back after" in plain(page)


def test_a_price_entered_in_its_form_stands_on_the_list(full_world):
    client = Client(full_world)
    form = form_in(client.get("/records/offer/new"))
    typed = form | {"name": "Worms by the dozen", "bait": "demo-bait-worm", "price_money": "14"}
    answer = client.send("/records/offer/new", typed)
    assert answer.status_code == 303
    assert answer.headers["location"].startswith("/prices?saved=")
    assert "Worms by the dozen" in words_in(client.get(answer.headers["location"]))


def test_steps_out_of_order_are_refused_in_the_form(full_world):
    client = Client(full_world)
    form = form_in(client.get("/records/offer/demo-offer-worm"))
    answer = client.send("/records/offer/demo-offer-worm", form | {"steps[1].from_packs": "3"})
    assert answer.status_code == 422
    assert "put the steps in order" in words_in(answer)


def test_a_bait_that_was_taken_off_leaves_the_list_standing(full_world):
    put(full_world, "lost", Offer(name="Lost", bait="nowhere", look="gone", price_money=5))
    client = Client(full_world)
    assert "no longer there" in words_in(client.get("/prices"))
    assert client.get("/prices/lost").status_code == 200
    assert client.get("/prices/nothing").status_code == 404


def test_a_pack_given_away_is_said_and_opens(full_world):
    put(full_world, "free", Offer(name="Free", bait="demo-bait-worm", price_money=0))
    page = Client(full_world).get("/prices/free")
    assert page.status_code == 200
    assert "must lie between" in words_in(page)


def test_the_kit_keeps_to_the_budget(full_world):
    words = plain(Client(full_world).get("/kit?budget=250"))
    # By hand: the musts with the closed mold cost 48 + 22 + 30 + 9 + 19.50 + 52 + 36.
    assert "$249.50 spent, $0.50 left" in words
    assert "Only one of its group is bought, and that is Used microwave" in words


def test_a_budget_below_the_musts_is_refused_in_words(full_world):
    words = plain(Client(full_world).get("/kit?budget=100"))
    # 48 + 22 + 30 + 9 + 19.50 + 24 of the open mold = 152.50.
    assert "What has to be in costs $152.50 at least" in words
    assert "$52.50 more than the budget" in words


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("budget=plenty", "is not a number"),
        ("budget=", "type what you may spend"),
        ("budget=-5", "must lie between"),
        ("budget=100.005", "must be in whole cents"),
        ("wanted=many", "is not a number"),
    ],
)
def test_odd_numbers_are_refused_at_their_box(full_world, query, said):
    page = Client(full_world).get(f"/kit?{query}")
    assert page.status_code == 200
    assert said in words_in(page)


def test_what_was_bought_leaves_the_list(full_world):
    with full_world.bench() as bench:
        stored = bench.records.get(Wish.key, "demo-wish-injector")
        assert isinstance(stored.noun, Wish)
        got = dataclasses.replace(stored.noun, got=True)
        bench.records.save(Wish.key, stored.id, got, expected_version=stored.version)
        bench.commit()
    words = plain(Client(full_world).get("/kit?budget=214"))
    assert "Closed mold, two shads" in words
    assert "There already (1)" in words


def test_workplace_leads_to_the_kit_and_the_list_to_both(full_world):
    client = Client(full_world)
    assert 'href="/kit"' in client.get("/workplace").text
    assert 'href="/kit"' in client.get("/prices").text
