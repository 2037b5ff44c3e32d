"""Draw the contact sheets of twelve looks: in the hand, and in four waters.

    python tools/look_contact_sheet.py

Writes docs/screenshots/looks-in-hand.png and looks-in-water.png, and prints how far each layer's
flat patch is from the animal it is after.
"""

from __future__ import annotations

import io
import sys
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tools"))

import numpy as np  # noqa: E402  needs the path above
from contact_looks import LOOKS, ContactLook  # noqa: E402
from PIL import Image, ImageDraw, ImageFont  # noqa: E402

from pourwright.base.record import from_json  # noqa: E402
from pourwright.forecast.picture.picture import PictureAnswer, look_picture  # noqa: E402
from pourwright.spectrum.color_space import hex_of, srgb_of, xyz_of_lab  # noqa: E402
from pourwright.spectrum.difference import delta_e00  # noqa: E402
from pourwright.spectrum.light import white_xyz  # noqa: E402
from pourwright.water.kind import WaterKind  # noqa: E402

OUT = ROOT / "docs" / "screenshots"
HAND_PIXELS, WATER_PIXELS, FLANK_PIXELS = 640, 400, 160
HAND_COLUMNS, DEPTH_M = 3, 1.5
# How far off each water still shows something.
AWAY_M = {
    WaterKind.CLEAR: 0.4, WaterKind.GREEN: 0.25, WaterKind.TEA: 0.25, WaterKind.MUDDY: 0.06,
}  # fmt: skip
TEXT, EDGE, SWATCH = 34, 12, 22
PAPER, INK = "#f7f6f2", "#22221f"
FACE = ImageFont.load_default(size=18)


def pictured(look: ContactLook, pixels: int, **more: Any) -> PictureAnswer:
    """A look as it would be poured."""
    asked = look.asked() | {"pixels": pixels} | more
    return look_picture(from_json(look_picture.takes, asked))


def image(answer: PictureAnswer) -> Image.Image:
    """The picture, to paste."""
    return Image.open(io.BytesIO(answer.picture.png()))


def in_hand() -> Image.Image:
    """Three to a row, each with its name and the animal's colors."""
    cells = [hand_cell(look) for look in LOOKS]
    wide, tall = cells[0].size
    rows = -(-len(cells) // HAND_COLUMNS)
    sheet = Image.new("RGB", (HAND_COLUMNS * wide, rows * tall), PAPER)
    for at, cell in enumerate(cells):
        sheet.paste(cell, (at % HAND_COLUMNS * wide, at // HAND_COLUMNS * tall))
    return sheet


def hand_cell(look: ContactLook) -> Image.Image:
    """One look with its caption."""
    answer = pictured(look, HAND_PIXELS)
    print(f"{look.name}: {misses(look)}; {answer.flakes} flakes")
    seen = image(answer)
    cell = Image.new("RGB", (seen.width + 2 * EDGE, seen.height + TEXT + EDGE), PAPER)
    cell.paste(seen, (EDGE, TEXT))
    pen = ImageDraw.Draw(cell)
    pen.text((EDGE, 8), f"{look.name}, after {look.after}", fill=INK, font=FACE)
    for at, layer in enumerate(look.layers.values()):
        left = cell.width - EDGE - (at + 1) * (SWATCH + 4)
        pen.rectangle((left, 6, left + SWATCH, 6 + SWATCH), fill=on_screen(layer.forage))
    return cell


def in_water() -> Image.Image:
    """A row to a look, a column to a water, beside its name."""
    rows = [[image(pictured(look, WATER_PIXELS, water=water)) for water in waters()]
            for look in LOOKS]  # fmt: skip
    wide, tall = rows[0][0].size
    size = len(WaterKind) * (wide + EDGE), TEXT + len(rows) * (tall + TEXT)
    sheet = Image.new("RGB", size, PAPER)
    pen = ImageDraw.Draw(sheet)
    for column, kind in enumerate(WaterKind):
        left = column * (wide + EDGE)
        pen.text(
            (left + 6, 8),
            f"{kind.value} water, {1000 * AWAY_M[kind]:.0f} mm away",
            fill=INK,
            font=FACE,
        )
        for row, cells in enumerate(rows):
            top = TEXT + row * (tall + TEXT)
            sheet.paste(cells[column], (left, top + TEXT))
            if column == 0:
                pen.text((6, top + 8), LOOKS[row].name, fill=INK, font=FACE)
    return sheet


def waters() -> list[dict[str, Any]]:
    """The four waters at one depth."""
    return [{"water": {"kind": kind.value, "depth_m": DEPTH_M}, "range_m": AWAY_M[kind]}
            for kind in WaterKind]  # fmt: skip


def misses(look: ContactLook) -> str:
    """How far each layer's flat patch, seen from the flank, is from its animal, in CIEDE2000."""
    answer = pictured(look, FLANK_PIXELS, sight={})
    seen = {patch.place: np.array(patch.lab) for patch in answer.patches}
    return ", ".join(
        f"{place} {float(delta_e00(seen[place], np.array(layer.forage))):.1f}"
        if place in seen else f"{place} hidden"
        for place, layer in look.layers.items()
    )  # fmt: skip


def on_screen(lab: tuple[float, float, float]) -> str:
    """A color for a screen."""
    return hex_of(srgb_of(xyz_of_lab(np.array(lab), white_xyz()))[0])


def main() -> None:
    """Both sheets, anew."""
    in_hand().save(OUT / "looks-in-hand.png", optimize=True)
    in_water().save(OUT / "looks-in-water.png", optimize=True)


if __name__ == "__main__":
    main()
