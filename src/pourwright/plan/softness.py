"""How soft the bait will be: the plastic with its hardener and softener."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.base.errors import PourwrightError
from pourwright.blend.hardness import Grade, HardnessInput, hardness
from pourwright.forecast.request import PlasticPart, Sort
from pourwright.plan.batch_plan import Figure
from pourwright.plan.layer import LayerPlan


def softness(plastic: PlasticPart, layers: Sequence[LayerPlan], seed: int) -> tuple[Figure, ...]:
    """Hardness of every layer, where the plastic's own is known and a gauge can read it."""
    if plastic.hardness_oo is None:
        return ()
    figures = [_layer(plastic, plastic.hardness_oo, layer, seed) for layer in layers]
    return tuple(f for f in figures if f is not None)


def _layer(plastic: PlasticPart, own_oo: float, layer: LayerPlan, seed: int) -> Figure | None:
    grams = {d.name: float(g[0]) for d, g in zip(layer.part.doses, layer.mix.grams_per_100g,
                                                 strict=True)}  # fmt: skip
    hard = [d for d in layer.part.doses if d.sort is Sort.HARDENER and d.hardness_oo]
    soft = sum(grams[d.name] for d in layer.part.doses if d.sort is Sort.SOFTENER)
    try:
        found = hardness(
            HardnessInput(
                grades=(
                    Grade(name=plastic.name, grams_g=100, hardness_oo=own_oo),
                    *(
                        Grade(name=d.name, grams_g=grams[d.name], hardness_oo=d.hardness_oo)
                        for d in hard
                    ),
                    *(() if hard else (Grade(name="none", grams_g=0, hardness_oo=own_oo),)),
                ),
                softener_per_100g=soft,
                seed=seed,
            )
        )
    except PourwrightError:
        # Off the Shore OO scale: a plan does without this figure.
        return None
    first = layer.part.name in {"body", ""}
    return Figure(
        "hardness_oo" if first else f"hardness_oo_{layer.part.name}",
        "Softness, Shore OO" if first else f"Softness of the {layer.part.name}, Shore OO",
        found.hardness_oo, "", ("the plastic's hardness", "hardener and softener in the recipe"),
        "log-modulus rule; ASTM D2240 and Hertz for the scale",
        tuple(note.removeprefix("hardness_oo: ") for note in found.notes),
    )  # fmt: skip
