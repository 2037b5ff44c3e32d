"""Pairing, trusting and revoking, page by page."""

from __future__ import annotations

import re
from http.cookies import SimpleCookie

import pytest

from pourwright.actions.pair_phone import pair_phone, phones
from pourwright.web.pairing import LIFE_S, MOST_TRIES, Codes, Pairing, PhoneLink
from web.client import BASE, LINK, PHONE_BASE, Client, phone_client, words_in


class Bench:
    """Both doors of one bench."""

    def __init__(self, world, link=LINK, scheme="https"):
        self.at_s = 1000.0
        self.pairing = Pairing(link, Codes(lambda: self.at_s))
        self.world = world
        self.laptop = Client(world, pairing=self.pairing)
        self.phone = phone_client(world, self.pairing, scheme=scheme)

    def code(self) -> str:
        assert self.laptop.send("/phones/code", {}).headers["location"] == "/phones"
        found = re.search(r"/pair/([\w-]+)", self.laptop.get("/phones").text)
        assert found
        return found[1]

    def paired(self):
        with self.world.bench() as bench:
            return phones(bench)


@pytest.fixture
def bench(full_world):
    return Bench(full_world)


def cookie_of(answer) -> SimpleCookie:
    return SimpleCookie(answer.headers["set-cookie"])


def test_a_phone_is_paired_and_comes_in(bench):
    code = bench.code()
    form = bench.phone.get(f"/pair/{code}")
    assert form.status_code == 200
    assert 'value="Phone at the bench"' in form.text
    answer = bench.phone.send(f"/pair/{code}", {"name": "Pot side"})
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    (morsel,) = cookie_of(answer).values()
    assert morsel.key.startswith("__Host-")
    # RFC 6265bis section 4.1.3.2 asks these three of a __Host- cookie.
    assert (morsel["path"], morsel["domain"], bool(morsel["secure"])) == ("/", "", True)
    assert (bool(morsel["httponly"]), morsel["samesite"]) == (True, "lax")
    cookie = f"{morsel.key}={morsel.value}"
    assert bench.phone.get("/shelf", cookie=cookie).status_code == 200
    for path in ("/exchange", "/exchange/bench.json", "/exchange/sales.csv"):
        refused = bench.phone.get(path, cookie=cookie)
        assert refused.status_code == 403
        assert "leave only from the laptop" in refused.text
    assert "/exchange" not in bench.phone.get("/workplace", cookie=cookie).text
    assert [it.name for it in bench.paired()] == ["Pot side"]
    assert morsel.value not in repr(bench.paired())


def test_over_plain_http_the_cookie_is_one_a_browser_keeps(full_world):
    bench = Bench(full_world, PhoneLink(("http://192.168.1.20:8766",), secure=False), "http")
    form = bench.phone.get(f"/pair/{bench.code()}")
    assert "Anybody on this network can read" in words_in(form)
    answer = bench.phone.send(f"/pair/{bench.code()}", {"name": "Pot side"})
    (morsel,) = cookie_of(answer).values()
    assert not morsel.key.startswith("__")
    assert not morsel["secure"]
    assert bench.phone.get("/shelf", cookie=f"{morsel.key}={morsel.value}").status_code == 200


def test_a_look_at_the_link_uses_nothing_up(bench):
    code = bench.code()
    for _ in range(3):
        assert bench.phone.get(f"/pair/{code}").status_code == 200
    assert bench.phone.send(f"/pair/{code}", {"name": "A"}).status_code == 303


def test_a_used_code_is_over(bench):
    code = bench.code()
    bench.phone.send(f"/pair/{code}", {"name": "A"})
    for answer in (bench.phone.get(f"/pair/{code}"), bench.phone.send(f"/pair/{code}", {})):
        assert answer.status_code == 410  # RFC 9110 section 15.5.11
        assert "has paired a phone already: on the laptop open" in words_in(answer)
        assert "set-cookie" not in answer.headers
    assert len(bench.paired()) == 1
    assert "A phone has used the code" in words_in(bench.laptop.get("/phones"))


def test_an_expired_code_is_over(bench):
    code = bench.code()
    bench.at_s += LIFE_S
    answer = bench.phone.send(f"/pair/{code}", {"name": "A"})
    assert answer.status_code == 410
    assert "was good for five minutes" in words_in(answer)
    assert bench.paired() == ()
    assert "The code ran out unused" in words_in(bench.laptop.get("/phones"))


def test_a_replaced_code_is_over(bench):
    old, new = bench.code(), bench.code()
    assert "has made a newer code" in words_in(bench.phone.get(f"/pair/{old}"))
    assert bench.phone.get(f"/pair/{new}").status_code == 200


def test_a_wrong_code_is_not_found_and_soon_costs_a_wait(bench):
    code = bench.code()
    for _ in range(MOST_TRIES):
        assert bench.phone.get("/pair/guess").status_code == 404
    for path in ("/pair/guess", f"/pair/{code}"):
        answer = bench.phone.send(path, {"name": "A"})
        assert answer.status_code == 429  # RFC 6585 section 4
        assert 0 < int(answer.headers["retry-after"]) <= 60
        assert "ten wrong codes within 60 s" in words_in(answer)
    bench.phone.peer = "192.168.1.78"
    assert bench.phone.send(f"/pair/{code}", {"name": "A"}).status_code == 303


@pytest.mark.parametrize("name", ["", "   ", "x" * 41])
def test_a_name_nobody_can_read_keeps_the_code_good(bench, name):
    code = bench.code()
    answer = bench.phone.send(f"/pair/{code}", {"name": name})
    assert answer.status_code == 422
    assert "must have 1 to 40 characters" in words_in(answer)
    assert bench.phone.send(f"/pair/{code}", {"name": "A"}).status_code == 303


