"""The guide to pucks: what to pour and read, what it taught, what is missing."""

from __future__ import annotations

from pourwright.actions.calibrate_shelf import calibrate_shelf
from pourwright.actions.import_spectra import import_spectra
from pourwright.actions.puck_wants import pour_puck
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.pages.puck_reading import READING_PAGES
from pourwright.web.puck_view import guide_view

_TEMPLATE = "puck/guide.html"


def guide(visit: Visit) -> Show | Go:
    """See what is known, and learn from what was read."""
    if visit.posted:
        try:
            calibrate_shelf(visit.world)
        except PourwrightError as error:
            return _refused(visit, error)
        return Go("/pucks?did=learned#h-taught")
    did = visit.request.query_params.get("did", "")
    said = {
        "learned": "Learned. Plans and looks now use what the pucks taught.",
        "read": "Reading kept.",
        "pouring": "Written down. Pour it on the card, let it cool, then enter its readings.",
    }
    done = (said[did],) if did in said else ()
    with visit.world.reading() as bench:
        return Show(_TEMPLATE, guide_view(bench, done=done))


def pour(visit: Visit) -> Show | Go:
    """Write down a puck that the guide asks for."""
    sent = dict(visit.sent)
    pour_puck(visit.world, sent.get("material", ""), sent.get("key", ""))
    return Go("/pucks?did=pouring")


def spectra(visit: Visit) -> Show:
    """Put a file of spectra into the cards and pucks its columns name."""
    try:
        taken = import_spectra(visit.world, _sent(visit))
    except PourwrightError as error:
        return _refused(visit, error)
    with visit.world.reading() as bench:
        return Show(_TEMPLATE, guide_view(bench, done=taken))


def _sent(visit: Visit) -> bytes:
    upload = visit.files.get("spectra")
    data = b""
    if upload is not None:
        with upload.file as file:
            data = file.read()
    if upload is None or not upload.filename:
        raise BadInput("spectra", None, "choose a CSV file first")
    return data


def _refused(visit: Visit, error: PourwrightError) -> Show:
    with visit.world.reading() as bench:
        return Show(_TEMPLATE, guide_view(bench, refused=str(error)), error.http_status)


PUCK_PAGES = (
    Page("/pucks", guide, ("GET", "POST")),
    Page("/pucks/pour", pour, ("POST",)),
    Page("/pucks/spectra", spectra, ("POST",)),
    *READING_PAGES,
)
