"""The page of a pour day: choose, lay out, take along, freeze."""

from __future__ import annotations

import dataclasses
import re

import pytest

from pour_day_bench import DARK_SHADS, WORMS, kept, no_orders, ordered, pour_day
from pourwright.actions.pour_day_freeze import freeze_pour_day
from pourwright.actions.pour_day_lay import laid
from pourwright.shop.order import OrderLine
from pourwright.shop.pour_day import PourDay
from web.client import Client, form_in, words_in

LINE = OrderLine(bait="demo-bait-worm", look="demo-look-marsh", packs=3, baits_each=8)


@pytest.fixture
def client(full_world):
    no_orders(full_world)
    ordered(full_world, "o1", LINE, due_on="2026-05-09")
    return Client(full_world)


def days(world):
    with world.reading() as bench:
        return {s.id: s.noun for s in bench.records.all(PourDay.key)}


def made(client, world):
    before = set(days(world))
    answer = client.send("/pour-day", form_in(client.get("/pour-day")))
    assert answer.status_code == 303, words_in(answer)
    (made_id,) = set(days(world)) - before
    assert answer.headers["location"] == f"/pour-day/{made_id}"
    return made_id


def test_a_new_day_holds_what_orders_want(client):
    page = client.get("/pour-day")
    form = form_in(page)
    assert (form["batches[0].mold"], form["batches[0].count"]) == ("demo-mold-worm", "24")
    assert "24 × Seven-inch marsh worm" in words_in(page)


def test_a_batch_taken_from_orders_is_needed_by_their_day(client, full_world):
    form = form_in(client.get("/pour-day"))
    assert (form["batches[0].due_on"], form["batches[0].needed_at"]) == ("2026-05-09", "")
    late = form | {"batches[0].due_on": "2026-05-01", "day": "2026-05-03"}
    address = client.send("/pour-day", late).headers["location"]
    (day,) = (d for key, d in days(full_world).items() if address.endswith(key))
    assert day.batches[0].due_on == "2026-05-01"
    assert "needed by Fri, May 1, 2026, this pour is 2 days late" in words_in(client.get(address))


def test_a_day_is_laid_out_and_shown(client, full_world):
    made_id = made(client, full_world)
    page = client.get(f"/pour-day/{made_id}")
    assert page.status_code == 200
    words = words_in(page)
    assert "Marsh green, copper flake" in words
    assert "What to do when" in words
    assert "Clean-up of a kit before a lighter color was left out: typical 6 min" in words
    assert "<svg" in page.text
    assert days(full_world)[made_id].timetable.cups


def test_a_row_is_added_by_hand_and_nothing_typed_is_lost(client):
    form = form_in(client.get("/pour-day")) | {"begins": "10:45", "@do": "add:batches"}
    again = form_in(client.send("/pour-day", form))
    assert again["batches#"] == "2"
    assert (again["begins"], again["batches[0].count"]) == ("10:45", "24")


def test_what_orders_want_is_added_once(client):
    form = form_in(client.get("/pour-day")) | {"@do": "orders"}
    assert form_in(client.send("/pour-day", form))["batches#"] == "1"


def test_a_day_of_nothing_is_refused_in_words(client, full_world):
    form = form_in(client.get("/pour-day")) | {"@do": "remove:batches[0]"}
    empty = form_in(client.send("/pour-day", form))
    before = days(full_world)
    answer = client.send("/pour-day", empty)
    assert answer.status_code == 422
    assert "nothing is chosen" in words_in(answer)
    assert days(full_world) == before


def test_a_day_too_long_is_split_by_one_press(client, full_world):
    first = dataclasses.replace(WORMS, count=4, heat_min=12)
    second = dataclasses.replace(DARK_SHADS, count=4, heat_min=12)
    with full_world.reading() as bench:
        day = laid(bench, pour_day(first, second, microwave_h=0.3))
    kept(full_world, "long", day)
    words = words_in(client.get("/pour-day/long"))
    assert "Split over 2 days" in words
    assert "up to Sat, May 2, 2026 no day had room" in words
    before = set(days(full_world))
    answer = client.send("/pour-day/long/split", {})
    assert (answer.status_code, answer.headers["location"]) == (303, "/pour-day/long")
    (other,) = set(days(full_world)) - before
    page = client.get("/pour-day/long")
    assert f"/pour-day/{other}" in page.text
    assert "Split over" not in words_in(page)
    assert days(full_world)[other].timetable.steps
    assert client.send("/pour-day/long/split", {}).status_code == 409


def test_a_day_that_no_split_helps_says_why(client, full_world):
    with full_world.reading() as bench:
        day = laid(bench, pour_day(dataclasses.replace(WORMS, heat_min=30), microwave_h=0.3))
    kept(full_world, "long", day)
    words = words_in(client.get("/pour-day/long"))
    assert "It cannot be split" in words
    assert "even a single bait" in words


def test_the_calendar_file_comes_as_one(client, full_world):
    answer = client.get(f"/pour-day/{made(client, full_world)}/day.ics")
    assert answer.headers["content-type"].startswith("text/calendar")
    assert answer.text.startswith("BEGIN:VCALENDAR")


def test_freezing_leads_to_the_sheets(client, full_world):
    made_id = made(client, full_world)
    assert client.send(f"/pour-day/{made_id}/freeze", {}).status_code == 303
    number = days(full_world)[made_id].batches[0].sheet
    assert f"/sheets/{number}" in client.get(f"/pour-day/{made_id}").text
    assert client.send(f"/pour-day/{made_id}/freeze", {}).status_code == 409


def test_a_frozen_day_gives_the_answer_to_an_order_its_day(client, full_world):
    today = full_world.clock.now()[:10]
    assert "It is ready by" not in words_in(client.get("/orders/o1"))
    with full_world.reading() as bench:
        day = laid(bench, pour_day(WORMS, day=today))
    kept(full_world, "a-day", day)
    freeze_pour_day(full_world, "a-day", starts_at=full_world.clock.now())
    assert "It is ready by" in words_in(client.get("/orders/o1"))


def test_a_day_that_is_not_there(client):
    assert client.get("/pour-day/nowhere").status_code == 404


def test_a_frozen_day_says_what_is_next_there_and_at_the_bench(full_world):
    now = full_world.clock.now()
    with full_world.reading() as bench:
        day = laid(bench, pour_day(WORMS, DARK_SHADS, day=now[:10]))
    kept(full_world, "a-day", day)
    freeze_pour_day(full_world, "a-day", starts_at=now)
    client = Client(full_world)
    assert "Next, at 09:00: Cup" in words_in(client.get("/pour-day/a-day"))
    words = words_in(client.get("/bench"))
    assert re.search(r"Pour day: next, at 09:00, Cup \d: into microwave 1", words)
    assert "On time." in words
