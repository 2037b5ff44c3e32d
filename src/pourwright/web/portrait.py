"""The picture beside a record: a bait's outline and measures, a look's layers."""

from __future__ import annotations

from dataclasses import dataclass, replace

from pourwright.actions.port import Bench
from pourwright.actions.see_record import LOOK_MM, BaitView, LayerView, Ring, see_bait, see_look
from pourwright.base.units import UNITS
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait
from pourwright.shop.noun import Noun
from pourwright.web.show import Settings, exactly, opened, shown
from pourwright.web.thumb import Thumb

MARGIN_MM = 2.0


@dataclass(frozen=True, slots=True)
class Portrait:
    """A picture and the words under it."""

    layers: tuple[LayerView, ...] = ()
    path: str = ""
    view_box: str = ""
    words: tuple[str, ...] = ()
    thumb: Thumb | None = None


NOTHING = Portrait()


def portrait(bench: Bench, noun: Noun, settings: Settings) -> Portrait:
    """The picture of a record; empty for what has none."""
    if isinstance(noun, Bait):
        return _bait(see_bait(bench, noun), settings)
    if isinstance(noun, Look):
        layers = see_look(bench, noun)
        by = "By your pucks" if all(x.measured for x in layers) else "Uncalibrated"
        words = f"{by}, {LOOK_MM:g} mm thick, over white and over dark."
        return Portrait(layers=layers, words=(words,)) if layers else NOTHING
    return NOTHING


def _bait(view: BaitView, settings: Settings) -> Portrait:
    words = []
    if view.volume_ml is not None:
        volume = shown(view.volume_ml, UNITS["ml"], settings, UNITS["ml"])
        words.append(f"Volume {volume.value} ({volume.range})")
    if view.thickest_mm is not None:
        words.append(f"Thickest place {exactly(view.thickest_mm, UNITS['mm'], settings)}")
    if view.undercut:
        words.append(opened(view.undercut))
    return replace(outlined(view.outline_mm), words=tuple(words))


def outlined(rings: tuple[Ring, ...]) -> Portrait:
    """The outline of a bait, laid out for an SVG."""
    return Portrait(path=" ".join(_closed(ring) for ring in rings), view_box=_box(rings))


def _closed(ring: Ring) -> str:
    return "M" + "L".join(f"{x:.2f} {-y:.2f}" for x, y in ring) + "Z"


def _box(rings: tuple[Ring, ...]) -> str:
    if not rings:
        return ""
    xs = [x for ring in rings for x, _ in ring]
    ys = [-y for ring in rings for _, y in ring]
    left, top = min(xs) - MARGIN_MM, min(ys) - MARGIN_MM
    width, height = max(xs) - min(xs) + 2 * MARGIN_MM, max(ys) - min(ys) + 2 * MARGIN_MM
    return f"{left:.2f} {top:.2f} {width:.2f} {height:.2f}"
