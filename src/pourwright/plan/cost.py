"""What a planned batch costs and must sell for, and what it takes from the shelf."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.base.assume import drawn
from pourwright.base.band import Band, exact
from pourwright.base.draws import Array, Draws
from pourwright.forecast.request import BatchRequest, DosePart, MoneyPart
from pourwright.plan.batch_plan import CupPlan, ShelfLine
from pourwright.plan.layer import LayerPlan
from pourwright.shop.cost import BatchCostAnswer, BatchCostInput, CostItem, batch_cost
from pourwright.shop.price import PriceAnswer, PriceInput, price

# A magnetron draws about this much from the socket for what it puts out: estimate.
SOCKET_TO_OUTPUT = 1.6


@dataclass(frozen=True, slots=True)
class Used:
    """A material and the grams of it that the batch uses."""

    material: str
    name: str
    grams: float
    price_per_kg_money: Band
    on_hand_g: float | None


def used(
    draws: Draws, request: BatchRequest, layers: Sequence[LayerPlan], cups: Sequence[CupPlan]
) -> tuple[Used, ...]:
    """Every material of the batch; the same one in two layers is one."""
    plastic = drawn(draws, request.plastic, "plastic ")["price_per_kg_money"]
    virgin = sum(c.virgin_g for c in cups)
    found = {
        request.plastic.material or "plastic": Used(
            request.plastic.material, request.plastic.name, virgin, draws.band(plastic),
            request.plastic.on_hand_g,
        )
    }  # fmt: skip
    for layer in layers:
        mine = sum(c.virgin_g for c in cups if c.layer == layer.part.name)
        for dose, per_100g in zip(layer.part.doses, layer.mix.grams_per_100g, strict=True):
            key = dose.material or dose.name
            grams = float(per_100g[0]) * mine / 100
            before = found[key].grams if key in found else 0.0
            found[key] = Used(
                dose.material, dose.name, before + grams, _price(draws, dose), dose.on_hand_g
            )
    return tuple(found.values())


def shelf_lines(materials: Sequence[Used]) -> tuple[ShelfLine, ...]:
    """What the batch takes, and what is missing."""
    return tuple(
        ShelfLine(
            u.material,
            u.name,
            round(u.grams, 3),
            u.on_hand_g,
            0.0 if u.on_hand_g is None else round(max(u.grams - u.on_hand_g, 0.0), 3),
        )
        for u in materials
    )


def batch_cost_of(
    draws: Draws, request: BatchRequest, materials: Sequence[Used], *, shots: int,
    heat_kwh: Band, minutes: Band, remelt_in_g: float, remelt_out_g: float, good: Band,
) -> BatchCostAnswer:  # fmt: skip
    """Cost of the batch by kind.

    Raises: NoAnswer if no bait is good.
    """
    money = request.money
    mold = drawn(draws, request.mold, "mold ")["price_money"]
    tariff = drawn(draws, money, "money ")["power_price_per_kwh_money"]
    plastic = materials[0].price_per_kg_money
    items = (
        [
            CostItem(
                name=request.remelt.name,
                used_g=exact(remelt_in_g),
                price_per_kg_money=plastic.scaled(_share_of_used(money)),
            )
        ]
        if remelt_in_g
        else []
    )
    items += [
        CostItem(
            name=u.name, used_g=exact(u.grams),
            price_per_kg_money=u.price_per_kg_money,
        )
        for u in materials
    ]  # fmt: skip
    return batch_cost(
        BatchCostInput(
            items=tuple(items),
            power_kwh=heat_kwh,
            price_per_kwh_money=draws.band(tariff),
            shots=shots,
            mold_price_money=draws.band(mold),
            mold_life_shots=request.mold.life_shots,
            labor_min=minutes,
            labor_per_h_money=money.labor_per_h_money,
            packing_money=round(
                request.count * (money.packing_per_bait_money + money.eyes_per_bait_money), 4
            ),
            overhead_money=money.overhead_money,
            remelt_out_g=exact(remelt_out_g),
            remelt_price_per_kg_money=plastic,
            remelt_credit_share=money.remelt_credit_share,
            good=good,
            seed=request.seed,
        )
    )


def price_of(request: BatchRequest, each: Band) -> PriceAnswer:
    """Lowest price for the wanted margin. Raises: NoAnswer where none works."""
    money = request.money
    return price(
        PriceInput(
            cost_money=each,
            margin=money.margin,
            fee_share=money.fee_share,
            fee_fixed_money=money.fee_fixed_money,
        )
    )


def kilowatt_hours(power_w: Array, on_s: float) -> Array:
    """Electricity of heating from the socket."""
    return power_w * on_s / 3.6e6 * SOCKET_TO_OUTPUT


def _share_of_used(money: MoneyPart) -> float:
    """Worth of the remelt that goes in: it may be of one color while what is kept is mixed."""
    used = money.remelt_used_share
    return money.remelt_credit_share if used is None else used


def _price(draws: Draws, dose: DosePart) -> Band:
    return draws.band(drawn(draws, dose, f"{dose.material or dose.name}: ")["price_per_kg_money"])
