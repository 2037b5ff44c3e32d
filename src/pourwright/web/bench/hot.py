"""Screens of a heating cup: the next burst, the oven running, stir and read, hot enough."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

from pourwright.actions.see_cup import CupView
from pourwright.base.wording import clock
from pourwright.bench import tap_kind as kind
from pourwright.bench.cup_story import MEANT, POURED
from pourwright.bench.tap_body import READ, READ_C
from pourwright.heat.history import other_unit_c
from pourwright.heat.next_step import REST_S, Next
from pourwright.web.bench.degrees_entry import degrees_entry
from pourwright.web.bench.moment import Moment
from pourwright.web.bench.screen import Pad, Phase, Screen
from pourwright.web.degrees import between_words, read_words
from pourwright.web.unit_question import Ask, unit_question

_DOES_NOT_FIT = "That reading does not fit what was done to the cup: stir, and read once more."
_SAME_K = 0.6
NEVER_LEAVE = "Never leave a heating cup"
_SMOKE = "Smoke, sharp smell, brown streaks: switch off, door stays shut, get out of the fumes."


def cook(it: Moment) -> Screen:
    """What the thermometer asks for next."""
    view = it.view
    if view is None:
        return _planned(it)
    ask = None if view.settled else _unit_asked(it, view)
    count = len(view.story.entries)
    if ask is not None:
        return it.screen(_asked(it, view, ask), count=count)
    match view.answer.do:
        case Next.HEAT:
            return it.screen(_heat(it, view), count=count)
        case Next.STOP:
            return it.screen(_stop(it, view), count=count)
        case Next.WAIT:
            held = Phase("Let it stand", for_s=view.answer.wait_s, words=view.answer.advice[:1],
                         say="Let it stand")  # fmt: skip
            reads = reading(it, view, alarm=True)
            return it.screen(held, reads, count=count, began=it.now)
        case _:
            return it.screen(reading(it, view), count=count)


def heat_for(it: Moment, seconds: float, words: tuple[str, ...]) -> Phase:
    """Start the oven for so long."""
    body = {"cup": it.hand.cup, "for_s": seconds}
    return Phase(
        "Heat",
        big=clock(seconds),
        unit="min",
        words=words,
        say=f"Heat {_spoken(seconds)}",
        pads=(Pad("Oven started", kind.BEGUN, body, main=True),),
        caution=NEVER_LEAVE,
    )


def oven(it: Moment) -> Screen:
    """The oven runs, the cup rests, then it is stirred and read."""
    burst = it.cup.burst
    if burst is None:
        raise ValueError("no oven runs on this cup")
    on, rest, read = oven_phases(it, burst.for_s)
    story = it.told.pour.stories.get(it.hand.cup)
    count = 2 * len(story.entries) if story else 0
    if burst.ended:
        rest = dataclasses.replace(rest, alarm=False)
        return it.screen(rest, read, count=count + 1, began=burst.ended)
    return it.screen(on, rest, read, count=count, began=burst.began)


def oven_phases(it: Moment, seconds: float) -> tuple[Phase, Phase, Phase]:
    """The oven on for so long, a rest, then stir and read."""
    on = Phase(
        "Oven on",
        for_s=seconds,
        words=("Stay with it. Door shut until it stops.", _SMOKE),
        pads=(Pad("Stopped early", kind.ENDED, {"cup": it.hand.cup}),),
        caution=NEVER_LEAVE,
    )
    words = ("Take it out with gloves; let it settle.",)
    rest = Phase("Rest", for_s=REST_S, words=words, say="Time. Take it out, let it rest",
                 alarm=True)  # fmt: skip
    return on, rest, reading(it, it.view, alarm=True)


def reading(it: Moment, view: CupView | None, *, alarm: bool = False) -> Phase:
    """Stir from the bottom up, and read while stirring."""
    expected: tuple[str, ...] = ()
    if view is not None:
        about = view.answer.reads_c
        typical, between = read_words(about.typical, it.settings), between_words(about, it.settings)
        expected = (f"Expected {typical} ({between}).",)
    again = view is not None and view.answer.do is Next.READ_AGAIN
    body: dict[str, object] = {"cup": it.hand.cup}
    if view is not None:
        body["after"] = it.cup.burst.id if it.cup.burst else view.story.newest
        body["instrument"] = view.instrument.value
    why = (_DOES_NOT_FIT,) if again else ()
    return Phase(
        "Stir and read",
        words=(
            *why,
            "Stir from the bottom up, a quarter of a minute; read while you stir.",
            *expected,
        ),
        say="Stir, and read",
        alarm=alarm,
        entries=(degrees_entry("read", "It reads", READ_C, it.settings, required=True),),
        pads=(Pad("Keep reading", READ, body, main=True, entry=True), *_never_ran(it)),
    )


def _never_ran(it: Moment) -> tuple[Pad, ...]:
    """The only way back from a burst: its heat may not be forgotten by an undo."""
    burst = it.cup.burst
    if burst is None:
        return ()
    return (Pad("The oven never ran", kind.TAKEN_BACK, {"event": burst.id}, hold=True),)


def hot(it: Moment) -> Screen:
    """Hot enough: off to tint or pour."""
    tints = bool(it.task.tint)
    words = ["Hot and fused. Take it out of the draft."]
    if it.view is not None:
        mean = it.view.answer.estimates.mean_c
        words.insert(
            0, f"Mean {read_words(mean.typical, it.settings)} ({between_words(mean, it.settings)})."
        )
    pads = (Pad("Tint it" if tints else "Pour it", kind.HOT, {"cup": it.hand.cup}, main=True),)
    phase = Phase("Hot enough", words=tuple(words), say="Hot enough", pads=pads)
    return it.screen(phase)


def _heat(it: Moment, view: CupView) -> Phase:
    found = _burst(it, view)
    if not it.cup.shots:
        return found
    done = Pad("Cup is done", POURED, {"cup": it.hand.cup}, hold=True)
    return dataclasses.replace(found, pads=(*found.pads, done))


def _burst(it: Moment, view: CupView) -> Phase:
    answer = view.answer
    expected = (
        f"Then it should read {read_words(answer.reads_c.typical, it.settings)} "
        f"({between_words(answer.reads_c, it.settings)}) while you stir."
    )
    return heat_for(it, answer.on_s, (expected, *answer.advice[2:3]))


def _planned(it: Moment) -> Screen:
    """A cup that is not followed, or not judged yet: the sheet's own first round, and no other."""
    rounds = heat_plan(it)["rounds"]
    if it.cup.by_hand or not rounds:
        return it.screen(_by_paper(it))
    words = ("The sheet's first round; what it reads then says the next.", _SMOKE)
    return it.screen(heat_for(it, float(rounds[0]["on_s"]), words))


