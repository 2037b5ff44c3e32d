"""Pictures: checked before they are decoded, shrunk, and stripped of place and camera."""

from __future__ import annotations

import io

from PIL import Image, ImageOps

from pourwright.intake.opened import opened

SHOWN_PX = 1600
KINDS = ("JPEG", "PNG", "WEBP")


def picture(data: bytes) -> bytes:
    """A picture as JPEG, at most 1600 pixels a side, without its hidden data.

    Raises: BadInput for anything but a JPEG, PNG or WebP picture of sane size.
    """
    turned = opened(data, KINDS, _turned)
    turned.thumbnail((SHOWN_PX, SHOWN_PX))
    kept = io.BytesIO()
    turned.save(kept, "JPEG", quality=82, comment=b"", exif=b"", icc_profile=None)
    return kept.getvalue()


def _turned(image: Image.Image) -> Image.Image:
    image.draft("RGB", (SHOWN_PX, SHOWN_PX))
    return ImageOps.exif_transpose(image).convert("RGB")
