"""What happens in the cup, burst by burst."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.assume import drawn, left_out, width_notes
from pourwright.base.band import Band
from pourwright.base.calc import calculation
from pourwright.base.draws import Array, Draws
from pourwright.base.errors import BadInput
from pourwright.base.field import band, number, out, part, parts, unmeasured
from pourwright.base.record import Record
from pourwright.base.source import estimate, memory, published
from pourwright.heat import cup as cups
from pourwright.heat.carried_belief import CarriedBelief
from pourwright.heat.course import Burst, Course, bands, course, happenings
from pourwright.heat.cup import BOTTOM, CORE, MEAN, Cup
from pourwright.heat.oven import (
    LOAD_HALF_KG,
    LOSS_RATIO,
    Oven,
    believed_oven,
    drawn_oven,
    loaded_power,
)
from pourwright.heat.surface import SURFACE_OFFSET_K
from pourwright.matter.gelation import GELATION_SOURCE
from pourwright.matter.plastisol import COLD_DENSITY_G_ML, HEAT_CAPACITY_RATIO
from pourwright.matter.scorch import hot_limit


@dataclass(frozen=True, slots=True, kw_only=True)
class CookInput(Record):
    """A cup, an oven and the bursts it gets."""

    plastic_g: float | None = number(
        "Plastic in the cup; or give plastic_ml", low=20, high=3000, default=None
    )
    plastic_ml: float | None = number(
        "Plastic in the cup, measured cold; or give plastic_g", low=20, high=3000, default=None
    )
    power_w: Band | None = band(
        "Effective power into half a kilogram of plastic (see oven.coupling); or give belief",
        low=50, high=2500, default=None,
    )  # fmt: skip
    belief: CarriedBelief | None = part(
        "What oven.coupling learned of the oven; or give power_w", default=None
    )
    bursts: tuple[Burst, ...] = parts("Bursts, in order", most=30)
    cold_density_g_ml: float | None = unmeasured(
        "Cold density", low=0.9, high=1.4, typical=COLD_DENSITY_G_ML.ends,
        measure=COLD_DENSITY_G_ML.measure,
    )  # fmt: skip
    cup_g: float | None = unmeasured(
        "Empty cup", low=20, high=3000, typical=(300, 420, 560), measure="weigh the empty cup"
    )
    cup_diameter_mm: float | None = unmeasured(
        "Inside diameter of the cup", low=30, high=250, typical=(80, 89, 100),
        measure="measure across the inside of the cup",
    )  # fmt: skip
    start_c: float | None = unmeasured(
        "Plastic at the start", low=-5, high=60, typical=(18, 22, 26),
        measure="read the raw plastic before heating",
    )  # fmt: skip
    ambient_c: float | None = unmeasured(
        "Room", low=-10, high=45, typical=(18, 22, 26), measure="read the room temperature"
    )
    thermometer_bias_k: float | None = unmeasured(
        "Thermometer reads high by", low=-15, high=15, typical=(-3, 0, 3),
        measure="check the thermometer in boiling water or against a probe while you stir",
    )  # fmt: skip
    target_c: float = number("Mean wanted at the end", low=120, high=200, default=172)
    flash_point_c: float | None = number(
        "Flash point on the supplier's data sheet", low=100, high=350, default=None
    )
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse none or two of a pair of which one is wanted."""
        _one_of("plastic_g", self.plastic_g, "plastic_ml", self.plastic_ml)
        _one_of("power_w", self.power_w, "belief", self.belief)
        if self.belief is not None and self.thermometer_bias_k is not None:
            why = "is in the belief already; leave it out"
            raise BadInput("thermometer_bias_k", self.thermometer_bias_k, why)


@dataclass(frozen=True, slots=True)
class Moment:
    """The cup at one moment."""

    at_s: float = out("Since the first switch-on")
    mean_c: Band = out("Mean of the plastic")
    surface_c: Band = out("What a thermometer reads off the surface")
    hottest_c: Band = out("Hottest place")
    coldest_c: Band = out("Bottom of the cup")
    core_gelled: float = out("Gelled share of the core, 0 to 1")
    core_fused: float = out("Fused share of the core, 0 to 1")
    bottom_gelled: float = out("Gelled share of the bottom, 0 to 1")
    bottom_fused: float = out("Fused share of the bottom, 0 to 1")
    mean_gelled: float = out("Gelled share of most of the cup, 0 to 1")
    mean_fused: float = out("Fused share of most of the cup, 0 to 1")
    scorch_share: Band = out("Share of the heat budget used at the hottest place")


@dataclass(frozen=True, slots=True)
class CookEvent:
    """Something that happens on the typical course; the limit is on the 95th percentile."""

    at_s: float = out("Since the first switch-on")
    what: str = out("gel, stirrable, fused, target, over limit")


@dataclass(frozen=True, slots=True)
class CookAnswer:
    """The course of a cook."""

    moments: tuple[Moment, ...] = out("The cup over time; a moment before and after each stir")
    events: tuple[CookEvent, ...] = out("What happens on the typical course")
    limit_c: float = out("Hot limit for the 95th percentile of the hottest place")
    limit_reason: str = out("Where the limit comes from")
    over_limit: bool = out("Whether the hottest place may pass the limit")
    notes: tuple[str, ...] = out("What dominates, and what would narrow it")


