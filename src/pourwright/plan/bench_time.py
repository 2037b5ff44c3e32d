"""Windows, waits and minutes of a batch."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn
from pourwright.base.draws import Array, Draws
from pourwright.forecast.heat import Cook
from pourwright.forecast.pouring import FOLLOWED_SHOTS, Pouring, PourQuestion, pouring
from pourwright.forecast.request import BatchRequest
from pourwright.forecast.rotation import Doing
from pourwright.plan.batch_plan import CupPlan, HeatPlan
from pourwright.plan.cooking import kitchen_of
from pourwright.plan.layer import LayerPlan
from pourwright.plan.pour_plan import PourPlan, pour_plan


@dataclass(frozen=True, slots=True)
class BenchTime:
    """Times of a batch, drawn; `draws` names what their width comes from."""

    cup_window_s: Array
    injector_window_s: Array | None
    open_s: Array
    open_last_s: Array
    mold_last_c: Array
    minutes: Array
    pour: PourPlan
    draws: Draws


def bench_time(
    draws: Draws,
    request: BatchRequest,
    layers: Sequence[LayerPlan],
    cups: Sequence[CupPlan],
    heat: Sequence[tuple[HeatPlan, Cook]],
) -> BenchTime:
    """Times from the first cup, the thickest place and the hands.

    Raises: NoAnswer where the mold is as warm as the bait should come out.
    """
    plan_of = {n: plan for plan, _ in heat for n in plan.cups}
    first_cups = cups[: len(layers[0].account.cups)]
    done = pouring(
        PourQuestion(
            kitchen=kitchen_of(request, draws),
            bait=request.bait,
            mold=request.mold,
            injector=request.injector,
            hands=request.hands,
            cup_g=plan_of[1].mass_g,
            shots=min(cups[0].shots, FOLLOWED_SHOTS),
            shot_g=layers[0].bench.shot_g,
            mold_shot_g=sum(x.bench.shot_g for x in layers),
            shots_a_load=layers[0].bench.shots_a_load,
            later=len(first_cups) > 1,
        )
    )
    shots = [a for a in done.later.acts if a.doing is Doing.SHOOT]
    return BenchTime(
        cup_window_s=heat[0][1].cup_window_s,
        injector_window_s=done.injector_window_s,
        open_s=done.first.open_s[0],
        open_last_s=done.later.open_s[-1],
        mold_last_c=shots[-1].mold_c,
        minutes=_seconds(request, done, cups, heat, len(first_cups)) / 60,
        pour=pour_plan(done, cups[0].shots),
        draws=done.draws,
    )


def _seconds(
    request: BatchRequest,
    done: Pouring,
    cups: Sequence[CupPlan],
    heat: Sequence[tuple[HeatPlan, Cook]],
    first_cups: int,
) -> Array:
    """From the first weighing to the last bait hung: one person, one oven, cup after cup.

    The first cup is followed act by act, later ones go at the pace of the second, into molds that
    are still warm; another layer of the look adds its heating and its shots. Trimming comes last.
    """
    hands = drawn(done.draws, request.hands, "hands ")
    heated = {n: cook.seconds for plan, cook in heat for n in plan.cups}
    followed = min(cups[0].shots, FOLLOWED_SHOTS)
    total = np.zeros_like(hands["weigh_s"])
    for cup in cups:
        total = total + hands["weigh_s"] + heated[cup.number]
        if cup.number > first_cups:
            total = total + cup.shots * hands["shoot_s"]
        else:
            pace = done.first if cup.number == 1 else done.later
            total = total + cup.shots / followed * pace.seconds
    shots = sum(c.shots for c in cups[:first_cups])
    baits = (shots - request.hands.warmup_shots) * request.mold.cavities
    return np.asarray(total + baits * hands["finish_s"])
