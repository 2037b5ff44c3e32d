"""Pages of orders and sales: from a pasted message to a sale that is taken back."""

from __future__ import annotations

import re

import pypdfium2
import pytest

from order_bench import MARSH, bagged, line, order, order_bench, poured, priced
from pourwright.actions.sales_of import sales_of
from pourwright.actions.tax_standing import tax_standing
from pourwright.shop.mold import Mold
from pourwright.shop.order import Customer, Order, OrderState
from pourwright.shop.tax_profile import TaxCountry
from web.client import Client, form_in, words_in

MESSAGE = (
    "3 packs of marsh worms in marsh green and 2 packs of four-inch slough shads in slough shad"
)


@pytest.fixture
def world(tmp_path):
    return order_bench(tmp_path)


def orders_of(world) -> dict[str, Order]:
    with world.reading() as bench:
        return {s.id: s.noun for s in bench.records.all(Order.key)}


def read(client: Client, message: str, day: str = "2026-06-01") -> dict[str, str]:
    page = client.send(
        "/orders/message", {"@message": message, "@on_day": day, "@do": "read"}
    )  # fmt: skip
    assert page.status_code == 200, words_in(page)
    return form_in(page)


def test_the_list_opens_on_an_empty_and_on_a_full_bench(empty_world, full_world):
    assert "No order is open" in words_in(Client(empty_world).get("/orders"))
    words = words_in(Client(full_world).get("/orders"))
    assert "1 order is late" in words
    assert "Only asked about" in words


def test_late_orders_stand_first_with_what_is_short(world):
    bagged(world, "B1", 2)
    order(world, "far", line(1), due="2999-01-01")
    order(world, "late", line(4), due="2026-02-01")
    words = words_in(Client(world).get("/orders"))
    assert words.index("2 packs must be poured, 2 ready") < words.index("Due Tue, Jan 1, 2999")
    assert "days late" in words
    assert re.search(r"24 baits Four-inch slough shad", words)


def test_a_clear_message_becomes_an_order_once_it_is_confirmed(world):
    client = Client(world)
    priced(world, 6, each=6)
    with world.bench() as bench:
        bench.records.save("customer", "ada", Customer(name="Ada Reed"), expected_version=0)
        bench.commit()
    form = read(client, f"{MESSAGE}, packs of 6, by June 5. Ada Reed")
    assert not orders_of(world)
    form |= {"lines[0].baits_each": "8"}
    answer = client.send("/orders/message", form | {"@do": "save"})
    assert answer.status_code == 303, words_in(answer)
    client.send("/orders/message", form | {"@do": "save"})
    ((key, kept),) = orders_of(world).items()
    assert answer.headers["location"] == f"/orders/{key}"
    assert [(it.bait, it.look, it.packs, it.baits_each) for it in kept.lines] == [
        ("demo-bait-worm", "demo-look-marsh", 3, 8), ("demo-bait-paddle", "demo-look-shad", 2, 6),
    ]  # fmt: skip
    assert (kept.due_on, kept.customer, kept.taken_on) == ("2026-06-05", "ada", "2026-06-01")
    assert kept.message.startswith("3 packs of marsh worms")


def test_what_is_not_clear_is_never_kept_unasked(world):
    client = Client(world)
    form = read(client, "24 marsh worms in marsh green, packs of 8, see you Friday. Juniper")
    assert form["due_on"] == ""
    form |= {"new_customer": "Cy Fen", "lines[0].packs": "3"}
    answer = client.send("/orders/message", form | {"@do": "save"})
    assert answer.status_code == 422
    assert "the message may name a day" in words_in(answer)
    page = client.send("/orders/message", form | {"@do": "pick:@no_day=1"})
    assert client.send("/orders/message", form_in(page) | {"@do": "save"}).status_code == 303
    (kept,) = orders_of(world).values()
    assert kept.due_on == ""


def test_a_choice_that_is_tapped_fills_its_box(world):
    client = Client(world)
    form = read(client, "2 packs of slough shad, packs of 8")
    assert form["lines[0].bait"] == ""
    page = client.send(
        "/orders/message", form | {"@do": "pick:lines[0].bait=demo-bait-paddle"}
    )  # fmt: skip
    assert form_in(page)["lines[0].bait"] == "demo-bait-paddle"


def test_a_row_removed_takes_its_questions_with_it(world):
    client = Client(world)
    form = read(client, "24 marsh worms in marsh green\n2 packs slough shad")
    page = client.send("/orders/message", form | {"@do": "remove:lines[0]"})
    assert "24 packs, or 24 baits" not in words_in(page)
    assert "the same words name a bait and a look" in words_in(page)


