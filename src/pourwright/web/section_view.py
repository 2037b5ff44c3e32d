"""The pictures of the inside of a cup, laid out for an SVG."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.heat.field.forecast import SectionAnswer, SectionMoment
from pourwright.web.section_cells import Cells, cells
from pourwright.web.section_words import Lag, coolest_c, lag_of, state_words, whole
from pourwright.web.show import Settings

WIDTH = 320.0
_DRAWN_WIDE, _DRAWN_HIGH = 172.0, 190.0
_LEFT, _TOP, _GLASS, _UNDER = 10.0, 12.0, 5.0, 15.0
# The glass stands above the plastic by this share of it.
_RIM = 0.16
_LABELS_AT, _LABEL_GAP = 25.0, 42.0
# A shallow cup stands in a glass as high as its labels need.
_LEAST_BASE = _TOP + 2 * _LABEL_GAP + 8
# The bottom is read in the lowest layer, a little above the glass.
_BOTTOM_UP = 3.0


@dataclass(frozen=True, slots=True)
class Label:
    """A temperature beside the picture, and the place in the cup it stands for."""

    words: str
    reads: str
    y: float
    from_x: float
    from_y: float


@dataclass(frozen=True, slots=True)
class Panel:
    """The cup at one moment; coordinates in the box of its picture."""

    title: str
    moment: SectionMoment
    cells: Cells
    labels: tuple[Label, ...]
    words: str
    mean: str
    coolest: str
    hottest: str


@dataclass(frozen=True, slots=True)
class SectionPicture:
    """All moments in one geometry.

    The scales turn boxes into pixels; the cup's axis stands at `axis`, its plastic on `base`.
    """

    width: float
    height: float
    axis: float
    base: float
    scale_x: float
    scale_y: float
    glass: str
    label_x: float
    panels: tuple[Panel, ...]
    lag: Lag


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where the plastic stands in a picture, in pixels."""

    axis: float
    base: float
    half: float
    high: float
    px_mm: float


def section_picture(answer: SectionAnswer, settings: Settings) -> SectionPicture:
    """Where everything stands in every picture."""
    px_mm = min(_DRAWN_WIDE / (2 * answer.radius_mm), _DRAWN_HIGH / (answer.height_mm * (1 + _RIM)))
    half, high = answer.radius_mm * px_mm, answer.height_mm * px_mm
    base = max(_TOP + high * (1 + _RIM), _LEAST_BASE)
    frame = _Frame(_LEFT + _GLASS + half, base, half, high, px_mm)
    panels = []
    burst = 0
    for moment in answer.moments:
        burst += not moment.stirred
        panels.append(_panel(moment, burst, frame, settings))
    first = panels[0].cells
    return SectionPicture(
        width=WIDTH,
        height=round(frame.base + _UNDER, 1),
        axis=round(frame.axis, 1),
        base=round(frame.base, 1),
        scale_x=round(half / first.across, 4),
        scale_y=round(high / first.up, 4),
        glass=_glass(frame),
        label_x=round(frame.axis + half + _LABELS_AT, 1),
        panels=tuple(panels),
        lag=lag_of(answer.moments, settings),
    )


def _panel(moment: SectionMoment, burst: int, frame: _Frame, settings: Settings) -> Panel:
    return Panel(
        title=f"{'Stirred after' if moment.stirred else 'End of'} burst {burst}",
        moment=moment,
        cells=cells([r.temps_c for r in moment.rows]),
        labels=_labels(moment, frame, settings),
        words=state_words(moment),
        mean=whole(moment.mean_c, "c", settings),
        coolest=whole(coolest_c(moment), "c", settings),
        hottest=whole(moment.hottest_c, "c", settings),
    )


def _labels(moment: SectionMoment, frame: _Frame, settings: Settings) -> tuple[Label, ...]:
    hot_x = frame.axis + moment.hottest_radius_mm * frame.px_mm
    hot_y = frame.base - moment.hottest_height_mm * frame.px_mm
    places = (
        ("face reads", moment.face_c, frame.axis, frame.base - frame.high),
        ("hottest", moment.hottest_c, hot_x, hot_y),
        ("bottom", moment.bottom_c, frame.axis, frame.base - _BOTTOM_UP),
    )
    ys = _apart([y for *_, y in places], least=_TOP, most=frame.base)
    return tuple(
        Label(words, whole(celsius, "c", settings), round(at, 1), round(x, 1), round(y, 1))
        for at, (words, celsius, x, y) in zip(ys, places, strict=True)
    )


def _apart(ys: list[float], *, least: float, most: float) -> list[float]:
    """Places of labels from the top down, moved until none covers another."""
    placed: list[float] = []
    for y in ys:
        placed.append(max(y, placed[-1] + _LABEL_GAP if placed else least))
    limit = most
    for i in reversed(range(len(placed))):
        placed[i] = min(placed[i], limit)
        limit = placed[i] - _LABEL_GAP
    return placed


def _glass(frame: _Frame) -> str:
    """The outline of the glass: wall, base and wall."""
    left, right = frame.axis - frame.half - _GLASS / 2, frame.axis + frame.half + _GLASS / 2
    return f"M{left:.1f} {_TOP:.1f}V{frame.base + _GLASS / 2:.1f}H{right:.1f}V{_TOP:.1f}"
