"""Reading a photo: what is refused, what is flagged, and how its file is opened."""

from __future__ import annotations

import base64
import io
import json
import struct
import zlib
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageCms

from photo_booth import Scene, Shot, camera, dyed_pucks, taken
from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.picture import Picture
from pourwright.base.record import from_json, to_json
from pourwright.base.schema import input_schema
from pourwright.color.photo.example import png
from pourwright.color.photo.read import PhotoInput, photo
from pourwright.intake.opened import MOST_BYTES
from pourwright.intake.pixels import pixels
from pourwright.spectrum.patches import PATCH_REFLECTANCE

PUCKS = dyed_pucks(4, 9)
SCENE = Scene(PATCH_REFLECTANCE, 6, PUCKS)
SHOT = taken(SCENE, camera(3, exposure=0.6), Shot(fall=(0.15, 0.1, 0.05), tilt=0.15, turn_deg=6))


def request(codes=SHOT.codes, **change):
    at = {"x_px": 0.0, "y_px": 0.0}
    return {
        "photo": base64.b64encode(png(codes)).decode(),
        "target": {"kind": "24 patches"},
        "corners": [dict(zip(at, map(float, c), strict=True)) for c in SHOT.corners],
        "spots": [
            {"name": f"puck {i}", "x_px": float(x), "y_px": float(y), "radius_px": 8}
            for i, (x, y) in enumerate(SHOT.pucks)
        ],
        "card": [{"x_px": float(x), "y_px": float(y), "radius_px": 5} for x, y in SHOT.card],
    } | change


def answer(data):
    return photo.answer(data, {Picture: pixels})


def painted(codes, at, radius, color):
    down, right = np.mgrid[: codes.shape[0], : codes.shape[1]]
    changed = codes.copy()
    changed[np.hypot(right - at[0], down - at[1]) < radius] = color
    return changed


def test_a_photo_is_read():
    got = answer(request())
    assert [s["name"] for s in got["spots"]] == [f"puck {i}" for i in range(4)]
    assert got["verdict"].startswith(("good", "fair"))
    assert got["turned_deg"] == 0
    assert len(got["spots"][0]["reflectance"]) == len(got["wavelengths_nm"]) == 31
    assert not any(s["notes"] for s in got["spots"])


def test_the_same_photo_gives_the_same_answer():
    assert answer(request()) == answer(request())


def test_without_card_the_light_is_named_as_a_guess():
    got = answer(request(card=[]))
    assert any("white card" in note for note in got["notes"])
    wide, narrow = (_lightness_width(a) for a in (got, answer(request())))
    assert wide > narrow


def _lightness_width(got):
    return np.mean([s["lab"]["lightness"]["high"] - s["lab"]["lightness"]["low"]
                    for s in got["spots"]])  # fmt: skip


def test_card_that_is_too_bright_is_left_out_and_said():
    codes = painted(SHOT.codes, SHOT.card[1], 12, 255)
    got, without = answer(request(codes)), request()["card"]
    assert any("1 places on the card were too bright" in note for note in got["notes"])
    assert got["spots"] == answer(request(card=without[:1] + without[2:]))["spots"]


def test_card_taps_on_something_else_are_told():
    card = [*request()["card"], {"x_px": 0, "y_px": 0, "radius_px": 5}]
    card[-1]["x_px"], card[-1]["y_px"] = SHOT.pucks[2].tolist()
    assert any("do not go together" in note for note in answer(request(card=card))["notes"])
    assert not any("do not go together" in note for note in answer(request())["notes"])


def test_two_lights_are_told():
    right = np.arange(SHOT.codes.shape[1])[None, :] / SHOT.codes.shape[1]
    red = SHOT.codes.astype(float)
    red[..., 0] *= 0.85 + 0.15 * right
    got = answer(request(red.astype(np.uint8)))
    assert any("two different lights" in note for note in got["notes"])


# A photo of nothing


@pytest.mark.parametrize(
    "codes",
    [
        np.full_like(SHOT.codes, 120),
        np.random.default_rng(1).integers(5, 240, SHOT.codes.shape, dtype=np.uint8),
        np.linspace(30, 220, SHOT.codes.size).reshape(SHOT.codes.shape).astype(np.uint8),
        np.broadcast_to(
            np.linspace(20, 230, SHOT.codes.shape[1])[None, :, None], SHOT.codes.shape
        ).astype(np.uint8),
        SHOT.codes[:, :, ::-1] // 8 + 100,
    ],
    ids=["even", "noise", "down", "across", "fog"],
)
def test_a_photo_of_nothing_is_refused(codes):
    with pytest.raises(NoAnswer, match="does not look like 24 color patches"):
        answer(request(codes))


