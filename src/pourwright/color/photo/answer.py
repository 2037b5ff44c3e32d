"""What is told of a photo: its patches, its light, and each puck in it."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.base.band import Band
from pourwright.base.field import out
from pourwright.color.lab import LabBands


@dataclass(frozen=True, slots=True)
class SpotColor:
    """A puck's color."""

    name: str = out("What lies there")
    lab: LabBands = out("L*a*b* in daylight (D65, 2 degree observer)")
    xyz: tuple[float, ...] = out("Typical XYZ in daylight, white at Y = 100")
    srgb_hex: str = out("Typical color for a screen")
    in_gamut: bool = out("Whether a screen can show it; where not, the nearest it can")
    miss_de00: float = out("How far it may be off: nine in ten such readings lie within, CIEDE2000")
    reflectance: tuple[Band, ...] = out(
        "Likely reflectance at 400, 410 ... 700 nm, 0 to 1: a Wiener estimate, since many spectra "
        "share a color"
    )
    clipped_share: float = out("Share of its pixels with a channel at its end, 0 to 1")
    glare_share: float = out("Share of its pixels that mirror a lamp and were left out, 0 to 1")
    notes: tuple[str, ...] = out("What makes this one doubtful, and what to do")


@dataclass(frozen=True, slots=True)
class PatchCheck:
    """A patch as the others foretell it."""

    name: str = out("Its name")
    x_px: float = out("Where its middle was read, pixels from the left")
    y_px: float = out("Where its middle was read, pixels from the top")
    left_out_de00: float | None = out(
        "CIEDE2000 between the patch as published and as foretold by all the others; none where "
        "it was clipped and not used"
    )


@dataclass(frozen=True, slots=True)
class PhotoAnswer:
    """The colors in a photo, and how far to trust them."""

    wavelengths_nm: tuple[float, ...] = out("Band centers of the reflectances")
    spots: tuple[SpotColor, ...] = out("Each puck")
    patches: tuple[PatchCheck, ...] = out("Each patch of the target")
    left_out_median_de00: float = out("Middle of the patches' left-out misses, CIEDE2000")
    left_out_90_de00: float = out("Nine in ten patches are missed by less, CIEDE2000")
    light_ratio: float = out("Brightest light over darkest across the target")
    bend: float = out("Power by which the camera's curve was found to differ from a screen's")
    turned_deg: int = out(
        "How far the target was turned from the order of the taps, by the clock: 0, 90, 180, 270"
    )
    verdict: str = out("In words")
    notes: tuple[str, ...] = out("What was assumed, what dominates, what would narrow it")
