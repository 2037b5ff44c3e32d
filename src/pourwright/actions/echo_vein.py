"""Echo a look's vein in its belly, as a new version of the look."""

from __future__ import annotations

from pourwright.actions.keep_record import change_record
from pourwright.actions.port import Stored, World
from pourwright.actions.see_record import materials_of
from pourwright.base.errors import BadInput
from pourwright.plan.echo import ECHO_SHARE, echo_vein
from pourwright.shop.look import Look


def echo_look_vein(
    world: World, id: str, *, expected_version: int, dose_share: float = ECHO_SHARE
) -> Stored:
    """The look with its echo, kept.

    Raises: BadInput where there is nothing to echo, NotFound, Conflict if somebody changed the
    look since that version.
    """
    with world.bench() as bench:
        look = bench.records.get(Look.key, id).noun
        if not isinstance(look, Look):
            raise BadInput("id", id, "is no look")
        shelf = materials_of(bench, look)
    echoed = echo_vein(look, shelf, dose_share=dose_share)
    return change_record(world, echoed, id=id, expected_version=expected_version)
