"""The bench as a phone sees it: its page, its state, what it sends, and what it shows alone."""

from __future__ import annotations

import dataclasses
import html
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest

from pour_player import PourPlayer, SetClock
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.demo_cups import DEMO_LOT_DRAFT
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.guide_pour import Guide
from pourwright.actions.port import World
from pourwright.actions.tap_event import tapped
from pourwright.base.units import System
from pourwright.bench import tap_kind as kind
from pourwright.bench.clock import after, before
from pourwright.bench.hand import Stage, What
from pourwright.bench.tap_body import BODIES, READ
from pourwright.web.bench.deed_words import deed_words
from pourwright.web.bench.sent_taps import sent_taps
from pourwright.web.bench.state import as_json, state_of
from pourwright.web.show import Settings
from ready_store import demo_bench
from web.client import Client

EIGHT = dataclasses.replace(DEMO_DRAFT, count=8)
Json = dict[str, Any]


class Phone:
    """A phone beside a bench whose clock goes only when told to."""

    def __init__(self, world: World, sheet: int, clock: SetClock) -> None:
        self.client, self.clock, self.world = Client(world), clock, world
        self.address = f"/sheets/{sheet}/bench"
        self.player = PourPlayer(world, sheet, clock)

    def state(self) -> Json:
        answer = self.client.ask("GET", f"{self.address}/state")
        assert answer.status_code == 200, answer.text
        return dict(json.loads(answer.text, parse_constant=_refused))

    def tap(self, kind_of: str, body: Json, at: str | None = None) -> Json:
        """One tap; the answer is what became of it."""
        one = {"id": self.world.ids.fresh(), "kind": kind_of, "at": at or self.clock.at,
               "body": body}  # fmt: skip
        answer = self.post({"sent_at": self.clock.at, "taps": [one]})
        assert answer.status_code == 200, answer.text
        (kept,) = answer.json()["kept"]
        return dict(kept)

    def post(self, envelope: object) -> httpx.Response:
        content = envelope if isinstance(envelope, bytes) else json.dumps(envelope)
        headers = {"origin": self.client.base, "sec-fetch-site": "same-origin",
                   "content-type": "application/json"}  # fmt: skip
        return self.client.ask("POST", f"{self.address}/taps", content=content, headers=headers)


def _refused(token: str) -> None:
    raise AssertionError(f"a state holds {token}")


@pytest.fixture
def clock() -> SetClock:
    return SetClock()


@pytest.fixture
def world(tmp_path: Path, clock: SetClock) -> World:
    return dataclasses.replace(demo_bench(tmp_path), clock=clock)


@pytest.fixture
def phone(world: World, clock: SetClock) -> Phone:
    return Phone(world, freeze_sheet(world, EIGHT).number, clock)


@pytest.fixture
def layered(world: World, clock: SetClock) -> Phone:
    return Phone(world, freeze_sheet(world, DEMO_LOT_DRAFT).number, clock)


def screens(state: Json) -> dict[str, Json]:
    return {state["screen"]["key"]: state["screen"], **state["ahead"]}


def pads(screen: Json) -> Iterator[tuple[Json, Json]]:
    """Every phase of a screen with every pad of it."""
    for phase in screen["phases"]:
        for pad in phase["pads"]:
            yield phase, pad


def main_pad(screen: Json) -> tuple[Json, Json] | None:
    """What the last phase asks to press, with its phase."""
    return next(((ph, p) for ph, p in reversed(list(pads(screen))) if p["main"]), None)


def entered(phase: Json, pad: Json, *, low: bool = False) -> Json:
    """What a pad carries, numbers as they stand or by their low end."""
    body = dict(pad["body"])
    for entry in phase["entries"] if pad["entry"] else ():
        if not low and not entry["value"]:
            continue
        number = entry["low"] if low else float(entry["value"])
        body[entry["name"]] = int(number) if float(number).is_integer() else number
        if entry["choices"]:
            body[f"{entry['name']}_unit"] = entry["choices"][0][0]
    return body


