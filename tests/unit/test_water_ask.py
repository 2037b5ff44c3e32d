"""Asking about the light in the water: refusals, notes and the workplace's own reading."""

from __future__ import annotations

import pytest

from pourwright.actions.catalog import CATALOG
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.field import fields_of
from pourwright.base.units import UNITS, convert, unit_of
from pourwright.shop.workplace import Workplace
from pourwright.spectrum.light import BANDS
from pourwright.water.ask import WaterAsk
from pourwright.water.kind import WaterKind
from pourwright.water.seen import water_sight
from pourwright.water.sight_input import SightInput

GREEN = {"kind": "green", "depth_m": 1}
YELLOW = GREEN | {"color_hex": "#c8d400"}


def light(**given):
    return CATALOG["water.light"].answer(given)


def seen(**given):
    return CATALOG["water.sight"].answer(YELLOW | given)


def told(answer, words: str) -> bool:
    return any(words in note for note in answer["notes"])


@pytest.mark.parametrize(
    ("given", "field", "why"),
    [
        ({"kind": "blue"}, "kind", "must be one of clear, green, tea-stained, muddy"),
        ({"secchi_m": 0.01}, "secchi_m", "between 0.05 and 60 m"),
        ({"depth_m": -1}, "depth_m", "between 0 and 60 m"),
        ({"sun_deg": 0}, "sun_deg", "between 5 and 90"),
        (
            {"secchi_m": 2, "chlorophyll_mg_m3": 3, "stain_per_m": 1, "mineral_g_m3": 1},
            "secchi_m",
            "at most two of chlorophyll, stain and silt",
        ),
    ],
)
def test_a_water_that_cannot_be_is_refused(given, field, why):
    with pytest.raises(BadInput, match=why) as refused:
        light(**given)
    assert refused.value.field == field


@pytest.mark.parametrize(
    ("given", "field", "why"),
    [
        ({"color_hex": ""}, "color_hex", "one of reflectance, color and"),
        ({"lab": [50, 0, 0]}, "color_hex", "one of reflectance, color and"),
        ({"color_hex": "", "lab": [50, 0]}, "lab", "must have 3 entries"),
        ({"color_hex": "", "reflectance": [0.5] * 30}, "reflectance", "must have 31 entries"),
        ({"color_hex": "#ffffff", "transmittance": [0.3] * BANDS}, "transmittance", "all light"),
        ({"color_hex": "yellow"}, "color_hex", "must look like"),
        ({"look_up_deg": 91}, "look_up_deg", "between -90 and 90"),
    ],
)
def test_a_bait_that_cannot_be_is_refused(given, field, why):
    with pytest.raises(BadInput, match=why) as refused:
        seen(**given)
    assert refused.value.field == field


def test_a_disk_deeper_than_such_water_lets_it_is_said():
    with pytest.raises(NoAnswer, match="with nothing more in it"):
        light(secchi_m=30, chlorophyll_mg_m3=10)
    with pytest.raises(NoAnswer, match="no amount of what is left open"):
        light(secchi_m=0.06, mineral_g_m3=0, stain_per_m=0, chlorophyll_mg_m3=None, kind="clear")


def test_figures_from_a_laboratory_are_used_as_they_are():
    answer = light(chlorophyll_mg_m3=8, stain_per_m=1.2, mineral_g_m3=4)
    for name, value in (("chlorophyll_mg_m3", 8), ("stain_per_m", 1.2), ("mineral_g_m3", 4)):
        assert answer[name] == {"low": value, "typical": value, "high": value}
    assert not told(answer, "round figure")
    assert told(light(chlorophyll_mg_m3=8), "round figure")


def test_notes_say_where_the_formulas_are_stretched():
    assert told(light(kind="muddy"), "made for up to 30")
    assert not told(light(kind="clear"), "made for up to 30")
    assert told(light(kind="green", chlorophyll_mg_m3=40), "beyond the samples")
    assert told(light(kind="muddy", depth_m=20), "Next to nothing of the daylight")
    assert not told(light(kind="clear", depth_m=2), "Next to nothing")
    assert told(light(kind="clear"), "sun's height does not count")
    assert not told(light(kind="clear", sky="sun"), "sun's height does not count")


def test_even_a_lightless_depth_has_an_answer():
    assert light(kind="muddy", secchi_m=0.06, depth_m=60)["left_share"]["high"] < 1e-9
    assert seen(kind="muddy", secchi_m=0.06, depth_m=60)["range_m"]["high"] < 0.2


def test_tea_water_is_lit_red_and_green_water_yellow():
    waters = {k: light(kind=k.value)["clearest_nm"] for k in WaterKind}
    assert waters[WaterKind.TEA] >= 630
    assert 560 <= waters[WaterKind.GREEN] <= 590
    assert waters[WaterKind.CLEAR] <= 570


def test_just_under_the_surface_all_that_went_in_is_left():
    # Closed form: 6.6 % of an even sky's light is mirrored off.
    assert light(kind="muddy", depth_m=0)["left_share"]["typical"] == pytest.approx(0.934)


def test_a_low_sun_lights_the_depth_less():
    high, low = (light(kind="clear", sky="sun", sun_deg=d, depth_m=3) for d in (80, 15))
    assert low["left_share"]["typical"] < high["left_share"]["typical"]


