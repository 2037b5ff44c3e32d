"""The next move in the words of the bench."""

from __future__ import annotations

from pourwright.base.draws import Draws
from pourwright.base.units import in_both
from pourwright.base.wording import clock
from pourwright.heat.cup import BOTTOM, MEAN
from pourwright.heat.doubt import Judged
from pourwright.heat.history import Did, Step
from pourwright.heat.next_step import READY_FUSED, Move, Next, warm_enough
from pourwright.heat.standing import Standing

NEAR_K = 6.0
# Held well under this, plastic stays a gel (common practice, no source).
FUSES_C = 145.0
FUMES = (
    "Smoke, a sharp smell or brown streaks overrule every number: switch off, leave the door shut, "
    "get out of the fumes."
)


def advice(
    move: Move, now: Standing, found: Judged, *, target_c: float, limit_c: float
) -> tuple[str, ...]:
    """What to do and what to look for."""
    lines = [_first(move, now, target_c=target_c, limit_c=limit_c)]
    if move.do is Next.HEAT:
        lines.append(
            "Then rest it for a quarter of a minute, stir from the bottom up for as long, and read "
            "while you stir. No metal in the running oven; never leave it."
        )
        lines.append(_looks_like(move))
        if move.limited and not warm_enough(move.after.mean_c, target_c):
            lines.append(
                f"Cut short so that the hottest place stays under {in_both(limit_c)}: another "
                "round follows."
            )
    if target_c < FUSES_C:
        lines.append(
            f"{in_both(target_c)} is too cold to fuse plastic, and the limit of {in_both(limit_c)} "
            "allows no more: no bait comes of it. Check the flash point and its unit."
        )
    lines += [f"{d.why[0].upper()}{d.why[1:]}. It counts little." for d in found.doubts
              if d is not found.new]  # fmt: skip
    lines.append(FUMES)
    return tuple(lines)


def narrowing(draws: Draws, move: Move, steps: tuple[Step, ...]) -> tuple[str, ...]:
    """Where the width of the answer comes from, and what would narrow it."""
    notes = []
    for name, values in (("ends_c", move.after.mean_c), ("hottest_c", move.hot.hottest_c)):
        drivers = draws.drivers(values)
        if drivers:
            causes = ", ".join(f"{d.label} ({d.share:.0%})" for d in drivers)
            notes.append(f"{name}: the range comes mostly from {causes}.")
        cure = next((d.measure for d in drivers if d.measure), None)
        if cure:
            notes.append(f"{name}: to narrow it, {cure}.")
    if any(s.did is Did.READ and not s.while_stirring for s in steps):
        notes.append(
            "A face read after the stir has a cooled film of a few kelvin: reading while you stir "
            "is worth more."
        )
    return tuple(notes)


def _first(move: Move, now: Standing, *, target_c: float, limit_c: float) -> str:
    mean = in_both(float(now.state.mean_c[0]))
    match move.do:
        case Next.HEAT if move.gel_stop:
            return f"Heat {clock(move.for_s)}: it ends as the gel begins, so that you can stir."
        case Next.HEAT:
            ends = in_both(float(move.after.mean_c[0]))
            return f"Heat {clock(move.for_s)}: from {mean} to about {ends} once stirred."
        case Next.WAIT if move.limited:
            return (
                f"At {mean} the hottest place may lie over the limit of {in_both(limit_c)}: let it "
                f"stand {clock(move.for_s)}, stir, read again."
            )
        case Next.WAIT:
            return (
                f"At {mean} it is warmer than the target of {in_both(target_c)}: let it stand "
                f"{clock(move.for_s)}, stir, read again."
            )
        case Next.STIR_AND_READ:
            return "Rest it, stir from the bottom up, and read while you stir."
        case Next.READ_AGAIN:
            return "Do not heat yet: stir and read again, in the middle of the cup."
        case Next.READ_ONCE_MORE if float(now.state.mean_c[0]) < target_c - NEAR_K:
            return (
                "Stir and read once more: little is known of this oven yet, and the next burst "
                "builds on this reading."
            )
        case Next.READ_ONCE_MORE if float(now.state.mean_c[0]) > target_c + NEAR_K:
            return (
                f"At about {mean} it is hotter than the target of {in_both(target_c)}: do not heat "
                "it; stir and read once more before you pour."
            )
        case Next.READ_ONCE_MORE:
            return (
                f"At about {mean} it is there: stir and read once more to be sure, or pour if your "
                "hands are full."
            )
        case Next.POUR:
            short = " The hot limit leaves no room for more." if move.limited else ""
            return f"Pour: {mean} and fused.{short}"
        case _:
            return _stop(limit_c, limited=move.limited)


def _stop(limit_c: float, *, limited: bool) -> str:
    if not limited:
        return (
            f"Too hot: stop heating. The limit is {in_both(limit_c)}. Leave the door shut if it "
            "smokes; otherwise set the cup down under the extraction, let it cool, then stir and "
            "read."
        )
    return (
        f"No further burst keeps the hottest place under {in_both(limit_c)}: let it stand a "
        "minute, stir well, read again; or pour what is fused, or enter the data sheet's flash "
        "point."
    )


def _looks_like(move: Move) -> str:
    gelled, fused = float(move.after.gelled[MEAN, 0]), float(move.after.fused[MEAN, 0])
    bottom = float(move.after.fused[BOTTOM, 0])
    if fused >= READY_FUSED:
        late = "; the bottom lags, so stir it up" if bottom < READY_FUSED else ""
        return f"It should look clear and runny{late}."
    if fused > 0.5:
        return "It should look runny but hazy: stir the bottom up."
    if gelled > 0.5:
        return "It should look like jelly and lumps: break it up and fold the bottom in."
    return "It should still be liquid: stir the settled resin up."
