"""Fill a remelt pot from other pots, with the heat budget each of them has used."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.fill_pot import SPENT, UNWEIGHED, mixed_in
from pourwright.actions.heat_budget import pot_named
from pourwright.actions.port import Bench, World
from pourwright.actions.post_material import Deed, drawn, keep_balance, lots_of
from pourwright.actions.stock_lot_opening import item_of, open_lot
from pourwright.base.errors import BadInput, Conflict
from pourwright.base.field import number, parts, reference
from pourwright.base.record import Record
from pourwright.heat.scorch_words import Advice, advice_for
from pourwright.shop.lot import MG
from pourwright.shop.material import RemeltPot
from pourwright.shop.move import MoveKind
from pourwright.shop.stock_lot import Held, StockLot


@dataclass(frozen=True, slots=True, kw_only=True)
class PotPart(Record):
    """What goes in out of one pot; without a mass, all of it."""

    pot: str = reference("Out of", refers=RemeltPot.key)
    mass_g: float | None = number("How much, if not all", low=0.1, high=50_000, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class MixEntry(Record):
    """What a person puts into a pot out of others."""

    parts: tuple[PotPart, ...] = parts("What goes in", least=1, most=12)


def mix_pots(world: World, pot_id: str, entry: MixEntry, *, key: str) -> str:
    """The code of the pot's lot that all of it went into; the same `key` again changes nothing.

    The past is mixed by mass; one that nobody knows leaves the whole unknown. Raises: NotFound;
    BadInput for the pot itself, for more than one holds, for plastic that is spent and for a pot
    nobody weighed; Conflict where plastic of the pot would come back to itself.
    """
    with world.bench() as bench:
        deed = Deed(key, world.clock.now(), f"mix/{key}")
        known = bench.stock.moves(cause=deed.cause)
        if known:
            return known[0].target
        into = _weighed(bench, pot_id, "pot")
        item = item_of(RemeltPot.key, pot_id)
        target = _pot_lot(bench, item, into.name, deed)
        for i, part in enumerate(entry.parts):
            into = _poured_in(bench, part, pot_id, into, target, deed, place=i)
        version = bench.records.get(RemeltPot.key, pot_id).version
        bench.records.save(RemeltPot.key, pot_id, into, expected_version=version)
        keep_balance(bench, item)
        bench.commit()
    return target.code


def _poured_in(
    bench: Bench, part: PotPart, pot_id: str, into: RemeltPot, target: StockLot, deed: Deed, *,
    place: int,
) -> RemeltPot:  # fmt: skip
    """The pot with one part more in it."""
    path = f"parts[{place}]"
    if part.pot == pot_id:
        raise BadInput(f"{path}.pot", part.pot, "is this very pot: pick another")
    source = _weighed(bench, part.pot, f"{path}.pot")
    if source.dose_share is not None and advice_for(source.dose_share) is Advice.DISCARD:
        raise BadInput(f"{path}.pot", source.name, SPENT)
    item = item_of(RemeltPot.key, part.pot)
    lots = lots_of(bench, item, deed)
    held = sum(it.mg for it in lots)
    mg = held if part.mass_g is None else round(part.mass_g * MG)
    if not 0 < mg <= held:
        why = f"{source.name} holds {held / MG:g} g" if held else f"{source.name} is empty"
        raise BadInput(f"{path}.mass_g", mg / MG, why)
    _refuse_loop(bench, lots, mg, target)
    bench.stock.post(*drawn(lots, mg, target.code, deed, kind=MoveKind.MIXED))
    keep_balance(bench, item)
    return mixed_in(
        into,
        mg / MG,
        dose_share=source.dose_share,
        heats=source.heats,
        holds_salt=source.holds_salt,
    )


def _weighed(bench: Bench, pot_id: str, field: str) -> RemeltPot:
    _, pot = pot_named(bench, pot_id)
    if pot.on_hand_g is None:
        raise BadInput(field, pot.name, UNWEIGHED)
    return pot


def _pot_lot(bench: Bench, item: str, name: str, deed: Deed) -> StockLot:
    """The lot the pot keeps until it is empty."""
    there = lots_of(bench, item, deed)
    return there[-1].lot if there else open_lot(bench, item, name, at=deed.at)


def _refuse_loop(bench: Bench, lots: tuple[Held, ...], mg: int, target: StockLot) -> None:
    """Refuse to pour plastic of a lot back to where it came from."""
    for held in lots:
        if mg <= 0:
            return
        mg -= held.mg
        if any(m.source == target.code for m in bench.stock.came_from(held.lot.code)):
            raise Conflict(
                f"{held.lot.name} ({held.lot.code}) already holds plastic out of {target.name} "
                f"({target.code}): poured back, each would be made of the other. Empty "
                f"{target.name} first, or fill a third pot from both"
            )
