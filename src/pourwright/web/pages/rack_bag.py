"""Bag baits: how many from which lots, how many to a bag, in what."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.bag_baits import Bagging, Taken, bag_baits
from pourwright.actions.bag_doubt import Doubted
from pourwright.actions.baits_to_bag import baits_to_bag
from pourwright.actions.see_rack import RackLot, see_rack
from pourwright.base.errors import BadInput, NotFound, PourwrightError
from pourwright.base.record import from_json
from pourwright.shop.material import Packing
from pourwright.web.event_id import event_id
from pourwright.web.page import Go, Page, Show, Visit
from pourwright.web.rack_view import Thumbs
from pourwright.web.rack_way import LISTS, rack_way
from pourwright.web.said import said
from pourwright.web.thumb import Thumb
from pourwright.web.widget import Choice

_TAKE = "take."


@dataclass(frozen=True, slots=True)
class Source:
    """A lot that baits can come from, and how many of it are typed."""

    lot: RackLot
    typed: str
    chosen: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BagContext:
    """The form; `doubts` speak against it, and a second press goes over them."""

    title: str
    lot: RackLot
    thumb: Thumb | None
    sources: tuple[Source, ...]
    baits_each: str
    packings: tuple[Choice, ...]
    packing: str
    back: str
    came: Mapping[str, str]
    event: str
    doubts: tuple[str, ...] = ()
    refused: str = ""


def bag(visit: Visit) -> Show | Go:
    """Choose, then bag."""
    if not visit.posted:
        asked = visit.request.query_params
        return _form(visit, asked.get("lot", ""), {}, came=asked)
    sent = dict(visit.sent)
    key = event_id(sent.get("event", ""))
    try:
        bagging = from_json(Bagging, _typed(sent))
        bag_baits(visit.world, bagging, key=key)
    except Doubted as error:
        return _form(visit, sent.get("lot", ""), sent, doubts=error.doubts, status=200)
    except PourwrightError as error:
        words = said(error, Taken, Bagging)
        return _form(visit, sent.get("lot", ""), sent, refused=words, status=error.http_status)
    return Go(rack_way(sent, bagged=key))


def _typed(sent: Mapping[str, str]) -> dict[str, object]:
    """The form as the record it means; boxes left empty name no lot."""
    taken = [
        {"lot": name.removeprefix(_TAKE), "baits": _whole(text, "taken")}
        for name, text in sent.items()
        if name.startswith(_TAKE) and text.strip() not in {"", "0"}
    ]
    return {
        "taken": taken,
        "baits_each": _whole(sent.get("baits_each", ""), "baits_each"),
        "packing": sent.get("packing", ""),
        "anyway": "anyway" in sent,
    }


def _whole(text: str, field: str) -> int:
    clean = text.strip()
    if not clean:
        raise BadInput(field, text, "type how many")
    if not (clean.isascii() and clean.isdigit() and len(clean) < 7):
        raise BadInput(field, text, "must be a whole number")
    return int(clean)


def _form(
    visit: Visit, code: str, sent: Mapping[str, str], *, came: Mapping[str, str] | None = None,
    doubts: tuple[str, ...] = (), refused: str = "", status: int = 200,
) -> Show:  # fmt: skip
    with visit.world.reading() as bench:
        seen = see_rack(bench, visit.world.clock.now())
        lot = next((it for it in seen.loose if it.code == code), None)
        if lot is None:
            raise NotFound(f"no loose baits lie in the lot {code!r}")
        each = sent.get("baits_each") or str(baits_to_bag(bench, lot.kind) or "")
        packings = tuple(Choice(s.id, s.noun.name) for s in bench.records.all(Packing.key))
        context = BagContext(
            title=f"Bag {lot.bait}, {lot.look}",
            lot=lot,
            thumb=Thumbs(bench).of_lot(lot),
            sources=_sources(lot, seen.loose, sent, each),
            baits_each=each,
            packings=packings,
            packing=sent.get("packing", packings[0].value if packings and not sent else ""),
            back=rack_way(came or sent),
            came={name: (came or sent).get(name, "") for name in LISTS},
            event=sent.get("event") or visit.world.ids.fresh(),
            doubts=doubts,
            refused=refused,
        )
    return Show("rack/bag.html", context, status)


def _sources(
    lot: RackLot, loose: tuple[RackLot, ...], sent: Mapping[str, str], each: str
) -> tuple[Source, ...]:
    """The lot itself, then others of the same bait; its own look first."""
    others = [it for it in loose if it.kind.bait == lot.kind.bait and it.code != lot.code]
    others.sort(key=lambda it: it.kind.look != lot.kind.look)
    size = int(each) if each.isascii() and each.isdigit() else 0
    whole = lot.in_bags_of(size) if size else lot.free
    first = sent.get(_TAKE + lot.code, "" if sent else str(whole))
    return (
        Source(lot, first, chosen=True),
        *(Source(it, sent.get(_TAKE + it.code, ""), chosen=False) for it in others),
    )


RACK_BAG_PAGES = (Page("/rack/bag", bag, ("GET", "POST")),)
