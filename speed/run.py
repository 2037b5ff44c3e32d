"""Speed of the main job, printed: plan in process and in the browser, start, memory.

    python3 run.py speed          everything, an hour
    python3 run.py speed plan     the plan, the browser, the start
    python3 run.py speed color    recipes, matches, proofs and the closed loop of color
    python3 run.py speed heat     the closed loop of heating against its peers, some forty minutes
    python3 run.py speed bench    the guided pour: taps, answers, silence, alarms, memory
    python3 run.py speed mold     molds of every family, beside a plain cut, through a slicer
    python3 run.py speed shop     a year of an invented shop: its pages, traces, totals, exchange
    python3 run.py speed pour_day timetables of pour days, beside the best simple rule
    python3 run.py speed picture  pictures of looks, and how far the browser's are from the bench's

The peer for the plan is the same plan with nothing kept from the last one, in the same run: the
ratio says what keeping the cooked cups earns a person who types.
"""

from __future__ import annotations

import dataclasses
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from browser.conftest import ARGUMENTS, browser_file  # noqa: E402  needs the path above
from browser.server import running_bench  # noqa: E402
from pourwright import wire  # noqa: E402
from pourwright.actions.demo import DEMO_DRAFT  # noqa: E402
from pourwright.actions.plan_batch import plan_batch  # noqa: E402
from pourwright.forecast.heat import cook  # noqa: E402

COUNTS = range(12, 72)
LIVE = """(n) => new Promise(done => {
  const box = document.querySelector('[name=count]');
  const result = document.getElementById('plan-result');
  const start = performance.now();
  const seen = new MutationObserver(() => { seen.disconnect(); done(performance.now() - start); });
  seen.observe(result, { childList: true });
  box.value = n;
  box.dispatchEvent(new Event('input', { bubbles: true }));
})"""
SLIDE = """(n) => new Promise(done => {
  const box = document.querySelector('#amount-0');
  const swatches = document.getElementById('swatches');
  const start = performance.now();
  const seen = new MutationObserver(() => { seen.disconnect(); done(performance.now() - start); });
  seen.observe(swatches, { childList: true });
  box.value = n;
  box.dispatchEvent(new Event('input', { bubbles: true }));
})"""


def told(name: str, seconds: list[float]) -> None:
    """Print median and 95th percentile in milliseconds."""
    ordered = sorted(seconds)
    p95 = ordered[round(0.95 * (len(ordered) - 1))]
    print(f"{name:44} p50 {statistics.median(ordered) * 1e3:7.1f} ms   p95 {p95 * 1e3:7.1f} ms")


def timed(act: Callable[[int], object], n: int) -> float:
    """Seconds an act takes."""
    start = time.perf_counter()
    act(n)
    return time.perf_counter() - start


def in_process(folder: Path) -> None:
    """A changed count, kept and unkept."""
    world = wire.world(folder / "speed.db")
    wire.fill_demo_if_empty(world)
    with world.bench() as bench:

        def again(count: int) -> None:
            plan_batch(bench, dataclasses.replace(DEMO_DRAFT, count=count))

        again(11)
        live = [timed(again, n) for n in COUNTS]
        fresh = []
        for n in COUNTS:
            cook.cache_clear()
            fresh.append(timed(again, n))
    told("plan after a changed count, in process", live)
    told("the same with no cup kept (peer)", fresh)
    print(f"{'ratio of medians, peer to plan':44} {_ratio(fresh, live):.1f}")


