"""A small year of an invented shop: its books agree with a recount, and go out and in unchanged."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
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
    tell_year(path, SCALE)
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
    first = _export(store)
    again = tmp_path / "again.db"
    wire.world(again).exchange.taken_in(first)
    assert _export(again) == first


def test_the_same_seed_tells_the_same_year(store: Path, tmp_path: Path):
    again, other = (tmp_path / name for name in ("same.db", "other.db"))
    tell_year(again, SCALE)
    tell_year(other, replace(SCALE, seed=2))
    first, same, unlike = (_export(it) for it in (store, again, other))
    assert first == same
    assert first != unlike


def test_nothing_in_the_year_carries_the_time_of_its_telling(store: Path):
    year = str(SCALE.year)
    with closing(sqlite3.connect(store)) as it:
        kept = {
            *it.execute("SELECT changed_at FROM record"),
            *it.execute("SELECT stored_at FROM event"),
        }
    assert {at[:4] for (at,) in kept} == {year}


def test_nothing_is_made_or_lost_on_the_way(store: Path):
    """What all lots hold is what came in from outside less what went out."""
    with wire.world(store).reading() as bench:
        moves, held = bench.stock.moves(), bench.stock.lots()
    for name in ("mg", "pieces", "cost"):
        came = sum(getattr(m, name) for m in moves if m.target and not m.source)
        went = sum(getattr(m, name) for m in moves if m.source and not m.target)
        assert sum(getattr(h, name) for h in held) == came - went
        assert all(getattr(h, name) >= 0 for h in held)


def _export(store: Path) -> bytes:
    return b"".join(wire.world(store).exchange.written())
