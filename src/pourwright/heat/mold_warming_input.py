"""What a row of shots into the same mold is asked: baits, mold, and the pace."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.field import flag, number, pick, unmeasured
from pourwright.base.record import Record
from pourwright.heat.bait_cooling import Shape
from pourwright.heat.mold_contact import MOLD_LOSS_W_K
from pourwright.matter import plastisol
from pourwright.matter.mold_material import MoldMaterial


@dataclass(frozen=True, slots=True, kw_only=True)
class MoldWarmingInput(Record):
    """Baits, their mold, and the pace at which it is shot."""

    thickest_mm: float = number("Thickest place", low=1, high=80)
    shape: Shape = pick("Round as a rod or flat as a slab", default=Shape.ROUND)
    bait_g: float = number("Weight of one bait", low=0.05, high=500)
    cavities: int = number("Cavities", low=1, high=60, default=1)
    feed_g: float | None = unmeasured(
        "Sprue and runner of one shot", low=0, high=200, typical=(2, 3.5, 6),
        measure="weigh the sprue and runner of one shot",
    )  # fmt: skip
    melt_c: float = number("Plastic when the mold is full", low=100, high=220, default=165)
    firm_c: float | None = unmeasured(
        "Hottest place when it comes out firm", low=35, high=90,
        typical=plastisol.SETS_FIRM_C.ends, measure=plastisol.SETS_FIRM_C.measure,
    )  # fmt: skip
    material: MoldMaterial = pick("Mold made of", default=MoldMaterial.ALUMINUM)
    open_face: bool = flag("Open mold: the mold cools one face, still air the other")
    mold_g: float | None = unmeasured(
        "Weight of the mold", low=20, high=20000, typical=(500, 900, 1500),
        measure="weigh the closed mold",
    )  # fmt: skip
    mold_c: float | None = unmeasured(
        "Mold before the first shot", low=0, high=120, typical=(18, 25, 35),
        measure="read the mold with the infrared gun before the shot",
    )  # fmt: skip
    ambient_c: float | None = unmeasured(
        "Room", low=-10, high=45, typical=(17, 22, 28), measure="read the room temperature"
    )
    loss_w_k: float | None = unmeasured(
        "Heat the mold gives to the bench and the air", low=0, high=50,
        typical=MOLD_LOSS_W_K.ends, measure=MOLD_LOSS_W_K.measure, logarithmic=True,
    )  # fmt: skip
    extra_s: float = number("Left in the mold once firm", low=0, high=1800, default=20)
    open_s: float | None = unmeasured(
        "Mold open between two shots", low=0, high=3600, typical=(25, 40, 90),
        measure="time one mold from opening to closed again",
    )  # fmt: skip
    molds: int = number("Molds shot in turn", low=1, high=20, default=1)
    turn_s: float | None = unmeasured(
        "Hands busy with one mold: open, take out, close, draw, shoot", low=5, high=1800,
        typical=(60, 105, 200), measure="time one mold from opening to shot again",
    )  # fmt: skip
    dip_s: float = number("Dip of the open mold in water; 0 for none", low=0, high=600, default=0)
    water_c: float | None = unmeasured(
        "Water of the dip", low=0, high=60, typical=(10, 15, 22), measure="read the water"
    )
    dip_w_k: float | None = unmeasured(
        "Heat the water takes from the mold", low=1, high=500, typical=(8, 15, 30),
        measure="read the mold before and after one dip", logarithmic=True,
    )  # fmt: skip
    shots: int = number("Shots of each mold to follow", low=1, high=60, default=12)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)