def made_hot(phone: Phone) -> None:
    """Weighed and cooked until the first cup is hot enough."""
    for item in ("room", "jug", "dry", "oven", "injector"):
        phone.tap(kind.READY, {"item": item})
    phone.tap(kind.READ_START, {})
    for task in phone.player.guide().told.setup.cups:
        phone.tap(kind.PARTS_IN, {"cup": task.number})
    phone.player.to(What.TINT)


# --- the page


@pytest.mark.parametrize("which", ["phone", "layered"])
def test_the_page_opens_on_the_state_it_is_in(which, request):
    it = request.getfixturevalue(which)
    page = it.client.get(it.address)
    assert page.status_code == 200
    embedded = r'<script[^>]*type="application/json"[^>]*>(.*?)</script>'
    text = re.search(embedded, page.text, re.DOTALL)
    assert text
    assert json.loads(html.unescape(text[1])) == it.state()


def test_the_state_says_where_the_pour_stands(phone):
    state = phone.state()
    assert state["screen"]["step"] == Stage.READY
    assert state["screen"]["phases"][0]["name"] == "Air, gloves, shield"
    assert (state["newest"], state["undo"], state["clocks"], state["over"]) == (0, None, [], False)
    assert {w["what"] for w in state["wrong"]} == {"hot", "spilled", "burned", "other"}
    for pad in (*(w["pad"] for w in state["wrong"]), *state["held"]):
        tapped(pad["kind"], pad["body"])


def test_a_sheet_that_is_not_there_is_not_found(phone):
    for path in ("", "/state"):
        assert phone.client.ask("GET", f"/sheets/999/bench{path}").status_code == 404
    phone.address = "/sheets/999/bench"
    assert phone.post({"sent_at": phone.clock.at, "taps": []}).status_code == 404


# --- what is sent


def test_taps_are_kept_and_the_answer_names_each_of_them(phone):
    taps = [{"id": f"{n:032x}", "kind": kind.READY, "at": phone.clock.at, "body": {"item": item}}
            for n, item in enumerate(("room", "jug", "room"))]  # fmt: skip
    answer = phone.post({"sent_at": phone.clock.at, "taps": taps})
    assert answer.status_code == 200
    told = answer.json()
    assert [k["id"] for k in told["kept"]] == [t["id"] for t in taps]
    assert [k["kept"] for k in told["kept"]] == [True, True, True]
    assert [k["words"] for k in told["kept"]] == ["", "", "that was made sure of already"]
    state = phone.state()
    assert state["newest"] == told["newest"] > 0
    assert state["undo"]["words"] == "Done: mix the jug"
    assert state["said"] == ["Kept, but it does not count: that was made sure of already."]


def read_as(read: object, unit: str) -> Json:
    return {"kind": READ, "body": {"cup": 1, "read": read, "read_unit": unit}}


@pytest.mark.parametrize(
    ("tap", "words"),
    [
        ({"kind": "sung_to"}, "kind: must be one of ready_done"),
        ({"kind": 7}, "kind: must be the kind of the tap, in words"),
        ({"body": []}, "body: must be a JSON object"),
        ({"at": "noon"}, "at: must be a time, ISO 8601, ending in Z"),
        ({"at": "2026-11-26T14:00:00"}, "at: must name its zone"),
        ({"at": "0001-01-01T00:00:00+23:00"}, "at: must be a time, ISO 8601, ending in Z"),
        (read_as("hot", "c"), "read: must be a number"),
        (read_as(66, "k"), "read_unit: must be f or c"),
        (read_as(10**400, "f"), "read: must be a finite number"),
        (read_as(600, "f"), "read_c: must lie between -10 and 260 °C"),
        (read_as(None, "f"), "read_c: is required"),
    ],
)  # fmt: skip
def test_a_tap_that_cannot_be_read_is_answered_in_words_beside_the_others(phone, tap, words):
    good = {"id": "a" * 32, "kind": kind.READY, "at": phone.clock.at, "body": {"item": "room"}}
    bad = good | {"id": "b" * 32} | tap
    answer = phone.post({"sent_at": phone.clock.at, "taps": [bad, good]})
    assert answer.status_code == 200
    kept = {k["id"]: k for k in answer.json()["kept"]}
    assert kept["a" * 32] == {"id": "a" * 32, "kept": True, "words": ""}
    assert not kept["b" * 32]["kept"]
    assert kept["b" * 32]["words"].startswith(words)


