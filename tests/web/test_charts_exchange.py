"""The charts of lots and the exchange, asked as a browser asks."""

from __future__ import annotations

import json
import re

import pytest

from charted_lots import add_counted_lots
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.intake.csv_table import csv_rows
from pourwright.shop.material import Salt
from web.client import BASE, Client


@pytest.fixture
def charted(full_world):
    with full_world.bench() as bench:
        add_counted_lots(bench, full_world.ids, DEMO_DRAFT)
        bench.commit()
    return Client(full_world)


def upload(client, data):
    files = {"file": ("bench.json", data, "application/json")}
    headers = {"accept": "text/html", "origin": BASE, "sec-fetch-site": "same-origin"}
    return client.ask("POST", "/exchange", headers=headers, files=files)


def test_charts_draw_each_lot_and_call_out_the_one_that_flashed(charted):
    page = charted.get("/book/charts?of=mold-demo-mold-worm").text
    flash = page.split('id="h-Flash"')[1].split("</section>")[0]
    assert flash.count('class="dot"') == 11
    assert flash.count('class="called"') == 1
    assert "8 of 28, where chance alone makes at most 6" in flash
    assert re.search(r'href="/sheets/\d+">Open the lot', flash)
    guide = re.search(r'href="(/defects/flash[^"]*)"', flash)
    assert guide
    assert charted.get(guide[1]).status_code == 200
    assert charted.get("/defects/weight").status_code == 200


def test_charts_of_one_lot_say_too_few(full_world):
    page = Client(full_world).get("/book/charts").text
    assert "Too few to say: 1 lot, and limits begin at 8." in page
    assert "What to check: flash" in page


def test_charts_are_found_from_book_and_mold_and_say_when_a_mold_has_none(full_world):
    client = Client(full_world)
    assert 'href="/book/charts"' in client.get("/book").text
    assert 'href="/exchange"' in client.get("/workplace").text
    there = re.search(r'href="(/book/charts[^"]+)"', client.get("/molds/demo-mold-worm").text)
    assert there
    assert "No lot of this one was counted yet." in client.get(there[1]).text


def test_charts_of_an_empty_bench_and_of_nothing_known(empty_world, full_world):
    assert "No lot is counted yet" in Client(empty_world).get("/book/charts").text
    assert Client(full_world).get("/book/charts?of=mold-none").status_code == 422
    pooled = Client(full_world).get("/book/charts?pool=1")
    assert pooled.status_code == 200
    assert "checked" in pooled.text


def test_the_whole_bench_is_downloaded_and_taken_in_by_an_empty_one(full_world, empty_world):
    full, empty = Client(full_world), Client(empty_world)
    answer = full.get("/exchange/bench.json")
    assert answer.headers["content-type"] == "application/json"
    assert answer.headers["content-disposition"].startswith('attachment; filename="pourwright-')
    assert 'href="/exchange"' in empty.get("/welcome").text
    assert "Take it in" in empty.get("/exchange").text
    taken = upload(empty, answer.content)
    assert (taken.status_code, taken.headers["location"]) == (303, "/")
    assert empty.get("/exchange/bench.json").content == answer.content


def test_a_bench_that_holds_something_takes_nothing_in(full_world):
    client = Client(full_world)
    data = client.get("/exchange/bench.json").content
    assert "Take it in" not in client.get("/exchange").text
    answer = upload(client, data)
    assert answer.status_code == 409
    assert "holds something already" in answer.text
    assert client.get("/exchange/bench.json").content == data


@pytest.mark.parametrize("data", [b"", b"{}", b"PK\x03\x04"])
def test_what_is_no_export_is_refused_on_the_page(empty_world, data):
    answer = upload(Client(empty_world), data)
    assert answer.status_code == 422
    assert "Nothing was changed." in answer.text


def test_an_altered_file_is_refused_on_the_page(full_world, empty_world):
    read = json.loads(Client(full_world).get("/exchange/bench.json").content)
    read["tables"]["event"][3]["kind"] = "else"
    answer = upload(Client(empty_world), json.dumps(read).encode())
    assert answer.status_code == 409
    assert "event 4 does not fit the chain" in answer.text


def test_tables_hold_no_formula_and_come_back_whole(full_world):
    odd = Salt(name='=HYPERLINK("x")', note="+cmd|' /C calc'!A0", lot="'-7")
    with full_world.bench() as bench:
        bench.records.save(Salt.key, "odd", odd, expected_version=0)
        bench.commit()
    client = Client(full_world)
    for name in ("materials", "lots", "moves", "orders", "sales", "sheets"):
        answer = client.get(f"/exchange/{name}.csv")
        assert answer.headers["content-type"].startswith("text/csv")
        header, *rows = csv_rows(answer.content)
        assert all(len(row) == len(header) for row in rows)
    raw = client.get("/exchange/materials.csv").text
    assert ",'+cmd|" in raw
    header, *rows = csv_rows(client.get("/exchange/materials.csv").content)
    found = next(dict(zip(header, row, strict=True)) for row in rows if row[0] == "odd")
    assert (found["name"], found["note"], found["lot"]) == (odd.name, odd.note, odd.lot)
    assert client.get("/exchange/else.csv").status_code == 404


def test_the_journal_is_plain_text(full_world):
    answer = Client(full_world).get("/exchange/books.journal")
    assert answer.headers["content-type"].startswith("text/plain")
    assert answer.text.startswith("; Written by Pourwright")
