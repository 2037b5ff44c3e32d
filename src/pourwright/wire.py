"""The one place where use-cases meet the outside: store, clock, ids, jobs, paper and pictures."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from types import MappingProxyType

from sqlalchemy import Engine

from pourwright.actions.demo import fill_demo
from pourwright.actions.freeze_sheet import loose_sheet
from pourwright.actions.header_card import HeaderCard
from pourwright.actions.look_card import LookCard
from pourwright.actions.packing_page import PackingList
from pourwright.actions.port import Cell, Clock, Ids, TakenIn, World
from pourwright.actions.strict_json import parsed
from pourwright.base.errors import Conflict, NotFound
from pourwright.base.file import Readers
from pourwright.base.mesh import Mesh
from pourwright.base.picture import Picture
from pourwright.base.pixels import Pixels
from pourwright.base.units import System
from pourwright.intake.exchange import exchange_file
from pourwright.intake.mesh import mesh
from pourwright.intake.photo import picture
from pourwright.intake.pixels import pixels
from pourwright.intake.spectrum_file import spectra
from pourwright.render.calendar import calendar
from pourwright.render.csv_table import csv_bytes
from pourwright.render.excise_sheet import excise_sheet
from pourwright.render.header_card import header_card
from pourwright.render.journal import journal_text
from pourwright.render.label_sheet import label_sheet
from pourwright.render.look_card import look_card
from pourwright.render.packing_list import packing_list_pdf
from pourwright.render.qr import qr_svg
from pourwright.render.sheet_pdf import sheet_pdf
from pourwright.shop.calendar_entry import CalendarEntry
from pourwright.shop.header_card import CardShape
from pourwright.shop.journal import Journal
from pourwright.shop.label import BagLabel, Face
from pourwright.shop.label_sheet import LabelSheet
from pourwright.shop.sheet import Sheet
from pourwright.shop.tax.excise import ExciseAnswer
from pourwright.shop.workplace import Paper, Workplace
from pourwright.store.backup import copy_of
from pourwright.store.bench import SqlBench
from pourwright.store.clock import MachineClock, RandomIds
from pourwright.store.exchange import taken_in, written
from pourwright.store.job import StoredJobs
from pourwright.store.open import READING, open_store
from pourwright.store.phone_keys import PhoneKeys, phone_keys

READERS: Readers = MappingProxyType({Picture: pixels, Mesh: mesh})
"""What opens the files that calculations take."""


class SheetPrinter:
    """Sheets, cards and labels on paper, codes on screen."""

    def pdf(
        self, sheet: Sheet, *, system: System, paper: Paper, currency: str,
        picture: Pixels | None = None,
    ) -> bytes:  # fmt: skip
        """One printed page; with the picture of its bait where there is one."""
        return sheet_pdf(sheet, system=system, paper=paper, sign=currency, picture=picture)

    def card(self, card: LookCard, *, system: System, paper: Paper) -> bytes:
        """The color card of a look as one printed page."""
        return look_card(card, system=system, paper=paper)

    def labels(
        self, sheet: LabelSheet, labels: Sequence[BagLabel], *, first: int, face: Face
    ) -> bytes:
        """Labels of bags, from a place of the sheet on."""
        return label_sheet(sheet, labels, first=first, face=face)

    def header_card(self, card: HeaderCard, shape: CardShape, *, paper: Paper, count: int) -> bytes:
        """Cards to fold over bags."""
        return header_card(card, shape, paper=paper, count=count)

    def packing_list(self, found: PackingList, *, paper: Paper) -> bytes:
        """What goes into a parcel, on as many pages as it needs."""
        return packing_list_pdf(found, paper=paper)

    def excise(
        self, answer: ExciseAnswer, *, of: str, asides: Sequence[str], paper: Paper, sign: str
    ) -> bytes:
        """The tax sheet of a quarter; `of` says whose books, `asides` which sales came back."""
        return excise_sheet(answer, of=of, asides=asides, paper=paper, sign=sign)

    def qr_svg(self, words: str) -> str:
        """A square code for the screen, as SVG."""
        return qr_svg(words, title=f"Code {words}")

    def calendar(self, name: str, entries: tuple[CalendarEntry, ...], *, made_at: str) -> bytes:
        """Entries as a file that calendars take in."""
        return calendar(name, entries, made_at=made_at)

    def csv(self, header: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
        """A table for a spreadsheet, in which no text becomes a formula."""
        return csv_bytes(header, rows)

    def journal(self, journal: Journal) -> str:
        """A double-entry journal as plain text."""
        return journal_text(journal)


class StoreExchange:
    """The whole store as one file, and back into an empty one."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def written(self) -> Iterator[bytes]:
        """The pieces of the file, all of one moment."""
        with self._engine.connect().execution_options(**{READING: True}) as connection:
            yield from written(connection)

    def taken_in(self, data: bytes) -> TakenIn:
        """Fill an empty store; all of it is kept, or nothing."""
        head, rows = exchange_file(data)
        with self._engine.begin() as connection:
            return taken_in(connection, head, rows)


