"""The cautions of hot plastic, in short, for paper."""

from __future__ import annotations

from pourwright.render.pen import THICK, THIN, Pen
from pourwright.render.piece import Entries, Piece, entries
from pourwright.render.style import Style

# Common practice of the bench and of fire services; burns as first-aid guidelines say.
FIRE: Entries = (
    ("Watch", "Never leave a heating cup."),
    (
        "Fire",
        (
            "Smoke or flame: the door stays shut, switch off, unplug if safely reached, get out, "
            "call the fire service. Never water on it, never carry a smoking cup."
        ),
    ),
    (
        "Burned",
        "Cool running water, about 20 min. Do not peel off stuck plastic. See a doctor.",
    ),
)
CARE: Entries = (
    (
        "Oven",
        (
            "Never used for food again. One oven per rated circuit, no light extension cord. No "
            "metal inside: no probe, stirrer or injector."
        ),
    ),
    ("Wear", "Heat gloves, long sleeves and a face shield. No children or pets in the room."),
    ("Air", "Extract it outdoors: scorched plastic gives off HCl and plasticizer fumes."),
    ("Dry", "Everything bone dry: water flashes to steam and throws hot plastic."),
    ("Rules", "Local codes and the supplier's data sheet come first."),
)
_INSET = 5.0
_FIRE_SHARE = 0.43


def cautions(width: float, style: Style) -> Piece:
    """Two frames side by side: fire and burns first, then the care of every pour."""
    left = width * _FIRE_SHARE
    right = width - left - _INSET
    fire = entries(FIRE, left - 2 * _INSET, style)
    care = entries(CARE, right - 2 * _INSET, style)
    height = max(fire.height, care.height) + 2 * _INSET - 1

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.box(x, y, left, height, THICK)
        pen.box(x + left + _INSET, y, right, height, THIN)
        fire.draw(pen, x + _INSET, y + _INSET)
        care.draw(pen, x + left + 2 * _INSET, y + _INSET)

    return Piece(height, draw)
