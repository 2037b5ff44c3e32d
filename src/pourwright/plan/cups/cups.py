"""Orders to shots to the fewest cups of each color, with remelt."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import fields_of
from pourwright.base.source import PRACTICE, estimate, published
from pourwright.fill.account import Account, Bench, account
from pourwright.fill.shot import ShotInput, bait_grams, bench_of, feed_grams
from pourwright.plan.cups.answer import (
    ColorCups,
    CupsAnswer,
    MoldCount,
    MoldShots,
    PackedCup,
    PotShare,
    SharedCups,
)
from pourwright.plan.cups.cups_input import CupOrder, CupsInput
from pourwright.plan.cups.packing import EFFORT, Packing, packed
from pourwright.plan.cups.remelt_spread import spread

# Work that the search may spend on all colors together, in parts alike.
ALL_EFFORT = 8 * EFFORT
_SHARED = {f.name for f in fields_of(CupsInput)} & {f.name for f in fields_of(ShotInput)}
_OWN = {f.name for f in fields_of(CupOrder)} & {f.name for f in fields_of(ShotInput)}


@dataclass(frozen=True, slots=True)
class _Lot:
    """All orders of one color through one mold; `shot_g` is drawn."""

    order: CupOrder
    bench: Bench
    account: Account
    shot_g: Array


@dataclass(frozen=True, slots=True)
class _Filled:
    """A cup before the remelt is shared out: shots by mold, and what it holds."""

    shots: tuple[MoldShots, ...]
    plastic_g: float


@calculation(
    "plan.cups",
    purpose="orders to shots to the fewest cups of each color, with remelt",
    sources=(
        published("Martello and Toth (1990), Knapsack Problems, ch. 8: bin packing and its bounds"),
        estimate("typical feed, heel, residue, rejects and packing"),
        PRACTICE,
    ),
    example={
        "orders": [
            {"color": "marsh green", "mold": "worm", "count": 48, "cavities": 4, "bait_g": 9.5},
            {"color": "marsh green", "mold": "craw", "count": 20, "cavities": 2, "bait_g": 14},
            {"color": "pearl", "mold": "worm", "count": 24, "cavities": 4, "bait_g": 9.5},
        ],
        "cup_ml": 473,
        "remelt": [{"name": "dark greens", "on_hand_g": 420}],
        "remelt_colors": [{"color": "marsh green"}],
    },
)
def plan_cups(inputs: CupsInput) -> CupsAnswer:
    """Fewest cups, exactly, color by color; each cup costs its residue and the injector's heel.

    Orders of one color through one mold are shot together; shots are those of the account of a
    single batch, never split. Remelt goes only into the colors named, at most its largest share of
    every cup, and as much of it as that allows.
    Raises: NoAnswer if a shot does not fit the injector or the cup, BadInput for orders that give
    one mold two sizes.
    """
    draws = Draws(seed=inputs.seed)
    lots = [_lot(draws, inputs, order) for order in _merged(inputs.orders)]
    by_color = dict(_by_color(lots))
    effort = min(EFFORT, ALL_EFFORT / len(by_color))
    packings = {color: _packings(inputs, mine, effort) for color, mine in by_color.items()}
    shared = tuple(_sharing(packings, effort)) if inputs.one_mold_a_cup else ()
    filled = {
        color: [c for p, mine in pairs for c in _filled(p, mine)]
        for color, pairs in packings.items()
    }
    least = {color: sum(p.least for p, _ in pairs) for color, pairs in packings.items()}
    taken = _remelt(inputs, filled)
    numbers = itertools.count(1)
    colors = tuple(
        _color(color, cups, least[color], taken, numbers, lots[0].bench.cold_g_ml)
        for color, cups in filled.items()
    )
    plastic = _drawn_plastic(draws, inputs, lots, sum(len(c) for c in filled.values()))
    heated, remelt = sum(c.plastic_g for c in colors), sum(c.remelt_g for c in colors)
    count = sum(len(c.cups) for c in colors)
    return CupsAnswer(
        colors=colors,
        molds=tuple(
            MoldCount(x.order.color, x.order.mold, x.order.count, x.account.shots, x.account.spare)
            for x in lots
        ),
        shots=sum(c.shots for c in colors),
        cups=count,
        plastic_g=draws.band(plastic),
        virgin_g=heated - remelt,
        remelt_g=remelt,
        remelt_left_g=sum(pot.on_hand_g for pot in inputs.remelt) - remelt,
        spare_baits=sum(x.account.spare for x in lots),
        residue_g=count * lots[0].bench.residue_g,
        heel_g=count * lots[0].bench.heel_g,
        proven=all(p.proven for pairs in packings.values() for p, _ in pairs),
        shared=shared,
        notes=(
            *_notes(inputs, draws, plastic, lots, packings),
            *(it.words for it in shared),
            *_idle_remelt(inputs),
        ),
    )


def _merged(orders: Sequence[CupOrder]) -> Iterator[CupOrder]:
    """One order for each color and mold, with the sum of the counts."""
    found: dict[tuple[str, str], CupOrder] = {}
    for i, order in enumerate(orders):
        key = order.color, order.mold
        before = found.get(key)
        if before is None:
            found[key] = order
        elif replace(order, count=before.count) != before:
            why = f"differs from an earlier order of {order.color} in its sizes or its rejects"
            raise BadInput(f"orders[{i}].mold", order.mold, why)
        elif before.count + order.count > _MOST:
            why = f"comes to more than {_MOST} baits of one color out of one mold"
            raise BadInput(f"orders[{i}].count", order.count, why)
        else:
            found[key] = replace(before, count=before.count + order.count)
    yield from found.values()


_MOST = int(next(f.spec.high for f in fields_of(CupOrder) if f.name == "count"))


def _lot(draws: Draws, inputs: CupsInput, order: CupOrder) -> _Lot:
    given = {n: getattr(inputs, n) for n in _SHARED - {"remelt_share", "seed"}}
    given |= {n: getattr(order, n) for n in _OWN}
    try:
        batch = ShotInput(**given)
    except BadInput as error:
        place = next(
            i for i, it in enumerate(inputs.orders)
            if (it.color, it.mold) == (order.color, order.mold)
        )  # fmt: skip
        field = f"orders[{place}].{error.field}" if error.field in _OWN else error.field
        where = f"{order.color}, {order.mold}"
        raise BadInput(field, error.value, f"{where}: {error.why}") from error
    v = drawn(draws, batch)
    bench = bench_of(batch, v, bait_grams(batch, v))
    try:
        done = account(
            bench, count=order.count, reject_share=float(v["reject_share"][0]),
            warmup_shots=order.warmup_shots,
        )  # fmt: skip
    except NoAnswer as error:
        raise NoAnswer(f"{order.mold}: {error}") from error
    return _Lot(order, bench, done, order.cavities * bait_grams(batch, v) + feed_grams(batch, v))


def _by_color(lots: Sequence[_Lot]) -> Iterator[tuple[str, list[_Lot]]]:
    for color in dict.fromkeys(x.order.color for x in lots):
        yield color, [x for x in lots if x.order.color == color]


def _packings(
    inputs: CupsInput, lots: list[_Lot], effort: float
) -> list[tuple[Packing, list[_Lot]]]:
    """One packing of a color's shots, or one for each mold where they may not share a cup."""
    groups = [[x] for x in lots] if inputs.one_mold_a_cup else [lots]
    return [(_packed(group, effort), group) for group in groups]


