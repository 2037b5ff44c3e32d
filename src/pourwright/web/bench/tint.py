"""Screens that tint a hot cup: drops counted, spoons, a drip on the card."""

from __future__ import annotations

from pourwright.bench import tap_kind as kind
from pourwright.bench.pour import Dripped
from pourwright.web.bench.moment import Moment
from pourwright.web.bench.screen import Entry, Pad, Phase, Screen

_TEN = 10


def tint(it: Moment) -> Screen:
    """One colorant, flake or powder."""
    part, body = it.part, {"cup": it.hand.cup, "part": it.hand.item}
    note = (f"{part.note[0].upper()}{part.note[1:]}.",) if part.note else ()
    if part.drops:
        return _drops(it, part.drops, note)
    done = Pad("All in", kind.TINTED, body, main=True)
    amount = part.spoons or f"{part.scale_g:g} g"
    spoons = (f"Level: {amount}; {part.scale_g:g} g on the scale.",) if part.spoons else ()
    phase = Phase(
        part.name,
        big=amount if not part.spoons else f"{part.scale_g:g}",
        unit="" if not part.spoons else "g",
        words=(*spoons, *note, "Stir it in slowly, from the bottom up."),
        say=f"{part.name}, {amount}",
        pads=(done,),
    )
    return it.screen(phase)


def _drops(it: Moment, wanted: int, note: tuple[str, ...]) -> Screen:
    """Drops, one by one, in tens, or by what the bottle lost."""
    part, body = it.part, {"cup": it.hand.cup, "part": it.hand.item}
    told = it.cup.tint.get(part.key, Dripped())
    in_already = part.dripped(told.drops, told.grams)
    left = part.drops_left(told.drops, told.grams)
    one = Pad("1 drop", kind.DRIPPED, body | {"drops": 1}, main=left > 0)
    ten = Pad("10 drops", kind.DRIPPED, body | {"drops": _TEN})
    done = Pad("That is all", kind.TINTED, body, main=left <= 0)
    if told.grams and not told.drops:
        return it.screen(_by_weight(it, wanted), count=round(told.grams * 1000))
    pads = (one, ten, done) if left >= _TEN else (one, done) if left > 0 else (done, one)
    entries: tuple[Entry, ...] = ()
    if not in_already:
        entries = (Entry("lost_g", "Or: the bottle lost", 0.001, 100, unit="g", step=0.01,
                         required=False),)  # fmt: skip
        weighed = Pad("By weight", kind.DRIPPED, body, entry=True)
        pads = (one, ten, weighed) if left >= _TEN else (one, weighed)
    words = (
        f"{in_already} of {wanted} drops in"
        + (f", {-left} too many: it will be darker." if left < 0 else "."),
        f"They weigh {part.scale_g:g} g together. Hold the bottle upright.",
        *note,
    )
    phase = Phase(
        part.name,
        big=f"{max(left, 0)}",
        unit="drops left" if left != 1 else "drop left",
        words=words,
        say=f"{part.name}, {wanted} drops" if not in_already else "",
        entries=entries,
        pads=pads,
    )
    return it.screen(phase, count=in_already)


def _by_weight(it: Moment, wanted: int) -> Phase:
    part, body = it.part, {"cup": it.hand.cup, "part": it.hand.item}
    told = it.cup.tint[part.key]
    left_g = part.grams - told.grams
    entry = Entry("lost_g", "The bottle lost more", 0.001, 100, unit="g", step=0.01,
                  required=False)  # fmt: skip
    words = (
        f"{told.grams:.2f} g of {part.grams:.2f} g in, as {wanted} drops would be."
        + (" That is enough." if left_g <= 0 else ""),
    )
    pads = (Pad("That is all", kind.TINTED, body, main=True),
            Pad("Add by weight", kind.DRIPPED, body, entry=True))  # fmt: skip
    return Phase(part.name, big=f"{max(left_g, 0):.2f}", unit="g left", words=words,
                 entries=(entry,), pads=pads)  # fmt: skip


def card(it: Moment) -> Screen:
    """A drip on the card beside the last one."""
    body = {"cup": it.hand.cup, "part": "card"}
    pads = (Pad("Looks right", kind.TINTED, body, main=True),)
    words = (
        "One drip on the white card and one on the dark, let them set, hold them to the light.",
        "Too pale: a drop more, and note it on the look. Too dark cannot be taken out.",
    )
    return it.screen(Phase("Drip on the card", words=words, say="Drip on the card", pads=pads))
