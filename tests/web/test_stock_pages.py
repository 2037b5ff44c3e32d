"""The stock's pages: buy, count, throw away, take back; what is refused is said and not kept."""

from __future__ import annotations

import html
import re

import pytest

from pourwright.actions.buy_lot import SUPPLIER_RULES
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.enter_lot import enter_lot
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.port import Event
from pourwright.shop.lot import COUNTED, LotEntry, body_of
from pourwright.shop.move import MoveKind
from web.client import BASE, Client, form_in, words_in

BUY = "/stock/buy/plastic/demo-plastic-medium"


@pytest.fixture
def client(full_world):
    return Client(full_world)


def bought(client, **typed) -> str:
    """The address of the lot that a filled-in form gave."""
    fields = form_in(client.get(BUY)) | {"quantity": "1", "unit": "gallon", "price_money": "40"}
    page = client.send(BUY, fields | typed)
    assert page.status_code == 303, words_in(page)
    return str(page.headers["location"])


def held(world, code):
    with world.reading() as bench:
        return bench.stock.lot(code)


def test_the_shelf_leads_to_the_stock_and_the_stock_to_each_lot(client):
    assert 'href="/stock"' in client.get("/shelf").text
    address = bought(client)
    assert f'href="{address}"' in client.get("/stock").text


def test_a_purchase_shows_the_suppliers_paper_and_the_caution(client):
    page = client.get(bought(client, sheet_title="Plastisol, medium", sheet_date="2025-03-01",
                             pictograms="flame", supplier_lot="Q-9"))  # fmt: skip
    for words in ("Plastisol, medium", "Sat, Mar 1, 2025", "flame", "Q-9", SUPPLIER_RULES):
        assert words in html.unescape(words_in(page))


def test_a_purchase_sent_twice_is_one_lot(client):
    fields = form_in(client.get(BUY)) | {"quantity": "1", "unit": "pound", "price_money": "9"}
    first, second = (client.send(BUY, fields).headers["location"] for _ in range(2))
    assert first == second


def test_a_refused_purchase_keeps_what_was_typed(client):
    fields = form_in(client.get(BUY)) | {"quantity": "2", "unit": "piece", "price_money": "9"}
    page = client.send(BUY, fields)
    assert page.status_code == 422
    assert "must be a weight or a volume" in words_in(page)
    assert form_in(page)["quantity"] == "2"


def test_a_count_is_booked_and_taken_back_once(client, full_world):
    address = bought(client)
    code = address.rpartition("/")[2]
    before = held(full_world, code).mg
    client.send(f"{address}/count", {"amount": "1000.5", "event": "a" * 32})
    assert held(full_world, code).mg == 1_000_500
    page = client.get(address)
    assert "Count" in words_in(page)
    with full_world.reading() as bench:
        move = next(m for m in bench.stock.moves(lot=code) if m.note == "counted")
        assert move.kind is MoveKind.COUNTED
    for _double_tap in range(2):
        gone_back = client.send(f"{address}/back", {"move": move.id, "event": "b" * 32})
        assert gone_back.status_code == 303
        assert held(full_world, code).mg == before
    again = client.send(f"{address}/back", {"move": move.id, "event": "c" * 32})
    assert again.status_code == 409
    assert "taken back already" in words_in(again)


@pytest.mark.parametrize("amount", ["", "some", "-3", "1e99", "9999999"])
def test_an_amount_that_is_none_is_refused_in_words(client, amount):
    address = bought(client)
    page = client.send(f"{address}/scrap", {"amount": amount, "event": "a" * 32})
    assert page.status_code == 422
    assert "Amount" in words_in(page)


def test_the_way_of_a_poured_lot_is_drawn_with_its_loss(client, full_world):

    sheet = freeze_sheet(full_world, DEMO_DRAFT)
    enter_lot(full_world, sheet.number, LotEntry(shots=8, good=24, five_g=74))
    page = client.get(f"/stock/{sheet.code}")
    narrow = page.text.partition("is-narrow")[2].partition("is-broad")[0]
    drawn = re.findall(r'<a href="/stock/(\w+)"', narrow)
    assert len(drawn) == len(set(drawn)) == 1 + len(sheet.plan["shelf"])
    assert narrow.count("<line ") == len(sheet.plan["shelf"])
    used = sum(round(x["need_g"] * 1000) for x in sheet.plan["shelf"])
    assert f"poured, lost {(used - 24 * 14_800) / 1000:.0f} g" in page.text


def test_an_unknown_lot_is_not_found(client):
    assert client.get("/stock/P2611250007L").status_code == 404


