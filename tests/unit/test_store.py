"""The store keeps what it was told, all of it or nothing, and notices tampering."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
import threading
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pourwright import wire
from pourwright.actions.demo import DEMO_DRAFT, demo_nouns
from pourwright.actions.enter_lot import add_lot_photo, enter_lot, lot_by_code, lot_view
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.port import Event, World
from pourwright.actions.pour_again import pour_again
from pourwright.actions.set_up import Answers, set_up
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.shop.lot import LotEntry
from pourwright.shop.stored_form import body_of, noun_of
from pourwright.shop.tool import Cup
from pourwright.shop.workplace import Workplace

CUP = Cup(name="Blue cup", volume_ml=473, price_money=11.25)


@pytest.fixture
def world(tmp_path: Path) -> World:
    return wire.world(tmp_path / "bench.db")


@pytest.fixture
def demo(world: World) -> World:
    wire.fill_demo_if_empty(world)
    return world


def kept(world: World, cup: Cup = CUP, *, version: int = 0) -> None:
    with world.bench() as bench:
        bench.records.save("cup", "c1", cup, expected_version=version)
        bench.commit()


def test_a_record_is_read_back_through_a_new_unit_of_work(world: World) -> None:
    kept(world)
    with world.bench() as bench:
        assert bench.records.get("cup", "c1").noun == CUP
        assert [s.id for s in bench.records.all("cup")] == ["c1"]


def test_nothing_is_kept_without_a_commit(world: World) -> None:
    with world.bench() as bench:
        bench.records.save("cup", "c1", CUP, expected_version=0)
    with world.bench() as bench, pytest.raises(NotFound, match="c1"):
        bench.records.get("cup", "c1")


def test_a_stale_version_is_a_conflict(world: World) -> None:
    kept(world)
    kept(world, version=1)
    with pytest.raises(Conflict, match="version 2, not 1"):
        kept(world, version=1)


def test_a_retired_record_leaves_the_lists_and_keeps_its_history(world: World) -> None:
    kept(world)
    with world.bench() as bench:
        bench.records.retire("cup", "c1", expected_version=1)
        bench.commit()
    with world.bench() as bench:
        assert bench.records.all("cup") == ()
        assert [s.id for s in bench.records.all("cup", retired=True)] == ["c1"]
        assert [e.event.kind for e in bench.ledger.of("cup/c1")] == ["saved", "retired"]


def test_money_lies_in_the_store_as_whole_ten_thousandths(world: World, tmp_path: Path) -> None:
    kept(world)
    with sqlite3.connect(tmp_path / "bench.db") as connection:
        body = connection.execute("SELECT body FROM record").fetchone()[0]
    connection.close()
    assert '"price_money":112500' in body


@pytest.mark.parametrize("key", demo_nouns())
def test_every_noun_comes_back_from_its_stored_form(key: str) -> None:
    noun = demo_nouns()[key]
    assert noun_of(noun.key, body_of(noun)) == noun


@given(name=st.text(st.characters(exclude_categories=["Cc", "Cs"]), min_size=1, max_size=60))
def test_awkward_names_survive(name: str) -> None:
    cup = Cup(name=name, volume_ml=100)
    assert noun_of("cup", body_of(cup)) == cup


def test_an_event_sent_twice_is_stored_once(world: World) -> None:
    event = Event("a" * 32, "lot/x", "counted", "2026-01-02T03:04:05Z", {"n": 1})
    with world.bench() as bench:
        assert bench.ledger.append(event) == bench.ledger.append(event)
        bench.commit()
    with world.bench() as bench:
        assert len(bench.ledger.of("lot/x")) == 1
        changed = Event(event.id, event.subject, event.kind, event.at, {"n": 2})
        with pytest.raises(Conflict, match="other content"):
            bench.ledger.append(changed)


@pytest.mark.parametrize("act", ["UPDATE event SET body = '{}'", "DELETE FROM event"])
def test_events_cannot_be_changed(world: World, tmp_path: Path, act: str) -> None:
    kept(world)
    connection = sqlite3.connect(tmp_path / "bench.db")
    with pytest.raises(sqlite3.IntegrityError, match="append-only"):
        connection.execute(act)
    connection.close()


def test_a_tampered_event_breaks_the_chain(demo: World, tmp_path: Path) -> None:
    with demo.bench() as bench:
        assert bench.ledger.check() > 20
    connection = sqlite3.connect(tmp_path / "bench.db")
    connection.execute("DROP TRIGGER event_no_update")
    connection.execute("UPDATE event SET subject = 'cup/other' WHERE place = 7")
    connection.commit()
    connection.close()
    with demo.bench() as bench, pytest.raises(Conflict, match="event 7"):
        bench.ledger.check()


def test_two_writers_wait_for_each_other(world: World) -> None:
    def write(number: int) -> None:
        for i in range(15):
            with world.bench() as bench:
                event = Event(f"{number:016x}{i:016x}", "x", "k", "2026-01-01T00:00:00Z", {})
                bench.ledger.append(event)
                bench.commit()

    threads = [threading.Thread(target=write, args=(n,)) for n in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    with world.bench() as bench:
        assert bench.ledger.check() == 45


def test_what_was_committed_survives_a_kill(tmp_path: Path) -> None:
    store = tmp_path / "bench.db"
    code = (
        "import os, signal, sys; from pathlib import Path; from pourwright import wire;"
        "w = wire.world(Path(sys.argv[1])); wire.fill_demo_if_empty(w);"
        "os.kill(os.getpid(), signal.SIGKILL)"
    )
    subprocess.run([sys.executable, "-c", code, str(store)], check=False)
    with wire.world(store).bench() as bench:
        assert len(bench.records.all("cup")) == 2
        assert bench.ledger.check() > 20


def test_a_file_that_is_not_ours_is_refused_and_left_alone(tmp_path: Path) -> None:
    other = tmp_path / "other.db"
    connection = sqlite3.connect(other)
    connection.execute("CREATE TABLE t (a)")
    connection.commit()
    connection.close()
    before = other.read_bytes()
    with pytest.raises(Conflict, match="not a Pourwright store"):
        wire.world(other)
    assert other.read_bytes() == before
    words = tmp_path / "words.db"
    words.write_text("these are words, not a store; " * 40)
    with pytest.raises(Conflict, match="damaged or is no store"):
        wire.world(words)


def test_a_backup_is_whole_and_never_overwrites(demo: World, tmp_path: Path) -> None:
    target = tmp_path / "copy.db"
    wire.back_up(tmp_path / "bench.db", target)
    with wire.world(target).bench() as copy, demo.bench() as bench:
        assert copy.records.all("mold") == bench.records.all("mold")
    assert (tmp_path / "copy.db.sha256").read_text().endswith("copy.db\n")
    with pytest.raises(Conflict, match="stands already"):
        wire.back_up(tmp_path / "bench.db", target)


def test_a_frozen_sheet_never_changes(demo: World) -> None:
    sheet = freeze_sheet(demo, DEMO_DRAFT)
    with demo.bench() as bench:
        mold = bench.records.get("mold", "demo-mold-worm")
        bench.records.retire("mold", mold.id, expected_version=mold.version)
        bench.commit()
    with demo.bench() as bench:
        assert bench.sheets.get(sheet.number) == sheet
        with pytest.raises(Conflict, match="frozen already"):
            bench.sheets.add(sheet)
        assert lot_by_code(bench, sheet.code).sheet == sheet


def test_a_lot_is_entered_corrected_and_poured_again(demo: World) -> None:
    sheet = freeze_sheet(demo, DEMO_DRAFT)
    enter_lot(demo, sheet.number, LotEntry(shots=8, good=20, flash=8, five_g=76.4))
    view = enter_lot(demo, sheet.number, LotEntry(shots=8, good=22, flash=6, five_g=76.4))
    assert view.lot.corrections == 1
    assert view.comparison is not None
    assert view.comparison.reject_share == pytest.approx(6 / 28)
    assert view.comparison.cost_each_money is not None
    assert view.comparison.cost_each_money > 0
    with demo.bench() as bench:
        again = pour_again(bench, sheet.number)
    assert again.draft.reject_share == pytest.approx(6 / 28, abs=1e-3)
    assert again.draft.count == DEMO_DRAFT.count


def test_more_baits_than_the_shots_can_give_are_refused(demo: World) -> None:
    sheet = freeze_sheet(demo, DEMO_DRAFT)
    with pytest.raises(BadInput, match="at most 8 baits"):
        enter_lot(demo, sheet.number, LotEntry(shots=2, good=9))
    with demo.bench() as bench:
        assert lot_view(bench, sheet.number).lot.entry is None


def test_a_picture_belongs_to_its_lot(demo: World) -> None:
    sheet = freeze_sheet(demo, DEMO_DRAFT)
    photo = add_lot_photo(demo, sheet.number, b"\xff\xd8 a picture")
    with demo.bench() as bench:
        assert lot_view(bench, sheet.number).lot.photos == (photo,)
        assert bench.photos.get(photo).startswith(b"\xff\xd8")


def test_setting_up_ones_own_bench_takes_the_demo_off(demo: World) -> None:
    plan = set_up(demo, Answers(label_w=700))
    with demo.bench() as bench:
        assert [s.noun.name for s in bench.records.all("microwave")] == ["My microwave"]
        place = bench.records.get("workplace", "workplace").noun
        assert isinstance(place, Workplace)
        assert not place.demo
        assert bench.records.get("draft", plan).noun.name == "My first batch"
    with pytest.raises(Conflict, match="already holds a bench"):
        set_up(demo, Answers())


def test_a_long_calculation_is_kept_and_can_be_stopped(world: World) -> None:
    state = world.jobs.start("double", {"n": 2}, lambda _: {"twice": 4})
    for _ in range(200):
        state = world.jobs.state(state.key)
        if state.status != "running":
            break
        threading.Event().wait(0.01)
    assert (state.status, state.answer) == ("done", {"twice": 4})
    assert world.jobs.start("double", {"n": 2}, lambda _: {"twice": 0}).answer == {"twice": 4}
    with pytest.raises(NotFound, match="nothing"):
        world.jobs.state("nothing")