def test_a_message_is_shown_as_it_is_with_nothing_of_it_run(world):
    client = Client(world)
    evil = '=HYPERLINK("http://x") <script>alert(1)</script> & 2 packs of marsh worms, \'é'
    page = client.send(
        "/orders/message", {"@message": evil, "@on_day": "2026-06-01", "@do": "read"}
    )  # fmt: skip
    assert "<script>alert" not in page.text
    form = form_in(page)
    assert form["@message"].replace("&lt;", "<") == evil
    filled = {
        "new_customer": "=1+1", "lines[0].look": "demo-look-marsh", "lines[0].baits_each": "8",
        "lines[0].packs": "2", "lines[0].bait": "demo-bait-worm", "@do": "save",
    }  # fmt: skip
    answer = client.send("/orders/message", form | filled)
    assert answer.status_code == 303, words_in(answer)
    (kept,) = orders_of(world).values()
    assert kept.message == evil
    assert "<script>alert" not in client.get(answer.headers["location"]).text


@pytest.mark.parametrize(
    ("sent", "why"), [({"@message": ""}, "characters"), ({"@on_day": "2026-02-30"}, "no day"),
                      ({"@message": "x" * 4001}, "4000")],
)  # fmt: skip
def test_a_message_that_cannot_be_read_is_kept_in_its_box(world, sent, why):
    whole = {"@message": "2 packs", "@on_day": "2026-06-01", "@do": "read"} | sent
    page = Client(world).send("/orders/message", whole)
    assert page.status_code == 422
    assert why in words_in(page)


def test_an_order_by_hand_needs_a_customer_and_a_line(world):
    client = Client(world)
    form = form_in(client.get("/orders/new"))
    page = client.send("/orders/new", form | {"@do": "save"})
    assert page.status_code == 422
    assert not orders_of(world)


def test_an_order_goes_from_the_rack_to_a_sale_and_back(world):
    client = Client(world)
    bagged(world, "B1", 1)
    poured(world, 7, 20)
    priced(world, 6.5)
    order(world, "one", line(3, price=7))

    def do(deed: str):
        return client.send("/orders/one/do", {"deed": deed})

    assert do("aside").status_code == 303
    assert "2 from P" in words_in(client.get("/orders/one"))
    assert do("pick:0").status_code == 303
    assert do("pack").status_code == 303
    form = form_in(client.get("/orders/one/send"))
    assert form["lines[0].price_money"] == "7.00"
    sent = client.send("/orders/one/send", form | {"delivery_money": "4.50", "fees_money": "1"})
    assert sent.status_code == 303, words_in(sent)
    page = client.get(sent.headers["location"])
    words = words_in(page)
    assert "Received $25.50" in words
    assert "No tax figure: no country is chosen" in words
    assert "Juniper" not in words
    with world.reading() as bench:
        (kept,) = sales_of(bench)
    (back,) = re.findall(r'name="event" value="([0-9a-f]{32})"', page.text)
    refused = client.send(f"/sales/{kept.id}/take-back", {"event": back, "why": ""})
    assert refused.status_code == 422
    done = client.send(f"/sales/{kept.id}/take-back", {"event": back, "why": "wrong box"})
    assert done.status_code == 303
    assert "wrong box" in words_in(client.get(f"/sales/{kept.id}"))
    assert orders_of(world)["one"].state is OrderState.PACKED
    assert "taken back" in words_in(client.get("/orders"))


def test_sending_what_is_not_set_aside_is_refused_in_words(world):
    client = Client(world)
    order(world, "one", line(2))
    form = form_in(client.get("/orders/one/send")) | {"note": "kept"}
    page = client.send("/orders/one/send", form)
    assert page.status_code == 409
    assert "Nothing of the order is set aside" in words_in(page)
    assert form_in(page)["note"] == "kept"


def test_the_first_sale_asks_for_the_country_and_can_do_without(world):
    client = Client(world)
    bagged(world, "B1", 2)
    order(world, "one", line(2))
    client.send("/orders/one/do", {"deed": "aside"})
    page = client.get("/orders/one/send")
    assert "for a licensed adviser" in words_in(page)
    form = form_in(page) | {"note": "kept while asking"}
    page = client.send("/orders/one/send", form | {"@do": "country:United States"})
    assert form_in(page)["note"] == "kept while asking"
    assert "Maker's tax: United States" in words_in(page).replace("&#39;", "'")
    with world.reading() as bench:
        profile = tax_standing(bench)
        assert profile is not None
        assert profile.country is TaxCountry.US
        assert not sales_of(bench)
    page = client.send("/orders/one/send", form | {"@do": "country:Atlantis"})
    assert page.status_code == 422


