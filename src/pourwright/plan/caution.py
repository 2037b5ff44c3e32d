"""What can hurt, and what to do about it. Common practice, no source."""

from __future__ import annotations

BURNS = (
    "Hot plastic sticks and burns. Face shield, heat gloves, long sleeves, extraction on; cup, "
    "injector, mold, salt and flake bone dry. Burned: cool running water for about 20 minutes, do "
    "not peel plastic off, see a doctor. Data sheet and local codes come first."
)
FUMES = (
    "Scorched vinyl gives off hydrogen chloride, which bites nose, eyes and lungs. Oven off, "
    "extraction on, out of the room until it is clear. Never leave a heating cup; on smoke the "
    "door stays shut. The data sheet, local codes and licensed practice come first."
)
PRESSURE = (
    "A mold that opens under push sprays hot plastic. Clamp first, keep face and hands out of line "
    "with parting line, vents and sprue; let the push go slack before you lift the injector, and "
    "the sprue set before you touch a clamp. Never hotter than the limit, never jerk or lean on a "
    "stuck plunger. "
) + BURNS
