"""A solid as a page draws it: what a script needs, and what stands there until it runs."""

from __future__ import annotations

import json
from dataclasses import dataclass

from pourwright.web.portrait import Portrait
from pourwright.web.solid_scale import Scale

BAIT_MODES = (("plain", "Plain"), ("thickness", "Thickness"), ("filling", "Order of filling"))
PARTS = "parts"


@dataclass(frozen=True, slots=True)
class Mark:
    """A place worth a ring, or its label alone."""

    mode: str
    at_mm: tuple[float, float, float]
    label: str
    bare: bool = False

    @property
    def at(self) -> str:
        """Its place as JSON."""
        return json.dumps([round(v, 2) for v in self.at_mm])


@dataclass(frozen=True, slots=True)
class Drawing:
    """A bait with the ways to color it, or parts whose faces have colors of their own."""

    solid: str
    scales: tuple[Scale, ...]
    marks: tuple[Mark, ...]
    portrait: Portrait
    system: str
    modes: tuple[tuple[str, str], ...] = BAIT_MODES
    part_colors: tuple[str, ...] = ()

    @property
    def mode(self) -> str:
        """How it is colored at first."""
        return self.modes[0][0] if self.modes else PARTS

    @property
    def for_script(self) -> str:
        """The scales by the name of their mode, as JSON."""
        found: dict[str, object] = {s.key: s.for_script() for s in self.scales}
        if self.part_colors:
            found[PARTS] = {"colors": self.part_colors, "most": 1, "lines": ()}
        return json.dumps(found)
