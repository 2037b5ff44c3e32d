"""The live page of a cup, and what an oven's page says of the cups cooked in it."""

from __future__ import annotations

import re

import pytest

from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.see_cup import see_cup
from pourwright.base.units import System
from pourwright.heat.next_step import Next
from pourwright.shop.workplace import Workplace
from web.client import Client, form_in, words_in

OVEN = "/records/microwave/demo-oven-small"


@pytest.fixture
def page(full_world):
    return f"/sheets/{freeze_sheet(full_world, DEMO_DRAFT).number}/cups/1"


def in_metric(world):
    with world.bench() as bench:
        place = bench.records.get("workplace", "workplace")
        noun = Workplace(name="Test bench", units=System.METRIC, ambient_c=22)
        bench.records.save("workplace", "workplace", noun, expected_version=place.version)
        bench.commit()


def seen(world, page):
    return see_cup(world, int(page.split("/")[2]), 1)


def move_on(page) -> str:
    return "".join(re.findall(r'id="move">(.*?)</p>', page.text))


def sent(client, page, **typed):
    form = form_in(client.get(page)) | {"late": "on"} | typed
    return client.send(page, {k: v for k, v in form.items() if v is not None})


def followed(client, world, page, *, off_c=0.0):
    """Do what the page says and read what it expects."""
    expected = seen(world, page).answer.reads_c.typical + off_c
    in_f = "°F" in client.get(page).text
    return sent(client, page, read_c=f"{expected * 1.8 + 32 if in_f else expected:.0f}")


def test_a_fresh_cup_says_how_long_to_heat_and_what_it_will_read(full_world, page):
    words = words_in(Client(full_world).get(page))
    answer = seen(full_world, page).answer
    minutes, seconds = divmod(round(answer.on_s), 60)
    assert f"Heat {minutes}:{seconds:02}" in words
    assert f"should read {answer.reads_c.typical * 1.8 + 32:.0f}" in words
    assert words.index("Never leave a heating cup") < words.index(f"Heat {minutes}:")


def test_a_round_leads_to_the_next_one(full_world, page):
    client = Client(full_world)
    before = seen(full_world, page).answer
    answer = followed(client, full_world, page)
    assert answer.status_code == 303
    assert answer.headers["location"] == f"{page}?late=1"
    after = seen(full_world, page)
    assert after.answer.do is Next.HEAT
    assert after.answer.on_s != before.on_s
    shown = client.get(page)
    assert f'value="{after.answer.on_s:.0f}"' in shown.text
    assert "fits" in words_in(shown)
    assert shown.text.count('<circle class="dot"') == 1
    assert 'class="line to-come"' in shown.text


def test_a_form_sent_twice_is_one_round(full_world, page):
    client = Client(full_world)
    form = form_in(client.get(page)) | {"late": "on", "read_c": "150"}
    for _ in range(2):
        assert client.send(page, form).status_code == 303
    assert len(seen(full_world, page).story.entries) == 1


def test_minutes_and_seconds_are_understood(full_world, page):
    sent(Client(full_world), page, heated_s="1:25", read_c="150")
    assert seen(full_world, page).story.steps[0].for_s == 85


@pytest.mark.parametrize(
    ("typed", "box", "why"),
    [
        ({"read_c": "900"}, "read_c", "must lie between 14 and 500"),
        ({"read_c": "hot"}, "read_c", "is not a number"),
        ({"heated_s": "4000"}, "heated_s", "must lie between 0 and 1,200"),
        ({"heated_s": "0", "read_c": ""}, "heated_s", "enter the seconds heated, a reading"),
        ({"drawn_g": "540", "read_c": "150"}, "drawn_g", "an empty cup is not heated"),
    ],
)
def test_what_cannot_be_is_refused_beside_its_box(full_world, page, typed, box, why):
    client = Client(full_world)
    answer = sent(client, page, **typed)
    assert answer.status_code == 422
    problem = re.search(rf'id="f-{box}-problem">.*?<span>(.*?)</span>', answer.text, re.DOTALL)
    assert problem
    assert why in problem[1].replace("\N{NO-BREAK SPACE}", " ")
    assert all(form_in(answer)[name] == value for name, value in typed.items())
    assert seen(full_world, page).story.entries == ()


def test_a_clock_that_runs_backwards_is_refused_beside_its_box(full_world, page):
    client = Client(full_world)
    sent(client, page, late=None, read_c="150", heated_s="60")
    answer = sent(client, page, late=None, read_c="250", heated_s="200")
    assert answer.status_code == 422
    assert "the clock would run backwards" in words_in(answer)
    assert form_in(answer)["read_c"] == "250"
    assert len(seen(full_world, page).story.entries) == 1


