"""What a thermometer check tells its maker to do, and what can hurt while doing it."""

from __future__ import annotations

from pourwright.base.units import in_both
from pourwright.heat.gun_pairs import Excess

CAUTIONS = (
    "Never a metal probe in a running oven: it sparks. Open the door, then measure.",
    "Dry the probe completely before it goes into hot plastic: a wet one makes it spit.",
    "Steam burns: come to the boiling pot from the side, in gloves, with the tip on a stiff wire.",
    "Plastic at 350 °F / 177 °C sticks and burns: gloves, sleeves, eye protection, extraction on.",
    "The supplier's data sheet and local codes come first.",
)
NOT_ON_WATER = (
    "Do not aim the gun at boiling water: steam and the cooled skin of the water make it read low, "
    "so it says nothing of hot plastic. Hold it against a checked probe instead."
)
# Beyond this nobody should correct a thermometer in the head: estimate.
REPLACE_K = 10.0
SMALL_K = 0.5
FAR_K = 30.0


def advice_of(
    bias_k: float, *, gun: bool, water: bool, excess: Excess | None, working_c: float, worth: bool
) -> tuple[str, ...]:
    """What to do with the bias found, plainest first."""
    said = [_take_off(bias_k)]
    if gun and not water:
        said.append("The probe is itself unchecked: boil a pot and enter what it reads.")
    if not gun:
        said.append(
            f"An offset found in boiling water is carried up to {in_both(working_c)} with the "
            "doubt of the probe's scale. For a gun, readings beside the probe near the "
            "temperature you pour at are worth more than any at the boiling point."
        )
    if excess is not None and excess.reach_k > FAR_K:
        said.append(
            f"The pairs lie around {in_both(excess.at_c)}. A gun errs otherwise when it is hot: "
            f"take some near {in_both(working_c)}."
        )
    if not worth:
        said.append("As it stands the check tells no more than guessing zero: repeat it.")
    return (*said, NOT_ON_WATER)


def _take_off(bias_k: float) -> str:
    size, side = (
        f"{abs(bias_k):.1f} K / {abs(bias_k) * 1.8:.1f} °F",
        "high" if bias_k > 0 else "low",
    )
    if abs(bias_k) > REPLACE_K:
        return f"It reads {size} {side}: change its battery, clean its lens, or replace it."
    if abs(bias_k) < SMALL_K:
        return "It reads true as far as this check can tell."
    return f"It reads {size} {side}. Keep the bias: the rounds then take it off every reading."
