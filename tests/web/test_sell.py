"""The page that sells without an order."""

from __future__ import annotations

import pytest

from order_bench import bagged, line, order, order_bench, poured, priced
from pourwright.actions.sales_of import sales_of
from pourwright.actions.set_aside import set_aside
from web.client import Client, form_in, words_in


@pytest.fixture
def world(tmp_path):
    return order_bench(tmp_path)


def test_with_nothing_free_it_says_so(world):
    assert "Nothing finished is free" in words_in(Client(world).get("/sales/new"))


def test_a_sale_is_summed_then_written_down_and_taken_back(world):
    client = Client(world)
    bagged(world, "B1", 3)
    loose = poured(world, 7, 20)
    priced(world, 6.5)
    page = client.get("/sales/new?lot=B1")
    assert "for a licensed adviser" in words_in(page)
    form = form_in(page) | {"lines[0].packs": "2"}
    page = client.send("/sales/new", form | {"@do": "country:elsewhere: check locally"})
    assert page.status_code == 200, words_in(page)
    page = client.send("/sales/new", form_in(page) | {"@do": "add:lines"})
    more = {"lines[1].lot": loose, "lines[1].baits_each": "1", "lines[1].price_money": "0.75"}
    page = client.send("/sales/new", form_in(page) | more | {"@do": "sum"})
    assert "To be paid $13.75" in words_in(page)
    with world.reading() as bench:
        assert not sales_of(bench)
    sent = form_in(page) | {"@do": "save"}
    done = client.send("/sales/new", sent)
    assert done.status_code == 303, words_in(done)
    assert client.send("/sales/new", sent).headers["location"] == done.headers["location"]
    with world.reading() as bench:
        (kept,) = sales_of(bench)
        assert bench.stock.lot("B1").pieces == 8
    assert "Received $13.75" in words_in(client.get(done.headers["location"]))
    assert "$13.75" in words_in(client.get("/orders"))
    back = {"event": "c" * 32, "why": "wrong lot"}
    assert client.send(f"/sales/{kept.id}/take-back", back).status_code == 303
    with world.reading() as bench:
        assert bench.stock.lot("B1").pieces == 24


@pytest.mark.parametrize(
    ("typed", "status", "why"),
    [({"lines[0].packs": "2"}, 409, "16 of them set aside for other orders"),
     ({"lines[0].price_money": ""}, 422, "the price list has no pack of 8"),
     ({"lines[0].lot": "B9"}, 404, "There is no lot"),
     ({"lines[0].packs": "0"}, 422, "must lie between 1"),
     ({"sold_on": "2026-02-30"}, 422, "no day"),
     ({"delivery_money": "90", "delivery_inside": "on"}, 422, "inside the prices")],
)  # fmt: skip
def test_what_cannot_be_sold_is_said_and_everything_typed_stays(world, typed, status, why):
    bagged(world, "B1", 3)
    order(world, "one", line(2))
    set_aside(world, "one")
    client = Client(world)
    form = form_in(client.get("/sales/new?lot=B1"))
    form |= {"lines[0].price_money": "6", "note": "at the pier"} | typed
    page = client.send("/sales/new", form | {"@do": "save"})
    assert page.status_code == status, words_in(page)
    assert why in words_in(page)
    assert form_in(page)["note"] == "at the pier"
    assert form_in(page)["lines[0].packs"] == form["lines[0].packs"]
    with world.reading() as bench:
        assert not sales_of(bench)


def test_a_line_is_removed_without_losing_the_others(world):
    bagged(world, "B1", 3)
    client = Client(world)
    page = client.send("/sales/new", form_in(client.get("/sales/new")) | {"@do": "add:lines"})
    form = form_in(page) | {"lines[1].packs": "3", "lines[1].lot": "B1"}
    form = form_in(client.send("/sales/new", form | {"@do": "remove:lines[0]"}))
    assert (form["lines#"], form["lines[0].packs"], form["lines[0].lot"]) == ("1", "3", "B1")
