"""A bait in the water, laid out for its page."""

from __future__ import annotations

import json
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from pourwright.actions.port import Bench
from pourwright.actions.see_swim import SwimSeen, SwimWish, first_swim, see_swim
from pourwright.actions.swim_density import OtherPlastic, other_plastics
from pourwright.base.band import Band
from pourwright.base.errors import BadInput
from pourwright.blend.hang import HangAnswer, HangInput
from pourwright.blend.rig import lead_notes
from pourwright.blend.sink import SinkAnswer, SinkInput
from pourwright.body.measure import MeasureAnswer
from pourwright.plan.batch_plan import Figure
from pourwright.shop.mold import Bait
from pourwright.web.form import Typed, parsed, texts_of
from pourwright.web.question.note import Notes, sorted_notes
from pourwright.web.show import Settings, opened, percent
from pourwright.web.widget import FormView, form_view, word

XY = tuple[float, float]
_LINE_SHARE, _MARGIN_SHARE = 0.45, 0.12
_DENSITY = "/questions/blend.density"
_STEEP_DEG, _OVER_DEG = 60.0, 120.0


@dataclass(frozen=True, slots=True)
class Hung:
    """The bait on its line, laid out for an SVG in mm."""

    path: str
    line: tuple[float, float, float, float]
    spots: tuple[tuple[float, float, float, str], ...]
    view_box: str
    words: str


@dataclass(frozen=True, slots=True)
class Blend:
    """A question to the blending of the plastic, ready to send."""

    label: str
    address: str
    inputs: str


@dataclass(frozen=True, slots=True)
class WaterView:
    """The form, and what becomes of the bait."""

    form: FormView
    rigged: bool
    lead: str
    words: str
    figures: tuple[Figure, ...]
    hung: Hung | None
    blends: tuple[Blend, ...]
    notes: Notes | None


def water_view(
    bench: Bench, bait: Bait, measured: MeasureAnswer, asked: Typed, settings: Settings
) -> WaterView:
    """What the water does with a bait; `asked` is the form as sent, or nothing."""
    fresh = first_swim(bench, bait)
    typed = asked or texts_of(SwimWish, fresh, settings.system)
    found = parsed(SwimWish, typed, settings, fresh)
    problems: Mapping[str, str] = found.problems
    seen = None
    if not problems:
        try:
            seen = see_swim(bench, bait, measured, found.record)
        except BadInput as error:
            problems = {error.field: error.why}
    form = form_view(SwimWish, typed, problems=problems, settings=settings, references=lambda _: ())
    rigged = bool(asked)
    if seen is None:
        return WaterView(form, rigged, "", "", (), None, (), None)
    return WaterView(
        form=form,
        rigged=rigged,
        lead=next(iter(lead_notes(seen.weights)), ""),
        words=_words(seen),
        figures=tuple(_figures(seen.sinks, seen.hangs)),
        hung=_hung(seen, found.record),
        blends=tuple(map(_blend, other_plastics(seen))),
        notes=_notes(seen, settings),
    )


def _words(seen: SwimSeen) -> str:
    """Whether it sinks, how it lies, how it hangs."""
    share = seen.sinks.sinks_share
    if share > 0.95:
        goes = "It sinks"
    elif share < 0.05:
        goes = "It floats"
    else:
        goes = f"Close to neutral: it sinks in {percent(share)} of the cases"
    return f"{goes}, {seen.sinks.attitude.value}. On its line it hangs {_hanging(seen.hangs)}."


def _hanging(hangs: HangAnswer) -> str:
    """How it sits on its line; steeper than a slant, an end is down."""
    angle = hangs.on_line_deg.typical if hangs.on_line_deg else 0.0
    if _STEEP_DEG < abs(angle) < _OVER_DEG:
        return "nose down" if angle > 0 else "tail down"
    return hangs.on_line.value


