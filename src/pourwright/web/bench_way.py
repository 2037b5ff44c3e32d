"""The way from a sheet, its lot or the book to the bench."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.actions.pour_standing import PourStanding, Standing, why_unguided

_LABELS = {
    Standing.FROZEN: "Pour it on the bench",
    Standing.BY_HAND: "Go on pouring",
    Standing.RUNNING: "Go on pouring",
    Standing.AWAY: "Take it up again",
    Standing.HUNG: "See it on the rack",
}


@dataclass(frozen=True, slots=True)
class BenchWay:
    """Where the bench takes a sheet: label and address, both empty where it is over or cannot be
    guided; `why` says the latter. `begun` once anything happened to its lot, `guided` once
    anything of that came through the bench.
    """

    label: str
    address: str
    why: str
    begun: bool
    guided: bool


def bench_way(bench: Bench, it: PourStanding) -> BenchWay:
    """The way to the bench of a sheet."""
    begun = it.standing is not Standing.FROZEN
    label = _LABELS.get(it.standing, "")
    why = why_unguided(bench, it.sheet) if label else ""
    if why or not label:
        return BenchWay("", "", why, begun=begun, guided=it.guided)
    address = bench_address(it.sheet.number)
    return BenchWay(label, address, "", begun=begun, guided=it.guided)


def bench_address(sheet: int) -> str:
    """The page of the bench for a sheet."""
    return f"/sheets/{sheet}/bench"
