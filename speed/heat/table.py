"""The printed table of the closed loop."""

from __future__ import annotations

import statistics
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor

import numpy as np

from speed.heat.loop import BurstRow, CupRow, Record, loop
from speed.heat.peers import fixed, one_go, oracle
from speed.heat.scenario import CUPS, SCENARIOS, Scenario

CHUNK, WORKERS = 25, 2
ORACLE_OVENS = 50
_GEL_FROM_C, _GEL_TO_C, _FINISHING_FROM_C = 90.0, 115.0, 135.0


def main(ovens: int = 250) -> None:
    """Print every scenario, and the peers under both limits."""
    for scenario in SCENARIOS:
        _told(scenario, _run(loop, scenario, ovens))
    for scenario in SCENARIOS[:2]:
        print(f"\npeers under a limit of {scenario.limit_c:g} °C, one cup an oven")
        _ended("one go by the label", _run(one_go, scenario, ovens).cups, scenario)
        _ended("2:00, 1:00, 0:30 until 330 °F", _run(fixed, scenario, ovens).cups, scenario)
        known = _run(oracle, scenario, min(ovens, ORACLE_OVENS)).cups
        _ended(f"all-knowing ({len(known)})", known, scenario)


def _run(cook: Callable[[list[int], Scenario], Record], scenario: Scenario, ovens: int) -> Record:
    chunks = [list(range(a, min(a + CHUNK, ovens))) for a in range(0, ovens, CHUNK)]
    whole = Record()
    with ProcessPoolExecutor(WORKERS) as pool:
        for part in pool.map(cook, chunks, [scenario] * len(chunks)):
            whole.bursts.extend(part.bursts)
            whole.cups.extend(part.cups)
            whole.seconds.extend(part.seconds)
    return whole


def _told(scenario: Scenario, record: Record) -> None:
    print(f"\n{scenario.name}: target {scenario.target_c:g} °C, {len(record.cups)} cups")
    for cup in range(CUPS):
        for number in (1, 2, 3, 4):
            mine = [b for b in record.bursts if (b.cup, b.number) == (cup, number)]
            _burst_line(f"cup {cup + 1}, burst {number}", mine)
    later = [b for b in record.bursts if b.cup > 0]
    crossing = [b for b in later if b.from_c < _GEL_FROM_C and b.to_c > _GEL_TO_C]
    _burst_line("cups 2 to 4, across the gel", crossing)
    _burst_line("cups 2 to 4, finishing", [b for b in later if b.from_c > _FINISHING_FROM_C])
    _ended("cup 1", [c for c in record.cups if c.cup == 0], scenario)
    _ended("cups 2 to 4", [c for c in record.cups if c.cup > 0], scenario)
    over = sum(c.over for c in record.cups)
    print(f"  over the limit: {over} of {len(record.cups)} cups")
    slow = np.quantile(record.seconds, 0.95)
    print(
        f"  one answer: median {1e3 * statistics.median(record.seconds):.0f} ms, p95 "
        f"{1e3 * slow:.0f} ms"
    )


def _burst_line(name: str, rows: list[BurstRow]) -> None:
    if len(rows) < 10:
        return
    miss = np.array([b.miss_k for b in rows])
    print(
        f"  {name:28} n {len(rows):5}  rms {np.sqrt((miss**2).mean()):5.1f} K  mean "
        f"{miss.mean():+5.1f} K  in its 90 % band {np.mean([b.inside for b in rows]):.0%}"
    )


def _ended(name: str, cups: list[CupRow], scenario: Scenario) -> None:
    off = np.array([c.off_k for c in cups])
    rounds = [c.rounds for c in cups]
    near = np.mean(np.abs(off) <= scenario.near_k)
    thousand = 1000 * np.mean([c.over for c in cups])
    print(
        f"  {name:30} end {off.mean():+6.1f} ± {off.std():4.1f} K, within ±{scenario.near_k:g} K "
        f"{near:4.0%}, rounds {statistics.median(rounds):g} (mean {np.mean(rounds):.2f}), "
        f"fused {np.mean([c.fused for c in cups]):.2f}, over the limit {thousand:.0f} of 1,000, "
        f"readings doubted {sum(c.doubts for c in cups)}"
    )


if __name__ == "__main__":
    import sys

    main(int(sys.argv[1]) if len(sys.argv) > 1 else 250)
