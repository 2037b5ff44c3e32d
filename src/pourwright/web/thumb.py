"""A look or a lot as a small picture wherever it is listed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from urllib.parse import urlencode

from pourwright.actions.as_it_was import Past, poured_bait
from pourwright.actions.bait_kind import BaitKind, BaitKinds
from pourwright.actions.can_picture import no_picture_of, no_picture_of_lot
from pourwright.actions.port import Bench
from pourwright.shop.draft import Draft
from pourwright.shop.look import Look
from pourwright.shop.mold import Bait, Mold
from pourwright.shop.sheet import Sheet
from pourwright.web.look_bait import usual_bait
from pourwright.web.look_picture import rows_of
from pourwright.web.widget import Choice

THUMB_PX = 384


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
    usual = usual_bait(bench, (look,), baits)
    return _thumb_in(bench, look_id, look, usual.value) if usual else None


def _thumb_in(bench: Bench, look_id: str, look: object, bait_id: str) -> Thumb | None:
    bait = bench.records.get(Bait.key, bait_id).noun
    if not isinstance(look, Look) or not isinstance(bait, Bait) or no_picture_of(bench, look, bait):
        return None
    return look_thumb(look_id, look.name, Choice(bait_id, bait.name))


def planned_thumb(bench: Bench, draft: Draft) -> Thumb | None:
    """The look of a plan in its bait; none where one is not picked or has no shape."""
    if not (draft.look and draft.mold):
        return None
    look, mold = (bench.records.get(*it).noun for it in ((Look.key, draft.look),
                                                         (Mold.key, draft.mold)))  # fmt: skip
    if not isinstance(mold, Mold):
        return None
    return _thumb_in(bench, draft.look, look, mold.bait)


class KindThumbs:
    """Pictures of baits in looks as they are now, each made out once."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self._kinds = BaitKinds(bench)
        self._known: dict[BaitKind, Thumb | None] = {}

    def of(self, kind: BaitKind) -> Thumb | None:
        """None where several looks lie in one bag, a record is gone, or it has no shape."""
        if kind not in self._known:
            self._known[kind] = self._made(kind)
        return self._known[kind]

    def _made(self, kind: BaitKind) -> Thumb | None:
        look, bait = self._kinds.look(kind), self._kinds.bait(kind)
        if look is None or bait is None or no_picture_of(self._bench, look, bait):
            return None
        return look_thumb(kind.look, look.name, Choice(kind.bait, bait.name))


class LotThumbs:
    """Pictures of lots; none for one that cannot be pictured."""

    def __init__(self, bench: Bench) -> None:
        self._past = Past(bench)

    def of(self, sheet: Sheet) -> Thumb | None:
        """A lot as it was frozen."""
        bait = poured_bait(self._past, sheet)
        if bait is None or no_picture_of_lot(self._past, sheet):
            return None
        words = f"{sheet.title}: its look in {bait.name}, in the hand"
        return Thumb(f"/lots/{sheet.number}/picture.png?px={THUMB_PX}", words)


def lot_thumbs(bench: Bench, sheets: Iterable[Sheet]) -> dict[int, Thumb]:
    """The pictures of these lots, by the number of the sheet."""
    thumbs = LotThumbs(bench)
    return {it.number: thumb for it in sheets if (thumb := thumbs.of(it)) is not None}
