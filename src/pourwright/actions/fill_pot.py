"""Put what a lot left over into a remelt pot, with the heat budget it has used."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

import numpy as np

from pourwright.actions.enter_lot import lot_view
from pourwright.actions.heat_budget import pot_named
from pourwright.actions.lot_past import LotPast, lot_past
from pourwright.actions.port import Bench, Event, Stored, World
from pourwright.actions.post_material import Deed, keep_balance
from pourwright.actions.post_potted import post_potted
from pourwright.actions.post_pour import sheet_cause
from pourwright.actions.stock_lot_opening import item_of
from pourwright.base.errors import BadInput
from pourwright.heat.pot_dose import pot_dose
from pourwright.shop.lot import MG
from pourwright.shop.material import RemeltPot
from pourwright.shop.potted import POTTED, Potted, potted, potted_body

SPENT = "has used up its heat budget: discard it, it yellows and fumes at the next heat"
UNWEIGHED = "nobody weighed it: enter what is in it first, 0 if empty"
_LEAST_G = 0.1


@dataclass(frozen=True, slots=True)
class Leftover:
    """What a lot kept for remelt: grams, and what of them went into pots."""

    kept_g: float
    put: tuple[Potted, ...]

    @property
    def left_g(self) -> float:
        """Grams that are in no pot yet."""
        return max(self.kept_g - sum(p.grams for p in self.put), 0.0)


def leftover(bench: Bench, number: int) -> Leftover:
    """What a lot left over. Raises: NotFound for an unknown sheet."""
    view = lot_view(bench, number)
    entry = view.lot.entry
    kept = (entry.remelt_g or 0.0) + (entry.sprue_g or 0.0) if entry else 0.0
    events = bench.ledger.of(f"lot/{view.sheet.code}")
    return Leftover(kept, potted([(e.event.kind, e.event.at, e.event.body) for e in events]))


def fill_pot(world: World, number: int, pot_id: str, grams: float, *, event_id: str) -> Stored:
    """Put plastic of a lot into a pot: grams added, past mixed by mass.

    A pot whose own past is unknown keeps it unknown. The same `event_id` a second time changes
    nothing. Raises: NotFound, BadInput for more than is left, for plastic that is spent, and for
    a pot nobody weighed.
    """
    with world.bench() as bench:
        sheet = lot_view(bench, number).sheet
        subject = f"lot/{sheet.code}"
        stored, pot = pot_named(bench, pot_id)
        if any(e.event.id == event_id for e in bench.ledger.of(subject)):
            return stored
        past = lot_past(bench, sheet)
        _possible(leftover(bench, number), past, pot, grams)
        body = potted_body(pot_id, grams, past.dose_share)
        bench.ledger.append(Event(event_id, subject, POTTED, world.clock.now(), body))
        deed = Deed(event_id, world.clock.now(), sheet_cause(number))
        post_potted(bench, sheet, pot_id, round(grams * MG), deed)
        bench.records.save(
            RemeltPot.key, pot_id, filled(pot, past, grams), expected_version=stored.version
        )
        keep_balance(bench, item_of(RemeltPot.key, pot_id))
        kept = bench.records.get(RemeltPot.key, pot_id)
        bench.commit()
    return kept


def filled(pot: RemeltPot, past: LotPast, grams: float) -> RemeltPot:
    """The pot with plastic of a lot in it."""
    return mixed_in(
        pot, grams, dose_share=past.dose_share, heats=past.heats, holds_salt=past.holds_salt
    )


def mixed_in(
    pot: RemeltPot, grams: float, *, dose_share: float | None, heats: int, holds_salt: bool
) -> RemeltPot:
    """The pot with more plastic in it, its past mixed by mass; one not known leaves it unknown."""
    held = pot.on_hand_g or 0.0
    mixed: float | None = None
    if not held:
        mixed = dose_share
    elif pot.dose_share is not None and dose_share is not None:
        parts = [(held, np.array(pot.dose_share)), (grams, np.array(dose_share))]
        mixed = float(pot_dose(parts))
    return dataclasses.replace(
        pot,
        on_hand_g=round(held + grams, 1),
        dose_share=None if mixed is None else round(mixed, 4),
        heats=max(pot.heats, heats) if held else heats,
        holds_salt=(pot.holds_salt and bool(held)) or holds_salt,
    )


def _possible(left: Leftover, past: LotPast, pot: RemeltPot, grams: float) -> None:
    if past.spent:
        raise BadInput("grams", grams, SPENT)
    if not _LEAST_G <= grams <= left.left_g + _LEAST_G:
        why = f"must lie between {_LEAST_G:g} and {left.left_g:.1f} g: so much is in no pot yet"
        raise BadInput("grams", grams, why)
    if pot.on_hand_g is None:
        raise BadInput("pot", pot.name, UNWEIGHED)
