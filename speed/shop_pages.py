"""A year of an invented shop: every page, a trace, the exchange and the totals, timed and checked.

The peer of a page is the same page on the demo bench, which holds next to nothing.
"""

from __future__ import annotations

import gc
import os
import statistics
import tempfile
import time
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from typing import NamedTuple

from pourwright import wire
from pourwright.actions.money_totals import MoneyTotals, joined, money_months
from pourwright.actions.port import World
from pourwright.shop.money import Money
from speed.page_kinds import Found, found_pages
from speed.shop_year.recount import Totals, recounted
from speed.shop_year.scale import Scale
from speed.shop_year.year import tell_year
from web.client import Client

PAGE_MS = 200.0
# Warm visits to a kind of page, and the seconds after which a kind is not visited again.
VISITS, DEMO_VISITS, KIND_S = 20, 3, 6.0


def main(scale: Scale | None = None) -> None:
    """Tell the year, then measure it."""
    scale = scale or Scale()
    with tempfile.TemporaryDirectory() as folder:
        store = Path(folder) / "year.db"
        begun = time.perf_counter()
        world = tell_year(store, scale)
        _said(f"a year told: {_counts(world)}", time.perf_counter() - begun)
        begun = time.perf_counter()
        pages(world, demo(Path(folder)))
        _said("pages measured", time.perf_counter() - begun)
        traces(world)
        exchange(world, Path(folder))
        totals(world, store, scale.year)


def demo(folder: Path) -> World:
    """The demo bench, the peer."""
    world = wire.world(folder / "demo.db")
    wire.fill_demo_if_empty(world)
    return world


def pages(world: World, peer: World) -> None:
    """Every kind of page, many times once it is warm; the slowest first."""
    found, beside = found_pages(Client(world)), _medians(Client(peer))
    _of_the_first_visits(found)
    gc.freeze()
    client = Client(world)
    rows = [_measured(client, kind, its) for kind, its in found.kinds.items()]
    for row in sorted(rows, key=lambda it: -it.p95):
        first = max(found.firsts[it].seconds for it in found.kinds[row.kind])
        print(_line(row, len(found.kinds[row.kind]), first, beside.get(row.kind)))
    for why, kinds in found.left_out.items():
        print(f"  left out: {why}: {', '.join(sorted(kinds))}")
    print(
        "  left out: what a form sends or a button starts, the pictures inside a page, its socket"
    )
    over = [row.kind for row in rows if row.p95 * 1e3 > PAGE_MS]
    verdict = f"no: {', '.join(over)}" if over else "yes"
    print(f"the machine: {os.cpu_count()} processors, {os.getloadavg()[0]:.1f} programs at work")
    print(f"every page under {PAGE_MS:.0f} ms p95 ({len(rows)} kinds, warm): {verdict}", flush=True)


class Took(NamedTuple):
    """A visit in seconds: of the clock, and of work of this program."""

    seconds: float
    work: float
    address: str


class Row(NamedTuple):
    """Warm visits to a kind of page, from the quickest on."""

    kind: str
    took: list[Took]

    @property
    def p95(self) -> float:
        """All but one in twenty take at most so many seconds."""
        return _p95([it.seconds for it in self.took])


def _line(row: Row, addresses: int, first: float, beside: float | None) -> str:
    middle = statistics.median(it.seconds for it in row.took)
    said = (
        f"  {row.kind:39} p95 {row.p95 * 1e3:4.0f} ms  p50 {middle * 1e3:4.0f}"
        f"  {len(row.took):3} visits to {addresses:2}  first {first * 1e3:5.0f}"
    )
    said += f"  demo p50 {beside * 1e3:4.0f}" if beside is not None else ""
    if row.p95 * 1e3 <= PAGE_MS:
        return said
    work, slowest = _p95(sorted(it.work for it in row.took)), row.took[-1].address
    return f"{said}  OVER ({work * 1e3:.0f} ms of work), slowest {slowest}"


def _measured(client: Client, kind: str, addresses: list[str], visits: int = VISITS) -> Row:
    """Visits in turn, at least one to each; fewer where they would take too long."""
    took: list[Took] = []
    for n in range(max(visits, len(addresses))):
        if n >= len(addresses) and sum(it.seconds for it in took) > KIND_S:
            break
        took.append(_timed(client, addresses[n % len(addresses)]))
    return Row(kind, sorted(took))


def _medians(client: Client) -> dict[str, float]:
    """Seconds by kind of page on the demo bench."""
    kinds = found_pages(client).kinds
    rows = [_measured(client, kind, its[:2], DEMO_VISITS) for kind, its in kinds.items()]
    return {row.kind: statistics.median(it.seconds for it in row.took) for row in rows}


def _of_the_first_visits(found: Found) -> None:
    address, first = next(iter(found.firsts.items()))
    print(f"{'the very first visit after the year':44} {first.seconds * 1e3:6.0f} ms ({address})")
    others = sorted(it.seconds for it in found.firsts.values())[:-1]
    print(f"{'first visits of the other addresses':44} p50 {statistics.median(others) * 1e3:.0f}, "
          f"p95 {_p95(others) * 1e3:.0f}, most {others[-1] * 1e3:.0f} ms")  # fmt: skip


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


def _timed(client: Client, address: str) -> Took:
    begun, work = time.perf_counter(), time.process_time()
    client.get(address)
    return Took(time.perf_counter() - begun, time.process_time() - work, address)


def _p95(ordered: list[float]) -> float:
    return ordered[round(0.95 * (len(ordered) - 1))]


def _counts(world: World) -> str:
    with world.reading() as bench:
        lots = len(bench.stock.lots())
        orders = len(bench.records.all("order"))
        return f"{bench.ledger.check()} events, {lots} lots of stock, {orders} orders"


def _said(what: str, seconds: float) -> None:
    print(f"{what}: {seconds:.0f} s")
