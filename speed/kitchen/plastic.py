"""The invented plastisols: every curve drawn anew, so that nobody can know it beforehand.

Levels lie near those of PVC in phthalate-like plasticizers (from memory); slopes, kinetics and
viscosity are forms of this kitchen's own. No real product is meant.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from speed.kitchen.draws import Array, Luck

ZERO_C_IN_K = 273.15
BASE_C = 25.0
"""Enthalpy is counted from here."""
GAS_J_MOLK = 8.314462618
DEEPEST_M = 0.20


@dataclass(frozen=True, slots=True, eq=False)
class Plastic:
    """Each array of shape (n,). `_energy_k` is an activation energy over the gas constant.

    Heat capacity and conductivity are straight lines about 25 °C. `depth_m` is the power
    penetration depth where the loss peaks. Rates hold at the reference temperatures.
    """

    heat_j_kgk: Array
    heat_slope_per_k: Array
    conduct_w_mk: Array
    conduct_slope_per_k: Array
    density_kg_m3: Array
    swell_per_k: Array
    depth_m: Array
    loss_peak_k: Array
    loss_energy_k: Array
    gel_at_k: Array
    gel_energy_k: Array
    gel_per_s: Array
    gel_quick_share: Array
    fuse_at_k: Array
    fuse_energy_k: Array
    fuse_per_s: Array
    ln_sol_pas: Array
    sol_energy_k: Array
    ln_gel_pas: Array
    ln_melt_pas: Array
    melt_energy_k: Array
    mixing_gain: Array
    mixing_power: Array
    mixing_cap: Array


def draw_plastic(luck: Luck) -> Plastic:
    """One plastic for each stream."""
    return Plastic(
        heat_j_kgk=1590 * luck.uniform(0.95, 1.05),
        heat_slope_per_k=luck.uniform(1.2e-3, 3.0e-3),
        conduct_w_mk=0.144 * luck.uniform(0.90, 1.15),
        conduct_slope_per_k=luck.uniform(3e-4, 1.6e-3),
        density_kg_m3=1052 * luck.uniform(0.97, 1.03),
        swell_per_k=luck.uniform(5.8e-4, 8.8e-4),
        depth_m=luck.uniform(0.05, 0.11),
        loss_peak_k=ZERO_C_IN_K + luck.uniform(60, 130),
        loss_energy_k=luck.uniform(12e3, 22e3) / GAS_J_MOLK,
        gel_at_k=ZERO_C_IN_K + luck.uniform(85, 112),
        gel_energy_k=luck.uniform(70e3, 130e3) / GAS_J_MOLK,
        gel_per_s=1 / luck.uniform(25, 60),
        gel_quick_share=luck.uniform(0.3, 0.7),
        fuse_at_k=ZERO_C_IN_K + luck.uniform(152, 168),
        fuse_energy_k=luck.uniform(140e3, 240e3) / GAS_J_MOLK,
        fuse_per_s=1 / luck.uniform(20, 50),
        ln_sol_pas=np.log(luck.uniform(0.5, 4)),
        sol_energy_k=luck.uniform(1500, 3000),
        ln_gel_pas=np.log(10) * luck.uniform(3.4, 4.5),
        ln_melt_pas=np.log(luck.uniform(0.8, 6)),
        melt_energy_k=luck.uniform(4000, 7000),
        mixing_gain=luck.uniform(0.2, 0.5),
        mixing_power=luck.uniform(0.22, 0.30),
        mixing_cap=luck.uniform(6, 16),
    )


def heat_capacity_j_kgk(plastic: Plastic, temp_c: Array) -> Array:
    """At the temperature; shape of `temp_c` (..., n)."""
    return plastic.heat_j_kgk * (1 + plastic.heat_slope_per_k * (temp_c - BASE_C))


def enthalpy_j_kg(plastic: Plastic, temp_c: Array) -> Array:
    """Above that at 25 °C: the integral of the heat capacity."""
    over = temp_c - BASE_C
    return plastic.heat_j_kgk * over * (1 + plastic.heat_slope_per_k * over / 2)


def temp_c_at(plastic: Plastic, enthalpy: Array) -> Array:
    """The inverse of `enthalpy_j_kg`, in a form that also holds for no slope at all."""
    over = enthalpy / plastic.heat_j_kgk
    return np.asarray(BASE_C + 2 * over / (1 + np.sqrt(1 + 2 * plastic.heat_slope_per_k * over)))


def conductivity_w_mk(plastic: Plastic, temp_c: Array) -> Array:
    """At rest, falling with temperature."""
    return plastic.conduct_w_mk * (1 - plastic.conduct_slope_per_k * (temp_c - BASE_C))


def density_kg_m3(plastic: Plastic, temp_c: Array) -> Array:
    """Falling as the volume grows in a straight line."""
    return plastic.density_kg_m3 / (1 + plastic.swell_per_k * (temp_c - BASE_C))


def absorption_per_m(plastic: Plastic, temp_c: Array) -> Array:
    """Share of the power lost per meter: a Debye peak over temperature (P. Debye, Polar
    Molecules, 1929: loss as 2x / (1 + x²) with x the relaxation time relative to the field).
    """
    late = plastic.loss_energy_k * (1 / (temp_c + ZERO_C_IN_K) - 1 / plastic.loss_peak_k)
    slow = np.exp(late)
    return np.maximum(2 / (plastic.depth_m * (slow + 1 / slow)), 1 / DEEPEST_M)


def ln_viscosity_pas(plastic: Plastic, temp_c: Array, gelled: Array, fused: Array) -> Array:
    """Logarithm of the viscosity: a sol, a stiff gel in between, a melt."""
    cold = 1 / (temp_c + ZERO_C_IN_K)
    sol = plastic.ln_sol_pas + plastic.sol_energy_k * (cold - 1 / 298.15)
    melt = plastic.ln_melt_pas + plastic.melt_energy_k * (cold - 1 / 443.15)
    set_in = gelled * gelled * (3 - 2 * gelled)
    return sol + set_in * (plastic.ln_gel_pas + fused * (melt - plastic.ln_gel_pas) - sol)
