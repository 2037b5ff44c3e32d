"""A shot and its mold with the properties the whole house draws."""

from __future__ import annotations

from pourwright.base.draws import Array, Draws
from pourwright.base.errors import NoAnswer
from pourwright.base.units import in_both
from pourwright.heat.bait_in_mold import Mold, Shot
from pourwright.heat.mold_contact import MOLD_LOSS_W_K, OPEN_FACE_FILM, contact_film
from pourwright.matter import plastisol
from pourwright.matter.mold_material import MoldMaterial, heat_capacity_j_kgk


def drawn_shot(
    draws: Draws, *, thickest_m: Array, flat: bool, shot_kg: Array, melt_c: Array, firm_c: Array
) -> Shot:
    """A shot of so many kilograms; its heat is the usual curve's between melt and firm."""
    ratio = plastisol.HEAT_CAPACITY_RATIO.drawn(draws)
    heat = ratio * plastisol.heat_capacity_j_kgk((melt_c + firm_c) / 2)
    return Shot(
        thickest_m=thickest_m,
        flat=flat,
        heat_j_k=shot_kg * heat,
        melt_c=melt_c,
        firm_c=firm_c,
        alpha_m2_s=plastisol.DIFFUSIVITY_M2_S.drawn(draws),
        k_w_mk=plastisol.CONDUCTIVITY_W_MK.drawn(draws),
    )


def drawn_mold(
    draws: Draws,
    *,
    mold_kg: Array,
    material: MoldMaterial,
    ambient_c: Array,
    loss_w_k: Array | None = None,
    open_face: bool = False,
) -> Mold:
    """A mold; what it loses to the bench is drawn unless it is given."""
    return Mold(
        heat_j_k=mold_kg * heat_capacity_j_kgk(material),
        loss_w_k=MOLD_LOSS_W_K.drawn(draws) if loss_w_k is None else loss_w_k,
        film_w_m2k=contact_film(draws, material),
        ambient_c=ambient_c,
        air_film_w_m2k=OPEN_FACE_FILM.drawn(draws) if open_face else None,
    )


def refuse_warm(*, mold_c: Array, ambient_c: Array, firm_c: Array) -> None:
    """Raises: NoAnswer where a typical mold or room is as warm as the firm temperature."""
    firm = float(firm_c[0])
    for name, warm in (("mold", float(mold_c[0])), ("room", float(ambient_c[0]))):
        if warm >= firm:
            raise NoAnswer(
                f"a {name} at {in_both(warm)} never cools a bait to {in_both(firm)}: "
                f"cool the {name} first"
            )