def test_a_reading_in_celsius_on_a_fahrenheit_bench_is_asked_about(full_world, page):
    client = Client(full_world)
    followed(client, full_world, page)
    celsius = f"{seen(full_world, page).answer.reads_c.typical:.0f}"
    sent(client, page, read_c=celsius)
    asked = client.get(page)
    words = words_in(asked)
    assert f"It was {celsius} °C" in words
    assert f"It was {celsius} °F" in words
    assert "read again" in words
    assert "Heat " not in move_on(asked)
    forms = re.findall(
        r'/meant"><input type="hidden" name="@id" value="(.*?)">'
        r'<input type="hidden" name="event" value="(.*?)">'
        r'<input type="hidden" name="read_c" value="(.*?)">',
        asked.text,
    )
    assert len(forms) == 2
    entries = len(seen(full_world, page).story.entries)
    fields = dict(zip(("@id", "event", "read_c"), forms[0], strict=True))
    assert client.send(f"{page}/meant", fields).status_code == 303
    after = seen(full_world, page)
    assert len(after.story.entries) == entries
    assert after.answer.readings[-1].read_c == pytest.approx(float(celsius))
    assert not after.answer.readings[-1].doubted


def test_an_insisted_reading_is_kept_and_still_leads_to_another(full_world, page):
    client = Client(full_world)
    followed(client, full_world, page)
    sent(client, page, read_c=f"{seen(full_world, page).answer.reads_c.typical:.0f}")
    view = seen(full_world, page)
    fields = {"@id": "a" * 32, "event": view.story.newest}
    kept = f"{view.answer.readings[-1].read_c}"
    assert client.send(f"{page}/meant", fields | {"read_c": kept}).status_code == 303
    words = words_in(client.get(page))
    assert "Kept as" in words
    assert "stir and read again" in words
    assert seen(full_world, page).answer.on_s == 0


def test_fahrenheit_typed_on_a_celsius_bench_is_offered_as_such(full_world, page):
    in_metric(full_world)
    client = Client(full_world)
    refused = sent(client, page, read_c="338")
    assert refused.status_code == 422
    assert "It was 338 °F" in words_in(refused)
    again = form_in(refused) | {"@do": "other_unit", "heated_s": "300"}
    assert client.send(page, again).status_code == 303
    assert seen(full_world, page).answer.readings[-1].read_c == pytest.approx(170)


def test_the_last_entry_can_be_taken_back_and_a_cup_be_poured(full_world, page):
    client = Client(full_world)
    followed(client, full_world, page)
    newest = seen(full_world, page).story.newest
    assert client.send(f"{page}/poured", {"@id": "b" * 32}).status_code == 303
    poured = client.get(page)
    assert "Poured" in move_on(poured)
    assert 'id="record"' not in poured.text
    assert "Enter what came out" in words_in(poured)
    assert client.send(f"{page}/undo", {"@id": "c" * 32, "event": "b" * 32}).status_code == 303
    assert client.send(f"{page}/undo", {"@id": "d" * 32, "event": newest}).status_code == 303
    assert seen(full_world, page).story.entries == ()


def test_a_refused_deed_says_why_on_the_page(full_world, page):
    client = Client(full_world)
    refused = client.send(f"{page}/poured", {"@id": "b" * 32})
    assert refused.status_code == 422
    assert "never heated" in words_in(refused)
    stale = client.send(f"{page}/meant", {"@id": "b" * 32, "event": "e" * 32, "read_c": "80"})
    assert stale.status_code == 409
    assert "no longer the newest" in words_in(stale)
    assert client.send(page, {"@id": "not hex"}).status_code == 422


@pytest.mark.parametrize("path", ["/sheets/1/cups/9", "/sheets/77/cups/1"])
def test_a_cup_that_is_not_there_is_not_found(full_world, path):
    assert Client(full_world).get(path).status_code == 404


def test_sheet_and_lot_lead_to_the_cups(full_world, page):
    client = Client(full_world)
    sheet = page.split("/cups")[0]
    for path in (sheet, sheet.replace("sheets", "lots")):
        assert f'href="{page}">Heat cup 1' in client.get(path).text
    assert "Cup 2: poured" in words_in(client.get("/sheets/1"))


def test_a_lot_says_what_its_cups_taught(full_world):
    words = words_in(Client(full_world).get("/lots/1"))
    assert re.search(r"took up [3-7].% less than was believed before; next first burst", words)
    assert "instead of 0:4" in words


def test_an_oven_s_page_shows_what_was_learned_of_it(full_world):
    client = Client(full_world)
    page = client.get(OVEN)
    words = words_in(page)
    assert page.text.count('<rect class="before"') == 2
    assert "not a measured wattage" in words
    assert "less than was believed before it" in words
    assert "A new water test is due" not in words
    other = words_in(client.get("/records/microwave/demo-oven-usual"))
    assert "No cup was followed in it yet" in other


def test_an_oven_nobody_knows_is_due_a_water_test(full_world):
    client = Client(full_world)
    assert client.send("/records/microwave/new", {"name": "Blank"}).status_code == 303
    with full_world.bench() as bench:
        key = next(s.id for s in bench.records.all("microwave") if s.noun.name == "Blank")
    assert "A new water test is due" in words_in(client.get(f"/records/microwave/{key}"))
