"""What a lot left over, offered to the remelt pots on the shelf."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.enter_lot import lot_view
from pourwright.actions.fill_pot import Leftover, leftover
from pourwright.actions.lot_past import LotPast, lot_past
from pourwright.actions.port import Bench, World
from pourwright.shop.material import RemeltPot
from pourwright.web.local_time import day_of
from pourwright.web.names import Names
from pourwright.web.show import grouped, percent


@dataclass(frozen=True, slots=True)
class Pot:
    """A pot that could take it; `holds` says what is in it and what that has been through."""

    id: str
    name: str
    holds: str
    unknown: bool = False


@dataclass(frozen=True, slots=True)
class PotOffer:
    """What is left of a lot, and where it may go.

    `put` tells what went into pots before; `event_id` makes a repeated send harmless.
    """

    left: Leftover
    past: LotPast
    grams: str
    pots: tuple[Pot, ...]
    put: tuple[str, ...]
    event_id: str
    problem: str


@dataclass(frozen=True, slots=True)
class PotWay:
    """How much of a lot waits for a pot, and what went into one."""

    left: Leftover
    put: tuple[str, ...]


def pot_way(bench: Bench, number: int) -> PotWay | None:
    """What the page of a lot says of it; none where nothing was kept for remelt."""
    left = leftover(bench, number)
    return PotWay(left, _put(bench, left)) if left.kept_g else None


def pot_offer(
    world: World, bench: Bench, number: int, *, typed: str = "", problem: str = ""
) -> PotOffer:
    """The offer of a lot. Raises: NotFound for an unknown sheet."""
    left = leftover(bench, number)
    return PotOffer(
        left=left,
        past=lot_past(bench, lot_view(bench, number).sheet),
        grams=typed or grouped(left.left_g, 1).replace(",", "").removesuffix(".0"),
        pots=tuple(_pot(s.id, s.noun) for s in bench.records.all(RemeltPot.key)
                   if isinstance(s.noun, RemeltPot)),
        put=_put(bench, left),
        event_id=world.ids.fresh(),
        problem=problem,
    )  # fmt: skip


def _put(bench: Bench, left: Leftover) -> tuple[str, ...]:
    names = Names(bench)
    return tuple(
        f"{grouped(p.grams, 1).removesuffix('.0')} g into "
        f"{names.name_of(RemeltPot.key, p.pot)}, on {day_of(p.at)}"
        for p in left.put
    )


def _pot(id: str, pot: RemeltPot) -> Pot:
    if pot.on_hand_g is None:
        return Pot(id, pot.name, "not weighed yet")
    if not pot.on_hand_g:
        return Pot(id, pot.name, "empty")
    held = f"holds {grouped(pot.on_hand_g, 0)} g"
    if pot.dose_share is None:
        return Pot(id, pot.name, f"{held}, past unknown", unknown=True)
    return Pot(id, pot.name, f"{held}, {percent(pot.dose_share, 1)} used")
