"""The cup seen in section: where it is hot, gelled and fused after each burst."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.base.calc import calculation
from pourwright.base.draws import Array
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import number, out, parts, pick
from pourwright.base.record import Record
from pourwright.base.source import estimate, memory, published
from pourwright.heat.course import Burst
from pourwright.heat.cup import HEATS_AFTER_S, HOTTEST_KNOWN_C
from pourwright.heat.field.advance import FieldOven, advanced, face_c
from pourwright.heat.field.grid import CELL_M, COLD_G_ML, vessel
from pourwright.heat.field.source import PATTERNS, Pattern
from pourwright.heat.field.state import FieldState, filled, stirred
from pourwright.matter.flow import FLOW_SOURCE
from pourwright.matter.gelation import GELATION_SOURCE

STIR_EVENS = 0.9
LEAST_DEEP_MM, MOST_DEEP_WIDTHS = 8.0, 4.0
_PATTERN = (
    "One set of typical values: the pattern of your oven is unknown, and no reading of a face "
    "tells it. Read the bottom with a probe after a burst to see whether it lags."
)
_POWER = (
    "power_w is what enters this model's plastic and glass. The effective power of the reduced cup "
    "is another number and is never handed over."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionInput(Record):
    """A cup, an oven as physics has it, and the bursts."""

    plastic_g: float = number("Plastic in the cup", low=50, high=2500, default=498)
    cup_g: float = number("Empty cup", low=50, high=2500, default=420)
    cup_diameter_mm: float = number("Inside diameter of the cup", low=40, high=200, default=89)
    power_w: float = number("Power into plastic and glass", low=50, high=2000, default=480)
    pattern: Pattern = pick("Where the waves mostly enter", default=Pattern.WALL)
    bursts: tuple[Burst, ...] = parts("Bursts, in order", least=1, most=8)
    start_c: float = number("Plastic at the start", low=-5, high=60, default=22)
    ambient_c: float = number("Room", low=-10, high=45, default=22)
    glass_share: float = number("Share of the power the glass takes", low=0, high=0.3, default=0.03)
    loss_ratio: float = number("Losses against still air", low=0, high=3, default=1)
    currents: float = number("The cup's own currents against the usual", low=0, high=3, default=1)
    dielectric_ratio: float = number(
        "Dielectric loss of the plastic against the usual", low=0.2, high=3, default=1
    )

    def check(self) -> None:
        """Refuse more time than the sums should take, and a shape that is no cup."""
        total = sum(b.on_s + b.rest_s for b in self.bursts)
        if total > 3600:
            raise BadInput("bursts", total, "may last one hour in all, 3600 s, rests included")
        height = self.plastic_g / (COLD_G_ML * np.pi * (self.cup_diameter_mm / 20) ** 2) * 10
        if not LEAST_DEEP_MM <= height <= MOST_DEEP_WIDTHS * self.cup_diameter_mm:
            why = (
                f"would hold the plastic {height:.0f} mm deep: must make it {LEAST_DEEP_MM:g} mm "
                f"or more, and no deeper than {MOST_DEEP_WIDTHS:g} times as wide"
            )
            raise BadInput("cup_diameter_mm", self.cup_diameter_mm, why)


@dataclass(frozen=True, slots=True)
class SectionRow:
    """One layer of the plastic, from the axis to the wall."""

    height_mm: float = out("Middle of the layer above the base")
    temps_c: tuple[float, ...] = out("Temperatures from the axis to the wall")


@dataclass(frozen=True, slots=True)
class SectionMoment:
    """The cup at one moment, seen in section."""

    at_s: float = out("Since the first switch-on")
    stirred: bool = out("Whether it was just stirred")
    mean_c: float = out("Mean of the plastic")
    face_c: float = out("What a thermometer without bias reads off the face at rest")
    hottest_c: float = out("Hottest place")
    hottest_height_mm: float = out("Its height above the base")
    hottest_radius_mm: float = out("Its distance from the axis")
    bottom_c: float = out("Middle of the lowest layer")
    glass_c: float = out("Mean of the glass")
    gelled: float = out("Gelled share, 0 to 1")
    fused: float = out("Fused share, 0 to 1")
    bottom_fused: float = out("Fused share of the lowest layer, 0 to 1")
    hottest_scorch_share: float = out("Share of the heat budget used where most of it is used")
    rows: tuple[SectionRow, ...] = out("Temperatures from the base up")


@dataclass(frozen=True, slots=True)
class SectionAnswer:
    """The section after each burst and each stir, and the book of energy."""

    radius_mm: float = out("Inside radius of the cup")
    height_mm: float = out("Height of the plastic")
    columns_mm: tuple[float, ...] = out("Middles of the rings, from the axis")
    moments: tuple[SectionMoment, ...] = out("At the end of every burst, and after every stir")
    peak_c: float = out("Hottest place of all")
    power_j: float = out("Energy from the waves")
    lost_j: float = out("Energy lost to the outside")
    notes: tuple[str, ...] = out("What it rests on")


@calculation(
    "cook.section",
    purpose="where in the cup it is hot, gelled and fused: two dimensions",
    sources=(
        estimate("penetration depth of a plasticizer's dielectric curve; no measurement was found"),
        GELATION_SOURCE,
        FLOW_SOURCE,
        published("Incropera and DeWitt, 6th ed., eqs. 9.26, 9.30, 1.9 for the losses"),
        memory("Lambert's law of fading waves; Patankar (1980) for finite volumes"),
    ),
    example={"bursts": [{"on_s": 240, "rest_s": 0, "stir": False}, {"on_s": 120}]},
)
def cook_section(inputs: SectionInput) -> SectionAnswer:
    """One cup, one set of values, no band: it shows the pattern, `cook.forecast` the doubt.

    The first two seconds of a burst give no power. Raises: NoAnswer above 350 °C.
    """
    oven = FieldOven(
        power_w=inputs.power_w,
        entry=PATTERNS[inputs.pattern],
        ambient_c=inputs.ambient_c,
        glass_share=inputs.glass_share,
        loss=inputs.loss_ratio,
        currents=inputs.currents,
        loss_ratio=inputs.dielectric_ratio,
    )
    state = _cold(inputs)
    moments = []
    for burst in inputs.bursts:
        cold = min(HEATS_AFTER_S, burst.on_s)
        state = advanced(state, oven, cold, on=False)
        state = advanced(state, oven, burst.on_s - cold, on=True)
        _refuse_fire(state)
        moments.append(_moment(state, oven, just_stirred=False))
        state = advanced(state, oven, burst.rest_s, on=False)
        if burst.stir:
            state = stirred(state, evens=STIR_EVENS)
            moments.append(_moment(state, oven, just_stirred=True))
    cells = state.cells
    rings = cells.columns_m[: cells.plastic_columns]
    return SectionAnswer(
        radius_mm=inputs.cup_diameter_mm / 2,
        height_mm=state.vessel.height_m * 1000,
        columns_mm=tuple(float(v) for v in _middles(rings) * 1000),
        moments=tuple(moments),
        peak_c=state.peak_c,
        power_j=state.gained_j,
        lost_j=state.lost_j,
        notes=(
            _PATTERN,
            _POWER,
        ),
    )


def _cold(inputs: SectionInput) -> FieldState:
    cup = vessel(
        plastic_kg=inputs.plastic_g / 1000,
        cold_g_ml=COLD_G_ML,
        glass_kg=inputs.cup_g / 1000,
        diameter_m=inputs.cup_diameter_mm / 1000,
    )
    return filled(cup, start_c=inputs.start_c, cold_g_ml=COLD_G_ML, cell_m=CELL_M)


def _moment(state: FieldState, oven: FieldOven, *, just_stirred: bool) -> SectionMoment:
    cells, temp = state.cells, state.plastic_c
    heights = _middles(cells.rows_m[cells.glass_rows :]) * 1000
    radii = _middles(cells.columns_m[: cells.plastic_columns]) * 1000
    row, column = np.unravel_index(int(temp.argmax()), temp.shape)
    return SectionMoment(
        at_s=state.at_s,
        stirred=just_stirred,
        mean_c=state.mean_c,
        face_c=face_c(state, oven),
        hottest_c=state.hottest_c,
        hottest_height_mm=float(heights[row]),
        hottest_radius_mm=float(radii[column]),
        bottom_c=state.bottom_c,
        glass_c=state.glass_c,
        gelled=state.mean(state.gelled),
        fused=state.mean(state.fused),
        bottom_fused=float(state.fused[0].mean()),
        hottest_scorch_share=float(state.dose.max()),
        rows=tuple(
            SectionRow(float(height), tuple(round(float(t), 2) for t in line))
            for height, line in zip(heights, temp, strict=True)
        ),
    )


def _middles(sizes: Array) -> Array:
    return np.asarray(np.cumsum(sizes) - sizes / 2)


def _refuse_fire(state: FieldState) -> None:
    if state.peak_c > HOTTEST_KNOWN_C:
        raise NoAnswer(
            f"the hottest place would reach {state.peak_c:.0f} °C, where plastic smokes and burns: "
            "shorten the bursts or check power and batch"
        )
