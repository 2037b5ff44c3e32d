"""What stands in, and what is not weighed, in a fish's contrast."""

from __future__ import annotations

from collections.abc import Iterable

from pourwright.base.assume import left_out
from pourwright.water.fish.contrast_question import USUAL_DEPTH_M, ContrastInput
from pourwright.water.fish.eye import FEWEST_CONES
from pourwright.water.fish.species import known
from pourwright.water.fish.surroundings import GRAY_SHARE
from pourwright.water.kind import MEASURE, SPREAD


def assumed(inputs: ContrastInput) -> Iterable[str]:
    """What stands in for what was left out."""
    if inputs.species is not None:
        yield known(inputs.species).note
    if any(look.guessed for look in (inputs.first, inputs.second)):
        yield (
            "A color of three numbers is stood in for by the smoothest spectrum that shows it to "
            "us; a fish may see another one of the same color otherwise. To narrow it, measure the "
            "31 reflectances."
        )
    yield from _in_water(inputs) if inputs.water else _in_hand(inputs)
    if inputs.light_lx is None and inputs.water is None:
        yield "light_lx was left out: bright light, in which photons are plenty."
    yield from left_out(inputs)


def unweighed(inputs: ContrastInput) -> Iterable[str]:
    """What the steps leave out, and what they do not promise."""
    if len(inputs.eye().cones) == FEWEST_CONES:
        yield (
            "Two kinds of cone see one row of colors, from the light of short waves over gray to "
            "that of long ones; no hue in between has a place of its own."
        )
    yield (
        "Left out: how fine the eye sees, the color of its lens, its rods at night, light beyond "
        "400 to 700 nm, movement, scent and sound."
    )
    yield "What an eye could tell says nothing of whether the fish cares, or bites."


def _in_hand(inputs: ContrastInput) -> Iterable[str]:
    if not inputs.light:
        yield "water and light were left out: daylight at the surface stands in, close by."
    if not inputs.background:
        yield (
            f"background was left out: an even gray of {GRAY_SHARE:.0%} stands in, so that the "
            "steps against the water are a sketch."
        )


def _in_water(inputs: ContrastInput) -> Iterable[str]:
    if inputs.secchi_m is None:
        yield (
            f"What is in {inputs.water} water is our own round figure, good to a factor of "
            f"{SPREAD:g}. To replace it, {MEASURE}."
        )
    if inputs.depth_m is None:
        yield f"depth_m was left out: {USUAL_DEPTH_M:g} m stands in; deeper down colors fade."
    if inputs.away_m is None:
        yield "away_m was left out: the fish is close by; farther off all looks fade into water."