def _packed(lots: Sequence[_Lot], effort: float) -> Packing:
    bench = lots[0].bench
    room = bench.cup_g - bench.cup_need_g(0)
    shots = [x.account.shots for x in lots]
    return packed([x.bench.shot_g for x in lots], shots, room, effort=effort)


def _filled(packing: Packing, lots: Sequence[_Lot]) -> Iterator[_Filled]:
    for counts in packing.cups:
        shots = [(x, n) for x, n in zip(lots, counts, strict=True) if n]
        grams = lots[0].bench.cup_need_g(0) + sum(n * x.bench.shot_g for x, n in shots)
        yield _Filled(tuple(MoldShots(x.order.mold, n) for x, n in shots), grams)


def _remelt(inputs: CupsInput, filled: dict[str, list[_Filled]]) -> dict[tuple[str, str], float]:
    most = {
        it.color: inputs.remelt_share * sum(c.plastic_g for c in filled[it.color])
        for it in inputs.remelt_colors
    }
    return spread(inputs.remelt, most)


def _color(
    color: str, cups: Sequence[_Filled], least: int, taken: dict[tuple[str, str], float],
    numbers: Iterator[int], cold_g_ml: float,
) -> ColorCups:  # fmt: skip
    """A color's cups; each takes the same share of the color's remelt, so none exceeds it."""
    plastic = sum(c.plastic_g for c in cups)
    pots = tuple(PotShare(pot, g) for (pot, into), g in taken.items() if into == color)
    remelt = sum(p.used_g for p in pots)
    return ColorCups(
        color=color,
        shots=sum(s.shots for c in cups for s in c.shots),
        cups=tuple(
            PackedCup(
                next(numbers), c.shots, c.plastic_g, c.plastic_g / cold_g_ml,
                remelt * c.plastic_g / plastic,
            )
            for c in cups
        ),
        least_cups=least,
        plastic_g=plastic,
        remelt=pots,
        remelt_g=remelt,
        virgin_g=plastic - remelt,
    )  # fmt: skip


