"""The live line: temperature with its band, what was read and expected, how long it pours."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.guide_pour import Guide
from pourwright.actions.oven_learned import LotLesson
from pourwright.actions.see_cup import CupView
from pourwright.base.wording import clock, percent
from pourwright.bench.clock import after
from pourwright.bench.hand import What
from pourwright.heat.history import timed
from pourwright.web.cup_chart import cup_chart
from pourwright.web.degrees import between_words, read_words
from pourwright.web.show import Settings, opened
from pourwright.web.template import rendered

_SAME_SHARE = 0.005


@dataclass(frozen=True, slots=True)
class Live:
    """What is known of the cup in hand, in words and as a picture; `what` says what `now` is."""

    what: str
    now: str
    read: str
    doubted: bool
    svg: str
    pourable_until: str | None
    pourable_words: str
    lesson: str


def live(guide: Guide, settings: Settings) -> Live | None:
    """The live line of the cup in hand; none where no cup is followed and nothing was learned."""
    lesson = lesson_words(guide.lesson)
    view = _in_hand(guide)
    if view is None:
        return Live("", "", "", False, "", None, "", lesson) if lesson else None
    answer = view.answer
    heats = guide.hand.what is What.OVEN
    band = answer.reads_c if heats else answer.estimates.mean_c
    now = f"{read_words(band.typical, settings)} ({between_words(band, settings)})"
    pourable = answer.pourable_s if guide.told.pour.cups[view.number].hot else None
    until = None
    if pourable is not None and pourable.typical > 0 and not heats:
        until = after(guide.now, round(pourable.typical))
    read, doubted = _read(view, settings)
    return Live(
        what="Reads after the stir" if heats else "Plastic now, mean",
        now=now,
        read=read,
        doubted=doubted,
        svg=_svg(view, settings),
        pourable_until=until,
        pourable_words=f"{clock(pourable.low)} to {clock(pourable.high)}" if pourable else "",
        lesson=lesson,
    )


def lesson_words(lesson: LotLesson | None) -> str:
    """What the next cup does differently, and why."""
    if lesson is None:
        return ""
    burst = clock(lesson.after_s)
    if abs(lesson.share) < _SAME_SHARE:
        return f"This oven took up as much as was believed: the first burst stays at {burst}."
    more = "more" if lesson.share > 0 else "less"
    return (
        f"The first burst is now {burst} instead of {clock(lesson.before_s)}: this oven took up "
        f"{percent(abs(lesson.share))} {more} than was believed."
    )


def _in_hand(guide: Guide) -> CupView | None:
    if guide.hand.cup in guide.cups:
        return guide.cups[guide.hand.cup]
    return next(iter(guide.cups.values()), None)


def _read(view: CupView, settings: Settings) -> tuple[str, bool]:
    """The newest reading beside what was expected of it."""
    if not view.answer.readings:
        return "", False
    it = view.answer.readings[-1]
    words = (
        f"{read_words(it.read_c, settings)} read, {read_words(it.expected_c.typical, settings)} "
        f"expected ({between_words(it.expected_c, settings)})"
    )
    return (f"{words}. {opened(it.why)}" if it.doubted else words), it.doubted


def _svg(view: CupView, settings: Settings) -> str:
    steps = timed(view.steps, view.fill.plastic_g)
    chart = cup_chart(view.answer, steps, settings.system)
    return rendered("bench/line.html", {"page": chart, "shell": _Shell(settings)})


@dataclass(frozen=True, slots=True)
class _Shell:
    """What the filters of the templates ask for."""

    settings: Settings
