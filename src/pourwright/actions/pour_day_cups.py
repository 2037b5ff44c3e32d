"""The cups of a pour day: every batch planned with the bench's own forecasts, remelt shared out."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.actions.plan_batch import picked
from pourwright.actions.port import Bench, Stored
from pourwright.base.assume import drawn
from pourwright.base.band import Band
from pourwright.base.draws import Draws
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.forecast.request import BatchRequest
from pourwright.plan.batch import plan_batch
from pourwright.plan.batch_plan import BatchPlan, CupPlan
from pourwright.plan.cups.answer import CupsAnswer
from pourwright.plan.cups.cups import plan_cups
from pourwright.plan.cups.cups_input import CupOrder, CupsInput, RemeltColor, RemeltStock
from pourwright.plan.resolve import request_of
from pourwright.shop.draft import Draft
from pourwright.shop.look import Look
from pourwright.shop.material import RemeltPot
from pourwright.shop.mold import Mold
from pourwright.shop.pour_day import PlannedCup, PourBatch, PourDay, minute_of
from pourwright.spectrum.color_space import lab_of, xyz_of_hex

# Times are rounded up to it, so that the timetable has a coarse grid and is never too tight.
STEP_S = 15
MIDNIGHT = 24 * 60
# How plastic without color is drawn, a warm gray: estimate.
CLEAR_HEX = "#d9d4c5"


@dataclass(frozen=True, slots=True)
class BatchOfDay:
    """A batch of the day with its mold, its draft and its plan."""

    batch: PourBatch
    mold: Mold
    name: str
    draft: Draft
    request: BatchRequest
    plan: BatchPlan


@dataclass(frozen=True, slots=True)
class CupsOfDay:
    """All cups of a day; `packed` says what the colors need, and what sharing cups would save."""

    batches: tuple[BatchOfDay, ...]
    cups: tuple[PlannedCup, ...]
    packed: CupsAnswer


def cups_of_day(bench: Bench, day: PourDay) -> CupsOfDay:
    """The cups of a day's batches.

    Raises: BadInput for a day without a batch or a cup, for a mold or a look that is gone and for
    a time before the start; NoAnswer where a batch cannot be poured at all.
    """
    _refuse_empty(bench, day)
    fresh = [_planned(bench, day, i, batch, 0.0) for i, batch in enumerate(day.batches)]
    packed = plan_cups(_asked(bench, day, fresh))
    remelt = _remelt_by_batch(fresh, packed)
    batches = tuple(
        _planned(bench, day, i, it.batch, remelt[i]) if remelt[i] else it
        for i, it in enumerate(fresh)
    )
    cups = [c for i, it in enumerate(batches) for c in _cups(day, i, it)]
    return CupsOfDay(batches, _named(cups), packed)


def _refuse_empty(bench: Bench, day: PourDay) -> None:
    if not day.batches:
        raise BadInput("batches", 0, "nothing is chosen: pick an order's baits or add some by hand")
    if not day.cup:
        raise BadInput("cup", "", "no pouring cup is picked to heat the plastic in")
    for i, batch in enumerate(day.batches):
        _present(bench, Mold.key, batch.mold, f"batches[{i}].mold", "mold")
        if batch.look:
            _present(bench, Look.key, batch.look, f"batches[{i}].look", "look")


def _present(bench: Bench, sort: str, id: str, field: str, word: str) -> Stored:
    stored = bench.records.get(sort, id)
    if stored.retired:
        why = f"this {word} was taken off the bench: nothing can be poured with it"
        raise BadInput(field, stored.noun.name, why)
    return stored


def draft_of(day: PourDay, batch: PourBatch, remelt_g: float) -> Draft:
    """The plan of a single batch, as its sheet will be frozen from it."""
    return Draft(
        mold=batch.mold, look=batch.look, count=batch.count, cup=day.cup, plastic=day.plastic,
        microwave=day.microwave, thermometer=day.thermometer, injector=day.injector,
        by_hand=not day.injector, spoons=day.spoons, scale=day.scale,
        remelt=day.remelt if remelt_g else "", remelt_g=round(remelt_g, 1),
    )  # fmt: skip


def _planned(
    bench: Bench, day: PourDay, place: int, batch: PourBatch, remelt_g: float
) -> BatchOfDay:
    draft = draft_of(day, batch, remelt_g)
    nouns = picked(bench, draft)
    mold = nouns.nouns[batch.mold]
    look = nouns.nouns.get(batch.look) if batch.look else None
    if not isinstance(mold, Mold):
        raise TypeError(f"batches[{place}].mold is no mold")
    name = f"{look.name}, {mold.name}" if look else mold.name
    try:
        request = request_of(draft, nouns)
        return BatchOfDay(batch, mold, name, draft, request, plan_batch(request))
    except NoAnswer as error:
        raise NoAnswer(f"{name}: {error}") from error


def _asked(bench: Bench, day: PourDay, batches: Sequence[BatchOfDay]) -> CupsInput:
    """The day as the packing of cups is asked; a sheet guides one mold, so cups are not shared."""
    first = batches[0].request
    pot = bench.records.get(RemeltPot.key, day.remelt).noun if day.remelt else None
    on_hand = pot.on_hand_g or 0.0 if isinstance(pot, RemeltPot) else 0.0
    orders = tuple(o for it in batches for o in _orders(it))
    dark = {_color(it, layer) for it in batches if it.batch.takes_remelt for layer in _layers(it)}
    return CupsInput(
        orders=orders,
        cup_ml=first.cup.brim_ml,
        fill_share=first.cup.fill_share,
        injector_ml=first.injector.volume_ml if first.injector else 0.0,
        heel_ml=first.injector.heel_ml if first.injector else None,
        cold_density_g_ml=first.plastic.cold_density_g_ml,
        one_mold_a_cup=True,
        remelt=(RemeltStock(name=day.remelt, on_hand_g=on_hand),) if on_hand else (),
        remelt_colors=tuple(RemeltColor(color=c) for c in sorted(dark)) if on_hand else (),
        remelt_share=first.remelt.largest_share,
    )


def _layers(it: BatchOfDay) -> tuple[str, ...]:
    return tuple(dict.fromkeys(c.layer for c in it.plan.cups))


def _color(it: BatchOfDay, layer: str) -> str:
    return f"{it.name.partition(', ')[0] if it.batch.look else 'clear'}: {layer}"[:80]


def _orders(it: BatchOfDay) -> list[CupOrder]:
    """The batch as orders, one for each layer of its look; shots are those of its plan."""
    shot_g = {c.layer: c.shot_g or 0.0 for c in it.plan.cups}
    return [
        CupOrder(
            color=_color(it, layer), mold=f"{it.batch.mold} {i}", count=it.batch.count,
            cavities=it.mold.cavities, bait_g=max(grams / it.mold.cavities, 0.05), feed_g=0,
            reject_share=it.draft.reject_share, warmup_shots=it.draft.warmup_shots,
        )
        for i, (layer, grams) in enumerate(shot_g.items())
    ]  # fmt: skip


def _remelt_by_batch(batches: Sequence[BatchOfDay], packed: CupsAnswer) -> list[float]:
    """Each batch's part of the remelt of its colors, by what it heats."""
    shares = {c.color: c.remelt_g / c.plastic_g for c in packed.colors}
    return [
        sum(c.total_g * shares[_color(it, c.layer)] for c in it.plan.cups)
        if it.batch.takes_remelt
        else 0.0
        for it in batches
    ]


