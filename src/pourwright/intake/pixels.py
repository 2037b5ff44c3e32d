"""Photos for measuring color: checked before they are decoded, upright, codes untouched."""

from __future__ import annotations

import io

import numpy as np
from PIL import Image, ImageCms, ImageOps

from pourwright.base.errors import BadInput
from pourwright.base.picture import Picture
from pourwright.intake.opened import FIELD, opened

KINDS = ("JPEG", "PNG")
# Others hold more than 8 bits, print inks or a look-up of their own, and would be bent on the way.
MODES = frozenset({"RGB", "RGBA", "P", "L"})


def pixels(data: bytes) -> Picture:
    """The codes of a photo, turned upright by its own note.

    A color profile is named, not applied: it would clip colors outside sRGB, and a photo is read
    against the target in it.
    Raises: BadInput for anything but a color PNG or JPEG of 8 bits a channel and sane size.
    """
    return opened(data, KINDS, _decoded)


def _decoded(image: Image.Image) -> Picture:
    if image.mode not in MODES:
        raise BadInput(FIELD, image.mode, "must be a color photo of 8 bits a channel")
    profile = _profile(image.info.get("icc_profile"))
    return Picture(np.asarray(ImageOps.exif_transpose(image).convert("RGB")), profile)


def _profile(data: object) -> str:
    if not isinstance(data, bytes):
        return ""
    try:
        named = ImageCms.ImageCmsProfile(io.BytesIO(data)).profile.profile_description
    except OSError:
        return "unreadable"
    return (named or "unnamed")[:60]
