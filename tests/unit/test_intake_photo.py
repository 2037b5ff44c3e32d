"""A picture is refused before it can hurt, and kept without what it hides."""

from __future__ import annotations

import io
import struct
import zlib

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from pourwright.base.errors import BadInput
from pourwright.intake.opened import MOST_BYTES
from pourwright.intake.photo import picture

RED, BLUE = (220, 20, 20), (20, 20, 220)


def encoded(image: Image.Image, kind: str, **how) -> bytes:
    held = io.BytesIO()
    image.save(held, kind, **how)
    return held.getvalue()


def opened(data: bytes) -> Image.Image:
    return Image.open(io.BytesIO(data), formats=["JPEG"])


def hiding() -> bytes:
    """Red over blue, said to lie on its side, with everything a picture can hide."""
    image = Image.new("RGB", (300, 200), BLUE)
    image.paste(RED, (0, 0, 300, 100))
    exif = Image.Exif()
    exif[0x0112] = 6  # orientation: turn a quarter to the right to see it upright
    exif[0x010F] = "HIDDEN camera"
    return encoded(
        image, "JPEG", exif=exif, comment=b"HIDDEN comment", icc_profile=b"HIDDEN profile" * 12,
        xmp=b"<x:xmpmeta>HIDDEN place</x:xmpmeta>",
    )  # fmt: skip


HIDING = hiding()


def test_a_picture_is_turned_upright() -> None:
    kept = opened(picture(HIDING))
    assert kept.size == (200, 300)
    left, right = kept.getpixel((20, 150)), kept.getpixel((180, 150))
    assert isinstance(left, tuple)
    assert isinstance(right, tuple)
    assert left[2] > 180 > left[0]
    assert right[0] > 180 > right[2]


def test_nothing_hidden_is_kept() -> None:
    assert HIDING.count(b"HIDDEN") >= 4
    assert b"HIDDEN" not in picture(HIDING)
    assert not opened(picture(HIDING)).getexif()


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("mode", ["RGB", "L"])
def test_large_pictures_are_shrunk_in_proportion(kind: str, mode: str) -> None:
    assert opened(picture(encoded(Image.new(mode, (3200, 800)), kind))).size == (1600, 400)


@pytest.mark.parametrize("kind", ["GIF", "BMP", "TIFF"])
def test_other_formats_are_refused(kind: str) -> None:
    with pytest.raises(BadInput, match="photo: must be a JPEG, PNG or WebP"):
        picture(encoded(Image.new("RGB", (8, 8)), kind))


def test_too_many_bytes_are_refused_unread() -> None:
    with pytest.raises(BadInput, match="photo: must be at most"):
        picture(b"\xff\xd8" + bytes(MOST_BYTES))


@pytest.mark.parametrize(("wide", "high"), [(6400, 6400), (10_000, 10_000), (60_000, 60_000)])
def test_too_many_pixels_are_refused_before_decoding(wide: int, high: int) -> None:
    # A PNG that only claims its size: decoding it would fail with other words.
    header = struct.pack(">IIBBBBB", wide, high, 8, 2, 0, 0, 0)
    chunks = [(b"IHDR", header), (b"IDAT", zlib.compress(b"")), (b"IEND", b"")]
    claim = b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))
        for name, body in chunks
    )
    with pytest.raises(BadInput, match="pixels"):
        picture(claim)


@given(cut=st.integers(0, len(HIDING) - 200))
def test_half_a_picture_is_refused(cut: int) -> None:
    with pytest.raises(BadInput, match="photo"):
        picture(HIDING[:cut])


@given(changes=st.dictionaries(st.integers(0, len(HIDING) - 1), st.integers(0, 255), max_size=8))
def test_torn_pictures_are_kept_or_refused_in_words(changes: dict[int, int]) -> None:
    torn = bytearray(HIDING)
    for place, byte in changes.items():
        torn[place] = byte
    try:
        kept = picture(bytes(torn))
    except BadInput as refusal:
        assert refusal.field == "photo"  # noqa: PT017  either outcome is right, no other is
    else:
        assert max(opened(kept).size) <= 1600
