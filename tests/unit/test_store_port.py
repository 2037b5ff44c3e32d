"""One story per promise of the ports, told alike on the fake and on SQLite."""

from __future__ import annotations

import dataclasses
import hashlib
import itertools
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fake_bench import FakeJobs, FakeStore
from pourwright import wire
from pourwright.actions.port import Bench, Event, Jobs
from pourwright.base.errors import Conflict, NotFound
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.paper_file import PaperFile, paper_file
from pourwright.shop.sheet import Sheet
from pourwright.shop.stock_lot import LotSort, StockLot
from pourwright.shop.tool import Cup, Scale

CUP = Cup(name="Blue cup", volume_ml=473, price_money=11.25)
SHEET = Sheet(1, "26A01A1", "2026-01-01T00:00:00Z", "0.1.0", "Worms", {"n": 1}, {}, {"g": 1.5})
AT = "2026-01-02T03:04:05Z"

Opened = Callable[[], Bench]


@pytest.fixture(params=["fake", "sqlite"])
def opened(request: pytest.FixtureRequest, tmp_path: Path) -> Opened:
    if request.param == "fake":
        return FakeStore().bench
    return wire.world(tmp_path / "bench.db").bench


@pytest.fixture(scope="module")
def sqlite_bench(tmp_path_factory: pytest.TempPathFactory) -> Opened:
    return wire.world(tmp_path_factory.mktemp("store") / "bench.db").bench


def save(opened: Opened, cup: Cup = CUP, *, id: str = "c1", version: int = 0) -> None:
    with opened() as bench:
        bench.records.save("cup", id, cup, expected_version=version)
        bench.commit()


def test_records_come_back_by_name(opened: Opened) -> None:
    save(opened, dataclasses.replace(CUP, name="Zinc"), id="c1")
    save(opened, dataclasses.replace(CUP, name="Alder"), id="c2")
    with opened() as bench:
        assert [s.id for s in bench.records.all("cup")] == ["c2", "c1"]
        assert bench.records.get("cup", "c2").version == 1
        assert bench.records.all("scale") == ()


def test_an_edit_counts_up_and_the_history_keeps_both(opened: Opened) -> None:
    save(opened)
    save(opened, dataclasses.replace(CUP, volume_ml=500), version=1)
    with opened() as bench:
        stored = bench.records.get("cup", "c1")
        assert (stored.version, stored.noun) == (2, dataclasses.replace(CUP, volume_ml=500))
        told = [(e.event.kind, e.event.body["version"]) for e in bench.ledger.of("cup/c1")]
        assert told == [("saved", 1), ("saved", 2)]
        bodies = [e.event.body["content"]["price_money"] for e in bench.ledger.of("cup/c1")]
        assert bodies == [112_500, 112_500]


@pytest.mark.parametrize("stale", [0, 1, 3])
def test_only_the_version_on_screen_may_be_changed(opened: Opened, stale: int) -> None:
    save(opened)
    save(opened, version=1)
    with pytest.raises(Conflict, match=f"version 2, not {stale}"):
        save(opened, version=stale)
    with opened() as bench, pytest.raises(Conflict, match=f"version 2, not {stale}"):
        bench.records.retire("cup", "c1", expected_version=stale)


def test_an_id_belongs_to_one_sort(opened: Opened) -> None:
    save(opened)
    with opened() as bench:
        with pytest.raises(Conflict, match="belongs to a cup"):
            bench.records.save("scale", "c1", Scale(name="Scale"), expected_version=0)
        with pytest.raises(NotFound, match="c1"):
            bench.records.get("scale", "c1")


def test_retired_is_off_the_lists_and_can_still_be_read(opened: Opened) -> None:
    save(opened)
    with opened() as bench:
        assert bench.records.retire("cup", "c1", expected_version=1).retired
        bench.commit()
    with opened() as bench:
        assert bench.records.all("cup") == ()
        assert bench.records.all("cup", retired=True)[0].noun == CUP
        assert bench.records.get("cup", "c1").version == 2
        with pytest.raises(NotFound, match="c9"):
            bench.records.retire("cup", "c9", expected_version=1)


