"""A whole pour in a browser, by touch, through every mishap."""

from __future__ import annotations

from contextlib import ExitStack
from pathlib import Path

from playwright.sync_api import Browser, expect

from browser import pour_mishaps
from browser.pour_hand import Hand
from browser.pour_judged import SEED, cups_came_out, one_to_one, phone, shots_g
from browser.pour_kitchen import TWO_CUPS, Kitchen, records
from browser.pour_server import pour_server

COUNTS = {"Good": 17, "Good once trimmed": 2, "Flash": 1, "Short": 1, "Dent": 1, "Other rejects": 1}


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