def test_a_gray_photo_of_the_target_is_refused():
    gray = np.repeat(SHOT.codes.mean(axis=2, keepdims=True), 3, axis=2).astype(np.uint8)
    with pytest.raises(NoAnswer, match="contradict one another"):
        answer(request(gray))


def test_a_target_seen_in_a_mirror_is_refused():
    width = SHOT.codes.shape[1]
    turned = [{"x_px": width - 1 - x, "y_px": y} for x, y in SHOT.corners.tolist()]
    with pytest.raises(NoAnswer, match="mirror"):
        answer(request(SHOT.codes[:, ::-1], corners=turned))


# Clipping and glare


def test_a_photo_too_bright_is_refused():
    with pytest.raises(NoAnswer, match=r"too bright: .* patches .*white"):
        answer(request(np.minimum(SHOT.codes * 2.0, 255).astype(np.uint8)))


def test_a_photo_too_dark_is_refused():
    dark = np.maximum(SHOT.codes.astype(float) - 110, 0).astype(np.uint8)
    with pytest.raises(NoAnswer, match="too dark"):
        answer(request(dark))


def test_a_clipped_patch_is_left_out_and_said():
    white = SHOT.corners[3] + (10, -10)
    got = answer(request(painted(SHOT.codes, white, 14, 255)))
    assert [p["name"] for p in got["patches"] if p["left_out_de00"] is None] == ["white"]
    assert any("1 patches were too bright" in note for note in got["notes"])


def test_a_clipped_puck_is_refused_by_name():
    with pytest.raises(NoAnswer, match="puck 2 is too bright"):
        answer(request(painted(SHOT.codes, SHOT.pucks[2], 14, 255)))


def test_a_lamp_mirrored_in_a_puck_is_left_out():
    got = answer(request(painted(SHOT.codes, SHOT.pucks[1] + 3, 3.2, 255)))["spots"][1]
    clean = answer(request())["spots"][1]
    assert 0.05 < got["glare_share"] < 0.3
    assert any("mirrors a lamp" in note for note in got["notes"])
    assert got["lab"]["lightness"]["typical"] == pytest.approx(
        clean["lab"]["lightness"]["typical"], abs=1
    )


def test_a_puck_with_an_empty_channel_is_flagged():
    got = answer(request(painted(SHOT.codes, SHOT.pucks[0], 14, (120, 60, 0))))["spots"][0]
    assert got["clipped_share"] == 1
    assert any("empty channel" in note for note in got["notes"])


def test_a_spot_over_an_edge_is_uneven():
    right, down = SHOT.corners[3].tolist()
    edge = [{"name": "edge", "x_px": right, "y_px": down, "radius_px": 12}]
    assert any("uneven" in note for note in answer(request(spots=edge))["spots"][0]["notes"])


