"""The supplier's paper of a bought lot, as a file."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.actions.port import Bench, Event, World
from pourwright.base.errors import BadInput, NotFound
from pourwright.shop.paper_file import FIELD, PDF, PaperFile, paper_file
from pourwright.shop.stock_lot import LotSort

PAPER_ADDED = "paper_added"


@dataclass(frozen=True, slots=True)
class LotPaper:
    """A file that came with a lot: its id, what it is, how big, under which name, and when."""

    file: str
    media_type: str
    size: int
    name: str
    at: str


def given_paper(world: World, content: bytes) -> PaperFile:
    """A file that may be kept: of a known kind, and a picture only where it can be read.

    Raises: BadInput.
    """
    file = paper_file(content)
    if file.media_type != PDF:
        try:
            world.picture(content)
        except BadInput as error:
            raise BadInput(FIELD, error.value, error.why) from error
    return file


def add_paper(world: World, code: str, content: bytes, name: str, *, key: str) -> None:
    """Keep a file with a bought lot. The same `key` a second time changes nothing.

    Raises: NotFound; BadInput for a file that is not kept, and for a lot nobody supplied.
    """
    file = given_paper(world, content)
    with world.bench() as bench:
        if bench.stock.lot(code).lot.sort is not LotSort.MATERIAL:
            raise BadInput("lot", code, "came from no supplier: its paper is its sheet")
        if any(it.event.id == key for it in bench.ledger.of(f"stock/{code}")):
            return
        note_paper(bench, code, file, name, id=key, at=world.clock.now())
        bench.commit()


def note_paper(bench: Bench, code: str, file: PaperFile, name: str, *, id: str, at: str) -> None:
    """Keep the file, and that it came with the lot."""
    bench.papers.add(file, at=at)
    body = {
        "file": file.id, "media_type": file.media_type, "size": len(file.content), "name": name,
    }  # fmt: skip
    bench.ledger.append(Event(id, f"stock/{code}", PAPER_ADDED, at, body))


def papers_of(bench: Bench, code: str) -> tuple[LotPaper, ...]:
    """The files of a lot, each once, the newest first."""
    told = [it.event for it in bench.ledger.of(f"stock/{code}") if it.event.kind == PAPER_ADDED]
    found = {it.body["file"]: LotPaper(**it.body, at=it.at) for it in told}
    return tuple(reversed(found.values()))


def paper_with(bench: Bench, code: str, file: str) -> PaperFile:
    """One of the files of a lot. Raises: NotFound."""
    if file not in {it.file for it in papers_of(bench, code)}:
        raise NotFound(f"lot {code} has no such paper")
    return bench.papers.get(file)
