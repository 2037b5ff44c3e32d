"""A store of an earlier schema is brought up to date, with a copy kept from before."""

from __future__ import annotations

import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import inspect

from pourwright import wire
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.paper_file import paper_file
from pourwright.shop.stock_lot import LotSort, StockLot
from pourwright.shop.tool import Cup
from pourwright.store.open import APPLICATION_ID, open_store
from pourwright.store.table import META

# Written by the program when it knew one schema only; the dump of a file it made.
FIRST = Path(__file__).with_name("first_store.sql").read_text()
AT = "2026-01-02T03:04:05Z"
PAPERS = "SELECT substr(sql, -6) FROM sqlite_schema WHERE name = 'paper_file'"


@pytest.fixture
def old(tmp_path: Path) -> Path:
    store = tmp_path / "bench.db"
    with closing(sqlite3.connect(store)) as connection:
        connection.executescript(FIRST)
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    return store


def test_an_old_store_keeps_all_it_held_and_takes_stock(old: Path) -> None:
    with wire.world(old).bench() as bench:
        assert bench.records.get("cup", "c1").noun == Cup(
            name="Blue cup", volume_ml=473, price_money=11.25
        )
        assert [e.event.body for e in bench.ledger.of_kind("counted")] == [{"n": 1}]
        assert bench.photos.get("p1") == b"\xff\xd8 a picture"
        bench.stock.open(
            StockLot(code="M1", sort=LotSort.MATERIAL, item="plastic/p", opened_at=AT, name="P")
        )
        bench.stock.post(Move(id="b" * 32, at=AT, kind=MoveKind.BOUGHT, target="M1", mg=5))
        bench.commit()
    with wire.world(old).bench() as bench:
        assert bench.stock.lot("M1").mg == 5
        assert bench.ledger.check() == 4


def test_a_copy_from_before_the_step_is_kept(old: Path) -> None:
    open_store(old)
    copy = old.with_name("bench-before-0003.db")
    with closing(sqlite3.connect(copy)) as connection:
        assert connection.execute("SELECT version_num FROM alembic_version").fetchall() == [
            ("0001",)
        ]
        assert connection.execute("SELECT count(*) FROM event").fetchone() == (2,)


def test_a_store_of_the_second_schema_keeps_its_lots_and_takes_papers(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = tmp_path / "bench.db"
    with monkeypatch.context() as patch:
        patch.setattr("pourwright.store.open.HEAD", "0002")
        with wire.world(store).bench() as bench:
            bench.stock.open(
                StockLot(code="M1", sort=LotSort.MATERIAL, item="plastic/p", opened_at=AT, name="P")
            )
            bench.stock.post(Move(id="b" * 32, at=AT, kind=MoveKind.BOUGHT, target="M1", mg=5))
            bench.commit()
    with closing(sqlite3.connect(store)) as connection:
        assert not connection.execute(PAPERS).fetchall()
    file = paper_file(b"%PDF-1.7 a data sheet")
    with wire.world(store).bench() as bench:
        assert bench.stock.lot("M1").mg == 5
        bench.papers.add(file, at=AT)
        bench.commit()
    with wire.world(store).reading() as bench:
        assert bench.papers.get(file.id) == file
        assert bench.ledger.check() == 3
    with closing(sqlite3.connect(store.with_name("bench-before-0003.db"))) as connection:
        assert connection.execute("SELECT count(*) FROM move").fetchone() == (1,)
    with closing(sqlite3.connect(store)) as connection:
        assert connection.execute(PAPERS).fetchall() == [("STRICT",)]


def test_old_and_new_stores_have_the_tables_that_the_program_declares(
    old: Path, tmp_path: Path
) -> None:
    declared = _shape_declared()
    for store in (old, tmp_path / "new.db"):
        found = inspect(open_store(store))
        for table, columns in declared.items():
            assert {
                c["name"]: (str(c["type"]), c["nullable"]) for c in found.get_columns(table)
            } == (columns)
            indexed = {tuple(i["column_names"]) for i in found.get_indexes(table)}
            wanted = {tuple(c.name for c in i.columns) for i in META.tables[table].indexes}
            assert indexed == wanted, table


def _shape_declared() -> dict[str, dict[str, tuple[str, bool]]]:
    return {
        t.name: {c.name: (str(c.type), bool(c.nullable)) for c in t.columns}
        for t in META.tables.values()
    }


def test_a_purchase_cut_off_before_its_commit_leaves_nothing(tmp_path: Path) -> None:
    store = tmp_path / "bench.db"
    code = (
        "import os, signal, sys; from pathlib import Path; from pourwright import wire;"
        "from pourwright.shop.move import Move, MoveKind;"
        "from pourwright.shop.stock_lot import LotSort, StockLot;"
        "w = wire.world(Path(sys.argv[1])); at = '2026-01-02T03:04:05Z';\n"
        "for n, last in ((1, False), (2, True)):\n"
        "    with w.bench() as b:\n"
        "        b.stock.open(StockLot(code=f'M{n}', sort=LotSort.MATERIAL, item='x',"
        " opened_at=at, name='x'))\n"
        "        b.stock.post(Move(id=f'{n:032x}', at=at, kind=MoveKind.BOUGHT, target=f'M{n}',"
        " mg=7))\n"
        "        if last: os.kill(os.getpid(), signal.SIGKILL)\n"
        "        b.commit()\n"
    )
    run = subprocess.run([sys.executable, "-c", code, str(store)], check=False)
    assert run.returncode == -signal.SIGKILL
    with wire.world(store).bench() as bench:
        assert [(h.lot.code, h.mg) for h in bench.stock.lots()] == [("M1", 7)]
        assert len(bench.stock.moves()) == 1
        assert bench.ledger.check() == 2
