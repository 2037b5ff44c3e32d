"""The twelve looks of the contact sheet."""

from __future__ import annotations

import numpy as np
import pytest
from contact_looks import DROPS, FLAKES, LOOKS

from pourwright.base.record import from_json
from pourwright.forecast.picture.picture import look_picture
from pourwright.spectrum.difference import delta_e00

# Beyond this nobody would say that a layer is after its animal; estimate.
FAR = 9.0


def holds(look, ending: str) -> bool:
    """Whether any layer of a look holds a flake or a pearl."""
    return any(name.endswith(ending) for it in look.layers.values() for name in it.recipe)


def test_there_are_twelve_of_every_sort():
    assert len({look.name for look in LOOKS}) == len(LOOKS) == 12
    assert {len(look.layers) for look in LOOKS} == {1, 2, 3, 4}
    assert {place for look in LOOKS for place in look.layers} == {
        "body", "back", "belly", "vein", "core"
    }  # fmt: skip
    for ending in ("flake", "pearl"):
        assert 3 <= sum(holds(look, ending) for look in LOOKS) <= 9
    used = {name for look in LOOKS for it in look.layers.values() for name in it.recipe}
    assert used >= set(DROPS) | set(FLAKES)


@pytest.mark.parametrize("look", LOOKS, ids=lambda look: look.name)
def test_a_layer_comes_near_the_animal_it_is_after(look):
    asked = look.asked() | {"pixels": 160, "sight": {}}
    answer = look_picture(from_json(look_picture.takes, asked))
    assert answer.patches
    for patch in answer.patches:
        if patch.place != "vein" or not holds(look, "pearl"):
            forage = np.array(look.layers[patch.place].forage)
            assert delta_e00(np.array(patch.lab), forage) < FAR
