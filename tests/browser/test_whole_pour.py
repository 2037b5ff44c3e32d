"""Whole pours in a browser: by touch through every mishap, by keyboard, and over the home network.

Behind the thermometer stands a kitchen that shares no line and no number with the product; the
bounds of the cups are those of the closed loop of heating.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from urllib.parse import urlsplit

import zxingcpp
from PIL import Image
from playwright.sync_api import Browser, Page, expect

from browser import pour_mishaps
from browser.phone_bench import phone_bench, started
from browser.pour_hand import LINKED, Hand
from browser.pour_keys import KeyHand
from browser.pour_kitchen import ONE_CUP, TWO_CUPS, Kitchen, records
from browser.pour_server import PourServer, pour_server
from browser.watch import PHONE
from pourwright import wire

SEED = 7
TARGET_C, NEAR_K, LIMIT_C = 175.0, 6.0, 200.0
BECOMES = {"cup_read": "cup_worked", "count_closed": "counted"}
COUNTS = {"Good": 17, "Good once trimmed": 2, "Flash": 1, "Short": 1, "Dent": 1, "Other rejects": 1}


@contextmanager
def phone(browser: Browser, address: str) -> Iterator[Page]:
    """A phone of its own, with nothing kept on it yet."""
    width, height = PHONE
    context = browser.new_context(
        viewport={"width": width, "height": height}, has_touch=True, is_mobile=True
    )
    try:
        page = context.new_page()
        page.goto(address)
        page.wait_for_function(LINKED)
        yield page
    finally:
        context.close()


def shots_g(server: PourServer, sheet: int) -> dict[int, float]:
    """What one shot draws from each cup."""
    with server.world().bench() as bench:
        return {cup["number"]: cup["shot_g"] for cup in bench.sheets.get(sheet).plan["cups"]}


def one_to_one(server: PourServer, sheet: int, *hands: Hand) -> None:
    """Every tap a browser made is in the ledger once, in its order, and nothing else is."""
    lot = [recorded.event for recorded in server.lot(sheet)]
    made = [tap for hand in hands for tap in hand.made.values()]
    assert sorted(event.id for event in lot) == sorted(tap["id"] for tap in made)
    kinds = {event.id: event.kind for event in lot}
    for tap in made:
        assert kinds[tap["id"]] == BECOMES.get(tap["kind"], tap["kind"])
    places = {event.id: place for place, event in enumerate(lot)}
    for hand in hands:
        order = [places[key] for key in hand.made]
        assert order == sorted(order)
    with server.world().bench() as bench:
        assert bench.ledger.check() > len(lot)


def cups_came_out(hand: Hand, cups: int) -> None:
    """Near the target where they were called hot; nowhere over the limit, to the end."""
    assert len(hand.hot_c) == cups
    for cup, mean_c in hand.hot_c.items():
        assert abs(mean_c - TARGET_C) < NEAR_K, (cup, mean_c)
        assert hand.kitchen.peak_c(cup) < LIMIT_C, (cup, hand.kitchen.peak_c(cup))


def in_the_batch_book(hand: Hand, sheet: int) -> None:
    """The lot stands there with its counts, what was planned beside what came."""
    hand.page.locator("#main-place .pad").tap()
    hand.page.wait_for_url(f"**/lots/{sheet}")
    words = hand.page.locator("main").inner_text()
    assert "Planned against actual" in words
    good = COUNTS["Good"] + COUNTS["Good once trimmed"]
    rejected = sum(COUNTS.values()) - good
    for name, number in (("good", good), ("trimmed", COUNTS["Good once trimmed"]), ("flash", 1),
                         ("short", 1), ("dent", 1), ("other", 1)):  # fmt: skip
        assert hand.page.locator(f"[name={name}]").input_value() == str(number)
    assert f"{100 * rejected / sum(COUNTS.values()):.1f}" in words
    hand.page.goto(f"{hand.server.address}/book")
    expect(hand.page.locator("main")).to_contain_text(TWO_CUPS.name)
    expect(hand.page.locator("main")).to_contain_text(f"{good} good")


def test_a_whole_pour_by_touch_with_everything_that_goes_wrong(
    browser: Browser, tmp_path: Path
) -> None:
    kitchen = Kitchen(SEED)
    with pour_server(tmp_path) as server, ExitStack() as phones:
        sheet = server.fill(records(kitchen), TWO_CUPS)
        server.start()
        address, shots = f"{server.address}/sheets/{sheet}/bench", shots_g(server, sheet)
        page = phones.enter_context(phone(browser, address))
        hand = Hand(page, server, kitchen, shots, COUNTS)
        pour_mishaps.undone_at_once(hand)
        pour_mishaps.undone_by_holding(hand)
        pour_mishaps.something_wrong(hand)
        pour_mishaps.celsius_typed_as_fahrenheit(hand)
        hand.play_to("Tint")
        pour_mishaps.reloaded(hand)
        pour_mishaps.wild_reading(hand)
        pour_mishaps.dropped_link(hand)
        hand.play_to("Tint")
        page = phones.enter_context(phone(browser, address))
        second = Hand(page, server, kitchen, shots)
        pour_mishaps.same_step_within_two_seconds(hand, second)
        pour_mishaps.both_tap_at_once(hand, second)
        assert "3 shots gave 24 at most" in hand.play_to("Count").words
        pour_mishaps.killed_in_the_middle(hand)
        hand.play_to("See the lot")
        cups_came_out(hand, cups=2)
        one_to_one(server, sheet, hand, second)
        in_the_batch_book(hand, sheet)
        assert hand.in_vain <= hand.presses // 20


def test_a_whole_pour_by_the_keyboard_alone(browser: Browser, tmp_path: Path) -> None:
    kitchen = Kitchen(SEED)
    with pour_server(tmp_path) as server:
        sheet = server.fill(records(kitchen), ONE_CUP)
        server.start()
        address = f"{server.address}/sheets/{sheet}/bench"
        with phone(browser, address) as page:
            hand = KeyHand(page, server, kitchen, shots_g(server, sheet), {"Good": 15, "Dent": 1})
            hand.play_to("Read the start")
            hand.press("Undo: ")
            assert hand.settled().name == "Mix the jug"
            hand.play_to("Oven started")
            hand.reach("Something wrong")
            page.keyboard.press("Enter")
            hand.reach("Something else")
            page.keyboard.press("Enter")
            expect(page.locator(".do-first li").first).to_contain_text("Oven off")
            page.keyboard.press("Escape")
            hand.press("All is well: go on")
            assert hand.settled().main == "Oven started"
            hand.play_to("See the lot")
            cups_came_out(hand, cups=1)
            one_to_one(server, sheet, hand)
            page.keyboard.press("Enter")
            page.wait_for_url(f"**/lots/{sheet}")
            expect(page.locator("main")).to_contain_text("Planned against actual")


def test_two_steps_over_the_home_network(browser: Browser, tmp_path: Path) -> None:
    """A phone that scans the code shown on the laptop, under a name of the home network."""
    with phone_bench(tmp_path) as bench, started(browser, tmp_path) as own:
        laptop = own.new_page()
        laptop.goto(f"{bench.here}/plan")
        laptop.click("#plan-form button[value=freeze]:not(.first)")
        laptop.wait_for_url("**/sheets/*")
        sheet = int(laptop.url.rsplit("/", 1)[1])
        laptop.goto(f"{bench.here}/phones")
        laptop.locator("main form button").click()
        expect(laptop.locator(".scan-code svg")).to_be_visible()
        (code,) = zxingcpp.read_barcodes(Image.open(io.BytesIO(laptop.screenshot())))
        pair = urlsplit(code.text)
        printed = (tmp_path / "server.txt").read_text(encoding="utf-8")
        name = next(n for n in re.findall(r"https://\S+", printed) if ".local" in n)
        context = own.new_context(
            viewport={"width": PHONE[0], "height": PHONE[1]}, has_touch=True, is_mobile=True,
            ignore_https_errors=True,
        )  # fmt: skip
        page = context.new_page()
        page.goto(name + pair.path)
        page.get_by_label("Name of this phone").fill("Phone at the pot")
        page.get_by_role("button", name="Pair this phone").tap()
        expect(page.get_by_role("heading", name="Today")).to_be_visible()
        page.goto(f"{name}/sheets/{sheet}/bench")
        page.wait_for_function(LINKED)
        for step in ("Mix the jug", "Read the start"):
            page.wait_for_timeout(900)
            page.locator("#main-place .pad").tap()
            expect(page.locator("#phase-name")).to_have_text(step)
        page.wait_for_function("() => !window.bench.outbox().length")
        with wire.world(tmp_path / "bench.db").bench() as store:
            lot = store.ledger.of(f"lot/{store.sheets.get(sheet).code}")
        assert [it.event.kind for it in lot] == ["ready_done", "ready_done"]
        (by,) = {it.event.body["by"] for it in lot}
        assert by != "laptop"
        context.close()
