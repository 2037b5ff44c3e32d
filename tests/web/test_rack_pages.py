"""The rack's pages: bag, take out, undo, find, print; nothing wrong is kept, all of it is said."""

from __future__ import annotations

import re
from urllib.parse import parse_qs, urlsplit

import pytest

from pourwright.actions.keep_record import add_record
from pourwright.shop.material import Packing
from pourwright.shop.offer import Offer
from printed_codes import all_codes, printed
from rack_bench import hung, poured
from web.client import Client, words_in

KEY = "a1" * 16


@pytest.fixture
def rack(full_world):
    return full_world, Client(full_world), poured(full_world, 2, 24)


def bag(client, lot, *, take="24", each="8", **more):
    fields = {"event": KEY, "lot": lot, "baits_each": each, f"take.{lot}": take} | more
    return client.send("/rack/bag", fields)


def pieces(world, code):
    with world.reading() as bench:
        return bench.stock.lot(code).pieces


def first(pattern, page):
    """The first group of the first place in a page where a pattern fits."""
    found = re.search(pattern, page.text)
    assert found, pattern
    return found[1]


def field(page, name):
    return first(rf'name="{name}"[^>]* value="([^"]*)"', page)


def codes_on(page):
    return re.findall(r'id="l-([^"]+)"', page.text)


def test_a_long_rack_comes_in_pages_and_leaves_no_lot_out(full_world):
    client = Client(full_world)
    standing = codes_on(client.get("/rack"))
    made = [poured(full_world, number, 8) for number in range(100, 181 - len(standing))]
    pages = [client.get(f"/rack?loose={number}") for number in (1, 2, 3)]
    assert [len(codes_on(page)) for page in pages] == [40, 40, 1]
    assert sorted(code for page in pages for code in codes_on(page)) == sorted(standing + made)
    assert [first(r"([0-9]+ to [0-9]+ of [0-9]+)", page) for page in pages] == [
        "1 to 40 of 81", "41 to 80 of 81", "81 to 81 of 81",
    ]  # fmt: skip
    links = [re.findall(r'href="(/rack\?loose=[0-9]+)#s-loose"', page.text) for page in pages]
    assert links == [["/rack?loose=2"], ["/rack?loose=1", "/rack?loose=3"], ["/rack?loose=2"]]


def test_what_is_done_on_a_later_page_comes_back_to_it_and_to_the_last_once_that_is_gone(
    full_world,
):
    client = Client(full_world)
    standing = codes_on(client.get("/rack"))
    for number in range(100, 181 - len(standing)):
        poured(full_world, number, 8)
    page = client.get("/rack?loose=3")
    (lot,) = codes_on(page)
    address = first(r'href="(/rack/bag[^"]+)"', page).replace("&amp;", "&")
    form = client.get(address)
    assert 'href="/rack?loose=3">Cancel' in form.text
    names = ("event", "lot", "loose")
    fields = {name: field(form, name) for name in names} | {f"take.{lot}": "8"}
    answer = client.send("/rack/bag", fields | {"baits_each": "8", "anyway": "on"})
    way = answer.headers["location"]
    assert way == f"/rack?bagged={fields['event']}&loose=3"
    after = client.get(way)
    assert "41 to 80 of 80" in words_in(after)
    assert lot not in codes_on(after)


@pytest.mark.parametrize(
    ("asked", "status", "why"),
    [
        ("loose=0", 404, "there is no page 0"),
        ("bags=2", 404, "the list has 1 of them"),
        ("loose=two", 422, "must be the number of a page"),
    ],
)
def test_a_page_the_rack_does_not_have_is_said(rack, asked, status, why):
    answer = rack[1].get(f"/rack?{asked}")
    assert answer.status_code == status
    assert why in words_in(answer)


def test_what_is_due_first_off_the_rack_stands_first(rack):
    world, client, early = rack
    late = poured(world, 3, 8)
    hung(world, early, hours_ago=2)
    hung(world, late, hours_ago=30)
    shown = codes_on(client.get("/rack"))
    assert shown.index(late) < shown.index(early)


def test_an_empty_rack_says_where_baits_come_from(empty_world):
    words = words_in(Client(empty_world).get("/rack"))
    assert "Nothing hangs and nothing is bagged yet" in words


def test_the_rack_shows_what_hangs_until_when(rack):
    world, client, lot = rack
    hung(world, lot, hours_ago=2)
    page = client.get("/rack")
    words = words_in(page)
    assert "24 baits" in words
    assert "Hangs until" in words
    assert f"/rack/bag?lot={lot}" in page.text
    assert 'src="/lots/2/picture.png?px=384"' in page.text


