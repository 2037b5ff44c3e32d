"""What a rotation is asked: a hot cup, an injector, molds and a pair of hands."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.errors import BadInput
from pourwright.base.field import number, pick, unmeasured
from pourwright.base.record import Record
from pourwright.heat.bait_cooling import Shape
from pourwright.matter import plastisol
from pourwright.matter.mold_material import MoldMaterial

MOST_SHOTS = 80


@dataclass(frozen=True, slots=True, kw_only=True)
class RotationInput(Record):
    """A hot cup, an injector, molds and a pair of hands."""

    plastic_g: float = number("Hot plastic in the cup", low=20, high=3000)
    residue_g: float = number("What stays in cup and injector", low=0, high=300, default=15)
    shot_g: float = number("One shot: its baits, sprue and runner", low=0.5, high=1000)
    shots_a_load: int = number("Molds that one load fills; 1 by hand", low=1, high=20, default=1)
    molds: int = number("Molds shot in turn", low=1, high=12, default=2)
    thickest_mm: float = number("Thickest place", low=1, high=80)
    shape: Shape = pick("Round as a rod or flat as a slab", default=Shape.ROUND)
    material: MoldMaterial = pick("Mold made of", default=MoldMaterial.ALUMINUM)
    mold_g: float | None = unmeasured(
        "Weight of the mold", low=20, high=20000, typical=(500, 900, 1500),
        measure="weigh the closed mold",
    )  # fmt: skip
    mold_c: float | None = unmeasured(
        "Mold before the first shot", low=0, high=80, typical=(18, 25, 35),
        measure="read the mold with the infrared gun",
    )  # fmt: skip
    ambient_c: float | None = unmeasured(
        "Room", low=-10, high=45, typical=(17, 22, 28), measure="read the room temperature"
    )
    firm_c: float | None = unmeasured(
        "Hottest place when it comes out firm", low=35, high=90,
        typical=plastisol.SETS_FIRM_C.ends, measure=plastisol.SETS_FIRM_C.measure,
    )  # fmt: skip
    pour_c: float = number("Cup at the start, and after each warming", low=150, high=190,
                           default=175)  # fmt: skip
    least_c: float = number("Coolest cup that is still drawn from", low=130, high=180, default=155)
    cup_window_s: float | None = unmeasured(
        "Time the full cup takes from the first to the second", low=20, high=1800,
        typical=(190, 245, 315), measure="time one full cup on the bench",
    )  # fmt: skip
    injector_window_s: float | None = unmeasured(
        "Time a load stays shootable", low=3, high=1800, typical=(15, 40, 120),
        measure="time one load until it hardly flows", logarithmic=True,
    )  # fmt: skip
    power_w: float | None = unmeasured(
        "Power into the full cup in the oven", low=80, high=1500, typical=(350, 500, 700),
        measure="time one cook with a reading", logarithmic=True,
    )  # fmt: skip
    draw_s: float | None = unmeasured(
        "Drawing a load; 0 by hand", low=0, high=300, typical=(5, 10, 20),
        measure="time one draw",
    )  # fmt: skip
    shoot_s: float | None = unmeasured(
        "Shooting or pouring one mold", low=2, high=600, typical=(10, 20, 40),
        measure="time one shot",
    )  # fmt: skip
    unload_s: float | None = unmeasured(
        "Opening, taking out and closing one mold", low=5, high=1200, typical=(40, 75, 150),
        measure="time one mold from opening to closed again",
    )  # fmt: skip
    handling_s: float | None = unmeasured(
        "Cup into the oven, out again and stirred", low=5, high=300, typical=(10, 20, 40),
        measure="time one rewarm without its seconds on",
    )  # fmt: skip
    extra_s: float = number("Left in the mold once firm", low=0, high=1800, default=20)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a cup without a shot, one of too many, and a limit above the start."""
        if self.least_c >= self.pour_c:
            raise BadInput("least_c", self.least_c, f"must be below the cup's {self.pour_c:g} °C")
        if self.shots < 1:
            why = f"one shot and the residue take {self.shot_g + self.residue_g:g} g"
            raise BadInput("plastic_g", self.plastic_g, why)
        if self.shots > MOST_SHOTS:
            why = f"{self.shots} shots from one cup; at most {MOST_SHOTS} are followed"
            raise BadInput("shot_g", self.shot_g, why)

    @property
    def shots(self) -> int:
        """Whole shots the cup gives."""
        return int((self.plastic_g - self.residue_g) / self.shot_g + 1e-9)
