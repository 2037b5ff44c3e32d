"""How long the cup and the injector stay pourable."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, pick, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import estimate
from pourwright.heat import cup as cups
from pourwright.heat.cup import Cup, Oven, State
from pourwright.matter import plastisol

LONGEST_S = 1800.0
# Aluminum barrel, handbook values from memory: density kg/m³ times heat capacity J/(kg·K).
BARREL_J_M3K = 2700.0 * 897.0
HOT_PLASTIC_J_M3K = 960.0 * 2080.0


class Vessel(StrEnum):
    """What holds the hot plastic."""

    CUP = "cup"
    INJECTOR = "injector"


@dataclass(frozen=True, slots=True, kw_only=True)
class WindowInput(Record):
    """A cup on the bench, or a barrel just drawn full."""

    vessel: Vessel = pick("Cup or injector", default=Vessel.CUP)
    melt_c: float = number("Plastic at the start", low=100, high=230, default=175)
    plastic_g: float = number("Plastic in the cup", low=20, high=3000, default=498)
    cup_g: float | None = unmeasured(
        "Empty cup", low=20, high=3000, typical=(300, 420, 560), measure="weigh the empty cup"
    )
    cup_diameter_mm: float | None = unmeasured(
        "Inside diameter of the cup", low=30, high=250, typical=(80, 89, 100),
        measure="measure across the inside of the cup",
    )  # fmt: skip
    bore_mm: float | None = unmeasured(
        "Bore of the barrel", low=8, high=120, typical=(28, 35, 45),
        measure="measure across the barrel",
    )  # fmt: skip
    barrel_wall_mm: float | None = unmeasured(
        "Wall of the barrel", low=0.5, high=8, typical=(1.5, 2.5, 3.5),
        measure="measure the wall of the barrel",
    )  # fmt: skip
    barrel_c: float | None = unmeasured(
        "Barrel when drawn full", low=0, high=180, typical=(20, 40, 90),
        measure="read the barrel after drawing and returning hot plastic once",
    )  # fmt: skip
    ambient_c: float | None = unmeasured(
        "Room", low=-10, high=45, typical=(17, 22, 28), measure="read the room temperature"
    )
    least_c: float = number("Coolest that still shoots", low=110, high=180, default=155)
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse a limit that is above the start."""
        if self.least_c >= self.melt_c:
            raise BadInput("least_c", self.least_c, f"must be below the melt's {self.melt_c:g} °C")


@dataclass(frozen=True, slots=True)
class WindowAnswer:
    """Seconds until the mean of the plastic has fallen to the limit."""

    window_s: Band = out("Time left to pour or shoot")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@calculation(
    "cool.window",
    purpose="how long cup and injector stay pourable",
    sources=(
        estimate("cup: the reduced cup without power"),
        estimate("barrel: short-time series of a cylinder, its wall warmed by what it takes up"),
    ),
    example={"vessel": "injector", "melt_c": 172, "bore_mm": 25, "barrel_c": 25, "least_c": 155},
)
def cool_window(inputs: WindowInput) -> WindowAnswer:
    """Time until the mean temperature reaches the limit; the skin is colder earlier."""
    draws = Draws(seed=inputs.seed)
    v = drawn(draws, inputs)
    if inputs.vessel is Vessel.CUP:
        cup = cups.filled_cup(
            plastic_kg=inputs.plastic_g / 1000,
            cold_g_ml=plastisol.COLD_DENSITY_G_ML.drawn(draws),
            glass_kg=v["cup_g"] / 1000,
            diameter_m=v["cup_diameter_mm"] / 1000,
        )
        seconds = cup_window(
            cup, idle_oven(draws, v["ambient_c"]), melt_c=inputs.melt_c, least_c=inputs.least_c
        )
    else:
        seconds = barrel_window(
            bore_m=v["bore_mm"] / 1000,
            wall_m=v["barrel_wall_mm"] / 1000,
            barrel_c=v["barrel_c"],
            alpha_m2_s=plastisol.DIFFUSIVITY_M2_S.drawn(draws),
            melt_c=inputs.melt_c,
            least_c=inputs.least_c,
        )
    notes = (
        *left_out(inputs, unused=_UNUSED[inputs.vessel]),
        *width_notes(draws, {"window_s": seconds}),
    )
    return WindowAnswer(draws.band(seconds), notes)


_UNUSED = {
    Vessel.CUP: ("bore_mm", "barrel_wall_mm", "barrel_c"),
    Vessel.INJECTOR: ("cup_g", "cup_diameter_mm", "ambient_c"),
}


def idle_oven(draws: Draws, ambient_c: Array) -> Oven:
    """A cup on the bench: no power, still air."""
    none = draws.known(0.0)
    return cups.drawn_oven(
        draws, power_w=none, loss=cups.LOSS_RATIO.drawn(draws), surface_score=none, bias_k=none,
        ambient_c=ambient_c,
    )  # fmt: skip


def cup_window(cup: Cup, oven: Oven, *, melt_c: float, least_c: float) -> Array:
    """Seconds until the mean of a stirred cup falls to the limit, at most half an hour."""
    state = _hot_cup(oven, melt_c)
    seconds = np.full(oven.power_w.shape, LONGEST_S)
    at, step = 0.0, 10.0
    while at < LONGEST_S and (seconds >= LONGEST_S).any():
        after = cups.advance(state, cup, oven, step, on=False)
        crossed = (after.mean_c <= least_c) & (seconds >= LONGEST_S)
        part = (state.mean_c - least_c) / np.maximum(state.mean_c - after.mean_c, 1e-9)
        seconds = np.where(crossed, at + step * np.clip(part, 0, 1), seconds)
        state, at = after, at + step
    return np.asarray(seconds)


def _hot_cup(oven: Oven, melt_c: float) -> State:
    shape = oven.power_w.shape
    one, zero = np.ones((3, *shape)), np.zeros(shape)
    glass = np.full(shape, 0.72 * melt_c + 0.28 * 25)
    return State(np.full(shape, melt_c), glass, zero, zero, one, one, zero, stirred=True)


def barrel_window(
    *,
    bore_m: Array,
    wall_m: Array,
    barrel_c: Array,
    alpha_m2_s: Array,
    melt_c: float,
    least_c: float,
) -> Array:
    """Seconds until the mean in the barrel falls to the limit; at most half an hour.

    Mean of a cylinder at short times, 1 - M = 4·√(Fo/π) - Fo (Carslaw and Jaeger, Conduction of
    Heat in Solids, sec. 7.3), with a wall that warms by what the plastic gives up.
    """  # fmt: skip
    radius = bore_m / 2
    plastic = HOT_PLASTIC_J_M3K * radius**2
    wall = BARREL_J_M3K * ((radius + wall_m) ** 2 - radius**2)
    drop, gap = melt_c - least_c, melt_c - barrel_c
    share = drop / np.maximum(gap - plastic / wall * drop, 1e-9)
    reachable = (gap > plastic / wall * drop) & (share < 0.7)
    root = (4 / math.sqrt(math.pi) - np.sqrt(np.maximum(16 / math.pi - 4 * share, 0))) / 2
    return np.where(reachable, np.minimum(root**2 * radius**2 / alpha_m2_s, LONGEST_S), LONGEST_S)
