"""The HTTP face of the calculations."""

from __future__ import annotations

import json

import jsonschema  # type: ignore[import-untyped]
import pytest
from openapi_spec_validator import OpenAPIV31SpecValidator

from pourwright.actions.catalog import CALCULATIONS, CATALOG, by_name
from web.client import Client


@pytest.fixture
def client(empty_world):
    return Client(empty_world)


def test_two_calculations_of_one_name_are_refused():
    with pytest.raises(ValueError, match=r"shop\.price"):
        by_name((CATALOG["shop.price"], CATALOG["shop.price"]))


def test_the_description_is_valid_openapi(client):
    description = client.get("/api/openapi.json").json()
    OpenAPIV31SpecValidator(description).validate()
    assert set(description["paths"]) == {f"/api/calc/{name}" for name in CATALOG}


def test_the_list_names_every_calculation(client):
    assert [c["name"] for c in client.get("/api/calc").json()] == [c.name for c in CALCULATIONS]


@pytest.mark.parametrize("name", CATALOG)
def test_every_calculation_answers_its_own_example(client, name):
    page = client.get(f"/api/calc/{name}").json()
    jsonschema.Draft202012Validator(page["input"]).validate(page["example"])
    answer = client.calc(name, json.dumps(page["example"]).encode())
    assert answer.status_code == 200
    jsonschema.Draft202012Validator(page["output"]).validate(answer.json())


@pytest.mark.parametrize(
    ("body", "field"),
    [
        (b'{"code": NaN}', "input"),
        (b'{"code": -Infinity}', "input"),
        (b'{"code": "A1", "code": "B2"}', "code"),
        (b'{"code": false}', "code"),
        (b'{"colour": "A1"}', "colour"),
        (b"{}", "code"),
        (b"[]", "input"),
        (b"", "input"),
        (b"{", "input"),
        (b"\xff", "input"),
        (b'{"code": ' + b"1" * 5000 + b"}", "input"),
        (b"[" * 100_000, "input"),
    ],
)
def test_nonsense_is_refused_by_name(client, body, field):
    answer = client.calc("shop.check_code", body)
    assert answer.status_code == 422
    refusal = answer.json()
    assert set(refusal) == {"error", "message", "field", "value", "why"}
    assert (refusal["error"], refusal["field"]) == ("bad_input", field)


def test_a_number_too_big_for_a_float_is_refused(client):
    answer = client.calc("blend.density", b'{"base_density_g_ml": 1e999}')
    assert answer.status_code == 422
    assert answer.json()["error"] == "bad_input"


def test_an_unknown_calculation_is_not_found(client):
    answer = client.calc("shop.nothing", b"{}")
    assert answer.status_code == 404
    assert answer.json()["error"] == "not_found"
