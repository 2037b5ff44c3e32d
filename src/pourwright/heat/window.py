"""How long the cup and the injector stay pourable."""

from __future__ import annotations

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
from pourwright.base.source import estimate, published
from pourwright.heat import cup as cups
from pourwright.heat.barrel import LONGEST_S, Barrel, filled, mixed_c
from pourwright.heat.cup import Cup, State
from pourwright.heat.oven import LOSS_RATIO, Oven, drawn_oven
from pourwright.heat.primed_barrel import BarrelWindow, barrel_window, drawn_barrel, primed_c
from pourwright.matter import plastisol

LIMITS_C = (165.0, 160.0, 155.0, 150.0, 140.0)
# How far the glass follows when the cup leaves the oven: 130 °C at 175 °C (estimate).
GLASS_FOLLOWS = 0.7


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
class LimitTime:
    """When the mean of the plastic has fallen to a limit."""

    limit_c: float = out("Mean of the plastic")
    after_s: Band = out("Time until then")


@dataclass(frozen=True, slots=True)
class WindowAnswer:
    """How long the plastic stays pourable."""

    window_s: Band = out("Time left to pour or shoot: until the mean is at least_c")
    times: tuple[LimitTime, ...] = out("Time to each limit below the start")
    mix_c: Band | None = out("Plastic and barrel at one temperature; null for a cup")
    cold: BarrelWindow | None = out("The barrel at room temperature; null for a cup")
    preheated: BarrelWindow | None = out("After one draw of hot plastic and back; null for a cup")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@calculation(
    "cool.window",
    purpose="how long cup and injector stay pourable",
    sources=(
        estimate("cup: the reduced cup without power, stirred now and then"),
        published("Incropera and DeWitt, 6th ed., sec. 5.10: a cooled cylinder in finite volumes"),
        estimate("the barrel's wall of one temperature, contact 300 to 3000 W/(m²·K)"),
    ),
    example={"vessel": "injector", "melt_c": 172, "bore_mm": 25, "barrel_c": 25, "least_c": 155},
)
def cool_window(inputs: WindowInput) -> WindowAnswer:
    """Time until the mean temperature reaches each limit; the skin is colder earlier.

    For an injector also: the window of a cold barrel beside that of one primed by a draw of hot
    plastic that goes back to the cup.
    """
    draws = Draws(seed=inputs.seed)
    v = drawn(draws, inputs)
    limits = (inputs.least_c, *(c for c in LIMITS_C if c < inputs.melt_c))
    mix = cold = preheated = None
    if inputs.vessel is Vessel.INJECTOR:
        barrel = _barrel(draws, v)
        full = filled(barrel, melt_c=inputs.melt_c, barrel_c=v["barrel_c"])
        seconds = np.stack([full.window_s(c) for c in limits])
        shared = mixed_c(v["bore_mm"], v["barrel_wall_mm"], inputs.melt_c, v["barrel_c"])
        mix = draws.band(shared)
        cold = _started(draws, barrel, inputs, barrel.ambient_c)
        preheated = _started(draws, barrel, inputs, primed_c(draws, barrel, melt_c=inputs.melt_c))
    else:
        seconds = _cup_times(draws, inputs, v, limits)
    notes = (
        *left_out(inputs, unused=_UNUSED[inputs.vessel]),
        *width_notes(draws, {"window_s": seconds[0]}),
        *_cautions(inputs, seconds[0]),
    )
    times = zip(limits[1:], seconds[1:], strict=True)
    return WindowAnswer(
        window_s=draws.band(seconds[0]),
        times=tuple(LimitTime(limit, draws.band(s)) for limit, s in times),
        mix_c=mix,
        cold=cold,
        preheated=preheated,
        notes=notes,
    )


_UNUSED = {
    Vessel.CUP: ("bore_mm", "barrel_wall_mm", "barrel_c"),
    Vessel.INJECTOR: ("cup_g", "cup_diameter_mm"),
}


def idle_oven(draws: Draws, ambient_c: Array) -> Oven:
    """A cup on the bench: no power, still air."""
    none = draws.known(0.0)
    return drawn_oven(
        draws,
        power_w=none,
        loss=LOSS_RATIO.drawn(draws),
        surface_offset_k=none,
        reading_bias_k=none,
        heat_ratio=plastisol.HEAT_CAPACITY_RATIO.drawn(draws),
        ambient_c=ambient_c,
    )


def cup_windows(cup: Cup, oven: Oven, *, melt_c: float, limits_c: tuple[float, ...]) -> Array:
    """Seconds until the mean of a stirred cup falls to each limit; half an hour at most.

    Shape (limits, draws).
    """
    state = _hot_cup(oven, melt_c)
    limits = np.array(limits_c)[:, None]
    seconds = np.full((len(limits_c), *oven.power_w.shape), LONGEST_S)
    at, step = 0.0, 10.0
    while at < LONGEST_S and (seconds >= LONGEST_S).any():
        after = cups.advance(state, cup, oven, step, on=False, step_s=step)
        crossed = (after.mean_c <= limits) & (state.mean_c > limits)
        part = (state.mean_c - limits) / np.maximum(state.mean_c - after.mean_c, 1e-9)
        seconds = np.where(crossed, at + step * part, seconds)
        state, at = after, at + step
    return seconds


def _cup_times(
    draws: Draws, inputs: WindowInput, v: dict[str, Array], limits: tuple[float, ...]
) -> Array:
    cup = cups.filled_cup(
        plastic_kg=inputs.plastic_g / 1000,
        cold_g_ml=plastisol.COLD_DENSITY_G_ML.drawn(draws),
        glass_kg=v["cup_g"] / 1000,
        diameter_m=v["cup_diameter_mm"] / 1000,
    )
    oven = idle_oven(draws, v["ambient_c"])
    return cup_windows(cup, oven, melt_c=inputs.melt_c, limits_c=limits)


def _barrel(draws: Draws, v: dict[str, Array]) -> Barrel:
    return drawn_barrel(
        draws,
        bore_m=v["bore_mm"] / 1000,
        wall_m=v["barrel_wall_mm"] / 1000,
        ambient_c=v["ambient_c"],
    )


def _started(draws: Draws, barrel: Barrel, inputs: WindowInput, start_c: Array) -> BarrelWindow:
    full = filled(barrel, melt_c=inputs.melt_c, barrel_c=start_c)
    return barrel_window(draws, full, barrel_c=start_c, least_c=inputs.least_c)


def _hot_cup(oven: Oven, melt_c: float) -> State:
    shape = oven.power_w.shape
    one, zero = np.ones((3, *shape)), np.zeros(shape)
    glass = np.full(shape, GLASS_FOLLOWS * melt_c + (1 - GLASS_FOLLOWS) * 25)
    return State(np.full(shape, melt_c), glass, zero, zero, one, one, zero, stirred=True)


def _cautions(inputs: WindowInput, seconds: Array) -> tuple[str, ...]:
    notes = []
    if inputs.vessel is Vessel.INJECTOR:
        notes.append(
            "Prime a cold barrel: draw hot plastic, give it back to the cup, draw again and shoot "
            "at once. Barrel and plunger bone dry: water flashes to steam in hot plastic."
        )
    share = float(np.mean(seconds[1:] >= LONGEST_S))
    if share > 0:
        notes.append(
            f"In {share:.0%} of the cases it takes longer than half an hour, which stands in."
        )
    return tuple(notes)
