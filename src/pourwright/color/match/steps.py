"""From bottles on the shelf to a counter, and from counts back to what a hand does."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.color import spoon
from pourwright.color.dose import Dose, Measured
from pourwright.color.layer import mixture
from pourwright.color.match.bottle import Bottle, per_gram
from pourwright.color.match.counter import Counter
from pourwright.color.plastic import RawPlastic
from pourwright.color.slab import Placing
from pourwright.color.viewer import Flaked, Viewer
from pourwright.spectrum.light import BANDS


@dataclass(frozen=True, slots=True)
class Bench:
    """The cup and how a color in it is looked at."""

    plastic_g: float
    plastic: RawPlastic
    fixed: tuple[Dose, ...]
    thick_mm: float
    ground: float
    placing: Placing
    spoons_tsp: tuple[float, ...]
    scale_step_g: float
    most_steps: int

    def step_g(self, bottle: Bottle) -> float:
        """Grams of one step of a bottle."""
        return bottle.step_g(self.scale_step_g, min(self.spoons_tsp))


def counter_of(bottles: Sequence[Bottle], bench: Bench, lights: Sequence[Array]) -> Counter:
    """The shelf as numbers, for this cup; what is fixed in it lies in the base."""
    steps = np.array([bench.step_g(b) for b in bottles])
    grams = [per_gram(b.colorant) for b in bottles]
    share = (100 / bench.plastic_g * steps)[:, None]
    mixed = mixture(
        bench.plastic.typical_flux(), [d.stuff(d.typical()) for d in bench.fixed if d.colorant]
    )
    faces = float(mixed.faces_per_mm[0])
    return Counter(
        step_absorb=_single(share * np.array([g[0] for g in grams]).reshape(-1, BANDS)),
        step_scatter=_single(share * np.array([g[1] for g in grams]).reshape(-1, BANDS)),
        base_absorb=_single(mixed.absorb_mm[0]),
        base_scatter=_single(mixed.scatter_mm[0]),
        most=np.array(
            [b.most_steps(s, bench.most_steps) for b, s in zip(bottles, steps, strict=True)]
        ),
        step_money=steps * np.array([b.price_per_kg_money / 1000 for b in bottles]),
        viewer=Viewer(
            thick_mm=bench.thick_mm,
            ground=bench.ground,
            placing=bench.placing,
            lights=lights,
            flaked=Flaked(faces, np.ravel(mixed.faces_show)) if faces else None,
        ),
    )


def in_words(bottle: Bottle, steps: int, bench: Bench) -> str:
    """What to measure out."""
    match bottle.measure:
        case Measured.DROPS:
            return f"{steps} drop" + ("s" if steps != 1 else "")
        case Measured.GRAMS:
            return f"{steps * bench.scale_step_g:g} g"
        case Measured.SPOONS:
            teaspoons = steps * min(bench.spoons_tsp)
            return spoon.in_words(spoon.spooned(teaspoons, bench.spoons_tsp))


def _single(values: Array) -> np.ndarray[tuple[int, ...], np.dtype[np.float32]]:
    return np.ascontiguousarray(values, dtype=np.float32)
