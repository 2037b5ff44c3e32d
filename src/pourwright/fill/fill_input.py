"""One mold and one push, as a person gives them."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.errors import BadInput
from pourwright.base.field import band, number, parts, pick, unmeasured
from pourwright.base.record import Record
from pourwright.fill.air_way import AirWay
from pourwright.fill.branch import BranchPart
from pourwright.fill.push import BORE_MM, PLUNGER_M_S, Push
from pourwright.fill.slice import SlicePart, refuse_shuffled
from pourwright.matter.mold_material import MOLD_C, MoldMaterial


@dataclass(frozen=True, slots=True, kw_only=True)
class MoldToFill(Record):
    """The way through a mold, and the mold itself."""

    chain: tuple[SlicePart, ...] = parts(
        "Slices from the nozzle on: sprue, runner, gate, then the cavity", least=1, most=200
    )
    branches: tuple[BranchPart, ...] = parts("Dead ends beside the chain", most=24)
    cavities: int = number("Cavities filled by one push", low=1, high=50, default=1)
    material: MoldMaterial = pick("Mold made of", default=MoldMaterial.ALUMINUM)
    mold_c: float | None = unmeasured(
        "Mold", low=0, high=150, typical=MOLD_C.ends,
        measure=MOLD_C.measure,
    )  # fmt: skip
    air: AirWay = pick("How air gets out at the end of a cavity", default=AirWay.LEAKS)

    def check(self) -> None:
        """Refuse a chain out of order, and fewer cavity slices than cavities."""
        refuse_shuffled(self.chain)
        if self.chain[-1].copies < self.cavities:
            why = f"the chain ends in {self.chain[-1].copies} of a slice, so no more can fill"
            raise BadInput("cavities", self.cavities, why)


# Without slots: two parents with slots cannot be joined in one child.
@dataclass(frozen=True, kw_only=True)
class Pushed(Record):
    """Who or what pushes the plastic into a mold."""

    push: Push = pick("Who or what pushes", default=Push.ONE_HAND)
    push_n: Band | None = band(
        "Push on the plunger; left out, that of the hand or hands", low=5, high=20_000, default=None
    )
    bore_mm: float | None = unmeasured(
        "Bore of the injector", low=8, high=120, typical=BORE_MM,
        measure="measure across the barrel",
    )  # fmt: skip
    plunger_m_s: float | None = unmeasured(
        "Fastest speed of the plunger", label=PLUNGER_M_S.label, low=0.002, high=1,
        typical=PLUNGER_M_S.ends, measure=PLUNGER_M_S.measure, logarithmic=True,
    )  # fmt: skip
    head_mm: float | None = unmeasured(
        "By hand: how high the plastic stands over the mold", low=2, high=500,
        typical=(20, 40, 70), measure="measure the funnel or sprue over the mold",
    )  # fmt: skip

    def check(self) -> None:
        """A lever or ram names its force; a hand pour has none."""
        if self.push is Push.RAM and self.push_n is None:
            raise BadInput("push_n", None, "is required for a lever or ram")
        if self.push is Push.POUR and self.push_n is not None:
            raise BadInput("push_n", self.push_n.typical, "goes with a plunger, not a hand pour")

    @property
    def unused(self) -> tuple[str, ...]:
        """Fields that this push has no use for."""
        return ("bore_mm", "plunger_m_s") if self.push is Push.POUR else ("head_mm",)


@dataclass(frozen=True, slots=True, kw_only=True)
class FillInput(Pushed, MoldToFill):
    """One mold, one push, and the plastic at that moment."""

    melt_c: float = number("Plastic when the push begins", low=100, high=220)
    melt_doubt_k: float = number(
        "How far that may be off either way, nine times in ten", low=0, high=30, default=6
    )
    melt_pa_s: Band | None = band(
        "Viscosity of the fused plastic at 170 °C, as a timed shot found it; left out, typical",
        low=0.02, high=200, default=None,
    )  # fmt: skip
    seed: int = number("Seed of the draws", low=0, high=2**31 - 1, default=1)

    def check(self) -> None:
        """Refuse what mold or push refuse."""
        MoldToFill.check(self)
        Pushed.check(self)
