"""Whether the air gets out of the mold in time."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from pourwright.base.assume import drawn, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Doubt, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out, parts, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import PRACTICE, estimate, memory, published
from pourwright.base.units import convert
from pourwright.fill.flash import FLASH_SOURCE, SEEN_MM
from pourwright.fill.push import ONE_HAND_N
from pourwright.fill.squeezed import SqueezedInput, left_out_words, melt_words, squeeze
from pourwright.fill.vent import DEPTH_MM, LENGTH_MM, WIDTH_MM, depth_words
from pourwright.matter.air import ATMOSPHERE_PA, SOUND_M_S, viscosity_pa_s
from pourwright.physics.duct import thin_slot_resistance

_SHARE = Doubt(
    "share of the push that is left for the air", Band(0.3, 0.5, 0.8), "", logarithmic=True
)
_AIR_C = Doubt("temperature of the air in the vent", Band(30.0, 60.0, 110.0), "")
# Air leaves a hole no faster than that share of the speed of sound, taken at the pressure inside:
# (2/2.4)^3 for a gas of two atoms.
_CHOKED = 0.5787
_SURE = 0.9
CUT_VENTS = (
    f"Cut or scratch a vent of {depth_words()} at the place that fills last: the map of filling "
    "shows it, a rounded shiny tip gives it away."
)
LEAKS = (
    "A parting line that is not machined leaks a few hundredths of a millimeter all around, which "
    "helps; a dead end in solid metal or silicone leaks nothing."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Vent(Record):
    """Vents of one sort."""

    count: int = number("How many", low=1, high=200, default=1)
    width_mm: float = number("Width", low=0.1, high=200, default=WIDTH_MM)
    depth_mm: float = number("Depth", low=0.005, high=1, default=DEPTH_MM.typical)
    length_mm: float = number("Length to the open", low=0.5, high=200, default=LENGTH_MM)

    def check(self) -> None:
        """Refuse a vent deeper than wide."""
        if self.depth_mm > self.width_mm:
            raise BadInput("depth_mm", self.depth_mm, "must not exceed the width")


@dataclass(frozen=True, slots=True, kw_only=True)
class AirInput(SqueezedInput):
    """A mold full of air, a push, and vents."""

    cavity_ml: float = number("All cavities and their feed", low=0.1, high=2000)
    vents: tuple[Vent, ...] = parts("Vents where filling ends", most=12)
    fill_s: float | None = unmeasured(
        "Time in which the plastic would fill the mold", low=0.05, high=60, typical=(0.5, 1.2, 3),
        label="time of the push", measure="time one push, or take it from fill.odds",
        logarithmic=True,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class AirAnswer:
    """Time for the air, what stays in without a vent, and how far plastic follows it."""

    out_s: Band | None = out("Time the vents take to let all the air out; null without vents")
    flow_ml_s: Band | None = out("Air that the vents let out; null without vents")
    in_time_share: float = out("Odds that the air is out before the plastic is in, 0 to 1")
    trapped_share: Band = out("Share of the mold that stays empty if no air gets out, 0 to 1")
    deep_enough_mm: Band | None = out(
        "Depth at which these vents would just keep up; null without vents"
    )
    creep_mm: Band | None = out("How far plastic creeps into the deepest vent; null without vents")
    advice: tuple[str, ...] = out("What to do")
    notes: tuple[str, ...] = out("What dominates, what would narrow it")


@calculation(
    "fill.air",
    purpose="will the air get out, and how much stays without a vent",
    sources=(
        published("Boyle (1662): air at one temperature shrinks as its pressure grows"),
        memory("Bird, Stewart and Lightfoot, Transport Phenomena, 2nd ed., problem 2B.3: slot"),
        memory("choked flow of a gas of two atoms, texts on gas dynamics"),
        ONE_HAND_N.source,
        FLASH_SOURCE,
        estimate("half of the push is left for the air"),
        PRACTICE,
    ),
    example={"cavity_ml": 30, "push_n": 110, "bore_mm": 35, "vents": [{"count": 4}]},
)
def air(inputs: AirInput) -> AirAnswer:
    """The air that the vents pass under part of the push, against the time of the push.

    Raises: BadInput for a mold as hot as the plastic.
    """
    draws = Draws(seed=inputs.seed)
    pushed = squeeze(draws, inputs)
    trapped = draws.band(ATMOSPHERE_PA / (ATMOSPHERE_PA + pushed.pressure_pa))
    if not inputs.vents:
        return AirAnswer(
            out_s=None, flow_ml_s=None, in_time_share=0.0, trapped_share=trapped,
            deep_enough_mm=None, creep_mm=None, advice=(CUT_VENTS,),
            notes=(*left_out_words(inputs, unused=("fill_s", "mold_c")), LEAKS),
        )  # fmt: skip
    flow = _flow_m3_s(draws, inputs.vents, pushed.pressure_pa)
    out_s, fill_s = inputs.cavity_ml / 1e6 / flow, drawn(draws, inputs)["fill_s"]
    deepest = max(one.depth_mm for one in inputs.vents)
    # A slot's flow grows with the cube of its depth.
    deep, creep = deepest * np.cbrt(out_s / fill_s), pushed.creep_mm(deepest)
    in_time = float(np.mean(out_s[1:] <= fill_s[1:]))
    return AirAnswer(
        out_s=draws.band(out_s),
        flow_ml_s=draws.band(1e6 * flow),
        in_time_share=in_time,
        trapped_share=trapped,
        deep_enough_mm=draws.band(deep),
        creep_mm=draws.band(creep),
        advice=tuple(
            _advice(
                in_time,
                wanted_mm=draws.band(deep).high,
                flashes_mm=float(pushed.gap_mm(SEEN_MM)[0]),
                deepest_mm=deepest,
            )
        ),
        notes=(
            *left_out_words(inputs),
            *melt_words(inputs),
            *width_notes(draws, {"out_s": out_s, "creep_mm": creep}),
            *pushed.no_skin("creep_mm", deepest),
            LEAKS,
        ),
    )


def vent_flow_m3_s(vent: Vent, push_pa: Array, air_pa_s: Array) -> Array:
    """Air that leaves the mold through such vents, at the pressure inside.

    Air thins on its way out, so that the slot passes w·h³·(P₁² - P₀²) / (24·μ·L·P₁) at one
    temperature; and no more than a choked hole of its section.
    """
    width, depth = vent.width_mm / 1000, vent.depth_mm / 1000
    resistance = thin_slot_resistance(air_pa_s, vent.length_mm / 1000, width, depth)
    inside = ATMOSPHERE_PA + push_pa
    slot = push_pa / resistance * (1 - push_pa / (2 * inside))
    return np.asarray(vent.count * np.minimum(slot, _CHOKED * SOUND_M_S * width * depth))


def _flow_m3_s(draws: Draws, vents: tuple[Vent, ...], push_pa: Array) -> Array:
    left = push_pa * np.minimum(draws.of(_SHARE.label, _SHARE), 1)
    thin = viscosity_pa_s(draws.of(_AIR_C.label, _AIR_C))
    return np.asarray(np.sum([vent_flow_m3_s(one, left, thin) for one in vents], axis=0))


def _advice(
    in_time: float, *, wanted_mm: float, flashes_mm: float, deepest_mm: float
) -> Iterable[str]:
    """Never a vent so deep that plastic runs into it far enough to be seen."""
    if in_time < _SURE and wanted_mm <= flashes_mm:
        yield (
            f"The air may hold the plastic back: cut the vents {_depth(wanted_mm)} deep, add "
            "vents, or push slower at the end."
        )
    elif in_time < _SURE:
        yield (
            "The air may hold the plastic back: add vents or make them wider, or push slower at "
            f"the end. Deeper than {_depth(flashes_mm)} they flash and squirt."
        )
    if deepest_mm > flashes_mm:
        yield "The vents are deep enough to flash: make them wider instead of deeper."
    elif in_time >= _SURE:
        yield "The vents do: keep them clean, plastic and release agent close them."


def _depth(depth_mm: float) -> str:
    return f"{depth_mm:.2f} mm / {convert(depth_mm, 'mm', 'in'):.4f} in"
