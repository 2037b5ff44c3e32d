"""What `cook.next_burst` is asked: a cup, its oven, and what was done to it so far."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.belief import Belief
from pourwright.base.errors import BadInput
from pourwright.base.field import number, part, parts, unmeasured
from pourwright.base.record import Record
from pourwright.heat.belief import CHECKED_BIAS_SPREAD_K
from pourwright.heat.carried_belief import CarriedBelief
from pourwright.heat.coupling import TYPICAL_LABEL_W, CouplingInput, belief_of
from pourwright.heat.history import LONGEST_REST_S, Step
from pourwright.heat.replay import Fill, usual_fill
from pourwright.heat.water_test import WaterTestInput
from pourwright.matter.scorch import hot_limit, warmest_c

START_C, CUP_G, CUP_MM = (18.0, 22.0, 26.0), (300.0, 420.0, 560.0), (80.0, 89.0, 100.0)
START_SPREAD_K, READ_START_SPREAD_K = 2.4, 0.7
USUAL_TARGET_C, ROOM_UNDER_LIMIT_K = 172.0, 17.0


@dataclass(frozen=True, slots=True, kw_only=True)
class NextBurstInput(Record):
    """One cup, the oven it stands in, and its history."""

    plastic_g: float = number("Plastic in the cup at the start", low=20, high=3000)
    cup_g: float | None = unmeasured(
        "Empty cup", low=20, high=3000, typical=CUP_G, measure="weigh the empty cup"
    )
    cup_diameter_mm: float | None = unmeasured(
        "Inside diameter of the cup", low=30, high=250, typical=CUP_MM,
        measure="measure across the inside of the cup",
    )  # fmt: skip
    start_c: float | None = unmeasured(
        "Plastic at the start", low=-5, high=200, typical=START_C,
        measure="read the raw plastic before heating",
    )  # fmt: skip
    ambient_c: float | None = unmeasured(
        "Room", low=-10, high=45, typical=(18, 22, 26), measure="read the room temperature"
    )
    label_w: float | None = unmeasured(
        "Watts on the oven's label", low=300, high=2200, typical=TYPICAL_LABEL_W,
        measure="read the label inside the door", logarithmic=True,
    )  # fmt: skip
    water_tests: tuple[WaterTestInput, ...] = parts("Water tests", most=20)
    thermometer_bias_k: float | None = number(
        "Thermometer reads high by", low=-15, high=15, default=None
    )
    thermometer_spread_k: float = number(
        "How well that is known, as a standard deviation",
        low=0.1, high=5, default=CHECKED_BIAS_SPREAD_K,
    )  # fmt: skip
    prior: CarriedBelief | None = part(
        "What the cup before handed on; it holds label, tests and bias already", default=None
    )
    history: tuple[Step, ...] = parts("What was done so far, in order", most=400)
    stood_s: float = number(
        "Time it has stood since the last step", low=0, high=LONGEST_REST_S, default=0
    )
    handling_s: float = number(
        "Time from now until the oven would run", low=0, high=600, default=10
    )
    target_c: float | None = number(
        "Mean wanted at the end; left out, 172 °C or 17 K under the hot limit",
        low=120, high=200, default=None,
    )  # fmt: skip
    flash_point_c: float | None = number(
        "Flash point on the supplier's data sheet", low=100, high=350, default=None
    )
    limit_c: float | None = number(
        "A lower limit of your own for the hottest place", low=120, high=200, default=None
    )
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse to count what a prior holds a second time, and a target above the limit."""
        for name in ("label_w", "water_tests", "thermometer_bias_k"):
            if self.prior is not None and getattr(self, name) not in (None, ()):
                raise BadInput(name, getattr(self, name), "is in the prior already; leave it out")
        limit, why = self.limit()
        if self.target_c is not None and self.target_c > limit - 2:
            raise BadInput(
                "target_c", self.target_c, f"must be 2 K below the limit of {limit:g} °C ({why})"
            )

    def limit(self) -> tuple[float, str]:
        """The limit for the hottest place, and why."""
        limit, why = hot_limit(self.flash_point_c)
        if self.limit_c is not None and self.limit_c < limit:
            return self.limit_c, "your own limit"
        return limit, why

    def target(self) -> float:
        """The mean wanted at the end."""
        return self.target_c or proposed_target_c(self.limit()[0])

    def fill(self) -> Fill:
        """The cup before the first step; typical where nobody measured."""
        return usual_fill(
            plastic_g=self.plastic_g,
            start_c=self.start_c,
            ambient_c=self.ambient_c,
            glass_g=CUP_G[1] if self.cup_g is None else self.cup_g,
            diameter_mm=CUP_MM[1] if self.cup_diameter_mm is None else self.cup_diameter_mm,
        )

    def start_spread_k(self) -> float:
        """How well the start is known, as a standard deviation."""
        return START_SPREAD_K if self.start_c is None else READ_START_SPREAD_K

    def belief(self) -> Belief:
        """What is believed of the oven before this cup."""
        return belief_of(
            CouplingInput(
                label_w=self.label_w,
                water_tests=self.water_tests,
                prior=self.prior,
                thermometer_bias_k=self.thermometer_bias_k,
                thermometer_spread_k=self.thermometer_spread_k,
                seed=self.seed,
            )
        )


def target_under_c(asked_c: float, limit_c: float) -> float:
    """The target asked for, or the proposed one where the limit leaves it no room."""
    return asked_c if asked_c <= warmest_c(limit_c) else proposed_target_c(limit_c)


def proposed_target_c(limit_c: float) -> float:
    """Mean to aim at: usual for pouring, with room for the core under the limit."""
    return min(USUAL_TARGET_C, limit_c - ROOM_UNDER_LIMIT_K)
