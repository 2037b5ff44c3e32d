"""A kitchen of its own physics: microwave ovens, cups and plastics drawn at random, against which
the estimator of the product is judged. It shares no line and no number with the product.

Many cups cook side by side; every array counts them on its last axis.
"""

from speed.kitchen.cook import heat, rest
from speed.kitchen.cups import Cups, Ovens, draw_ovens, fresh_cups, held_j
from speed.kitchen.hands import add, draw_off, stir
from speed.kitchen.look import (
    bottom_c,
    bottom_fused,
    fused,
    hottest_c,
    mean_c,
    read_infrared,
    read_probe,
    read_while_stirring,
    stirred_surface_c,
    surface_c,
)
from speed.kitchen.rows import put, take

__all__ = [
    "Cups",
    "Ovens",
    "add",
    "bottom_c",
    "bottom_fused",
    "draw_off",
    "draw_ovens",
    "fresh_cups",
    "fused",
    "heat",
    "held_j",
    "hottest_c",
    "mean_c",
    "put",
    "read_infrared",
    "read_probe",
    "read_while_stirring",
    "rest",
    "stir",
    "stirred_surface_c",
    "surface_c",
    "take",
]
