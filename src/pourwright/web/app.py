"""The application: pages, calculations and files behind the guard."""

from __future__ import annotations

import mimetypes
from dataclasses import replace
from pathlib import Path
from threading import Event

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData, UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

from pourwright.actions.pair_phone import phone_with
from pourwright.actions.port import Bench, World
from pourwright.base.errors import PourwrightError
from pourwright.shop.workplace import Workplace
from pourwright.web.bench.stream import stream_route
from pourwright.web.calc import calc_routes, file_paths
from pourwright.web.guard import SAFE, Door, Guard
from pourwright.web.page import Go, NavItem, Page, Shell, Show, Visit
from pourwright.web.pages import PAGES
from pourwright.web.pairing import Pairing
from pourwright.web.refusal import refusal_of, refused
from pourwright.web.show import Settings
from pourwright.web.template import rendered

STATIC = Path(__file__).with_name("static")
# More fields than the longest form has.
MOST_FIELDS = 5000
MOST_FILES = 4
SEE_OTHER = 303


def application(world: World, door: Door, closing: Event, pairing: Pairing | None = None) -> Guard:
    """Everything a browser or a program can ask of a bench through one door.

    `closing` is set when the server is asked to end, so that answers without an end can end;
    `pairing` is shared with the other door. Pages find all three in the application's state.
    """
    _name_media_types()
    app = Starlette(
        routes=[
            *(_route(page, world) for page in (*PAGES, *_start(PAGES))),
            *calc_routes(world.readers),
            stream_route(world, closing),
            Mount("/static", _Files(directory=STATIC)),
        ],
        exception_handlers={
            PourwrightError: _refuse,
            HTTPException: _refuse,
            Exception: _refuse,
        },
    )
    app.state.door, app.state.closing, app.state.pairing = door, closing, pairing or Pairing()

    def known(secret: str) -> str:
        with world.reading() as bench:
            phone = phone_with(bench, secret)
        return phone.id if phone else ""

    return Guard(app, door, known, file_paths() | {p.path for p in PAGES if p.takes_file})


def settings_of(bench: Bench) -> Settings:
    """How the bench reads its numbers; US units until somebody sets it up."""
    for stored in bench.records.all(Workplace.key):
        if isinstance(stored.noun, Workplace):
            place = stored.noun
            return Settings(place.units, place.currency, place.demo)
    return Settings()


def _start(pages: tuple[Page, ...]) -> tuple[Page, ...]:
    """The address of the house itself, where no page claims it: the first page of the nav."""
    if any(page.path == "/" for page in pages):
        return ()
    first = next(page.path for page in pages if page.icon)
    return (Page("/", lambda _: Go(first)),)


def _route(page: Page, world: World) -> Route:
    async def endpoint(request: Request) -> Response:
        form, body = await _sent(request)
        try:
            return await run_in_threadpool(_answer, page, world, request, form, body)
        finally:
            await form.close()

    return Route(page.path, endpoint, methods=list(page.methods))


async def _sent(request: Request) -> tuple[FormData, bytes]:
    kind = request.headers.get("content-type", "")
    if kind.startswith(("application/x-www-form-urlencoded", "multipart/form-data")):
        return await request.form(max_fields=MOST_FIELDS, max_files=MOST_FILES), b""
    return FormData(), await request.body()


def _answer(page: Page, world: World, request: Request, form: FormData, body: bytes) -> Response:
    with world.reading() as bench:
        settings = settings_of(bench)
    items = form.multi_items()
    visit = Visit(
        replace(world, bench=world.reading) if request.method in SAFE else world,
        settings,
        request,
        sent=tuple((name, value) for name, value in items if isinstance(value, str)),
        files={name: value for name, value in items if isinstance(value, UploadFile)},
        body=body,
    )
    answer = page.view(visit)
    if isinstance(answer, Go):
        return RedirectResponse(answer.address, status_code=SEE_OTHER)
    if isinstance(answer, Show):
        shell = Shell(settings, _nav(answer.under or request.url.path))
        html = rendered(answer.template, {"page": answer.page, "shell": shell})
        return HTMLResponse(html, status_code=answer.status)
    return answer


def _nav(path: str) -> tuple[NavItem, ...]:
    return tuple(
        NavItem(p.path, p.label, p.short or p.label, p.icon, _here(path, p))
        for p in PAGES
        if p.icon
    )


def _here(path: str, page: Page) -> bool:
    return any(_under(path, address) for address in (page.path, *page.covers))


def _under(path: str, page: str) -> bool:
    return path == page or (page != "/" and path.startswith(f"{page}/"))


async def _refuse(request: Request, error: Exception) -> Response:
    return refused(refusal_of(error), request.headers, request.url.path)


class _Files(StaticFiles):
    """Files that a browser keeps but asks about, so that a new version shows at once."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        """One file, to be checked again at each use."""
        response = await super().get_response(path, scope)
        response.headers["cache-control"] = "no-cache"
        return response


def _name_media_types() -> None:
    """Some systems call scripts plain text, which browsers then refuse to run."""
    mimetypes.add_type("text/javascript", ".js")
    mimetypes.add_type("text/css", ".css")
    mimetypes.add_type("font/woff2", ".woff2")
    mimetypes.add_type("image/svg+xml", ".svg")
