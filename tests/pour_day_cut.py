"""A pour day stopped at a moment: what has begun becomes facts, perhaps later than meant."""

from __future__ import annotations

import dataclasses

from pourwright.plan.day.day_input import BegunClean, BegunCup, BegunWave, DayInput, Poured
from pourwright.plan.day.day_step import DayStep, StepSort


def stopped(inputs: DayInput, steps: tuple[DayStep, ...], now_s: int, slip_s: int = 0) -> DayInput:
    """The day as it stands at `now_s`; what runs then ends `slip_s` later than meant."""

    def end_s(step: DayStep) -> int:
        return step.end_s + (slip_s if step.end_s > now_s else 0)

    done = [s for s in steps if s.start_s <= now_s]
    begun = []
    for cup in inputs.cups:
        waves = []
        own = [s for s in done if s.cup == cup.name]
        heats = [s for s in own if s.sort in {StepSort.HEAT, StepSort.REWARM}]
        for heat in sorted(heats, key=lambda s: s.wave):
            wave = BegunWave(heat_start_s=heat.start_s, heat_end_s=end_s(heat))
            for pour in (s for s in own if s.sort is StepSort.POUR and s.wave == heat.wave):
                cooling = [
                    s for s in steps
                    if (s.cup, s.wave, s.sort) == (cup.name, heat.wave, StepSort.COOL)
                ]  # fmt: skip
                wave = dataclasses.replace(
                    wave, pour_start_s=pour.start_s, pour_end_s=end_s(pour),
                    poured=tuple(Poured(mold=s.mold, shots=s.molds) for s in cooling),
                )  # fmt: skip
            waves.append(wave)
        if waves:
            begun.append(BegunCup(cup=cup.name, kit=own[0].kit, waves=tuple(waves)))
    cleaned = tuple(
        BegunClean(kit=s.kit, start_s=s.start_s, end_s=end_s(s))
        for s in done if s.sort is StepSort.CLEAN
    )  # fmt: skip
    return dataclasses.replace(inputs, now_s=now_s, begun=tuple(begun), cleaned=cleaned)