def test_a_lot_taken_off_here_comes_back_here(rack):
    world, client, lot = rack
    hung(world, lot, hours_ago=30)
    assert "Hung long enough" in words_in(client.get("/rack"))
    answer = client.send("/sheets/2/taken-off", {"event": KEY, "back": "rack"})
    assert answer.headers["location"] == "/rack?off=2"


def test_a_poured_lot_stands_under_the_batch_book_and_a_bagged_one_under_the_rack(rack):
    _, client, lot = rack
    marked = r'<a href="(/[^"]*)"[^>]*aria-current="page"'
    assert first(marked, client.get(f"/stock/{lot}")) == "/book"
    assert first(marked, client.get("/lots/1")) == "/book"
    page = client.get(bag(client, lot).headers["location"])
    code = first(r'href="/stock/(B[^"]+)"', page)
    assert first(marked, client.get(f"/stock/{code}")) == "/rack"


def test_bags_are_made_shown_and_taken_back(rack):
    world, client, lot = rack
    form = client.get(f"/rack/bag?lot={lot}")
    each = int(field(form, "baits_each"))
    assert field(form, f"take.{lot}") == str(24 - 24 % each)
    answer = bag(client, lot)
    assert answer.status_code == 303
    page = client.get(answer.headers["location"])
    words = words_in(page)
    assert "3 bags of 8" in words
    assert pieces(world, lot) == 0
    labels = urlsplit(first(r'href="(/rack/labels\?[^"]*)"[^>]*>Print', page))
    code = parse_qs(labels.query.replace("&amp;", "&"))["code"][0]
    assert pieces(world, code) == 24
    undo = {"deed": "bagged", "key": KEY, "event": field(page, "event")}
    assert client.send("/rack/undo", undo).headers["location"] == "/rack"
    assert (pieces(world, lot), pieces(world, code)) == (24, 0)
    assert "/rack/undo" not in client.get(answer.headers["location"]).text


def test_the_form_suggests_whole_bags_as_the_price_list_packs_them(rack):
    world, client, lot = rack
    add_record(world, Offer(name="Five", bait="demo-bait-paddle", price_money=4, baits_each=5))
    form = client.get(f"/rack/bag?lot={lot}")
    assert (field(form, "baits_each"), field(form, f"take.{lot}")) == ("5", "20")
    assert Packing.key in form.text


def test_a_lot_that_still_hangs_asks_for_a_second_press(rack):
    world, client, lot = rack
    hung(world, lot, hours_ago=2)
    answer = bag(client, lot)
    words = words_in(answer)
    assert "should hang for another" in words
    assert "Bag them anyway" in words
    assert field(answer, "event") == KEY
    assert pieces(world, lot) == 24
    again = bag(client, lot, anyway=field(answer, "anyway"))
    assert again.status_code == 303
    assert pieces(world, lot) == 0


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        ({"take": "23"}, "23 baits in bags of 8 leave 7 over"),
        ({"take": "32"}, "holds 24 baits"),
        ({"take": "many"}, "must be a whole number"),
        ({"take": ""}, "must have 1 to 20 entries"),
        ({"each": "0"}, "must lie between 1 and 200"),
        ({"each": ""}, "type how many"),
        ({"packing": "nowhere"}, "is not on the shelf"),
    ],
)
def test_what_cannot_be_bagged_keeps_what_was_typed(rack, typed, why):
    world, client, lot = rack
    answer = bag(client, lot, **typed)
    assert answer.status_code in {409, 422}
    assert why in words_in(answer)
    assert field(answer, f"take.{lot}") == typed.get("take", "24")
    assert pieces(world, lot) == 24


def test_baits_leave_with_a_reason_and_come_back(rack):
    world, client, lot = rack
    fields = {"event": KEY, "lot": lot, "baits": "3", "why": "thrown away", "note": "torn"}
    answer = client.send("/rack/out", fields)
    assert client.send("/rack/out", fields).status_code == 303
    assert pieces(world, lot) == 21
    page = client.get(answer.headers["location"])
    assert "3 baits out of" in words_in(page)
    assert "thrown away: torn" in words_in(page)
    undo = {"deed": "out", "key": KEY, "event": field(page, "event")}
    client.send("/rack/undo", undo)
    assert pieces(world, lot) == 24


