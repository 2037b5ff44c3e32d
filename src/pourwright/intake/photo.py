"""Pictures: checked before they are decoded, shrunk, and stripped of place and camera."""

from __future__ import annotations

import io
import struct
import warnings

from PIL import Image, ImageOps

from pourwright.base.errors import BadInput

MOST_BYTES = 12_000_000
MOST_PIXELS = 40_000_000
SHOWN_PX = 1600
KINDS = ("JPEG", "PNG", "WEBP")


def picture(data: bytes) -> bytes:
    """A picture as JPEG, at most 1600 pixels a side, without its hidden data.

    Raises: BadInput for anything but a JPEG, PNG or WebP picture of sane size.
    """
    if len(data) > MOST_BYTES:
        raise BadInput("photo", len(data), f"must be at most {MOST_BYTES:,} bytes")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)  # torn hidden data: it is dropped anyway
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        try:
            image = Image.open(io.BytesIO(data), formats=KINDS)
            _sane(image.width, image.height)
            image.draft("RGB", (SHOWN_PX, SHOWN_PX))
            turned = ImageOps.exif_transpose(image).convert("RGB")
        except BadInput:
            raise
        except (Image.DecompressionBombWarning, Image.DecompressionBombError) as error:
            raise BadInput("photo", "a picture", "has too many pixels") from error
        except (OSError, SyntaxError, ValueError, struct.error) as error:
            why = "must be a JPEG, PNG or WebP picture that can be read"
            raise BadInput("photo", f"{len(data)} bytes", why) from error
    turned.thumbnail((SHOWN_PX, SHOWN_PX))
    kept = io.BytesIO()
    turned.save(kept, "JPEG", quality=82, comment=b"", exif=b"", icc_profile=None)
    return kept.getvalue()


def _sane(width: int, height: int) -> None:
    if width * height > MOST_PIXELS:
        raise BadInput("photo", f"{width} x {height}", f"must have at most {MOST_PIXELS:,} pixels")
