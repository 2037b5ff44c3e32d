"""What is ordered, in which color and through which mold; the cup, the injector and the remelt."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import Any

from pourwright.base.errors import BadInput
from pourwright.base.field import flag, number, parts, text
from pourwright.base.record import Record
from pourwright.fill.shot import ShotInput


def _of_a_batch(name: str) -> Any:
    """A field declared for the account of a single batch, which holds here unchanged."""
    found = ShotInput.__dataclass_fields__[name]
    return dataclasses.field(default=found.default, metadata=found.metadata)


@dataclass(frozen=True, slots=True, kw_only=True)
class CupOrder(Record):
    """So many good baits of one color out of one mold."""

    color: str = text("Color; what has one color may share a cup", most=80)
    mold: str = text("Mold it is shot into", most=80)
    count: int = number("Good baits wanted", low=1, high=20_000)
    cavities: int = _of_a_batch("cavities")
    bait_g: float | None = _of_a_batch("bait_g")
    bait_ml: float | None = _of_a_batch("bait_ml")
    feed_g: float | None = _of_a_batch("feed_g")
    feed_ml: float | None = _of_a_batch("feed_ml")
    reject_share: float | None = _of_a_batch("reject_share")
    warmup_shots: int = number(
        "Warm-up shots, once for each color through the mold", low=0, high=20, default=1
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class RemeltStock(Record):
    """A pot of remelt."""

    name: str = text("Pot", most=80)
    on_hand_g: float = number("Remelt in it", low=0, high=200_000)
    only_into: str = text("The one color it may go into; left out, any that takes remelt",
                          most=80, default="")  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class RemeltColor(Record):
    """A color dark or opaque enough to hide what remelt brings along."""

    color: str = text("Color", most=80)


@dataclass(frozen=True, slots=True, kw_only=True)
class CupsInput(Record):
    """Orders, one size of cup, and the remelt with its rules."""

    orders: tuple[CupOrder, ...] = parts("Orders", least=1, most=400)
    cup_ml: float = _of_a_batch("cup_ml")
    fill_share: float = _of_a_batch("fill_share")
    residue_g: float | None = _of_a_batch("residue_g")
    injector_ml: float = _of_a_batch("injector_ml")
    heel_ml: float | None = _of_a_batch("heel_ml")
    cold_density_g_ml: float | None = _of_a_batch("cold_density_g_ml")
    hot_density_g_ml: float | None = _of_a_batch("hot_density_g_ml")
    packed_ratio: float | None = _of_a_batch("packed_ratio")
    one_mold_a_cup: bool = flag("Shots into different molds never share a cup")
    remelt: tuple[RemeltStock, ...] = parts("Remelt on hand", most=40)
    remelt_colors: tuple[RemeltColor, ...] = parts("Colors that may take remelt", most=200)
    remelt_share: float = _of_a_batch("remelt_share")
    seed: int = _of_a_batch("seed")

    def check(self) -> None:
        """Refuse remelt rules for colors nobody ordered, and pots that stand there twice."""
        ordered = {order.color for order in self.orders}
        for i, it in enumerate(self.remelt_colors):
            if it.color not in ordered:
                raise BadInput(f"remelt_colors[{i}].color", it.color, "is a color nobody ordered")
        names = [pot.name for pot in self.remelt]
        for i, pot in enumerate(self.remelt):
            if pot.name in names[:i]:
                raise BadInput(f"remelt[{i}].name", pot.name, "stands there twice")
            if pot.only_into and pot.only_into not in {it.color for it in self.remelt_colors}:
                why = "is not among the colors that may take remelt"
                raise BadInput(f"remelt[{i}].only_into", pot.only_into, why)