@calculation(
    "cook.forecast",
    purpose="what happens in the cup, burst by burst",
    sources=(
        estimate("reduced cup: mean, core, bottom and glass; shares from a finer cup study"),
        GELATION_SOURCE,
        published("Incropera and DeWitt, 6th ed., eqs. 9.26, 9.30, 1.9 for the losses"),
        memory("Barringer et al., AIChE J. 40 (1994) 1433, for the load effect"),
    ),
    example={
        "plastic_g": 498,
        "power_w": {"low": 445, "typical": 476, "high": 508},
        "cup_g": 420,
        "bursts": [{"on_s": 240, "rest_s": 0, "stir": False}, {"on_s": 120}, {"on_s": 40}],
    },
)
def cook_forecast(inputs: CookInput) -> CookAnswer:
    """Forecast with bands from one set of draws; events follow the typical draw.

    A forecast above the limit is shown as a warning, never as advice.
    Raises: NoAnswer where the cup would get hotter than the model knows.
    """
    draws = Draws(seed=inputs.seed)
    values = drawn(draws, inputs)
    cup = _cup(inputs, values)
    oven = _oven(draws, inputs, values, cup)
    path = course(cup, oven, cups.cold_start(values["start_c"]), inputs.bursts)
    limit, reason = hot_limit(inputs.flash_point_c)
    events = happenings(path, limit_c=limit, target_c=inputs.target_c)
    over = any(e.what == "over limit" for e in events)
    last = path.states[-1]
    answers = {"mean_c": last.mean_c, "surface_c": cups.reading(last, oven)}
    return CookAnswer(
        moments=_moments(path, oven),
        events=tuple(CookEvent(e.at_s, e.what) for e in events),
        limit_c=limit,
        limit_reason=reason,
        over_limit=over,
        notes=(
            *left_out(inputs, unused=_unused(inputs)),
            *width_notes(draws, answers),
            *_cautions(limit, reason, over=over),
        ),
    )


def _cup(inputs: CookInput, values: dict[str, Array]) -> Cup:
    density = values["cold_density_g_ml"]
    by_volume = (inputs.plastic_ml or 0.0) * density / 1000
    return cups.filled_cup(
        plastic_kg=by_volume if inputs.plastic_g is None else inputs.plastic_g / 1000,
        cold_g_ml=density,
        glass_kg=values["cup_g"] / 1000,
        diameter_m=values["cup_diameter_mm"] / 1000,
    )


def _oven(draws: Draws, inputs: CookInput, values: dict[str, Array], cup: Cup) -> Oven:
    ambient_c = values["ambient_c"]
    if inputs.belief is not None:
        belief = inputs.belief.belief()
        return believed_oven(draws, belief, plastic_kg=cup.plastic_kg, ambient_c=ambient_c)
    return drawn_oven(
        draws,
        power_w=loaded_power(values["power_w"], LOAD_HALF_KG.drawn(draws), cup.plastic_kg),
        loss=LOSS_RATIO.drawn(draws),
        surface_offset_k=SURFACE_OFFSET_K.drawn(draws),
        reading_bias_k=values["thermometer_bias_k"],
        heat_ratio=HEAT_CAPACITY_RATIO.drawn(draws),
        ambient_c=ambient_c,
    )


def _moments(path: Course, oven: Oven) -> tuple[Moment, ...]:
    rows: list[Array] = []
    for s in path.states:
        rows += [s.mean_c, cups.reading(s, oven), s.hottest_c, s.bottom_c, s.dose]
    found = iter(bands(rows))
    moments = []
    for at, state in zip(path.at_s, path.states, strict=True):
        gelled, fused = state.gelled[:, 0], state.fused[:, 0]
        moments.append(
            Moment(
                at_s=at,
                mean_c=next(found),
                surface_c=next(found),
                hottest_c=next(found),
                coldest_c=next(found),
                scorch_share=next(found),
                core_gelled=float(gelled[CORE]),
                core_fused=float(fused[CORE]),
                bottom_gelled=float(gelled[BOTTOM]),
                bottom_fused=float(fused[BOTTOM]),
                mean_gelled=float(gelled[MEAN]),
                mean_fused=float(fused[MEAN]),
            )
        )
    return tuple(moments)


def _unused(inputs: CookInput) -> tuple[str, ...]:
    return ("thermometer_bias_k",) if inputs.belief is not None else ()


def _cautions(limit: float, reason: str, *, over: bool) -> tuple[str, ...]:
    notes = [f"Hot limit {limit:g} °C: {reason}. Smoke or a sharp smell overrides every number."]
    if over:
        notes.append(
            "The hottest place may pass the limit: shorter bursts with a stir between them are "
            "safer. This course is shown as a warning, not as advice."
        )
    return tuple(notes)


def _one_of(name: str, value: object, other: str, instead: object) -> None:
    if value is None and instead is None:
        raise BadInput(name, None, f"is required, or {other} in its place")
    if value is not None and instead is not None:
        raise BadInput(other, instead, f"must be left out where {name} is given")
