"""What mold is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from pourwright.base.errors import BadInput
from pourwright.base.field import flag, number, pick, unmeasured
from pourwright.base.record import Record
from pourwright.body.body_input import BodyInput
from pourwright.body.mold.bolt import Bolt
from pourwright.matter.mold_material import MoldMaterial
from pourwright.matter.plastisol import LINEAR_SHRINK


class Route(StrEnum):
    """Ways to a mold."""

    HALVES = "two halves"
    OPEN = "open pour"
    HALVES_MASTER = "master for two halves"
    OPEN_MASTER = "master for open pour"

    @property
    def cast(self) -> bool:
        """Whether the files are a master, and the mold is cast from it."""
        return self in {Route.HALVES_MASTER, Route.OPEN_MASTER}

    @property
    def open(self) -> bool:
        """Whether hot plastic is poured into an open cavity."""
        return self in {Route.OPEN, Route.OPEN_MASTER}


MOST_CAVITIES = 12
CAST = (MoldMaterial.SILICONE, MoldMaterial.PLASTER, MoldMaterial.EPOXY)


@dataclass(frozen=True, kw_only=True)
class MoldWish(Record):
    """What mold to make, whatever the bait; without slots, so that an input can be a body too."""

    route: Route = pick("Way to the mold", default=Route.HALVES)
    material: MoldMaterial = pick("What the mold will be made of", default=MoldMaterial.ALUMINUM)
    cavities: int = number("Cavities", low=1, high=MOST_CAVITIES, default=2)
    shrink_share: float | None = unmeasured(
        "Shrink in length from cavity to bait, 0 to 1: 0.017 is 1.7 %; cavities are made that much "
        "larger",
        low=0, high=0.1, typical=LINEAR_SHRINK.ends, measure=LINEAR_SHRINK.measure,
        label="shrink from cavity to bait",
    )  # fmt: skip
    spacing_mm: float = number("Mold between two cavities", low=2, high=60, default=8)
    wall_mm: float = number("Mold around the cavities", low=4, high=60, default=10)
    base_mm: float = number("Mold under the deepest place", low=3, high=60, default=8)
    gate_mm: float | None = number(
        "Gate at the nose; left out, half of the nose, 4 mm or the runner at most",
        low=1,
        high=12,
        default=None,
    )
    runner_mm: float = number("Runner across the noses", low=2, high=16, default=6)
    sprue_mm: float = number("Sprue from the edge to the runner", low=3, high=20, default=8)
    injector_nose_mm: float = number("Mouth for the injector's nose", low=4, high=40, default=12)
    vents: bool = flag("Vents where filling ends", default=True)
    vent_width_mm: float = number("Width of a vent", low=1, high=12, default=4)
    vent_depth_mm: float = number("Depth of a vent", low=0.02, high=0.3, default=0.1)
    pin_mm: float = number("Pins that line the halves up", low=3, high=12, default=6)
    bolt: Bolt = pick("Bolts through two halves", default=Bolt.M5)
    rise_mm: float = number(
        "Straight wall of an open mold above the widest section, so that thin tails stay thick",
        low=0, high=30, default=1,
    )  # fmt: skip
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    @property
    def cut_shrink(self) -> float:
        """The shrink that cavities are cut for: the one given, or the typical one."""
        return LINEAR_SHRINK.typical if self.shrink_share is None else self.shrink_share

    def check(self) -> None:
        """Refuse a route that cannot make the material, and a mouth narrower than its sprue."""
        if self.route.cast and self.material not in CAST:
            raise BadInput(
                "material", self.material.value, f"is not cast; a master wants {_words(CAST)}"
            )
        if not self.route.cast and self.material in CAST:
            raise BadInput(
                "material", self.material.value, "is cast: choose the route with a master"
            )
        if not self.route.open and self.injector_nose_mm < self.sprue_mm:
            raise BadInput(
                "injector_nose_mm", self.injector_nose_mm, "is narrower than the sprue behind it"
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class MoldInput(MoldWish, BodyInput):
    """A bait, and the mold to make for it."""

    @property
    def core_pin(self) -> bool:
        """Whether the bait has a bore that a pin shapes."""
        return self.family is not None and self.family.core_pin

    def check(self) -> None:
        """Refuse what either part of the input refuses, and a route that cannot make the bait."""
        BodyInput.check(self)
        MoldWish.check(self)
        if self.route.open and self.core_pin:
            raise BadInput(
                "route", self.route.value, "cannot shape a bore: a hollow bait needs two halves"
            )


def _words(materials: tuple[MoldMaterial, ...]) -> str:
    *first, last = (m.value for m in materials)
    return f"{', '.join(first)} or {last}"
