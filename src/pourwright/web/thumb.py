"""A look or a lot as a small picture wherever it is listed."""

from __future__ import annotations

import functools
from collections.abc import Iterable
from dataclasses import dataclass
from urllib.parse import urlencode

from pourwright.actions.as_it_was import Past, poured_bait
from pourwright.actions.look_lines import laid_lines
from pourwright.actions.port import Bench
from pourwright.actions.shape_of import own_shape_of
from pourwright.shop.draft import Draft
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.own_shape import OwnShape
from pourwright.shop.sheet import Sheet
from pourwright.web.look_picture import rows_of
from pourwright.web.widget import Choice

THUMB_PX = 384
# A list asks for the same looks again and again.
KEPT = 256


@dataclass(frozen=True, slots=True)
class Thumb:
    """A picture's address and size, and what it shows in words."""

    address: str
    words: str
    wide: int = THUMB_PX
    high: int = rows_of(THUMB_PX)


def look_thumb(look_id: str, look: str, bait: Choice) -> Thumb:
    """A look as it is now, in a bait that has a shape."""
    asked = urlencode({"bait": bait.value, "px": THUMB_PX})
    return Thumb(f"/looks/{look_id}/picture.png?{asked}", f"{look} in {bait.label}, in the hand")


def listed_thumb(bench: Bench, look_id: str, look: Look, baits: tuple[Choice, ...]) -> Thumb | None:
    """A look in the first of these baits that can have its layers."""
    for choice in baits:
        bait = bench.records.get(Bait.key, choice.value).noun
        if isinstance(bait, Bait) and _lies(look, bait, own_shape_of(bench, bait)):
            return look_thumb(look_id, look.name, choice)
    return None


@functools.lru_cache(maxsize=KEPT)
def _lies(look: Look, bait: Bait, own: OwnShape | None) -> bool:
    """Whether the bait can have the look's layers."""
    return bool(laid_lines(look, bait, own))


def planned_thumb(bench: Bench, draft: Draft) -> Thumb | None:
    """The look of a plan in its bait; none where one is not picked or has no shape."""
    if not (draft.look and draft.mold):
        return None
    look, mold = (bench.records.get(*it).noun for it in ((Look.key, draft.look),
                                                         (Mold.key, draft.mold)))  # fmt: skip
    bait = bench.records.get(Bait.key, mold.bait).noun if isinstance(mold, Mold) else None
    if not isinstance(bait, Bait) or not _shaped(bait) or not isinstance(mold, Mold):
        return None
    return look_thumb(draft.look, look.name, Choice(mold.bait, bait.name))


def _shaped(bait: Bait) -> bool:
    return bait.shape is not None or bool(bait.own_shape)


class LotThumbs:
    """Pictures of lots; none for one whose bait had no shape."""

    def __init__(self, bench: Bench) -> None:
        self._past = Past(bench)

    def of(self, sheet: Sheet) -> Thumb | None:
        """A lot as it was frozen."""
        bait = poured_bait(self._past, sheet)
        if bait is None or not _shaped(bait):
            return None
        words = f"{sheet.title}: its look in {bait.name}, in the hand"
        return Thumb(f"/lots/{sheet.number}/picture.png?px={THUMB_PX}", words)


def lot_thumbs(bench: Bench, sheets: Iterable[Sheet]) -> dict[int, Thumb]:
    """The pictures of these lots, by the number of the sheet."""
    thumbs = LotThumbs(bench)
    return {it.number: thumb for it in sheets if (thumb := thumbs.of(it)) is not None}
