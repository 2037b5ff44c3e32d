"""What every picture of a look promises, whatever the bait and its layers."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pourwright.base.errors import BadInput
from pourwright.base.record import from_json
from pourwright.body.families import FAMILIES
from pourwright.color import two_flux
from pourwright.color.stack import Layers, even_slabs
from pourwright.forecast.picture.picture import look_picture, scene_of
from pourwright.forecast.picture.picture_input import PictureInput

PEARL = {
    "name": "pearl", "per_100g": 0.5, "measure": "grams",
    "colorant": {"kind": "pearl", "color_hex": "#9db8e0"},
}  # fmt: skip
DYE = {
    "name": "dye", "per_100g": 4, "drop_mass_g": 0.036,
    "colorant": {"kind": "dye", "color_hex": "#7a2b18"},
}  # fmt: skip
FLAKE = {
    "name": "flake", "per_100g": 0.1, "measure": "grams",
    "colorant": {"kind": "flake", "color_hex": "#2f6bd0", "film_um": 25, "size_mm": 0.6},
}  # fmt: skip
LAYERS = [
    {"place": "back", "share": 0.4, "doses": [DYE, FLAKE]},
    {"place": "belly", "share": 0.4, "doses": [PEARL]},
    {"place": "vein", "share": 0.1, "doses": [DYE]},
    {"place": "core", "share": 0.1},
]


def asked(**more: Any) -> PictureInput:
    body = {"family": {"kind": "paddle_tail"}, "layers": LAYERS, "pixels": 96}
    return from_json(PictureInput, body | more)


@pytest.mark.parametrize("family", list(FAMILIES))
@pytest.mark.parametrize("water", [None, {"water": {"kind": "green"}, "range_m": 0.2}])
def test_every_family_can_be_pictured(family, water):
    answer = look_picture(asked(family={"kind": family}, layers=[
        {"place": "back", "share": 0.5, "doses": [DYE, FLAKE]},
        {"place": "belly", "share": 0.5, "doses": [PEARL]},
    ], water=water))  # fmt: skip
    assert (answer.rows, answer.columns) == (38, 96)
    assert answer.picture.codes.shape == (38, 96, 3)
    assert answer.patches
    for patch in answer.patches:
        back, through = np.array(patch.reflectance), np.array(patch.transmittance)
        assert (back >= 0).all()
        assert (through >= 0).all()
        assert (back + through <= 1).all()


@pytest.mark.parametrize("side", ["flank", "back", "belly"])
def test_a_layer_is_seen_from_its_side(side):
    places = {p.place for p in look_picture(asked(sight={"side": side})).patches}
    assert ("back" in places) == (side != "belly")
    assert ("belly" in places) == (side != "back")


positive = st.floats(0.001, 3)


@given(
    st.lists(positive, min_size=6, max_size=6), st.lists(st.integers(0, 2), min_size=8, max_size=8)
)
def test_slices_keep_the_light_they_get(values, order):
    absorb, scatter = np.array(values, np.float32).reshape(2, 3, 1)
    weights = np.zeros((1, 8, 3), np.float32)
    weights[0, np.arange(8), order] = 1
    found = even_slabs(Layers(absorb, scatter), weights, np.array([5.0], np.float32))
    assert all(np.isfinite(v).all() and (v >= 0).all() for v in found)
    k, s = two_flux.from_transport(found[0].astype(float), found[1].astype(float))
    back, through = two_flux.layer(k, s, np.array(1.0))
    assert back.item() + through.item() <= 1 + 1e-6


@given(st.lists(positive, min_size=2, max_size=2))
def test_an_even_bait_is_its_own_slab(values):
    absorb, scatter = (np.full((2, 1), v, np.float32) for v in values)
    weights = np.zeros((1, 8, 2), np.float32)
    weights[0, :3, 0], weights[0, 3:, 1] = 1, 1
    found = even_slabs(Layers(absorb, scatter), weights, np.array([4.0], np.float32))
    assert found[0].item() == pytest.approx(4 * values[0], rel=2e-3, abs=2e-3)
    assert found[1].item() == pytest.approx(4 * values[1], rel=2e-3, abs=2e-3)


@pytest.mark.parametrize(
    ("more", "field"),
    [
        ({"layers": [{"place": "back", "share": 0.5}]}, "layers"),
        ({"layers": [{"share": 0.5}, {"share": 0.5}]}, "layers"),
        ({"layers": [{}], "split": {"line_height": 0.5}}, "split.line_height"),
        ({"sight": {"sheet_hex": "white"}}, "sight.sheet_hex"),
        ({"water": {}, "sight": {"sheet_hex": "#000000"}}, "sight.sheet_hex"),
        ({"water": {}, "sight": {"light": "A"}}, "sight.light"),
        ({"water": {}, "sight": {"held": "held before the sheet"}}, "sight.held"),
        ({"pixels": 5000}, "pixels"),
        ({"placing": {"on_side": True}}, "placing"),
        ({"family": None}, "family"),
    ],
)
def test_nonsense_is_refused_by_name(more, field):
    with pytest.raises(BadInput) as refused:
        asked(**more)
    assert refused.value.field == field


@pytest.mark.parametrize("kind", ["clear", "green", "tea-stained", "muddy"])
@pytest.mark.parametrize("away_m", [0, 0.4, 3])
def test_no_patch_is_lighter_than_a_white_sheet_in_its_place(kind, away_m):
    water = {"water": {"kind": kind}, "range_m": away_m}
    white = {"name": "white", "per_100g": 20, "drop_mass_g": 0.036,
             "colorant": {"kind": "opaque", "color_hex": "#ffffff"}}  # fmt: skip
    answer = look_picture(asked(layers=[{"doses": [white]}], water=water))
    assert all(20 < patch.lab[0] <= 101 for patch in answer.patches)


def test_flakes_beyond_count_cover_as_much():
    sort = {"kind": "flake", "color_hex": "#c8c8c8", "film_um": 25, "size_mm": 0.1}
    fine = {"name": "flake", "per_100g": 3, "measure": "grams", "colorant": sort}
    scene = scene_of(asked(family={"kind": "stick"}, layers=[{"doses": [fine]}]))
    plates, told = scene.plates, scene.layers[0].flakes[0].faces_per_mm
    assert scene.left_out > 100_000
    area = (np.sqrt(3) / 2 * plates.size_mm**2).sum()
    assert area / scene.solid.volume() == pytest.approx(told, rel=0.02)
