"""The color of one place in a photo, with its range and what makes it doubtful."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from pourwright.base.draws import Array, Draws
from pourwright.base.errors import NoAnswer
from pourwright.color.lab import LabBands
from pourwright.color.photo.answer import SpotColor
from pourwright.color.photo.calibrated import Calibrated
from pourwright.color.photo.facing import MOST_UNEVEN
from pourwright.color.photo.shape import likely_reflectance
from pourwright.color.photo.spot import Reading, Spot
from pourwright.spectrum.color_space import hex_of, lab_of, srgb_of
from pourwright.spectrum.difference import delta_e00
from pourwright.spectrum.light import white_xyz

_MOST_FULL = 0.5
_WORTH_SAYING = 0.05
# More than this is no mirror image of a lamp; estimate.
_MOST_GLARE = 0.3
_LIGHT_RULES = 0.4


def spot_color(draws: Draws, known: Calibrated, spot: Spot, read: Reading) -> SpotColor:
    """Color of a place. Raises: NoAnswer where most of it is at the bright end of a channel."""
    if read.full_share > _MOST_FULL:
        raise NoAnswer(
            f"{spot.name} is too bright to read: {read.full_share:.0%} of it is at the end of a "
            "channel; take the photo again with exposure turned down, or leave it out of the list"
        )
    xyz, covariance, from_light = known.xyz(read, spot.array())
    lab = lab_of(xyz + _missed(draws, covariance), white_xyz())
    # Lightness ends at black and white, however wide the doubt.
    lab[1:, 0] = np.clip(lab[1:, 0], min(0.0, lab[0, 0]), max(100.0, lab[0, 0]))
    screen, inside = srgb_of(xyz)
    light_rules = float(from_light[1, 1]) > _LIGHT_RULES * float(covariance[1, 1])
    return SpotColor(
        spot.name,
        LabBands(*(draws.band(lab[:, i]) for i in range(3))),
        tuple(float(v) for v in xyz),
        hex_of(screen),
        inside,
        float(np.quantile(delta_e00(lab[1:], lab[:1]), 0.9)),
        likely_reflectance(xyz, covariance),
        read.clipped_share,
        read.glare_share,
        tuple(_notes(read, xyz, light_rules=light_rules)),
    )


def _missed(draws: Draws, covariance: Array) -> Array:
    """Misses of a color, (draws + 1, 3), the first none."""
    scores = np.stack([draws.scores(axis) for axis in "XYZ"], axis=1)
    return np.asarray(scores @ np.linalg.cholesky(covariance).T)


def _notes(read: Reading, xyz: Array, *, light_rules: bool) -> Iterable[str]:
    if read.full_share > _WORTH_SAYING:
        yield (
            f"{read.full_share:.0%} of it is at the bright end of a channel, so it reads too "
            "dull; turn the exposure down"
        )
    if read.empty_share > _WORTH_SAYING:
        yield (
            f"{read.empty_share:.0%} of it has an empty channel: it may be deeper in color than "
            "the photo can hold"
        )
    if _WORTH_SAYING < read.glare_share <= _MOST_GLARE:
        yield (
            f"{read.glare_share:.0%} of it mirrors a lamp and was left out; move the lamp aside, "
            "or tip the puck"
        )
    if read.uneven > MOST_UNEVEN or read.glare_share > _MOST_GLARE:
        yield "it is uneven: flake, a shadow or an edge lies in it; read a smaller or other place"
    if float(xyz.min()) < 0:
        yield "it came out more colorful than any surface can be; do not trust it"
    if light_rules:
        yield (
            "the light where it lies is a guess carried over from the target: tap bare white card "
            "on both sides of it, or lay it closer to the target"
        )
