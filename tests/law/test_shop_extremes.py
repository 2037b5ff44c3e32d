"""The sums of the shop at the ends of what they take: an answer, or a refusal that says why."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from drawn_input import inputs_of
from pourwright.actions.catalog import named
from pourwright.base.errors import BadInput, NoAnswer

ASKED = (
    "shop.price", "shop.price_breaks", "shop.payback", "shop.starter_kit", "shop.growth",
    "shop.batch_cost", "shop.excise", "chart.share", "chart.count", "chart.mass", "plan.cups",
)  # fmt: skip
# Money that is never owed: what is left of a price may well be a loss.
NEVER_NEGATIVE = (
    "price_money", "tax_money", "fees_money", "cost_money", "base_money", "charged_money",
)  # fmt: skip


def figures(value: Any, name: str = "") -> Iterator[tuple[str, float]]:
    """Every number of an answer with the name it stands under."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from figures(inner, name if key in {"low", "typical", "high"} else key)
    elif isinstance(value, list):
        for inner in value:
            yield from figures(inner, name)
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield name, value


def ended(name: str) -> dict[str, float]:
    """The highest that each number of an input may be, by its field."""
    inputs = named(name).schema()["input"]["properties"]
    return {key: it["maximum"] for key, it in inputs.items() if "maximum" in it}


def odd_of(name: str, data: object) -> tuple[str, ...]:
    """What is wrong with an answer or a refusal."""
    try:
        answer = named(name).answer(data)
    except BadInput as refused:
        return () if refused.field and refused.why else (f"{refused!r} says too little",)
    except NoAnswer as refused:
        return () if len(str(refused)) > 20 else (f"{refused!r} says too little",)
    return tuple(
        f"{key}: {number}"
        for key, number in figures(answer)
        if not math.isfinite(number) or (number < 0 and key.endswith(NEVER_NEGATIVE))
    )


@pytest.mark.parametrize("name", ASKED)
def test_any_input_is_answered_or_refused_in_words(name):
    @settings(max_examples=50, deadline=None, suppress_health_check=list(HealthCheck))
    @given(inputs_of(named(name).takes, most=2))
    def asked(data):
        assert odd_of(name, data) == ()

    asked()


@pytest.mark.parametrize(("name", "field"), [(n, f) for n in ASKED for f in ended(n)])
def test_a_number_beyond_its_ends_is_refused_by_its_field_and_range(name, field):
    asked = named(name)
    with pytest.raises(BadInput, match="between") as refused:
        asked.answer({**asked.example, field: 10 * ended(name)[field] + 1})
    assert refused.value.field == field
