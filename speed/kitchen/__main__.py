"""How fast the kitchen cooks and what one long burst does there: python -m speed.kitchen."""

from __future__ import annotations

import time
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from speed import kitchen

CUPS, BURST_S = 250, 450
POWER_W, POUR_G, BURST_AT_S = 485.0, 498.0, 360


def told(name: str, values: NDArray[np.float64]) -> None:
    """Print the 5th, 50th and 95th percentile."""
    low, middle, high = np.percentile(values, [5, 50, 95])
    print(f"{name:44} {middle:6.1f}  ({low:.1f} to {high:.1f})")


def main() -> None:
    """The clock first, then 6:00 at 485 W into 498 g."""
    ovens = kitchen.draw_ovens(range(CUPS), plastic_g=POUR_G)
    cups = kitchen.fresh_cups(ovens, 0, POUR_G, 22)
    begin = time.perf_counter()
    kitchen.heat(cups, BURST_S)
    print(f"{CUPS} cups through {BURST_S} s: {time.perf_counter() - begin:.1f} s")

    same = replace(ovens.oven, power_w=np.full(CUPS, POWER_W))
    cups = kitchen.fresh_cups(replace(ovens, oven=same), 0, POUR_G, 22)
    hot = kitchen.heat(cups, BURST_AT_S)
    told("mean after 6:00 at 485 W, °C", kitchen.mean_c(hot))
    told("surface, °C", kitchen.surface_c(hot))
    told("hottest, °C", kitchen.hottest_c(hot))
    told("lowest tenth, °C", kitchen.bottom_c(hot))
    told("fused, %", 100 * kitchen.fused(hot))
    told("lost to the air, %", 100 * hot.lost_j / hot.absorbed_j)
    stirred = kitchen.stir(hot)
    told(
        "surface less mean after the stir, K", kitchen.surface_c(stirred) - kitchen.mean_c(stirred)
    )
    later = kitchen.rest(stirred, 10)
    told("the same 10 s later, K", kitchen.surface_c(later) - kitchen.mean_c(later))


if __name__ == "__main__":
    main()