def test_nothing_of_a_failed_unit_of_work_is_kept(opened: Opened) -> None:
    class Slip(Exception):
        pass

    def slip() -> None:
        with opened() as bench:
            bench.records.save("cup", "c1", CUP, expected_version=0)
            bench.sheets.add(SHEET)
            bench.photos.add("p1", b"jpeg")
            raise Slip("halfway")

    with pytest.raises(Slip, match="halfway"):
        slip()
    with opened() as bench:
        assert bench.records.all("cup", retired=True) == ()
        assert bench.sheets.all() == ()
        assert bench.ledger.check() == 0
        with pytest.raises(NotFound, match="p1"):
            bench.photos.get("p1")


def test_of_a_part_that_failed_nothing_stays_and_the_rest_is_kept(opened: Opened) -> None:
    def slip(bench: Bench) -> None:
        with bench.together():
            bench.records.save("cup", "c2", CUP, expected_version=0)
            bench.photos.add("p2", b"two")
            bench.stock.open(
                StockLot(code="M1", sort=LotSort.MATERIAL, item="x", opened_at=AT, name="x")
            )
            bench.stock.post(Move(id="f" * 32, at=AT, kind=MoveKind.BOUGHT, target="M1", mg=5))
            bench.stock.post(Move(id="e" * 32, at=AT, kind=MoveKind.SCRAPPED, source="M1", mg=6))

    with opened() as bench:
        bench.records.save("cup", "c1", CUP, expected_version=0)
        with pytest.raises(Conflict, match="M1"):
            slip(bench)
        with bench.together():
            bench.photos.add("p1", b"one")
        bench.commit()
    with opened() as bench:
        assert [s.id for s in bench.records.all("cup")] == ["c1"]
        assert bench.photos.get("p1") == b"one"
        assert (bench.stock.lots(), bench.stock.moves()) == ((), ())
        assert bench.ledger.check() == 1
        assert bench.ledger.of_kind("opened", "moved") == ()
        with pytest.raises(NotFound, match="p2"):
            bench.photos.get("p2")


def test_an_event_is_stored_once(opened: Opened) -> None:
    event = Event("a" * 32, "lot/x", "counted", AT, {"n": 1})
    for _ in range(2):
        with opened() as bench:
            assert bench.ledger.append(event).place == 1
            bench.commit()
    with opened() as bench:
        assert [r.event for r in bench.ledger.of("lot/x")] == [event]
        for changed in ({"body": {"n": 2}}, {"kind": "shot"}, {"subject": "lot/y"}):
            with pytest.raises(Conflict, match="other content"):
                bench.ledger.append(dataclasses.replace(event, **changed))


def test_each_event_carries_the_hash_of_the_one_before(opened: Opened) -> None:
    with opened() as bench:
        for n in range(5):
            bench.ledger.append(Event(f"{n:032x}", "lot/x", "shot", AT, {"n": n}))
        bench.commit()
    with opened() as bench:
        chain = bench.ledger.of("lot/x")
        assert [r.place for r in chain] == [1, 2, 3, 4, 5]
        assert all(b.previous_hash == a.hash for a, b in itertools.pairwise(chain))
        assert bench.ledger.check() == 5


def test_a_sheet_is_kept_once_and_for_good(opened: Opened) -> None:
    with opened() as bench:
        assert bench.sheets.next_number() == 1
        bench.sheets.add(SHEET)
        bench.commit()
    with opened() as bench:
        assert bench.sheets.get(1) == SHEET
        assert bench.sheets.next_number() == 2
        with pytest.raises(Conflict, match="frozen already"):
            bench.sheets.add(dataclasses.replace(SHEET, code="other"))
        with pytest.raises(Conflict, match="frozen already"):
            bench.sheets.add(dataclasses.replace(SHEET, number=2))
        bench.sheets.add(dataclasses.replace(SHEET, number=2, code="26A01A2"))
        assert [s.number for s in bench.sheets.all()] == [2, 1]
        assert [e.event.kind for e in bench.ledger.of("sheet/1")] == ["frozen"]
        with pytest.raises(NotFound, match="sheet 9"):
            bench.sheets.get(9)


