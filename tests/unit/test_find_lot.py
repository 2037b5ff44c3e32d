"""A code that was typed or scanned finds its lot; a wrong one finds nothing at all."""

from __future__ import annotations

import pytest

from pourwright.actions.find_lot import find_lot
from pourwright.actions.keep_record import add_record
from pourwright.base.errors import BadInput, NotFound
from pourwright.shop.check_scheme import ALPHABET, check_character
from pourwright.shop.offer import Offer
from rack_bench import poured
from ready_store import demo_bench

# GS1, how to calculate a check digit manually.
ISSUED = "6291041500213"


@pytest.fixture(scope="module")
def bench(tmp_path_factory):
    world = demo_bench(tmp_path_factory.mktemp("found"))
    code = poured(world, 2, 24)
    offer = Offer(name="Eight worms", bait="demo-bait-worm", price_money=5.0, article_number=ISSUED)
    added = add_record(world, offer).id
    with world.reading() as unit:
        yield unit, code, added


def test_a_code_is_found_however_it_is_typed(bench):
    unit, code, _ = bench
    for typed in (code, code.lower(), f" {code[:7]}-{code[7:]} ", f"{code[:4]} {code[4:]}"):
        found = find_lot(unit, typed).lot
        assert found is not None
        assert found.lot.code == code


def test_every_wrong_character_is_refused_and_nothing_is_offered(bench):
    unit, code, _ = bench
    for i in range(len(code)):
        for other in ALPHABET:
            if other != code[i]:
                wrong = code[:i] + other + code[i + 1 :]
                with pytest.raises(BadInput, match="mistyped or misread") as refused:
                    find_lot(unit, wrong)
                assert code not in str(refused.value).replace(code[:-1], "")


def test_the_check_that_fails_is_named(bench):
    unit, code, _ = bench
    body, check = code[:-1], code[-1]
    wrong = "0" if check != "0" else "1"
    with pytest.raises(BadInput, match=f"its check character is {wrong}, and {body} asks for"):
        find_lot(unit, body + wrong)


def test_a_well_typed_code_of_another_bench_is_not_found(bench):
    body = "P2601010999"
    with pytest.raises(NotFound):
        find_lot(bench[0], body + check_character(body))


def test_an_article_number_leads_to_its_price(bench):
    unit, _, offer = bench
    assert find_lot(unit, ISSUED).offer == offer
    assert find_lot(unit, "6 291041 500213").offer == offer
    with pytest.raises(BadInput, match="its last digit is 8"):
        find_lot(unit, "6291041500218")
    with pytest.raises(NotFound, match="no pack on the price list"):
        find_lot(unit, "036000241457")


@pytest.mark.parametrize("typed", ["", "   ", "--", "é", "P26/01", "P", "<b>"])
def test_what_is_no_code_is_refused_in_words(bench, typed):
    with pytest.raises(BadInput) as refused:
        find_lot(bench[0], typed)
    assert refused.value.field == "code"
