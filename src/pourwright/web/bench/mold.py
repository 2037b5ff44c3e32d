"""Screens of molds: warm the injector, fill, wait, open, dry."""

from __future__ import annotations

from pourwright.actions.told_pour import Firm
from pourwright.base.band import Band
from pourwright.base.wording import clock
from pourwright.bench import tap_kind as kind
from pourwright.bench.cup_story import POURED
from pourwright.bench.hand import free_molds, shots_left
from pourwright.web.bench.moment import Moment, about_cup
from pourwright.web.bench.screen import Clock, Pad, Phase, Screen


def prime(it: Moment) -> Screen:
    """Warm the injector by drawing hot plastic and giving it back."""
    words = (
        "Draw hot plastic, give it back to the cup slowly, nose under the surface.",
        "A cold barrel freezes the load. Barrel and plunger bone dry: water flashes to steam.",
    )
    pad = Pad("Warmed", kind.PRIMED, {"cup": it.hand.cup}, main=True)
    return it.screen(Phase("Warm the injector", words=words, say="Warm the injector", pads=(pad,)))


def fill(it: Moment, firm_s: float) -> Screen:
    """Fill one mold; its clock starts at the tap."""
    mold, name = it.hand.mold, it.mold_name(it.hand.mold)
    body = {"mold": mold, "cups": list(it.hand.cups)}
    tasks = {c.number: c for c in it.told.setup.cups}
    left = [
        f"{_shots(shots_left(tasks[n], it.told.pour.cups[n]))} left in "
        f"{about_cup(it.told, n).lower()}"
        for n in it.hand.cups
    ]
    words = [
        *_window(it),
        "Push until the sprue stays full; hold until it skins.",
        "; ".join(left),
        f"{name}.",
    ]
    clock_of = Clock(f"mold-{mold}", f"Mold {mold}: {name}", round(firm_s), "Open it")
    pads = (
        Pad("Mold full", kind.FILLED, body, main=True, starts=clock_of),
        *(Pad(f"Cup {n} is empty", POURED, {"cup": n}, hold=True) for n in it.hand.cups[:2]),
    )
    phase = Phase(
        f"Fill mold {mold}",
        words=tuple(w for w in words if w),
        say=f"Fill mold {mold}",
        pads=pads,
        caution="Clamped? Dry?",
    )
    number = sum(u.mold == mold for u in it.told.pour.uses)
    return it.screen(phase, count=number)


def opens(it: Moment) -> Screen:
    """A mold whose bait should be firm."""
    return it.screen(_opening(it, it.hand.mold), count=_count(it, it.hand.mold))


def wait(it: Moment) -> Screen:
    """All molds are full or the cup is done: wait for the next to be firm, then open it."""
    firm = _firm(it, it.hand.mold)
    wet = firm.mold in it.told.pour.wet
    first = Phase(
        f"Mold {firm.mold} cools",
        for_s=firm.wait_s,
        words=(_firm_words(firm), "Too early dents the fat end; later does no harm."),
        say="Wait for the mold",
        pads=(
            Pad("Open it now", kind.OPENED, {"mold": firm.mold}, ends=f"mold-{firm.mold}",
                hold=True),
            Pad("Cooled in water", kind.DIPPED, {"mold": firm.mold}),
        ),
    )  # fmt: skip
    if wet:
        first = Phase(first.name, for_s=first.for_s, words=first.words, say=first.say,
                      pads=first.pads[:1], caution="Wet: dry before the next shot")  # fmt: skip
    count = 2 * _count(it, firm.mold) + wet
    return it.screen(
        first, _opening(it, firm.mold), count=count, began=firm.filled
    )  # fmt: skip


