"""Today, the way onto the bench, and the lot after a guided pour."""

from __future__ import annotations

import dataclasses
import re
import time

import pytest

from pour_told import ENTRY, Teller
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.oven_history import happenings
from pourwright.actions.pair_phone import pair_phone
from pourwright.actions.port import World
from pourwright.actions.pour_setup import pour_setup
from pourwright.bench import tap_kind as kind
from pourwright.bench.pour_setup import PourSetup
from pourwright.shop.lot import COUNTED, body_of
from pourwright.shop.sheet import Sheet
from pourwright.shop.workplace import Workplace
from pourwright.web import pour_story
from pourwright.web.local_time import time_of_day
from pourwright.web.pairing import Pairing
from web.client import LINK, Client, form_in, phone_client, words_in

SECRET = "s" * 43


@pytest.fixture
def sheet(full_world: World) -> Sheet:
    return freeze_sheet(full_world, DEMO_DRAFT)


@pytest.fixture
def setup(full_world: World, sheet: Sheet) -> PourSetup:
    with full_world.bench() as bench:
        return pour_setup(bench, sheet)


def spoil(world: World, sheet: Sheet) -> Sheet:
    """Another sheet, of a version that did not say with what it is injected."""
    request = {name: value for name, value in sheet.request.items() if name != "injector"}
    spoiled = dataclasses.replace(
        sheet, number=sheet.number + 1, code=f"{sheet.code}X", version="0.0.9", request=request
    )
    with world.bench() as bench:
        bench.sheets.add(spoiled)
        bench.commit()
    return spoiled


def hung(world: World, sheet: Sheet, setup: PourSetup, ago_s: float) -> None:
    teller = Teller(world, sheet)
    teller.finish(ago_s + 60, setup)
    teller.hang(ago_s)


def hidden(page, name: str) -> str:
    found = re.findall(rf'name="{name}" value="([0-9a-f]{{32}})"', page.text)
    assert len(found) == 1
    return str(found[0])


def kinds(world: World, sheet: Sheet) -> list[str]:
    with world.bench() as bench:
        return [h.kind for h in happenings(bench, sheet.code)]


@pytest.mark.skipif(not hasattr(time, "tzset"), reason="this system's zone cannot be changed")
def test_times_are_those_of_the_clock_on_the_wall(monkeypatch):
    """Central time is 6 h behind UTC, in summer 5 h: 49 CFR 71.7 and 15 U.S.C. 260a."""
    monkeypatch.setenv("TZ", "America/Chicago")
    time.tzset()
    try:
        assert time_of_day("2026-01-17T20:05:59Z", "2026-01-17T21:00:00Z") == "14:05"
        assert time_of_day("2026-01-17T05:30:00Z", "2026-01-17T14:00:00Z") == "yesterday 23:30"
        assert time_of_day("2026-07-02T12:00:00Z", "2026-07-01T12:00:00Z") == "tomorrow 07:00"
        assert time_of_day("2026-07-09T12:00:00Z", "2026-07-01T12:00:00Z") == "Jul 9, 07:00"
        assert time_of_day("2025-12-31T12:00:00Z", "2026-07-01T12:00:00Z") == "Dec 31 2025, 06:00"
    finally:
        monkeypatch.undo()
        time.tzset()


def test_a_fresh_bench_says_what_to_do(empty_world):
    client = Client(empty_world)
    assert client.get("/").headers["location"] == "/welcome"
    client.send("/set-up", form_in(client.get("/set-up")) | {"@do": "save"})
    words = words_in(client.get("/"))
    assert "Nothing is frozen yet" in words
    assert "Running now" not in words
    assert "No sheet waits" in words_in(client.get("/bench"))


def test_a_demo_bench_says_in_words_what_is_empty(full_world):
    words = words_in(Client(full_world).get("/"))
    for said in ("Nothing is being poured", "Nothing hangs", "No frozen sheet waits", "31 good"):
        assert said in words
    assert "Needs a hand now" not in words


def test_a_mold_that_is_due_is_marked_in_words_and_shape(full_world, sheet, setup):
    teller = Teller(full_world, sheet)
    teller.hot(1500, setup)
    teller.fill(1400, 1)
    teller.fill(1, 2)
    page = Client(full_world).get("/")
    words = words_in(page)
    assert "Cool and open: mold 1" in words
    assert '<p class="needs" data-needs>' in page.text
    clocks = re.findall(r'<li class="(timer[^"]*)" data-until="([^"]+)"', page.text)
    assert [name for name, _ in clocks] == ["timer is-over", "timer"]
    assert clocks[0][1] < teller.now < clocks[1][1]
    assert time_of_day(clocks[0][1], teller.now) in words


def test_a_calm_pour_needs_no_hand(full_world, sheet, setup):
    Teller(full_world, sheet).ready(30, setup)
    page = Client(full_world).get("/")
    assert '<p class="needs" data-needs hidden>' in page.text
    assert "Heat: the cup" in words_in(page)


