"""Rack & bags: what hangs where until when, what is bagged; bag it, take it out, find a code."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.bag_baits import bag_cause, bagged_by
from pourwright.actions.find_lot import find_lot
from pourwright.actions.hanging import Hanging
from pourwright.actions.port import Bench
from pourwright.actions.see_rack import see_rack
from pourwright.actions.take_out import GIVEN_AWAY, Gone, TakingOut, out_cause, take_out, taken_out
from pourwright.actions.undo_moves import undo_moves
from pourwright.base.errors import BadInput, PourwrightError
from pourwright.base.record import from_json
from pourwright.web.event_id import event_id
from pourwright.web.leaf import Leaf, leaf_of, nearest_leaf
from pourwright.web.page import Go, Page, Show, Visit, number_in_address
from pourwright.web.pages.rack import TakenOff, just_taken_off
from pourwright.web.rack_view import BagCard, LooseCard, Thumbs, bag_cards, loose_cards
from pourwright.web.rack_way import rack_way
from pourwright.web.said import said
from pourwright.web.thumb import KindThumbs


@dataclass(frozen=True, slots=True)
class Done:
    """What was just done, and what takes it back."""

    words: str
    deed: str
    key: str
    undo_id: str
    labels: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RackContext:
    """The rack, and what was just done or refused; `typed` is the code that found nothing."""

    title: str
    loose: tuple[LooseCard, ...]
    loose_leaf: Leaf
    bags: tuple[BagCard, ...]
    bags_leaf: Leaf
    unbooked: tuple[Hanging, ...]
    loose_baits: int
    bag_count: int
    set_aside: int
    whys: tuple[str, ...]
    given_away: str
    done: Done | None
    taken_off: TakenOff | None
    refused: str = ""
    typed: str = ""

    @property
    def empty(self) -> bool:
        """Whether nothing hangs and nothing is bagged."""
        return not (self.loose or self.bags or self.unbooked)


def rack(visit: Visit) -> Show:
    """All that is finished."""
    return _shown(visit)


def find(visit: Visit) -> Show | Go:
    """Where a scanned or typed code leads."""
    typed = visit.request.query_params.get("code", "")[:80]
    try:
        with visit.world.reading() as bench:
            found = find_lot(bench, typed)
    except PourwrightError as error:
        words = f"The code {error.why}" if isinstance(error, BadInput) else str(error)
        return _shown(visit, refused=words, typed=typed, status=error.http_status)
    if found.lot is not None:
        return Go(f"/stock/{found.lot.lot.code}")
    return Go(f"/records/offer/{found.offer}")


def out(visit: Visit) -> Show | Go:
    """Throw baits away, keep or give them."""
    sent = dict(visit.sent)
    key = event_id(sent.get("event", ""))
    taking = {
        "lot": sent.get("lot", ""), "baits": visit.whole("baits"), "why": sent.get("why", ""),
        "note": sent.get("note", ""),
    }  # fmt: skip
    try:
        take_out(visit.world, from_json(TakingOut, taking), key=key)
    except PourwrightError as error:
        return _shown(visit, refused=said(error, TakingOut), status=error.http_status)
    return Go(rack_way(sent, out=key))


def undo(visit: Visit) -> Show | Go:
    """Take back what was just done."""
    sent = dict(visit.sent)
    key, event = event_id(sent.get("key", "")), event_id(sent.get("event", ""))
    cause = bag_cause(key) if sent.get("deed") == "bagged" else out_cause(key)
    try:
        undo_moves(visit.world, cause, key=event)
    except PourwrightError as error:
        return _shown(visit, refused=said(error, TakingOut), status=error.http_status)
    return Go(rack_way(sent))


def _shown(visit: Visit, *, refused: str = "", typed: str = "", status: int = 200) -> Show:
    now, fresh = visit.world.clock.now(), visit.world.ids.fresh
    asked = visit.request.query_params
    off = asked.get("off", "")
    with visit.world.reading() as bench:
        seen, thumbs = see_rack(bench, now), Thumbs(bench)
        done = _done(bench, asked.get("bagged", ""), asked.get("out", ""), undo_id=fresh())
        page = nearest_leaf if done or off else leaf_of
        loose = page(len(seen.loose), asked.get("loose", ""), "loose")
        bags = page(len(seen.bags), asked.get("bags", ""), "bags")
        number = number_in_address(off, "off", "a sheet") if off else 0
        context = RackContext(
            title="Rack & bags",
            loose=loose_cards(loose.of(seen.loose), now, thumbs, fresh),
            loose_leaf=loose,
            bags=bag_cards(bags.of(seen.bags), KindThumbs(bench), fresh),
            bags_leaf=bags,
            unbooked=seen.unbooked,
            loose_baits=seen.loose_baits,
            bag_count=seen.bag_count,
            set_aside=seen.set_aside,
            whys=tuple(why.value for why in Gone),
            given_away=GIVEN_AWAY,
            done=done,
            taken_off=just_taken_off(bench, number, undo_id=fresh()) if number else None,
            refused=refused,
            typed=typed,
        )
    return Show("rack/rack.html", context, status)


def _done(bench: Bench, bagged: str, out: str, *, undo_id: str) -> Done | None:
    """What the address names, unless it was taken back since."""
    deed, key = ("bagged", bagged) if bagged else ("out", out)
    if not key:
        return None
    if not bagged:
        move = taken_out(bench, event_id(key))
        words = f"{move.pieces} baits out of {move.source}: {move.note}" if move else ""
        return Done(words, deed, key, undo_id) if move else None
    made = bagged_by(bench, event_id(key))
    if made is None:
        return None
    lot, bags = made.lot, made.bags
    words = f"{bags} {'bag' if bags == 1 else 'bags'} of {lot.baits_each}: {lot.name}, {lot.code}"
    return Done(words, deed, key, undo_id, f"/rack/labels?code={lot.code}")


RACK = Page("/rack", rack, label="Rack & bags", short="Rack", icon="rack")
RACK_BAGS_PAGES = (
    Page("/rack/find", find),
    Page("/rack/out", out, ("POST",)),
    Page("/rack/undo", undo, ("POST",)),
)
