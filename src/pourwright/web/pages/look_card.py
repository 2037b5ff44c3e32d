"""The color card of a look as a PDF: as it is, as a version was, or as a lot was poured."""

from __future__ import annotations

from starlette.responses import Response

from pourwright.actions.look_version import stored_look
from pourwright.actions.make_look_card import Begun, card_of_look, card_of_lot, finished
from pourwright.actions.plan_batch import workplace
from pourwright.actions.port import Bench
from pourwright.base.errors import BadInput
from pourwright.shop.workplace import Paper
from pourwright.web.look_bait import usual_bait
from pourwright.web.look_form import baits_with_shape
from pourwright.web.page import Page, Visit, number_in_address


def card(visit: Visit) -> Response:
    """One page; `?bait=`, `?version=`, `?lot=` and `?paper=` pick which."""
    with visit.world.reading() as bench:
        place = workplace(bench)
        begun = _begun(visit, bench)
    wanted = visit.request.query_params.get("paper", place.paper.value)
    if wanted not in set(Paper):
        raise BadInput("paper", wanted, f"must be one of {', '.join(Paper)}")
    made = finished(begun)
    pdf = visit.world.printer.card(made, system=place.units, paper=Paper(wanted))
    name = f"color-card-{visit.part('id')}-{made.version}.pdf"
    headers = {"content-disposition": f'attachment; filename="{name}"'}
    return Response(pdf, media_type="application/pdf", headers=headers)


def _begun(visit: Visit, bench: Bench) -> Begun:
    asked, now = visit.request.query_params, visit.world.clock.now()
    look_id = visit.part("id")
    lot, version = asked.get("lot", ""), asked.get("version", "")
    if lot:
        return card_of_lot(bench, look_id, number_in_address(lot, "lot", "a sheet"), now=now)
    bait = asked.get("bait", "")
    if not bait:
        usual = usual_bait(bench, (stored_look(bench, look_id)[1],), baits_with_shape(bench))
        bait = usual.value if usual else ""
    return card_of_look(
        bench,
        look_id,
        bait=bait,
        version=number_in_address(version, "version", "a version") if version else 0,
        now=now,
    )


LOOK_CARD_PAGES = (Page("/looks/{id}/card.pdf", card),)
