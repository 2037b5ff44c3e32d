"""Derive src/pourwright/spectrum/weights.py from a general color-science library.

Needs `colour-science` 0.4.7, which is not a dependency: run it in an environment of its own.
The ASTM E2022 weighting factors of the CIE 1931 observer are folded onto 31 bands, 400 to
700 nm, the ends taking what lies beyond them.
"""

from __future__ import annotations

import pathlib

import colour
import numpy as np

OUT = pathlib.Path(__file__).parents[1] / "src/pourwright/spectrum/weights.py"


def weights(light: str) -> np.ndarray:
    """XYZ weights per band, shape (31, 3), white at Y = 100."""
    fine = colour.SpectralShape(360, 780, 1)
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(fine)
    spectrum = colour.SDS_ILLUMINANTS[light].copy().align(fine)
    factors = colour.colorimetry.tristimulus_weighting_factors_ASTME2022(
        observer, spectrum, colour.SpectralShape(360, 780, 10)
    )
    wavelength = np.arange(360, 781, 10)
    inside = (wavelength >= 400) & (wavelength <= 700)
    folded = factors[inside].copy()
    folded[0] += factors[wavelength < 400].sum(axis=0)
    folded[-1] += factors[wavelength > 700].sum(axis=0)
    return folded


HEAD = '''"""XYZ weights of 31 bands, 400 to 700 nm by 10, CIE 1931 2° observer, white at Y = 100.

Derived by tools/derive_color_weights.py with the ASTM E2022 weighting factors of an open
color-science library; the end bands take what lies beyond them.
"""

from __future__ import annotations

Row = tuple[float, float, float]
'''


def main() -> None:
    """Write the module."""
    lines = [HEAD]
    for light in ("D65", "A"):
        lines.append(f"\n{light}: tuple[Row, ...] = (\n")
        lines.extend(f"    ({x:.6f}, {y:.6f}, {z:.6f}),\n" for x, y, z in weights(light))
        lines.append(")\n")
    OUT.write_text("".join(lines))


if __name__ == "__main__":
    main()
