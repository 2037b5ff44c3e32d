"""What can be done with a record beside changing it."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.port import Stored
from pourwright.shop.look import Look
from pourwright.shop.material import RemeltPot
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
            return (Deed("Color and recipe", f"/looks/{stored.id}/color"),)
        case Thermometer():
            return (Deed("Check it", f"/thermometers/{stored.id}/check"),)
        case Microwave():
            return (Deed("See inside a cup", "/inside-the-cup"),)
        case RemeltPot():
            return (Deed("Heat budget", f"/remelt-pots/{stored.id}/heat-budget"),)
        case _:
            return ()
