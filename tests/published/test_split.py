"""`body.split` against boxes, eggs and the shrink that mold and bait share."""

from __future__ import annotations

import math
from typing import Any

import manifold3d
import numpy as np
import pytest

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.mesh import LengthUnit, Mesh
from pourwright.base.record import from_json
from pourwright.body.division import Place
from pourwright.body.families.stick import Stick
from pourwright.body.placing import Placing
from pourwright.body.shell import arrays
from pourwright.body.split import Split
from pourwright.body.split_answer import SplitAnswer
from pourwright.body.split_input import SplitInput, SplitLayer
from pourwright.body.split_shares import split_shares
from pourwright.matter import plastisol

LONG, WIDE, HIGH = 60.0, 12.0, 20.0
SHRINK = plastisol.LINEAR_SHRINK.typical


def mesh(solid: manifold3d.Manifold) -> Mesh:
    points, triangles = arrays(solid)
    return Mesh(points, triangles, LengthUnit.MM)


BOX = mesh(manifold3d.Manifold.cube((LONG, WIDE, HIGH)).translate((0.0, -WIDE / 2, -HIGH / 2)))
EGG = mesh(manifold3d.Manifold.sphere(1.0, 128).scale((30.0, 6.0, 9.0)).translate((30.0, 0.0, 0.0)))


def answered(
    file: Mesh, layers: dict[str, float | None], *, on_side: bool = False, **more: Any
) -> SplitAnswer:
    return split_shares(
        SplitInput(
            file=file,
            placing=Placing(as_it_lies=True, on_side=on_side),
            layers=tuple(SplitLayer(place=p, share=s) for p, s in layers.items()),  # type: ignore[arg-type]
            **more,
        )
    )


def test_a_box_is_parted_by_its_height():
    it = answered(BOX, {"belly": None, "back": None}, split=Split(line_height=0.3))
    assert [layer.place for layer in it.layers] == ["belly", "back"]
    assert [layer.share.typical for layer in it.layers] == pytest.approx([0.3, 0.7], abs=1e-6)
    volume = LONG * WIDE * HIGH / 1000
    assert it.layers[0].volume_ml.typical == pytest.approx(0.3 * volume, rel=1e-6)
    (line,) = it.lines
    assert (line.under, line.over) == ("belly", "back")
    assert line.area_mm2 == pytest.approx(LONG * WIDE, rel=1e-6)
    # The cavity is larger by the shrink: 6 of 20 mm of the bait.
    assert line.bottom_mm.typical == pytest.approx(6 / (1 - SHRINK), rel=1e-6)
    assert it.even_mm.typical == pytest.approx(10 / (1 - SHRINK), abs=1e-3)
    assert it.push_ratio is not None
    assert it.push_ratio.typical == pytest.approx(7 / 3, rel=1e-5)


def test_a_line_half_a_millimeter_off_moves_a_fortieth_of_a_box():
    # 0.5 of 20 mm: the 90 % band of the share is 0.3 ± 0.025.
    it = answered(BOX, {"belly": None, "back": None}, split=Split(line_height=0.3))
    share = it.layers[0].share
    assert share.high - 0.3 == pytest.approx(0.025, abs=0.002)
    assert 0.3 - share.low == pytest.approx(0.025, abs=0.002)
    assert any("cut one bait across" in note for note in it.notes)


def test_three_layers_have_two_lines_of_their_own():
    it = answered(BOX, {"back": 0.25, "body": None, "belly": 0.35})
    assert [line.height for line in it.lines] == pytest.approx([0.35, 0.75], abs=1e-4)
    assert it.push_ratio is None
    # The middle layer is off by both lines: √2 of what one does.
    body = next(layer.share for layer in it.layers if layer.place == "body")
    assert body.high - body.low == pytest.approx(0.05 * math.sqrt(2), rel=0.1)


def test_of_three_layers_one_end_may_be_a_height_and_the_other_a_share():
    it = answered(BOX, {"back": 0.25, "body": None, "belly": None}, split=Split(belly_height=0.4))
    assert [layer.share.typical for layer in it.layers] == pytest.approx(
        [0.25, 0.35, 0.4], abs=1e-4
    )


