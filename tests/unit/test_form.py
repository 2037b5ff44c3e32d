"""Forms: texts to records and back, nothing typed lost, nothing drifting."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pourwright.base.field import fields_of
from pourwright.base.units import System
from pourwright.body.division import Place
from pourwright.shop.look import Dose, Look, LookLayer
from pourwright.shop.material import Colorant
from pourwright.shop.mold import Bait, Mold, Weighing
from pourwright.shop.nouns import NOUNS
from pourwright.shop.tool import Cup, Microwave, SpoonSet
from pourwright.shop.workplace import Workplace
from pourwright.web.form import FILL_IN, UNITS_NAME, parsed, texts_of
from pourwright.web.form_edit import edited, settled
from pourwright.web.number_text import NotANumber, number_of, typed_in
from pourwright.web.show import Settings

US = Settings(System.US)
METRIC = Settings(System.METRIC)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("2.5", 2.5), ("2,5", 2.5), (",5", 0.5), ("0,125", 0.125), ("-3", -3.0), ("−3", -3.0),
        ("1/4", 0.25), ("1 1/2", 1.5), (" 450 ", 450.0), ("450 g", 450.0), ("1200", 1200.0),
        ("12345678", 12345678.0), ("1,25", 1.25), ("1,2345", 1.2345),
    ],
)  # fmt: skip
def test_numbers_are_read_as_people_type_them(text, value):
    assert number_of(text, unit="g") == value


@pytest.mark.parametrize(
    "text",
    [
        "",
        "nan",
        "inf",
        "-inf",
        "1e5",
        "0x10",
        "1/0",
        "1.2.3",
        "1,2,3",
        "١٢",
        "five",
        "1" * 41,
        "--1",
    ],
)
def test_what_is_no_number_is_refused(text):
    with pytest.raises(NotANumber, match="number"):
        number_of(text)


def test_a_comma_that_may_stand_for_thousands_is_asked_about():
    with pytest.raises(NotANumber, match=r"could mean 1200 or 1\.200"):
        number_of("1,200")


def cup(**typed: str) -> dict[str, str]:
    return texts_of(Cup, None, System.US) | {"name": "Pint", "volume_ml": "16"} | typed


def test_us_units_are_turned_into_si_at_the_edge():
    found = parsed(Cup, cup(), US)
    # 1 US fl oz = 29.5735295625 mL exactly: NIST SP 811 (2008), appendix B.8.
    assert found.record.volume_ml == pytest.approx(16 * 29.5735295625, abs=1e-9)


def test_the_units_a_form_was_shown_in_rule_over_those_set_meanwhile():
    found = parsed(Cup, cup(), METRIC)
    assert found.record.volume_ml == pytest.approx(473.176473, abs=1e-6)


def test_temperatures_and_their_differences_convert_apart():
    typed = texts_of(NOUNS["thermometer"], None, System.US) | {"name": "Gun", "bias_k": "9"}
    assert parsed(NOUNS["thermometer"], typed, US).record.bias_k == pytest.approx(5.0)
    typed = texts_of(Workplace, None, System.US) | {"name": "Shed", "ambient_c": "77"}
    assert parsed(Workplace, typed, US).record.ambient_c == pytest.approx(25.0)


def test_a_stored_number_left_alone_is_kept_to_the_last_digit():
    stored = Cup(name="Odd", volume_ml=473.123456789, mass_g=390.0)
    again = parsed(Cup, texts_of(Cup, stored, System.US), US, stored)
    assert again.record == stored


@pytest.mark.parametrize(
    ("thick_mm", "text"),
    # 25.4 mm to the inch: NIST SP 811 (2008). A caliper reads half a thousandth of an inch
    # (common practice, no source); 5/32 in is told exactly, what is thinner than that by digits.
    [(4.0, "0.1575"), (3.96875, "0.15625"), (25.4, "1"), (14.3333, "0.5643"), (0.1, "0.003937")],
)
def test_a_length_is_told_as_a_caliper_reads_it_and_kept_as_it_was(thick_mm, text):
    entry = next(f for f in fields_of(Bait) if f.name == "thickest_mm")
    assert typed_in(thick_mm, entry, System.US) == text
    stored = Bait(name="Odd", mass_g=9, thickest_mm=max(thick_mm, 1.0))
    assert parsed(Bait, texts_of(Bait, stored, System.US), US, stored).record == stored


def test_every_problem_is_told_at_once_in_the_units_of_the_form():
    found = parsed(Cup, cup(name="", volume_ml="900", mass_g="heavy"), US)
    assert found.record is None
    assert found.problems["name"] == FILL_IN
    # 30 to 4000 mL, rounded inward: 1.014420 to 135.2562 fl oz, five digits.
    assert (
        found.problems["volume_ml"] == "must lie between 1.0145 and 135.25\N{NO-BREAK SPACE}fl oz"
    )
    assert "not a number" in found.problems["mass_g"]


def test_what_is_left_empty_stays_unmeasured_and_defaults_apply():
    typed = texts_of(Mold, None, System.METRIC) | {
        "name": "M", "bait": "b", "cavities": "2", "life_shots": "",
    }  # fmt: skip
    mold = parsed(Mold, typed, METRIC).record
    assert mold.mass_g is None
    assert mold.life_shots == 2000


@pytest.mark.parametrize(
    ("text", "why"),
    [("-4", "must lie between 1 and 60"), ("2.5", "whole number"), ("NaN", "not a number")],
)
def test_a_count_that_is_none_is_refused(text, why):
    typed = texts_of(Mold, None, System.US) | {"name": "M", "bait": "b", "cavities": text}
    found = parsed(Mold, typed, US)
    assert found.record is None
    assert why in found.problems["cavities"]


def test_flags_are_on_only_when_sent():
    assert parsed(Cup, cup(wet="on"), US).record.wet is True
    assert parsed(Cup, cup(), US).record.wet is False


def test_rules_that_join_fields_speak_at_their_field():
    look = Look(name="L", layers=(LookLayer(place=Place.BODY, share=1.0),))
    typed = texts_of(Look, look, System.US) | {"layers[0].share": "0.5"}
    assert "add up to 1" in parsed(Look, typed, US).problems["layers"]


def test_a_row_is_added_and_removed_and_the_rows_below_move_up():
    spoons = SpoonSet(name="S", sizes_tsp=(1.0, 0.5, 0.25))
    typed = texts_of(SpoonSet, spoons, System.US)
    less = edited(SpoonSet, typed, "remove:sizes_tsp[1]", System.US)
    assert parsed(SpoonSet, less, US).record.sizes_tsp == (1.0, 0.25)
    more = edited(SpoonSet, less, "add:sizes_tsp", System.US)
    assert more["sizes_tsp#"] == "3"
    assert parsed(SpoonSet, more, US).problems == {"sizes_tsp[2]": FILL_IN}


def test_rows_within_rows_move_with_their_row():
    one = LookLayer(place=Place.BACK, share=0.4, doses=(Dose(material="a", per_100g=1),))
    two = LookLayer(
        place=Place.BELLY,
        share=0.6,
        doses=(Dose(material="b", per_100g=2), Dose(material="c", per_100g=3)),
    )
    typed = texts_of(Look, Look(name="L", layers=(one, two)), System.US)
    less = edited(Look, typed, "remove:layers[0]", System.US) | {"layers[0].share": "1"}
    found = parsed(Look, less, US).record
    assert [d.material for d in found.layers[0].doses] == ["b", "c"]
    fewer = edited(Look, less, "remove:layers[0].doses[0]", System.US)
    assert [d.material for d in parsed(Look, fewer, US).record.layers[0].doses] == ["c"]


def test_a_full_list_takes_no_more_rows():
    layers = tuple(
        LookLayer(place=place, share=share)
        for place, share in zip(Place, (0.25, 0.25, 0.25, 0.25), strict=False)
    )
    typed = texts_of(Look, Look(name="L", layers=layers), System.US)
    assert edited(Look, typed, "add:layers", System.US) == typed


def test_an_optional_part_comes_and_goes():
    typed = texts_of(Bait, None, System.US) | {"name": "B", "mass_g": "9"}
    with_part = edited(Bait, typed, "add:weighing", System.US)
    with_part |= {"weighing.air_g": "10", "weighing.gained_g": "9.4"}
    assert parsed(Bait, with_part, US).record.weighing == Weighing(air_g=10, gained_g=9.4)
    without = edited(Bait, with_part, "remove:weighing", System.US)
    assert parsed(Bait, without, US).record.weighing is None


def test_a_newly_chosen_kind_shows_its_fields_before_it_is_saved():
    typed = texts_of(Bait, None, System.US) | {"name": "B", "shape.kind": "stick"}
    shown, appeared = settled(Bait, typed, System.US)
    assert appeared
    assert "shape.middle_mm" in shown
    again, appeared = settled(Bait, shown, System.US)
    assert not appeared
    assert parsed(Bait, again, US).record.shape.key == "stick"


@pytest.mark.parametrize(
    "command",
    [
        "remove:nothing[0]", "add:name.deeper", "add:__class__", "remove:layers[99]", "add:", "x",
        "add:layers[0].doses[0].material.z",
    ],
)  # fmt: skip
def test_a_command_that_leads_nowhere_changes_nothing(command):
    look = Look(name="L", layers=(LookLayer(share=1.0, doses=(Dose(material="a", per_100g=1),)),))
    typed = texts_of(Look, look, System.US)
    assert edited(Look, typed, command, System.US) == typed


def test_a_count_of_rows_that_was_tampered_with_is_bounded():
    typed = texts_of(Look, None, System.US) | {"name": "L", "layers#": "9999"}
    assert parsed(Look, typed, US).record is None
    assert parsed(Look, typed | {"layers#": "-1"}, US).record is None
    assert parsed(Look, typed | {UNITS_NAME: "furlongs"}, US).record is None


numbers = st.floats(min_value=30, max_value=4000, allow_nan=False)


@given(volume=numbers, mass=st.none() | st.floats(20, 3000), wet=st.booleans())
def test_any_cup_survives_any_units(volume, mass, wet):
    stored = Cup(name="C", volume_ml=volume, mass_g=mass, wet=wet)
    for settings in (US, METRIC):
        typed = texts_of(Cup, stored, settings.system)
        assert parsed(Cup, typed, settings, stored).record == stored


@given(text=st.text(max_size=60))
def test_any_text_is_a_value_or_a_problem_never_a_crash(text):
    for record in (Cup, Microwave, Colorant, Look):
        typed = texts_of(record, None, System.US)
        typed |= {f.name: text for f in fields_of(record)}
        typed |= {f"{f.name}#": text for f in fields_of(record) if f.shape == "list"}
        found = parsed(record, typed, US)
        assert (found.record is None) == bool(found.problems)
