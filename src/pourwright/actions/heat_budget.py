"""The heat budget of a pot: what it had used, what was done to it since, what to do with it."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from pourwright.actions.keep_record import change_record
from pourwright.actions.port import Bench, Stored, World
from pourwright.base.band import exact
from pourwright.base.errors import BadInput, NotFound
from pourwright.base.field import number, parts, unmeasured
from pourwright.base.record import Record
from pourwright.heat.scorch_answer import ScorchAnswer
from pourwright.heat.scorch_budget import cook_scorch
from pourwright.heat.scorch_input import HeldBurst, LotHeat, RemeltIn, ScorchInput, check_hottest
from pourwright.matter import scorch
from pourwright.matter.remelt import HEAT_DOSE
from pourwright.shop.material import RemeltPot


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold(Record):
    """Some minutes at about one temperature."""

    held_min: float = number("How long", low=0.05, high=600)
    mean_c: float = number("At about", low=20, high=300)
    hottest_c: float | None = number(
        "Hottest place, if you know it", low=20, high=350, default=None
    )

    def check(self) -> None:
        """Refuse a hottest place that is cooler than the mean."""
        check_hottest(self.mean_c, self.hottest_c)


@dataclass(frozen=True, slots=True, kw_only=True)
class BudgetEntry(Record):
    """A pot of plastic: its past as one share, and the heats it went through since."""

    pot_g: float = number("Plastic in the pot", low=0.1, high=50_000, default=100)
    used_share: float | None = unmeasured(
        "Heat budget it had used before: 0 is fresh, 1 is all of it", low=0, high=20,
        typical=HEAT_DOSE.ends, measure=HEAT_DOSE.measure, logarithmic=True,
    )  # fmt: skip
    heats: int = number("Heats before, where that share is unknown", low=1, high=20, default=1)
    holds: tuple[Hold, ...] = parts("Heats since then", most=40)
    fresh_g: float = number("Fresh plastic that went in", low=0, high=50_000, default=0)
    stable_at_190c_min: float | None = unmeasured(
        "Minutes the stabilizer lasts at 190 °C / 374 °F", low=0.5, high=600,
        typical=scorch.STABLE_MIN_AT_190C.ends,
        measure=scorch.STABLE_MIN_AT_190C.measure, logarithmic=True,
    )  # fmt: skip


def budget_of(entry: BudgetEntry) -> ScorchAnswer:
    """What the pot has used of its heat budget, and what to do with it."""
    known = None if entry.used_share is None else exact(entry.used_share)
    bursts = tuple(
        HeldBurst(for_s=60 * h.held_min, mean_c=h.mean_c, hottest_c=h.hottest_c)
        for h in entry.holds
    )
    return cook_scorch(
        ScorchInput(
            heats=(LotHeat(bursts=bursts),) if bursts else (),
            remelt=(RemeltIn(mass_g=entry.pot_g, dose_share=known, heats=entry.heats),),
            fresh_g=entry.fresh_g,
            stable_at_190c_min=entry.stable_at_190c_min,
        )
    )


def pot_named(bench: Bench, id: str) -> tuple[Stored, RemeltPot]:
    """A remelt pot of the shelf. Raises: NotFound."""
    stored = bench.records.get(RemeltPot.key, id)
    if stored.retired or not isinstance(stored.noun, RemeltPot):
        raise NotFound(f"no remelt pot on the shelf is called {id!r}")
    return stored, stored.noun


def entry_of(pot: RemeltPot) -> BudgetEntry:
    """What is known of a pot; a hundred grams stand in where nobody weighed it."""
    return BudgetEntry(pot_g=pot.on_hand_g or 100, used_share=pot.dose_share, heats=pot.heats)


def keep_budget(world: World, id: str, entry: BudgetEntry, *, expected_version: int) -> Stored:
    """Write the share that was used into the record of the pot.

    Raises: BadInput where that share would be a guess, Conflict, NotFound.
    """
    if entry.used_share is None:
        why = (
            "is unknown, and a guess is not kept: enter it, or 0 and all the heats it went through"
        )
        raise BadInput("used_share", None, why)
    with world.bench() as bench:
        _, pot = pot_named(bench, id)
    share = budget_of(entry).dose_share.typical
    new = dataclasses.replace(pot, dose_share=round(share, 4))
    return change_record(world, new, id=id, expected_version=expected_version)