def test_pours_by_hand_follow_one_another():
    it = answered(
        BOX, {"belly": None, "vein": None, "back": None},
        split=Split(line_height=0.25, vein_thick_mm=2),
    )  # fmt: skip
    # 4, 2 and 14 of 20 mm; a vein that is a fifth thinner or a quarter thicker takes that of both.
    shares = {layer.place: layer.share for layer in it.layers}
    assert [share.typical for share in shares.values()] == pytest.approx([0.2, 0.1, 0.7], abs=1e-4)
    assert shares["vein"].low == pytest.approx(0.08, abs=0.002)
    assert shares["vein"].high == pytest.approx(0.125, abs=0.002)
    assert [pour.place for pour in it.pours] == ["belly", "vein", "back"]
    levels = [pour.level_mm.typical * (1 - SHRINK) for pour in it.pours]
    assert levels == pytest.approx([4, 6, 20], abs=1e-3)
    floor_ml = LONG * WIDE / 1000 / (1 - SHRINK) ** 3
    poured = [pour.poured_ml.typical for pour in it.pours]
    assert poured == pytest.approx([4 * floor_ml, 2 * floor_ml, 14 * floor_ml], rel=1e-4)
    totals = [pour.total_ml.typical for pour in it.pours]
    assert totals == pytest.approx(np.cumsum(poured), rel=1e-9)
    # A brim is where it is, however the line lies; only the shrink is in doubt.
    assert it.pours[-1].level_mm.high < 20 / (1 - 0.045)


def test_a_vein_within_a_layer_parts_its_pour():
    it = answered(
        BOX, {"belly": 0.5, "vein": None, "back": None},
        split=Split(vein_height=0.25, vein_thick_mm=2, vein_wide_mm=6),
    )  # fmt: skip
    assert [pour.place for pour in it.pours] == ["belly", "vein", "belly", "back"]
    first, vein, second, last = (pour.poured_ml.typical for pour in it.pours)
    assert vein / (first + vein + second + last) == pytest.approx(2 * 6 / (WIDE * HIGH), rel=1e-3)
    assert first + second == pytest.approx(0.5 * (first + vein + second + last), rel=1e-3)


def test_a_bait_on_its_back_is_poured_back_first():
    asked: dict[str, Any] = {"split": Split(line_height=0.25)}
    it = answered(BOX, {"belly": None, "back": None}, back_first=True, **asked)
    assert [pour.place for pour in it.pours] == ["back", "belly"]
    assert it.pours[0].level_mm.typical == pytest.approx(15 / (1 - SHRINK), rel=1e-6)
    assert it.lines[0].bottom_mm.typical == pytest.approx(15 / (1 - SHRINK), rel=1e-6)
    assert it.layers == answered(BOX, {"belly": None, "back": None}, **asked).layers


def test_a_vein_is_poured_between_whichever_layer_comes_first():
    it = answered(
        BOX, {"belly": None, "vein": None, "back": None}, back_first=True,
        split=Split(line_height=0.25, vein_thick_mm=2),
    )  # fmt: skip
    assert [pour.place for pour in it.pours] == ["back", "vein", "belly"]
    levels = [pour.level_mm.typical * (1 - SHRINK) for pour in it.pours]
    assert levels == pytest.approx([14, 16, 20], abs=1e-3)


def test_a_core_is_laid_in_and_no_pour():
    it = answered(EGG, {"body": None, "core": None}, split=Split(core_share=0.5))
    assert it.layers[1].share.typical == pytest.approx(0.25, rel=0.02)
    assert [pour.place for pour in it.pours] == ["body"]
    assert it.lines == ()


@pytest.mark.parametrize("share", [0.2, 0.5, 0.7])
def test_the_share_of_an_egg_gives_its_line(share):
    # Archimedes: 3t² - 2t³ of an ellipsoid lies under t of its height.
    it = answered(EGG, {"belly": share, "back": None})
    t = it.lines[0].height
    assert 3 * t**2 - 2 * t**3 == pytest.approx(share, abs=1e-3)
    assert it.layers[0].share.typical == pytest.approx(share, abs=1e-4)
    area = math.pi * 30 * 6 * (1 - (2 * t - 1) ** 2)
    assert it.lines[0].area_mm2 == pytest.approx(area, rel=5e-3)


