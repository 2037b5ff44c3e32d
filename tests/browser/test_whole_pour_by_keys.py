"""A whole pour in a browser by the keyboard alone, as a foot switch and a numeric pad would."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Browser, expect

from browser.pour_judged import SEED, cups_came_out, one_to_one, phone, shots_g
from browser.pour_keys import KeyHand
from browser.pour_kitchen import ONE_CUP, Kitchen, records
from browser.pour_server import pour_server


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
