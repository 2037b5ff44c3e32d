"""What can be done with a record beside changing it."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.port import Stored
from pourwright.shop.look import Look
from pourwright.shop.material import Eyes, Material, Packing, Plastic, RemeltPot
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.tool import Microwave, Thermometer


@dataclass(frozen=True, slots=True)
class Deed:
    """A page that works on one record."""

    label: str
    address: str


def deeds_of(stored: Stored) -> tuple[Deed, ...]:
    """The pages that work on a record; none for most sorts."""
    match stored.noun:
        case Look():
            return (
                Deed("See it", f"/looks/{stored.id}"),
                Deed("Color and recipe", f"/looks/{stored.id}/color"),
            )
        case Bait():
            return (Deed("Look at it", f"/baits/{stored.id}"),)
        case Mold():
            return (Deed("Will it fill?", f"/molds/{stored.id}"),)
        case Thermometer():
            return (Deed("Check it", f"/thermometers/{stored.id}/check"),)
        case Microwave():
            return (Deed("See inside a cup", "/inside-the-cup"),)
        case Plastic():
            return (
                _bought(stored),
                Deed("Press test", "/questions/blend.press_test"),
                Deed("Softness by your pucks", "/questions/blend.hardness"),
            )
        case RemeltPot():
            return (Deed("Heat budget", f"/remelt-pots/{stored.id}/heat-budget"),)
        case Material() | Eyes() | Packing():
            return (_bought(stored),)
        case _:
            return ()


def _bought(stored: Stored) -> Deed:
    return Deed("Bought more", f"/stock/buy/{stored.sort}/{stored.id}")
