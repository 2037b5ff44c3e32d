"""Pearl powder from the shelf to its flakes: asked, entered, learned from pucks."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from pourwright.actions.calibrate_shelf import calibrate_shelf, last_lesson
from pourwright.actions.shelf_color import calibrations, color_shelf
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.record import from_json, to_json
from pourwright.color.calibrate.entry import Read, Use
from pourwright.color.film.grade import Grade
from pourwright.color.film.powder import Powder
from pourwright.color.kinds.measured import Measured as ByPucks
from pourwright.color.kinds.pearl import Pearl
from pourwright.color.kinds.pearl_film import PearlFilm
from pourwright.color.lab import as_lab, lab_read
from pourwright.color.pearl.answer import pearl_film
from pourwright.color.pearl.calibrate import pearl_calibrate
from pourwright.color.predict import predict
from pourwright.shop.look import Dose, Measure
from pourwright.shop.material import PearlPowder
from pourwright.shop.puck import OverCard, Puck
from ready_store import demo_bench

GRAMS = np.ones(1)
PLAIN = {"haze_share": 0.04, "yellow_share": 0.055}
CARDS = {"black": 0.05, "white": 0.85}


def truth(film_nm, quality, card, *, grams=0.2, thick_mm=5):
    """What a meter reads of a puck of such flakes: the truth is in its film and quality."""
    flakes = {"kind": "pearl_film", "film_nm": film_nm, "quality": quality}
    answer = predict.answer({
        "doses": [{"name": "p", "per_100g": grams, "measure": "grams", "colorant": flakes}],
        "thick_mm": thick_mm, "backing": "other", "ground_share": CARDS[card], "plastic": PLAIN,
    })  # fmt: skip
    return lab_read(np.array(answer["reflectance"]))


def entry(film_nm, quality, *, cards=("black", "white"), swapped=False, off=0.0, **more):
    told = cards[::-1] if swapped else cards
    lab = {c: as_lab(truth(film_nm, quality, c, **more) + off) for c in cards}
    return {
        "name": "puck", "thick_mm": 5, "doses": [{"colorant": "p", "grams_per_100g": 0.2}],
        "readings": [
            {"over": {"reflectance": [CARDS[t]] * 31}, "read": {"lab": to_json(lab[c])}}
            for c, t in zip(cards, told, strict=True)
        ],
    }  # fmt: skip


def learn(*pucks, **powder):
    return pearl_calibrate.answer({"powder": powder, "pucks": list(pucks), "plastic": PLAIN})


def test_a_film_is_told_one_way():
    for told in ({}, {"film_nm": 50, "grade": "blue"}, {"grade": "red", "color_hex": "#ff0000"}):
        with pytest.raises(BadInput, match="one of film_nm, grade and color_hex"):
            pearl_film.answer(told)


def test_a_color_stands_for_the_nearest_grade():
    blue = pearl_film.answer({"color_hex": "#1f4fbf"})
    assert abs(blue["films"][0]["hue_miss_deg"]) < 3
    assert blue["film_nm"] == pytest.approx(pearl_film.answer({"grade": "blue"})["film_nm"], abs=12)
    gray = pearl_film.answer({"color_hex": "#9a9a9a"})
    assert gray["film_nm"] == pearl_film.answer({"grade": "silver"})["film_nm"]


def test_a_color_comes_back_with_the_order_and_the_notes_say_so():
    answer = pearl_film.answer({"grade": "green"})
    films = [f["film_nm"] for f in answer["films"]]
    assert len(films) > 1
    assert answer["film_nm"] == films[0]
    assert any(f"films of {films[1]:g}" in n for n in answer["notes"])
    assert pearl_film.answer({"film_nm": 50})["films"] == []


def test_a_film_too_weak_for_a_grade_says_how_far_it_misses():
    weak = pearl_film.answer({"grade": "red", "film_index": 1.8})
    miss = abs(weak["films"][0]["hue_miss_deg"])
    assert miss > 10
    assert any(f"misses it by {miss:.0f}°" in n for n in weak["notes"])
    assert not any("misses it" in n for n in pearl_film.answer({"grade": "red"})["notes"])


def test_wavelengths_and_angles_are_as_asked():
    answer = pearl_film.answer(
        {"film_nm": 50, "angles_deg": [0, 40], "wavelengths_nm": [500, 600, 750]}
    )
    assert answer["wavelengths_nm"] == [500, 600, 750]
    assert [a["angle_deg"] for a in answer["by_angle"]] == [0, 40]
    assert [len(a["reflectance"]) for a in answer["by_angle"]] == [3, 3]
    bands = pearl_film.answer({"film_nm": 50, "angles_deg": [40]})
    assert bands["by_angle"][0]["reflectance"][10] == pytest.approx(
        answer["by_angle"][1]["reflectance"][0]
    )


def test_a_grade_leaves_more_open_than_a_figure():
    grade = pearl_film.answer({"grade": "blue"})
    figure = pearl_film.answer({"film_nm": grade["film_nm"]})
    assert width(grade["over_dark"]["lab"]["a"]) > 1.5 * width(figure["over_dark"]["lab"]["a"])
    assert any("ask the supplier for the film" in n for n in grade["notes"])
    assert any("pour a 5 mm puck of 0.2 g" in n for n in figure["notes"])


def width(band):
    return band["high"] - band["low"]


def test_the_angle_is_said_for_the_plastic():
    """Critical angle of index 1.5 against air, 41.8 degrees: closed form."""
    notes = pearl_film.answer({"film_nm": 50})["notes"]
    assert any("below 42 degrees" in n for n in notes)


@pytest.mark.parametrize(("grade", "film_nm", "quality"), [("blue", 117, 0.3), ("gold", 73, 0.55)])
def test_one_puck_over_black_and_white_tells_film_and_quality(grade, film_nm, quality):
    answer = learn(entry(film_nm, quality), grade=grade)
    for name, true in (("film_nm", film_nm), ("quality", quality)):
        band = answer[name]
        assert band["low"] < true < band["high"]
        assert band["typical"] == pytest.approx(true, rel=0.03)
    assert 0.006 * film_nm < width(answer["film_nm"]) < 0.05 * film_nm
    assert width(answer["quality"]) < 0.4 * quality
    assert answer["misfit"] < 0.5
    assert [r["over_lightness"] for r in answer["readings"]] == pytest.approx([26.7, 93.9], abs=0.2)


def test_more_pucks_narrow_the_quality():
    one = entry(117, 0.3)
    eight = [one | {"name": f"puck {n}"} for n in range(8)]
    alone, together = learn(one, grade="blue"), learn(*eight, grade="blue")
    assert width(together["quality"]) < 0.42 * width(alone["quality"])


def test_a_rough_thickness_leaves_the_quality_open():
    puck, drip = (learn(entry(117, 0.3) | {"source": s}, grade="blue") for s in ("puck", "drip"))
    assert width(drip["quality"]) > 1.1 * width(puck["quality"])
    assert width(drip["film_nm"]) == pytest.approx(width(puck["film_nm"]))


def test_readings_that_do_not_fit_are_told_and_widen_the_answer():
    good = learn(entry(117, 0.3), grade="blue")
    bad = learn(entry(117, 0.3, off=np.array([0, 15, 30])), grade="blue")
    assert bad["misfit"] > 6
    assert bad["words"] == "it is no such powder"
    assert any("clear flakes miss the readings" in n for n in bad["notes"])
    assert not any("clear flakes miss" in n or "never read" in n for n in good["notes"])
    tinted = learn(entry(117, 0.3, off=np.array([0, 15, 0])), grade="blue")
    assert width(tinted["film_nm"]) > 1.5 * width(good["film_nm"])


def test_a_reading_over_white_alone_leaves_the_film_open():
    both = learn(entry(117, 0.3), grade="blue")
    white = learn(entry(117, 0.3, cards=("white",)), grade="blue")
    black = learn(entry(117, 0.3, cards=("black",)), grade="blue")
    assert width(white["film_nm"]) > 3 * width(both["film_nm"])
    assert width(white["film_nm"]) < 0.25 * 117
    figure = learn(entry(117, 0.3, cards=("white",)), film_nm=117)
    assert width(figure["film_nm"]) < 0.7 * width(white["film_nm"])
    assert any("over black" in n for n in white["notes"])
    assert any("never read over white" in n for n in black["notes"])


def test_a_puck_holds_the_powder_alone():
    plain = entry(117, 0.3) | {"doses": []}
    mixed = entry(117, 0.3)
    mixed["doses"] = [*mixed["doses"], {"colorant": "red", "grams_per_100g": 0.1}]
    other = entry(117, 0.3) | {"doses": [{"colorant": "q", "grams_per_100g": 0.2}]}
    for pucks in ([plain], [mixed], [entry(117, 0.3), other]):
        with pytest.raises(BadInput, match="alone"):
            learn(*pucks, grade="blue")


@pytest.mark.parametrize("film_nm", [9.9, 500.1])
def test_every_way_in_refuses_the_same_films(film_nm):
    for record, more in ((Powder, {}), (PearlPowder, {"name": "p", "color_hex": "#f0f0ff"})):
        with pytest.raises(BadInput, match="film_nm"):
            from_json(record, more | {"film_nm": film_nm})
    with pytest.raises(BadInput, match="film_nm"):
        pearl_film.answer({"film_nm": film_nm})


def test_mica_taken_as_usual_is_told():
    for notes in (pearl_film.answer({"film_nm": 50})["notes"], learn(entry(50, 0.3))["notes"]):
        assert any("core_nm" in n for n in notes)
    known = pearl_film.answer({"film_nm": 50, "core_nm": 300})["notes"]
    assert not any("core_nm" in n for n in known)


def test_a_quality_is_for_the_pucks_to_tell():
    with pytest.raises(BadInput, match=r"powder\.quality"):
        learn(entry(117, 0.3), grade="blue", quality=0.3)


def test_flakes_such_as_no_powder_has_are_no_answer():
    for wrong in (entry(117, 0.4, grams=20), entry(117, 0.3, swapped=True)):
        with pytest.raises(NoAnswer, match=r"quality: .*check dose, thickness and cards"):
            learn(wrong, grade="blue")


def test_the_shelf_form_takes_a_grade_or_a_film_or_neither():
    given = {"name": "Dusk pearl", "color_hex": "#f0f0ff"}
    assert from_json(PearlPowder, given).flakes() is None
    assert from_json(PearlPowder, given | {"grade": "blue"}).flakes() == Powder(grade=Grade.BLUE)
    flakes = from_json(PearlPowder, given | {"film_nm": 62}).flakes()
    assert flakes is not None
    assert flakes.film() == 62


def keep(world, *nouns):
    with world.bench() as bench:
        for key, noun in nouns:
            bench.records.save(noun.key, key, noun, expected_version=0)
        bench.commit()


@pytest.mark.parametrize(
    ("told", "kind"), [({}, Pearl), ({"grade": Grade.RED}, PearlFilm), ({"film_nm": 90}, PearlFilm)]
)
def test_a_dose_becomes_the_kind_that_is_known(tmp_path, told, kind):
    world = demo_bench(tmp_path)
    keep(world, ("dusk", PearlPowder(name="Dusk pearl", color_hex="#f0f0ff", **told)))
    with world.bench() as bench:
        dose = color_shelf(bench).dose(Dose(material="dusk", per_100g=1, measure=Measure.GRAMS))
    assert dose.colorant is not None
    assert type(dose.colorant) is kind
    sheen = dose.colorant.sheen(GRAMS, dose.typical())
    assert sheen is not None
    assert sheen.plates_per_mm > 0
    if isinstance(dose.colorant, PearlFilm):
        assert dose.colorant.film() == pytest.approx(90, abs=4)


def test_pucks_teach_the_flakes_and_the_lesson_says_how_well(tmp_path):
    world = demo_bench(tmp_path)
    readings = tuple(
        OverCard(card=f"demo-card-{c}", read=Read(lab=as_lab(truth(118, 0.3, c)))) for c in CARDS
    )
    dose = Dose(material="dusk", per_100g=0.2, measure=Measure.GRAMS)
    sold = {"dusk": Grade.BLUE, "dawn": None}
    for key, grade in sold.items():
        powder = PearlPowder(name=key, color_hex="#f0f0ff", grade=grade)
        doses = (dataclasses.replace(dose, material=key),)
        keep(world, (key, powder), (f"p-{key}", Puck(name=key, doses=doses, readings=readings)))
    wrong = tuple(
        dataclasses.replace(r, card=o.card) for r, o in zip(readings, readings[::-1], strict=True)
    )
    keep(world, ("p-test", Puck(name="t", doses=(dose,), readings=wrong, use=Use.CHECK)))
    calibrate_shelf(world)
    with world.bench() as bench:
        learned, lesson, shelf = calibrations(bench), last_lesson(bench), color_shelf(bench)
        known = {key: shelf.dose(dataclasses.replace(dose, material=key)) for key in sold}
    taught = learned["dusk"].pearl
    assert learned["dawn"].pearl is None
    assert taught is not None
    assert taught.film_nm == pytest.approx(118, rel=0.03)
    assert taught.quality == pytest.approx(0.3, rel=0.25)
    assert lesson is not None
    assert "dusk: film 11" in lesson.notes
    assert "CIEDE2000 off" in lesson.notes
    assert "dawn" not in lesson.notes
    for key, flakes in (("dusk", taught), ("dawn", Powder())):
        colorant = known[key].colorant
        assert isinstance(colorant, ByPucks)
        sheen = colorant.sheen(GRAMS, {})
        assert sheen is not None
        assert sheen.reflect == pytest.approx(flakes.mirrors())


def test_a_dose_mistyped_spoils_no_other_lesson(tmp_path):
    world = demo_bench(tmp_path)
    for key, grams in (("dusk", 0.2), ("dawn", 20)):
        powder = PearlPowder(name=key, color_hex="#f0f0ff", grade=Grade.BLUE)
        readings = tuple(
            OverCard(card=f"demo-card-{c}", read=Read(lab=as_lab(truth(118, 0.4, c, grams=grams))))
            for c in CARDS
        )
        dose = Dose(material=key, per_100g=0.2, measure=Measure.GRAMS)
        puck = Puck(name=key, doses=(dose,), readings=readings)
        keep(world, (key, powder), (f"p-{key}", puck))
    calibrate_shelf(world)
    with world.bench() as bench:
        learned, lesson = calibrations(bench), last_lesson(bench)
    assert learned["dusk"].pearl is not None
    assert learned["dawn"].pearl is None
    assert lesson is not None
    assert "dawn: no pearl flakes tell its pucks" in lesson.notes
    assert "dusk: no pearl" not in lesson.notes
