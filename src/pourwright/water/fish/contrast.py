"""How different two looks are to a fish, as a calculation."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.assume import width_notes
from pourwright.base.calc import calculation
from pourwright.base.draws import Draws
from pourwright.base.errors import NoAnswer
from pourwright.base.field import out
from pourwright.base.source import PRACTICE, published
from pourwright.water.fish.contrast_notes import assumed, unweighed
from pourwright.water.fish.contrast_question import ContrastInput
from pourwright.water.fish.dim import PHOTONS_PER_LX
from pourwright.water.fish.eye import NOISE
from pourwright.water.fish.species import KNOWN
from pourwright.water.fish.surroundings import LEAST_LX
from pourwright.water.fish.told_apart import Gaze, Telling
from pourwright.water.light import SOURCES as WATER_SOURCES


@dataclass(frozen=True, slots=True)
class ContrastAnswer(Telling):
    """What a fish's eye could tell of two looks side by side."""

    first_on_water: Telling = out("The first look against what lies behind it")
    second_on_water: Telling = out("The second look against what lies behind it")
    notes: tuple[str, ...] = out("What dominates, what is left out, what was assumed")


@calculation(
    "fish.contrast",
    purpose="how different two looks are to a fish",
    sources=(
        published("Vorobyev and Osorio, Proc. R. Soc. B 265 (1998) 351, noise of the cones"),
        published("Govardovskii et al., Vis. Neurosci. 17 (2000) 509, shape of the pigments"),
        published("Siddiqi et al., J. Exp. Biol. 207 (2004) 2471, brightness by one class of cone"),
        *(fish.source for fish in KNOWN.values()),
        NOISE.source,
        PHOTONS_PER_LX.source,
        *WATER_SOURCES,
        PRACTICE,
    ),
    example={
        "first": {"color_hex": "#c43a2e"},
        "second": {"color_hex": "#7d8c3a"},
        "species": "largemouth bass",
        "water": "green",
        "depth_m": 1.5,
    },
)
def fish_contrast(inputs: ContrastInput) -> ContrastAnswer:
    """Photons caught by each cone, their logarithms, and the noise that blurs them.

    Side by side, in steps of what the eye can only just tell: below 1 hard to tell, to 3 close,
    above clear (common practice). The bands run over noise, mosaic, chromophore and water.
    Raises: BadInput for a fish whose cones are not known; NoAnswer for a color no surface shows,
    a white disk's depth that no such water has, and a depth as dark as night.
    """
    draws = Draws(seed=inputs.seed)
    around = inputs.surroundings(draws)
    lit = around.light_lx if inputs.light_lx is None else inputs.light_lx
    if lit is not None and lit < LEAST_LX:
        raise NoAnswer(f"it is night to cones down there: {lit:.2g} lx at noon")
    gaze = Gaze(draws, inputs.eye(), around.white, light_lx=lit)
    first, second = (
        gaze.caught(name, around.light_of(look.sends(), look.lets()))
        for name, look in (("first", inputs.first), ("second", inputs.second))
    )
    behind = gaze.caught("background", around.water)
    looks = gaze.steps(first, second)
    widths = {"color_jnd": looks.color, "brightness_jnd": looks.brightness}
    told = looks.telling(draws)
    return ContrastAnswer(
        told.color_words,
        told.color_jnd,
        told.brightness_words,
        told.brightness_jnd,
        gaze.steps(first, behind).telling(draws),
        gaze.steps(second, behind).telling(draws),
        (*assumed(inputs), *width_notes(draws, widths), *unweighed(inputs)),
    )