@pytest.mark.parametrize(
    ("strange", "words"),
    [({"id": "7"}, "must be 32 hex digits"), ("room", "must be a JSON object")],
)
def test_a_strange_tap_is_answered_and_the_others_are_kept(phone, strange, words):
    sent = {
        "sent_at": "2026-11-26T14:00:00Z",
        "taps": [
            strange,
            {"id": "c" * 32, "kind": "ready_done", "at": "2026-11-26T14:00:00Z",
             "body": {"item": "room"}},
        ],
    }  # fmt: skip
    answer = phone.post(sent)
    assert answer.status_code == 200
    kept = {it["id"]: it for it in answer.json()["kept"]}
    assert kept["c" * 32]["kept"]
    (other,) = (it for key, it in kept.items() if key != "c" * 32)
    assert not other["kept"]
    assert words in other["words"]


@pytest.mark.parametrize(
    ("envelope", "words"),
    [
        (b"{", "is not JSON"),
        (b'{"sent_at": NaN}', "NaN"),
        ([], "must be a JSON object"),
        ({"sent_at": "2026-11-26T14:00:00Z"}, "must be a list of at most 500 taps"),
        ({"sent_at": "2026-11-26T14:00:00Z", "taps": [{}] * 501}, "at most 500 taps"),
        ({"sent_at": "2026-11-26T14:00:00Z", "taps": [], "hurry": 1}, "fields: sent_at, taps"),
        ({"sent_at": "now", "taps": []}, "must be a time"),
    ],
)
def test_an_envelope_that_cannot_be_read_is_refused_whole(phone, envelope, words):
    answer = phone.post(envelope)
    assert answer.status_code == 422
    assert words in answer.text
    assert phone.state()["newest"] == 0


def test_what_was_read_in_fahrenheit_is_kept_in_celsius(phone):
    phone.tap(kind.READ_START, {"plastic": 68, "plastic_unit": "f", "air": None, "air_unit": "c"})
    (start,) = phone.player.events(kind.READ_START)
    assert (start.body["plastic_c"], start.body["air_c"]) == (20.0, None)


def test_a_phone_s_wrong_clock_is_said_and_its_times_are_put_right(phone):
    behind = before(phone.clock.at, 7200)
    one = {"id": "a" * 32, "kind": kind.READY, "at": behind, "body": {"item": "room"}}
    assert phone.post({"sent_at": behind, "taps": [one]}).json()["kept"][0]["kept"]
    state = phone.state()
    assert state["undo"]["at"] == phone.clock.at
    assert state["said"] == [
        "A phone's clock is 2 h 0 min behind the laptop's: its times were put right."
    ]


def test_every_kind_of_event_has_words_for_taking_it_back(phone):
    told = phone.player.guide().told
    made_hot(phone)
    with phone.world.bench() as bench:
        code = bench.sheets.get(told.sheet.number).code
        kept = [r.event for r in bench.ledger.of(f"lot/{code}")]
    assert len({e.kind for e in kept}) > 5
    for event in kept:
        assert deed_words(told, event.kind, event.body)


# --- what is shown

SOME_PADS = 30