def test_a_file_on_its_side_has_its_back_across():
    upright = answered(BOX, {"belly": None, "back": None}, split=Split(line_height=0.5))
    lying = answered(BOX, {"belly": None, "back": None}, split=Split(line_height=0.5), on_side=True)
    assert upright.lines[0].area_mm2 == pytest.approx(LONG * WIDE, rel=1e-6)
    assert lying.lines[0].area_mm2 == pytest.approx(LONG * HIGH, rel=1e-6)
    assert any("stand on its edge" in note for note in lying.notes)
    assert not any("stand on its edge" in note for note in upright.notes)


def test_a_ruler_doubts_the_volume_of_a_family_and_not_of_a_file():
    layers = tuple(SplitLayer(place=p, share=0.5) for p in ("belly", "back"))  # type: ignore[arg-type]
    by_ruler = split_shares(SplitInput(family=Stick(), layers=layers))
    by_file = split_shares(
        SplitInput(file=mesh(Stick().solid()), placing=Placing(as_it_lies=True), layers=layers)
    )
    widths = [
        (v.high - v.low) / v.typical for v in (x.pours[-1].total_ml for x in (by_ruler, by_file))
    ]
    # The shrink alone, 0.7 to 3.4 % along each side, is 8 % of the volume.
    assert widths[1] == pytest.approx(3 * 0.027, rel=0.15)
    assert 1.1 * widths[1] < widths[0] < 0.2
    assert any("burns" in note for note in by_ruler.notes)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"layers": [{"place": "belly"}, {"place": "back"}]}, "needs a share, or the height"),
        (
            {"layers": [{"place": "belly", "share": 0.4}, {"place": "back"}],
             "split": {"line_height": 0.4}},
            r"split\.line_height: the share of the belly is given too",
        ),
        (
            {"layers": [{"place": "body"}, {"place": "vein", "share": 0.1}],
             "split": {"vein_thick_mm": 1}},
            r"split\.vein_thick_mm: the share of the vein",
        ),
        ({"layers": [{"place": "body"}, {"place": "vein"}]}, "needs a share or a size"),
        ({"layers": [{"place": "body"}, {"place": "body", "share": 0.5}]}, "its own place"),
        (
            {"layers": [{"place": "belly", "share": 0.4}, {"place": "back", "share": 0.4}]},
            "must add up to 1",
        ),
        (
            {"layers": [{"place": "belly", "share": 0.7}, {"place": "body"},
                        {"place": "back", "share": 0.5}]},
            "more than 1",
        ),
        (
            {"layers": [{"place": "belly", "share": 0.3}, {"place": "body", "share": 0.3},
                        {"place": "back"}]},
            "layers: needs a share, or the height of its line",
        ),
        (
            {"layers": [{"place": "belly"}, {"place": "body", "share": 0.3},
                        {"place": "back", "share": 0.3}],
             "split": {"belly_height": 0.3}},
            "layers: lies between two lines",
        ),
        ({"placing": {"on_side": True}}, "placing: belongs to a file"),
        ({"family": None}, "either a family or a file"),
    ],
)  # fmt: skip
def test_layers_told_twice_or_not_at_all_are_refused(change, words):
    sound = {"family": {"kind": "stick"}, "layers": [{"place": "body"}]}
    assert split_shares.answer(sound)["layers"][0]["share"]["typical"] == pytest.approx(1)
    with pytest.raises(BadInput, match=words):
        from_json(SplitInput, sound | change)


def test_a_layer_that_finds_no_room_is_refused():
    with pytest.raises(NoAnswer, match="vein and core leave too little of this bait for so much"):
        answered(
            BOX, {"belly": 0.9, "vein": None, "back": None},
            split=Split(vein_height=0.5, vein_thick_mm=6),
        )  # fmt: skip


def test_the_same_question_has_the_same_answer():
    data = dict(split_shares.example)
    assert split_shares.answer(data) == split_shares.answer(data)


@pytest.mark.parametrize("height", [0.02, 0.04])
def test_a_line_all_but_at_the_belly_has_no_ratio_of_pushes(height):
    layers = (SplitLayer(place=Place.BELLY), SplitLayer(place=Place.BACK))
    told = split_shares(SplitInput(family=Stick(), layers=layers, split=Split(line_height=height)))
    assert told.push_ratio is None