@pytest.mark.parametrize(
    ("changed", "status", "why"),
    [
        ({"baits": "25"}, 409, "holds 24 baits, not 25"),
        ({"baits": "0"}, 422, "must lie between 1 and"),
        ({"why": "stolen"}, 422, "must be one of thrown away"),
        ({"lot": "P2601010099X"}, 404, "P2601010099X"),
    ],
)
def test_taking_out_what_cannot_be_is_refused(rack, changed, status, why):
    world, client, lot = rack
    fields = {"event": KEY, "lot": lot, "baits": "3", "why": "thrown away"} | changed
    answer = client.send("/rack/out", fields)
    assert answer.status_code == status
    assert why in words_in(answer)
    assert pieces(world, lot) == 24


def test_a_deed_of_another_kind_cannot_be_undone_here(rack):
    _, client, _ = rack
    answer = client.send("/rack/undo", {"deed": "sale", "key": KEY, "event": "b2" * 16})
    assert answer.status_code == 404


def test_a_scanned_code_leads_to_its_lot_and_a_wrong_one_nowhere(rack):
    _, client, lot = rack
    assert client.get(f"/rack/find?code={lot.lower()}").headers["location"] == f"/stock/{lot}"
    wrong = lot[:-1] + ("0" if lot[-1] != "0" else "1")
    answer = client.get(f"/rack/find?code={wrong}")
    assert answer.status_code == 422
    assert "mistyped or misread: its check character is" in words_in(answer)
    assert f'value="{wrong}"' in answer.text
    assert lot not in words_in(answer).split("check character")[1][:80]


def test_markup_in_a_typed_code_is_shown_not_run(rack):
    _, client, _ = rack
    answer = client.get("/rack/find?code=%3Cscript%3Ealert(1)%3C/script%3E")
    assert answer.status_code == 422
    assert "<script>alert" not in answer.text


def test_an_article_number_leads_to_its_price(rack):
    world, client, _ = rack
    # GS1, how to calculate a check digit manually.
    pack = Offer(name="P", bait="demo-bait-paddle", price_money=5, article_number="6291041500213")
    key = add_record(world, pack).id
    answer = client.get("/rack/find?code=6291041500213")
    assert answer.headers["location"] == f"/records/offer/{key}"


def test_the_labels_page_shows_what_is_printed_and_says_check_locally(rack):
    _, client, lot = rack
    words = words_in(client.get(f"/rack/labels?code={lot}"))
    for said in ("Contains lead: not said", "Say it in the bait's record", "Take used baits home",
                 "differ from place to place", "24 labels of 70 × 37 mm"):  # fmt: skip
        assert said in words


@pytest.mark.parametrize(
    "address",
    [
        "/rack/labels.pdf?code={}&sheet=letter-30&count=2&first=4",
        "/rack/labels.pdf?code={}&sheet=roll-2x1&count=1",
        "/rack/card.pdf?code={}&paper=a4&count=1&wide_mm=4&folded_mm=2&hole=none",
    ],
)
def test_what_is_printed_can_be_read(rack, address):
    _, client, lot = rack
    answer = client.get(address.format(lot))
    assert answer.headers["content-type"] == "application/pdf"
    assert lot in answer.headers["content-disposition"]
    assert {("Code 128", lot), ("QR Code", lot)} == set(all_codes(printed(answer.content, 203)))


@pytest.mark.parametrize(
    ("address", "status", "why"),
    [
        ("/rack/labels.pdf?code={}&sheet=letter-30&first=31", 422, "1 to 30"),
        ("/rack/labels.pdf?code={}&sheet=letter-30&count=x", 422, "number of labels"),
        ("/rack/labels.pdf?code={}&sheet=letter-30&face=none", 422, "must be one of lot"),
        ("/rack/labels.pdf?code={}&sheet=letter-30&face=article%20number", 422, "no article"),
        ("/rack/labels.pdf?code={}&sheet=nowhere", 404, "no label sheet"),
        ("/rack/labels.pdf?code=P0&sheet=letter-30", 404, "P0"),
        ("/rack/labels?code={}&sheet=nowhere", 422, "must be one of letter-30"),
        ("/rack/labels?code={}&count=0", 422, "between 1 and 500"),
        ("/rack/labels?code={}&count=501", 422, "between 1 and 500"),
        ("/rack/card.pdf?code={}&wide_mm=100&folded_mm=2&hole=none", 422, "must lie between"),
        ("/rack/card.pdf?code={}&wide_mm=4&folded_mm=2&hole=none&paper=a5", 422, "letter, a4"),
        ("/rack/bag?lot=P0", 404, "no loose baits"),
    ],
)
def test_what_cannot_be_printed_is_said(rack, address, status, why):
    _, client, lot = rack
    answer = client.get(address.format(lot))
    assert answer.status_code == status
    assert why in words_in(answer)
