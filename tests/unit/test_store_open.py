"""A store is opened whole or refused in plain words; a copy is sound or not kept."""

from __future__ import annotations

import hashlib
import sqlite3
import subprocess
import sys
import threading
import time
from contextlib import closing
from pathlib import Path

import pytest

from pourwright import wire
from pourwright.base.errors import Conflict, NoAnswer, NotFound
from pourwright.shop.tool import Cup


def made(store: Path) -> Path:
    with wire.world(store).bench() as bench:
        bench.records.save("cup", "c1", Cup(name="Cup", volume_ml=473), expected_version=0)
        bench.commit()
    return store


def spoil(store: Path) -> Path:
    """Overwrite everything behind the first pages of a copy."""
    whole = store.with_name("whole.db")
    wire.back_up(made(whole), store)
    content = bytearray(store.read_bytes())
    content[4096 * 2 :] = b"\x07" * (len(content) - 4096 * 2)
    store.write_bytes(content)
    return store


def test_a_first_start_that_was_cut_off_is_begun_again(tmp_path: Path) -> None:
    store = tmp_path / "bench.db"
    with closing(sqlite3.connect(store)) as connection:
        connection.execute("PRAGMA journal_mode = WAL")
    assert store.stat().st_size > 0
    with wire.world(made(store)).bench() as bench:
        assert bench.records.get("cup", "c1").version == 1


def test_a_damaged_store_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Conflict, match=r"bench\.db is damaged"):
        wire.world(spoil(tmp_path / "bench.db"))


def test_a_newer_store_is_refused(tmp_path: Path) -> None:
    store = made(tmp_path / "bench.db")
    with closing(sqlite3.connect(store)) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    with pytest.raises(Conflict, match="newer than this program"):
        wire.world(store)


def test_an_up_to_date_store_opens_without_the_migration_library(tmp_path: Path) -> None:
    store = made(tmp_path / "bench.db")
    code = (
        "import sys; from pathlib import Path; from pourwright import wire;"
        "wire.world(Path(sys.argv[1])); sys.exit('alembic' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code, str(store)], check=False).returncode == 0


def test_a_copy_has_its_hash_beside_it(tmp_path: Path) -> None:
    target = tmp_path / "copy.db"
    wire.back_up(made(tmp_path / "bench.db"), target)
    digest, name = (tmp_path / "copy.db.sha256").read_text().split()
    assert name == "copy.db"
    # The check of the chain opens the copy, and must leave its bytes as they were hashed.
    assert digest == hashlib.sha256(target.read_bytes()).hexdigest()


def test_a_copy_that_would_not_be_sound_is_not_kept(tmp_path: Path) -> None:
    target = tmp_path / "copy.db"
    with pytest.raises(Conflict, match="no copy was kept"):
        wire.back_up(spoil(tmp_path / "bench.db"), target)
    assert not target.exists()
    with pytest.raises(NotFound, match="no store"):
        wire.back_up(tmp_path / "none.db", target)
    with pytest.raises(NotFound, match="no folder"):
        wire.back_up(made(tmp_path / "good.db"), tmp_path / "none" / "copy.db")


def test_a_job_stops_when_asked_and_one_that_waited_never_begins(tmp_path: Path) -> None:
    jobs = wire.world(tmp_path / "bench.db").jobs
    going, begun = threading.Event(), threading.Event()

    def long(progress):
        while True:
            going.set()
            progress.at(0.5)
            time.sleep(0.001)

    def waiting(_progress):
        begun.set()
        return {}

    first = jobs.start("long", {}, long)
    second = jobs.start("waiting", {}, waiting)
    assert going.wait(5)
    jobs.cancel(second.key)
    jobs.cancel(first.key)
    assert ended(jobs, first.key).status == "cancelled"
    assert ended(jobs, second.key).status == "cancelled"
    assert not begun.is_set()
    assert ended(jobs, jobs.start("waiting", {}, waiting).key).status == "done"


def test_a_failed_job_says_why_and_may_be_tried_again(tmp_path: Path) -> None:
    jobs = wire.world(tmp_path / "bench.db").jobs

    def refuse(_progress):
        raise NoAnswer("too cold")

    state = ended(jobs, jobs.start("cook", {}, refuse).key)
    assert (state.status, state.error) == ("failed", {"error": "no_answer", "message": "too cold"})
    assert ended(jobs, jobs.start("cook", {}, lambda _: {"c": 170}).key).answer == {"c": 170}


def test_a_job_of_a_program_that_ended_is_marked_failed(tmp_path: Path) -> None:
    store = tmp_path / "bench.db"
    code = (
        "import os, sys, time, threading; from pathlib import Path; from pourwright import wire;"
        "jobs = wire.world(Path(sys.argv[1])).jobs;"
        "print(jobs.start('long', {}, lambda p: time.sleep(60)).key, flush=True);"
        "os._exit(1)"
    )
    run = subprocess.run(
        [sys.executable, "-c", code, str(store)], check=False, capture_output=True, text=True
    )
    state = wire.world(store).jobs.state(run.stdout.strip())
    assert state.status == "failed"
    assert state.error is not None
    assert "program ended" in state.error["message"]


def ended(jobs, key: str):
    """The state of a job once it runs no more."""
    until = time.monotonic() + 10
    while jobs.state(key).status == "running":
        assert time.monotonic() < until, "the job never ended"
        time.sleep(0.002)
    return jobs.state(key)