def _cups(day: PourDay, place: int, it: BatchOfDay) -> list[PlannedCup]:
    """One cup, or one of every layer, for each turn at the molds."""
    by_layer = {x: [c for c in it.plan.cups if c.layer == x] for x in _layers(it)}
    leading = max(by_layer.values(), key=len)
    looks = {look.layer: look.over_white for look in it.plan.looks}
    colors = [looks[layer] for layer in by_layer if layer in looks]
    return [
        _cup(day, place, it, [its[k] for its in by_layer.values() if k < len(its)], lead, colors)
        for k, lead in enumerate(leading)
    ]


def _cup(
    day: PourDay, place: int, it: BatchOfDay, cups: list[CupPlan], lead: CupPlan, colors: list[str]
) -> PlannedCup:
    figures = {f.key: f.value for f in it.plan.figures}
    return PlannedCup(
        name="cup",
        title=it.name[:200],
        batch=place,
        cups=tuple(c.number for c in cups),
        shots=lead.shots,
        plastic_g=sum(c.total_g for c in cups),
        remelt_g=sum(c.remelt_g for c in cups),
        heat_s=_timed(it.batch.heat_min, _heating(it.plan, cups)),
        cool_s=_timed(it.batch.cool_min, figures["open_last_s"]),
        shot_s=_shot(day, it).scaled(len(cups)),
        shade=_shade(colors),
        colors=" ".join(colors) or CLEAR_HEX,
        due_min=due_min(day, it.batch, place),
    )


def _timed(minutes: float | None, forecast: Band) -> Band:
    """The maker's own time where there is one."""
    return forecast if minutes is None else Band(60 * minutes, 60 * minutes, 60 * minutes)


def _heating(plan: BatchPlan, cups: Sequence[CupPlan]) -> Band:
    """The cups of a look's layers are heated one after the other."""
    minutes = {n: h.minutes for h in plan.heat for n in h.cups}
    mine = [minutes[c.number] for c in cups]
    ends = ((m.low, m.typical, m.high) for m in mine)
    return Band(*(60 * sum(parts) for parts in zip(*ends, strict=True)))


def _shot(day: PourDay, it: BatchOfDay) -> Band:
    if day.shot_s is not None:
        return Band(day.shot_s, day.shot_s, day.shot_s)
    draws = Draws(seed=it.request.seed)
    return draws.band(drawn(draws, it.request.hands, "hands ")["shoot_s"])


def _shade(colors: Sequence[str]) -> int:
    """How dark the lightest layer is: that one shows a trace of what was before it."""
    lightness = [float(lab_of(xyz_of_hex(c), xyz_of_hex("#ffffff"))[0]) for c in colors]
    return round(100 - min(max(lightness, default=90.0), 100.0))


def due_min(day: PourDay, batch: PourBatch, place: int) -> int | None:
    """Minutes from the start by which a batch is needed; by midnight where only the day is given.

    None for a batch without a day, and for one that is due on another day and has no time.

    Raises: BadInput for a time before the start.
    """
    if not batch.needed_at:
        return MIDNIGHT - day.begins_min if batch.due_on == day.day else None
    minutes = minute_of(batch.needed_at) - day.begins_min
    if minutes <= 0:
        why = f"is not after {day.begins}, when the day begins"
        raise BadInput(f"batches[{place}].needed_at", batch.needed_at, why)
    return minutes


def _named(cups: Sequence[PlannedCup]) -> tuple[PlannedCup, ...]:
    """The cups numbered through the day."""
    return tuple(dataclasses.replace(c, name=f"Cup {i}") for i, c in enumerate(cups, 1))


def rounded_up(seconds: float) -> int:
    """Seconds on the grid of the timetable."""
    return STEP_S * math.ceil(seconds / STEP_S - 1e-6)