def dry(it: Moment) -> Screen:
    """A mold that was cooled in water."""
    words = (
        f"{it.mold_name(it.hand.mold)}.",
        "Blow out vents, sprue and pin holes, wipe it, warm it dry.",
        "Water flashes to steam in hot plastic and throws it at you.",
    )
    pad = Pad("It is dry", kind.DRIED, {"mold": it.hand.mold}, main=True, hold=True)
    phase = Phase(
        f"Dry mold {it.hand.mold}", words=words, say="Dry the mold", pads=(pad,), caution="Wet"
    )
    return it.screen(phase, count=sum(u.mold == it.hand.mold for u in it.told.pour.uses))


def empty(it: Moment) -> Screen:
    """The cup gave its shots."""
    cup = it.hand.cup
    paired = bool(it.hand.cups)
    words = (
        "It gave the shots of the sheet. Something left?"
        if paired
        else "Another layer has no cup left, and a bait wants all its layers.",
        "Pour what is left into the remelt pot's mold, clean and dry.",
    )
    pads = (
        Pad("Cup is empty", POURED, {"cup": cup}, main=True),
        *([Pad("One more shot", kind.MORE, {"cups": list(it.hand.cups)})] if paired else []),
    )
    phase = Phase(f"{about_cup(it.told, cup)} done", words=words, say="Cup done", pads=pads)
    return it.screen(phase, count=it.cup.more)


def too_little(it: Moment) -> Screen:
    """What is left in a cup will not stay hot: it cools faster than it is warmed."""
    cup = it.hand.cup
    words = (
        "What is left cools faster than it can be warmed, and its hot spot scorches.",
        "Pour it into the remelt pot's mold, clean and dry.",
    )
    dry = [m for m in free_molds(it.told.setup, it.told.pour) if m not in it.told.pour.wet]
    fills = [
        Pad(f"Filled mold {m} all the same", kind.FILLED, {"mold": m, "cups": list(it.hand.cups)})
        for m in dry[:1]
    ]
    pads = (Pad("Cup is done", POURED, {"cup": cup}, main=True), *fills)
    phase = Phase(f"Too little left in {about_cup(it.told, cup).lower()}", words=words,
                  say="Too little left", pads=pads)  # fmt: skip
    return it.screen(phase, count=it.cup.rounds)


def _opening(it: Moment, mold: int) -> Phase:
    firm = _firm(it, mold)
    pads = (
        Pad("Out, closed again", kind.OPENED, {"mold": mold}, main=True, ends=f"mold-{mold}"),
        Pad("Still soft", kind.SOFT, {"mold": mold}),
        *(
            []
            if mold in it.told.pour.wet
            else [Pad("Cooled in water", kind.DIPPED, {"mold": mold})]
        ),
    )
    words = (
        "Feel the fat end first. Lay baits flat and straight; cut no hot sprue.",
        _firm_words(firm),
        f"{it.mold_name(mold)}.",
    )
    return Phase(f"Open mold {mold}", words=words, say=f"Open mold {mold}", alarm=True,
                 pads=pads)  # fmt: skip


def _count(it: Moment, mold: int) -> int:
    """Tells apart the shots of a mold, and how often each was found soft."""
    return sum(1 + len(u.soft_at) for u in it.told.pour.uses if u.mold == mold)


def _shots(count: int) -> str:
    return f"{count} shot" if count == 1 else f"{count} shots"


def _window(it: Moment) -> list[str]:
    """Within what: how long a load stays shootable, from the sheet."""
    for figure in it.told.sheet.plan["figures"]:
        if figure["key"] == "injector_window_s":
            value = figure["value"]
            band = Band(value["low"], value["typical"], value["high"])
            between = f"{clock(band.low)} to {clock(band.high)}"
            return [f"Shoot within {clock(band.typical)} of drawing ({between}): it freezes."]
    return []


def _firm(it: Moment, mold: int) -> Firm:
    return next(f for f in it.told.firm if f.mold == mold)


def _firm_words(firm: Firm) -> str:
    band = firm.after_s
    words = f"Firm after {clock(band.typical)} ({clock(band.low)} to {clock(band.high)})"
    if firm.longer > 1:
        return f"{words}: longer than reckoned, since a bait of this pour was still soft."
    return f"{words}; the clock rings when four in five are."