def test_every_screen_of_a_pour_is_whole_in_both_systems_of_units(phone):
    seen: dict[System, dict[str, Json]] = {units: {} for units in System}
    stages: set[str] = set()
    over = False
    while not over:
        guide = phone.player.guide()
        for units in System:
            state = read_in(guide, units)
            for screen in screens(state).values():
                whole(screen, state)
            seen[units] |= screens(state)
            over = state["over"]
        stages.add(guide.hand.stage)
        if guide.hand.stage is Stage.TINT:
            # Drop by drop is told elsewhere.
            phone.player.until(lambda g: g.hand.stage is not Stage.TINT)
        elif not over:
            phone.player.step(guide)
    calm = set(Stage) - {Stage.DONE, Stage.STOPPED}
    assert stages in (calm, calm - {Stage.REWARM})
    for units, own, other in ((System.US, "°F", "°C"), (System.METRIC, "°C", "°F")):
        assert len(seen[units]) > 60
        phases = [ph for screen in seen[units].values() for ph in screen["phases"]]
        said = " ".join(w for ph in phases for w in ph["words"])
        assert own in said
        assert other not in said
        assert ("fl oz" in said) == (units is System.US)


def read_in(guide: Guide, units: System) -> Json:
    """The state of a pour for a bench with those units, as it is sent."""
    sent = json.dumps(as_json(state_of(guide, Settings(units))))
    return dict(json.loads(sent, parse_constant=_refused))


def whole(screen: Json, state: Json) -> None:
    """Words for everything, few pads, bodies the bench accepts, and ways that lead somewhere."""
    assert screen["step"] in set(Stage)
    assert screen["phases"]
    for n, phase in enumerate(screen["phases"]):
        assert phase["name"]
        assert all(phase["words"])
        assert phase["words"] or phase["big"]
        main = [p for p in phase["pads"] if p["main"]]
        assert len(main) <= 1, screen["key"]
        assert len(phase["pads"]) - len(main) <= 2, screen["key"]
        # What a clock brings rings: a later phase, or a mold that is due. The last one waits.
        rings = n > 0 or phase["name"].startswith("Open mold")
        assert phase["alarm"] == rings, (screen["key"], phase["name"])
        assert (phase["for_s"] is None) == (n == len(screen["phases"]) - 1)
    for phase, pad in pads(screen):
        assert pad["label"]
        for key in [pad["next"], *(row["next"] for row in pad["next_by"] or ())]:
            assert key is None or key in screens(state), (screen["key"], pad["label"])
        if not pad["kind"]:
            assert pad["link"]
            continue
        assert pad["kind"] in BODIES
        sent = sent_taps(envelope(pad["kind"], entered(phase, pad, low=True)))
        assert not sent.refused
        tapped(pad["kind"], sent.taps[0].body)


def envelope(kind_of: str, body: Json) -> bytes:
    one = {"id": "a" * 32, "kind": kind_of, "at": "2026-11-26T14:00:00Z", "body": body}
    return json.dumps({"sent_at": "2026-11-26T14:00:00Z", "taps": [one]}).encode()


def test_two_layers_show_both_cups_and_a_pad_for_each(layered):
    made_hot_layers(layered)
    state = layered.state()
    screen = state["screen"]
    whole(screen, state)
    assert screen["phases"][0]["name"] == "Fill mold 1"
    assert screen["about"] == "Cups 1 and 2"
    labels = [p["label"] for _, p in pads(screen)]
    assert labels == ["Mold full", "Cup 1 is empty", "Cup 2 is empty"]


def made_hot_layers(phone: Phone) -> None:
    """Both cups said to be tinted before they are cooked, so that they are hot together."""
    for cup in phone.player.guide().told.setup.cups:
        phone.tap(kind.PARTS_IN, {"cup": cup.number})
        for part in (*(p.key for p in cup.tint), "card"):
            phone.tap(kind.TINTED, {"cup": cup.number, "part": part})
        phone.tap(kind.PRIMED, {"cup": cup.number})
    phone.player.to(What.FILL)