def test_trouble_stands_there_until_something_follows(full_world, sheet, setup):
    teller = Teller(full_world, sheet)
    teller.ready(30, setup)
    teller.tell(20, kind.WRONG, what="hot", note="")
    assert "Went wrong: Too hot or smoking" in words_in(Client(full_world).get("/"))
    teller.tell(10, kind.DISCARDED, cup=1)
    assert "Went wrong" not in words_in(Client(full_world).get("/"))


def test_taken_off_twice_is_taken_off_once_and_can_be_undone(full_world, sheet, setup):
    hung(full_world, sheet, setup, 90_000)
    client = Client(full_world)
    page = client.get("/")
    assert "Overdue: due since" in words_in(page)
    sent = {"event": hidden(page, "event")}
    told = f"/?off={sheet.number}"
    for _ in range(2):
        answer = client.send(f"/sheets/{sheet.number}/taken-off", sent)
        assert answer.headers["location"] == told
    assert kinds(full_world, sheet).count(kind.TAKEN_OFF) == 1
    after = client.get(told)
    assert "Nothing hangs" in words_in(after)
    undo = {"event": hidden(after, "event"), "off": hidden(after, "off")}
    assert undo["off"] == sent["event"]
    client.send(f"/sheets/{sheet.number}/hung-again", undo)
    assert "Overdue: due since" in words_in(client.get("/"))
    assert "Undo" not in words_in(client.get(f"/?off={sheet.number}"))


@pytest.mark.parametrize("sent", [{}, {"event": "short"}])
def test_a_form_without_its_event_is_refused(full_world, sheet, setup, sent):
    hung(full_world, sheet, setup, 90_000)
    answer = Client(full_world).send(f"/sheets/{sheet.number}/taken-off", sent)
    assert answer.status_code == 422
    assert kind.TAKEN_OFF not in kinds(full_world, sheet)


def test_a_sheet_that_cannot_be_guided_breaks_no_page(full_world, sheet):
    spoiled = spoil(full_world, sheet)
    client = Client(full_world)
    why = "frozen by version 0.0.9"
    for path in ("/", "/bench"):
        page = client.get(path)
        assert why in words_in(page)
        assert f'href="/sheets/{spoiled.number}/bench"' not in page.text
    Teller(full_world, spoiled).tell(50, kind.OPENED, mold=1)
    for path in ("/", "/bench", f"/sheets/{spoiled.number}"):
        assert why in words_in(client.get(path)), path
    for path in ("/book", f"/lots/{spoiled.number}"):
        assert client.get(path).status_code == 200, path
    assert "mold opened" in words_in(client.get(f"/lots/{spoiled.number}"))


def test_the_bench_goes_straight_to_the_one_pour_that_runs(full_world, sheet, setup):
    client = Client(full_world)
    words = words_in(client.get("/bench"))
    assert f"Sheet {sheet.number}: {sheet.title}" in words
    assert "Pair a phone" in words
    teller = Teller(full_world, sheet)
    teller.ready(30, setup)
    assert client.get("/bench").headers["location"] == f"/sheets/{sheet.number}/bench"
    teller.tell(20, kind.PUT_AWAY)
    page = client.get("/bench")
    assert "Take it up again" in words_in(page)
    assert "put away" in words_in(page)


def test_two_pours_are_a_choice(full_world, sheet, setup):
    other = freeze_sheet(full_world, DEMO_DRAFT)
    for it in (sheet, other):
        Teller(full_world, it).ready(30, setup)
    page = Client(full_world).get("/bench")
    for it in (sheet, other):
        assert f'href="/sheets/{it.number}/bench"' in page.text


def test_a_phone_is_not_sent_to_where_only_the_laptop_may_go(full_world):
    pair_phone(full_world, "Glove pocket", SECRET)
    phone = phone_client(full_world, Pairing(LINK))
    page = phone.get("/bench", cookie=f"{phone.app.door.cookie}={SECRET}")
    assert page.status_code == 200
    assert 'href="/phones"' not in page.text
    assert "paired on the laptop itself" in words_in(page)


def first_action(page) -> tuple[str, str]:
    actions = page.text[page.text.index('<p class="actions">') :]
    found = re.search(r'href="([^"]+)">([^<]+)<', actions)
    assert found
    return found[1], found[2]


def test_the_sheet_leads_to_the_bench_first(full_world, sheet, setup):
    client, address = Client(full_world), f"/sheets/{sheet.number}"
    cup = f"{address}/cups/1"
    page = client.get(address)
    assert first_action(page) == (f"{address}/bench", "Pour it on the bench")
    assert f'href="{cup}">Heat cup 1' in page.text
    teller = Teller(full_world, sheet)
    teller.finish(3000, setup)
    page = client.get(address)
    assert first_action(page) == (f"{address}/bench", "Go on pouring")
    assert f'href="{cup}?late=1">Cup 1: poured' in page.text
    assert first_action(client.get(f"/lots/{sheet.number}")) == (
        f"{address}/bench",
        "Go on pouring",
    )
    assert f'href="{address}/bench">Go on pouring' in client.get("/book").text
    teller.hang(50)
    assert first_action(client.get(address)) == (f"{address}/bench", "See it on the rack")
    teller.tell(20, kind.TAKEN_OFF)
    page = client.get(address)
    assert first_action(page) == (f"{address}/sheet.pdf", "Print it (PDF)")
    assert f'href="{address}/bench"' not in client.get("/book").text


