"""Twelve invented looks for the contact sheet, each after a forage animal.

The L*a*b* values of the animals are invented: what such an animal might read, wet, in daylight.
The drops were found by `color.match` and by trying, so that the layer's flat patch comes near those
values; pearl and the clearest layers were set by eye. Every material is invented too.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

Lab = tuple[float, float, float]

DROPS: Mapping[str, tuple[str, str]] = {
    "straw": ("dye", "#e3c33a"),
    "leaf": ("dye", "#5f8f3a"),
    "bark": ("dye", "#7a5230"),
    "ember": ("dye", "#c2452c"),
    "dusk": ("dye", "#36609c"),
    "soot": ("opaque", "#202022"),
    "chalk": ("opaque", "#f2f0e8"),
    "clay": ("opaque", "#b98a56"),
    "rust": ("opaque", "#d9602a"),
}
FLAKES: Mapping[str, tuple[str, float]] = {
    "silver flake": ("#c9ccd0", 0.4),
    "copper flake": ("#b0713a", 0.6),
    "gold flake": ("#c9a24a", 0.6),
    "black flake": ("#222226", 1.0),
    "green flake": ("#3f7f4a", 0.6),
    "blue flake": ("#3a5f9a", 0.6),
}
PEARLS = ("silver", "gold", "blue")
FILM_UM, DROP_G = 25, 0.035


@dataclass(frozen=True, slots=True)
class ContactLayer:
    """A layer: its share, the animal's color there, and grams or drops to 100 g of plastic."""

    share: float
    forage: Lab
    recipe: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class ContactLook:
    """A look in a bait, after an animal."""

    name: str
    after: str
    family: str
    layers: Mapping[str, ContactLayer]
    split: Mapping[str, Any]
    sight: Mapping[str, Any]

    def asked(self) -> dict[str, Any]:
        """What a picture of it takes, without the eye."""
        return {
            "family": {"kind": self.family},
            "split": dict(self.split),
            "sight": dict(self.sight),
            "layers": [
                {"place": place, "share": it.share,
                 "doses": [dose(name, amount) for name, amount in it.recipe.items()]}
                for place, it in self.layers.items()
            ],
        }  # fmt: skip


def dose(name: str, amount: float) -> dict[str, Any]:
    """A dose to 100 g: drops of a color, grams of flake or pearl."""
    found: dict[str, Any] = {"name": name, "per_100g": amount}
    if name in DROPS:
        sort, color_hex = DROPS[name]
        colorant: dict[str, Any] = {"kind": sort, "color_hex": color_hex}
        return found | {"drop_mass_g": DROP_G, "colorant": colorant}
    if name in FLAKES:
        color_hex, size_mm = FLAKES[name]
        colorant = {"kind": "flake", "color_hex": color_hex, "film_um": FILM_UM, "size_mm": size_mm}
    else:
        colorant = {"kind": "pearl_film", "grade": name.removesuffix(" pearl")}
    return found | {"measure": "grams", "colorant": colorant}


# Flat tails show from above, legs and claws from half above.
FLANK: Mapping[str, Any] = {}
ABOVE: Mapping[str, Any] = {"side": "back"}
HALF_ABOVE: Mapping[str, Any] = {"tilt_deg": 40}


def _plain(forage: Lab, recipe: Mapping[str, float]) -> dict[str, ContactLayer]:
    return {"body": ContactLayer(1.0, forage, recipe)}


