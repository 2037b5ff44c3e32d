"""The OpenAPI 3.1 description of the calculations, made from their declarations."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pourwright
from pourwright.base.calc import Calculation
from pourwright.base.errors import BadInput, Conflict, NoAnswer, NotFound
from pourwright.web.guard import NO_BROWSER
from pourwright.web.refusal import OUR_BUG

DIALECT = "https://json-schema.org/draft/2020-12/schema"
REFUSAL: dict[str, Any] = {
    "type": "object",
    "properties": {
        "error": {
            "type": "string",
            "description": "one of "
            + ", ".join(e.code for e in (BadInput, NoAnswer, NotFound, Conflict))
            + f", {OUR_BUG}, or the name of what the guard refused",
        },
        "message": {"type": "string"},
        "field": {"type": "string"},
        "value": {},
        "why": {"type": "string"},
    },
    "required": ["error", "message"],
}
REFUSED_WITH = {
    "400": "the request broke off",
    "403": "sent by another site's page, or by a program that does not say it is none",
    "404": "no calculation has that name",
    "413": "the body is too big",
    "421": "not an address of this bench",
    "422": "the input does not fit, or no answer exists",
    "500": "our bug",
}


def description(calculations: Iterable[Calculation[Any, Any]]) -> dict[str, Any]:
    """The whole description."""
    return {
        "openapi": "3.1.0",
        "jsonSchemaDialect": DIALECT,
        "info": {
            "title": "Pourwright calculations",
            "version": pourwright.__version__,
            "description": "Every number of the bench, as a named calculation: JSON in, JSON out.",
            "license": {"name": "MIT", "identifier": "MIT"},
        },
        "paths": {f"/api/calc/{c.name}": {"post": _operation(c)} for c in calculations},
        "components": {
            "schemas": {"Refusal": REFUSAL},
            "responses": {code: _refusal(why) for code, why in REFUSED_WITH.items()},
            "parameters": {
                "NoBrowser": {
                    "name": NO_BROWSER,
                    "in": "header",
                    "description": "a program that is no browser sends 1",
                    "schema": {"const": "1"},
                }
            },
        },
    }


def _operation(calculation: Calculation[Any, Any]) -> dict[str, Any]:
    schema = calculation.schema()
    sources = "\n".join(f"- {s}" for s in schema["sources"])
    long = (calculation.function.__doc__ or "").strip()
    return {
        "operationId": calculation.name,
        "summary": calculation.purpose,
        "description": f"{long}\n\nSources:\n{sources}",
        "tags": [calculation.name.partition(".")[0]],
        "parameters": [{"$ref": "#/components/parameters/NoBrowser"}],
        "requestBody": {
            "required": True,
            "content": {
                "application/json": {
                    "schema": schema["input"],
                    "example": dict(calculation.example),
                }
            },
        },
        "responses": {
            "200": {
                "description": "the answer",
                "content": {"application/json": {"schema": schema["output"]}},
            }
        }
        | {code: {"$ref": f"#/components/responses/{code}"} for code in REFUSED_WITH},
    }


def _refusal(why: str) -> dict[str, Any]:
    return {
        "description": why,
        "content": {"application/json": {"schema": {"$ref": "#/components/schemas/Refusal"}}},
    }
