"""Ask the product, do what it says in the kitchen, tell it what was read; four cups an oven."""

from __future__ import annotations

import dataclasses
import time
from dataclasses import dataclass, field

import numpy as np

from pourwright.heat.carried_belief import CarriedBelief
from pourwright.heat.history import Did, Step
from pourwright.heat.next_burst import NextBurstAnswer, next_burst
from pourwright.heat.next_input import NextBurstInput
from pourwright.heat.next_step import Next
from speed import kitchen
from speed.heat.scenario import (
    CUPS,
    SIZE_BY_CUP,
    START_C,
    Array,
    Scenario,
    checked_bias_k,
    question,
    sizes_g,
)

MOST_MOVES = 16
HANDLING_S, LOOK_S = 10.0, 6.0
# From the fourth cup a little is drawn once it is hot, as for a trial pour.
DRAWN_CUP, DRAWN_SHARE, DRAWN_ABOVE_C = 3, 0.15, 140.0


@dataclass(frozen=True, slots=True)
class BurstRow:
    """One burst: by how much the forecast lay above what came, and whether its band held it."""

    cup: int
    number: int
    from_c: float
    to_c: float
    miss_k: float
    inside: bool


@dataclass(frozen=True, slots=True)
class CupRow:
    """One cup at its end; `off_k` from the target."""

    cup: int
    rounds: int
    off_k: float
    over: bool
    fused: float
    poured: bool
    doubts: int


@dataclass(frozen=True, slots=True)
class Record:
    """Everything a run of the loop leaves behind."""

    bursts: list[BurstRow] = field(default_factory=list)
    cups: list[CupRow] = field(default_factory=list)
    seconds: list[float] = field(default_factory=list)


@dataclass(slots=True)
class _Talk:
    """The product's talk with one oven over one cup."""

    asked: NextBurstInput
    answer: NextBurstAnswer | None = None
    rounds: int = 0
    reads: int = 0
    done: bool = False
    drew: bool = False

    def said(self) -> NextBurstAnswer:
        """The last answer."""
        if self.answer is None:
            raise RuntimeError("nothing was asked yet")
        return self.answer

    def tell(self, *steps: Step) -> None:
        """More of what was done."""
        history = (*self.asked.history, *steps)
        self.asked = dataclasses.replace(self.asked, history=history)


def loop(seeds: list[int], scenario: Scenario, cups: int = CUPS) -> Record:
    """Cups in every oven of the seeds, one after another."""
    grams = sizes_g(seeds)
    ovens = kitchen.draw_ovens(seeds, plastic_g=grams)
    rng = np.random.default_rng([7, seeds[0]])
    bias = checked_bias_k(ovens, grams, rng) if scenario.checked else None
    carry: list[CarriedBelief | None] = [None] * len(seeds)
    record = Record()
    for number in range(cups):
        held = grams * SIZE_BY_CUP[number]
        full = kitchen.fresh_cups(ovens, number, held, START_C)
        talks = [
            _Talk(question(ovens, i, float(held[i]), scenario, carry[i], bias))
            for i in range(len(seeds))
        ]
        wild = (
            rng.integers(0, 4, len(seeds)).astype(float)
            if scenario.wild_k
            else -np.ones(len(seeds))
        )
        signs = scenario.wild_k * rng.choice([-1.0, 1.0], len(seeds))
        for _ in range(MOST_MOVES):
            full = _move(full, talks, number, rng, record, wild, signs)
            if all(t.done for t in talks):
                break
        for i, talk in enumerate(talks):
            carry[i] = talk.said().carry_over
            record.cups.append(_end(full, i, number, talk))
    return record


def _move(
    cups: kitchen.Cups,
    talks: list[_Talk],
    number: int,
    rng: np.random.Generator,
    record: Record,
    wild: Array,
    signs: Array,
) -> kitchen.Cups:
    """Ask, then do what was said, in every oven that is not done."""
    for talk in talks:
        if not talk.done:
            begin = time.perf_counter()
            talk.answer = next_burst(talk.asked)
            record.seconds.append(time.perf_counter() - begin)
            talk.done = talk.answer.do in {Next.POUR, Next.STOP}
    going = [not t.done for t in talks]
    on_s = np.array([t.said().on_s if go else 0.0 for t, go in zip(talks, going, strict=True)])
    wait_s = np.array([t.said().wait_s if go else 0.0 for t, go in zip(talks, going, strict=True)])
    away = np.where(on_s > 0, HANDLING_S, 0.0)
    looks = np.where(np.array(going) & (on_s == 0) & (wait_s == 0), LOOK_S, 0.0)
    before = kitchen.mean_c(cups)
    heated = kitchen.heat(kitchen.rest(cups, away), on_s)
    cups = kitchen.stir(kitchen.rest(heated, wait_s + looks), np.array(going))
    after, read = kitchen.mean_c(cups), kitchen.read_while_stirring(cups, rng)
    drawn = np.zeros(len(talks))
    for i, talk in enumerate(talks):
        if not going[i]:
            continue
        off = float(signs[i]) if talk.reads == wild[i] else 0.0
        stood = float(wait_s[i] + looks[i])
        _tell(talk, float(on_s[i]), stood, float(read[i]) + off)
        if on_s[i] > 0:
            record.bursts.append(_burst(talk, number, float(before[i]), float(after[i])))
        if number == DRAWN_CUP and after[i] > DRAWN_ABOVE_C and not talk.drew:
            drawn[i], talk.drew = DRAWN_SHARE * talk.asked.plastic_g, True
            talk.tell(Step(did=Did.DRAWN, mass_g=float(drawn[i])))
    return kitchen.draw_off(cups, drawn) if drawn.any() else cups


def _tell(talk: _Talk, on_s: float, wait_s: float, read_c: float) -> None:
    if on_s > 0:
        talk.rounds += 1
        talk.tell(Step(did=Did.RESTED, for_s=HANDLING_S), Step(did=Did.HEATED, for_s=on_s))
    if wait_s > 0:
        talk.tell(Step(did=Did.RESTED, for_s=wait_s))
    talk.reads += 1
    talk.tell(Step(did=Did.STIRRED), Step(did=Did.READ, read_c=read_c, while_stirring=True))


def _burst(talk: _Talk, number: int, before_c: float, after_c: float) -> BurstRow:
    ends = talk.said().ends_c
    return BurstRow(
        cup=number,
        number=talk.rounds,
        from_c=before_c,
        to_c=after_c,
        miss_k=ends.typical - after_c,
        inside=ends.low <= after_c <= ends.high,
    )


def _end(cups: kitchen.Cups, i: int, number: int, talk: _Talk) -> CupRow:
    said = talk.said()
    return CupRow(
        cup=number,
        rounds=talk.rounds,
        off_k=float(kitchen.mean_c(cups)[i]) - said.target_c,
        over=bool(cups.peak_c[i] > said.limit_c),
        fused=float(kitchen.fused(cups)[i]),
        poured=said.do is Next.POUR,
        doubts=sum(r.doubted for r in said.readings),
    )
