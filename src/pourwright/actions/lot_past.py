"""What the plastic of a lot has been through: by its readings, or by its plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from pourwright.actions.oven_history import stories
from pourwright.actions.port import Bench
from pourwright.actions.see_cup import cup_view
from pourwright.base.errors import BadInput
from pourwright.heat.history import Did
from pourwright.heat.pot_dose import pot_dose
from pourwright.heat.scorch_words import Advice, advice_for
from pourwright.matter.remelt import HEAT_DOSE
from pourwright.shop.sheet import Sheet


@dataclass(frozen=True, slots=True)
class LotPast:
    """Heat budget a lot has used at the hottest place, remelt in it included, typical, by mass.

    `followed` of its `cups` were heated by their pages, so their own readings count; the plan
    stands in for the others. `heats` is how often its oldest plastic was heated.
    """

    dose_share: float
    followed: int
    cups: int
    heats: int
    holds_salt: bool

    @property
    def advice(self) -> Advice:
        """What it says to do with the plastic."""
        return advice_for(self.dose_share)

    @property
    def spent(self) -> bool:
        """Whether the plastic may go into no pot."""
        return self.advice is Advice.DISCARD


def lot_past(bench: Bench, sheet: Sheet) -> LotPast:
    """The past of a lot."""
    cups = sheet.plan["cups"]
    read = _read(bench, sheet)
    shares = [
        read[c["number"]] + _brought(sheet, c) if c["number"] in read else _planned(sheet, c)
        for c in cups
    ]
    parts = [(float(c["total_g"]), np.array(s)) for c, s in zip(cups, shares, strict=True)]
    with_remelt = any(c["remelt_g"] for c in cups)
    return LotPast(
        dose_share=float(pot_dose(parts)),
        followed=len(read),
        cups=len(cups),
        heats=1 + (int(sheet.request["remelt"]["heats"]) if with_remelt else 0),
        holds_salt=any(line["sort"] == "salt" for c in cups for line in c["lines"]),
    )


def _read(bench: Bench, sheet: Sheet) -> dict[int, float]:
    """What each cup that was followed has used in its own heating, by number."""
    found: dict[int, float] = {}
    for number, story in stories(bench, sheet.code).items():
        if not any(s.did is Did.HEATED for s in story.steps):
            continue
        try:
            seen = cup_view(bench, sheet.number, number, now=story.entries[-1].at)
        except BadInput:  # no model follows a cup of that size
            continue
        found[number] = seen.answer.estimates.scorch_share.typical
    return found


def _planned(sheet: Sheet, cup: Mapping[str, Any]) -> float:
    """The plan's share of a cup: it holds what remelt brought."""
    return next(
        (
            float(heat["scorch_share"]["typical"])
            for heat in sheet.plan["heat"]
            if cup["number"] in heat["cups"]
        ),
        _brought(sheet, cup),
    )


def _brought(sheet: Sheet, cup: Mapping[str, Any]) -> float:
    remelt = sheet.request["remelt"]
    known = remelt["dose_share"]
    share = HEAT_DOSE.typical * remelt["heats"] if known is None else known
    return float(share * cup["remelt_g"] / cup["total_g"])
