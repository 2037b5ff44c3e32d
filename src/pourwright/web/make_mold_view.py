"""A mold made for a bait, laid out for its page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from pourwright.actions.draw_mold import DrawnMold
from pourwright.actions.make_mold import FORMATS, mold_record
from pourwright.actions.port import Stored
from pourwright.base.errors import BadInput
from pourwright.body.mold.answer import MoldAnswer, MoldPart
from pourwright.body.mold.make import mold_make
from pourwright.body.mold.request import MoldInput
from pourwright.shop.mold import Mold
from pourwright.web.drawing import PARTS, Drawing, Mark
from pourwright.web.extent import extent
from pourwright.web.form import texts_of
from pourwright.web.portrait import outlined
from pourwright.web.question.view import AnswerView, Section, answer_view
from pourwright.web.show import Settings, opened

# Block, cavity, feed: apart for every eye, by lightness too.
BLOCK, CAVITY, FEED = "#b4bbc2", "#c8792b", "#2b6ea3"
_KB = 1000


@dataclass(frozen=True, slots=True)
class FileLink:
    """A file to take along."""

    label: str
    address: str
    size: str


@dataclass(frozen=True, slots=True)
class PartLine:
    """A part: what it is, how many, how large, and its files."""

    name: str
    copies: int
    size: str
    files: tuple[FileLink, ...]


@dataclass(frozen=True, slots=True)
class MadeView:
    """A mold as the page tells it; `keep` are the fields of the record it may become."""

    drawing: Drawing
    legend: tuple[tuple[str, str], ...]
    size: str
    parts: tuple[PartLine, ...]
    answer: AnswerView
    cures: tuple[str, ...]
    more: tuple[Section, ...]
    checks: int
    keep: tuple[tuple[str, str], ...]


def made_view(
    stored: Stored, inputs: MoldInput, answer: MoldAnswer, drawn: DrawnMold, query: str,
    settings: Settings,
) -> MadeView:  # fmt: skip
    """Everything the page says of a mold; `query` is what its address asked for."""
    address = f"/baits/{stored.id}/mold"
    bare = replace(answer, parts=(), checks=(), feed=(), vents=(), unvented=())
    deep = replace(answer, parts=(), castings=(), one_more=None, unvented=())
    return MadeView(
        drawing=_drawing(f"{address}/solid?{query}", drawn, settings),
        legend=_legend(inputs),
        size=extent(
            answer.block_length_mm, answer.block_width_mm, answer.block_height_mm, settings
        ),
        parts=tuple(
            _part(it, f"{address}/files/{n}", query, settings)
            for n, it in enumerate(answer.parts, 1)
        ),
        answer=answer_view(mold_make, bare, settings),
        cures=tuple(dict.fromkeys(opened(it.cure) for it in answer.unvented)),
        more=answer_view(mold_make, deep, settings).sections,
        checks=len(answer.checks),
        keep=_keep(stored, inputs, answer, settings),
    )


def _keep(
    stored: Stored, inputs: MoldInput, answer: MoldAnswer, settings: Settings
) -> tuple[tuple[str, str], ...]:
    """The fields of the record; none of a mold of a size that the bench does not keep."""
    try:
        record = mold_record(stored, inputs, answer)
    except BadInput:
        return ()
    return tuple(texts_of(Mold, record, settings.system).items())


def _part(it: MoldPart, address: str, query: str, settings: Settings) -> PartLine:
    texts = dict(zip(FORMATS, (it.stl_base64, it.threemf_base64), strict=True))
    files = tuple(
        FileLink(sort.upper(), f"{address}.{sort}?{query}", _weight(text))
        for sort, text in texts.items()
    )
    size = extent(it.length_mm, it.width_mm, it.height_mm, settings)
    return PartLine(opened(it.name), it.copies, size, files)


def _weight(base64: str) -> str:
    return f"{max(1, round(len(base64) * 3 / 4 / _KB)):,} KB"


def _drawing(address: str, drawn: DrawnMold, settings: Settings) -> Drawing:
    return Drawing(
        solid=address,
        scales=(),
        marks=tuple(_marks(drawn)),
        portrait=outlined(drawn.outline_mm),
        system=settings.system.value,
        modes=(),
        part_colors=(BLOCK, CAVITY, FEED),
    )


def _marks(drawn: DrawnMold) -> Iterator[Mark]:
    for name in drawn.names:
        yield Mark(PARTS, name.at_mm, name.words, bare=True)
    for n, place in enumerate(drawn.shut_mm):
        yield Mark(PARTS, place, "" if n else "no vent")


def _legend(inputs: MoldInput) -> tuple[tuple[str, str], ...]:
    if inputs.route.cast:
        return ((CAVITY, "What the casting gives way to"), (BLOCK, "Plate and box"))
    if inputs.route.open:
        return ((CAVITY, "Cavity"), (BLOCK, "Mold"))
    return ((CAVITY, "Cavity"), (FEED, "Mouth, sprue, runner and gates"), (BLOCK, "Mold"))
