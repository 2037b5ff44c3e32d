"""One cup on its page: the next move in big words, its chart, its readings, its form."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.see_cup import CupView
from pourwright.base.wording import clock
from pourwright.heat.history import timed
from pourwright.heat.next_burst import NextBurstAnswer
from pourwright.heat.next_step import Next
from pourwright.web.cup_chart import CupChart, clocks, cup_chart
from pourwright.web.cup_links import CupLinks
from pourwright.web.degrees import between_words, read_words
from pourwright.web.form import Typed
from pourwright.web.round_form import RoundForm, fresh_round, round_form
from pourwright.web.show import Settings, opened
from pourwright.web.unit_question import Ask, unit_question

FAINT_TRUST = 0.6


@dataclass(frozen=True, slots=True)
class ReadRow:
    """A reading beside what is expected of it."""

    number: int
    at: str
    read: str
    expected: str
    verdict: str
    doubted: bool


@dataclass(frozen=True, slots=True)
class CupContext:
    """Everything the page of a cup shows."""

    title: str
    address: str
    sheet: int
    sheet_title: str
    code: str
    number: int
    cups: CupLinks
    about: str
    move: str
    then: str
    do: str
    on_s: float
    answer: NextBurstAnswer
    chart: CupChart
    readings: tuple[ReadRow, ...]
    ask: Ask | None
    kept: str
    round: RoundForm
    newest: str
    clock_key: str
    poured: bool
    learned: str
    refused: str


def cup_context(
    view: CupView, cups: CupLinks, settings: Settings, *, id: str, typed: Typed | None = None,
    problems: dict[str, str] | None = None, refused: str = "", late: bool = False,
) -> CupContext:  # fmt: skip
    """The page of a cup; `typed` is what a refused form held."""
    answer, sheet, number = view.answer, view.sheet, view.number
    fresh = fresh_round(view, settings, late=late) if typed is None else typed
    steps = timed(view.steps, view.fill.plastic_g)
    ask = None if view.settled else unit_question(answer, settings)
    return CupContext(
        title=f"Cup {number}: {view.layer}",
        address=f"/sheets/{sheet.number}/cups/{number}",
        sheet=sheet.number,
        sheet_title=sheet.title,
        code=sheet.code,
        number=number,
        cups=cups,
        about=_about(view),
        move=_move(view, ask),
        then="" if view.story.poured or ask else _then(answer, settings),
        do="poured" if view.story.poured else answer.do.value,
        on_s=answer.on_s,
        answer=answer,
        chart=cup_chart(answer, steps, settings.system),
        readings=_rows(answer, clocks(steps), settings),
        ask=ask,
        kept=_kept(view, settings),
        round=round_form(fresh, problems or {}, settings, id=id, heating=answer.do is Next.HEAT),
        newest=view.story.newest,
        clock_key=f"cup-{sheet.code}-{number}-{view.story.newest}",
        poured=bool(view.story.poured),
        learned=_learned(view.learned_from),
        refused=refused,
    )


def _move(view: CupView, ask: Ask | None) -> str:
    """The move, as large as it goes."""
    answer = view.answer
    if view.story.poured:
        return "Poured"
    if ask is not None:
        return "Which unit?"
    if answer.do is Next.HEAT:
        return f"Heat {clock(answer.on_s)}"
    if answer.do is Next.WAIT:
        return f"Wait {clock(answer.wait_s)}"
    return "Stop heating" if answer.do is Next.STOP else opened(answer.do.value)


def _then(answer: NextBurstAnswer, settings: Settings) -> str:
    reads = answer.reads_c
    about = f"{read_words(reads.typical, settings)} ({between_words(reads, settings)})"
    if answer.do is Next.HEAT:
        return f"Then it should read {about} while you stir."
    if answer.do in {Next.WAIT, Next.STIR_AND_READ, Next.READ_ONCE_MORE}:
        return f"It should read {about} while you stir."
    if answer.do is Next.READ_AGAIN:
        return "Do not heat on a reading that does not fit."
    return ""


def _about(view: CupView) -> str:
    left, total = view.answer.left_g, view.fill.plastic_g
    return f"{left:.0f} g in the cup" + (f" of {total:.0f} g" if abs(left - total) > 1 else "")


def _learned(cups: int) -> str:
    if not cups:
        return "No cup was followed in this oven yet: the first burst rests on label and tests."
    return f"Rests on {cups} earlier {'cup' if cups == 1 else 'cups'} of this oven."


def _rows(
    answer: NextBurstAnswer, times: tuple[float, ...], settings: Settings
) -> tuple[ReadRow, ...]:
    rows = []
    for n, (at, it) in enumerate(zip(times, answer.readings, strict=True), start=1):
        verdict = it.why or ("fits" if it.trust >= FAINT_TRUST else "a little off: counts less")
        rows.append(
            ReadRow(
                n, clock(at), read_words(it.read_c, settings),
                between_words(it.expected_c, settings), verdict, it.doubted,
            )
        )  # fmt: skip
    return tuple(reversed(rows))


def _kept(view: CupView, settings: Settings) -> str:
    newest = view.answer.readings[-1] if view.answer.readings else None
    if newest is None or not view.settled or view.answer.do is not Next.READ_AGAIN:
        return ""
    return (
        f"Kept as {read_words(newest.read_c, settings)}. It still does not fit what was done: "
        "stir and read again. Two readings that agree weigh much more."
    )
