"""Measure what the reduced cup leaves out: cook the same cups in both models and compare.

    python tools/measure_cup_gap.py [cups]

Cups are drawn at random in the two-dimensional model (`heat.field`), heated in three bursts with
stirs, and replayed in the reduced one with the same watts. Printed are the shares and spreads that
the reduced cup carries as its constants.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "src"))

from pourwright.base.draws import Array
from pourwright.heat.field import advance, grid, state
from pourwright.heat.field.source import Entry
from pourwright.heat.history import Did, Step
from pourwright.heat.learn import replayed, typical_oven
from pourwright.heat.oven import NAMES
from pourwright.heat.replay import Fill, replay

GOALS_C = (70.0, 155.0, 174.0)
LABEL_SIZES_G = (120.0, 250.0, 500.0, 900.0)
COLD = 1.052


@dataclass(frozen=True, slots=True)
class Burst:
    """One burst in the two-dimensional cup, and what the reduced cup made of it."""

    number: int
    plastic_g: float
    rise_k: float
    hot_factor: float
    bottom_lag: float
    face_unstirred_k: float
    face_rested_k: float
    power_ratio: float
    core_factor: float
    bottom_share: float


def drawn_cup(rng: np.random.Generator) -> tuple[state.FieldState, advance.FieldOven, Fill]:
    """A random cup, plastic and oven."""
    grams = float(rng.choice(LABEL_SIZES_G) * rng.uniform(0.8, 1.2))
    brim = grams / COLD / 0.7
    glass = brim * rng.uniform(0.6, 1.2)
    diameter = rng.uniform(1.02, 1.28) * brim ** (1 / 3) / 100
    vessel = grid.vessel(
        plastic_kg=grams / 1000, cold_g_ml=COLD, glass_kg=glass / 1000, diameter_m=diameter
    )
    top, base = rng.uniform(0.12, 0.40), rng.uniform(0.05, 0.18)
    oven = advance.FieldOven(
        power_w=float(rng.lognormal(np.log(480), 0.25)) * grams / (grams + 100) * 1.2,
        entry=Entry(wall=0.88 - top - base, face=top, base=base),
        glass_share=float(rng.uniform(0.01, 0.06)),
        loss=float(rng.lognormal(0, 0.25)),
        currents=float(rng.uniform(0.5, 1.5)),
        loss_ratio=float(rng.uniform(0.4, 1.8)),
    )
    cup = state.filled(vessel, start_c=22, cold_g_ml=COLD, cell_m=0.003)
    fill = Fill(grams, 22.0, 22.0, glass, diameter * 1000, COLD)
    return cup, oven, fill


def heated(rng: np.random.Generator) -> list[Burst]:
    """Three bursts with a stir after each."""
    cup, oven, fill = drawn_cup(rng)
    steps: list[Step] = []
    found: list[Burst] = []
    for number, goal in enumerate(GOALS_C):
        before, start = cup, cup.mean_c
        cup = replace(cup, peak_c=start)
        while cup.mean_c < goal:
            cup = advance.advanced(cup, oven, 2.0, on=True)
        on_s = cup.at_s - before.at_s
        hot, bottom, mean = cup.peak_c, cup.bottom_c, cup.mean_c
        face = advance.face_c(cup, oven)
        cup = advance.advanced(cup, oven, 12.0, on=False)
        cup = state.stirred(cup, evens=float(rng.uniform(0.8, 0.97)))
        cup = advance.advanced(cup, oven, 10.0, on=False)
        steps += [Step(did=Did.HEATED, for_s=on_s), Step(did=Did.RESTED, for_s=12.0),
                  Step(did=Did.STIRRED), Step(did=Did.RESTED, for_s=10.0)]  # fmt: skip
        ratio = matched(fill, tuple(steps), oven, found, cup.mean_c)
        ratios = [*(b.power_ratio for b in found), ratio]
        places = shell(fill, tuple(steps[:-3]), oven, ratios, hot_c=hot, bottom_c=bottom)
        found.append(
            Burst(
                number=number,
                plastic_g=fill.plastic_g,
                rise_k=mean - start,
                hot_factor=(hot - start) / (mean - start),
                bottom_lag=(mean - bottom) / (mean - start),
                face_unstirred_k=face - mean,
                face_rested_k=advance.face_c(cup, oven) - cup.mean_c,
                power_ratio=ratio,
                core_factor=places[0],
                bottom_share=places[1],
            )
        )
    return found


def shell(
    fill: Fill,
    steps: tuple[Step, ...],
    oven: advance.FieldOven,
    ratios: list[float],
    *,
    hot_c: float,
    bottom_c: float,
) -> tuple[float, float]:
    """Share of the waves the core must take, and of the glass the bottom must follow, to agree."""
    factor = np.linspace(0.8, 2.4, 81)
    share = np.linspace(0.0, 1.2, 81)
    names, values = unknowns(fill, oven, ratios, np.zeros(81))
    about = dict(zip(names, values, strict=True))
    mine = replace(typical_oven(about, 22.0), hot_factor=factor, bottom_lag=share)
    bursts = {i: values[len(NAMES) + 2 + i] for i in range(len(ratios))}
    end = replay(
        fill, steps, mine, np.exp(about["ln_load_half_kg"]), start_k=np.zeros(81), bursts=bursts
    ).state
    return (
        float(np.interp(hot_c - end.mean_c[0], end.ahead_k, factor)),
        float(np.interp(end.mean_c[0] - bottom_c, end.behind_k, share)),
    )


def matched(
    fill: Fill, steps: tuple[Step, ...], oven: advance.FieldOven, before: list[Burst], mean_c: float
) -> float:
    """Power the reduced cup needs in the last burst, against the watts of the other, to end alike.

    Earlier bursts keep the ratios that made them end alike.
    """
    ratios = np.linspace(-0.4, 0.4, 81)
    names, values = unknowns(fill, oven, [b.power_ratio for b in before] + [1.0], ratios * 0)
    values[-1] = ratios
    ends = replayed(names, values, fill, steps).state.mean_c
    return float(np.exp(np.interp(mean_c, ends, ratios)))


def unknowns(
    fill: Fill, oven: advance.FieldOven, ratios: list[float], zero: Array
) -> tuple[tuple[str, ...], Array]:
    """Names and values of the reduced cup's unknowns for an oven of the other."""
    load = fill.plastic_g / 1000
    known = {
        "ln_power_w": np.log(oven.power_w * 0.5 / 0.6 / (load / (load + 0.1))),
        "ln_loss": np.log(oven.loss),
        "ln_load_half_kg": np.log(0.1),
        "film_k": 2.9,
    }
    bursts = {f"burst {i}": np.log(r) for i, r in enumerate(ratios)}
    names = (*NAMES, "cup", "start", *bursts)
    rows: list[Array] = [zero + (known | bursts).get(name, 0.0) for name in names]
    return names, np.array(rows)