def test_pale_shines_in_tea_and_fades_into_mud():
    white = {"color_hex": "#ffffff"}
    assert seen(kind="tea-stained", **white)["shows"] == "bright against the water"
    assert seen(kind="muddy", **white)["shows"] == "about as bright as the water"
    assert seen(color_hex="#101010")["shows"] == "dark against the water"
    assert told(seen(**white), "hangs on figures good to a factor")


def test_looking_down_stops_at_the_surface_and_looking_up_shows_a_shape():
    down, up = seen(look_up_deg=-90, kind="clear"), seen(look_up_deg=90, kind="clear")
    assert down["range_m"]["high"] == 1.0
    assert told(down, "The surface comes first")
    assert up["shows"] == "dark against the water"
    assert up["bright_share"] == 0
    assert not told(up, "The surface comes first")


def test_a_color_in_numbers_is_the_same_as_its_code():
    white, lab = seen(color_hex="#777777"), seen(color_hex="", lab=[50.0344, 0, 0])
    assert lab["contrast"]["typical"] == pytest.approx(white["contrast"]["typical"], rel=1e-3)


def test_what_comes_through_is_a_view_of_the_water():
    dark, clear = (
        seen(color_hex="", reflectance=[0.05] * BANDS, transmittance=t) for t in ([], [0.9] * BANDS)
    )
    assert abs(clear["contrast"]["typical"]) < abs(dark["contrast"]["typical"]) / 4
    assert clear["range_m"]["typical"] < dark["range_m"]["typical"]
    assert told(clear, "clear view of the water")
    assert not told(dark, "clear view of the water")


def test_the_less_is_opaque_the_less_it_must_send_to_hide():
    plain, clear = (
        seen(color_hex="", reflectance=[0.05] * BANDS, transmittance=t)
        for t in ([], [0.75] * BANDS)
    )
    quarter = plain["hiding_share"]["typical"] / 4
    assert clear["hiding_share"]["typical"] == pytest.approx(quarter, rel=1e-6)


def test_contrast_on_the_way_runs_from_close_by_to_the_threshold():
    answer = seen(threshold=0.03)
    assert answer["apart_m"][0] == 0
    assert answer["apart_contrast"][0] == answer["contrast"]["typical"]
    assert answer["apart_m"][-1] == answer["range_m"]["typical"]
    assert abs(answer["apart_contrast"][-1]) == pytest.approx(0.03, rel=1e-4)


def test_the_threshold_left_out_is_named():
    assert told(seen(), "threshold was left out: typical 0.02")
    assert not told(seen(threshold=0.02), "threshold was left out")


def test_the_threshold_left_out_spans_what_others_found():
    # Zaneveld and Pegau (2003): exp(-4.8) = 0.0082; Duntley (1963): about 0.02.
    doubt = next(f for f in fields_of(SightInput) if f.name == "threshold").spec.doubt
    assert doubt is not None
    assert doubt.band.low < 0.0082 < doubt.band.typical == 0.02


def test_a_disk_already_read_is_not_asked_for_again():
    assert told(light(kind="green"), "lower a white disk")
    assert not told(seen(secchi_m=1.8, depth_m=2), "white disk on a cord")


def test_the_eye_is_named_and_its_doubt():
    assert told(water_sight.answer(YELLOW), "human eye in daylight")


def test_the_workplace_keeps_the_water_you_fish():
    place = Workplace(name="shed", water_kind=WaterKind.TEA, secchi_m=0.9)
    ask = WaterAsk(kind=place.water_kind, secchi_m=place.secchi_m, depth_m=1)
    assert ask.kind is WaterKind.TEA
    assert Workplace(name="shed").secchi_m is None
    with pytest.raises(BadInput, match=r"between 0\.05 and 60 m"):
        Workplace(name="shed", secchi_m=0)


def test_attenuation_reads_in_feet_on_a_us_bench():
    # Closed form: 1 per meter is 0.3048 per foot.
    assert unit_of("beam_per_m") is UNITS["per_m"]
    assert convert(1.0, "per_m", "per_ft") == pytest.approx(0.3048)
    assert unit_of("flakes_per_mm") is None
    assert unit_of("chlorophyll_mg_m3") is UNITS["mg_m3"]
    assert unit_of("density_kg_m3") is UNITS["kg_m3"]


@pytest.mark.parametrize("kind", ["clear", "green", "tea-stained", "muddy"])
def test_the_white_disk_is_as_good_as_its_two_formulas_agree(kind):
    answer = light(kind=kind)
    lee, tyler = (answer[f"secchi_{n}_m"]["typical"] for n in ("lee", "tyler"))
    worst = max(1.5, lee / tyler, tyler / lee)
    assert told(answer, f"good to a factor of {worst:.2g}.")


def test_draws_that_no_such_water_meets_are_told():
    assert told(light(kind="tea-stained", secchi_m=40), "of the draws stop there")
    assert not told(light(kind="tea-stained", secchi_m=1), "of the draws stop there")


def test_a_glowing_bait_may_send_back_more_than_it_gets_in_a_band():
    glowing = seen(color_hex="", reflectance=[0.9] * 15 + [1.2] * 16)
    dull = seen(color_hex="", reflectance=[0.9] * BANDS)
    assert glowing["contrast"]["typical"] > dull["contrast"]["typical"]


def test_light_held_at_its_evenest_is_told():
    assert told(light(kind="muddy"), "held at the evenest")
    assert told(light(kind="muddy", sky="sun", sun_deg=10), "held at the evenest")
    assert not told(light(kind="clear"), "held at the evenest")
