"""One look: its picture, what a fish makes of it, where its layers part, its versions."""

from __future__ import annotations

import dataclasses

from pourwright.actions.keep_record import change_record
from pourwright.actions.look_version import bring_back, stored_look
from pourwright.base.errors import BadInput
from pourwright.body.split import Split
from pourwright.shop.look import Look
from pourwright.web.field_label import label_of
from pourwright.web.look_form import SPLIT, split_sent
from pourwright.web.look_view import look_context
from pourwright.web.page import Go, Page, Show, Visit, number_in_address


def one_look(visit: Visit) -> Show | Go:
    """The page of a look; one that was taken off shows its history."""
    sent = dict(visit.request.query_params)
    with visit.world.reading() as bench:
        stored, look = stored_look(bench, visit.part("id"))
        if stored.retired:
            return Go(f"/records/{Look.key}/{stored.id}/history")
        page = look_context(bench, stored, look, sent, visit.settings)
    return Show("look/look.html", page, 422 if page.wish.problem else 200)


def part_layers(visit: Visit) -> Show | Go:
    """Keep where the layers part."""
    sent = dict(visit.sent)
    with visit.world.reading() as bench:
        stored, look = stored_look(bench, visit.part("id"))
    found = split_sent(sent, visit.settings)
    if found is None:
        raise BadInput("split", None, "is missing: send the lines of the look")
    problem = next((f"{label_of(Split, name)}: {why}" for name, why in found.problems.items()), "")
    if not problem:
        try:
            changed = dataclasses.replace(look, split=found.record)
            change_record(
                visit.world, changed, id=stored.id, expected_version=visit.whole("@version")
            )
        except BadInput as error:
            problem = f"{label_of(Split, error.field.removeprefix(SPLIT))}: {error.why}"
        else:
            return Go(f"/looks/{stored.id}")
    with visit.world.reading() as bench:
        page = look_context(
            bench, stored, look, {}, visit.settings, lines=sent, lines_problem=problem
        )
    return Show("look/look.html", page, 422)


def back_to(visit: Visit) -> Go:
    """Bring back an earlier version."""
    number = number_in_address(visit.part("number"), "version", "a version")
    kept = bring_back(
        visit.world, visit.part("id"), number, expected_version=visit.whole("@version")
    )
    return Go(f"/looks/{kept.id}")


LOOK_PAGES = (
    Page("/looks/{id}", one_look),
    Page("/looks/{id}/split", part_layers, ("POST",)),
    Page("/looks/{id}/versions/{number}", back_to, ("POST",)),
)
