"""Labels say what the bench knows: the lot, its baits, their weight, their lead, their number."""

from __future__ import annotations

import dataclasses

import pytest

from pourwright.actions.bag_baits import Bagging, Taken, bag_baits
from pourwright.actions.keep_record import add_record
from pourwright.actions.print_labels import (
    bag_label,
    label_sheets,
    print_header_cards,
    print_labels,
)
from pourwright.base.errors import BadInput, NotFound
from pourwright.shop.header_card import CardShape
from pourwright.shop.label import Face
from pourwright.shop.label_sheet import LabelSheet
from pourwright.shop.mold import Bait, Lead
from pourwright.shop.move import Move, MoveKind
from pourwright.shop.offer import Offer
from pourwright.shop.workplace import Paper
from printed_codes import all_codes, printed
from printed_page import pictures_of, words_of
from rack_bench import EACH_MG, poured
from ready_store import demo_bench

# GS1, how to calculate a check digit manually; a printed UPC.
OF_ANY, OF_LOOK = "6291041500213", "036000241457"


@pytest.fixture
def world(tmp_path):
    return demo_bench(tmp_path)


def bagged(world, *lots: tuple[str, int], each: int = 8, anyway: bool = False) -> str:
    taken = tuple(Taken(lot=lot, baits=baits) for lot, baits in lots)
    bagging = Bagging(taken=taken, baits_each=each, anyway=anyway)
    return bag_baits(world, bagging, key="a1" * 16).lot.code


def label(world, code):
    with world.reading() as bench:
        return bag_label(bench, code)


def say_lead(world, lead: Lead) -> None:
    with world.bench() as bench:
        stored = bench.records.get(Bait.key, "demo-bait-paddle")
        noun = dataclasses.replace(stored.noun, lead=lead)
        bench.records.save(Bait.key, stored.id, noun, expected_version=stored.version)
        bench.commit()


@pytest.mark.parametrize("lead", Lead)
def test_a_bag_says_what_is_in_it(world, lead):
    say_lead(world, lead)
    lot = poured(world, 2, 24)
    made = label(world, bagged(world, (lot, 24)))
    assert made.lines() == (
        "8 baits", "about 91.8\N{NO-BREAK SPACE}g (3.24\N{NO-BREAK SPACE}oz)",
        f"Poured {made.poured_on}", f"Contains lead: {lead.value}", "Invented demo data",
    )  # fmt: skip
    # NIST SP 811 (2008), appendix B.8: an avoirdupois ounce is 28.349 523 125 g.
    assert made.net_mg == 8 * EACH_MG
    assert round(8 * EACH_MG / 28_349.523125, 2) == 3.24


def test_a_bag_that_was_sold_down_keeps_its_label(world):
    lot = poured(world, 2, 24)
    code = bagged(world, (lot, 16))
    before = label(world, code)
    with world.bench() as bench:
        bench.stock.post(Move(
            id="c3" * 16, at=world.clock.now(), kind=MoveKind.SOLD, source=code, pieces=16,
            mg=16 * EACH_MG, cost=bench.stock.lot(code).cost,
        ))  # fmt: skip
        bench.commit()
    assert label(world, code) == before


def test_baits_of_several_pours_name_the_oldest(world):
    old, new = poured(world, 2, 8, days_ago=9), poured(world, 3, 8, days_ago=2)
    with world.reading() as bench:
        day = bench.stock.lot(old).lot.opened_at[:10]
    assert label(world, bagged(world, (new, 8), (old, 8))).poured_on == f"since {day}"


def test_a_poured_lot_is_labeled_as_a_whole(world):
    made = label(world, poured(world, 2, 24))
    assert (made.baits_each, made.net_mg) == (24, 24 * EACH_MG)


def test_only_the_number_that_was_issued_for_such_a_pack_stands_on_it(world):
    lot = poured(world, 2, 24)
    code = bagged(world, (lot, 8))
    assert label(world, code).article == ""
    pack = Offer(name="Any", bait="demo-bait-paddle", price_money=5, article_number=OF_ANY)
    add_record(world, dataclasses.replace(pack, baits_each=6))
    assert label(world, code).article == ""
    add_record(world, pack)
    assert label(world, code).article == OF_ANY
    add_record(world, dataclasses.replace(pack, look="demo-look-shad", article_number=OF_LOOK))
    assert label(world, code).article == OF_LOOK


def test_own_sheets_stand_before_the_usual_ones(world):
    own = LabelSheet(
        name="Mine", paper_wide_mm=60, paper_high_mm=40, label_wide_mm=58, label_high_mm=38
    )
    key = add_record(world, own).id
    with world.reading() as bench:
        assert next(iter(label_sheets(bench).items())) == (key, own)
    lot = poured(world, 2, 24)
    pdf = print_labels(world, lot, sheet=key, count=1, first=1, face=Face.LOT)
    assert all_codes(printed(pdf, 203)) == [("Code 128", lot), ("QR Code", lot)]


def test_a_sheet_of_labels_carries_the_lot(world):
    lot = poured(world, 2, 24)
    code = bagged(world, (lot, 24))
    pdf = print_labels(world, code, sheet="a4-24", count=3, first=1, face=Face.LOT)
    assert words_of(pdf).count(code) == 3


def test_a_header_card_shows_the_look(world):
    lot = poured(world, 2, 24)
    code = bagged(world, (lot, 24))
    pdf = print_header_cards(world, code, shape=CardShape(), paper=Paper.LETTER, count=1)
    assert len(pictures_of(pdf)) == 1
    assert all_codes(printed(pdf, 203)) == [("Code 128", code), ("QR Code", code)]


def test_a_card_for_several_looks_has_no_picture_and_says_so(world):
    first, second = poured(world, 2, 8), poured(world, 3, 8, look="demo-look-marsh")
    code = bagged(world, (first, 8), (second, 8), anyway=True)
    pdf = print_header_cards(world, code, shape=CardShape(), paper=Paper.LETTER, count=1)
    assert pictures_of(pdf) == []
    assert "No picture: several looks lie in one bag" in words_of(pdf)


@pytest.mark.parametrize(
    ("changed", "error", "why"),
    [
        ({"count": 0}, BadInput, "between 1 and 500"),
        ({"count": 501}, BadInput, "between 1 and 500"),
        ({"first": 25}, BadInput, "1 to 24"),
        ({"sheet": "nowhere"}, NotFound, "no label sheet"),
    ],
)
def test_what_cannot_be_printed_is_refused_in_words(world, changed, error, why):
    asked = {"sheet": "a4-24", "count": 1, "first": 1, "face": Face.LOT} | changed
    with pytest.raises(error, match=why):
        print_labels(world, poured(world, 2, 24), **asked)
