"""What use-cases need from the world, as protocols; adapters live upstairs."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from decimal import Decimal
from types import TracebackType
from typing import Any, Protocol, Self

from pourwright.actions.header_card import HeaderCard
from pourwright.actions.look_card import LookCard
from pourwright.actions.packing_page import PackingList
from pourwright.base.file import Readers
from pourwright.base.pixels import Pixels
from pourwright.base.units import System
from pourwright.shop.calendar_entry import CalendarEntry
from pourwright.shop.header_card import CardShape
from pourwright.shop.journal import Journal
from pourwright.shop.label import BagLabel, Face
from pourwright.shop.label_sheet import LabelSheet
from pourwright.shop.money import Money
from pourwright.shop.move import Move
from pourwright.shop.noun import Noun
from pourwright.shop.paper_file import PaperFile
from pourwright.shop.sheet import Sheet
from pourwright.shop.stock_lot import Held, LotSort, StockLot
from pourwright.shop.tax.excise import ExciseAnswer
from pourwright.shop.workplace import Paper


@dataclass(frozen=True, slots=True)
class Stored:
    """A record as the store keeps it; `version` counts its edits from 1."""

    id: str
    sort: str
    version: int
    changed_at: str
    retired: bool
    noun: Noun


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happened, never changed afterwards.

    `id` is made by whoever saw it happen (32 hex digits), so that storing it twice is storing
    it once; `subject` is what it happened to (`microwave/ab12…`, `lot/26K25A…`); `at` is the
    UTC time of the happening, ISO 8601.
    """

    id: str
    subject: str
    kind: str
    at: str
    body: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Recorded:
    """An event in the ledger, with its place and its hash over the event before."""

    place: int
    event: Event
    stored_at: str
    previous_hash: str
    hash: str


class Records(Protocol):
    """The bench's nouns: tools, materials, baits, looks, plans."""

    def get(self, sort: str, id: str) -> Stored:
        """One record. Raises: NotFound."""

    def all(self, sort: str, *, retired: bool = False) -> tuple[Stored, ...]:
        """Every record of a sort, by name."""

    def save(self, sort: str, id: str, noun: Noun, *, expected_version: int) -> Stored:
        """Add (expected_version 0) or change a record, and note it in the ledger.

        Raises: Conflict if somebody changed it since that version.
        """

    def retire(self, sort: str, id: str, *, expected_version: int) -> Stored:
        """Take a record off the lists; sheets and history keep it."""


class Ledger(Protocol):
    """The append-only events."""

    def append(self, event: Event) -> Recorded:
        """Store an event once; the same id with the same content again changes nothing.

        Raises: Conflict if the id is known with other content.
        """

    def of(self, subject: str) -> tuple[Recorded, ...]:
        """What happened to a subject, oldest first."""

    def of_each(self, begins: str) -> Mapping[str, tuple[Recorded, ...]]:
        """The same of every subject whose name begins so."""

    def of_kind(self, *kinds: str, since: str = "", before: str = "") -> tuple[Recorded, ...]:
        """Everything of these kinds that happened from `since` on and before `before`, both UTC.

        Oldest first by place; an empty bound is none.
        """

    def newest(self, subject: str) -> int:
        """The place of the newest event of a subject; 0 where nothing happened to it."""

    def check(self) -> int:
        """The number of events whose chain of hashes was verified.

        Raises: Conflict naming the first event that does not fit.
        """


class Stock(Protocol):
    """Lots and their moves. Every move is an event of the ledger, in the same transaction."""

    def open(self, lot: StockLot) -> None:
        """Begin a lot. Raises: Conflict if the code is taken."""

    def lot(self, code: str) -> Held:
        """A lot and what is in it. Raises: NotFound."""

    def lots(
        self, sort: LotSort | None = None, *, item: str = "", present: bool = False
    ) -> tuple[Held, ...]:
        """Lots of a sort, of an item, oldest first; only those that hold something where asked."""

    def post(self, *moves: Move) -> None:
        """Keep moves; the same id with the same content again changes nothing.

        Raises: NotFound for a lot that was never begun, Conflict for more than a lot holds, for a
        move taken back twice, for taking back what takes back, and for a loop in remelts.
        """

    def moves(
        self, *, lot: str = "", cause: str = "", since: str = "", before: str = ""
    ) -> tuple[Move, ...]:
        """Moves in and out of a lot, of a cause, of a time; oldest first."""

    def came_from(self, code: str) -> tuple[Move, ...]:
        """Every move upstream of a lot, each once; loops end."""

    def went_to(self, code: str) -> tuple[Move, ...]:
        """Every move downstream of a lot, each once; loops end."""


class Sheets(Protocol):
    """Frozen batch sheets."""

    def next_number(self) -> int:
        """The number the next sheet will carry."""

    def add(self, sheet: Sheet) -> None:
        """Keep a sheet for good. Raises: Conflict if the number is taken."""

    def get(self, number: int) -> Sheet:
        """One sheet. Raises: NotFound."""

    def of_code(self, code: str) -> Sheet:
        """The sheet of a lot. Raises: NotFound."""

    def all(self) -> tuple[Sheet, ...]:
        """Every sheet, newest first."""


class Photos(Protocol):
    """Pictures, already checked and re-encoded."""

    def add(self, id: str, jpeg: bytes) -> None:
        """Keep a picture under an id; the same id again changes nothing."""

    def get(self, id: str) -> bytes:
        """The picture. Raises: NotFound."""