# --- a phone out of reach


def shown(screen: Json) -> tuple[str, str, list[tuple[str, str]]]:
    """What a screen says in large letters; seconds on are the laptop's to reckon."""
    heats = screen["phases"][0]["name"] == "Heat"
    return (
        screen["step"],
        screen["about"],
        [(ph["name"], "" if heats else ph["big"]) for ph in screen["phases"]],
    )


def follow(phone: Phone, *, most: int) -> tuple[int, int]:
    """Press main pads by a state that grows old, and compare with what really comes.

    A new state is asked for where the old one leads no further. The answer is how many pads were
    pressed, and the longest way gone by one state.
    """
    pressed, longest, deep = 0, 0, 0
    state = phone.state()
    screen = state["screen"]
    while pressed < most:
        found = main_pad(screen)
        assert found is not None
        phase, pad = found
        to_the_last_phase(phone, screen)
        assert phone.tap(pad["kind"], entered(phase, pad))["words"] == ""
        phone.clock.goes(2)
        pressed, deep = pressed + 1, deep + 1
        real = phone.state()["screen"]
        if pad["next"] is None or real["step"] in {Stage.HEAT, Stage.REWARM}:
            state, longest, deep = phone.state(), max(longest, deep), 0
            screen = state["screen"]
            if real["step"] in {Stage.HEAT, Stage.REWARM}:
                break
            continue
        screen = state["ahead"][pad["next"]]
        assert shown(screen) == shown(real), (pressed, pad["label"])
        assert screen["key"] == real["key"]
    return pressed, max(longest, deep)


def to_the_last_phase(phone: Phone, screen: Json) -> None:
    began = screen["began"] or phone.clock.at
    spent = sum(ph["for_s"] or 0 for ph in screen["phases"])
    phone.clock.at = max(phone.clock.at, after(began, round(spent)))


def test_a_phone_alone_shows_what_the_laptop_would_from_glove_to_oven(phone):
    pressed, longest = follow(phone, most=SOME_PADS)
    assert pressed >= 8
    assert longest >= 8


def test_a_phone_alone_shows_what_the_laptop_would_from_tint_to_mold(phone):
    made_hot(phone)
    pressed, longest = follow(phone, most=SOME_PADS)
    assert pressed >= 20
    assert longest >= 20


def test_a_phone_alone_shows_what_the_laptop_would_from_count_to_rack(phone):
    made_hot(phone)
    phone.player.to(What.TALLY)
    pressed, longest = follow(phone, most=16)
    assert pressed == longest == 16


def test_a_reading_out_of_reach_leads_by_the_sheet_s_table(phone):
    for item in ("room", "jug", "dry", "oven", "injector"):
        phone.tap(kind.READY, {"item": item})
    phone.tap(kind.READ_START, {})
    phone.tap(kind.PARTS_IN, {"cup": 1})
    phone.tap(kind.BEGUN, {"cup": 1, "for_s": 60})
    state = phone.state()
    found = main_pad(state["screen"])
    assert found is not None
    rows = found[1]["next_by"]
    with phone.world.bench() as bench:
        table = bench.sheets.get(int(phone.address.split("/")[2])).plan["heat"][0]["table"]
    for row in table:
        for unit, read in (("c", row["reads_c"]), ("f", row["reads_c"] * 1.8 + 32)):
            (mine,) = [r for r in rows if r["unit"] == unit and abs(r["from"] - read) < 0.06]
            screen = state["ahead"][mine["next"]]
            if row["heat_s"] > 0:
                minutes, seconds = divmod(round(row["heat_s"]), 60)
                assert screen["phases"][0]["big"] == f"{minutes}:{seconds:02}"
                assert [p["label"] for _, p in pads(screen)] == ["Oven started"]
            else:
                assert screen["phases"][0]["name"] == "Hot enough"