def test_the_lot_says_what_the_books_did_not_have_and_goes_on_saying_it(client, full_world):
    fields = form_in(client.get("/records/plastic/demo-plastic-medium")) | {"on_hand_g": "100"}
    assert client.send("/records/plastic/demo-plastic-medium", fields).status_code == 303
    sheet = freeze_sheet(full_world, DEMO_DRAFT)
    address = f"/lots/{sheet.number}"
    assert "The books had" not in words_in(client.get(address))
    enter_lot(full_world, sheet.number, LotEntry(shots=8, good=24, five_g=74))
    need = next(x for x in sheet.plan["shelf"] if x["material"] == "demo-plastic-medium")
    with full_world.reading() as bench:
        name = bench.records.get("plastic", "demo-plastic-medium").noun.name
    for words in [words_in(client.get(address)) for _ in range(2)]:
        said = re.search(r"The books had ([\d.]+).{0,8}g less than was used of (.+?): count", words)
        assert said, words
        assert float(said[1]) == pytest.approx(need["need_g"] - 100, abs=0.5)
        assert said[2] == name
        assert "does not hold this count" not in words


def test_a_count_that_was_not_booked_is_said_and_booked_by_keeping_it_again(client, full_world):
    sheet = freeze_sheet(full_world, DEMO_DRAFT)
    entry = LotEntry(shots=8, good=24, five_g=74)
    with full_world.bench() as bench:
        counted = Event("f" * 32, f"lot/{sheet.code}", COUNTED, sheet.frozen_at, body_of(entry))
        bench.ledger.append(counted)
        bench.commit()
    page = client.get(f"/lots/{sheet.number}")
    assert "does not hold this count" in words_in(page)
    answer = client.send(f"/lots/{sheet.number}", form_in(page) | {"@do": "save"})
    assert answer.status_code == 303, words_in(answer)
    assert "does not hold this count" not in words_in(client.get(f"/lots/{sheet.number}"))
    assert held(full_world, sheet.code).pieces == 24


PDF = b"%PDF-1.4\n% a data sheet\n%%EOF\n"
HERE = {"accept": "text/html", "origin": BASE, "sec-fetch-site": "same-origin"}


def uploaded(client, address, fields, name, content):
    files = {"paper": (name, content, "text/html")}
    return client.ask("POST", address, data=fields, files=files, headers=HERE)


def test_a_paper_sent_with_a_purchase_or_later_is_saved_again_as_it_was(client):
    fields = form_in(client.get(BUY)) | {"quantity": "1", "unit": "pound", "price_money": "9"}
    address = uploaded(client, BUY, fields, "data\\Plastisol <b>.pdf", PDF).headers["location"]
    more = uploaded(client, f"{address}/paper", {"event": "a" * 32}, "later.pdf", PDF + b"2")
    assert more.status_code == 303, words_in(more)
    page = client.get(address)
    words = html.unescape(words_in(page))
    assert "Plastisol <b>.pdf" in words
    assert "data\\" not in words
    assert "PDF, 1 kB, kept" in words
    found = [client.get(it) for it in re.findall(rf'href="({address}/paper/\w{{64}})"', page.text)]
    assert [it.content for it in found] == [PDF + b"2", PDF]
    for it in found:
        assert it.headers["content-type"] == "application/pdf"
        assert it.headers["content-disposition"].startswith("attachment; filename=")
        assert it.headers["x-content-type-options"] == "nosniff"


def test_a_paper_that_is_none_is_refused_where_it_was_sent(client, full_world):
    fields = form_in(client.get(BUY)) | {"quantity": "3", "unit": "pound", "price_money": "9"}
    page = uploaded(client, BUY, fields, "a.pdf", b"<script>")
    assert page.status_code == 422
    assert "Paper: must be a PDF, a JPEG or a PNG file" in words_in(page)
    assert form_in(page)["quantity"] == "3"
    address = bought(client)
    for name, content in (("a.pdf", b"<script>"), ("", b"")):
        refused = uploaded(client, f"{address}/paper", {"event": "b" * 32}, name, content)
        assert refused.status_code == 422
        assert "Paper: " in words_in(refused)
    big = uploaded(client, f"{address}/paper", {"event": "b" * 32}, "b.pdf", PDF + bytes(8_000_000))
    assert big.status_code == 422
    assert "must be at most 8,000,000 bytes" in words_in(big)
    most = PDF + bytes(8_000_000 - len(PDF))
    kept = uploaded(client, f"{address}/paper", {"event": "b" * 32}, "c.pdf", most)
    assert kept.status_code == 303
    assert client.get(f"{address}/paper/{'0' * 64}").status_code == 404
    with full_world.reading() as bench:
        assert bench.ledger.check()
