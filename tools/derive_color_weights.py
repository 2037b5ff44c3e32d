"""Derive the tables of src/pourwright/spectrum from an open color-science library.

Needs `colour-science` 0.4.7, one of the development packages; the product never imports it. The
ASTM E2022 weighting factors of the CIE 1931 observer are folded onto 31 bands, 400 to 700 nm, the
ends taking what lies beyond them.
"""

from __future__ import annotations

import pathlib
from collections.abc import Iterable

import colour
import numpy as np
from colour.colorimetry.datasets.illuminants import sds_d_illuminant_series as daylight

ROOM = pathlib.Path(__file__).parents[1] / "src/pourwright/spectrum"
BANDS_NM = range(400, 701, 10)
FINE = colour.SpectralShape(360, 780, 1)
OBSERVER = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(FINE)


def smooth_light(name: str) -> colour.SpectralDistribution:
    """Power at 1 nm, interpolated; right for a light without lines."""
    return colour.SDS_ILLUMINANTS[name].copy().align(FINE)


def printed_light(name: str) -> colour.SpectralDistribution:
    """Power at the 5 nm steps of the printed table and none between.

    CIE 15 sums lamps with lines at those steps; a curve drawn through the lines would swing below
    zero beside them.
    """
    printed = colour.SDS_ILLUMINANTS[name]
    at = {round(nm): power for nm, power in zip(printed.wavelengths, printed.values, strict=True)}
    fine = [float(at.get(round(nm), 0.0)) for nm in FINE.wavelengths]
    return colour.SpectralDistribution(fine, FINE.wavelengths)


def even_light() -> colour.SpectralDistribution:
    """The same power everywhere: leaves the eye alone."""
    return colour.SpectralDistribution(np.ones(len(FINE.wavelengths)), FINE.wavelengths)


def weights(light: colour.SpectralDistribution) -> np.ndarray:
    """XYZ weights per band, shape (31, 3), white at Y = 100."""
    factors = colour.colorimetry.tristimulus_weighting_factors_ASTME2022(
        OBSERVER, light, colour.SpectralShape(360, 780, 10)
    )
    wavelength = np.arange(360, 781, 10)
    inside = (wavelength >= BANDS_NM[0]) & (wavelength <= BANDS_NM[-1])
    folded = factors[inside].copy()
    folded[0] += factors[wavelength < BANDS_NM[0]].sum(axis=0)
    folded[-1] += factors[wavelength > BANDS_NM[-1]].sum(axis=0)
    return folded


WEIGHTS_HEAD = '''\
"""XYZ weights of 31 bands, 400 to 700 nm by 10, CIE 1931 2° observer, white at Y = 100.

Derived by tools/derive_color_weights.py with the ASTM E2022 weighting factors of an open
color-science library; the end bands take what lies beyond them. OFFICE is CIE FL11, LED is CIE
LED-B3, EYE a light of even power: it times a power of your own gives that light's weights.
"""

from __future__ import annotations

Row = tuple[float, float, float]
'''

BASIS_HEAD = '''\
"""The three curves of CIE daylight on 31 bands, 400 to 700 nm by 10.

The printed values of CIE 15:2004, table T.2 (Judd, MacAdam and Wyszecki, JOSA 54 (1964) 1031),
written down by tools/derive_color_weights.py from an open color-science library.
"""

from __future__ import annotations
'''

PATCH_HEAD = '''\
"""Reflectance of the 24 patches of a camera test target on 31 bands, 400 to 700 nm by 10.

The printed values of ISO 17321-1:2012, which are those of N. Ohta, The Basis of Color
Reproduction Engineering (1997); written down by tools/derive_color_weights.py from an open
color-science library. Left to right, row by row, six to a row.
"""

from __future__ import annotations
'''


def weight_lines() -> Iterable[str]:
    """The module of weights."""
    yield WEIGHTS_HEAD
    lights = {
        "D65": smooth_light("D65"),
        "A": smooth_light("A"),
        "OFFICE": printed_light("FL11"),
        "LED": printed_light("LED-B3"),
        "EYE": even_light(),
    }
    for name, light in lights.items():
        yield f"\n{name}: tuple[Row, ...] = (\n"
        for x, y, z in weights(light):
            yield f"    ({x:.6f}, {y:.6f}, {z:.6f}),\n"
        yield ")\n"


def basis_lines() -> Iterable[str]:
    """The module of daylight's curves."""
    yield BASIS_HEAD
    for name, curve in daylight.SDS_BASIS_FUNCTIONS_CIE_ILLUMINANT_D_SERIES.items():
        yield f"\n{name} = (\n"
        yield from _wrapped([float(curve[nm]) for nm in BANDS_NM], indent=4)
        yield ")  # fmt: skip\n"


def patch_lines() -> Iterable[str]:
    """The module of patches."""
    yield PATCH_HEAD
    yield "\nPATCHES: dict[str, tuple[float, ...]] = {\n"
    for name, reflectance in colour.SDS_COLOURCHECKERS["ISO 17321-1"].items():
        yield f'    "{_plain(name)}": (\n'
        yield from _wrapped([float(reflectance[nm]) for nm in BANDS_NM], indent=8)
        yield "    ),\n"
    yield "}  # fmt: skip\n"


def _wrapped(values: list[float], *, indent: int) -> Iterable[str]:
    for start in range(0, len(values), 8):
        row = ", ".join(f"{round(v, 4) + 0.0:g}" for v in values[start : start + 8])
        yield f"{' ' * indent}{row},\n"


def _plain(name: str) -> str:
    bare = name.split(" (", maxsplit=1)[0].replace("neutral", "gray")
    return bare.split(" ")[0] if bare.startswith(("white", "black")) else bare


def main() -> None:
    """Write the three modules."""
    (ROOM / "weights.py").write_text("".join(weight_lines()), encoding="utf-8")
    (ROOM / "daylight_basis.py").write_text("".join(basis_lines()), encoding="utf-8")
    (ROOM / "patch_table.py").write_text("".join(patch_lines()), encoding="utf-8")


if __name__ == "__main__":
    main()
