"""The best kit against trying every kit, and reasons against what they claim."""

from __future__ import annotations

import itertools
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.base.errors import NoAnswer
from pourwright.plan.kit.kit_input import KitItem, Need, StarterKitInput
from pourwright.plan.kit.starter_kit import starter_kit


@st.composite
def choices(draw) -> StarterKitInput:
    names = [f"item {i}" for i in range(draw(st.integers(1, 7)))]
    items = []
    for i, name in enumerate(names):
        needed = draw(st.lists(st.sampled_from(names), max_size=2, unique=True)) if i else []
        items.append(
            KitItem(
                name=name,
                cost_money=draw(st.integers(0, 40)) / 4,
                worth=draw(st.integers(0, 8)),
                most=draw(st.sampled_from((1, 1, 2, 3))),
                must=draw(st.sampled_from((False, False, False, True))),
                group=draw(st.sampled_from(("", "", "mold", "oven"))),
                needs=tuple(Need(item=n) for n in needed if n != name),
            )
        )
    return StarterKitInput(budget_money=draw(st.integers(0, 100)) / 4, items=tuple(items))


def keeps_rules(inputs: StarterKitInput, kit: tuple[int, ...]) -> bool:
    held = {i.name for i, n in zip(inputs.items, kit, strict=True) if n}
    for group in {i.group for i in inputs.items}:
        members = [i for i in inputs.items if i.group == group]
        picked = [i for i in members if i.name in held]
        if group and (len(picked) > 1 or (any(i.must for i in members) and not picked)):
            return False
        if not group and any(i.must and i.name not in held for i in members):
            return False
    return all(n.item in held for i in inputs.items if i.name in held for n in i.needs)


def price(inputs: StarterKitInput, kit: tuple[int, ...]) -> float:
    return sum(n * i.cost_money for i, n in zip(inputs.items, kit, strict=True))


def worth(inputs: StarterKitInput, kit: tuple[int, ...]) -> int:
    return sum(n * i.worth for i, n in zip(inputs.items, kit, strict=True))


def every_kit(inputs: StarterKitInput) -> list[tuple[int, ...]]:
    """Every kit within the rules and the budget; quarters are exact in binary."""
    return [
        kit
        for kit in itertools.product(*(range(i.most + 1) for i in inputs.items))
        if keeps_rules(inputs, kit) and price(inputs, kit) <= inputs.budget_money
    ]


@settings(max_examples=150)
@given(choices())
def test_no_kit_is_better(inputs):
    kits = every_kit(inputs)
    if not kits:
        with pytest.raises(NoAnswer, match="has to be in"):
            starter_kit(inputs)
        return
    answer = starter_kit(inputs)
    best = min((-worth(inputs, k), price(inputs, k), sum(k)) for k in kits)
    pieces = {p.name: p.pieces for p in answer.picks}
    kit = tuple(pieces.get(i.name, 0) for i in inputs.items)
    assert kit in kits
    assert (-worth(inputs, kit), price(inputs, kit), sum(kit)) == best
    assert (answer.worth, answer.cost_money) == (-best[0], best[1])
    assert answer.left_money == inputs.budget_money - best[1]
    for left in answer.left_out:
        place = inputs.place_of[left.name]
        with_it = [worth(inputs, k) for k in kits if k[place]]
        assert left.worth_with == max(with_it, default=None)
        assert_true_of(inputs, kit, left.name, left.why, left.short_money)


def assert_true_of(inputs, kit, name, why, short) -> None:
    """Every claim of a reason holds; none is empty."""
    assert why
    item = inputs.items[inputs.place_of[name]]
    held = [i for i, n in zip(inputs.items, kit, strict=True) if n]
    if "no worth" in why:
        assert item.worth == 0
    if found := re.search(r"of its group is bought, and that is (item \d)", why):
        assert any(i.name == found[1] and i.group == item.group for i in held)
    if found := re.search(r"would need ¤([\d.]+) more", why):
        assert float(found[1]) == short > 0
        named = [inputs.items[inputs.place_of[n]] for n in re.findall(r"item \d", why)]
        asked = item.cost_money + sum(i.cost_money for i in named)
        assert asked - (inputs.budget_money - price(inputs, kit)) == short
        assert all(i not in held for i in named)
    if "worth less for its money" in why:
        assert all(item.worth * i.cost_money < i.worth * item.cost_money for i in held)


def test_what_fits_beside_the_kit_is_never_left_out_for_its_price():
    items = tuple(KitItem(name=f"item {i}", cost_money=10, worth=i + 1) for i in range(5))
    answer = starter_kit(StarterKitInput(budget_money=30, items=items))
    assert [p.name for p in answer.picks] == ["item 2", "item 3", "item 4"]
    assert [left.short_money for left in answer.left_out] == [10, 10]
