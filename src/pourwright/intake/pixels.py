"""Photos for measuring color: checked before they are decoded, upright, codes untouched."""

from __future__ import annotations

import io
import struct
import warnings

import numpy as np
from PIL import Image, ImageCms, ImageOps

from pourwright.base.errors import BadInput
from pourwright.base.picture import Picture
from pourwright.intake.photo import MOST_BYTES, MOST_PIXELS

KINDS = ("JPEG", "PNG")
# Others hold more than 8 bits, print inks or a look-up of their own, and would be bent on the way.
MODES = frozenset({"RGB", "RGBA", "P", "L"})
FIELD = "photo"


def pixels(data: bytes) -> Picture:
    """The codes of a photo, turned upright by its own note.

    A color profile is named, not applied: it would clip colors outside sRGB, and a photo is read
    against the target in it.
    Raises: BadInput for anything but a color PNG or JPEG of 8 bits a channel and sane size.
    """
    if len(data) > MOST_BYTES:
        raise BadInput(FIELD, len(data), f"must be at most {MOST_BYTES:,} bytes")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)  # torn hidden data: it is dropped anyway
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        try:
            return _decoded(data)
        except BadInput:
            raise
        except (Image.DecompressionBombWarning, Image.DecompressionBombError) as error:
            raise BadInput(FIELD, "a picture", "has too many pixels") from error
        except (OSError, SyntaxError, ValueError, struct.error) as error:
            why = "must be a JPEG or PNG picture that can be read"
            raise BadInput(FIELD, f"{len(data)} bytes", why) from error


def _decoded(data: bytes) -> Picture:
    image = Image.open(io.BytesIO(data), formats=KINDS)
    if image.width * image.height > MOST_PIXELS:
        size = f"{image.width} x {image.height}"
        raise BadInput(FIELD, size, f"must have at most {MOST_PIXELS:,} pixels")
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
