"""Nouns as the store and the ledger keep them: money as whole ten-thousandths."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping
from typing import Any, cast

from pourwright.base.field import Field, fields_of
from pourwright.base.record import from_json, to_json
from pourwright.shop.money import PARTS, Money
from pourwright.shop.noun import Noun
from pourwright.shop.nouns import NOUNS


def body_of(noun: Noun) -> dict[str, Any]:
    """The stored form of a noun."""
    tree = to_json(noun)
    tree.pop("kind")
    return dict(_walked(type(noun), tree, lambda amount: Money.of(amount).ten_thousandths))


def noun_of(sort: str, body: Mapping[str, Any]) -> Noun:
    """The noun a stored form holds."""
    kind = NOUNS.named(sort, "sort")
    return from_json(kind, _walked(kind, dict(body), lambda whole: whole / PARTS))


def _walked(record: type[Any], tree: Any, turn: Callable[[Any], Any]) -> Any:
    """The tree with every amount of money turned."""
    if not isinstance(tree, Mapping):
        return tree
    turned = dict(tree)
    for field in fields_of(record):
        if field.name in turned and turned[field.name] is not None:
            turned[field.name] = _turned(field, turned[field.name], turn)
    return turned


def _turned(field: Field, value: Any, turn: Callable[[Any], Any]) -> Any:
    if field.unit is not None and field.unit.key == "money":
        return turn(value)
    if field.shape == "kind":
        kinds: Mapping[str, type[Any]] = field.spec.kinds or {}
        return {"kind": value["kind"]} | _walked(
            kinds[value["kind"]], {k: v for k, v in value.items() if k != "kind"}, turn
        )
    if field.shape == "record":
        return _walked(field.type, value, turn)
    if field.shape == "list" and dataclasses.is_dataclass(field.type):
        item = cast("type[Any]", field.type)
        return [_walked(item, v, turn) for v in value]
    return value
