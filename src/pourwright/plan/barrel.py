"""What each barrel draws where two layers are shot at once."""

from __future__ import annotations

from pourwright.base.draws import Draws
from pourwright.plan.batch_plan import Figure
from pourwright.plan.figure import figure
from pourwright.plan.layer import LayerPlan


def barrel_figures(draws: Draws, layers: tuple[LayerPlan, ...]) -> tuple[Figure, ...]:
    """Hot plastic that one shot draws of each layer; nothing for one layer or without injector."""
    if len(layers) < 2 or not layers[0].bench.load_ml:
        return ()
    return tuple(_drawn(draws, layer) for layer in layers)


def _drawn(draws: Draws, layer: LayerPlan) -> Figure:
    shot_g = layer.bench.cavities * layer.bait_g + layer.feed_g
    name = layer.part.name
    return figure(
        draws, f"{name}_shot_ml", f"The {name}: one shot draws, hot",
        shot_g / layer.bench.hot_g_ml, unit="ml",
        inputs=(
            f"share {layer.part.share:.1%} of the bait and its feed",
            "the heel stays in the barrel on top of it",
            "two barrels of one bore are pushed in this proportion",
        ),
        source="grams in = grams out; plasticizer expansion, estimate",
    )  # fmt: skip
