"""JSON Schema (draft 2020-12) of a record, from the same declarations as its check."""

from __future__ import annotations

import dataclasses
import math
import typing
from enum import Enum
from typing import Any

from pourwright.base.band import Band
from pourwright.base.field import Field, fields_of
from pourwright.base.pixels import Pixels

BAND_SCHEMA: dict[str, Any] = {
    "type": "object",
    "properties": {k: {"type": "number"} for k in ("low", "typical", "high")},
    "required": ["low", "typical", "high"],
    "additionalProperties": False,
}


def input_schema(record: type[Any]) -> dict[str, Any]:
    """Schema of an entered record; fields with a typical value may be left out or null."""
    fields = fields_of(record)
    schema: dict[str, Any] = {
        "type": "object",
        "title": record.__name__,
        "properties": {f.name: _field_schema(f) for f in fields},
        "additionalProperties": False,
    }
    required = [f.name for f in fields if f.required]
    return schema | ({"required": required} if required else {})


def output_schema(answer: type[Any]) -> dict[str, Any]:
    """Schema of an answer, read from its type hints."""
    return _hint_schema(answer)


def _field_schema(field: Field) -> dict[str, Any]:
    schema = _shape_schema(field)
    unit = f" [{field.unit.label}]" if field.unit else ""
    schema["description"] = field.spec.help + (", 0 to 1" if field.spec.share else unit)
    if field.spec.doubt:
        typical = field.spec.doubt.band
        schema["description"] += (
            f"; left out: typical {typical.typical:g} ({typical.low:g} to {typical.high:g})"
        )
    elif not field.required and isinstance(field.default, (int, float, str)):
        schema["default"] = (
            field.default.value if isinstance(field.default, Enum) else field.default
        )
    if field.optional:
        return {"anyOf": [schema, {"type": "null"}], "description": schema["description"]}
    return schema


def _shape_schema(field: Field) -> dict[str, Any]:
    spec = field.spec
    match field.shape:
        case "number" | "whole":
            return {"type": "integer" if field.shape == "whole" else "number"} | _limits(field)
        case "band":
            return {"anyOf": [{"type": "number"} | _limits(field), dict(BAND_SCHEMA)]}
        case "text":
            pattern = {"pattern": f"^(?:{spec.pattern})$"} if spec.pattern else {}
            return {"type": "string", "minLength": spec.least, "maxLength": spec.most} | pattern
        case "file":
            return {"type": "string", "contentEncoding": "base64", "minLength": 1}
        case "flag":
            return {"type": "boolean"}
        case "pick":
            return {"enum": [o.value for o in field.type]}
        case "record":
            return input_schema(field.type)
        case "kind":
            return _kinds_schema(field)
        case "list":
            return {
                "type": "array",
                "items": _item_schema(field),
                "minItems": spec.least,
                "maxItems": spec.most,
            }


def _item_schema(field: Field) -> dict[str, Any]:
    if field.spec.kinds is not None:
        return _kinds_schema(field)
    if dataclasses.is_dataclass(field.type):
        return input_schema(typing.cast("type[Any]", field.type))
    return _hint_schema(field.type) | _limits(field)


def _kinds_schema(field: Field) -> dict[str, Any]:
    options = []
    for key, record in (field.spec.kinds or {}).items():
        schema = input_schema(record)
        schema["properties"] = {"kind": {"const": key}} | schema["properties"]
        schema["required"] = ["kind", *schema.get("required", [])]
        options.append(schema)
    return {"oneOf": options}


def _limits(field: Field) -> dict[str, Any]:
    ends = (("minimum", field.spec.low), ("maximum", field.spec.high))
    return {word: end for word, end in ends if math.isfinite(end)}


def _hint_schema(hint: Any) -> dict[str, Any]:
    simple = {float: "number", int: "integer", str: "string", bool: "boolean", type(None): "null"}
    if hint in simple:
        return {"type": simple[hint]}
    if hint is Band:
        return dict(BAND_SCHEMA)
    if hint is Pixels:
        return {"type": "string", "contentEncoding": "base64", "contentMediaType": "image/png"}
    if isinstance(hint, type) and issubclass(hint, Enum):
        return {"enum": [o.value for o in hint]}
    if dataclasses.is_dataclass(hint):
        return _answer_schema(typing.cast("type[Any]", hint))
    arguments = typing.get_args(hint)
    origin = typing.get_origin(hint)
    if origin is tuple:
        return {"type": "array", "items": _hint_schema(arguments[0])}
    if origin is dict:
        return {"type": "object", "additionalProperties": _hint_schema(arguments[1])}
    if arguments:
        return {"anyOf": [_hint_schema(a) for a in arguments]}
    return {}


def _answer_schema(answer: type[Any]) -> dict[str, Any]:
    hints = typing.get_type_hints(answer)
    properties = {}
    for f in dataclasses.fields(answer):
        spec = f.metadata.get("spec")
        properties[f.name] = _hint_schema(hints[f.name]) | (
            {"description": spec.help} if spec else {}
        )
    if isinstance(getattr(answer, "key", None), str):
        properties = {"kind": {"const": answer.key}} | properties
    return {
        "type": "object",
        "title": answer.__name__,
        "properties": properties,
        "required": list(properties),
        "additionalProperties": False,
    }
