"""Look inside a cup: its section burst by burst, at a power given or found from a reading."""

from __future__ import annotations

import functools
from dataclasses import dataclass

from pourwright.actions.cup_fill import cup_fill
from pourwright.actions.freeze_sheet import sheet_of
from pourwright.actions.plan_batch import Planned
from pourwright.base.errors import BadInput
from pourwright.base.field import number
from pourwright.base.record import from_json, to_json
from pourwright.heat.course import Burst
from pourwright.heat.field.forecast import SectionAnswer, SectionInput, cook_section
from pourwright.heat.next_step import REST_S
from pourwright.shop.sheet import Sheet

MOST_BURSTS = 8
# A plan that is not frozen has neither number nor day; no answer rests on these.
_NO_NUMBER, _NO_DAY = 1, "2000-01-01"
_NEAR_K = 0.3
_MOST_TRIES = 12
_LEAST_W, _MOST_W = 50.0, 2000.0
# Half a kilogram by 130 K at 2 J/(g·K), glass and losses on top: where the search starts.
_START_J_GK = 2.6


@dataclass(frozen=True, slots=True, kw_only=True)
class InsideEntry(SectionInput):
    """A cup to look into; where `ends_c` is given the power is found and `power_w` left aside."""

    ends_c: float | None = number(
        "Instead of a power: mean after the last burst and stir", low=30, high=250, default=None
    )

    def check(self) -> None:
        """Refuse what a section refuses, and an end no warmer than the start."""
        SectionInput.check(self)
        if self.ends_c is not None and self.ends_c <= self.start_c:
            raise BadInput("ends_c", self.ends_c, "must be warmer than the plastic at the start")


@dataclass(frozen=True, slots=True)
class Inside:
    """The section and the power it was made with; `found` where a temperature gave that power."""

    answer: SectionAnswer
    power_w: float
    found: bool


USUAL = InsideEntry(cup_diameter_mm=88.9, bursts=(Burst(on_s=180), Burst(on_s=120), Burst(on_s=90)))


@functools.lru_cache(maxsize=16)
def see_inside(entry: InsideEntry) -> Inside:
    """The section of a cup.

    Raises: NoAnswer above 350 °C, BadInput where no oven's power ends at `ends_c`.
    """
    asked = {k: v for k, v in to_json(entry).items() if k != "ends_c"}
    if entry.ends_c is None:
        return Inside(_section(from_json(SectionInput, asked)), entry.power_w, found=False)
    on_s = sum(b.on_s for b in entry.bursts)
    rise_k = entry.ends_c - entry.start_c
    power = entry.plastic_g * rise_k * _START_J_GK / max(on_s, 1.0)
    for _ in range(_MOST_TRIES):
        if not _LEAST_W <= power <= _MOST_W:
            why = f"would need about {power:.0f} W in these {on_s:.0f} s: no oven gives that"
            raise BadInput("ends_c", entry.ends_c, why)
        answer = _section(from_json(SectionInput, asked | {"power_w": power}))
        reached_k = answer.moments[-1].mean_c - entry.start_c
        if abs(reached_k - rise_k) < _NEAR_K:
            return Inside(answer, power, found=True)
        power *= rise_k / max(reached_k, 1.0)
    raise BadInput("ends_c", entry.ends_c, "is not reached by these bursts")


def inside_sheet(sheet: Sheet, cup: int) -> InsideEntry:
    """A cup of a sheet with the rounds of its plan, ending where the plan does.

    The plan's power belongs to another model and is not carried over. Raises: NotFound.
    """
    fill = cup_fill(sheet, cup).fill()
    plan = next((p for p in sheet.plan["heat"] if cup in p["cups"]), None)
    rounds = plan["rounds"][:MOST_BURSTS] if plan else []
    bursts = tuple(Burst(on_s=r["on_s"], rest_s=REST_S) for r in rounds)
    return InsideEntry(
        plastic_g=fill.plastic_g,
        cup_g=fill.glass_g,
        cup_diameter_mm=fill.diameter_mm,
        start_c=fill.start_c,
        ambient_c=fill.ambient_c,
        bursts=bursts or USUAL.bursts,
        ends_c=round(float(plan["target_c"]), 1) if plan and rounds else None,
    )


def inside_plan(planned: Planned, cup: int) -> InsideEntry:
    """The same for a plan nobody has frozen yet. Raises: NotFound."""
    return inside_sheet(sheet_of(planned, number=_NO_NUMBER, at=_NO_DAY), cup)


@functools.lru_cache(maxsize=16)
def _section(asked: SectionInput) -> SectionAnswer:
    return cook_section(asked)
