"""Stock as the port promises it, told alike on the fake and on SQLite."""

from __future__ import annotations

import dataclasses
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from fake_bench import FakeStore
from pourwright import wire
from pourwright.actions.port import Bench
from pourwright.base.errors import Conflict, NotFound
from pourwright.shop.move import Move, MoveKind, contrary
from pourwright.shop.stock_lot import LotSort, StockLot

AT = "2026-01-02T03:04:05Z"
Opened = Callable[[], Bench]
LOTS = {"M1": LotSort.MATERIAL, "M2": LotSort.MATERIAL, "P1": LotSort.POURED, "P2": LotSort.POURED,
        "R1": LotSort.POT, "B1": LotSort.BAGGED}  # fmt: skip


@pytest.fixture(params=["fake", "sqlite"])
def opened(request: pytest.FixtureRequest, tmp_path: Path) -> Opened:
    store = FakeStore().bench if request.param == "fake" else wire.world(tmp_path / "b.db").bench
    with store() as bench:
        for n, (code, sort) in enumerate(LOTS.items()):
            bench.stock.open(
                StockLot(code=code, sort=sort, item=f"item/{code[0]}",
                         opened_at=f"2026-01-01T00:00:0{n}Z", name=f"Lot {code}")
            )  # fmt: skip
        bench.stock.post(*MOVES)
        bench.commit()
    return store


def move(n: int, kind: MoveKind, source: str, target: str, mg: int, **more) -> Move:
    return Move(id=f"{n:032x}", at=AT, kind=kind, source=source, target=target, mg=mg, **more)


# Two materials into one lot; its leftovers into a pot and on into another lot; baits into bags.
MOVES = (
    move(101, MoveKind.BOUGHT, "", "M1", 1000, cost=500),
    move(102, MoveKind.BOUGHT, "", "M2", 60, cost=90),
    move(103, MoveKind.USED, "M1", "P1", 400, cost=200, cause="sheet/1"),
    move(104, MoveKind.USED, "M2", "P1", 30, cost=45, cause="sheet/1"),
    move(105, MoveKind.MADE, "", "P1", 0, pieces=8, cause="sheet/1"),
    move(106, MoveKind.POTTED, "P1", "R1", 100),
    move(107, MoveKind.USED, "R1", "P2", 80, cause="sheet/2"),
    move(108, MoveKind.BAGGED, "P1", "B1", 240, pieces=6, cost=150),
)


def ids(moves) -> list[int]:
    return [int(m.id, 16) for m in moves]


def held(opened: Opened, code: str) -> tuple[int, int, int]:
    with opened() as bench:
        it = bench.stock.lot(code)
        return it.mg, it.pieces, it.cost


def refused(opened: Opened, kind, words: str, *moves: Move) -> None:
    """Refused in words, and nothing of it kept."""
    with opened() as bench:
        before = bench.stock.moves()
        with pytest.raises(kind, match=words):
            bench.stock.post(*moves)
    with opened() as bench:
        assert bench.stock.moves() == before


def test_a_lot_holds_what_came_in_less_what_went_out(opened):
    assert held(opened, "M1") == (600, 0, 300)
    assert held(opened, "P1") == (90, 2, 95)
    assert held(opened, "B1") == (240, 6, 150)
    assert held(opened, "R1") == (20, 0, 0)


def test_lots_are_listed_oldest_first_by_sort_by_item_and_by_what_is_there(opened):
    with opened() as bench:
        codes = [h.lot.code for h in bench.stock.lots()]
        assert codes == list(LOTS)
        assert [h.lot.code for h in bench.stock.lots(LotSort.POURED)] == ["P1", "P2"]
        assert [h.lot.code for h in bench.stock.lots(item="item/M")] == ["M1", "M2"]
        bench.stock.post(move(901, MoveKind.SCRAPPED, "R1", "", 20))
        assert "R1" not in [h.lot.code for h in bench.stock.lots(present=True)]
        assert {h.lot.code: h.mg for h in bench.stock.lots()} == {
            code: bench.stock.lot(code).mg for code in LOTS
        }


def test_moves_are_found_by_lot_by_cause_and_by_time(opened):
    with opened() as bench:
        assert ids(bench.stock.moves(lot="P1")) == [103, 104, 105, 106, 108]
        assert ids(bench.stock.moves(cause="sheet/1")) == [103, 104, 105]
        late = dataclasses.replace(MOVES[0], id=f"{901:032x}", at="2026-02-01T00:00:00Z")
        bench.stock.post(late)
        assert bench.stock.moves(since="2026-02-01T00:00:00Z") == (late,)
        assert ids(bench.stock.moves(before="2026-02-01T00:00:00Z")) == ids(MOVES)


