"""What a frozen sheet says of one of its cups: its plastic, its glass, its oven."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pourwright.base.errors import NotFound
from pourwright.base.record import from_json
from pourwright.base.typical import given_or_typical
from pourwright.forecast.request import CupPart, OvenPart
from pourwright.heat.cooked_cup import CookedCup
from pourwright.heat.next_input import target_under_c
from pourwright.matter.scorch import hot_limit
from pourwright.shop.sheet import Sheet


def planned_cup(sheet: Sheet, number: int) -> Mapping[str, Any]:
    """A cup of the sheet's plan, as JSON values. Raises: NotFound."""
    for cup in sheet.plan["cups"]:
        if cup["number"] == number:
            found: Mapping[str, Any] = cup
            return found
    raise NotFound(f"sheet {sheet.number} has no cup {number}")


def oven_part(sheet: Sheet) -> OvenPart:
    """The oven as the sheet froze it."""
    return from_json(OvenPart, sheet.request["oven"])


def cup_fill(sheet: Sheet, number: int) -> CookedCup:
    """The cup before anything was done to it; glass and width are typical where not measured.

    Raises: NotFound, BadInput for a cup too small or too large to be followed.
    """
    cup, oven = from_json(CupPart, sheet.request["cup"]), oven_part(sheet)
    glass = given_or_typical(cup, "glass_g_per_ml") * cup.brim_ml
    width_cm = given_or_typical(cup, "diameter_ratio") * cup.brim_ml ** (1 / 3)
    return CookedCup(
        plastic_g=round(float(planned_cup(sheet, number)["total_g"]), 1),
        cup_g=round(glass, 1),
        cup_diameter_mm=round(10 * width_cm, 1),
        start_c=oven.start_c,
        ambient_c=sheet.request["ambient_c"],
        thermometer=oven.thermometer,
    )


def flash_point_c(sheet: Sheet) -> float | None:
    """The flash point on the data sheet of the sheet's plastic, where it was entered."""
    found: float | None = sheet.request["plastic"]["flash_point_c"]
    return found


def target_c(sheet: Sheet) -> float:
    """The sheet's own target, or what the hot limit leaves of it."""
    limit, _ = hot_limit(flash_point_c(sheet))
    return target_under_c(oven_part(sheet).target_c, limit)
