"""The heating of a batch as its sheet shows it: one plan for each size of cup."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.base.draws import Array, Draws
from pourwright.base.units import in_both
from pourwright.base.wording import clock
from pourwright.forecast.heat import Cook, Kitchen, cook
from pourwright.forecast.request import BatchRequest
from pourwright.heat import cup as cups
from pourwright.heat.cup import BOTTOM, CORE, MEAN, State
from pourwright.heat.next_step import SHORT_K
from pourwright.plan.batch_plan import CupPlan, HeatPlan, HeatRound, ReadRow
from pourwright.plan.figure import figure
from pourwright.plan.remelt import brought

# Cups whose weights differ by less than this are cooked alike.
ALIKE_G = 5.0
READY = 0.9


def kitchen_of(request: BatchRequest, draws: Draws) -> Kitchen:
    """What the heating depends on besides the cup's content."""
    return Kitchen(
        request.oven, request.cup, request.plastic, request.ambient_c, request.seed, draws.count
    )


def heat_plans(
    kitchen: Kitchen, plans: Sequence[CupPlan], remelt_dose: Array
) -> tuple[tuple[HeatPlan, Cook], ...]:
    """A heat plan for every size of cup, heaviest first.

    `remelt_dose` is the heat budget used by the remelt in them, drawn.
    """
    sizes: list[list[CupPlan]] = []
    for plan in sorted(plans, key=lambda c: -c.total_g):
        if sizes and sizes[-1][0].total_g - plan.total_g < ALIKE_G:
            sizes[-1].append(plan)
        else:
            sizes.append([plan])
    return tuple(_heat_plan(kitchen, alike, remelt_dose) for alike in sizes)


def _heat_plan(kitchen: Kitchen, alike: list[CupPlan], remelt_dose: Array) -> tuple[HeatPlan, Cook]:
    mass = round(alike[0].total_g, 1)
    done = cook(kitchen, mass)
    draws = done.draws
    most_remelt = max(alike, key=lambda c: c.remelt_g / c.total_g)
    last = done.rounds[-1].after if done.rounds else done.one_go[0].state
    plan = HeatPlan(
        cups=tuple(sorted(c.number for c in alike)),
        mass_g=mass,
        power=figure(
            draws, "power_w", "Effective power into this cup", done.power_w, unit="w",
            inputs=_power_inputs(kitchen),
            source="belief of the reduced cup model; an effective power, not a measured wattage",
        ),
        target_c=kitchen.target_c,
        limit_c=done.limit_c,
        limit_reason=done.limit_reason,
        rounds=tuple(_round(draws, done, i) for i in range(len(done.rounds))),
        table=tuple(
            ReadRow(r.reads_c, r.on_s, r.low_s, r.high_s, r.limited) for r in done.table
        ),
        minutes=draws.band(done.seconds / 60),
        scorch_share=draws.band(last.dose + brought(most_remelt, remelt_dose)),
        notes=_notes(kitchen, done),
    )  # fmt: skip
    return plan, done


def _round(draws: Draws, done: Cook, i: int) -> HeatRound:
    r = done.rounds[i]
    gelled, fused = r.hot.gelled[..., 0], r.hot.fused[..., 0]
    return HeatRound(
        number=i + 1,
        on_s=r.on_s,
        reads_c=draws.band(cups.stirring_reading(r.after, done.oven)),
        hottest_c=draws.band(r.hot.hottest_c),
        bottom_c=draws.band(r.hot.bottom_c),
        core_gelled=float(gelled[CORE]),
        core_fused=float(fused[CORE]),
        bottom_gelled=float(gelled[BOTTOM]),
        bottom_fused=float(fused[BOTTOM]),
        note=_looks_like(r.after, limited=r.limited),
    )


def _looks_like(state: State, *, limited: bool) -> str:
    gelled, fused = float(state.gelled[MEAN, 0]), float(state.fused[MEAN, 0])
    if fused > READY:
        words = "clear and runny: ready once it reads its target"
    elif fused > 0.5:
        words = "runny, still hazy: stir the bottom up"
    elif gelled > 0.5:
        words = "jelly and lumps: break it up and fold the bottom in"
    else:
        words = "still liquid: stir the settled resin up"
    return words + ("; cut short so that the core stays under the limit" if limited else "")


def _power_inputs(kitchen: Kitchen) -> tuple[str, ...]:
    oven = kitchen.oven
    label = f"label {oven.label_w:g} W" if oven.label_w else "no label: a typical oven"
    return (
        label,
        f"{len(oven.water_tests)} water tests",
        f"{len(oven.readings)} earlier readings",
        f"{len(oven.cups)} cups followed by the thermometer",
    )


def _notes(kitchen: Kitchen, done: Cook) -> tuple[str, ...]:
    draws, notes = done.draws, []
    jelly, six = done.one_go
    surface = draws.band(cups.reading(six.state, done.oven))
    bottom = float(six.state.fused[BOTTOM, 0])
    hottest = float(cups.q95(six.state.hottest_c))
    notes.append(
        f"In one go, as is common: after {clock(jelly.at_s)} a jelly "
        f"({float(jelly.state.fused[MEAN, 0]):.0%} fused); after {clock(six.at_s)} the surface "
        f"reads {in_both(surface.typical)} ({in_both(surface.low)} to {in_both(surface.high)}) "
        f"while the bottom is "
        f"{bottom:.0%} fused{' (underdone)' if bottom < READY else ''} and the core may reach "
        f"{in_both(hottest)}. The rounds above are safer."
    )
    reached = float(done.rounds[-1].after.mean_c[0]) if done.rounds else 0.0
    if kitchen.target_c < kitchen.oven.target_c:
        notes.append(
            f"Pour at {in_both(kitchen.target_c)}, not at {in_both(kitchen.oven.target_c)}: the "
            f"hot limit of {in_both(done.limit_c)} leaves the core no more room "
            f"({done.limit_reason})."
        )
    if reached < kitchen.target_c - SHORT_K - 0.5:
        notes.append(
            f"The rounds end at {in_both(reached)}, not at {in_both(kitchen.target_c)}: "
            f"the hot limit of {in_both(done.limit_c)} bites ({done.limit_reason})."
        )
    if kitchen.plastic.flash_point_c is None:
        notes.append("Enter the flash point from the supplier's data sheet to set the hot limit.")
    return tuple(notes)
