"""Invented colorants on a shelf of numbers, and boxes of their recipes, for the tests of proofs."""

from __future__ import annotations

from typing import Any

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.fit.family import library
from pourwright.color.match.boxed import Colors
from pourwright.color.match.counter import Counter
from pourwright.color.match.frontier import Boxes
from pourwright.color.slab import Placing
from pourwright.color.viewer import Viewer
from pourwright.spectrum.light import WEIGHTS, Light

THICK_MM = 10.0
# One of each generated family: an edge, a band, a double band, a black, a white and a brown.
PLACES = (10, 70, 125, 158, 168, 190, 30, 90)


def shelf(*, bottles: int = 3, most: int = 15, step: float = 0.01, **looks: Any) -> Counter:
    """Bottles whose one step is `step` grams in a cup of 100 g."""
    found = library(200)
    rows = list(PLACES[:bottles])
    looks = {"ground": 0.85, "placing": Placing.AIR_GAP, "lights": (Light.D65,), **looks}
    return Counter(
        step_absorb=(np.exp(found.absorb[rows]) * step).astype(np.float32),
        step_scatter=(np.exp(found.scatter[rows]) * step).astype(np.float32),
        base_absorb=np.full(31, 0.002, np.float32),
        base_scatter=np.full(31, 0.01, np.float32),
        most=np.full(bottles, float(most)),
        step_money=np.linspace(0.1, 0.3, bottles),
        viewer=Viewer(
            thick_mm=looks.pop("thick_mm", THICK_MM),
            ground=looks["ground"],
            placing=looks["placing"],
            lights=[WEIGHTS[light] for light in looks["lights"]],
        ),
    )


def colors_of(counter: Counter, target: Any, thick_mm: float = THICK_MM) -> Colors:
    return Colors(counter, counter.most, thick_mm, np.asarray(target, dtype=float))


def random_boxes(random: np.random.Generator, counter: Counter, count: int) -> Boxes:
    """From single recipes to nearly everything."""
    size = min(4, counter.bottles)
    bottles = np.stack([random.permutation(counter.bottles)[:size] for _ in range(count)])
    most = counter.most[bottles]
    low = np.floor(most * random.random((count, size)) ** random.choice([1, 4], (count, 1)))
    wide = random.choice([0, 1, 3, 10, 100], (count, 1))
    high = np.minimum(low + np.floor(random.random((count, size)) * (wide + 1)), most)
    return Boxes(bottles, low, high, np.zeros(count))


def random_recipes(random: np.random.Generator, boxes: Boxes, bottles: int) -> tuple[Array, Array]:
    """One of each box, often at its corners."""
    inside = random.random(boxes.low.shape)
    inside = np.where(random.random((len(boxes), 1)) < 0.3, np.round(inside), inside)
    steps = boxes.low + np.round((boxes.high - boxes.low) * inside)
    found = np.zeros((len(boxes), bottles))
    np.put_along_axis(found, boxes.bottles, steps, axis=1)
    return found, steps
