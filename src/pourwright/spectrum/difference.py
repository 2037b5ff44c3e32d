"""How different two colors look."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array


def delta_e76(a: Array, b: Array) -> Array:
    """Distance in L*a*b* (CIE 1976)."""
    return np.asarray(np.linalg.norm(a - b, axis=-1))


def delta_e00(a: Array, b: Array) -> Array:
    """CIEDE2000 with unit weights.

    Source: Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21, eqs. 2 to 22.
    """
    c_bar7 = ((np.hypot(a[..., 1], a[..., 2]) + np.hypot(b[..., 1], b[..., 2])) / 2) ** 7
    stretch = 1 + 0.5 * (1 - np.sqrt(c_bar7 / (c_bar7 + 25.0**7)))
    l1, c1, h1 = _polar(a, stretch)
    l2, c2, h2 = _polar(b, stretch)
    gray = c1 * c2 == 0
    turn = (h2 - h1 + 180) % 360 - 180
    turn = np.where((turn == -180) & (h2 > h1), 180, turn)
    turn = np.where(gray, 0, turn)
    d_h = 2 * np.sqrt(c1 * c2) * np.sin(np.radians(turn / 2))
    apart = abs(h1 - h2) > 180
    h_bar = (h1 + h2) / 2
    h_bar = np.where(apart, np.where(h1 + h2 < 360, h_bar + 180, h_bar - 180), h_bar)
    h_bar = np.where(gray, h1 + h2, h_bar)
    l_bar, c_bar = (l1 + l2) / 2, (c1 + c2) / 2
    s_l, s_c, s_h = _weights(l_bar, c_bar, h_bar)
    light, chroma, hue = (l2 - l1) / s_l, (c2 - c1) / s_c, d_h / s_h
    cross = _rotation(c_bar, h_bar) * chroma * hue
    return np.sqrt(np.maximum(light**2 + chroma**2 + hue**2 + cross, 0))


def in_words(delta: float) -> str:
    """A CIEDE2000 difference in words; the steps are common practice, no source."""
    steps = ((1, "no difference to see"), (2, "hard to tell apart side by side"),
             (4, "close; seen side by side"), (8, "clearly different"))  # fmt: skip
    return next((words for limit, words in steps if delta < limit), "another color")


def _polar(lab: Array, stretch: Array) -> tuple[Array, Array, Array]:
    a = lab[..., 1] * stretch
    hue = np.degrees(np.arctan2(lab[..., 2], a)) % 360
    return lab[..., 0], np.hypot(a, lab[..., 2]), hue


def _weights(l_bar: Array, c_bar: Array, h_bar: Array) -> tuple[Array, Array, Array]:
    t = (
        1
        - 0.17 * np.cos(np.radians(h_bar - 30))
        + 0.24 * np.cos(np.radians(2 * h_bar))
        + 0.32 * np.cos(np.radians(3 * h_bar + 6))
        - 0.20 * np.cos(np.radians(4 * h_bar - 63))
    )
    off = (l_bar - 50) ** 2
    return 1 + 0.015 * off / np.sqrt(20 + off), 1 + 0.045 * c_bar, 1 + 0.015 * c_bar * t


def _rotation(c_bar: Array, h_bar: Array) -> Array:
    c7 = c_bar**7
    theta = 30 * np.exp(-(((h_bar - 275) / 25) ** 2))
    return np.asarray(-np.sin(np.radians(2 * theta)) * 2 * np.sqrt(c7 / (c7 + 25.0**7)))
