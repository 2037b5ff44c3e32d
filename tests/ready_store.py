"""Stores that stand ready: each kind is made once a process, then copied, which is far quicker."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from pourwright import wire
from pourwright.actions.demo import fill_demo
from pourwright.actions.port import World


def empty_bench(folder: Path) -> World:
    """A bench in that folder on which nobody has entered anything."""
    return _laid(folder, demo=False)


def demo_bench(folder: Path) -> World:
    """The demo bench in that folder, with one lot and nothing that was poured before or after."""
    return _laid(folder, demo=True)


def _laid(folder: Path, *, demo: bool) -> World:
    store = folder / "bench.db"
    store.write_bytes(_store(demo=demo))
    return wire.world(store)


@cache
def _store(*, demo: bool) -> bytes:
    with TemporaryDirectory(ignore_cleanup_errors=True) as folder:
        made, copy = Path(folder) / "made.db", Path(folder) / "copy.db"
        world = wire.world(made)
        if demo:
            fill_demo(world, past=False)
        wire.back_up(made, copy)
        return copy.read_bytes()
