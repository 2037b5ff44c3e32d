"""An invented shelf with known constants, and pucks read off it without error."""

from __future__ import annotations

from typing import Any

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.slab import Placing, reflectance
from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.light import WAVELENGTHS_NM, white_xyz, xyz_of

_X = WAVELENGTHS_NM


def _band(center: float, width: float) -> Array:
    return np.asarray(np.exp(-0.5 * ((_X - center) / width) ** 2))


def _edge(center: float, width: float) -> Array:
    return np.asarray(1 / (1 + np.exp((_X - center) / width)))


# Per mm for 1 g in 100 g: absorption, reduced scattering.
COLORANTS: dict[str, tuple[Array, Array]] = {
    "white": (0.002 + 0.3 * _edge(405, 6), 4.0 * (_X / 550) ** -0.8),
    "red": (3.0 * _edge(580, 12) + 0.01, 0.5 * (_X / 550) ** -1.0),
    "yellow": (2.5 * _edge(495, 10) + 0.004, 0.3 * (_X / 550) ** -1.0),
    "blue": (2.2 * _band(620, 45) + 0.8 * _band(680, 30) + 0.02, 0.15 * (_X / 550) ** -1.5),
}
PLASTIC = (0.0005 + 0.003 * np.exp(-(_X - 400) / 60), 0.008 * (_X / 550) ** -1.3)
GROUNDS = {"white": np.full(len(_X), 0.86), "black": np.full(len(_X), 0.045)}
DROP_G = 0.035


def spectrum(
    drops: dict[str, float], *, thick_mm: float, ground: Array, placing: Placing = Placing.CONTACT
) -> Array:
    """Reflectance of a puck of so many drops in 100 g."""
    absorb, scatter = PLASTIC
    for name, count in drops.items():
        absorb = absorb + count * DROP_G * COLORANTS[name][0]
        scatter = scatter + count * DROP_G * COLORANTS[name][1]
    return reflectance(absorb * thick_mm, scatter * thick_mm, ground, placing)


def lab(drops: dict[str, float], **how: Any) -> Array:
    """The same as L*a*b*."""
    return np.asarray(lab_of(xyz_of(spectrum(drops, **how)), white_xyz()))


def read(values: Array) -> dict[str, Any]:
    """A reading as JSON."""
    if len(values) == len(_X):
        return {"reflectance": [float(v) for v in values]}
    return {"lab": {"lightness": float(values[0]), "a": float(values[1]), "b": float(values[2])}}


def puck(
    name: str,
    drops: dict[str, float],
    *,
    instrument: str = "color meter",
    thick_mm: float = 5,
    **more: Any,
) -> dict[str, Any]:
    """A puck with its readings over both cards, as JSON."""  # fmt: skip
    show = spectrum if instrument == "spectrum" else lab
    bare = {
        n: g if instrument == "spectrum" else lab_of(xyz_of(g), white_xyz())
        for n, g in GROUNDS.items()
    }
    return {
        "name": name, "thick_mm": thick_mm, "instrument": instrument,
        "doses": [
            {"colorant": c, "grams_per_100g": n * DROP_G, "drops": n} for c, n in drops.items()
        ],
        "readings": [
            {"over": read(bare[n]), "read": read(show(drops, thick_mm=thick_mm, ground=g))}
            for n, g in GROUNDS.items()
        ],
        **more,
    }  # fmt: skip


def default_pucks(instrument: str = "color meter") -> list[dict[str, Any]]:
    """Plain, and a low, a high and a whitened puck of each colorant."""
    found = [puck("plain", {}, instrument=instrument)]
    for name in COLORANTS:
        found += [puck(f"{name} {n}", {name: n}, instrument=instrument) for n in (2, 8)]
        mixed = {name: 4.0, "white": 2.0} if name != "white" else {"white": 1.0}
        found.append(puck(f"{name} mixed", mixed, instrument=instrument))
    return found


def unknowns() -> list[dict[str, Any]]:
    """The colorants to learn, as JSON."""
    return [{"name": n} for n in COLORANTS]


def shelf() -> list[dict[str, Any]]:
    """The shelf as measured bottles, as JSON."""
    return [
        {
            "name": n, "drop_mass_g": DROP_G, "price_per_kg_money": 80,
            "colorant": {
                "kind": "measured",
                "constants": {"absorb_mm": list(a), "scatter_mm": list(s)},
            },
        }
        for n, (a, s) in COLORANTS.items()
    ]  # fmt: skip


def plastic() -> dict[str, Any]:
    """The plastic as measured, as JSON."""
    return {"constants": {"absorb_mm": list(PLASTIC[0]), "scatter_mm": list(PLASTIC[1])}}