def test_a_lot_is_traced_up_and_down(opened):
    with opened() as bench:
        assert ids(bench.stock.came_from("P2")) == [101, 102, 103, 104, 105, 106, 107]
        assert ids(bench.stock.went_to("M2")) == [104, 106, 107, 108]
        assert bench.stock.came_from("M1") == (MOVES[0],)


def test_what_was_taken_back_is_no_part_of_a_trace(opened):
    with opened() as bench:
        bench.stock.post(contrary(MOVES[6], id=f"{9:032x}", at=AT))
        assert bench.stock.came_from("P2") == ()
        assert ids(bench.stock.went_to("M2")) == [104, 106, 108]
        assert bench.stock.lot("R1").mg == 100


def test_taking_back_restores_what_was_there(opened):
    with opened() as bench:
        bench.stock.post(contrary(MOVES[7], id=f"{9:032x}", at=AT))
        bench.commit()
    assert held(opened, "P1") == (330, 8, 245)
    assert held(opened, "B1") == (0, 0, 0)


def test_a_move_told_twice_is_one_move_and_other_content_is_refused(opened):
    with opened() as bench:
        bench.stock.post(*MOVES)
        assert bench.stock.moves() == MOVES
    refused(opened, Conflict, "known with other content", dataclasses.replace(MOVES[0], mg=5))


def test_nothing_leaves_that_is_not_there(opened):
    refused(opened, Conflict, "M1.* holds", move(901, MoveKind.USED, "M1", "P2", 601))
    refused(opened, Conflict, "B1.* holds", move(901, MoveKind.SOLD, "B1", "", 0, pieces=7))


def test_a_reversal_is_not_reversed_and_a_move_only_once(opened):
    back = contrary(MOVES[7], id=f"{9:032x}", at=AT)
    with opened() as bench:
        bench.stock.post(back)
        bench.commit()
    refused(opened, Conflict, "taken back already", dataclasses.replace(back, id=f"{10:032x}"))
    again = contrary(back, id=f"{11:032x}", at=AT)
    refused(opened, Conflict, "not taken back itself", again)
    refused(opened, NotFound, "no move", dataclasses.replace(back, reverses=f"{12:032x}"
                                                             , id=f"{13:032x}"))  # fmt: skip


def test_what_went_on_cannot_be_taken_back_before_what_followed(opened):
    refused(opened, Conflict, "R1.* holds", contrary(MOVES[5], id=f"{9:032x}", at=AT))


def test_a_loop_in_remelts_is_refused(opened):
    refused(opened, Conflict, "a loop in remelts", move(901, MoveKind.POTTED, "P2", "R1", 10))


def test_an_unknown_lot_and_a_code_taken_are_refused(opened):
    refused(opened, NotFound, "no lot 'M9'", move(901, MoveKind.USED, "M9", "P2", 1))
    with opened() as bench, pytest.raises(Conflict, match="a lot M1 already"):
        bench.stock.open(StockLot(code="M1", sort=LotSort.POT, item="", opened_at=AT, name="x"))


def test_every_move_and_every_lot_is_an_event(opened):
    with opened() as bench:
        moved = bench.ledger.of_kind("moved")
        assert [e.event.id for e in moved] == [m.id for m in MOVES]
        assert len(bench.ledger.of_kind("moved", "opened")) == len(MOVES) + len(LOTS)
        assert bench.ledger.of_kind("moved", before=AT) == ()
        assert bench.ledger.of_kind("moved", since=AT) == moved
        assert bench.ledger.check() >= len(MOVES)


def test_the_tables_refuse_an_edit(tmp_path: Path):
    world = wire.world(tmp_path / "b.db")
    with world.bench() as bench:
        bench.stock.open(
            StockLot(code="M1", sort=LotSort.MATERIAL, item="x", opened_at=AT, name="x")
        )
        bench.stock.post(MOVES[0])
        bench.commit()
    with sqlite3.connect(tmp_path / "b.db") as store:
        for act in ("UPDATE move SET mg = 1", "DELETE FROM move", "DELETE FROM lot"):
            with pytest.raises(sqlite3.IntegrityError, match="append-only"):
                store.execute(act)
