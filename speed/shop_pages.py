"""A year of an invented shop: every page, a trace, the exchange and the totals, timed and checked.

The peer of a page is the same page on the demo bench, which holds next to nothing.
"""

from __future__ import annotations

import re
import statistics
import tempfile
import time
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

from pourwright import wire
from pourwright.actions.money_totals import MoneyTotals, joined, money_months
from pourwright.actions.port import World
from pourwright.shop.money import Money
from speed.shop_year.recount import Totals, recounted
from speed.shop_year.scale import Scale
from speed.shop_year.year import tell_year
from web.client import Client

PAGE_MS, TRACE_MS = 200.0, 50.0
ROUNDS, ALIKE = 12, 3
LINK = re.compile(r'href="(/[^"#]*)"')
# What is made anew at each visit, calculated at length or handed out as a file.
APART = re.compile(r"\.(pdf|png|stl|3mf|json|journal|csv|css|js|svg|ics|woff2)|/static/|/retire")


def main(scale: Scale | None = None) -> None:
    """Tell the year, then measure it."""
    scale = scale or Scale()
    with tempfile.TemporaryDirectory() as folder:
        store = Path(folder) / "year.db"
        begun = time.perf_counter()
        world = tell_year(store, scale)
        _said(f"a year told: {_counts(world)}", time.perf_counter() - begun)
        pages(world, demo(Path(folder)))
        traces(world)
        exchange(world, Path(folder))
        totals(world, store, scale.year)


def demo(folder: Path) -> World:
    """The demo bench, the peer."""
    world = wire.world(folder / "demo.db")
    wire.fill_demo_if_empty(world)
    return world


def pages(world: World, peer: World) -> None:
    """Every page that a link of another leads to, many times; the slowest are named."""
    times = {kind: sorted(took) for kind, took in _visited(Client(world)).items()}
    beside = {kind: statistics.median(took) for kind, took in _visited(Client(peer)).items()}
    everything = sorted(t for took in times.values() for t in took)
    for kind, took in sorted(times.items(), key=lambda it: -_p95(it[1])):
        small = f"{beside[kind] * 1e3:6.0f} ms on the demo" if kind in beside else ""
        late = "  OVER" if _p95(took) * 1e3 > PAGE_MS else ""
        print(f"  {kind:44} p50 {statistics.median(took) * 1e3:6.0f}  "
              f"p95 {_p95(took) * 1e3:6.0f} ms {small}{late}")  # fmt: skip
    print(f"{'all pages, p95 (at most 200 ms)':44} {_p95(everything) * 1e3:6.0f} ms")


def traces(world: World) -> None:
    """Where each lot came from and went."""
    took = []
    with world.reading() as bench:
        for held in bench.stock.lots():
            begun = time.perf_counter()
            bench.stock.came_from(held.lot.code)
            bench.stock.went_to(held.lot.code)
            took.append(time.perf_counter() - begun)
    print(f"{'trace up and down, every lot (at most 50 ms)':44} "
          f"p95 {_p95(sorted(took)) * 1e3:.1f}, most {max(took) * 1e3:.1f} ms")  # fmt: skip


def exchange(world: World, folder: Path) -> None:
    """Out into one file, into an empty store, out again: the same bytes."""
    begun = time.perf_counter()
    first = b"".join(world.exchange.written())
    out_s, begun = time.perf_counter() - begun, time.perf_counter()
    again = wire.world(folder / "again.db")
    again.exchange.taken_in(first)
    in_s = time.perf_counter() - begun
    same = b"".join(again.exchange.written()) == first
    print(f"{'export and import':44} {len(first) / 1e6:.1f} MB, out {out_s:.1f} s, "
          f"in {in_s:.1f} s, byte-equal: {same}")  # fmt: skip
    if not same:
        raise AssertionError("the second export differs from the first")


def totals(world: World, store: Path, year: int) -> None:
    """Month and quarter totals against a recount from the stored events."""
    months = [f"{year}-{m:02}" for m in range(1, 13)]
    with world.reading() as bench:
        found = money_months(bench, months, lambda at: at[:10])
    by_month = {it.month: it.totals for it in found}
    quarters = {f"{year}-{q + 1}": joined(found[3 * q : 3 * q + 3]) for q in range(4)}
    unlike = [*differing(by_month, recounted(store)),
              *differing(quarters, recounted(store, per_quarter=True))]  # fmt: skip
    print(f"{'months and quarters equal to a recount':44} {not unlike}")
    if unlike:
        raise AssertionError(f"totals differ: {unlike[:5]}")


def differing(ours: dict[str, MoneyTotals], theirs: Totals) -> Iterator[str]:
    """Every total that a recount does not give as well."""
    for period, totals in ours.items():
        known = theirs.get(period, {})
        for name in ("sales", "baits", "goods", "delivery", "fees", "cost"):
            value = getattr(totals, name)
            exact = Decimal(value.ten_thousandths) / 10_000 if isinstance(value, Money) else value
            if exact != known.get(name, 0):
                yield f"{period} {name}: {exact}, recounted {known.get(name, 0)}"


def _visited(client: Client) -> dict[str, list[float]]:
    """Seconds by kind of page, once what is drawn only once is drawn."""
    took = {}
    for kind, addresses in _linked(client).items():
        took[kind] = [_timed(client, addresses[n % len(addresses)]) for n in range(ROUNDS)]
    return took


def _linked(client: Client) -> dict[str, list[str]]:
    """Addresses by kind, a few of each, by following links from the first page."""
    kinds: dict[str, list[str]] = {"/": ["/"]}
    waiting = ["/"]
    while waiting:
        for address in LINK.findall(client.get(waiting.pop(0)).text):
            alike = kinds.setdefault(kind_of(address), [])
            if address not in alike and len(alike) < ALIKE and not APART.search(address):
                alike.append(address)
                waiting.append(address)
    return {kind: addresses for kind, addresses in kinds.items() if addresses}


def kind_of(address: str) -> str:
    """An address without what names one thing of many."""
    path = address.split("?", maxsplit=1)[0]
    return re.sub(r"/(\d+|[PMRB]\d{10,}\w|[0-9a-f]{32}|(year|demo)-[\w-]+|\d{4}-\d)(?=/|$)", "/…",
                  path)  # fmt: skip


def _timed(client: Client, address: str) -> float:
    begun = time.perf_counter()
    client.get(address)
    return time.perf_counter() - begun


def _p95(ordered: list[float]) -> float:
    return ordered[round(0.95 * (len(ordered) - 1))]


def _counts(world: World) -> str:
    with world.reading() as bench:
        lots = len(bench.stock.lots())
        orders = len(bench.records.all("order"))
        return f"{bench.ledger.check()} events, {lots} lots of stock, {orders} orders"


def _said(what: str, seconds: float) -> None:
    print(f"{what}: {seconds:.0f} s")
