"""A small year of an invented shop: its books agree with a recount, and go out and in unchanged."""

from __future__ import annotations

from pathlib import Path

import pytest
from speed.shop_pages import differing
from speed.shop_year.recount import recounted
from speed.shop_year.scale import Scale
from speed.shop_year.year import tell_year

from pourwright import wire
from pourwright.actions.money_totals import joined, money_months

SCALE = Scale(looks=2, molds=2, lots=8, orders=14)
MONTHS = [f"{SCALE.year}-{month:02}" for month in range(1, 13)]


@pytest.fixture(scope="module")
def store(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("year") / "year.db"
    tell_year(wire.world(path), SCALE)
    return path


def test_months_and_quarters_are_those_of_a_recount(store: Path):
    """Plain decimals over the stored events, in loops."""
    with wire.world(store).reading() as bench:
        found = money_months(bench, MONTHS, lambda at: at[:10])
    assert sum(it.totals.sales for it in found) >= 5
    by_month = recounted(store)
    assert not list(differing({it.month: it.totals for it in found}, by_month))
    quarters = {f"{SCALE.year}-{q + 1}": joined(found[3 * q : 3 * q + 3]) for q in range(4)}
    assert not list(differing(quarters, recounted(store, per_quarter=True)))
    worst = next(totals for totals in by_month.values() if totals["sales"])
    worst["cost"] += 1
    assert list(differing({it.month: it.totals for it in found}, by_month))


def test_a_year_goes_out_and_in_byte_for_byte(store: Path, tmp_path: Path):
    first = b"".join(wire.world(store).exchange.written())
    again = wire.world(tmp_path / "again.db")
    again.exchange.taken_in(first)
    assert b"".join(again.exchange.written()) == first


def test_nothing_is_made_or_lost_on_the_way(store: Path):
    """What all lots hold is what came in from outside less what went out."""
    with wire.world(store).reading() as bench:
        moves, held = bench.stock.moves(), bench.stock.lots()
    for name in ("mg", "pieces", "cost"):
        came = sum(getattr(m, name) for m in moves if m.target and not m.source)
        went = sum(getattr(m, name) for m in moves if m.source and not m.target)
        assert sum(getattr(h, name) for h in held) == came - went
        assert all(getattr(h, name) >= 0 for h in held)