def test_a_name_with_markup_is_shown_not_run(bench):
    bench.phone.send(f"/pair/{bench.code()}", {"name": "<b>A</b>"})
    assert "&lt;b&gt;A&lt;/b&gt;" in bench.laptop.get("/phones").text


@pytest.mark.parametrize("path", ["/phones", "/phones/code", "/phones/x/revoke"])
def test_a_phone_can_neither_show_codes_nor_revoke(bench, path):
    pair_phone(bench.world, "A", "a")
    for method in ("GET", "POST"):
        headers = {"cookie": "__Host-pourwright-phone=a", "origin": PHONE_BASE}
        answer = bench.phone.ask(method, path, headers=headers)
        if answer.status_code != 405:
            assert answer.status_code == 403
            assert answer.json()["error"] == "laptop_only"
    assert bench.pairing.codes.standing() is None


def test_the_laptop_is_not_paired_with_itself(bench):
    answer = bench.laptop.send(f"/pair/{bench.code()}", {"name": "A"})
    assert answer.status_code == 403
    assert answer.headers.get("set-cookie") is None
    assert bench.paired() == ()


def test_revoking_takes_two_steps(bench):
    phone = pair_phone(bench.world, "Red phone", "a")
    page = bench.laptop.get("/phones")
    assert f"/phones/{phone.id}/revoke" in page.text
    asked = bench.laptop.get(f"/phones/{phone.id}/revoke")
    assert "Revoke Red phone?" in words_in(asked)
    assert bench.paired()[0].revoked_at == ""
    assert bench.laptop.send(f"/phones/{phone.id}/revoke", {}).headers["location"] == "/phones"
    assert bench.paired()[0].revoked_at
    assert f"/phones/{phone.id}/revoke" not in bench.laptop.get("/phones").text
    assert bench.laptop.get(f"/phones/{phone.id}/revoke").headers["location"] == "/phones"


def test_an_unknown_phone_cannot_be_revoked(bench):
    assert bench.laptop.get("/phones/x/revoke").status_code == 404
    assert bench.laptop.send("/phones/x/revoke", {}).status_code == 404


def test_the_person_picks_the_address_in_the_code(bench):
    assert bench.laptop.send("/phones/code?at=1", {}).headers["location"] == "/phones?at=1"
    assert "https://bench-test.local:8766/pair/" in bench.laptop.get("/phones?at=1").text
    for odd in ("9", "99999", "-1", "x", "²"):
        page = bench.laptop.get(f"/phones?at={odd}")
        assert f"{PHONE_BASE}/pair/" in page.text


def test_the_waiting_page_hears_of_the_phone(bench):
    assert bench.laptop.get("/phones/code").json() == {"left_s": 0, "paired": 0}
    code = bench.code()
    assert bench.laptop.get("/phones/code").json() == {"left_s": 300, "paired": 0}
    bench.phone.send(f"/pair/{code}", {"name": "A"})
    assert bench.laptop.get("/phones/code").json() == {"left_s": 0, "paired": 1}


def test_the_certificate_is_handed_out_as_one(bench):
    for client in (bench.laptop, bench.phone):
        answer = client.get("/phones/certificate")
        assert answer.headers["content-type"] == "application/x-x509-ca-cert"
        assert answer.content == LINK.certificate


def test_the_fingerprint_to_compare_with_is_on_the_laptop_only(bench):
    assert "AB:AB" in words_in(bench.laptop.get("/phones"))
    assert "AB:AB" in words_in(bench.laptop.get("/phones/trust"))
    steps = words_in(bench.phone.get("/phones/trust"))
    assert "AB:AB" not in steps
    # The switch iOS asks for beside the profile: Apple Support 102390, from memory.
    assert "Certificate Trust Settings" in steps


def test_without_phones_the_page_says_how_to_start(full_world):
    client = Client(full_world)
    page = client.get("/phones")
    assert "python3 run.py --phone" in words_in(page)
    assert "Show a code" not in page.text
    assert client.send("/phones/code", {}).status_code == 303
    assert "/pair/" not in client.get("/phones").text
    assert client.get("/phones/certificate").status_code == 404
    assert "for this machine only" in words_in(client.get("/phones/trust"))


def test_each_connection_is_told_in_words(bench, full_world):
    words = words_in(bench.laptop.get("/phones"))
    for title in ("This laptop", "warning passed once", "trusts the bench's", "last resort"):
        assert title in words.replace("&#39;", "'")
    plain = Bench(full_world, PhoneLink(("http://192.168.1.20:8766",), secure=False), "http")
    told = words_in(plain.laptop.get("/phones"))
    assert "Started with --plain" in told
    assert "no certificate is in use" in words_in(plain.laptop.get("/phones/trust"))


def test_the_workplace_leads_there(bench):
    pair_phone(bench.world, "A", "a")
    assert 'href="/phones"' in bench.laptop.get("/workplace").text
    assert 'href="/phones"' not in bench.laptop.get("/shelf").text
    page = bench.phone.get("/workplace", cookie="__Host-pourwright-phone=a").text
    assert 'href="/phones"' not in page
    assert 'href="/phones/trust"' in page


def test_another_site_cannot_make_a_code(bench):
    for origin in ("http://evil.example", PHONE_BASE):
        answer = bench.laptop.send("/phones/code", {}, origin=origin)
        assert answer.status_code == 403
    assert bench.laptop.send("/phones/code", {}, origin=BASE).status_code == 303
