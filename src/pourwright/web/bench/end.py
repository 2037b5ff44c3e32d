"""Screens after the pour: count, weigh, finish, hang, take off the rack."""

from __future__ import annotations

from pourwright.bench import tap_kind as kind
from pourwright.bench.tap_body import COUNT_CLOSED, CameOut, Finish
from pourwright.web.bench.moment import Moment
from pourwright.web.bench.screen import Entry, Pad, Phase, Screen

_TALLIES = {
    CameOut.GOOD: ("Good", "As they came out, nothing to trim."),
    CameOut.TRIMMED: ("Good once trimmed", "Thin flash that scissors take off."),
    CameOut.FLASH: ("Flash", "Too much of it to trim: clamp harder next time."),
    CameOut.SHORT: ("Short", "Tail or claw not filled."),
    CameOut.DENT: ("Dent", "Sunk at the fat end: opened or let go too early."),
    CameOut.BUBBLE: ("Bubble", "Holes or foam."),
    CameOut.TORN: ("Torn", "On the way out of the mold."),
    CameOut.OTHER: ("Other rejects", "Wrong color, dirt, anything else."),
    CameOut.WARMUP: ("From warm-up shots", "Kept apart: the first shots into cold molds."),
}
TALLY_NAMES = {came_out.value: name for came_out, (name, _) in _TALLIES.items()}
_FINISHES = {
    Finish.TRIM: ("Trim", "Cut sprue and flash; scraps, dry, to the remelt pot."),
    Finish.EYES: ("Eyes", "Where the bait has them. Glue by its data sheet, with air."),
    Finish.DIP: ("Tail dip", "Where the look has it. Dip by its data sheet, away from flames."),
}
_HANG_H, _SHORT_H, _LONG_H = 24, 12, 48


def tally(it: Moment) -> Screen:
    """How many came out so."""
    name, words = _TALLIES[CameOut(it.hand.item)]
    pour = it.told.pour
    shots = len(pour.uses)
    entry = Entry("n", name, 0, 100_000, value="0", adds=(1, 10))
    pads = (Pad("Next", kind.TALLIED, {"came_out": it.hand.item}, main=True, entry=True),)
    so_far = f"{pour.baits} counted; {shots} shots gave {it.told.setup.most_baits(shots)} at most."
    return it.screen(Phase(name, words=(words, so_far), say=f"Count: {name}", entries=(entry,),
                           pads=pads))  # fmt: skip


def five(it: Moment) -> Screen:
    """Five good baits on the scale."""
    entry = Entry("five_g", "Five weigh", 0.1, 3000, unit="g", step=0.1, required=False)
    pads = (
        Pad("Next", kind.WEIGHED_FIVE, main=True, entry=True),
        Pad("Not weighed", kind.WEIGHED_FIVE),
    )
    words = ("Five good ones together, cold and dry.", "The next sheet starts from their weight.")
    return it.screen(Phase("Weigh five", words=words, say="Weigh five", entries=(entry,),
                           pads=pads))  # fmt: skip


def back(it: Moment) -> Screen:
    """What goes back to the pot."""
    entries = (
        Entry("remelt_g", "Rejects and leftover", 0, 50_000, unit="g", step=1, required=False),
        Entry("sprue_g", "Sprue", 0, 50_000, unit="g", step=1, required=False),
    )
    pads = (
        Pad("Next", kind.KEPT_BACK, main=True, entry=True),
        Pad("Not weighed", kind.KEPT_BACK),
    )
    words = ("Only dry plastic: water flashes to steam. Yellowed plastic is thrown away.",)
    return it.screen(Phase("Back to the pot", words=words, say="Weigh the remelt",
                           entries=entries, pads=pads))  # fmt: skip


def counted(it: Moment) -> Screen:
    """Close the count: it becomes the entry of the lot."""
    pour = it.told.pour
    words = (f"{pour.good} good, {pour.rejected} rejected.", "Undo steps back through the counts.")
    pads = (Pad("Keep the count", COUNT_CLOSED, main=True),)
    return it.screen(Phase("Counted", big=str(pour.good), unit="good", words=words, say="Keep it",
                           pads=pads))  # fmt: skip


def finish(it: Moment) -> Screen:
    """Trim, eyes, dip."""
    name, words = _FINISHES[Finish(it.hand.item)]
    pads = (
        Pad("Done", kind.FINISHED, {"what": it.hand.item}, main=True),
        Pad("Not needed", kind.FINISHED, {"what": it.hand.item}),
    )
    return it.screen(Phase(name, words=(words,), say=name, pads=pads))


def hang(it: Moment) -> Screen:
    """Where they hang, and how long."""
    pads = (
        Pad(f"Hung for {_HANG_H} h", kind.HUNG, {"place": "rack", "for_h": _HANG_H}, main=True),
        Pad(f"{_SHORT_H} h", kind.HUNG, {"place": "rack", "for_h": _SHORT_H}),
        Pad(f"{_LONG_H} h", kind.HUNG, {"place": "rack", "for_h": _LONG_H}),
    )
    words = (
        "Straight and free, nothing touching; colors that bleed apart from the rest.",
        "A day on the rack is common practice; plastic remembers the shape it cures in.",
    )
    return it.screen(Phase("Hang them", words=words, say="Hang them", pads=pads))


def rack(it: Moment) -> Screen:
    """They hang; the pour is over for today."""
    hung = it.told.pour.hung
    place = hung.place if hung else "rack"
    words = (f"On the {place} until the time is up.", "The lot is in the batch book.")
    lot = f"/lots/{it.told.sheet.number}"
    pads = (Pad("See the lot", main=True, link=lot), Pad("Taken off", kind.TAKEN_OFF, hold=True))
    return it.screen(Phase("Hanging", words=words, pads=pads))


def done(it: Moment) -> Screen:
    """Off the rack."""
    pads = (Pad("See the lot", main=True, link=f"/lots/{it.told.sheet.number}"),)
    return it.screen(Phase("Done", words=("Off the rack, ready for bags.",), pads=pads))


def take_up(it: Moment) -> Screen:
    """The pour was put away, perhaps a day ago."""
    words = (
        "Put away. What was weighed, read and filled is kept.",
        "Cold plastic in a cup counts as heated once: it is reheated, not fresh.",
    )
    pads = (Pad("Take it up again", kind.TAKEN_UP, main=True),)
    count = int(it.told.pour.away_s)
    return it.screen(Phase("Put away", words=words, say="Put away", pads=pads), count=count)
