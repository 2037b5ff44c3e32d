"""The browser's picture of a look beside the bench's, patch by patch where the skin faces the eye.

The fence is 3 CIEDE2000 anywhere; a difference of 1 is just seen side by side. Seconds are those
until the finest drawing stands; where the graphics card is a program, as on a server, they say
little of a phone.
"""

from __future__ import annotations

import tempfile
import time
from pathlib import Path

from playwright.sync_api import sync_playwright

from browser.conftest import ARGUMENTS, browser_file
from browser.look_beside import codes, differences, other, shown
from browser.server import running_bench
from browser.test_look_view import LOOKS
from pourwright.base.record import from_json
from pourwright.forecast.picture.picture_input import PictureInput

PIXELS = 640
MOST = 3.0


def main() -> None:
    """A row to a look."""
    looks = {
        name: from_json(PictureInput, body | {"pixels": PIXELS}) for name, body in LOOKS.items()
    }
    print(
        f"{'browser beside bench':24} {'patches':>8} {'mean dE00':>10} {'most dE00':>10} {'s':>6}"
    )
    with (
        tempfile.TemporaryDirectory() as folder,
        running_bench(Path(folder)) as address,
        sync_playwright() as play,
    ):
        driven = play.chromium.launch(executable_path=browser_file(), args=list(ARGUMENTS))
        page = driven.new_page(base_url=address, viewport={"width": 1440, "height": 900})
        start = time.perf_counter()
        for name, asked in looks.items():
            if name == next(iter(looks)):
                shown(page, looks)
            else:
                other(page, name)
            seconds = time.perf_counter() - start
            off = differences(asked, codes(page))
            print(
                f"{name:24} {len(off):8d} {off.mean():10.2f} {off.max():10.2f} {seconds:6.1f}",
                flush=True,
            )
            if off.max() > MOST:
                raise SystemExit(f"{name}: more than {MOST} CIEDE2000 apart")
            start = time.perf_counter()
        driven.close()


if __name__ == "__main__":
    main()