def test_a_picture_stays_what_it_was(opened: Opened) -> None:
    with opened() as bench:
        bench.photos.add("p1", b"one")
        bench.photos.add("p1", b"two")
        bench.commit()
    with opened() as bench:
        assert bench.photos.get("p1") == b"one"


def test_a_paper_is_kept_once_and_as_it_was_given(opened: Opened) -> None:
    content = b"%PDF-1.7\r\n\x00\xff and so on"
    with opened() as bench:
        for at in (AT, "2027-01-01T00:00:00Z"):
            bench.papers.add(paper_file(content), at=at)
        bench.commit()
    with opened() as bench:
        id_ = hashlib.sha256(content).hexdigest()
        assert bench.papers.get(id_) == PaperFile(id_, "application/pdf", content)
        (told,) = bench.ledger.of(f"paper/{id_}")
        assert (told.event.at, told.event.body) == (AT, {"media_type": "application/pdf"})
        with pytest.raises(NotFound, match="no paper"):
            bench.papers.get("0" * 64)


@pytest.mark.parametrize("made", ["fake", "sqlite"])
def test_a_finished_answer_is_not_computed_twice(made: str, tmp_path: Path) -> None:
    jobs: Jobs = FakeJobs() if made == "fake" else wire.world(tmp_path / "bench.db").jobs
    key = jobs.start("twice", {"n": 2}, lambda _: {"n": 4}).key
    while jobs.state(key).status == "running":
        pass
    assert jobs.start("twice", {"n": 2}, lambda _: {"n": 0}).answer == {"n": 4}
    assert jobs.start("twice", {"n": 3}, lambda _: {"n": 6}).key != key
    with pytest.raises(NotFound, match="nothing"):
        jobs.state("nothing")


@given(
    subject=st.text(st.characters(exclude_categories=["Cs"])),
    body=st.recursive(
        st.none() | st.booleans() | st.integers(-(2**63), 2**63) | st.floats(allow_nan=False,
        allow_infinity=False) | st.text(st.characters(exclude_categories=["Cs"])),
        lambda inner: st.lists(inner, max_size=3),
        max_leaves=6,
    ),
)  # fmt: skip
def test_awkward_events_come_back_as_they_went(
    sqlite_bench: Opened, subject: str, body: object
) -> None:
    event = Event("e" * 32, subject, "told", AT, {"it": body})
    with sqlite_bench() as bench:
        bench.ledger.append(event)
        assert [r.event for r in bench.ledger.of(subject)] == [event]
        assert bench.ledger.check() == 1


@pytest.mark.parametrize("table", ["event", "sheet", "photo", "paper_file"])
@pytest.mark.parametrize("act", ["UPDATE {} SET rowid = rowid", "DELETE FROM {}"])
def test_what_is_kept_for_good_cannot_be_changed(tmp_path: Path, table: str, act: str) -> None:
    with wire.world(tmp_path / "bench.db").bench() as bench:
        bench.sheets.add(SHEET)
        bench.photos.add("p1", b"one")
        bench.papers.add(paper_file(b"%PDF-1.7"), at=AT)
        bench.commit()
    connection = sqlite3.connect(tmp_path / "bench.db")
    with pytest.raises(sqlite3.IntegrityError, match=f"{table} is append-only"):
        connection.execute(act.format(table))
    connection.close()


def test_who_only_reads_holds_nobody_up_and_keeps_nothing(tmp_path: Path) -> None:
    world = wire.world(tmp_path / "bench.db")
    save(world.bench)
    with world.reading() as looking:
        assert looking.records.get("cup", "c1").noun == CUP
        save(world.bench, dataclasses.replace(CUP, name="Zinc"), version=1)
        assert looking.records.get("cup", "c1").noun == CUP  # as it was when the look began
        with pytest.raises(RuntimeError, match="only reads keeps nothing"):
            looking.commit()
    with world.reading() as looking:
        assert looking.records.get("cup", "c1").noun.name == "Zinc"