LOOKS = (
    ContactLook(
        "Window minnow", "a glass-clear fry", "split_tail_minnow",
        _plain((88, -1, 3), {"silver flake": 0.12, "silver pearl": 0.02}), {}, FLANK,
    ),
    ContactLook(
        "Creek leech", "a leech off a stone", "ribbon_tail_worm",
        _plain((22, 4, 6), {"bark": 27, "soot": 3, "chalk": 10}), {}, ABOVE,
    ),
    ContactLook(
        "Stone shad", "a young shad", "paddle_tail",
        {
            "back": ContactLayer(0.35, (38, -4, -10), {"leaf": 2, "dusk": 8, "chalk": 6}),
            "belly": ContactLayer(0.65, (88, -1, 4), {"chalk": 14, "silver pearl": 0.4}),
        },
        {"line": "wavy"}, FLANK,
    ),
    ContactLook(
        "Brook perch", "a small perch", "paddle_tail",
        {
            "back": ContactLayer(
                0.4, (33, -9, 20), {"leaf": 19, "bark": 9, "chalk": 9, "black flake": 0.1}
            ),
            "belly": ContactLayer(0.5, (76, 2, 30), {"straw": 2, "chalk": 12, "clay": 2}),
            "vein": ContactLayer(0.1, (56, 42, 46), {"rust": 18, "chalk": 6}),
        },
        {"line": "poured by hand"}, FLANK,
    ),
    ContactLook(
        "Mud crayfish", "a crayfish before its molt", "craw",
        {
            "back": ContactLayer(0.6, (30, 8, 14), {"bark": 28, "chalk": 11, "copper flake": 0.12}),
            "belly": ContactLayer(0.4, (66, 24, 34), {"straw": 6, "ember": 3, "chalk": 23}),
        },
        {}, HALF_ABOVE,
    ),
    ContactLook(
        "Reed frog", "a frog in the reeds", "creature",
        {
            "back": ContactLayer(
                0.5, (44, -18, 34),
                {"straw": 6, "leaf": 12, "bark": 3, "chalk": 3, "green flake": 0.1},
            ),
            "belly": ContactLayer(0.5, (84, -2, 12), {"straw": 1, "chalk": 38}),
        },
        {}, HALF_ABOVE,
    ),
    ContactLook(
        "Rain worm", "a worm on wet asphalt", "worm",
        _plain((40, 22, 16), {"ember": 2.5, "dusk": 1, "chalk": 1, "copper flake": 0.1}), {}, FLANK,
    ),
    ContactLook(
        "Dark nymph", "a dragonfly nymph", "double_tail_grub",
        _plain(
            (38, -2, 22),
            {"leaf": 5, "bark": 8, "chalk": 8, "black flake": 0.1, "gold flake": 0.1},
        ),
        {}, ABOVE,
    ),
    ContactLook(
        "Pale shrimp", "a grass shrimp", "tube",
        _plain((78, 6, 14), {"straw": 0.5, "ember": 0.3, "chalk": 1, "gold pearl": 0.05}),
        {}, FLANK,
    ),
    ContactLook(
        "Shelf goby", "a goby on gravel", "curl_tail_grub",
        _plain((46, 4, 18), {"clay": 20, "soot": 1, "bark": 1, "black flake": 0.12}), {}, ABOVE,
    ),
    ContactLook(
        "Pond newt", "a newt in spring", "lizard",
        {
            "back": ContactLayer(
                0.6, (28, -4, 8), {"leaf": 6, "bark": 3, "soot": 1, "chalk": 3, "blue flake": 0.1}
            ),
            "belly": ContactLayer(0.4, (62, 38, 58), {"straw": 12, "rust": 10, "chalk": 20}),
        },
        {}, HALF_ABOVE,
    ),
    ContactLook(
        "Ice smelt", "a smelt under the ice", "paddle_tail",
        {
            "back": ContactLayer(0.3, (52, -8, -2), {"leaf": 2, "dusk": 4, "chalk": 6}),
            "belly": ContactLayer(0.5, (86, 0, 2), {"blue pearl": 0.08}),
            "vein": ContactLayer(0.08, (80, 0, 0), {"silver pearl": 2.0}),
            "core": ContactLayer(0.12, (80, 0, 6), {"chalk": 10}),
        },
        {"line": "wavy"}, FLANK,
    ),
)  # fmt: skip
