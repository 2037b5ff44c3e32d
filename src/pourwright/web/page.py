"""What a page is: an address, a view that answers a visit, and its place in the nav."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Protocol

from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import Response

from pourwright.actions.port import World
from pourwright.base.errors import BadInput
from pourwright.web.show import Settings

MOST_DIGITS = 10
Pair = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Visit:
    """One request, as a view sees it: the form's fields in order, files apart."""

    world: World
    settings: Settings
    request: Request
    sent: tuple[Pair, ...] = ()
    files: Mapping[str, UploadFile] = field(default_factory=dict)
    body: bytes = b""

    @property
    def posted(self) -> bool:
        """Whether the person sent something."""
        return self.request.method == "POST"

    def part(self, name: str) -> str:
        """A piece of the address."""
        return str(self.request.path_params[name])

    def whole(self, name: str) -> int:
        """A whole number the form carries out of sight, such as a version; 0 if it is none."""
        text = dict(self.sent).get(name, "")
        return int(text) if text.isascii() and text.isdigit() and len(text) < MOST_DIGITS else 0


def number_in_address(text: str, field: str, what: str) -> int:
    """The number of a thing as an address carries it. Raises: BadInput."""
    if not (text.isascii() and text.isdigit() and len(text) < MOST_DIGITS):
        raise BadInput(field, text, f"must be the number of {what}")
    return int(text)


class PageContext(Protocol):
    """The values of one page's template: a frozen dataclass that says its own title."""

    @property
    def title(self) -> str:
        """Heading of the page and of the browser's tab."""


@dataclass(frozen=True, slots=True)
class Show:
    """Answer with a template filled in; `under` is a page whose nav entry is marked for it."""

    template: str
    page: PageContext
    status: int = 200
    under: str = ""


@dataclass(frozen=True, slots=True)
class Go:
    """Answer by sending the browser elsewhere, so that a reload repeats nothing."""

    address: str


View = Callable[[Visit], Show | Go | Response]


@dataclass(frozen=True, slots=True)
class Page:
    """A page of the house; one with an `icon` stands in the nav under its `label`.

    `icon` names a symbol of `templates/icon.html`; `short` is the label where room is scarce;
    `takes_file` says that a whole file may be sent to it; `covers` are addresses besides its own
    at which its nav entry is marked.
    """

    path: str
    view: View
    methods: tuple[str, ...] = ("GET",)
    label: str = ""
    short: str = ""
    icon: str = ""
    takes_file: bool = False
    covers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class NavItem:
    """An entry of the nav."""

    address: str
    label: str
    short: str
    icon: str
    here: bool


@dataclass(frozen=True, slots=True)
class Shell:
    """What surrounds every page."""

    settings: Settings
    nav: tuple[NavItem, ...]
