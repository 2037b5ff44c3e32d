"""Which way round a target lies: the turn in which its patches look most like themselves."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.base.draws import Array
from pourwright.base.errors import NoAnswer
from pourwright.base.picture import Picture
from pourwright.color.photo.corner import plane, through
from pourwright.color.photo.spot import Reading, reading
from pourwright.color.photo.target import Target

# Of the lightness of patches as photographed with that as printed. Bent curves and light that
# falls to a half keep above 0.9, patches in another order below 0.6; estimates.
_ALIKE = 0.85
# A strip is its own mirror image, up to the rounding of places to pixels.
_MIRROR_MARGIN = 0.05
_ACROSS = 16
_TURNS = 4
# Spread within a patch over its middle: print and noise stay below, an edge does not; estimate.
MOST_UNEVEN = 0.25
# A patch with more of its pixels at a channel's end tells nothing.
MOST_CLIPPED = 0.05
_LEAST_PATCHES = 3
# The ratio of light sent back by the lightest and the darkest patch, in logs, as a share of what
# was printed: a flat, foggy picture holds less; estimate.
_LEAST_CONTRAST = 0.35


@dataclass(frozen=True, slots=True)
class Seen:
    """The patches as they lie in the photo: what each shows, where, and the target's corners."""

    readings: tuple[Reading, ...]
    at: Array
    corners: Array
    turns: int

    @property
    def linear(self) -> Array:
        """Linear red, green and blue of each patch, (n, 3)."""
        return np.array([r.linear for r in self.readings])

    @property
    def full(self) -> NDArray[np.bool_]:
        """Which patches have a channel at its bright end."""
        return np.array([r.full_share > MOST_CLIPPED for r in self.readings])

    @property
    def empty(self) -> NDArray[np.bool_]:
        """Which patches have a channel at its dark end."""
        return np.array([r.empty_share > MOST_CLIPPED for r in self.readings])


def found(picture: Picture, target: Target, corners: Array) -> Seen:
    """The patches between four corners, whichever way round the target lies.

    Raises: NoAnswer where they are clipped, do not look like the target, or are its mirror image.
    """
    ways = [_seen(picture, target, corners, turns) for turns in range(_TURNS)]
    alike = [_likeness(target, seen) for seen in ways]
    best = int(np.argmax(alike))
    mirrored = max(
        _likeness(target, _seen(picture, target, corners[::-1], turns)) for turns in range(_TURNS)
    )
    if mirrored > max(alike[best] + _MIRROR_MARGIN, _ALIKE):
        raise NoAnswer(
            "the target is seen in a mirror: front cameras often turn pictures over; take the "
            "photo with the back camera"
        )
    _check(target, ways[best], alike[best])
    return ways[best]


def _seen(picture: Picture, target: Target, corners: Array, turns: int) -> Seen:
    turned = np.roll(corners, -turns, axis=0)
    view = plane(turned)
    centers = target.centers()
    cell = 0.5 / np.array([target.columns, target.rows])
    side = (np.arange(_ACROSS) + 0.5) / _ACROSS - 0.5
    grid = np.stack(np.meshgrid(side, side), axis=-1).reshape(-1, 2) * cell
    readings = []
    for center in centers:
        right, down = through(view, center + grid).astype(int).T
        readings.append(reading(picture.codes[down, right]))
    return Seen(tuple(readings), through(view, centers), turned, turns)


def _likeness(target: Target, seen: Seen) -> float:
    """Correlation of lightness as photographed with that as printed."""
    shown, printed = np.cbrt(seen.linear.mean(axis=1)), np.cbrt(target.xyz()[:, 1])
    if np.ptp(shown) < 1e-3:
        return 0.0
    return float(np.corrcoef(shown, printed)[0, 1])


def _check(target: Target, seen: Seen, alike: float) -> None:
    _refuse_clipped(target, seen)
    shown, printed = seen.linear.mean(axis=1) + 1e-4, target.xyz()[:, 1]
    contrast = np.log(shown.max() / shown.min()) / np.log(printed.max() / printed.min())
    uneven = float(np.median([r.uneven for r in seen.readings]))
    if alike < _ALIKE or contrast < _LEAST_CONTRAST or uneven > MOST_UNEVEN:
        raise NoAnswer(
            f"between the four corners the picture does not look like {target.label.lower()} "
            f"(likeness {alike:.2f} of 1, at least {_ALIKE} is needed): tap the outer corners of "
            "its four corner patches, and see that the whole target lies flat and in one light"
        )


def _refuse_clipped(target: Target, seen: Seen) -> None:
    full, count = int(seen.full.sum()), len(seen.readings)
    if full > count / 4 or count - full < _LEAST_PATCHES:
        names = ", ".join(n for n, f in zip(target.names, seen.full, strict=True) if f)
        raise NoAnswer(
            f"the photo is too bright: {full} of {count} patches are at the end of a channel "
            f"({names}); take it again with less light or exposure turned down"
        )
    if seen.empty.sum() > count / 2:
        raise NoAnswer(
            f"the photo is too dark: {int(seen.empty.sum())} of {count} patches have a channel "
            "that is empty; take it again with more light"
        )
