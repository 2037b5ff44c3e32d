"""Pictures opened behind guards: size, kind and pixels are looked at before anything is decoded."""

from __future__ import annotations

import io
import struct
import warnings
from collections.abc import Callable
from typing import TypeVar

from PIL import Image

from pourwright.base.errors import BadInput

MOST_BYTES = 12_000_000
MOST_PIXELS = 40_000_000
FIELD = "photo"

T = TypeVar("T")


def opened(data: bytes, kinds: tuple[str, ...], work: Callable[[Image.Image], T]) -> T:
    """What the work makes of the picture; `kinds` are names of formats, such as JPEG.

    Raises: BadInput for anything but a picture of those kinds and sane size that can be read.
    """
    if len(data) > MOST_BYTES:
        raise BadInput(FIELD, len(data), f"must be at most {MOST_BYTES:,} bytes")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)  # torn hidden data: it is dropped anyway
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        try:
            return work(_sane(Image.open(io.BytesIO(data), formats=kinds)))
        except BadInput:
            raise
        except (Image.DecompressionBombWarning, Image.DecompressionBombError) as error:
            raise BadInput(FIELD, "a picture", "has too many pixels") from error
        except (OSError, SyntaxError, ValueError, struct.error) as error:
            why = f"must be a {_listed(kinds)} picture that can be read"
            raise BadInput(FIELD, f"{len(data)} bytes", why) from error


def _sane(image: Image.Image) -> Image.Image:
    if image.width * image.height > MOST_PIXELS:
        size = f"{image.width} x {image.height}"
        raise BadInput(FIELD, size, f"must have at most {MOST_PIXELS:,} pixels")
    return image


def _listed(kinds: tuple[str, ...]) -> str:
    names = [k.replace("WEBP", "WebP") for k in kinds]
    return f"{', '.join(names[:-1])} or {names[-1]}"
