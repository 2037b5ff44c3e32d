"""What a maker is told beside the figures of a mold."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from pourwright.base.units import in_both
from pourwright.body.hold_words import held_by, hold_notes
from pourwright.body.loft import Solid
from pourwright.body.mold.answer import OneMore
from pourwright.body.mold.block import NOTCH_DEEP_MM
from pourwright.body.mold.fit import play_mm
from pourwright.body.mold.layout import Layout
from pourwright.body.mold.request import MoldInput
from pourwright.body.mold.wall import FIN_MM, STEEP_DEGREES, fin_mm2, steep_share
from pourwright.body.undercut import Caught, undercut
from pourwright.matter import plastisol
from pourwright.matter.mold_material import MoldMaterial, effusivity
from pourwright.physics.conduction import contact_c

# Hot plastic as it is shot, and a mold in use; common practice, no source.
MELT_C, MOLD_C = 175.0, 30.0
# Where ordinary printing filament goes soft, and what a print must stand; common practice.
FILAMENT_SOFT_C, RATED_C = (60.0, 80.0), 120.0
# Less than this hardly shows in a shot, or on a wall.
SMALL_SHARE, SMALL_MM2 = 0.03, 3.0


def lying() -> str:
    """How the files are to be read."""
    return (
        "Files are in millimeters, each part with its working face up and its lowest corner at "
        "the origin. A slicer or mill that asks for a unit wants millimeters."
    )


def waste(inputs: MoldInput, share: float, more: OneMore | None) -> Iterable[str]:
    """What leaves the mold as sprue, and what one cavity more would change."""
    cure = "Sprue and runner can be remelted; count the remelts."
    if more and more.waste_share < share:
        cure = (
            f"With {more.cavities} cavities instead of {inputs.cavities} it would be "
            f"{more.waste_share:.0%} of {more.shot_ml:.0f} mL, if the injector holds that. {cure}"
        )
    elif more:
        cure = f"One more cavity would not lower it: its runner takes too much. {cure}"
    yield f"{share:.0%} of a shot is feed and no bait. {cure}"


def gate(inputs: MoldInput, layout: Layout) -> Iterable[str]:
    """The gate that was chosen, if it was."""
    if inputs.gate_mm is None:
        yield (
            f"gate_mm was left out: {layout.size.gate_mm:.1f} mm stands in, half of the nose, 4 mm "
            "or the runner at most. A wider gate packs better, a narrower one breaks off cleaner."
        )


def balance(layout: Layout) -> Iterable[str]:
    """Cavities that begin to fill late."""
    if layout.late_share > SMALL_SHARE:
        yield (
            f"The cavity farthest from the sprue begins to fill when {layout.late_share:.0%} of "
            "the shot more is in than at the nearest: if it comes out short, widen the runner."
        )
    if layout.nest.turned:
        yield "Some cavities are turned over, so that more of their ends can be vented."


def vents(inputs: MoldInput, layout: Layout) -> Iterable[str]:
    """How air gets out, and where it does not."""
    if not inputs.vents:
        yield "Without vents the cavities keep part of their air: ends come out short and shiny."
    elif layout.outlets.shut:
        count = len(layout.outlets.shut)
        yield (
            f"{count} {'end has' if count == 1 else 'ends have'} no vent: air is caught there "
            "unless it creeps out between the halves. See the cure at each."
        )
    if layout.nest.pins:
        yield (
            f"Air leaves the open end along the core pin, through its play of "
            f"{play_mm(inputs.material):g} mm all around. Slits of the skirt are not molded: cut "
            "them when the bait is cold. Turn the pin from metal rod, polish it, and pull the bait "
            "off toward the nose."
        )


def wall(inputs: MoldInput, plastic: Solid) -> Iterable[str]:
    """Steep walls, and thin fins of mold."""
    steep, fins = steep_share(plastic), fin_mm2(plastic)
    if steep > SMALL_SHARE:
        yield (
            f"{steep:.0%} of the cavity's wall stands within {STEEP_DEGREES:g}° of the pull. A "
            "soft bait forgives that; a rigid casting on a rigid master needs release agent."
        )
    if fins > SMALL_MM2:
        risk = "break off plaster" if inputs.material is MoldMaterial.PLASTER else "break or bend"
        yield (
            f"Where parts of the bait lie closer than {FIN_MM:g} mm the mold is a thin fin, "
            f"{fins:.0f} mm² of it seen along the pull: such fins {risk}."
        )


def caught(inputs: MoldInput) -> Iterable[str]:
    """Undercuts that a maker must know of."""
    found = undercut(inputs.solid())
    if found.caught in {Caught.BORE, Caught.SLOT}:
        if not inputs.core_pin:
            yield (
                f"The bait has a {found.caught} that no half can shape: the halves will be caught "
                "in it. Fill it in the file, and cut or bore it afterwards."
            )
        return
    held = held_by(found, core_pin=False)
    if held:
        yield f"{held[:1].upper()}{held[1:]}."
    yield from hold_notes(found, core_pin=False)


def opened(plastic_ml: float, bait_ml: float) -> str:
    """What becomes of a bait in an open mold."""
    return (
        f"An open mold makes a bait with one flat side, as it lies under the pour: "
        f"{plastic_ml:.1f} mL instead of {bait_ml:.1f} mL whole. Set the mold level, and pour to "
        "the brim and no higher."
    )


def material(inputs: MoldInput) -> Iterable[str]:
    """What the material stands, and what working it takes."""
    made_of = inputs.material
    touch = touch_c(made_of)
    if made_of is MoldMaterial.PRINTED_RESIN:
        low, high = (in_both(soft_c) for soft_c in FILAMENT_SOFT_C)
        yield (
            f"Plastic at {in_both(MELT_C)} heats the skin of a printed mold to about "
            f"{in_both(touch)}. Ordinary filament softens between {low} and {high} and warps: take "
            f"a resin rated for {in_both(RATED_C)} or more, or print a master and cast the mold."
        )
    if made_of is MoldMaterial.PLASTER:
        yield (
            "Plaster must be bone dry before hot plastic goes in: water left in it flashes to "
            "steam and throws hot plastic. Dry it until it loses no more weight, then seal it."
        )
    if made_of is MoldMaterial.SILICONE:
        yield "Silicone gives under the push of an injector: back both halves with stiff boards."
    if made_of in {MoldMaterial.EPOXY, MoldMaterial.PRINTED_RESIN}:
        yield (
            "Uncured resin and its dust harm skin and lungs: gloves, a dust mask when sanding, "
            "and a full cure before heat. Follow its safety sheet."
        )
    if inputs.route.cast:
        yield (
            "Print the master in any filament: no hot plastic touches it. Seal it, use release "
            "agent, and let resin or silicone cool below the softening of the print as it cures. "
            "Tape the two corners of the box together. The casting's own shrink is not counted."
        )


def caution(inputs: MoldInput) -> str:
    """What hurts when a mold is filled."""
    burns = (
        "Hot plastic burns and its fumes irritate: long sleeves, gloves, eye protection and "
        "moving air."
    )
    if inputs.route.open:
        return f"{burns} Pour low and slowly, into a dry mold."
    if inputs.route.cast:
        return f"{burns} Clamp the castings between boards before pushing."
    notch = f"{NOTCH_DEEP_MM:g} mm deep notches"
    return f"{burns} Clamp before pushing; pry in the {notch}, never in a cavity."


def touch_c(material: MoldMaterial) -> float:
    """Temperature of a mold's skin at the moment hot plastic touches it."""
    conductivity = np.array(plastisol.CONDUCTIVITY_W_MK.typical)
    plastic = plastisol.effusivity(conductivity, np.array(plastisol.DIFFUSIVITY_M2_S.typical))
    return float(contact_c(MELT_C, plastic, MOLD_C, effusivity(material)))
