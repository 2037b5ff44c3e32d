"""What is known of one lot, or of the usual push, when a defect is looked into."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from pourwright.actions.cup_fill import flash_point_c, target_c
from pourwright.actions.enter_lot import lot_view
from pourwright.actions.heat_budget import BudgetEntry, Hold, budget_of
from pourwright.actions.mold_case import MoldEntry, first_entry, mold_case
from pourwright.actions.mold_question import PushCase, push_case
from pourwright.actions.oven_history import stories
from pourwright.actions.plan_fill import cooler_k
from pourwright.actions.port import Bench
from pourwright.actions.shape_of import body_of
from pourwright.actions.time_shot import believed
from pourwright.base.band import Band
from pourwright.base.errors import NotFound, PourwrightError
from pourwright.base.record import from_json
from pourwright.bench.cup_story import CupStory
from pourwright.body.body_input import BodyInput
from pourwright.fill.push import Push
from pourwright.forecast.request import BatchRequest
from pourwright.heat.history import Did, Step
from pourwright.matter.remelt import HEAT_DOSE
from pourwright.plan.defect.room import Room
from pourwright.shop.lot import LotEntry
from pourwright.shop.mold import Mold
from pourwright.shop.sheet import Sheet

# Below this a cup uses next to nothing of its heat budget; estimate.
_HOT_C, _LEAST_HOLD_MIN = 120.0, 0.05
# A reading outside of this was not that of plastic on its way into a mold; estimates.
_COLDEST_C, _HOTTEST_C = 140.0, 220.0
_SECONDS_PER_MIN = 60.0
_USUAL, _ONE_HEAT = "a usual one", "one usual heat stands in"


@dataclass(frozen=True, slots=True)
class Poured:
    """A lot: its sheet, what was counted, what it was planned from, and its cups."""

    sheet: Sheet
    entry: LotEntry | None
    request: BatchRequest | None
    cups: Mapping[int, CupStory]


@dataclass(frozen=True, slots=True, eq=False, kw_only=True)
class DefectCase:
    """The numbers that causes are tested with; `lot` is none for the bench's usual ones.

    `melt_c` is that of the stirred cup and `melt_from` says where it comes from; `push` is none
    where no mold is known, and `missing` then says why.
    """

    push: PushCase | None
    melt_c: float
    melt_from: str
    flash_point_c: float | None
    budget: BudgetEntry
    budget_from: str
    lot: Poured | None = None
    missing: str = ""
    body: BodyInput | None = None
    told: Mapping[str, float] = field(default_factory=dict)

    @property
    def dose_share(self) -> Band:
        """Share of the heat budget that the plastic has used."""
        return budget_of(self.budget).dose_share

    @property
    def shot_c(self) -> float:
        """The plastic as the push begins; that of the cup where no mold is known."""
        return self.melt_c if self.push is None else self.push.entry.melt_c

    def room(self, *, yellowed: bool) -> Room:
        """How much hotter it may be made."""
        return Room(self.melt_c, self.flash_point_c, self.dose_share, yellowed)


def usual_case(bench: Bench, mold_id: str = "") -> DefectCase:
    """A mold of the bench with its usual push; the first one where none is named.

    Raises: NotFound for a mold that is not there.
    """
    molds = bench.records.all(Mold.key)
    if not mold_id and not molds:
        return DefectCase(
            push=None, melt_c=_in_cup_c(MoldEntry()), melt_from=_USUAL, flash_point_c=None,
            budget=BudgetEntry(heats=1), budget_from=_ONE_HEAT,
            missing="there is no mold on this bench yet",
        )  # fmt: skip
    case = mold_case(bench, mold_id or molds[0].id)
    entry = first_entry(bench, case.mold)
    push = push_case(bench, case, entry, believed(bench, entry.plastic).melt_pa_s)
    return DefectCase(
        push=push, melt_c=_in_cup_c(entry), melt_from=_USUAL, flash_point_c=push.flash_point_c,
        budget=BudgetEntry(heats=1), budget_from=_ONE_HEAT, body=body_of(bench, case.bait),
    )  # fmt: skip


def lot_case(bench: Bench, number: int) -> DefectCase:
    """A lot with its sheet, mold, injector, readings and counts. Raises: NotFound."""
    found = lot_view(bench, number)
    sheet = found.sheet
    lot = Poured(sheet, found.lot.entry, _request(sheet), stories(bench, sheet.code))
    melt_c, melt_from = _melt(lot)
    push, missing = _push(bench, sheet, melt_c)
    budget, budget_from = _budget(lot)
    flash = flash_point_c(sheet)
    body = body_of(bench, push.case.bait) if push else None
    return DefectCase(
        push=push, melt_c=melt_c, melt_from=melt_from, flash_point_c=flash, budget=budget,
        budget_from=budget_from, lot=lot, missing=missing, body=body,
    )  # fmt: skip


def _in_cup_c(entry: MoldEntry) -> float:
    """The cup that such a push was drawn from."""
    return entry.melt_c + cooler_k(entry.push)


def _request(sheet: Sheet) -> BatchRequest | None:
    try:
        return from_json(BatchRequest, sheet.request)
    except PourwrightError:
        return None


def _melt(lot: Poured) -> tuple[float, str]:
    """The coolest of what the cups last read, for what is shot; the sheet's target without one."""
    last = [c for c in map(_last_c, lot.cups.values()) if _shootable(c)]
    if last:
        return min(last), "coolest of what its cups last read"
    noted = [r.read_c for r in lot.entry.readings if _shootable(r.read_c)] if lot.entry else []
    if noted:
        return noted[-1], "last reading noted with the lot"
    return target_c(lot.sheet), "as the sheet asked for; nobody noted a reading before the pour"


