"""The door: foreign hosts, foreign sites, and bodies too big to take."""

from __future__ import annotations

import pytest

from pourwright.web.guard import MOST_BODY, laptop_door
from web.client import BASE, PORT, Client

CALC = "/api/calc/shop.check_code"
GOOD = b'{"code": "A12425GABC1234002M"}'


@pytest.fixture
def client(empty_world):
    return Client(empty_world)


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost", "[::1]", "LOCALHOST"])
def test_the_bench_answers_to_its_own_addresses(client, host):
    assert client.ask("GET", "/api/calc", headers={"host": f"{host}:{PORT}"}).status_code == 200


@pytest.mark.parametrize(
    "host", ["example.org", "127.0.0.1", "127.0.0.1:1", f"localhost.example.org:{PORT}", ""]
)
def test_a_foreign_host_is_refused(client, host):
    answer = client.ask("GET", "/api/calc", headers={"host": host})
    assert answer.status_code == 421
    assert answer.json()["error"] == "foreign_host"


def test_two_hosts_are_refused(client):
    headers = [("host", f"127.0.0.1:{PORT}"), ("host", "example.org")]
    assert client.ask("GET", "/api/calc", headers=headers).status_code == 421


def test_port_80_needs_no_number():
    assert "localhost" in laptop_door(80).hosts
    assert "localhost" not in laptop_door(8765).hosts


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"x-pourwright": "0"},
        {"origin": "http://example.org"},
        {"origin": "null"},
        {"origin": f"http://localhost:{PORT}"},
        {"origin": f"https://127.0.0.1:{PORT}"},
        {"origin": BASE, "sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
        {"origin": "http://example.org", "x-pourwright": "1"},
    ],
)
def test_another_site_may_change_nothing(client, headers):
    answer = client.ask("POST", CALC, content=GOOD, headers=headers)
    assert answer.status_code == 403
    assert answer.json()["error"] == "cross_site"


@pytest.mark.parametrize(
    "headers",
    [
        {"x-pourwright": "1"},
        {"origin": BASE},
        {"origin": BASE, "sec-fetch-site": "same-origin"},
    ],
)
def test_the_bench_itself_and_programs_may(client, headers):
    assert client.ask("POST", CALC, content=GOOD, headers=headers).status_code == 200


def test_another_site_may_link_here_but_not_read(client):
    follow = {"sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate"}
    assert client.get("/shelf", **follow).status_code == 200
    embed = {"sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors"}
    assert client.get("/shelf", **embed).status_code == 403


def test_a_body_too_big_is_refused(client):
    answer = client.calc("shop.check_code", b" " * 10_000_000)
    assert answer.status_code == 413
    assert answer.json() == {
        "error": "too_large",
        "message": "more than 8 MB was sent; nothing of it was kept",
    }


def test_a_body_too_big_in_pieces_is_refused(client):
    async def pieces():
        for _ in range(10):
            yield b" " * 1_000_000

    assert client.calc("shop.check_code", pieces()).status_code == 413


def test_a_body_as_big_as_allowed_is_read(client):
    assert client.calc("shop.check_code", GOOD.ljust(MOST_BODY)).status_code == 200


def test_every_answer_carries_the_guards_headers(client):
    for path in ("/shelf", "/nowhere", "/static/shell.css", "/api/calc"):
        headers = client.get(path).headers
        assert headers["content-security-policy"].startswith("default-src 'none'")
        assert "unsafe" not in headers["content-security-policy"]
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["referrer-policy"] == "same-origin"
        assert headers["cache-control"] in {"no-store", "no-cache"}


@pytest.mark.parametrize(
    "path", ["/static/../app.py", "/static/%2e%2e/app.py", "/static/..%2fapp.py"]
)
def test_no_file_outside_the_folder_is_handed_out(client, path):
    assert client.get(path).status_code == 404


def test_our_own_mistake_says_so_and_shows_no_trace(empty_world, monkeypatch):
    def broken(_):
        raise ZeroDivisionError("secret detail")

    monkeypatch.setattr("pourwright.web.app.settings_of", broken)
    answer = Client(empty_world).get("/shelf", accept="application/json")
    assert answer.status_code == 500
    assert answer.json()["error"] == "our_bug"
    assert "secret" not in answer.text
    assert answer.headers["x-content-type-options"] == "nosniff"


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH"])
def test_what_is_not_offered_is_refused(client, method):
    answer = client.ask(method, "/shelf", headers={"x-pourwright": "1"})
    assert answer.status_code == 405
    assert answer.json()["error"] == "not_allowed"
