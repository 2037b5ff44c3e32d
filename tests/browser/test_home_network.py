"""The first steps of a pour over the home network, on a phone that scanned the laptop's code."""

from __future__ import annotations

import io
import re
from pathlib import Path
from urllib.parse import urlsplit

import zxingcpp
from PIL import Image
from playwright.sync_api import Browser, expect

from browser.phone_bench import phone_bench, started
from browser.pour_hand import LINKED
from browser.watch import PHONE
from pourwright import wire


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
