"""The one place where use-cases meet the outside: store, clock, ids, jobs, paper and pictures."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from pathlib import Path
from types import MappingProxyType

from pourwright.actions.demo import fill_demo
from pourwright.actions.freeze_sheet import loose_sheet
from pourwright.actions.header_card import HeaderCard
from pourwright.actions.look_card import LookCard
from pourwright.actions.port import Cell, World
from pourwright.actions.strict_json import parsed
from pourwright.base.file import Readers
from pourwright.base.mesh import Mesh
from pourwright.base.picture import Picture
from pourwright.base.pixels import Pixels
from pourwright.base.units import System
from pourwright.intake.mesh import mesh
from pourwright.intake.photo import picture
from pourwright.intake.pixels import pixels
from pourwright.intake.spectrum_file import spectra
from pourwright.render.csv_table import csv_bytes
from pourwright.render.header_card import header_card
from pourwright.render.label_sheet import label_sheet
from pourwright.render.look_card import look_card
from pourwright.render.qr import qr_svg
from pourwright.render.sheet_pdf import sheet_pdf
from pourwright.shop.header_card import CardShape
from pourwright.shop.label import BagLabel, Face
from pourwright.shop.label_sheet import LabelSheet
from pourwright.shop.sheet import Sheet
from pourwright.shop.workplace import Paper, Workplace
from pourwright.store.backup import copy_of
from pourwright.store.bench import SqlBench
from pourwright.store.clock import MachineClock, RandomIds
from pourwright.store.job import StoredJobs
from pourwright.store.open import open_store
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

    def qr_svg(self, words: str) -> str:
        """A square code for the screen, as SVG."""
        return qr_svg(words, title=f"Code {words}")

    def csv(self, header: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
        """A table for a spreadsheet, in which no text becomes a formula."""
        return csv_bytes(header, rows)


def world(store: Path) -> World:
    """Everything a use-case may be handed, over the store in that file.

    Raises: Conflict if the file is not a store, is damaged, or is newer than this program.
    """
    engine, clock, ids = open_store(store), MachineClock(), RandomIds()
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
