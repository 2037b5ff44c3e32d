"""How an eye or a camera gets used to a light."""

from __future__ import annotations

import numpy as np

from pourwright.base.draws import Array
from pourwright.spectrum.light import white_xyz

# Li and others, Color Res. Appl. 42 (2017) 703: CAT16.
_CONES = np.array(
    [
        [0.401288, 0.650173, -0.051461],
        [-0.250268, 1.204414, 0.045854],
        [-0.002079, 0.048952, 0.953127],
    ]
)


def adapted(white: Array, degree: float) -> Array:
    """The matrix that XYZ rows are multiplied with from the right, under a light whose white is so.

    `degree` 0 leaves them, 1 shows that white as daylight's of the same Y; XYZ of any scale.
    Source: Li and others (2017), von Kries' rule in the CAT16 cones.
    """
    seen = _CONES @ (white / white[1])
    wanted = _CONES @ (white_xyz() / 100)
    gains = degree * wanted / seen + 1 - degree
    return np.asarray((np.linalg.inv(_CONES) @ np.diag(gains) @ _CONES).T)
