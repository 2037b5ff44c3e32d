"""What open orders want poured."""

from __future__ import annotations

from pour_day_bench import kept, no_orders, ordered
from pourwright.actions.pour_day_need import pour_needs
from pourwright.shop.mold import Bait
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.order import Order, OrderLine, OrderState, SetAside
from pourwright.shop.stock_lot import LotSort, StockLot

LINE = OrderLine(bait="demo-bait-worm", look="demo-look-marsh", packs=3, baits_each=8)


def needs(world):
    with world.reading() as bench:
        return pour_needs(bench)


def test_packs_of_open_orders_are_summed_by_bait_and_look(world):
    no_orders(world)
    ordered(world, "o1", LINE, due_on="2026-05-09")
    ordered(world, "o2", LINE, due_on="2026-05-03")
    ordered(world, "o3", LINE, state=OrderState.SENT)
    (found,) = needs(world)
    assert (found.baits, found.covered) == (48, 0)
    assert found.due_on == "2026-05-03"
    assert found.mold == "demo-mold-worm"
    assert found.orders == ("Juno Marsh",)


def test_what_was_set_aside_is_wanted_no_more(world):
    no_orders(world)
    aside = OrderLine(
        bait="demo-bait-worm", look="demo-look-marsh", packs=3, baits_each=8,
        set_aside=(SetAside(lot="B260501001X", packs=2),),
    )  # fmt: skip
    ordered(world, "o1", aside)
    assert [n.baits for n in needs(world)] == [8]


def test_finished_bags_count_first_and_go_to_the_earliest_due(world):
    no_orders(world)
    ordered(world, "late", LINE, due_on="2026-06-01")
    soon = Order(
        name="For the fair", customer="test-customer", taken_on="2026-04-20",
        due_on="2026-05-03", lines=(LINE,),
    )  # fmt: skip
    kept(world, "soon", soon)
    with world.bench() as bench:
        lot = StockLot(
            code="B260401001T", sort=LotSort.BAGGED, item="demo-bait-worm|demo-look-marsh",
            opened_at="2026-04-01T09:00:00Z", name="Bagged worms", baits_each=8,
        )  # fmt: skip
        bench.stock.open(lot)
        bench.stock.post(
            Move(id="a" * 32, at="2026-04-01T09:00:00Z", kind=MoveKind.COUNTED,
                 target=lot.code, mg=320_000, pieces=32)
        )  # fmt: skip
        bench.commit()
    (found,) = needs(world)
    assert (found.baits, found.covered) == (16, 32)
    assert (found.orders, found.due_on) == (("Juno Marsh",), "2026-06-01")


def test_nothing_is_poured_for_what_is_only_asked_about(world):
    no_orders(world)
    ordered(world, "o1", LINE, state=OrderState.ASKED)
    assert needs(world) == ()


def test_a_mold_off_the_bench_is_said(world):
    no_orders(world)
    ordered(world, "o1", LINE)
    with world.bench() as bench:
        mold = bench.records.get("mold", "demo-mold-worm")
        bench.records.retire("mold", mold.id, expected_version=mold.version)
        bench.commit()
    (found,) = needs(world)
    assert found.mold == ""
    assert "was taken off the bench" in found.why_not


def test_a_bait_without_any_mold_is_said(world):
    no_orders(world)
    kept(world, "lonely", Bait(name="Lonely grub", mass_g=4))
    ordered(world, "o1", OrderLine(bait="lonely", look="demo-look-marsh", packs=1))
    (found,) = needs(world)
    assert found.why_not.startswith("No mold on the bench makes Lonely grub")