def in_browser(folder: Path) -> None:
    """A changed count until the new numbers stand on the page; memory of the server."""
    from playwright.sync_api import sync_playwright  # noqa: PLC0415  only where a browser is

    file = browser_file()
    if file is None:
        print("no browser found: the browser figures are missing")
        return
    with running_bench(folder, "--demo") as address, sync_playwright() as play:
        page = play.chromium.launch(executable_path=file, args=list(ARGUMENTS)).new_page()
        page.goto(f"{address}/plan")
        page.evaluate(LIVE, "11")
        told("plan after a changed count, in the browser",
             [page.evaluate(LIVE, str(n)) / 1e3 for n in COUNTS])  # fmt: skip
        page.goto(f"{address}/looks/demo-look-marsh/color")
        page.evaluate(SLIDE, "11")
        told("swatches after a moved slider, in the browser",
             [page.evaluate(SLIDE, str(n)) / 1e3 for n in range(2, 38)])  # fmt: skip
        port = address.rsplit(":", 1)[1]
        print(f"{'memory of the server':44} {_memory_mb(folder):.0f} MB (port {port})")


def start_time(folder: Path) -> None:
    """From the command to the line that names the address."""
    command = [sys.executable, str(ROOT / "run.py"), "--no-browser", "--port", "0",
               "--store", str(folder / "start.db"), "--demo"]  # fmt: skip
    seconds = []
    for _ in range(4):
        begin = time.perf_counter()
        server = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        if server.stdout is None:
            raise RuntimeError("the server has no output")
        said = iter(server.stdout.readline, "")
        if not any("ready at" in line for line in said):
            raise RuntimeError(f"the server did not start: {server.wait()}")
        seconds.append(time.perf_counter() - begin)
        server.terminate()
        server.wait()
    told("start, first one left out", seconds[1:])


def _ratio(peer: list[float], ours: list[float]) -> float:
    return statistics.median(peer) / statistics.median(ours)


def _memory_mb(folder: Path) -> float:
    """Resident memory of the process that serves the store in that folder (Linux)."""
    for entry in Path("/proc").iterdir():
        if entry.name.isdigit():
            try:
                words = (entry / "cmdline").read_bytes().decode(errors="replace")
                status = (entry / "status").read_text()
            except OSError:
                continue
            if "pourwright.cli.main" in words and str(folder) in words:
                line = next(x for x in status.splitlines() if x.startswith("VmRSS"))
                return int(line.split()[1]) / 1024
    return float("nan")


def plan() -> None:
    """The main job."""
    for figures in (in_process, in_browser, start_time):
        with tempfile.TemporaryDirectory() as folder:
            figures(Path(folder))


def color() -> None:
    """The color engine."""
    from speed import color_loop, color_match  # noqa: PLC0415  need a second to load

    color_match.main()
    color_loop.main()


def heat() -> None:
    """The closed loop of heating."""
    from speed.heat import table  # noqa: PLC0415  need a second to load

    table.main()


def bench() -> None:
    """The guided pour."""
    from speed.bench import table  # noqa: PLC0415  only where a browser is

    table.main()


def mold() -> None:
    """Molds of every family."""
    from speed import mold as molds  # noqa: PLC0415  needs a second to load

    molds.main()


def picture() -> None:
    """Pictures of looks: seconds, and the browser's color beside the bench's."""
    from speed import picture as pictures  # noqa: PLC0415  needs a second to load
    from speed import picture_view  # noqa: PLC0415

    pictures.main()
    picture_view.main()


def shop() -> None:
    """A year of an invented shop."""
    from speed import shop_pages  # noqa: PLC0415  needs a second to load

    shop_pages.main()


def pour_day() -> None:
    """Timetables of pour days."""
    from speed import pour_day as days  # noqa: PLC0415  needs a second to load

    days.main()


BENCHES = {
    "plan": plan, "color": color, "heat": heat, "bench": bench, "mold": mold, "picture": picture,
    "pour_day": pour_day,
    "shop": shop,
}  # fmt: skip


def main(names: list[str]) -> None:
    """The benches named, or every one."""
    unknown = [n for n in names if n not in BENCHES]
    if unknown:
        sys.exit(f"no bench is called {unknown[0]!r}; there are {', '.join(BENCHES)}")
    for name in names or BENCHES:
        BENCHES[name]()


if __name__ == "__main__":
    main(sys.argv[1:])
