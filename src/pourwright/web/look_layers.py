"""The layers of a look with their swatches and recipes, laid out for its page."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.actions.see_record import LayerView, see_look
from pourwright.shop.look import Look
from pourwright.web.fact import summary
from pourwright.web.names import Names
from pourwright.web.show import Settings


@dataclass(frozen=True, slots=True)
class LayerCard:
    """One layer; no swatch where one of its materials is gone."""

    title: str
    swatch: LayerView | None
    recipe: tuple[str, ...]
    color: str


def layer_cards(
    bench: Bench, look_id: str, look: Look, settings: Settings
) -> tuple[LayerCard, ...]:
    """The layers in the order of the look."""
    facts = summary(look, settings, Names(bench).name_of).facts
    swatches = see_look(bench, look) or (None,) * len(look.layers)
    return tuple(
        LayerCard(fact.label, swatch, fact.lines, f"/looks/{look_id}/color?layer={at}")
        for at, (fact, swatch) in enumerate(zip(facts, swatches, strict=True))
    )
