"""In which order a bait fills from its gate, where it fills last, and its way as a chain."""

from __future__ import annotations

import base64
from dataclasses import dataclass

import numpy as np

from pourwright.base.calc import calculation
from pourwright.base.draws import Array
from pourwright.base.errors import BadInput
from pourwright.base.field import number, out
from pourwright.base.source import estimate, published
from pourwright.body.body_input import BodyInput
from pourwright.body.chain import ChainSlice, chain
from pourwright.body.filling import FillingMap, filling_map, nose_xy
from pourwright.body.last_place import LastPlace, last_places

# A map that loses more of the cavity behind necks too thin for it says so.
LOST = 0.001
GUIDE = (
    "A guide to the order, not a clock: the odds of a full shot weigh melt, mold and push. To "
    "check it, shoot short on purpose and look where the plastic stopped."
)
STRANDS = "Strands that lie above each other, as in a slit skirt, are seen as one."


@dataclass(frozen=True, slots=True, kw_only=True)
class FillingInput(BodyInput):
    """A bait, and where the plastic comes in."""

    gate_x_mm: float | None = number(
        "Gate, from the nose; left out, at the nose", low=-500, high=500, default=None
    )
    gate_y_mm: float | None = number("Gate, across the length", low=-500, high=500, default=None)
    slices: int = number("Slices of the chain, at most", low=4, high=120, default=40)

    def check(self) -> None:
        """A gate has two coordinates or none."""
        BodyInput.check(self)
        if (self.gate_x_mm is None) != (self.gate_y_mm is None):
            missing = "gate_x_mm" if self.gate_x_mm is None else "gate_y_mm"
            raise BadInput(missing, None, "is required with the other coordinate of the gate")


@dataclass(frozen=True, slots=True)
class FillingAnswer:
    """The order of filling, row by row from the top left, and what follows from it."""

    order_base64: str = out(
        "Share of the volume filled before each pixel, seen along the pull: 32-bit little-endian "
        "floats in base64, no number outside the bait"
    )
    rows: int = out("Rows of the map")
    columns: int = out("Pixels in a row")
    pixel_mm: float = out("Side of a pixel")
    left_mm: float = out("Where the left edge lies along the length")
    top_mm: float = out("Where the top edge lies across the length")
    gate_mm: tuple[float, float] = out("Where the plastic comes in, x and y")
    longest_mm: float = out("Longest way from the gate")
    dead_ends: tuple[LastPlace, ...] = out("Where it fills last, the very last first")
    chain: tuple[ChainSlice, ...] = out("The way as slices, for the odds of a full shot")
    notes: tuple[str, ...] = out("What the order rests on, and where air is left")


@calculation(
    "body.filling",
    purpose="in which order a bait fills, and where it fills last",
    sources=(
        published("White, Viscous Fluid Flow, 3rd ed. (2006), section 3-3: speed by gap squared"),
        published("Dijkstra, Numerische Mathematik 1 (1959): cheapest ways through a graph"),
        estimate("the front takes the cheapest way; skins and pauses are left out"),
    ),
    example={"family": {"kind": "craw"}},
)
def filling(inputs: FillingInput) -> FillingAnswer:
    """The front takes the cheapest way from the gate, a step costing its length over gap squared.

    The gap is the largest ball around a place whose middle lies in the parting plane. Ways are
    right within 3 %, volumes of the chain add up to that of the bait.
    Raises: BadInput for measures that do not go together.
    """
    solid = inputs.solid()
    gate = nose_xy(solid)
    if inputs.gate_x_mm is not None and inputs.gate_y_mm is not None:
        gate = (inputs.gate_x_mm, inputs.gate_y_mm)
    filled = filling_map(solid, gate)
    ends = last_places(filled)
    cells, left, top = _picture(filled)
    return FillingAnswer(
        order_base64=base64.b64encode(cells.astype("<f4").tobytes()).decode(),
        rows=cells.shape[0],
        columns=cells.shape[1],
        pixel_mm=filled.pitch_mm,
        left_mm=left,
        top_mm=top,
        gate_mm=gate,
        longest_mm=float(filled.path_mm[np.isfinite(filled.path_mm)].max()),
        dead_ends=ends,
        chain=chain(filled, inputs.slices, solid.volume()),
        notes=(*inputs.body_notes(), *_notes(filled, gate, len(ends))),
    )


def _picture(filled: FillingMap) -> tuple[Array, float, float]:
    """The order as rows from the top, and where left and top edge lie."""
    low = filled.xy.min(axis=0)
    column, row = np.rint((filled.xy - low) / filled.pitch_mm).astype(int).T
    cells = np.full((int(row.max()) + 1, int(column.max()) + 1), np.nan)
    cells[row.max() - row, column] = filled.order
    half = filled.pitch_mm / 2
    return cells, float(low[0]) - half, float(filled.xy[:, 1].max()) + half


def _notes(filled: FillingMap, gate: tuple[float, float], ends: int) -> tuple[str, ...]:
    away = float(np.hypot(*(filled.xy[filled.at(gate)] - gate)))
    places = "1 place fills" if ends == 1 else f"{ends} places fill"
    notes = [f"{places} after all around: vent each, 0.05 to 0.1 mm deep, or air stays there."]
    notes += [GUIDE, STRANDS]
    if away > 2 * filled.pitch_mm:
        notes.append(f"The gate lies {away:.1f} mm beside the bait; its nearest place was taken.")
    if filled.unreached_share > LOST:
        notes.append(
            f"{filled.unreached_share:.1%} of the cavity lies behind necks thinner than "
            f"{filled.pitch_mm:.2f} mm and is not counted in the order."
        )
    return tuple(notes)
