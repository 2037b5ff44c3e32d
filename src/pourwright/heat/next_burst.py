"""What to do next with the cup in the oven, from what the thermometer said."""

from __future__ import annotations

import functools
from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.assume import left_out
from pourwright.base.band import Band
from pourwright.base.belief import Belief
from pourwright.base.calc import calculation
from pourwright.base.draws import Draws
from pourwright.base.field import out
from pourwright.base.source import estimate, memory, published
from pourwright.heat import cup as cups
from pourwright.heat.advice import advice, narrowing
from pourwright.heat.carried_belief import CarriedBelief, carried_belief
from pourwright.heat.cup import BOTTOM, MEAN
from pourwright.heat.doubt import Judged, judged, telling
from pourwright.heat.either_way import colder_than_learned, safe_either_way
from pourwright.heat.history import Did, Step, timed
from pourwright.heat.line import LinePoint, temperature_line
from pourwright.heat.looks import looks_since_heat, stood_unread, unread
from pourwright.heat.next_input import NextBurstInput
from pourwright.heat.next_step import COLD_C, REST_S, Move, Next, next_move
from pourwright.heat.pourable import pourable_s
from pourwright.heat.replay import Fill
from pourwright.heat.standing import Standing, further, next_noise, standing


@dataclass(frozen=True, slots=True)
class ReadingVerdict:
    """One reading beside what the fit expects of it."""

    read_c: float = out("What was read")
    expected_c: Band = out("What the model expects of it, all readings counted")
    trust: float = out("How much it counts, 0 to 1")
    doubted: bool = out("Whether it is doubted")
    why: str = out("Why it is doubted; empty otherwise")
    meant_c: float | None = out("What it would be had it been typed in the other unit; or null")


@dataclass(frozen=True, slots=True)
class Estimates:
    """What the readings say of oven, cup and thermometer."""

    power_w: Band = out(
        "Effective power of the reduced cup model into this cup; not a measured wattage"
    )
    loss_ratio: Band = out("Losses of the cup against still air")
    glass_ratio: Band = out("Heat taken up by the glass against a usual cup")
    bias_k: Band = out("How far the infrared thermometer reads high")
    mean_c: Band = out("Mean of the plastic now")
    hottest_c: Band = out("Hottest place now")
    bottom_c: Band = out("Bottom of the cup now")
    peak_c: Band = out("Hottest place so far")
    fused: float = out("Fused share of most of the cup, 0 to 1")
    bottom_fused: float = out("Fused share of the bottom, 0 to 1")
    scorch_share: Band = out("Share of the heat budget used at the hottest place in this cup")


@dataclass(frozen=True, slots=True)
class NextBurstAnswer:
    """What to do, what to expect, and what is believed."""

    do: Next = out("heat, wait, stir and read, read again, pour, or stop")
    on_s: float = out("Seconds to heat; 0 where nothing is to be heated")
    wait_s: float = out("Seconds to let it stand")
    reads_c: Band = out("What the thermometer should read next, while stirring")
    ends_c: Band = out("Mean of the plastic then")
    hottest_c: Band = out("Hottest place at the end of the burst")
    target_c: float = out("Mean wanted")
    limit_c: float = out("Limit for the hottest place")
    limit_reason: str = out("Where the limit comes from")
    limited: bool = out("Whether the limit cut the burst short")
    left_g: float = out("Plastic in the cup now")
    pourable_s: Band = out("Seconds it stays pourable if it just stands; 0 where it is not")
    estimates: Estimates = out("What is believed now")
    readings: tuple[ReadingVerdict, ...] = out("Each reading, judged")
    question: str | None = out("A question to the person before anything else; or null")
    advice: tuple[str, ...] = out("What to do, in words")
    line: tuple[LinePoint, ...] = out("The mean over time: past, and the burst to come")
    carry_over: CarriedBelief = out("Belief to hand to the next cup as its prior")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@calculation(
    "cook.next_burst",
    purpose="what to do next with this cup, from what the thermometer said",
    sources=(
        estimate("reduced cup, measured against a cup in two dimensions"),
        published("Lange, Little and Taylor, J. Am. Stat. Assoc. 84 (1989): Student's t residuals"),
        memory("Gauss-Newton with a Laplace spread, as in any text on Bayesian estimation"),
    ),
    example={
        "plastic_g": 498,
        "cup_g": 420,
        "label_w": 700,
        "history": [
            {"did": "heated", "for_s": 70},
            {"did": "rested", "for_s": 15},
            {"did": "stirred"},
            {"did": "read", "read_c": 58, "while_stirring": True},
            {"did": "read", "read_c": 57.2, "while_stirring": True},
        ],
        "flash_point_c": 213,
    },
)
def next_burst(inputs: NextBurstInput) -> NextBurstAnswer:
    """The next move, so that the stirred mean ends on the target and no place passes the limit.

    Readings after a stir count; a doubtful one leads to another reading rather than to heat.
    Raises: BadInput for a clock that runs backwards or a cup drawn empty.
    """
    fill, steps = inputs.fill(), timed(inputs.history, inputs.plastic_g)
    found = judged(inputs.belief(), fill, steps, start_spread_k=inputs.start_spread_k())
    told = telling(steps)
    since = (*steps[len(told) :], *_stood(inputs))
    draws, then = _left_standing(inputs.seed, found.fit.joint, fill, told)
    now = further(then, since)
    limit, reason = inputs.limit()
    target = inputs.target()
    move, question = _move(now, steps, found, inputs), _question(found)
    if found.hotter is not None:
        _, then = _left_standing(inputs.seed, found.hotter.joint, fill, told)
        hotter = further(then, since)
        move = safe_either_way(move, now, _move(hotter, steps, found, inputs))
        if move.do is Next.READ_AGAIN:
            question = question or colder_than_learned(hotter)
    return NextBurstAnswer(
        do=move.do,
        on_s=move.for_s if move.do is Next.HEAT else 0.0,
        wait_s=_wait_s(move),
        reads_c=draws.band(cups.stirring_reading(move.after, now.oven)),
        ends_c=draws.band(move.after.mean_c),
        hottest_c=draws.band(move.hot.hottest_c),
        target_c=target,
        limit_c=limit,
        limit_reason=reason,
        limited=move.limited,
        left_g=round(now.plastic_kg * 1000, 3),
        pourable_s=draws.band(pourable_s(now)),
        estimates=_estimates(draws, now, found),
        readings=_verdicts(steps, found),
        question=question,
        advice=advice(move, now, found, target_c=target, limit_c=limit),
        line=temperature_line(now, move),
        carry_over=carried_belief(found.lesson.oven()),
        notes=(*left_out(inputs, unused=_unused(inputs)), *narrowing(draws, move, steps)),
    )


