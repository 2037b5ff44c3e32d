"""The echo of a vein, from the button to the belly's recipe."""

from __future__ import annotations

import pytest

from pourwright.actions.keep_record import add_record
from pourwright.body.division import Place
from pourwright.shop.look import Dose, Look, LookLayer, Measure
from web.client import Client

PEARL = Dose(material="demo-pearl-silver", per_100g=0.5, measure=Measure.SPOONS)


def veined(*belly: Dose) -> Look:
    return Look(
        name="Veined",
        layers=(
            LookLayer(place=Place.VEIN, share=0.1, doses=(PEARL,)),
            LookLayer(place=Place.BELLY, share=0.5, doses=belly),
            LookLayer(place=Place.BACK, share=0.4),
        ),
    )


def test_the_button_echoes_the_vein_and_shows_the_belly(full_world):
    key = add_record(full_world, veined()).id
    client = Client(full_world)
    page = client.get(f"/looks/{key}/color")
    assert f'action="/looks/{key}/echo"' in page.text
    answer = client.send(f"/looks/{key}/echo", {"@version": "1"})
    assert (answer.status_code, answer.headers["location"]) == (303, f"/looks/{key}")
    assert 'name="amount-0" value="0.05"' in client.get(f"/looks/{key}/color?layer=1").text


def test_a_look_without_vein_has_no_button_and_is_refused(full_world):
    client = Client(full_world)
    assert "/echo" not in client.get("/looks/demo-look-shad/color").text
    answer = client.send("/looks/demo-look-shad/echo", {"@version": "1"})
    assert answer.status_code == 422
    assert "has no vein" in answer.text


@pytest.mark.parametrize("version", ["0", "7"])
def test_a_look_that_changed_meanwhile_is_not_overwritten(full_world, version):
    key = add_record(full_world, veined()).id
    answer = Client(full_world).send(f"/looks/{key}/echo", {"@version": version})
    assert answer.status_code == 409
