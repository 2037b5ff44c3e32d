"""What an undercut means, in words."""

from __future__ import annotations

from pourwright.body.undercut import Caught, Undercut

# Under less of the shadow than this the hollows are not worth a word.
SLIGHT = 0.002
HARD = (
    "An overhang of over a third of the thickness is hard on the bait: turn it in the mold, or "
    "cast the mold in silicone, which gives way."
)


def held_by(held: Undercut, *, core_pin: bool) -> str:
    """What keeps two halves from coming off; empty if nothing does."""
    if core_pin or held.caught is Caught.BORE:
        return "the bore needs a core pin"
    if held.caught is Caught.SLOT:
        return f"the slot, {held.depth_mm:.1f} mm deep, needs a blade between the halves"
    if held.harmless:
        return ""
    return (
        f"a half reaches {held.depth_mm:.1f} mm under plastic {held.thick_mm:.1f} mm thick: "
        "the bait may tear or stick"
    )


def hold_notes(held: Undercut, *, core_pin: bool) -> tuple[str, ...]:
    """What to do about it; soft baits are pulled out of more than hard parts are."""
    if core_pin or held.caught is Caught.BORE:
        return ("Two halves cannot shape the bore: the mold needs a core pin.",)
    if held.caught is Caught.SLOT:
        return ("Two halves cannot shape the slot: clamp a blade between them, or cut it after.",)
    if not held.harmless:
        return (HARD,)
    return () if held.share < SLIGHT else (_soft(held),)


def _soft(held: Undercut) -> str:
    return (
        f"Halves reach {held.depth_mm:.1f} mm under {held.share:.0%} of the shadow, where the bait "
        f"is {held.thick_mm:.1f} mm thick; soft plastic stretches out of that."
    )
