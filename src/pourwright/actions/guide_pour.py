"""Guide a pour: what the hands do next, with what physics says of cups and molds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.lot_told import lot_told
from pourwright.actions.oven_history import oven_cups, oven_subject
from pourwright.actions.oven_learned import LotLesson, lesson_of
from pourwright.actions.port import Bench, World
from pourwright.actions.pour_books import PourBooks, pour_books
from pourwright.actions.see_cup import CupQuestion, CupView, answered, cup_question
from pourwright.actions.told_pour import ToldPour, told_pour
from pourwright.base.errors import BadInput
from pourwright.bench.hand import Hand, Judged, Stage, next_hand, open_cups, shots_left
from pourwright.bench.pour import CupNow
from pourwright.heat.next_step import Next

# A cup too small to be followed is hot when whoever reads it says so, by the sheet's own table.
UNFOLLOWED = Judged(Next.HEAT, pourable_s=float("inf"))


@dataclass(frozen=True, slots=True)
class Guide:
    """A pour at one moment: what to do, the cups as judged, and what earlier cups of it taught.

    `books` is how the stock stands with what was counted; none before.
    """

    told: ToldPour
    now: str
    hand: Hand
    cups: Mapping[int, CupView]
    lesson: LotLesson | None
    books: PourBooks | None = None


def guide_pour(world: World, sheet: int) -> Guide:
    """The pour of a sheet as it stands; the store is free again before anything is reckoned.

    Raises: NotFound, Conflict for a sheet that cannot guide a pour.
    """
    now = world.clock.now()
    with world.bench() as bench:
        told = told_pour(bench, bench.sheets.get(sheet))
        asked = _questions(bench, told, now)
        cooked = oven_cups(bench, oven_subject(told.sheet)) if _one_is_over(told) else ()
        books = _books(bench, told)
    views = {it.number: answered(it) for it in asked}
    seen = dict.fromkeys(_hot_cups(told), UNFOLLOWED)
    seen |= {number: judged(view) for number, view in views.items()}
    hand = next_hand(told.setup, told.pour, now=now, judged=seen, due=told.due)
    tells = hand.stage in {Stage.WEIGH, Stage.HEAT}
    lesson = lesson_of(told.sheet, cooked) if tells else None
    return Guide(told, now, hand, views, lesson, books)


def judged(view: CupView) -> Judged:
    """The move of a cup, and how long it stays pourable, typically."""
    answer = view.answer
    do = Next.READ_AGAIN if answer.question and not view.settled else answer.do
    return Judged(do, answer.on_s, answer.pourable_s.typical)


def _books(bench: Bench, told: ToldPour) -> PourBooks | None:
    entry = lot_told(told.sheet.code, told.happenings).entry
    return None if entry is None else pour_books(bench, told.sheet, entry)


def _questions(bench: Bench, told: ToldPour, now: str) -> tuple[CupQuestion, ...]:
    """The cups that are heated or poured now; one too small to be followed is left out."""
    found = []
    for number in _hot_cups(told):
        cup = told.pour.cups[number]
        moment = cup.burst.began if cup.burst else now
        try:
            found.append(cup_question(bench, told.sheet.number, number, now=moment))
        except BadInput:
            continue
    return tuple(found)


def _hot_cups(told: ToldPour) -> tuple[int, ...]:
    numbers = open_cups(told.setup, told.pour)
    return tuple(n for n in numbers if _heats(told, told.pour.cups[n]))


def _heats(told: ToldPour, cup: CupNow) -> bool:
    task = told.setup.cup(cup.number)
    if task is None or not shots_left(task, cup):
        return False
    return cup.by_hand or all(p.key in cup.weighed for p in task.weigh)


def _one_is_over(told: ToldPour) -> bool:
    return any(c.over and not c.discarded for c in told.pour.cups.values())
