"""Check characters against printed examples and an independent library."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum import ean
from stdnum.iso7064 import mod_37_2, mod_37_36, mod_97_10

from pourwright.base.errors import BadInput
from pourwright.shop.check_code import CodeInput, check_code
from pourwright.shop.check_scheme import (
    ALPHABET,
    ARTICLE_LENGTHS,
    DIGITS,
    SCHEMES,
    Scheme,
    check_character,
    refuse_bad_article_number,
)
from pourwright.shop.code import lot_code

# python-stdnum, the independent library.
LIBRARY = {
    Scheme.MOD_37_36: mod_37_36.calc_check_digit,
    Scheme.MOD_37_2: mod_37_2.calc_check_digit,
    Scheme.MOD_97_10: mod_97_10.calc_check_digits,
    Scheme.MOD_10: ean.calc_check_digit,
}
LOT = lot_code(date="2026-11-25", number=7)


@pytest.mark.parametrize(
    ("scheme", "body", "check"),
    [
        # GS1, how to calculate a check digit manually; the same of GS1 Sweden; a printed UPC.
        (Scheme.MOD_10, "629104150021", "3"),
        (Scheme.MOD_10, "730001100001", "7"),
        (Scheme.MOD_10, "03600024145", "7"),
        # python-stdnum, documentation of stdnum.ean: EAN-8 and EAN-14.
        (Scheme.MOD_10, "7351353", "7"),
        (Scheme.MOD_10, "9841234567890", "8"),
        # ISBT 128 Standard Technical Specification, annex on the MOD 37-2 check character.
        (Scheme.MOD_37_2, "G123498654321", "H"),
        # ISO/IEC 7064:2003, MOD 97-10 (from memory).
        (Scheme.MOD_97_10, "794", "44"),
        # python-stdnum, documentation of stdnum.iso7064.mod_97_10.
        (Scheme.MOD_97_10, "99991234567890121414", "90"),
    ],
)
def test_printed_examples(scheme, body, check):
    told = check_code(CodeInput(code=body, complete=False, scheme=scheme))
    assert told.check == check
    assert not told.valid
    assert check_code(CodeInput(code=body + check, scheme=scheme)).valid


@given(st.text(ALPHABET, min_size=1, max_size=30), st.sampled_from(Scheme))
def test_an_independent_library_agrees(text, scheme):
    known = SCHEMES[scheme]
    body = "".join(c for c in text if c in known.alphabet) or "0"
    if scheme is Scheme.MOD_10:
        body = body.zfill(7)[:13]
        body = body if len(body) + 1 in ARTICLE_LENGTHS else body[:7]
    assert known.check_of(body) == LIBRARY[scheme](body)


def _passes(scheme, code):
    known = SCHEMES[scheme]
    body, check = known.parted(code)
    return known.check_of(body) == check


@pytest.mark.parametrize(
    ("scheme", "code"),
    [
        (Scheme.MOD_37_36, LOT),
        (Scheme.MOD_37_36, "A12425GABC1234002M"),
        (Scheme.MOD_37_2, "G123498654321H"),
        (Scheme.MOD_97_10, "79444"),
        (Scheme.MOD_10, "6291041500213"),
    ],
)
def test_no_single_wrong_character_passes(scheme, code):
    assert _passes(scheme, code)
    wrong = [
        code[:i] + other + code[i + 1 :]
        for i in range(len(code))
        for other in SCHEMES[scheme].alphabet
        if other != code[i]
    ]
    assert len(wrong) == len(code) * (len(SCHEMES[scheme].alphabet) - 1)
    assert [w for w in wrong if _passes(scheme, w)] == []


@pytest.mark.parametrize(
    ("scheme", "code"),
    [(Scheme.MOD_37_36, LOT), (Scheme.MOD_37_2, "G123498654321H"), (Scheme.MOD_97_10, "79444")],
)
def test_swapped_neighbors_are_caught(scheme, code):
    swapped = {_swapped(code, i) for i in range(len(code) - 1)} - {code}
    assert [w for w in swapped if _passes(scheme, w)] == []


def test_mod_37_36_misses_one_pair_of_neighbors_in_630_at_each_place():
    # By the library, not by our own code: whatever stands before, one pair of the 36 * 35 / 2.
    for before in ["", *ALPHABET]:
        missed = [
            a + b
            for a, b in itertools.combinations(ALPHABET, 2)
            if LIBRARY[Scheme.MOD_37_36](before + a + b)
            == LIBRARY[Scheme.MOD_37_36](before + b + a)
        ]
        assert len(missed) == 1
        if not before:
            assert missed == ["IJ"]
            assert "IJ for JI" in SCHEMES[Scheme.MOD_37_36].misses
        assert all(check_character(before + m) == check_character(before + m[::-1]) for m in missed)


def test_an_article_number_hides_neighbors_that_differ_by_five_and_nothing_else():
    code = "6291041500213"
    hidden = {
        (code[i], code[i + 1])
        for i in range(len(code) - 1)
        if code[i] != code[i + 1] and _passes(Scheme.MOD_10, _swapped(code, i))
    }
    assert hidden == {("5", "0")}
    for a, b in itertools.permutations(DIGITS, 2):
        hides = ean.calc_check_digit(f"00{a}{b}000") == ean.calc_check_digit(f"00{b}{a}000")
        assert hides == (abs(int(a) - int(b)) == 5)
    assert "differ by 5" in SCHEMES[Scheme.MOD_10].misses


def _swapped(code, i):
    return code[:i] + code[i + 1] + code[i] + code[i + 2 :]


def test_a_mistyped_code_is_told_what_its_end_should_be():
    told = check_code(CodeInput(code="6291041500218", scheme=Scheme.MOD_10))
    assert (told.valid, told.verdict) == (False, "mistyped: after 629104150021 comes 3, not 8")
    assert any("issued" in note for note in told.notes)


@pytest.mark.parametrize(
    ("scheme", "code", "why"),
    [
        (Scheme.MOD_10, "629104150A213", "holds 'A', which does not belong: digits only"),
        (Scheme.MOD_10, "123456789", "would have 9 digits"),
        (Scheme.MOD_37_36, "P26*1", "must look like"),
        (Scheme.MOD_97_10, "44", "nothing before its check characters"),
    ],
)
def test_what_no_scheme_can_hold_is_refused_in_words(scheme, code, why):
    with pytest.raises(BadInput, match=why):
        check_code(CodeInput(code=code, scheme=scheme))


@pytest.mark.parametrize(
    ("number", "why"),
    [
        ("6291041500218", "its last digit is 8, and the ones before it ask for 3"),
        ("629104150021", "mistyped"),
        ("62910415002", "has 11 digits"),
        ("629104-1500213", "no spaces or dashes"),
        ("٦٢٩١٠٤١٥٠٠٢١٣", "digits only"),
    ],
)
def test_an_article_number_is_refused_by_field_and_reason(number, why):
    with pytest.raises(BadInput, match=why) as refused:
        refuse_bad_article_number(number, field="article_number")
    assert refused.value.field == "article_number"


def test_article_numbers_of_every_length_are_taken():
    for body in ("7351353", "03600024145", "629104150021", "9841234567890"):
        refuse_bad_article_number(body + ean.calc_check_digit(body), field="article_number")