def world(store: Path, *, clock: Clock | None = None, ids: Ids | None = None) -> World:
    """Everything a use-case may be handed, over the store in that file.

    Time and fresh ids are the machine's where none are given.

    Raises: Conflict if the file is not a store, is damaged, or is newer than this program.
    """
    engine, clock, ids = open_store(store), clock or MachineClock(), ids or RandomIds()
    return World(
        bench=lambda: SqlBench(engine, clock, ids),
        reading=lambda: SqlBench(engine, clock, ids, reading=True),
        clock=clock,
        ids=ids,
        jobs=StoredJobs(engine, clock),
        printer=SheetPrinter(),
        picture=picture,
        readers=READERS,
        spectra=spectra,
        exchange=StoreExchange(engine),
    )


def keys_for_phones(store: Path, hosts: Iterable[str]) -> PhoneKeys:
    """Key and certificate of a listener at those hosts, in the folder `phone` beside the store.

    Raises: Conflict if they are damaged or cannot be written.
    """
    now = dt.datetime.fromisoformat(MachineClock().now())
    return phone_keys(store.parent / "phone", hosts, now=now)


def fill_demo_if_empty(bench: World) -> None:
    """Put the demo bench into a store that holds nothing yet."""
    with bench.bench() as unit:
        standing = unit.records.all(Workplace.key, retired=True)
    if not standing:
        fill_demo(bench)


def loose_sheet_pdf(plan: bytes, *, paper: str, units: str) -> bytes:
    """One printed page of a plan that lies in no store. Raises: BadInput, NoAnswer."""
    sheet = loose_sheet(parsed(plan), at=MachineClock().now())
    return sheet_pdf(sheet, system=System(units), paper=Paper(paper), sign="$")


def back_up(store: Path, target: Path) -> int:
    """A checked copy of a store; the answer is the number of events whose chain fits.

    Raises: NotFound, or Conflict where the copy is not sound or its events were altered.
    """
    copy_of(store, target)
    with world(target).bench() as bench:
        return bench.ledger.check()


def export_store(store: Path, target: Path) -> int:
    """The whole store as one JSON file; the answer is its size in bytes.

    Raises: NotFound without a store, Conflict if the target stands already.
    """
    if not store.exists():
        raise NotFound(f"there is no store at {store.name}")
    if target.exists():
        raise Conflict(f"{target.name} stands already; nothing was overwritten")
    part = target.with_name(f"{target.name}.part")
    with part.open("wb") as file:
        size = sum(file.write(piece) for piece in world(store).exchange.written())
    part.replace(target)
    return size


def import_store(store: Path, source: Path) -> TakenIn:
    """Fill an empty store, made where there is none, from such a file.

    Raises: NotFound without the file, Conflict or BadInput where it may not be taken in.
    """
    if not source.exists():
        raise NotFound(f"there is no file {source.name}")
    return world(store).exchange.taken_in(source.read_bytes())