def _stood(inputs: NextBurstInput) -> tuple[Step, ...]:
    return (Step(did=Did.RESTED, for_s=inputs.stood_s),) if inputs.stood_s > 0 else ()


@functools.lru_cache(maxsize=32)
def _left_standing(
    seed: int, joint: Belief, fill: Fill, steps: tuple[Step, ...]
) -> tuple[Draws, Standing]:  # fmt: skip
    """The cup at its last burst or reading, kept while it stands and is poured from."""
    draws = Draws(seed=seed)
    return draws, standing(draws, joint, fill, steps)


def _move(now: Standing, steps: tuple[Step, ...], found: Judged, inputs: NextBurstInput) -> Move:
    """The move, or what has to come before one: a stop, a stir, another look."""
    nothing = Move(Next.STOP, 0.0, now.state, now.state)
    if _too_hot(steps, found, inputs):
        return nothing
    if found.new is not None:
        return replace(nothing, do=Next.READ_AGAIN)
    if float(now.state.mean_c[0]) >= inputs.limit()[0]:
        return nothing
    if found.lonely:
        return replace(nothing, do=Next.READ_ONCE_MORE)
    hot = float(now.state.mean_c[0]) >= COLD_C
    if unread(steps) or (hot and stood_unread(steps, inputs.stood_s)):
        rested = cups.advance(now.state, now.cup, now.oven, REST_S, on=False)
        return Move(Next.STIR_AND_READ, 0.0, now.state, cups.stirred(rested))
    looks = looks_since_heat(steps)
    move = next_move(
        now,
        target_c=inputs.target(),
        limit_c=inputs.limit()[0],
        handling_s=inputs.handling_s,
        looked_twice=looks > 1,
    )
    return replace(move, do=Next.READ_ONCE_MORE) if move.do is Next.POUR and looks == 1 else move


def _too_hot(steps: tuple[Step, ...], found: Judged, inputs: NextBurstInput) -> bool:
    """Whether the newest reading is at the limit, and no slip of the unit explains it."""
    if not steps or steps[-1].did is not Did.READ or steps[-1].read_c is None:
        return False
    if found.new is not None and found.new.meant_c is not None:
        return False
    return steps[-1].read_c >= inputs.limit()[0]


def _wait_s(move: Move) -> float:
    if move.do is Next.WAIT:
        return move.for_s
    return REST_S if move.do in {Next.HEAT, Next.STIR_AND_READ} else 0.0


def _estimates(draws: Draws, now: Standing, found: Judged) -> Estimates:
    about = found.fit.joint.draw(draws)
    belief_power = now.oven.power_w / np.exp(next_noise(draws))
    return Estimates(
        power_w=draws.band(belief_power),
        loss_ratio=draws.band(np.asarray(np.exp(about["ln_loss"]))),
        glass_ratio=draws.band(np.asarray(np.exp(about["ln_to_glass"]))),
        bias_k=draws.band(about["reading_bias_k"]),
        mean_c=draws.band(now.state.mean_c),
        hottest_c=draws.band(now.state.hottest_c),
        bottom_c=draws.band(now.state.bottom_c),
        peak_c=draws.band(now.peak_c),
        fused=float(now.state.fused[MEAN, 0]),
        bottom_fused=float(now.state.fused[BOTTOM, 0]),
        scorch_share=draws.band(now.state.dose),
    )


def _verdicts(steps: tuple[Step, ...], found: Judged) -> tuple[ReadingVerdict, ...]:
    reads = [s.read_c or 0.0 for s in steps if s.did is Did.READ]
    doubts = {d.number: d for d in found.doubts}
    verdicts = []
    for n, read in enumerate(reads):
        expected, spread = read - found.fit.misses_k[n], found.fit.spreads_k[n]
        doubt = doubts.get(n)
        verdicts.append(
            ReadingVerdict(
                read_c=read,
                expected_c=Band(expected - 1.645 * spread, expected, expected + 1.645 * spread),
                trust=found.fit.trust[n],
                doubted=doubt is not None,
                why="" if doubt is None else doubt.why,
                meant_c=None if doubt is None else doubt.meant_c,
            )
        )
    return tuple(verdicts)


def _question(found: Judged) -> str | None:
    new = found.new
    if new is None:
        return None
    if new.meant_c is not None:
        return f"Which unit did the thermometer show? {new.why[0].upper()}{new.why[1:]}."
    return f"Is that right? {new.why[0].upper()}{new.why[1:]}. Stir and read again."


def _unused(inputs: NextBurstInput) -> tuple[str, ...]:
    return ("label_w",) if inputs.prior is not None or inputs.water_tests else ()
