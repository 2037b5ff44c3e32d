"""What happens in the cup, burst by burst."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.field import band, flag, number, out, parts, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import estimate, memory, published
from pourwright.heat import cup as cups
from pourwright.heat.cup import BOTTOM, CORE, MEAN, Cup, Oven, State
from pourwright.matter.scorch import hot_limit

SHOWN_EVERY_S = 15.0
JELLY_GELLED = 0.5
STIRRABLE_FUSED = 0.5
READY_FUSED = 0.95


@dataclass(frozen=True, slots=True, kw_only=True)
class Burst(Record):
    """Seconds on, then seconds of rest, then perhaps a stir."""

    on_s: float = number("Time on", low=0, high=1200)
    rest_s: float = number("Rest before the stir", low=0, high=3600, default=20)
    stir: bool = flag("Stirred after the rest", default=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class CookInput(Record):
    """A cup, an oven and the bursts it gets."""

    plastic_g: float = number("Plastic in the cup", low=20, high=3000)
    power_w: Band = band(
        "Effective power into half a kilogram of plastic (see oven.coupling)", low=50, high=2500
    )
    bursts: tuple[Burst, ...] = parts("Bursts, in order", most=30)
    cold_density_g_ml: float | None = unmeasured(
        "Cold density", low=0.9, high=1.4, typical=(1.024, 1.052, 1.105),
        measure="weigh a measured volume of the mixed jug",
    )  # fmt: skip
    cup_g: float | None = unmeasured(
        "Empty cup", low=20, high=3000, typical=(300, 420, 560), measure="weigh the empty cup"
    )
    cup_diameter_mm: float | None = unmeasured(
        "Inside diameter of the cup", low=30, high=250, typical=(80, 89, 100),
        measure="measure across the inside of the cup",
    )  # fmt: skip
    start_c: float | None = unmeasured(
        "Plastic at the start", low=-5, high=60, typical=(18, 22, 26),
        measure="read the raw plastic before heating",
    )  # fmt: skip
    ambient_c: float | None = unmeasured(
        "Room", low=-10, high=45, typical=(18, 22, 26), measure="read the room temperature"
    )
    thermometer_bias_k: float | None = unmeasured(
        "Thermometer reads high by", low=-15, high=15, typical=(-3, 0, 3),
        measure="check the thermometer in boiling water or against a probe while you stir",
    )  # fmt: skip
    flash_point_c: float | None = number(
        "Flash point on the supplier's data sheet", low=100, high=350, default=None
    )
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)


@dataclass(frozen=True, slots=True)
class Moment:
    """The cup at one moment."""

    at_s: float = out("Since the first switch-on")
    mean_c: Band = out("Mean of the plastic")
    surface_c: Band = out("What a thermometer reads off the surface")
    hottest_c: Band = out("Hottest place")
    coldest_c: Band = out("Bottom of the cup")
    core_gelled: float = out("Gelled share of the core, 0 to 1")
    core_fused: float = out("Fused share of the core, 0 to 1")
    bottom_gelled: float = out("Gelled share of the bottom, 0 to 1")
    bottom_fused: float = out("Fused share of the bottom, 0 to 1")
    mean_gelled: float = out("Gelled share of most of the cup, 0 to 1")
    mean_fused: float = out("Fused share of most of the cup, 0 to 1")
    scorch_share: Band = out("Share of the heat budget used at the hottest place")


@dataclass(frozen=True, slots=True)
class CookEvent:
    """Something that happens on the typical course."""

    at_s: float = out("Since the first switch-on")
    what: str = out("gel, stirrable, fused, over limit")


@dataclass(frozen=True, slots=True)
class CookAnswer:
    """The course of a cook."""

    moments: tuple[Moment, ...] = out("The cup over time; a moment before and after each stir")
    events: tuple[CookEvent, ...] = out("What happens on the typical course")
    limit_c: float = out("Hot limit for the 95th percentile of the hottest place")
    limit_reason: str = out("Where the limit comes from")
    over_limit: bool = out("Whether the hottest place may pass the limit")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@calculation(
    "cook.forecast",
    purpose="what happens in the cup, burst by burst",
    sources=(
        estimate("reduced cup: mean, core, bottom and glass; shares from a finer cup study"),
        published("Incropera and DeWitt, 6th ed., eqs. 9.26, 9.30, 1.9 for the losses"),
        memory("Barringer et al., AIChE J. 40 (1994) 1433, for the load effect"),
    ),
    example={
        "plastic_g": 498,
        "power_w": {"low": 445, "typical": 476, "high": 508},
        "cup_g": 420,
        "bursts": [{"on_s": 240, "rest_s": 0, "stir": False}, {"on_s": 120}, {"on_s": 40}],
    },
)
def cook_forecast(inputs: CookInput) -> CookAnswer:
    """Forecast with bands from one set of draws; events follow the typical draw.

    A forecast above the limit is shown as a warning, never as advice.
    """
    draws = Draws(seed=inputs.seed)
    cup, oven, state = _set_up(draws, inputs)
    limit, reason = hot_limit(inputs.flash_point_c)
    course = _course(cup, oven, state, inputs.bursts)
    moments = tuple(_moment(draws, at, s, oven) for at, s in course)
    over = any(_q95(s.hottest_c) > limit for _, s in course)
    last = course[-1][1]
    answers = {"mean_c": last.mean_c, "surface_c": cups.reading(last, oven)}
    notes = (*left_out(inputs), *width_notes(draws, answers), *_cautions(limit, reason, over=over))
    return CookAnswer(moments, _events(course, limit), limit, reason, over, notes)


def _set_up(draws: Draws, inputs: CookInput) -> tuple[Cup, Oven, State]:
    v = drawn(draws, inputs)
    cup = cups.filled_cup(
        plastic_kg=inputs.plastic_g / 1000,
        cold_g_ml=v["cold_density_g_ml"],
        glass_kg=v["cup_g"] / 1000,
        diameter_m=v["cup_diameter_mm"] / 1000,
    )
    oven = cups.drawn_oven(
        draws,
        power_w=cups.loaded_power(v["power_w"], cups.LOAD_HALF_KG.drawn(draws), cup.plastic_kg),
        loss=cups.LOSS_RATIO.drawn(draws),
        surface_score=cups.SURFACE_SCORE.drawn(draws),
        bias_k=v["thermometer_bias_k"],
        ambient_c=v["ambient_c"],
    )
    return cup, oven, cups.cold_start(v["start_c"])


def _course(
    cup: Cup, oven: Oven, state: State, bursts: tuple[Burst, ...]
) -> list[tuple[float, State]]:
    at = 0.0
    course = [(at, state)]
    for burst in bursts:
        for seconds, on in ((burst.on_s, True), (burst.rest_s, False)):
            left = seconds
            while left > 1e-9:
                dt = min(SHOWN_EVERY_S, left)
                state = cups.advance(state, cup, oven, dt, on=on)
                at, left = at + dt, left - dt
                course.append((at, state))
        if burst.stir:
            state = cups.stirred(state)
            course.append((at, state))
    return course


def _moment(draws: Draws, at: float, state: State, oven: Oven) -> Moment:
    gelled, fused = state.gelled[..., 0], state.fused[..., 0]
    return Moment(
        at_s=at,
        mean_c=draws.band(state.mean_c),
        surface_c=draws.band(cups.reading(state, oven)),
        hottest_c=draws.band(state.hottest_c),
        coldest_c=draws.band(state.bottom_c),
        core_gelled=float(gelled[CORE]),
        core_fused=float(fused[CORE]),
        bottom_gelled=float(gelled[BOTTOM]),
        bottom_fused=float(fused[BOTTOM]),
        mean_gelled=float(gelled[MEAN]),
        mean_fused=float(fused[MEAN]),
        scorch_share=draws.band(state.dose),
    )


def _events(course: list[tuple[float, State]], limit: float) -> tuple[CookEvent, ...]:
    tests: dict[str, Callable[[State], bool]] = {
        "gel": lambda s: bool(s.gelled[MEAN, 0] > JELLY_GELLED),
        "stirrable": lambda s: bool(s.fused[MEAN, 0] > STIRRABLE_FUSED),
        "fused": lambda s: bool(min(s.fused[MEAN, 0], s.fused[BOTTOM, 0]) > READY_FUSED),
        "over limit": lambda s: _q95(s.hottest_c) > limit,
    }
    events = []
    for what, test in tests.items():
        first = next((at for at, state in course if test(state)), None)
        if first is not None:
            events.append(CookEvent(first, what))
    return tuple(sorted(events, key=lambda e: e.at_s))


def _q95(values: Array) -> float:
    return float(np.quantile(values[1:], 0.95))


def _cautions(limit: float, reason: str, *, over: bool) -> tuple[str, ...]:
    notes = [f"Hot limit {limit:g} °C: {reason}. Smoke or a sharp smell overrides every number."]
    if over:
        notes.append(
            "The hottest place may pass the limit: shorter bursts with a stir between them are "
            "safer. This course is shown as a warning, not as advice."
        )
    return tuple(notes)
