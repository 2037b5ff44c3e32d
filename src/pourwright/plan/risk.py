"""What to know before pouring this batch."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.base.band import Band
from pourwright.base.units import in_both
from pourwright.forecast.heat import Cook
from pourwright.forecast.request import BatchRequest, Sort
from pourwright.plan.batch_plan import Caution, CupPlan, HeatPlan, ShelfLine
from pourwright.plan.bench_time import BenchTime
from pourwright.plan.layer_share import share_notes
from pourwright.plan.remelt import scorch_cautions

# A mold warmer than this sets slowly and is to be left alone: estimate.
WARM_MOLD_C = 45.0
# Heats from which remelt is watched for yellow: common practice, no source.
OFTEN_HEATED = 3
# Odds of a full shot below which a plan says so: estimate.
FILLS_WELL = 0.8
STOP, RISK, NOTE = "stop", "risk", "note"


def fill_warnings(odds: Band | None) -> tuple[Caution, ...]:
    """A word where shots often stay short; `odds` is none where nobody can tell."""
    if odds is None or odds.typical >= FILLS_WELL:
        return ()
    words = f"Only about {odds.typical:.0%} of the shots fill this mold ({odds.low:.0%} to "
    cures = "see its page for what helps most, hold and clamps."
    return (Caution(RISK, f"{words}{odds.high:.0%}) at that temperature and one hand: {cures}"),)


def warnings_of(
    request: BatchRequest,
    cups: Sequence[CupPlan],
    heat: Sequence[tuple[HeatPlan, Cook]],
    shelf: Sequence[ShelfLine],
    time: BenchTime,
) -> tuple[Caution, ...]:
    """Shortages, hot limits, warm molds, small doses and repeated heating."""
    found = [
        Caution(STOP, f"Short of {s.name}: {s.short_g:.1f} g missing.") for s in shelf if s.short_g
    ]
    found += scorch_cautions(request.remelt, cups, [plan for plan, _ in heat])
    found += [Caution(NOTE, n) for n in (*share_notes(request.layers), *heat[0][0].notes)]
    if request.plastic.flash_point_c is None:
        found.append(
            Caution(
                RISK, "No flash point entered: the cautious hot limit of 180 °C / 356 °F holds."
            )
        )
    if float(time.mold_last_c[0]) > WARM_MOLD_C:
        found.append(
            Caution(
                RISK,
                f"The molds warm to about {in_both(float(time.mold_last_c[0]))}: wait longer, use "
                "more molds, or dip and dry them for good; water flashes to steam.",
            )
        )
    if request.remelt.available_g and request.remelt.heats >= OFTEN_HEATED:
        found.append(
            Caution(RISK, f"The remelt was heated {request.remelt.heats} times: watch for yellow.")
        )
    used = sum(c.remelt_g for c in cups)
    if request.remelt.available_g - used > 1:
        left = request.remelt.available_g - used
        found.append(
            Caution(NOTE, f"{left:.0f} g of remelt stay in the pot: a cup takes its share.")
        )
    sorts = {d.sort for layer in request.layers for d in layer.doses}
    if sorts & {Sort.SALT, Sort.FLAKE, Sort.PEARL_POWDER, Sort.HOLLOW_GLASS}:
        found.append(
            Caution(RISK, "Powders, salt and flake go in bone dry: damp ones foam and spatter.")
        )
    if Sort.HOLLOW_GLASS in sorts or Sort.PEARL_POWDER in sorts:
        found.append(
            Caution(RISK, "Fine dust: keep it out of lungs and eyes as its data sheet says.")
        )
    return tuple(found)
