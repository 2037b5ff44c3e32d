"""Write src/pourwright/color/slab_table.py: what a slab of plastic does to light, by our solver.

    python tools/build_slab_table.py

One node an octave of absorption and of reduced scattering times thickness, for a slab that
touches its ground and one that lies on it across a gap, each in air and in water. A bicubic curve
through the logarithms of these numbers misses the solver by 0.0003 of reflectance at most.
"""

from __future__ import annotations

import base64
import pathlib
import zlib

import numpy as np
from adding_doubling import angles, lying, touching

OUT = pathlib.Path(__file__).parents[1] / "src/pourwright/color/slab_table.py"
PLASTIC_INDEX = 1.5
WATER_INDEX = 1.333
# Mean cosine of a single scattering: pigments of 0.1 to 0.5 µm have 0.5 to 0.85, haze more;
# estimate.
FORWARD = 0.7
ABSORB_OCTAVES = (-13, 6)
SCATTER_OCTAVES = (-13, 8)
# What cannot be told from nothing; keeps the logarithm.
NOTHING = 1e-30


def nodes() -> np.ndarray:
    """Natural logarithms, shape (placing, number, absorb, scatter)."""
    absorb = 2.0 ** np.arange(ABSORB_OCTAVES[0], ABSORB_OCTAVES[1] + 1)
    scatter = 2.0 ** np.arange(SCATTER_OCTAVES[0], SCATTER_OCTAVES[1] + 1)
    a, s = (m.ravel() for m in np.meshgrid(absorb, scatter, indexing="ij"))
    air, water = angles(PLASTIC_INDEX), angles(PLASTIC_INDEX / WATER_INDEX)
    found = [put(a, s, at, FORWARD) for at in (air, water) for put in (touching, lying)]
    whole = np.stack([f.T.reshape(4, len(absorb), len(scatter)) for f in found])
    return np.log(np.maximum(whole, NOTHING))


def main() -> None:
    """Write the module."""
    packed = zlib.compress(nodes().astype("<f4").tobytes(), 9)
    words = base64.b85encode(packed).decode()
    lines = [words[i : i + 92] for i in range(0, len(words), 92)]
    OUT.write_text(
        '"""Written by tools/build_slab_table.py: what `color.slab` reads, one node an octave.\n'
        "\n"
        "`PACKED` holds 32-bit logarithms, zlib and base 85, shape (4, 4, absorb, scatter).\n"
        '"""\n\n'
        "from __future__ import annotations\n\n"
        f"ABSORB_OCTAVES = {ABSORB_OCTAVES}\nSCATTER_OCTAVES = {SCATTER_OCTAVES}\n\n"
        "PACKED = (\n" + "".join(f'    "{line}"\n' for line in lines) + ")\n"
    )


if __name__ == "__main__":
    main()
