"""What a person reads when a bait is mapped and filled, and of what holds it in its mold."""

from __future__ import annotations

import base64
import math
import re

import manifold3d
import numpy as np
import pytest

from pourwright.base.errors import BadInput
from pourwright.base.record import from_json
from pourwright.body.families.craw import Craw
from pourwright.body.families.curl_tail_grub import CurlTailGrub
from pourwright.body.families.paddle_tail import PaddleTail
from pourwright.body.families.stick import Stick
from pourwright.body.families.tube import Tube
from pourwright.body.families.worm import Worm
from pourwright.body.filling import filling_map
from pourwright.body.filling_order import FillingInput, filling
from pourwright.body.hold_words import held_by, hold_notes
from pourwright.body.measure import MeasureInput, measure, measured
from pourwright.body.thickness_map import Direction, ThicknessMapInput, thickness_map
from pourwright.body.undercut import Caught, Undercut


def unpacked(text, answer):
    """The rows of a map."""
    floats = np.frombuffer(base64.b64decode(text), dtype="<f4")
    return floats.reshape(answer.rows, answer.columns)


@pytest.mark.parametrize("calculation", [filling, thickness_map, measure])
def test_a_calculation_answers_its_own_example(calculation):
    assert calculation.answer(calculation.example)["notes"]