def test_a_cup_that_is_begun_on_the_bench_is_entered_from_notes(full_world, sheet, setup):
    Teller(full_world, sheet).ready(30, setup)
    page = Client(full_world).get(f"/sheets/{sheet.number}")
    assert f'href="/sheets/{sheet.number}/cups/1?late=1">Cup 1: enter from notes' in page.text
    assert "Heat cup 1" not in page.text


def test_a_lot_counted_by_hand_is_not_offered_to_the_bench(full_world):
    page = Client(full_world).get("/sheets/1")
    assert 'href="/sheets/1/bench"' not in page.text
    assert "What happened" not in words_in(Client(full_world).get("/lots/1"))


def test_the_lot_tells_its_pour(full_world, sheet, setup):
    phone = pair_phone(full_world, "Glove <pocket>", SECRET)
    teller = Teller(full_world, sheet, by=phone.id)
    teller.ready(300, setup)
    teller.tell(200, kind.READY, item="jug")
    slip = teller.tell(150, kind.BEGUN, cup=1, for_s=75, sent_late_s=130, by="laptop")
    teller.tell(140, kind.TAKEN_BACK, event=slip)
    teller.read(60, 1, 150.0)
    page = Client(full_world).get(f"/lots/{sheet.number}")
    words = words_in(page)
    count = len(setup.ready) + len(setup.cups[0].weigh) + 4
    assert f"What happened, {count} events" in words
    assert "Glove &lt;pocket&gt;" in page.text
    assert "<s>Made ready: mix the jug</s>" in page.text
    assert "Does not count: that was made sure of already" in words
    assert "<s>Oven started for 1:15</s>" in page.text
    assert "sent 2:10 late" in words
    assert "Took back: Oven started for 1:15" in words
    # 150 °C are 302 °F.
    assert "Cup 1: heated 1:00, read 302 °F" in words.replace("\xa0", " ")


def test_a_long_story_is_read_in_parts(full_world, sheet, setup, monkeypatch):
    monkeypatch.setattr(pour_story, "MOST_ROWS", 3)
    teller = Teller(full_world, sheet)
    for item in (*setup.ready, "jug"):
        teller.tell(50, kind.READY, item=item)
    client, address = Client(full_world), f"/lots/{sheet.number}"
    newest, first = client.get(address), client.get(f"{address}?events=1")
    assert "What happened, 7 events" in words_in(newest)
    assert newest.text.count("<s>Made ready") == 1
    assert (first.text.count("<td>Laptop</td>"), newest.text.count("<td>Laptop</td>")) == (3, 1)
    assert f'href="{address}?events=2#story">4 to 6' in first.text
    assert client.get(f"{address}?events=x").status_code == 422


def test_the_lot_says_how_its_baits_came_out(full_world, sheet, setup):
    teller = Teller(full_world, sheet)
    teller.finish(3000, setup, dataclasses.replace(ENTRY, warmup=2))
    client = Client(full_world)
    page = client.get(f"/lots/{sheet.number}")
    words = words_in(page)
    assert "13 good, 3 of them trimmed first; 3 rejected (1 short, 2 torn)." in words
    assert "2 from warm-up shots, counted apart." in words
    # 3 of 16.
    assert "18.8 % rejected" in words.replace("\xa0", " ")
    form = form_in(page)
    assert (form["trimmed"], form["torn"], form["warmup"]) == ("3", "2", "2")
    refused = client.send(f"/lots/{sheet.number}", form | {"trimmed": "14"})
    assert refused.status_code == 422
    assert "at most the 13 good" in words_in(refused)


def test_a_count_on_the_lots_page_ends_a_pour(full_world, sheet, setup):
    teller = Teller(full_world, sheet)
    teller.hot(900, setup)
    teller.by = None
    teller.tell(10, COUNTED, **body_of(ENTRY))
    words = words_in(Client(full_world).get("/"))
    assert "Nothing is being poured" in words
    assert "13 good" in words


def test_the_nav_has_the_bench_third(full_world):
    text = Client(full_world).get("/").text
    below = text[text.index('<nav class="below"') :]
    assert re.findall(r'href="([^"]+)"', below)[:4] == ["/", "/plan", "/bench", "/looks"]


def test_orders_stand_on_today_late_ones_first(full_world):
    text = Client(full_world).get("/").text
    ordered = text[text.index("<h2>Ordered</h2>") : text.index("<h2>Running low</h2>")]
    assert re.findall(r'href="(/orders/demo[^"]*)"', ordered)[0] == "/orders/demo-order-shop"
    assert "Late: was due" in ordered
    assert ordered.index("Late: was due") < ordered.index("Juniper Vale")
    assert "Plan a pour day" in ordered


def test_nothing_is_said_of_orders_where_there_are_none(empty_world):
    with empty_world.bench() as bench:
        bench.records.save("workplace", "workplace", Workplace(name="Mine"), expected_version=0)
        bench.commit()
    assert "<h2>Ordered</h2>" not in Client(empty_world).get("/").text