# Places that cannot be


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"corners": request()["corners"][:3]}, "corners"),
        ({"corners": [{"x_px": 10.0 * i, "y_px": 10.0 * i} for i in range(4)]}, "corners"),
        ({"corners": [{"x_px": 20.0 + x, "y_px": 20.0 + y}
                      for x, y in ((0, 0), (90, 0), (30, 20), (0, 90))]}, "corners"),
        ({"corners": [{"x_px": 20.0 + x, "y_px": 20.0 + y}
                      for x, y in ((0, 0), (24, 0), (24, 16), (0, 16))]}, "corners"),
        ({"corners": [*request()["corners"][:3], {"x_px": 15000, "y_px": 5}]}, "corners[3].x_px"),
        ({"spots": []}, "spots"),
        ({"spots": [{"name": "out", "x_px": 3, "y_px": 90, "radius_px": 8}]}, "spots[0].x_px"),
        ({"spots": [{"name": "out", "x_px": 90, "y_px": 9000, "radius_px": 8}]}, "spots[0].y_px"),
        ({"card": [{"x_px": 90, "y_px": 9000, "radius_px": 8}]}, "card[0].y_px"),
        ({"target": {"kind": "gray strip", "shares": [0.9, 0.2]}}, "target.shares"),
        ({"target": {"kind": "gray strip", "shares": [0.9, 0.5, 0.4]}}, "target.shares"),
        ({"target": {"kind": "gray strip", "shares": [0.9, 0.2, 0.04]}, "card": []}, "card"),
        ({"target": {"kind": "shoe box"}}, "target.kind"),
        ({"photo": "not base64!"}, "photo"),
        ({"photo": ""}, "photo"),
        ({"photo": 7}, "photo"),
        ({"photo": base64.b64encode(b"words").decode()}, "photo"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_by_name(change, field):
    with pytest.raises(BadInput) as refused:
        answer(request(**change))
    assert refused.value.field == field
    assert len(json.dumps(refused.value.as_json())) < 600


def test_a_spot_too_far_from_the_target_is_refused():
    codes = np.full((900, 2400, 3), 200, dtype=np.uint8)
    codes[: SHOT.codes.shape[0], : SHOT.codes.shape[1]] = SHOT.codes
    far = [{"name": "far", "x_px": 2300, "y_px": 800, "radius_px": 8}]
    with pytest.raises(BadInput, match=r"spots\[0\]: lies too far"):
        answer(request(codes, spots=far))


# The file


def test_nobody_opens_a_photo_without_being_handed_a_way_to():
    with pytest.raises(BadInput, match="photo: cannot be opened here"):
        photo.answer(request())


def test_a_photo_is_never_given_out():
    with pytest.raises(TypeError, match="never given out"):
        to_json(Picture(SHOT.codes))


def test_a_picture_has_three_channels_of_bytes():
    def bare(_: bytes) -> Any:
        return SHOT.codes

    with pytest.raises(ValueError, match="three channels"):
        Picture(np.zeros((4, 4), dtype=np.uint8))
    with pytest.raises(BadInput, match="photo: must be a Picture"):
        from_json(PhotoInput, request(), readers={Picture: bare})


def test_the_schema_asks_for_base64():
    asked = input_schema(PhotoInput)["properties"]["photo"]
    assert (asked["type"], asked["contentEncoding"]) == ("string", "base64")


def test_the_own_png_is_one_that_others_read():
    read = np.asarray(Image.open(io.BytesIO(png(SHOT.codes)), formats=["PNG"]))
    assert np.array_equal(read, SHOT.codes)


def encoded(image, kind, **how):
    held = io.BytesIO()
    image.save(held, kind, **how)
    return held.getvalue()


RED_OVER_BLUE = np.zeros((40, 60, 3), dtype=np.uint8)
RED_OVER_BLUE[:20, :, 0] = RED_OVER_BLUE[20:, :, 2] = 200


def test_codes_are_kept_as_they_are():
    assert np.array_equal(pixels(png(RED_OVER_BLUE)).codes, RED_OVER_BLUE)


def test_a_photo_is_turned_upright():
    exif = Image.Exif()
    exif[0x0112] = 6  # a quarter to the right
    data = encoded(Image.fromarray(RED_OVER_BLUE), "JPEG", exif=exif, quality=95)
    got = pixels(data)
    assert (got.width_px, got.height_px) == (40, 60)
    assert got.codes[30, 35, 0] > 150 > got.codes[30, 5, 0]


def test_a_profile_is_named_not_applied():
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    got = pixels(encoded(Image.fromarray(RED_OVER_BLUE), "PNG", icc_profile=profile))
    assert "sRGB" in got.profile
    assert np.array_equal(got.codes, RED_OVER_BLUE)
    assert pixels(png(RED_OVER_BLUE)).profile == ""
    torn = encoded(Image.fromarray(RED_OVER_BLUE), "PNG", icc_profile=b"torn" * 40)
    assert pixels(torn).profile == "unreadable"


@pytest.mark.parametrize("kind", ["GIF", "BMP", "TIFF", "WEBP"])
def test_other_formats_are_refused(kind):
    with pytest.raises(BadInput, match="must be a JPEG or PNG"):
        pixels(encoded(Image.fromarray(RED_OVER_BLUE), kind))


@pytest.mark.parametrize(("mode", "kind"), [("CMYK", "JPEG"), ("I;16", "PNG"), ("LA", "PNG")])
def test_other_codes_are_refused(mode, kind):
    with pytest.raises(BadInput, match="8 bits a channel"):
        pixels(encoded(Image.new(mode, (8, 8)), kind))


def test_too_many_bytes_are_refused_unread():
    with pytest.raises(BadInput, match="at most"):
        pixels(bytes(MOST_BYTES + 1))


@pytest.mark.parametrize(("wide", "high"), [(6400, 6400), (10_000, 10_000), (60_000, 60_000)])
def test_too_many_pixels_are_refused_before_decoding(wide, high):
    # A PNG that only claims its size: decoding it would fail with other words.
    head = struct.pack(">IIBBBBB", wide, high, 8, 2, 0, 0, 0)
    chunks = [(b"IHDR", head), (b"IDAT", zlib.compress(b"")), (b"IEND", b"")]
    claim = b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))
        for name, body in chunks
    )
    with pytest.raises(BadInput, match="pixels"):
        pixels(claim)


TORN = encoded(Image.fromarray(RED_OVER_BLUE), "JPEG")


@given(changes=st.dictionaries(st.integers(0, len(TORN) - 1), st.integers(0, 255), max_size=8))
def test_torn_photos_are_read_or_refused_in_words(changes):
    torn = bytearray(TORN)
    for place, byte in changes.items():
        torn[place] = byte
    try:
        got = pixels(bytes(torn))
    except BadInput as refusal:
        assert refusal.field == "photo"  # noqa: PT017  either outcome is right, no other is
    else:
        assert got.codes.ndim == 3