def test_a_stick_fills_from_its_nose_to_its_tail():
    done = filling(FillingInput(family=Stick()))
    order = unpacked(done.order_base64, done)
    middle = order[done.rows // 2]
    assert middle[2] < 0.01
    assert middle[-2] > 0.99
    assert (np.diff(middle[5:-5]) > 0).all()
    (end,) = done.dead_ends
    assert end.x_mm > Stick().length_mm - 1
    assert done.gate_mm == pytest.approx((0, 0), abs=1e-6)
    assert done.longest_mm == pytest.approx(Stick().length_mm, rel=0.03)


def test_the_order_is_no_number_beside_the_bait():
    done = filling(FillingInput(family=Craw()))
    order = unpacked(done.order_base64, done)
    shadow = measure(MeasureInput(family=Craw())).shadow_cm2 * 100
    assert np.isfinite(order).sum() * done.pixel_mm**2 == pytest.approx(shadow, rel=0.02)
    # The last place of all lies where the map says so.
    row, column = np.unravel_index(np.nanargmax(order), order.shape)
    last = done.dead_ends[0]
    assert done.left_mm + (column + 0.5) * done.pixel_mm == pytest.approx(last.x_mm, abs=0.01)
    assert done.top_mm - (row + 0.5) * done.pixel_mm == pytest.approx(last.y_mm, abs=0.01)


def test_a_craw_ends_in_its_claws_and_legs():
    ends = filling(FillingInput(family=Craw())).dead_ends
    claws = [e for e in ends if e.x_mm > 0.9 * Craw().length_mm and abs(e.y_mm) > 8]
    legs = [e for e in ends if e.x_mm < 0.8 * Craw().length_mm]
    assert len(claws) >= 2
    assert len(legs) == 2 * Craw().leg_pairs
    assert {math.copysign(1, e.y_mm) for e in claws} == {1, -1}
    assert max(e.least_thick_mm for e in legs) < min(e.least_thick_mm for e in claws)
    notes = filling(FillingInput(family=Craw())).notes
    assert any(note.startswith(f"{len(ends)} places fill after all around") for note in notes)


def test_a_paddle_ends_above_and_below():
    upper, lower = sorted(
        filling(FillingInput(family=PaddleTail())).dead_ends, key=lambda end: -end.y_mm
    )
    assert upper.y_mm > 0 > lower.y_mm
    assert min(upper.x_mm, lower.x_mm) > PaddleTail().length_mm - PaddleTail().paddle_thick_mm


def test_a_gate_in_the_middle_has_two_ends():
    middle = Stick().length_mm / 2
    done = filling(FillingInput(family=Stick(), gate_x_mm=middle, gate_y_mm=0))
    assert len(done.dead_ends) == 2
    assert done.longest_mm == pytest.approx(middle, rel=0.05)


def test_a_gate_beside_the_bait_is_noted():
    done = filling(FillingInput(family=Worm(), gate_x_mm=-6, gate_y_mm=0))
    assert any(re.search(r"The gate lies 6\.[0-4] mm beside", note) for note in done.notes)
    assert not any("beside the bait" in n for n in filling(FillingInput(family=Worm())).notes)


def test_a_body_in_two_pieces_says_what_it_lost():
    box = manifold3d.Manifold.cube((10.0, 10.0, 4.0), center=True)
    filled = filling_map(box + box.translate((30.0, 0.0, 0.0)), (0.0, 0.0))
    assert filled.way(int(filled.at((4.0, 0.0))))[0] == filled.at((0.0, 0.0))
    assert filled.unreached_share == pytest.approx(0.5, abs=0.01)


@pytest.mark.parametrize(
    ("values", "field"),
    [
        ({"gate_x_mm": 5}, "gate_y_mm"),
        ({"gate_y_mm": 5}, "gate_x_mm"),
        ({"slices": 3}, "slices"),
        ({"slices": 2.5}, "slices"),
        ({"gate_x_mm": float("inf"), "gate_y_mm": 0}, "gate_x_mm"),
    ],
)
def test_an_impossible_question_is_refused_by_name(values, field):
    with pytest.raises(BadInput, match=f"^{field}: "):
        from_json(FillingInput, {"family": {"kind": "worm"}} | values)


@pytest.mark.parametrize("pixels", [7, 1025])
def test_a_map_has_its_limits(pixels):
    with pytest.raises(BadInput, match=r"^pixels: "):
        ThicknessMapInput(family=Worm(), pixels=pixels)


def test_no_more_slices_than_asked_for():
    done = filling(FillingInput(family=Worm(), slices=12))
    assert len(done.chain) == 12
    assert sum(s.length_mm for s in done.chain) == pytest.approx(done.longest_mm, abs=0.3)


@pytest.mark.parametrize("direction", [Direction.PULL, Direction.SIDE])
def test_the_middle_of_a_map_is_the_middle_of_mass(direction):
    grub = CurlTailGrub()
    done = thickness_map(ThicknessMapInput(family=grub, pixels=256, direction=direction))
    thick = unpacked(done.thickness_base64, done)
    row, column = np.indices(thick.shape)
    x = done.left_mm + (column + 0.5) * done.pixel_mm
    up = done.top_mm - (row + 0.5) * done.pixel_mm
    middle = measure(MeasureInput(family=grub))
    upward = middle.center_y_mm if direction is Direction.PULL else middle.center_z_mm
    assert (x * thick).sum() / thick.sum() == pytest.approx(middle.center_x_mm, abs=0.1)
    assert (up * thick).sum() / thick.sum() == pytest.approx(upward, abs=0.1)


@pytest.mark.parametrize("pixels", [16, 64, 640])
def test_a_coarse_map_keeps_the_volume(pixels):
    inputs = ThicknessMapInput(family=PaddleTail(), pixels=pixels, direction=Direction.PULL)
    done = thickness_map(inputs)
    assert done.columns == pixels
    assert done.volume_ml == pytest.approx(inputs.solid().volume() / 1000, rel=5e-3)
    assert done.unbalanced_pixels == 0
    assert unpacked(done.thickness_base64, done).max() == pytest.approx(done.thickest_mm, rel=1e-6)


def test_a_map_that_misses_the_volume_says_so():
    sheet = Stick(length_mm=400, middle_mm=2, end_mm=2)
    notes = thickness_map(ThicknessMapInput(family=sheet, pixels=8)).notes
    fine = thickness_map(ThicknessMapInput(family=Stick(), pixels=256)).notes
    assert any("take more pixels" in note for note in notes)
    assert not any("take more pixels" in note for note in fine)


def test_a_bait_is_measured_by_its_solid_alone():
    family = Craw()
    kept, own = measure(MeasureInput(family=family)), measured(family.solid())
    assert own.volume_ml == kept.volume_ml
    assert own.dead_ends == kept.dead_ends
    assert any("ruler" in note for note in kept.notes)
    assert not any("ruler" in note for note in own.notes)


def test_the_bore_of_a_solid_is_found_without_its_family():
    assert measured(Tube().solid()).undercut == "the bore needs a core pin"


def test_a_family_that_asks_for_a_core_pin_has_the_last_word():
    box = manifold3d.Manifold.cube((30.0, 10.0, 8.0), center=True)
    assert measured(box).undercut == ""
    done = measured(box, core_pin=True)
    assert done.undercut == "the bore needs a core pin"
    assert any("needs a core pin" in note for note in done.notes)


def undercut_of(caught, depth, thick=9.0, share=0.2):
    return Undercut(caught, share, depth, thick)


def test_a_shallow_overhang_is_a_note_and_a_deep_one_a_warning():
    shallow = undercut_of(Caught.OVERHANG, 2.9)
    deep = undercut_of(Caught.OVERHANG, 3.1)
    assert held_by(shallow, core_pin=False) == ""
    assert "3.1 mm under plastic 9.0 mm thick" in held_by(deep, core_pin=False)
    (soft,) = hold_notes(shallow, core_pin=False)
    assert soft.startswith("Halves reach 2.9 mm under 20% of the shadow")
    (hard,) = hold_notes(deep, core_pin=False)
    assert "silicone" in hard


def test_a_slot_asks_for_a_blade_and_a_bore_for_a_pin():
    slot, bore = undercut_of(Caught.SLOT, 6), undercut_of(Caught.BORE, 6)
    assert "6.0 mm deep, needs a blade" in held_by(slot, core_pin=False)
    assert any("blade" in note for note in hold_notes(slot, core_pin=False))
    assert held_by(bore, core_pin=False) == held_by(slot, core_pin=True)
    assert any("core pin" in note for note in hold_notes(bore, core_pin=False))


def test_a_slight_overhang_is_not_worth_a_word():
    assert hold_notes(undercut_of(Caught.OVERHANG, 1, share=0.001), core_pin=False) == ()
    assert hold_notes(undercut_of(Caught.NOTHING, 0, 0, 0), core_pin=False) == ()