def _figures(sinks: SinkAnswer, hangs: HangAnswer) -> Iterable[Figure]:
    down = sinks.speed_m_s
    rises = down.typical < 0
    yield _figure(
        "speed_m_s", "Rises at" if rises else "Sinks at",
        Band(-down.high, -down.typical, -down.low) if rises else down, "m_s", sinks.notes,
        "drag against net weight, at steady speed",
    )  # fmt: skip
    if sinks.to_depth_s is not None:
        yield _figure(
            "to_depth_s", "Time to 10 ft (3 m)", sinks.to_depth_s, "s", sinks.notes,
            "depth over steady speed",
        )  # fmt: skip
    yield _figure(
        "net_g", "Weighs in the water", sinks.net_g, "g", sinks.notes, "Archimedes' principle"
    )
    if hangs.on_line_deg is not None:
        yield _figure(
            "on_line_deg", "Nose down by, on the line", hangs.on_line_deg, "deg", hangs.notes,
            "moments of weight and buoyancy about the tie point, at rest",
        )  # fmt: skip


def _figure(
    key: str, label: str, value: Band, unit: str, notes: tuple[str, ...], source: str
) -> Figure:
    narrow = tuple(opened(n.partition(": ")[2]) for n in notes if n.startswith(f"{key}: "))
    inputs = ("the bait's volume, weight and shape", "hook and weight", "the water")
    return Figure(key, label, value, unit, inputs, source, narrow)


def _notes(seen: SwimSeen, settings: Settings) -> Notes:
    told = sorted_notes(seen.sinks.notes, SinkInput, SinkAnswer, settings)
    more = sorted_notes(seen.hangs.notes, HangInput, HangAnswer, settings)
    mind = tuple(dict.fromkeys((*told.mind, *more.mind)))
    return Notes(mind, (), (), told.stand_ins)


def _blend(it: OtherPlastic) -> Blend:
    tree = {"additive": it.additive.value, "target_g_ml": round(it.density_g_ml, 3)}
    words = f"{opened(it.way.value)}: {it.density_g_ml:.3f} g/mL, by {word(it.additive).lower()}"
    return Blend(words, _DENSITY, json.dumps(tree))


def _hung(seen: SwimSeen, wish: SwimWish) -> Hung:
    """Turned about its tie point, which the line holds up, or down where it floats."""
    angle = math.radians(seen.hangs.on_line_deg.typical if seen.hangs.on_line_deg else 0.0)
    tie = (wish.tie_at_mm, wish.tie_up_mm)
    rings = [[_turned(p, tie, angle) for p in ring] for ring in seen.outline_mm]
    long = max(x for ring in seen.outline_mm for x, _ in ring)
    end = -_LINE_SHARE * long if seen.sinks.net_g.typical >= 0 else _LINE_SHARE * long
    spots = tuple(
        (*_turned((w.at_mm, w.up_mm), tie, angle), round(radius, 2), w.name)
        for w, radius in zip(seen.weights, seen.radii_mm, strict=True)
    )
    path = " ".join("M" + "L".join(f"{x:.2f} {y:.2f}" for x, y in r) + "Z" for r in rings)
    points = [*(p for r in rings for p in r), (0.0, end), *((x, y) for x, y, _, _ in spots)]
    return Hung(path, (0.0, 0.0, 0.0, round(end, 2)), spots, _box(points, long), _words(seen))


def _turned(point: tuple[float, float], tie: tuple[float, float], angle: float) -> XY:
    """A place of the bait seen from the tie point; nose at the left, y down as SVG has it."""
    x, up = point[0] - tie[0], point[1] - tie[1]
    c, s = math.cos(angle), math.sin(angle)
    return round(x * c - up * s, 2), round(-(x * s + up * c), 2)


def _box(points: list[tuple[float, float]], long: float) -> str:
    xs, ys = zip(*points, strict=True)
    room = _MARGIN_SHARE * long
    left, top = min(xs) - room, min(ys) - room
    return f"{left:.1f} {top:.1f} {max(xs) - left + room:.1f} {max(ys) - top + room:.1f}"