def main() -> None:
    """Print the comparison."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 60
    rows = [b for seed in range(count) for b in heated(np.random.default_rng(seed))]
    for number, goal in enumerate(GOALS_C):
        mine = [b for b in rows if b.number == number]
        print(f"burst {number + 1} to {goal:g} °C")
        for name in ("hot_factor", "bottom_lag", "face_unstirred_k", "face_rested_k",
                     "power_ratio", "core_factor", "bottom_share"):  # fmt: skip
            values = np.array([getattr(b, name) for b in mine])
            low, middle, high = np.quantile(values, [0.05, 0.5, 0.95])
            print(f"  {name:18} {low:7.3f} {middle:7.3f} {high:7.3f}   sd {values.std():.3f}")
    sizes = sorted({round(b.plastic_g, -2) for b in rows})
    for size in sizes:
        mine = [b for b in rows if round(b.plastic_g, -2) == size]
        text = "  ".join(
            f"{n + 1}: hot {np.median([b.hot_factor for b in mine if b.number == n]):.2f} "
            f"power {np.median([b.power_ratio for b in mine if b.number == n]):.3f}"
            for n in range(3)
        )
        print(f"{size:6.0f} g  {text}")
    within = [
        np.std([np.log(b.power_ratio) for b in rows[i : i + 3]]) for i in range(0, len(rows), 3)
    ]
    print(f"spread of the power ratio between the bursts of one cup: {np.mean(within):.3f}")


if __name__ == "__main__":
    main()
