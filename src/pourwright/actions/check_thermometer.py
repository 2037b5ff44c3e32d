"""Keep what a check found of a thermometer."""

from __future__ import annotations

import dataclasses

from pourwright.actions.keep_record import change_record
from pourwright.actions.port import Bench, Stored, World
from pourwright.base.errors import BadInput, NotFound
from pourwright.heat.thermometer_check import ThermometerAnswer, thermometer_check
from pourwright.heat.thermometer_input import ThermometerInput
from pourwright.shop.tool import Thermometer, ThermometerKind

_DATE_SIGNS = 10


def thermometer_named(bench: Bench, id: str) -> tuple[Stored, Thermometer]:
    """A thermometer of the bench. Raises: NotFound."""
    stored = bench.records.get(Thermometer.key, id)
    if stored.retired or not isinstance(stored.noun, Thermometer):
        raise NotFound(f"no thermometer on the bench is called {id!r}")
    return stored, stored.noun


def checked(reads: ThermometerKind, inputs: ThermometerInput) -> ThermometerAnswer:
    """What the check says of a thermometer of that sort; pairs say nothing of a probe.

    Raises: BadInput where the readings it needs are missing.
    """
    if reads is ThermometerKind.PROBE:
        if not inputs.boiling_c:
            raise BadInput("boiling_c", None, "is needed for a probe: read it in boiling water")
        return thermometer_check(dataclasses.replace(inputs, pairs=()))
    if not inputs.pairs:
        why = "is needed for a gun: read gun and probe together while you stir hot plastic"
        raise BadInput("pairs", None, why)
    return thermometer_check(inputs)


def keep_check(world: World, id: str, inputs: ThermometerInput, *, expected_version: int) -> Stored:
    """Write the bias into the record of the thermometer, with how well it is known, and today.

    Raises: BadInput, Conflict, NotFound.
    """
    with world.bench() as bench:
        _, thermometer = thermometer_named(bench, id)
    answer = checked(thermometer.reads, inputs)
    new = dataclasses.replace(
        thermometer,
        bias_k=round(answer.bias_k.typical, 2),
        bias_spread_k=round(answer.bias_spread_k, 2),
        checked_on=world.clock.now()[:_DATE_SIGNS],
    )
    return change_record(world, new, id=id, expected_version=expected_version)
