"""What is asked of a shelf and a cup: a target, and the limits of a recipe."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.draws import Array
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import flag, number, part, parts, pick
from pourwright.base.record import Record
from pourwright.color.dose import Dose
from pourwright.color.ground import Backing, check_ground, ground_of
from pourwright.color.match.bottle import Bottle
from pourwright.color.match.objective import Objective
from pourwright.color.match.steps import Bench
from pourwright.color.match.target import Target
from pourwright.color.plastic import RawPlastic
from pourwright.color.slab import Placing
from pourwright.color.spoon import KITCHEN_SPOONS
from pourwright.spectrum.light import Light


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchInput(Record):
    """A target, a shelf and a cup."""

    target: Target = part("The color wanted, at this thickness and over this ground")
    shelf: tuple[Bottle, ...] = parts("Colorants to choose from", least=1, most=40)
    fixed: tuple[Dose, ...] = parts(
        "In it anyway, for 100 g: flake, salt, hollow glass, remelt", most=8
    )
    plastic_g: float = number("Plastic in the cup", low=5, high=20_000, default=100)
    plastic: RawPlastic = part("The plastic without color", default=RawPlastic())
    thick_mm: float = number("Thickness", low=0.2, high=60, default=10)
    backing: Backing = pick("Ground behind it", default=Backing.WHITE)
    ground_share: float | None = number(
        "Reflectance of another ground, 0 to 1", low=0, high=1, default=None
    )
    placing: Placing = pick("How it lies", default=Placing.CONTACT)
    lights: tuple[Light, ...] = parts(
        "Other lights it should hold under; left out: daylight alone", most=3
    )
    most_colorants: int = number("Colorants in a recipe at most", low=1, high=5, default=4)
    most_drops: int = number("Drops or steps in a recipe at most", low=1, high=400, default=120)
    most_cost_money: float | None = number("Cost at most", low=0, high=50_000, default=None)
    spoon_sizes_tsp: tuple[float, ...] = parts(
        "Your spoons; left out: 1, 1/2, 1/4 and 1/8 tsp", most=8, low=0.01, high=48
    )
    scale_step_g: float = number("Smallest step of the scale", low=0.001, high=10, default=0.1)
    recipes: int = number("How many recipes to list", low=1, high=20, default=5)
    proof: bool = flag("Prove the best one, which takes a job of seconds to minutes")
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a ground without its reflectance, daylight twice and bottles of one name."""
        check_ground(self.backing, self.ground_share)
        if Light.D65 in self.lights:
            raise BadInput("lights", "D65", "daylight is always held; name the others")
        names = [b.name for b in self.shelf]
        if len(set(names)) != len(names):
            raise BadInput("shelf", names, "two bottles share a name")

    def bench(self) -> Bench:
        """The cup and the view."""
        return Bench(
            plastic_g=self.plastic_g, plastic=self.plastic, fixed=self.fixed,
            thick_mm=self.thick_mm,
            ground=ground_of(self.backing, self.ground_share),
            placing=self.placing, spoons_tsp=self.spoon_sizes_tsp or KITCHEN_SPOONS,
            scale_step_g=self.scale_step_g, most_steps=self.most_drops,
        )  # fmt: skip


def usable(shelf: Sequence[Bottle]) -> tuple[Bottle, ...]:
    """The bottles that mix.

    Raises: NoAnswer where none does.
    """
    found = tuple(b for b in shelf if b.colorant.mixes)
    if not found:
        raise NoAnswer("every bottle is fluorescent, and no mixture of those is forecast")
    return found


def objective_of(inputs: MatchInput, weights: Sequence[Array]) -> Objective:
    """The target with the limits on a recipe."""
    most = np.inf if inputs.most_cost_money is None else inputs.most_cost_money
    return Objective(inputs.target.labs(weights), inputs.most_colorants, inputs.most_drops, most)
