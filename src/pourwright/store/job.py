"""Long calculations in the background, kept under a hash of their input."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from threading import Event, Lock
from typing import Any

from sqlalchemy import Engine, insert, select, update

import pourwright
from pourwright.actions.port import Clock, JobState, Progress
from pourwright.base.errors import NotFound, PourwrightError
from pourwright.store.codec import canonical
from pourwright.store.table import JOB

RUNNING, DONE, FAILED, CANCELLED = "running", "done", "failed", "cancelled"
STOPPED = {"error": "conflict", "message": "the program ended while this was running"}


class Cancelled(Exception):
    """Raised inside a calculation that somebody stopped."""


class StoredJobs:
    """One long calculation at a time; a finished answer is found again at once."""

    def __init__(self, engine: Engine, clock: Clock) -> None:
        self._engine = engine
        self._clock = clock
        self._pool = ThreadPoolExecutor(max_workers=1)
        self._stops: dict[str, Event] = {}
        self._lock = Lock()
        self._set(JOB.c.status == RUNNING, status=FAILED, error=canonical(STOPPED))

    def start(
        self, name: str, data: Mapping[str, Any], work: Callable[[Progress], Mapping[str, Any]]
    ) -> JobState:
        """Begin a job, or find its finished answer."""
        content = canonical([name, data, pourwright.__version__])
        key = hashlib.sha256(content.encode()).hexdigest()
        with self._lock:
            known = self._find(key)
            if known is not None and known.status in {RUNNING, DONE}:
                return known
            self._begin(key, name, again=known is not None)
            stop = self._stops[key] = Event()
        self._pool.submit(self._run, key, work, stop)
        return self.state(key)

    def state(self, key: str) -> JobState:
        """How a job is doing. Raises: NotFound."""
        found = self._find(key)
        if found is None:
            raise NotFound(f"there is no job {key!r}")
        return found

    def cancel(self, key: str) -> JobState:
        """Ask a job to stop; it does at its next report."""
        if key in self._stops:
            self._stops[key].set()
        return self.state(key)

    def _run(self, key: str, work: Callable[[Progress], Mapping[str, Any]], stop: Event) -> None:
        try:
            progress = _Reporting(self, key, stop)
            progress.at(0)  # a job cancelled while it waited never begins
            answer = work(progress)
            self._set(JOB.c.key == key, status=DONE, share=1.0, answer=canonical(answer))
        except Cancelled:
            self._set(JOB.c.key == key, status=CANCELLED)
        except PourwrightError as error:
            self._set(JOB.c.key == key, status=FAILED, error=canonical(error.as_json()))
        except Exception as error:  # noqa: BLE001  a background failure must reach the person
            ours = {"error": "our_bug", "message": f"{type(error).__name__}: {error}"}
            self._set(JOB.c.key == key, status=FAILED, error=canonical(ours))

    def report(self, key: str, share: float) -> None:
        """Keep how far a job has come."""
        self._set(JOB.c.key == key, share=share)

    def _begin(self, key: str, name: str, *, again: bool) -> None:
        values = {
            "name": name, "status": RUNNING, "share": 0.0, "answer": None, "error": None,
            "started_at": self._clock.now(),
        }  # fmt: skip
        if again:
            self._set(JOB.c.key == key, **values)
            return
        with self._engine.begin() as connection:
            connection.execute(insert(JOB).values(key=key, **values))

    def _set(self, which: Any, **values: Any) -> None:
        with self._engine.begin() as connection:
            connection.execute(update(JOB).where(which).values(**values))

    def _find(self, key: str) -> JobState | None:
        with self._engine.connect() as connection:
            row = connection.execute(select(JOB).where(JOB.c.key == key)).mappings().first()
        if row is None:
            return None
        return JobState(
            key, row["name"], row["status"], row["share"], _loaded(row["answer"]),
            _loaded(row["error"]),
        )  # fmt: skip


class _Reporting:
    def __init__(self, jobs: StoredJobs, key: str, stop: Event) -> None:
        self._jobs, self._key, self._stop = jobs, key, stop

    def at(self, share: float) -> None:
        if self._stop.is_set():
            raise Cancelled
        self._jobs.report(self._key, share)


def _loaded(words: str | None) -> Mapping[str, Any] | None:
    return None if words is None else json.loads(words)
