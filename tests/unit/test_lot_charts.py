"""Charts of counted lots: who stands in them, and what is taken back does not."""

from __future__ import annotations

import pytest

from charted_lots import add_counted_lots
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.enter_lot import enter_lot
from pourwright.actions.lot_charts import counted_lots, lot_charts
from pourwright.actions.port import Event
from pourwright.bench.tap_kind import TAKEN_BACK
from pourwright.shop.chart.standing import Standing
from pourwright.shop.lot import LotEntry
from ready_store import demo_bench, empty_bench

WORM = "demo-mold-worm"


@pytest.fixture(scope="module")
def charted(tmp_path_factory):
    world = demo_bench(tmp_path_factory.mktemp("charted"))
    with world.bench() as bench:
        add_counted_lots(bench, world.ids, DEMO_DRAFT)
        bench.commit()
    return world


def worms(world):
    with world.reading() as bench:
        return [it for it in counted_lots(bench) if it.mold == WORM]


def test_lots_stand_in_the_order_of_their_sheets_with_mold_and_bait(charted):
    lots = worms(charted)
    assert len(lots) == 12
    assert [it.sheet for it in lots] == sorted(it.sheet for it in lots)
    assert {it.bait for it in lots} == {"demo-bait-worm"}
    assert (lots[0].day, lots[0].count.entry.flash) == ("2026-01-18", 1)


def test_shares_count_good_and_rejected_baits_and_weights_are_of_one_bait(charted):
    lots = worms(charted)
    it = lot_charts(lots)
    assert it.flash is not None
    assert it.mass is not None
    assert [(c.bad, c.n) for c in it.flash.lots[:2]] == [(1, 28), (0, 27)]
    assert it.mass.lots[0].mean_g == pytest.approx(81.6 / 5)
    assert it.mass.overall is None
    assert it.flash.standing is Standing.PROVISIONAL


def test_pooled_days_are_fewer_lots(charted):
    lots = [*worms(charted), *worms(charted)]
    pooled = lot_charts(lots, pool_days=True).flash
    assert pooled is not None
    assert [it.n for it in pooled.lots][:1] == [56]
    assert len(pooled.lots) == 12


def test_a_correction_counts_once_and_a_count_taken_back_does_not(tmp_path):
    world = demo_bench(tmp_path)
    with world.reading() as bench:
        (before,) = counted_lots(bench)
    enter_lot(world, before.sheet, LotEntry(shots=18, good=30, flash=5), event_id="e" * 32)
    with world.bench() as bench:
        (corrected,) = counted_lots(bench)
        assert (corrected.count.entry.good, corrected.count.entry.flash) == (30, 5)
        back = {"event": "e" * 32}
        at = world.clock.now()
        bench.ledger.append(
            Event(world.ids.fresh(), f"lot/{before.code}", TAKEN_BACK, at, back)
        )  # fmt: skip
        bench.commit()
    with world.reading() as bench:
        (again,) = counted_lots(bench)
    assert again == before


def test_a_bench_without_counted_lots_has_no_charts(tmp_path):
    with empty_bench(tmp_path).reading() as bench:
        assert counted_lots(bench) == ()
    it = lot_charts(())
    assert (it.flash, it.short, it.mass) == (None, None, None)
