"""What is asked of a shelf."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from pourwright.base.errors import BadInput
from pourwright.base.field import number, part, parts, pick, text
from pourwright.base.record import Record
from pourwright.color.dose import Dose
from pourwright.color.ground import Backing, check_ground, ground_of
from pourwright.color.match.bottle import Bottle
from pourwright.color.match.steps import Bench
from pourwright.color.match.target import Target
from pourwright.color.plastic import RawPlastic
from pourwright.color.slab import Placing
from pourwright.color.spoon import KITCHEN_SPOONS

# Every set of bottles is tried for the small shelf: 2^25 is the most that takes seconds.
MOST_BOTTLES = 25


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted(Record):
    """A color of the palette."""

    name: str = text("Name; left out: its number", most=60, default="")
    color: Target = part("The color")


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachInput(Record):
    """A shelf, the cup it colors, how the bait is looked at, and the colors wanted."""

    shelf: tuple[Bottle, ...] = parts("Bottles on the shelf", least=1, most=MOST_BOTTLES)
    candidates: tuple[Bottle, ...] = parts("Bottles one might buy", most=MOST_BOTTLES)
    palette: tuple[Wanted, ...] = parts(
        "Colors wanted; left out: the 24 patches of a camera test target", most=200
    )
    k: int = number(
        "Bottles that a small shelf may hold, chosen from the shelf", low=1, high=MOST_BOTTLES,
        default=6, label="Small shelf holds",
    )  # fmt: skip
    fixed: tuple[Dose, ...] = parts(
        "In it anyway, for 100 g: flake, salt, hollow glass, remelt", most=8
    )
    plastic: RawPlastic = part("The plastic without color", default=RawPlastic())
    plastic_g: float = number("Plastic in the cup", low=5, high=20_000, default=100)
    thick_mm: float = number("Thickness", low=0.2, high=60, default=10)
    backing: Backing = pick("Ground behind it", default=Backing.WHITE)
    ground_share: float | None = number(
        "Reflectance of another ground, 0 to 1", low=0, high=1, default=None
    )
    placing: Placing = pick(
        "Poured on its ground (contact), lying on it (air gap), in water over it, or in the hand "
        "with nothing behind",
        default=Placing.CONTACT,
    )
    most_colorants: int = number("Most colorants in a recipe", low=1, high=3, default=3)
    most_drops: int = number("Drops or steps in a recipe at most", low=1, high=400, default=120)
    scale_step_g: float = number("Smallest step of the scale", low=0.001, high=10, default=0.1)
    spoon_sizes_tsp: tuple[float, ...] = parts(
        "Your spoons; left out: 1, 1/2, 1/4 and 1/8 tsp", most=8, low=0.01, high=48
    )
    seed: int = number("Seed of the recipes tried", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a reflectance without its ground, or two bottles of one name."""
        check_ground(self.backing, self.ground_share)
        _refuse_twice("shelf", (b.name for b in (*self.shelf, *self.candidates)))
        _refuse_twice("palette", (w.name for w in self.palette if w.name))

    def bench(self) -> Bench:
        """The cup and the view."""
        return Bench(
            plastic_g=self.plastic_g, plastic=self.plastic, fixed=self.fixed,
            thick_mm=self.thick_mm,
            ground=ground_of(self.backing, self.ground_share),
            placing=self.placing, spoons_tsp=self.spoon_sizes_tsp or KITCHEN_SPOONS,
            scale_step_g=self.scale_step_g, most_steps=self.most_drops,
        )  # fmt: skip


def _refuse_twice(field: str, names: Iterable[str]) -> None:
    seen: set[str] = set()
    for name in names:
        if name in seen:
            raise BadInput(field, name, "is there twice; each needs a name of its own")
        seen.add(name)
