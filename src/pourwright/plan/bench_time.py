"""Windows, waits and minutes of a batch."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn
from pourwright.base.band import Band
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.forecast.heat import LEAST_POUR_C, ROOM_C, Cook
from pourwright.forecast.request import BatchRequest
from pourwright.forecast.timing import CupTime, HandTime, batch_seconds
from pourwright.heat.bait_cooling import open_seconds
from pourwright.heat.barrel import barrel_window
from pourwright.heat.mold_contact import MOLD_LOSS_W_K, contact_film, warmed_mold
from pourwright.matter import plastisol
from pourwright.plan.batch_plan import CupPlan, HeatPlan
from pourwright.plan.layer import LayerPlan

# The melt once it lies in the mold: ten kelvin go to barrel and gate, estimate.
MELT_IN_MOLD_C = 165.0
# Warming what is left in the cup between two waves: estimate.
REWARM_S = Doubt("warming what is left", Band(20, 45, 90), "time one rewarm")
BARREL_WALL_M = Doubt(
    "wall of the barrel", Band(0.0015, 0.0025, 0.0035), "measure the wall of the barrel"
)
BARREL_C = Doubt(
    "barrel when drawn full", Band(20, 40, 90),
    "read the barrel after drawing and returning hot plastic once",
)  # fmt: skip
SHOT_DROP_K = 105.0
WARMEST_UNDER_FIRM_K = 10.0
HOT_J_KGK = 2050.0


@dataclass(frozen=True, slots=True)
class BenchTime:
    """Times of a batch, drawn."""

    cup_window_s: Array
    injector_window_s: Array | None
    open_s: Array
    open_last_s: Array
    mold_last_c: Array
    minutes: Array


def bench_time(
    draws: Draws,
    request: BatchRequest,
    layers: Sequence[LayerPlan],
    cups: Sequence[CupPlan],
    heat: Sequence[tuple[HeatPlan, Cook]],
) -> BenchTime:
    """Times from the heaviest cup, the thickest place and the hands.

    Raises: NoAnswer where the mold is as warm as the bait should come out.
    """
    hands = _hands(draws, request)
    mold = drawn(draws, request.mold, "mold ")
    room = draws.known(request.ambient_c) if request.ambient_c else draws.of("room", ROOM_C)
    opened = _open_s(draws, request, mold["start_c"])
    shots = layers[0].account.shots
    last_c = warmed_mold(
        start_c=mold["start_c"],
        ambient_c=room,
        mold_kg=mold["mass_g"] / 1000,
        shot_j=sum(x.bench.shot_g for x in layers) / 1000 * HOT_J_KGK * draws.known(SHOT_DROP_K),
        cycle_s=opened + hands.shoot_s + hands.unload_s,
        loss_w_k=MOLD_LOSS_W_K.drawn(draws),
        material=request.mold.material,
        shots=max(1, -(-shots // request.mold.owned)),
    )
    # A mold nearly as warm as the bait should come out is cooled first: see the warning.
    last_c = np.minimum(last_c, plastisol.SETS_FIRM_C.drawn(draws) - WARMEST_UNDER_FIRM_K)
    heated = {n: done for plan, done in heat for n in plan.cups}
    rewarm = draws.of("rewarm", REWARM_S)
    times = tuple(CupTime(heated[c.number].seconds, rewarm, c.waves, c.shots) for c in cups)
    baits = (shots - request.hands.warmup_shots) * request.mold.cavities
    seconds = batch_seconds(times, open_s=opened, hands=hands, baits=baits)
    return BenchTime(
        cup_window_s=heat[0][1].cup_window_s,
        injector_window_s=_injector_window(draws, request),
        open_s=opened,
        open_last_s=_open_s(draws, request, last_c),
        mold_last_c=last_c,
        minutes=seconds / 60,
    )


def _hands(draws: Draws, request: BatchRequest) -> HandTime:
    v = drawn(draws, request.hands, "hands ")
    return HandTime(v["weigh_s"], v["shoot_s"], v["unload_s"], v["finish_s"])


def _open_s(draws: Draws, request: BatchRequest, mold_c: Array) -> Array:
    return open_seconds(
        thickest_m=drawn(draws, request.bait, "bait ")["thickest_mm"] / 1000,
        flat=request.bait.flat,
        melt_c=draws.known(MELT_IN_MOLD_C),
        mold_c=mold_c,
        firm_c=plastisol.SETS_FIRM_C.drawn(draws),
        film_w_m2k=contact_film(draws, request.mold.material),
        alpha_m2_s=plastisol.DIFFUSIVITY_M2_S.drawn(draws),
        k_w_mk=plastisol.CONDUCTIVITY_W_MK.drawn(draws),
    )


def _injector_window(draws: Draws, request: BatchRequest) -> Array | None:
    if request.injector is None:
        return None
    bore = drawn(draws, request.injector, "injector ")["bore_mm"] / 1000
    return barrel_window(
        bore_m=bore,
        wall_m=draws.of("barrel wall", BARREL_WALL_M),
        barrel_c=draws.of("barrel", BARREL_C),
        alpha_m2_s=plastisol.DIFFUSIVITY_M2_S.drawn(draws),
        melt_c=request.oven.target_c,
        least_c=LEAST_POUR_C,
    )
