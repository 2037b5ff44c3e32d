"""A plan being made: what the person has chosen so far."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from pourwright.base.field import flag, number, reference, share, text
from pourwright.shop.noun import Noun


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft(Noun):
    """Bait, mold, look, count and the tools to use.

    Four entries are enough: a bait size (a stored bait or a typed weight or volume), cavities
    (a stored mold or typed), the count, and a pouring cup (stored or a typed volume).
    """

    key: ClassVar[str] = "draft"
    label: ClassVar[str] = "Plan"
    plural: ClassVar[str] = "Plans"
    place: ClassVar[str] = "plan"

    name: str = text("What you call it", most=60, default="")
    mold: str = reference("Mold", refers="mold", default="")
    bait_g: float | None = number("Weight of one bait", low=0.05, high=500, default=None)
    bait_ml: float | None = number("Volume of one bait", low=0.05, high=500, default=None)
    cavities: int | None = number("Cavities", low=1, high=60, default=None)
    count: int = number("Good baits wanted", low=1, high=20_000)
    cup: str = reference("Pouring cup", refers="cup", default="")
    cup_ml: float | None = number("Brim volume of the cup", low=30, high=4000, default=None)
    look: str = reference("Look", refers="look", default="")
    plastic: str = reference("Plastic", refers="plastic", default="")
    microwave: str = reference("Microwave", refers="microwave", default="")
    thermometer: str = reference("Thermometer", refers="thermometer", default="")
    injector: str = reference("Injector", refers="injector", default="")
    by_hand: bool = flag("Pour by hand, without an injector")
    spoons: str = reference("Spoons", refers="spoons", default="")
    scale: str = reference("Scale", refers="scale", default="")
    remelt: str = reference("Remelt pot", refers="remelt_pot", default="")
    remelt_g: float = number("Remelt to use up", low=0, high=20_000, default=0)
    packing: str = reference("Packing", refers="packing", default="")
    eyes: str = reference("Eyes (two a bait)", refers="eyes", default="")
    warmup_shots: int = number("Warm-up shots", low=0, high=20, default=1)
    reject_share: float | None = share("Share you expect to reject", low=0, high=0.9, default=None)
    target_c: float = number("Pour at", low=150, high=190, default=175)
    mold_c: float | None = number("Mold temperature at the start", low=0, high=80, default=None)
    margin: float | None = share("Margin you want", low=0, high=0.95, default=None)
