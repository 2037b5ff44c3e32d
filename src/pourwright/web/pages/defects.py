"""The defect guide: what do you see, why may it be so, what do the numbers say, what cures it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from pourwright.actions.defect_case import DefectCase, lot_case, usual_case
from pourwright.actions.port import Bench
from pourwright.actions.see_defects import see_defect
from pourwright.base.errors import BadInput
from pourwright.plan.defect.defect import Defect
from pourwright.plan.defect.known import DEFECTS, defect_named
from pourwright.shop.mold import Mold
from pourwright.web.defect_view import FOR, DefectView, defect_view
from pourwright.web.page import Page, Show, Visit, number_in_address

_LOT, _MOLD = "lot-", "mold-"
_MOST_LOTS = 20
# A lot keeps what it was poured with, but not what its mold and tools were then.
_TODAY = "mold, injector, plastic and timed shots as their records stand today, not as they were"


@dataclass(frozen=True, slots=True)
class Whose:
    """A lot or a mold to pick."""

    value: str
    label: str
    picked: bool


@dataclass(frozen=True, slots=True)
class DefectsContext:
    """Every defect there is, and whose numbers to test with."""

    title: str
    defects: tuple[Defect, ...]
    lots: tuple[Whose, ...]
    molds: tuple[Whose, ...]
    query: str
    about: str
    lot: int


@dataclass(frozen=True, slots=True)
class DefectContext:
    """One defect, looked into."""

    title: str
    defect: Defect
    view: DefectView
    query: str
    about: str
    lot: int


def defects(visit: Visit) -> Show:
    """What do you see?"""
    with visit.world.reading() as bench:
        chosen = _chosen(visit)
        about = _about(bench, chosen)
        sheets, molds = bench.sheets.all()[:_MOST_LOTS], bench.records.all(Mold.key)
    context = DefectsContext(
        title="What do you see?",
        defects=DEFECTS,
        lots=tuple(_whose(f"{_LOT}{s.number}", f"{s.code}: {s.title}", chosen) for s in sheets),
        molds=tuple(_whose(f"{_MOLD}{m.id}", m.noun.name, chosen) for m in molds),
        query=_query(chosen),
        about=about,
        lot=_lot_number(chosen),
    )
    return Show("defect/list.html", context)


def one_defect(visit: Visit) -> Show:
    """Why it may be so, put to the test."""
    defect, chosen = defect_named(visit.part("key")), _chosen(visit)
    answers = _answers(visit, defect)
    with visit.world.reading() as bench:
        case = _case(bench, chosen)
        about = _about(bench, chosen)
        seen = see_defect(bench, case, defect, answers, now=visit.world.clock.now())
    context = DefectContext(
        title=defect.sees,
        defect=defect,
        view=defect_view(case, seen, answers, chosen, visit.settings),
        query=_query(chosen),
        about=about,
        lot=_lot_number(chosen),
    )
    return Show("defect/defect.html", context)


def _chosen(visit: Visit) -> str:
    return visit.request.query_params.get(FOR, "")


def _case(bench: Bench, chosen: str) -> DefectCase:
    """The lot or mold that was picked, with its numbers. Raises: BadInput, NotFound."""
    number = _lot_number(chosen)
    return lot_case(bench, number) if number else usual_case(bench, _mold_id(chosen))


def _lot_number(chosen: str) -> int:
    """The lot that was picked; 0 for a mold, or for none. Raises: BadInput."""
    if not chosen.startswith(_LOT):
        return 0
    return number_in_address(chosen.removeprefix(_LOT), FOR, "a lot")


def _mold_id(chosen: str) -> str:
    if chosen and not chosen.startswith(_MOLD):
        raise BadInput(FOR, chosen, "must name a lot or a mold")
    return chosen.removeprefix(_MOLD)


def _answers(visit: Visit, defect: Defect) -> Mapping[str, int]:
    """The picked answers by question. Raises: BadInput."""
    sent = visit.request.query_params
    return {
        ask.key: number_in_address(sent[ask.key], ask.key, "an answer")
        for ask in defect.asks
        if ask.key in sent
    }


def _whose(value: str, label: str, chosen: str) -> Whose:
    return Whose(value, label, value == chosen)


def _query(chosen: str) -> str:
    return f"?{FOR}={chosen}" if chosen else ""


def _about(bench: Bench, chosen: str) -> str:
    """Whose numbers they are, before anything is reckoned. Raises: BadInput, NotFound."""
    if number := _lot_number(chosen):
        code = bench.sheets.get(number).code
        return f"the numbers of lot {code}; {_TODAY}"
    molds = bench.records.all(Mold.key)
    wanted = _mold_id(chosen)
    if not wanted and not molds:
        return "typical values: there is no mold on this bench yet"
    mold = bench.records.get(Mold.key, wanted) if wanted else molds[0]
    return f"the usual values of this bench, with {mold.noun.name}; no lot was picked"


DEFECT_PAGES = (Page("/defects", defects), Page("/defects/{key}", one_defect))