def _drawn_plastic(draws: Draws, inputs: CupsInput, lots: Sequence[_Lot], cups: int) -> Array:
    """What the same shots from the same cups take where the bench is other than typical."""
    v = drawn(draws, inputs)
    heel = v["heel_ml"] * v["hot_density_g_ml"] * (inputs.injector_ml > 0)
    shots = sum((x.account.shots * x.shot_g for x in lots), start=draws.known(0.0))
    return np.asarray(shots + cups * (v["residue_g"] + heel))


def _notes(
    inputs: CupsInput, draws: Draws, plastic: Array, lots: Sequence[_Lot],
    packings: dict[str, list[tuple[Packing, list[_Lot]]]],
) -> tuple[str, ...]:  # fmt: skip
    unused = (
        *(() if inputs.injector_ml else ("heel_ml",)),
        *(() if any(_by_volume(x.order) for x in lots) else ("packed_ratio",)),
    )
    ordered = [n for x in lots for n in left_out(x.order, unused=_known(x.order))]
    return (
        *left_out(inputs, unused=unused),
        *dict.fromkeys(ordered),
        *width_notes(draws, {"plastic_g": plastic}),
        *_unproven(packings),
    )


def _by_volume(order: CupOrder) -> bool:
    return order.bait_g is None or order.feed_g is None


def _known(order: CupOrder) -> tuple[str, ...]:
    return () if order.feed_g is None else ("feed_ml",)


def _unproven(packings: dict[str, list[tuple[Packing, list[_Lot]]]]) -> Iterator[str]:
    for color, pairs in packings.items():
        for packing, _ in pairs:
            if not packing.proven:
                yield (
                    f"{color}: {len(packing.cups)} cups, and at least {packing.least} are needed; "
                    "the search ended before it could say which."
                )


def _sharing(
    packings: dict[str, list[tuple[Packing, list[_Lot]]]], effort: float
) -> Iterator[SharedCups]:
    """What cups shared between molds would save."""
    for color, pairs in packings.items():
        if len(pairs) > 1:
            apart = sum(len(p.cups) for p, _ in pairs)
            saved = apart - len(_packed([x for _, lots in pairs for x in lots], effort).cups)
            if saved:
                cups = "a cup" if saved == 1 else f"{saved} cups"
                words = f"{color}: cups shared between its molds would save {cups}."
                yield SharedCups(color, saved, words)


def _idle_remelt(inputs: CupsInput) -> tuple[str, ...]:
    if inputs.remelt and not inputs.remelt_colors:
        return ("remelt: no color was named that may take it, so none is used.",)
    return ()
