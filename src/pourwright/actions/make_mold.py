"""Make a mold for a stored bait: its figures, its files, and the record it may become."""

from __future__ import annotations

import base64
import functools
import re
import unicodedata

from pourwright.actions.port import Bench, Stored
from pourwright.actions.shape_of import body_of
from pourwright.base.errors import NotFound
from pourwright.base.field import fields_of
from pourwright.body.body_input import BodyInput
from pourwright.body.mold.answer import MoldAnswer
from pourwright.body.mold.feed import MOUTH_LONG_MM, SPRUE_LONG_MM
from pourwright.body.mold.make import mold_make
from pourwright.body.mold.request import MoldInput, MoldWish
from pourwright.fill.air_way import AirWay
from pourwright.forecast.mold_feed import MoldFeed
from pourwright.matter.mold_material import density_g_ml
from pourwright.shop.mold import Bait, Mold

# Answers with their files that are kept at hand: one being looked at, and a few before it.
KEPT = 4
FORMATS = ("stl", "3mf")
LONGEST_NAME = 60
MOST_NAME = next(f.spec.most for f in fields_of(Mold) if f.name == "name")


def mold_body(bench: Bench, bait: Bait) -> BodyInput:
    """The body to make a mold for. Raises: NotFound for a bait without a shape."""
    body = body_of(bench, bait)
    if body is None:
        raise NotFound(f"{bait.name!r} has no shape yet, so that no mold can be cut for it")
    return body


def mold_input(body: BodyInput, wish: MoldWish) -> MoldInput:
    """What to make. Raises: BadInput as `MoldInput` does."""
    asked = {f.name: getattr(wish, f.name) for f in fields_of(MoldWish)}
    return MoldInput(family=body.family, file=body.file, placing=body.placing, **asked)


@functools.lru_cache(maxsize=KEPT)
def made(inputs: MoldInput) -> MoldAnswer:
    """The mold with its files; asked for again, the same bytes. Raises: as `mold_make` does."""
    return mold_make(inputs)


def file_name(bait: Bait, part: str, sort: str) -> str:
    """A name any computer takes: small letters, digits and hyphens."""
    whose = _plain(bait.name)[: LONGEST_NAME - len(part) - 1].strip("-")
    return f"{whose}-{_plain(part)}.{sort}".lstrip("-")


def _plain(words: str) -> str:
    ascii_ = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", ascii_.lower()).strip("-")


def part_file(answer: MoldAnswer, part: int, sort: str) -> bytes:
    """The file of a part, counted from 1. Raises: NotFound."""
    if not 1 <= part <= len(answer.parts) or sort not in FORMATS:
        raise NotFound("there is no such file of this mold")
    it = answer.parts[part - 1]
    return base64.b64decode(it.stl_base64 if sort == "stl" else it.threemf_base64)


def mold_record(stored: Stored, inputs: MoldInput, answer: MoldAnswer) -> Mold:
    """The mold as the bench would keep it; nothing is known yet of its clamps and its price.

    Raises: BadInput for a mold of a size that the bench does not keep.
    """
    ending = f", {inputs.cavities} up"
    return Mold(
        name=f"{stored.noun.name[: MOST_NAME - len(ending)]}{ending}",
        bait=stored.id,
        cavities=inputs.cavities,
        feed_ml=answer.feed_ml,
        mass_g=round(_volume_ml(inputs, answer) * density_g_ml(inputs.material), 0),
        material=inputs.material,
        feed=_feed(inputs, answer),
        open_face=inputs.route.open,
        air=AirWay.VENTED if answer.vents else AirWay.LEAKS,
    )


def _feed(inputs: MoldInput, answer: MoldAnswer) -> MoldFeed:
    """The feed as it was cut, its mouth as part of the sprue; an open mold has none."""
    if answer.gate_mm is None:
        return MoldFeed()
    return MoldFeed(
        sprue_mm=inputs.sprue_mm,
        sprue_length_mm=MOUTH_LONG_MM + SPRUE_LONG_MM,
        runner_mm=inputs.runner_mm,
        gate_width_mm=answer.gate_mm,
        gate_thick_mm=answer.gate_mm,
        pitch_mm=answer.pitch_mm,
    )


def _volume_ml(inputs: MoldInput, answer: MoldAnswer) -> float:
    """Of the shut mold: its parts, or what is cast over them."""
    if inputs.route.cast:
        return sum(c.pour_ml for c in answer.castings)
    return sum(p.volume_ml * p.copies for p in answer.parts)