def _last_c(story: CupStory) -> float:
    return next((s.read_c for s in reversed(story.steps) if s.read_c is not None), 0.0)


def _shootable(read_c: float) -> bool:
    """Whether plastic so hot can have been shot."""
    return _COLDEST_C <= read_c <= _HOTTEST_C


def _push(bench: Bench, sheet: Sheet, melt_c: float) -> tuple[PushCase | None, str]:
    draft = sheet.draft
    mold_id = str(draft.get("mold") or "")
    if not mold_id:
        return None, "the sheet names no mold of the bench"
    plastic, injector = str(draft.get("plastic") or ""), str(draft.get("injector") or "")
    by_hand = bool(draft.get("by_hand"))
    try:
        case = mold_case(bench, mold_id)
        who = Push.POUR if by_hand or case.mold.open_face else Push.ONE_HAND
        entry = MoldEntry(
            plastic=plastic, injector="" if by_hand else injector, push=who,
            melt_c=melt_c - cooler_k(who), mold_c=draft.get("mold_c"),
        )  # fmt: skip
        return push_case(bench, case, entry, believed(bench, plastic).melt_pa_s), ""
    except NotFound as error:
        return None, str(error)


def _budget(lot: Poured) -> tuple[BudgetEntry, str]:
    """The hardest used of its cups by its readings; one usual heat where nobody read any."""
    remelt = remelt_share(lot)
    entries = [
        BudgetEntry(used_share=remelt, holds=holds)
        for story in lot.cups.values()
        if (holds := tuple(holds_of(story.steps)))
    ]
    if not entries:
        return BudgetEntry(heats=1), _ONE_HEAT
    hardest = max(entries, key=lambda e: budget_of(e).dose_share.typical)
    return hardest, "readings of the cup that used most, without how long it stood hot afterwards"


def remelt_share(lot: Poured) -> float:
    """What its remelt brought in, a usual heat for each of its own where that is unknown."""
    if lot.request is None or lot.request.remelt.available_g <= 0:
        return 0.0
    cups = lot.sheet.plan["cups"]
    total = sum(float(c["total_g"]) for c in cups)
    remelt = sum(float(c["remelt_g"]) for c in cups)
    known = lot.request.remelt.dose_share
    dose = HEAT_DOSE.typical * lot.request.remelt.heats if known is None else known
    return dose * remelt / total if total else 0.0


def holds_of(steps: tuple[Step, ...]) -> Iterable[Hold]:
    """From one reading to the next at the hotter of both, then standing until it was drawn."""
    marks = [(s.at_s, s.read_c) for s in steps if s.at_s is not None and s.read_c is not None]
    drawn = [s.at_s for s in steps if s.did is Did.DRAWN and s.at_s is not None]
    if marks and drawn and drawn[-1] > marks[-1][0]:
        marks.append((drawn[-1], marks[-1][1]))
    for (at, before), (then, after) in itertools.pairwise(marks):
        held_min, mean_c = (then - at) / _SECONDS_PER_MIN, max(before, after)
        if mean_c >= _HOT_C and held_min >= _LEAST_HOLD_MIN:
            yield Hold(held_min=held_min, mean_c=mean_c)
