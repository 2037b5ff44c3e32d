"""In what way the nearest color misses, in words."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.spectrum.difference import delta_e00

# Grayer than this a color has no hue to speak of; estimate.
_GRAY_CHROMA = 8.0
# What is told beside the largest part of a miss: at least this much of it, and visible.
_TOLD_SHARE = 0.4
_TOLD_LEAST = 1.0
_COMPASS = ("red", "yellow", "green", "blue")


def miss_in_words(wanted: Array, nearest: Array) -> str:
    """How the nearest color, L*a*b*, differs from the one wanted.

    >>> miss_in_words(np.array([50.0, 60.0, 0.0]), np.array([40.0, 40.0, 0.0]))
    'too dark and too dull'
    """
    parts = [_lightness(wanted, nearest)]
    if np.hypot(*wanted[1:]) < _GRAY_CHROMA:
        parts.append(_tinge(wanted, nearest))
    else:
        parts += [_chroma(wanted, nearest), _hue(wanted, nearest)]
    parts.sort(key=lambda part: -part[0])
    least = max(_TOLD_SHARE * parts[0][0], _TOLD_LEAST)
    told = [words for i, (size, words) in enumerate(parts) if not i or size >= least]
    return " and ".join([", ".join(told[:-1]), told[-1]] if told[1:] else told)


def _lightness(wanted: Array, nearest: Array) -> tuple[float, str]:
    moved = np.array([nearest[0], *wanted[1:]])
    return _apart(wanted, moved), "too dark" if nearest[0] < wanted[0] else "too light"


def _tinge(wanted: Array, nearest: Array) -> tuple[float, str]:
    moved = np.array([wanted[0], *nearest[1:]])
    return _apart(wanted, moved), f"too {_direction(nearest[1:] - wanted[1:])}"


def _chroma(wanted: Array, nearest: Array) -> tuple[float, str]:
    had, has = np.hypot(*wanted[1:]), np.hypot(*nearest[1:])
    moved = np.array([wanted[0], *(wanted[1:] * has / had)])
    return _apart(wanted, moved), "too dull" if has < had else "too bright"


def _hue(wanted: Array, nearest: Array) -> tuple[float, str]:
    size = np.hypot(*nearest[1:])
    if not size:
        return 0.0, ""
    turned = nearest[1:] / size * np.hypot(*wanted[1:])
    moved = np.array([wanted[0], *turned])
    return _apart(wanted, moved), f"too {_direction(turned - wanted[1:])}"


def _direction(shift: Array) -> str:
    quarter = round(float(np.degrees(np.arctan2(shift[1], shift[0]))) / 90)
    return _COMPASS[quarter % 4]


def _apart(one: Array, other: Array) -> float:
    return float(delta_e00(one, other))
