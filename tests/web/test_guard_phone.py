"""The door on the network: paired devices only, and what anybody else is told."""

from __future__ import annotations

import pytest
from starlette.responses import PlainTextResponse

from pourwright.actions.pair_phone import pair_phone, revoke_phone
from pourwright.web.guard import LAPTOP, Guard, phone_door
from pourwright.web.pairing import Pairing
from web.client import LINK, PHONE_BASE, PHONE_HOST, Client, phone_client, words_in

COOKIE = "__Host-pourwright-phone"
CALC = "/api/calc/shop.check_code"
GOOD = b'{"code": "A12425GABC1234002M"}'


@pytest.fixture
def phone(full_world):
    return phone_client(full_world, Pairing(LINK))


@pytest.fixture
def mine(full_world):
    """The cookie of a paired phone."""
    pair_phone(full_world, "Red phone", "red")
    return f"{COOKIE}=red"


@pytest.mark.parametrize("path", ["/", "/shelf", "/api/calc", "/workplace", "/nowhere", "/pair"])
def test_a_stranger_is_turned_away(phone, path):
    answer = phone.get(path, accept="application/json")
    assert answer.status_code == 401
    assert answer.headers["www-authenticate"]  # RFC 9110 section 15.5.2
    assert answer.json()["error"] == "not_paired"


def test_a_person_without_pairing_reads_what_to_do(phone):
    page = phone.get("/shelf")
    assert page.status_code == 401
    assert "Not paired" in page.text
    assert "on the laptop open Workplace, then Phones" in words_in(page)


@pytest.mark.parametrize("method", ["POST", "PUT", "HEAD", "OPTIONS", "DELETE"])
def test_a_stranger_may_not_ask_in_any_way(phone, method):
    headers = {"origin": PHONE_BASE}
    assert phone.ask(method, "/shelf", headers=headers).status_code == 401


@pytest.mark.parametrize("path", ["/static/shell.css", "/phones/trust", "/phones/certificate"])
def test_a_stranger_sees_what_pairing_needs(phone, path):
    assert phone.get(path).status_code == 200


@pytest.mark.parametrize(
    "path",
    ["/static/../shelf", "/static/%2e%2e/shelf", "/pair/../shelf", "/phones/trust/../../shelf",
     "//static/shell.css", "/static"],
)  # fmt: skip
def test_no_detour_leads_in(phone, path):
    answer = phone.get(path)
    assert answer.status_code in {401, 404}
    assert "Glitter" not in answer.text


def test_a_paired_phone_works_like_the_laptop(phone, mine):
    for path in ("/shelf", "/plan", "/workplace", "/api/calc"):
        assert phone.get(path, cookie=mine).status_code == 200
    sent = phone.ask("POST", CALC, content=GOOD, headers={"origin": PHONE_BASE, "cookie": mine})
    assert sent.status_code == 200


@pytest.mark.parametrize(
    "cookie",
    [
        f"{COOKIE}=blue",
        f"{COOKIE}=",
        f"{COOKIE}=redd",
        "pourwright-phone=red",
        "red",
        f"{COOKIE}=\u00e9",
        f"{COOKIE}=red; {COOKIE}=blue",
    ],
)
def test_a_wrong_secret_opens_nothing(phone, mine, cookie):
    assert phone.get("/shelf", cookie=mine).status_code == 200
    assert phone.ask("GET", "/shelf", headers={b"cookie": cookie.encode()}).status_code == 401


def test_a_revoked_phone_is_refused_from_the_next_request_on(full_world, phone):
    red = pair_phone(full_world, "Red phone", "red")
    assert phone.get("/shelf", cookie=f"{COOKIE}=red").status_code == 200
    revoke_phone(full_world, red.id)
    answer = phone.get("/shelf", cookie=f"{COOKIE}=red")
    assert answer.status_code == 401
    assert "its pairing was revoked" in words_in(answer)


@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"origin": f"http://{PHONE_HOST}"},
        {"origin": "https://192.168.1.20"},
        {"origin": "https://bench-test.local:8766"},
        {"origin": "http://127.0.0.1:8765"},
        {"origin": PHONE_BASE, "sec-fetch-site": "cross-site"},
    ],
)
def test_another_site_may_change_nothing_with_the_phones_cookie(phone, mine, headers):
    answer = phone.ask("POST", CALC, content=GOOD, headers=headers | {"cookie": mine})
    assert answer.status_code == 403
    assert answer.json()["error"] == "cross_site"


@pytest.mark.parametrize(
    "hosts", [["evil.example:8766"], ["192.168.1.20"], ["127.0.0.1:8765"], [PHONE_HOST, "a.local"]]
)
def test_a_foreign_host_is_refused(phone, mine, hosts):
    headers = [*(("host", host) for host in hosts), ("cookie", mine)]
    answer = phone.ask("GET", "/shelf", headers=headers)
    assert answer.status_code == 421  # RFC 9110 section 15.5.20
    assert "use one that the laptop shows" in answer.json()["message"]


def test_no_answer_pins_the_phone_to_https(phone, mine):
    """Strict transport (RFC 6797) would reach every other service on the same host."""
    for path in ("/shelf", "/", "/static/shell.css", "/phones/trust"):
        assert "strict-transport-security" not in phone.get(path, cookie=mine).headers


def test_pages_can_see_who_asks(full_world, mine):
    async def page(scope, receive, send):
        await PlainTextResponse(scope["state"]["device"])(scope, receive, send)

    phone, laptop = phone_client(full_world, Pairing(LINK)), Client(full_world)
    for client in (phone, laptop):
        client.app = Guard(page, client.app.door, client.app.known)
    with full_world.bench() as bench:
        (recorded,) = bench.ledger.of("phones")
    assert phone.get("/shelf", cookie=mine).text == recorded.event.body["phone"]
    assert laptop.get("/shelf").text == LAPTOP


def test_the_usual_port_needs_no_number():
    assert phone_door(["bench.local"], 443, "https").hosts == {"bench.local", "bench.local:443"}
    assert phone_door(["bench.local"], 443, "http").hosts == {"bench.local:443"}
