"""The words beside the pictures of the inside of a cup."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.units import UNITS, shown_in
from pourwright.heat.field.forecast import SectionMoment
from pourwright.web.show import Settings, converted, exactly

_MOSTLY, _HALF, _SOME, _LITTLE = 0.9, 0.5, 0.3, 0.05


@dataclass(frozen=True, slots=True)
class Lag:
    """The burst that leaves the cup least even, and what the stir after it does, if there is one.

    `apart` is hottest place against bottom.
    """

    burst: int
    face: str
    hottest: str
    bottom: str
    apart: str
    within: str = ""


def lag_of(moments: tuple[SectionMoment, ...], settings: Settings) -> Lag:
    """The least even burst of a cup."""
    bursts = [m for m in moments if not m.stirred]
    worst = max(bursts, key=lambda m: m.hottest_c - m.bottom_c)
    after = moments[moments.index(worst) + 1 :][:1]
    stirred = after[0] if after and after[0].stirred else None
    return Lag(
        bursts.index(worst) + 1,
        whole(worst.face_c, "c", settings),
        whole(worst.hottest_c, "c", settings),
        whole(worst.bottom_c, "c", settings),
        whole(worst.hottest_c - worst.bottom_c, "k", settings),
        whole(stirred.hottest_c - coolest_c(stirred), "k", settings) if stirred else "",
    )


def coolest_c(moment: SectionMoment) -> float:
    """The coolest plastic."""
    return min(min(row.temps_c) for row in moment.rows)


def state_words(moment: SectionMoment) -> str:
    """How far the plastic has come, as a person would see it."""
    if moment.fused >= _MOSTLY:
        words = "Fused: clear and runny"
        return words if moment.bottom_fused >= _MOSTLY else f"{words}, but not at the bottom"
    if moment.fused >= _HALF:
        return "More than half fused: runny but hazy"
    if moment.gelled >= _MOSTLY:
        return "Jelly" if moment.fused < _LITTLE else "Jelly, beginning to fuse"
    return "Jelly and liquid" if moment.gelled >= _SOME else "Still liquid"


def whole(value: float, unit: str, settings: Settings) -> str:
    """A value in whole units of the bench."""
    read = shown_in(UNITS[unit], settings.system)
    rounded = float(round(converted(value, UNITS[unit], read)))
    return exactly(rounded, read, settings, read)