def _by_paper(it: Moment) -> Phase:
    """A cup that cannot be followed is heated by the printed table, whose limits hold for it."""
    cup = {"cup": it.hand.cup}
    pads = (
        Pad("It is hot", kind.HOT, cup, main=True, hold=True),
        Pad("Give this cup up", kind.DISCARDED, cup, hold=True),
    )
    words = (
        "This cup cannot be followed: heat it by the printed sheet's table.",
        "Is its weight right? Undo steps back to the scale.",
    )
    return Phase("By the paper", words=words, say="Heat it by the paper", pads=pads,
                 caution=NEVER_LEAVE)  # fmt: skip


def heat_plan(it: Moment) -> Mapping[str, Any]:
    """What the frozen sheet says of heating this cup."""
    plans = it.told.sheet.plan["heat"]
    found: Mapping[str, Any] = next((h for h in plans if it.hand.cup in h["cups"]), plans[0])
    return found


def _stop(it: Moment, view: CupView) -> Phase:
    read = reading(it, view)
    return Phase(
        "Stop heating",
        words=(*view.answer.advice[:1], "Let it stand, door shut; then stir and read again."),
        say="Stop heating",
        entries=read.entries,
        pads=(
            *read.pads,
            Pad("Give this cup up", kind.DISCARDED, {"cup": it.hand.cup}, hold=True),
        ),
        caution="At the hot limit",
    )


def _unit_asked(it: Moment, view: CupView) -> Ask | None:
    """The question of the unit, where what was typed can have slipped that way."""
    ask = unit_question(view.answer, it.settings)
    newest = next((h for h in it.told.happenings if h.id == view.story.newest), None)
    typed = newest.body.get("typed") if newest else None
    if ask is None or not typed:
        return ask
    as_f, as_c = other_unit_c(ask.same_c)
    slipped = as_c if typed == "f" else as_f
    return ask if abs(ask.other_c - slipped) < _SAME_K else None


def _asked(it: Moment, view: CupView, ask: Ask) -> Phase:
    """Neither answer is the main pad; the colder one, which would have it heated on, is held."""
    body = {"cup": it.hand.cup, "event": view.story.newest}
    answers = ((f"It was {ask.other}", ask.other_c), (f"It was {ask.same}", ask.same_c))
    hotter = max(ask.other_c, ask.same_c)
    pads = tuple(
        Pad(words, MEANT, body | {"read_c": read_c}, hold=read_c < hotter)
        for words, read_c in answers
    )
    return Phase("Which unit?", words=(ask.words,), say="Which unit was it?", pads=pads)


def _spoken(seconds: float) -> str:
    minutes, rest = divmod(round(seconds), 60)
    words = f"{minutes} minute{'s' if minutes != 1 else ''}" if minutes else ""
    return f"{words} {rest} seconds".strip() if rest else words