class Papers(Protocol):
    """Files of suppliers, kept as they were given."""

    def add(self, file: PaperFile, *, at: str) -> None:
        """Keep a file under its SHA-256; the same content again changes nothing."""

    def get(self, id: str) -> PaperFile:
        """The file. Raises: NotFound."""


class Bench(Protocol):
    """One unit of work on the store: all of it is kept at `commit`, or none."""

    @property
    def records(self) -> Records:
        """The nouns."""

    @property
    def ledger(self) -> Ledger:
        """The events."""

    @property
    def stock(self) -> Stock:
        """The lots and their moves."""

    @property
    def sheets(self) -> Sheets:
        """The frozen sheets."""

    @property
    def photos(self) -> Photos:
        """The pictures."""

    @property
    def papers(self) -> Papers:
        """The suppliers' files."""

    def __enter__(self) -> Self: ...

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None: ...

    def together(self) -> AbstractContextManager[None]:
        """Part of the unit of work: where it raises, nothing of that part stays."""

    def commit(self) -> None:
        """Keep everything done since the unit of work was opened."""


class Clock(Protocol):
    """Where the time comes from."""

    def now(self) -> str:
        """UTC now, ISO 8601 to the second, ending in Z."""

    def moment(self) -> str:
        """The same to the millisecond, finer than events are kept."""


class Ids(Protocol):
    """Where fresh ids come from."""

    def fresh(self) -> str:
        """32 hex digits nobody has used."""


@dataclass(frozen=True, slots=True)
class JobState:
    """How far a long calculation has come; `share` runs from 0 to 1."""

    key: str
    name: str
    status: str
    share: float
    answer: Mapping[str, Any] | None
    error: Mapping[str, Any] | None


class Progress(Protocol):
    """Handed to a long calculation so that it can report and be stopped."""

    def at(self, share: float) -> None:
        """Report progress from 0 to 1. Raises: Cancelled once somebody asked for a stop."""


class Jobs(Protocol):
    """Long calculations, kept under a hash of their input and model version."""

    def start(
        self, name: str, data: Mapping[str, Any], work: Callable[[Progress], Mapping[str, Any]]
    ) -> JobState:
        """Begin a job, or find its finished answer.

        Statuses: running, done, failed, cancelled.
        """

    def state(self, key: str) -> JobState:
        """How a job is doing. Raises: NotFound."""

    def cancel(self, key: str) -> JobState:
        """Ask a job to stop."""


# What may stand in a cell of a table; money is written to four places.
Cell = str | int | float | Decimal | Money | None


class Printer(Protocol):
    """Puts a frozen sheet on paper."""

    def pdf(
        self, sheet: Sheet, *, system: System, paper: Paper, currency: str,
        picture: Pixels | None = None,
    ) -> bytes:  # fmt: skip
        """One printed page; with the picture of its bait where there is one."""

    def card(self, card: LookCard, *, system: System, paper: Paper) -> bytes:
        """The color card of a look as one printed page."""

    def labels(
        self, sheet: LabelSheet, labels: Sequence[BagLabel], *, first: int, face: Face
    ) -> bytes:
        """Labels of bags, from a place of the sheet on."""

    def header_card(self, card: HeaderCard, shape: CardShape, *, paper: Paper, count: int) -> bytes:
        """Cards to fold over bags."""

    def packing_list(self, found: PackingList, *, paper: Paper) -> bytes:
        """What goes into a parcel, on as many pages as it needs."""

    def excise(
        self, answer: ExciseAnswer, *, of: str, asides: Sequence[str], paper: Paper, sign: str
    ) -> bytes:
        """The tax sheet of a quarter; `of` says whose books, `asides` which sales came back."""

    def qr_svg(self, words: str) -> str:
        """A square code for the screen, as SVG."""

    def calendar(self, name: str, entries: tuple[CalendarEntry, ...], *, made_at: str) -> bytes:
        """Entries as a file that calendars take in."""

    def csv(self, header: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
        """A table for a spreadsheet, in which no text becomes a formula."""

    def journal(self, journal: Journal) -> str:
        """A double-entry journal as plain text."""


@dataclass(frozen=True, slots=True)
class NamedSpectrum:
    """One reading of a file of spectra: 31 shares of a perfect white, 400 to 700 nm by 10.

    `percent` says whether the file was taken to hold percent.
    """

    name: str
    reflectance: tuple[float, ...]
    percent: bool = False


@dataclass(frozen=True, slots=True)
class ExchangeHead:
    """What the export of a bench says of itself: who wrote it, in which form, of which schema."""

    application: str
    format: int
    schema: str


@dataclass(frozen=True, slots=True)
class ExchangeRow:
    """One row of a table in such a file."""

    table: str
    values: Any


@dataclass(frozen=True, slots=True)
class TakenIn:
    """How many rows of each table came in."""

    rows: Mapping[str, int]


class Exchange(Protocol):
    """The whole bench as one file, and back."""

    def written(self) -> Iterator[bytes]:
        """The pieces of the file; the same store always gives the same ones."""

    def taken_in(self, data: bytes) -> TakenIn:
        """Fill an empty store; all of it is kept, or nothing.

        Raises: Conflict for a store that is not empty, or a file that was altered or is of
        another version; BadInput for what is no export.
        """


@dataclass(frozen=True, slots=True)
class World:
    """Everything a use-case may be handed; `reading` opens the bench for those who only look."""

    bench: Callable[[], Bench]
    reading: Callable[[], Bench]
    clock: Clock
    ids: Ids
    jobs: Jobs
    printer: Printer
    picture: Callable[[bytes], bytes]
    readers: Readers
    spectra: Callable[[bytes], tuple[NamedSpectrum, ...]]
    exchange: Exchange
