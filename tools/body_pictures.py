"""Take the pictures of baits, looks, molds and questions for docs/screenshots.

    python tools/body_pictures.py

One bait of every family at its usual, invented measures is put on a demo bench and drawn by a real
browser, then the pages around it at a phone's and a laptop's size.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from playwright.sync_api import Page, sync_playwright  # noqa: E402

from browser.conftest import ARGUMENTS, browser_file  # noqa: E402  needs the path above
from browser.server import running_bench  # noqa: E402
from pourwright import wire  # noqa: E402
from pourwright.actions.demo import fill_demo  # noqa: E402
from pourwright.actions.keep_record import add_record  # noqa: E402
from pourwright.body.families import FAMILIES  # noqa: E402
from pourwright.shop.mold import Bait  # noqa: E402

OUT = ROOT / "docs" / "screenshots"
SIZES = {"phone": (390, 844), "laptop": (1440, 900)}
BAIT, MOLD = "/baits/demo-bait-paddle", "/molds/demo-mold-paddle"
SHAD, MARSH = "demo-look-shad", "demo-look-marsh"
PAGES = {
    "bait": BAIT, "shapes": "/shapes", "import": "/baits/import", "mold": MOLD,
    "make-mold": f"{BAIT}/mold?do=make", "defects": "/defects", "defect": "/defects/short",
    "look": f"/looks/{SHAD}", "compare": f"/looks/compare?look={SHAD}&look={MARSH}",
    "color": f"/looks/{SHAD}/color", "looks": "/looks", "plan": "/plan",
    "questions": "/questions", "question": "/questions/fill.hold",
}  # fmt: skip
MOST_MS = 60_000


@contextmanager
def bench() -> Iterator[tuple[str, dict[str, str]]]:
    """A demo bench with a bait of each family: its address, and the address of each bait."""
    with tempfile.TemporaryDirectory() as folder:
        world = wire.world(Path(folder) / "bench.db")
        fill_demo(world)
        nouns = {k: Bait(name=f"Invented {f.label}", shape=f()) for k, f in FAMILIES.items()}
        baits = {key: f"/baits/{add_record(world, noun).id}" for key, noun in nouns.items()}
        with running_bench(Path(folder)) as address:
            yield address, baits


def settled(page: Page) -> None:
    """Wait for the solids on a page to be drawn."""
    page.wait_for_load_state("networkidle", timeout=MOST_MS)
    page.wait_for_timeout(600)


def main() -> None:
    """Every picture, anew."""
    with bench() as (address, baits), sync_playwright() as play:
        browser = play.chromium.launch(executable_path=browser_file(), args=list(ARGUMENTS))
        for size, (width, height) in SIZES.items():
            page = browser.new_page(viewport={"width": width, "height": height})
            page.set_default_timeout(MOST_MS)
            page.emulate_media(reduced_motion="reduce")
            for name, where in PAGES.items():
                page.goto(f"{address}{where}")
                settled(page)
                page.screenshot(path=str(OUT / f"{size}-{name}.png"))
        page = browser.new_page(viewport={"width": 900, "height": 900})
        page.set_default_timeout(MOST_MS)
        page.emulate_media(reduced_motion="reduce")
        for key, where in baits.items():
            page.goto(f"{address}{where}")
            settled(page)
            page.locator(".stage").screenshot(path=str(OUT / f"shape-{key.replace('_', '-')}.png"))
        browser.close()


if __name__ == "__main__":
    main()