def test_a_part_is_sent_the_rest_stays_open_and_a_second_parcel_closes_it(world):
    client = Client(world)
    bagged(world, "B1", 2)
    order(world, "one", line(3), line(1, look=MARSH))
    client.send("/orders/one/do", {"deed": "aside"})
    assert "Send a part: 2 packs" in words_in(client.get("/orders/one"))
    page = client.get("/orders/one/send")
    assert "None set aside: the rest stays open" in words_in(page)
    refused = client.send("/orders/one/send", form_in(page) | {"lines[0].packs": "3"})
    assert refused.status_code == 422
    assert "2 packs are set aside" in words_in(refused)
    sent = client.send("/orders/one/send", form_in(page) | {"lines[0].packs": "1"})
    assert sent.status_code == 303, words_in(sent)
    assert "a part of your order left" in words_in(client.get(sent.headers["location"]))
    assert "3 more packs will follow" in words_in(client.get(sent.headers["location"]))
    words = words_in(client.get("/orders"))
    assert "Part sent, 3 of 4 packs left; 2 packs must be poured, 1 ready" in words
    assert "2 packs of 8 left of 3: Four-inch slough shad" in words
    assert "3 packs left, part sent" in words_in(client.get("/"))
    words = words_in(client.get("/orders/one"))
    assert "Sent so far" in words
    assert "this is still to come of your order" in words
    pdf = pypdfium2.PdfDocument(client.get("/orders/one/packing-list.pdf").content)
    text = pdf[0].get_textpage().get_text_bounded()
    assert "1 sent before" in text
    assert "3 packs in all" in text
    bagged(world, "B2", 1)
    bagged(world, "B3", 1, look=MARSH)
    client.send("/orders/one/do", {"deed": "aside"})
    last = client.send("/orders/one/send", form_in(client.get("/orders/one/send")))
    assert last.status_code == 303, words_in(last)
    assert orders_of(world)["one"].state is OrderState.SENT
    pdf = pypdfium2.PdfDocument(client.get("/orders/one/packing-list.pdf").content)
    text = pdf[0].get_textpage().get_text_bounded()
    assert "2 from lot B1" in text
    assert "1 from lot B3" in text
    assert "4 packs in all" in text
    back = {"event": "c" * 32, "why": "lost in the post"}
    client.send(f"{last.headers['location']}/take-back", back)
    kept = orders_of(world)["one"]
    assert (kept.state, [it.sent for it in kept.lines]) == (OrderState.PACKED, [1, 0])


@pytest.mark.parametrize("deed", ["", "sell", "pick:x", "off:1;drop"])
def test_an_unknown_deed_is_refused(world, deed):
    order(world, "one", line(2))
    answer = Client(world).send("/orders/one/do", {"deed": deed})
    assert answer.status_code == 422
    assert orders_of(world)["one"].state is OrderState.TAKEN


def test_what_cannot_be_done_is_said_on_the_page_of_the_order(world):
    order(world, "one", line(2))
    page = Client(world).send("/orders/one/do", {"deed": "aside"})
    assert page.status_code == 409
    assert "it must be poured" in words_in(page)


def test_an_order_for_a_mold_that_is_gone_is_said_and_loses_nothing(world):
    order(world, "one", line(2))
    with world.bench() as bench:
        for stored in bench.records.all(Mold.key):
            bench.records.retire(Mold.key, stored.id, expected_version=stored.version)
        bench.commit()
    for address in ("/orders", "/orders/one"):
        assert "No mold for it is on the bench any more" in words_in(Client(world).get(address))
    assert orders_of(world)["one"].lines[0].packs == 2


def test_a_changed_order_is_refused_to_whoever_opened_it_before(world):
    client = Client(world)
    order(world, "one", line(2))
    form = form_in(client.get("/orders/one/change"))
    assert client.send("/orders/one/change", form | {"note": "first"}).status_code == 303
    page = client.send("/orders/one/change", form | {"note": "second"})
    assert page.status_code == 409
    assert form_in(page)["note"] == "second"


@pytest.mark.parametrize("count", [1, 40])
def test_the_packing_list_names_every_line_and_no_price(world, count):
    bagged(world, "B1", 2)
    order(world, "one", line(3), *(line(1, price=77.77) for _ in range(count - 1)))
    Client(world).send("/orders/one/do", {"deed": "aside"})
    answer = Client(world).get("/orders/one/packing-list.pdf")
    pdf = pypdfium2.PdfDocument(answer.content)
    text = " ".join(page.get_textpage().get_text_bounded() for page in pdf)
    assert text.count("Four-inch slough shad") == count
    assert "2 from lot B1" in text
    assert "1 not set aside yet" in text
    assert "77.77" not in text
    assert f"{count + 2} packs in all" in text


@pytest.mark.parametrize(
    "address",
    ["/orders/none", "/sales/none", "/orders/none/send", "/orders/none/change",
     "/orders/none/packing-list.pdf"],
)  # fmt: skip
def test_what_is_not_there_is_not_found(world, address):
    assert Client(world).get(address).status_code == 404


def test_a_record_saved_from_its_form_comes_back_to_the_list(world):
    order(world, "one", line(2))
    assert "Saved: Ada Reed" in words_in(Client(world).get("/orders?saved=ada"))
