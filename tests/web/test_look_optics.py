"""Does the browser get all that the bench draws a look from, and the tables of colors?"""

from __future__ import annotations

import json
import re
import struct
from dataclasses import dataclass
from typing import Any

import httpx
import numpy as np
import pytest

from pourwright.base.draws import Array
from pourwright.body.division import Place
from pourwright.color import stack
from pourwright.color.octave import axis
from pourwright.color.slab import ABSORB, SCATTER, Placing, reflectance, transmittance
from pourwright.forecast.picture.skin_light import SLICES
from web.client import Client

LOOK, PARTED = "/looks/demo-look-marsh/optics", "/looks/demo-look-shad/optics"


@dataclass(frozen=True)
class Read:
    """What the browser's own reading of the bytes comes to."""

    numbers: dict[str, Any]
    arrays: dict[str, Array]


def read(answer: httpx.Response) -> Read:
    assert answer.status_code == 200
    magic, long = answer.content[:4], struct.unpack("<I", answer.content[4:8])[0]
    assert magic == b"PWL1"
    assert long % 4 == 0
    numbers = json.loads(answer.content[8 : 8 + long])
    values = np.frombuffer(answer.content[8 + long :], "<f4")
    arrays, at = {}, 0
    for name, shape in numbers.pop("arrays").items():
        size = int(np.prod(shape))
        arrays[name] = values[at : at + size].reshape(shape)
        at += size
    assert at == len(values)
    return Read(numbers, arrays)


def table(answer: httpx.Response) -> Array:
    assert answer.status_code == 200
    shape = np.frombuffer(answer.content[:12], "<u4")
    return np.frombuffer(answer.content[12:], "<f2").astype(float).reshape(shape)


@pytest.fixture
def client(full_world):
    return Client(full_world)


def test_a_look_is_told_whole(client) -> None:
    found = read(client.get(LOOK))
    layers, plates = found.numbers["layerCount"], found.numbers["plateCount"]
    assert found.arrays["layers"].shape == (2 * layers, 32)
    assert found.arrays["layers"].min() >= 0
    assert (found.arrays["layers"][:, 31] == 0).all()
    assert plates > 100
    for name in ("spots", "tilts", "sorts"):
        dots = found.arrays[name].reshape(-1, 4)
        assert len(dots) >= plates
        assert (dots[plates:] == 0).all()
    normals = found.arrays["tilts"].reshape(-1, 4)[:plates, :3]
    assert np.linalg.norm(normals, axis=1) == pytest.approx(1, abs=1e-5)
    solid = client.get(found.numbers["solid"])
    assert solid.content[:4] == b"PWS1"


def test_what_the_script_holds_fast_is_what_the_bench_holds(client) -> None:
    shader = client.get("/static/look/flux_shader.js").text
    held = re.search(r"SLICES = (\d+), GROUPS = (\d+), MOST_LAYERS = (\d+)", shader)
    even = re.search(r"EVEN = ([0-9.]+)", shader)
    assert held
    assert even
    assert [int(n) for n in held.groups()] == [SLICES, 8, len(Place)]
    assert float(even[1]) == stack._EVEN


def test_a_white_sheet_shows_its_own_color(client) -> None:
    """Weights of all light sent back add up to white: 1 of red, green and blue (IEC 61966-2-1)."""
    found = read(client.get(LOOK))
    assert found.arrays["weights"][:3].sum(axis=1) == pytest.approx(1, abs=0.01)
    assert found.numbers["white"] == pytest.approx([1, 1, 1], abs=0.01)


def test_every_table_is_the_engine_to_half_a_step_of_a_screen(client) -> None:
    absorb, scatter = np.meshgrid(axis(ABSORB)[::40], axis(SCATTER)[::40], indexing="ij")
    for name, placing in (("air", Placing.HAND), ("water", Placing.WATER)):
        found = table(client.get(f"/slabs/{name}"))[::40, ::40]
        back = reflectance(absorb, scatter, np.zeros(1), placing)
        through = transmittance(absorb, scatter, placing)
        assert found[..., 0] == pytest.approx(back, abs=1e-3)
        assert found[..., 1] == pytest.approx(through, abs=1e-3)
        three = table(client.get(f"/slabs/{name}-buried"))[::40, ::40]
        over = three[..., 0] + three[..., 1] * 0.6 / (1 - three[..., 2] * 0.6)
        assert over == pytest.approx(
            reflectance(absorb, scatter, np.array(0.6), placing.buried), abs=2e-3
        )


def test_what_is_asked_is_what_is_told(client) -> None:
    plain = read(client.get(LOOK)).numbers
    wet = read(client.get(f"{LOOK}?where=under+water&side=back")).numbers
    assert plain["tables"]["face"] == "/slabs/air"
    assert wet["tables"]["face"] == "/slabs/water"
    assert wet["index"] == pytest.approx(plain["index"] / 1.333)
    assert plain["eye"] == [0, 0]
    assert wet["eye"] == pytest.approx([np.pi / 2, 0])
    other = read(client.get(f"{LOOK}?bait=demo-bait-worm")).numbers
    assert other["solid"] == "/baits/demo-bait-worm/solid"


def test_sliders_that_are_not_saved_count(client) -> None:
    before = read(client.get(PARTED)).numbers
    sent = {"split.line": "straight", "split.line_height": "0.8"}
    assert read(client.send(PARTED, sent)).numbers["lineMm"] > before["lineMm"] + 1


def test_what_the_browser_has_is_not_sent_again(client) -> None:
    for address in (LOOK, "/slabs/air"):
        first = client.get(address)
        again = client.get(address, **{"if-none-match": first.headers["etag"]})
        assert again.status_code == 304
        assert not again.content
        pressed = client.get(address, **{"accept-encoding": "gzip"})
        assert pressed.headers["content-encoding"] == "gzip"
        assert pressed.content == first.content


def test_what_there_is_not_is_said(client) -> None:
    assert client.get("/slabs/mud").status_code == 404
    assert client.get("/looks/nothing/optics").status_code == 404
    assert client.get(f"{LOOK}?bait=nothing").status_code == 404
