"""PVC plastisol for baits: about 300 parts of plasticizer to 100 of resin."""

from __future__ import annotations

import numpy as np

from pourwright.base.band import Band
from pourwright.base.draws import Array
from pourwright.base.source import PRACTICE, estimate, memory
from pourwright.matter.property import Property

COLD_DENSITY_G_ML = Property(
    "cold density of the plastic",
    Band(1.024, 1.052, 1.105),
    estimate("additive volumes: resin 1.40, diisononyl phthalate 0.972 g/mL, 150 to 500 phr"),
    "weigh a measured volume of the mixed jug",
)
HOT_DENSITY_G_ML = Property(
    "hot density of the plastic",
    Band(0.921, 0.949, 1.004),
    estimate("plasticizer expansion 7.0e-4 to 8.5e-4 per K over 155 K"),
    "mark the level of a cup cold and hot",
)
# Mass of a bait against cold density times cavity volume: the cavity is filled hot and topped up
# until the gate shuts, then the bait shrinks in volume but not in mass.
PACKED_RATIO = Property(
    "mass packed into a cavity against its cold fill",
    Band(0.94, 0.97, 1.0),
    estimate("hot fill at 0.90 of cold density, topped up through the gate while it cools"),
    "weigh five baits and compare with the cavity's volume",
)
DIFFUSIVITY_M2_S = Property(
    "thermal diffusivity of the plastic",
    Band(0.055e-6, 0.075e-6, 0.11e-6),
    estimate("conductivity 0.12 to 0.17 W/(m·K), density about 1000, heat capacity 1.6 to 2.1"),
    "time one mold: open it a little early and feel whether the thick place is still soft",
    logarithmic=True,
)
CONDUCTIVITY_W_MK = Property(
    "conductivity of the plastic",
    Band(0.12, 0.14, 0.17),
    estimate(
        "the usual course with heat, 0.144 at 25 and 0.123 at 170 °C; stiffer plasticized PVC is "
        "printed at 0.13 to 0.20, PVC-P data sheet of a thermal-analysis maker"
    ),
)
LINEAR_SHRINK = Property(
    "linear shrink from cavity to bait",
    Band(0.007, 0.017, 0.034),
    estimate("7 to 10 % of volume free, less what the gate tops up"),
    "measure one bait against its cavity",
)
SETS_FIRM_C = Property(
    "center temperature at which a bait comes out firm",
    Band(50.0, 60.0, 70.0),
    PRACTICE,
    "open one mold early and note when a bait keeps its shape",
)
HEAT_CAPACITY_RATIO = Property(
    "heat capacity of the plastic against the usual curve",
    Band(0.95, 1.0, 1.05),
    memory("Zabransky et al., heat capacities of liquids (plasticizers); Chang, J. Res. NBS 1977"),
)


# Share of resin by mass: 300 parts of plasticizer and 4 of stabilizer to 100 of resin.
_RESIN = 1 / (1 + 3.0 + 0.04)


def effusivity(conductivity_w_mk: Array, diffusivity_m2_s: Array) -> Array:
    """How much heat the plastic gives at a touch, W·s½/(m²·K): k / √α."""
    return np.asarray(conductivity_w_mk / np.sqrt(diffusivity_m2_s))


def plasticizer_heat_capacity_j_kgk(temp_c: Array) -> Array:
    """Specific heat of a phthalate plasticizer, 0 to 190 °C, J/(kg·K); a line within 1 %.

    Source: recommended values for DEHP by Zabransky et al., J. Phys. Chem. Ref. Data 39, 013103
    (2010), as an open property library carries them.
    """
    return np.asarray(1800 + 2.95 * (temp_c - 25))


def heat_capacity_j_kgk(temp_c: Array) -> Array:
    """Specific heat at 25 % resin, 0 to 250 °C, J/(kg·K).

    Mass mix of the plasticizer and a PVC curve with its glass step at 80 °C (Chang, J. Res. NBS
    82, 1977, from memory).
    """
    glassy = 950 + 3.2 * (temp_c - 25)
    liquid = 1480 + 1.9 * (temp_c - 85)
    step = 1 / (1 + np.exp(-(temp_c - 80) / 6))
    pvc = glassy * (1 - step) + liquid * step
    return np.asarray(_RESIN * pvc + (1 - _RESIN) * plasticizer_heat_capacity_j_kgk(temp_c))


def conductivity_w_mk(temp_c: Array) -> Array:
    """The usual course of `CONDUCTIVITY_W_MK` with heat, 0 to 250 °C.

    A quarter of resin at 0.165 and plasticizer at 0.137 falling by 0.19 mW to a kelvin (handbook
    values for phthalates and adipates carried by open property libraries, fitted by hand).
    """
    return np.asarray(_RESIN * 0.165 + (1 - _RESIN) * (0.137 - 1.9e-4 * (temp_c - 25)))
