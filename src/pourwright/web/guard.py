"""The door: who may ask, how much they may send, and what every answer carries."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import cookie_parser
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from pourwright.web.refusal import Refusal, refused

MOST_BODY = 8 * 1024 * 1024
# Where a mesh comes in: a file of 40 MB, or the same as base64 within JSON.
MOST_FILE_BODY = 56 * 1024 * 1024
# A body that is too big is read on to this many times its limit and thrown away, so that the
# refusal arrives instead of a broken connection.
MOST_DRAINED = 4
SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
NO_BROWSER = "x-pourwright"
LAPTOP = "laptop"
COOKIE = "pourwright-phone"
# What a phone may see before it is paired.
OPEN_PATHS = frozenset({"/phones/trust", "/phones/certificate"})
FILES = "/static/"
OPEN_FOLDERS = ("/pair/", FILES)
# RFC 9110 section 15.5.2 wants a challenge in every 401; browsers pass over one they do not know.
CHALLENGE = 'Pairing realm="bench"'
USUAL_PORTS = {"http": 80, "https": 443}

HEADERS = {
    "content-security-policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
        "font-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; "
        "frame-ancestors 'none'"
    ),
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "geolocation=(), microphone=(), payment=()",
    "referrer-policy": "same-origin",
    "x-content-type-options": "nosniff",
}


@dataclass(frozen=True, slots=True)
class Door:
    """One way in: the exact Host headers it answers to, and whether a device must be paired."""

    hosts: frozenset[str]
    scheme: str = "http"
    paired_only: bool = False

    @property
    def cookie(self) -> str:
        """The name of the cookie that holds a device's secret (RFC 6265bis section 4.1.3.2)."""
        return f"__Host-{COOKIE}" if self.scheme == "https" else COOKIE

    def opens_to(self, path: str) -> bool:
        """Whether a device that is not paired may see this."""
        return not self.paired_only or path in OPEN_PATHS or path.startswith(OPEN_FOLDERS)


def laptop_door(port: int) -> Door:
    """The door of the machine itself."""
    return Door(_with_port(("127.0.0.1", "localhost", "[::1]"), port, "http"))


def phone_door(hosts: Iterable[str], port: int, scheme: str) -> Door:
    """The door on the network: names and IPv4 addresses, paired devices only."""
    return Door(_with_port(hosts, port, scheme), scheme, paired_only=True)


def _with_port(hosts: Iterable[str], port: int, scheme: str) -> frozenset[str]:
    given = frozenset(hosts)
    bare = given if port == USUAL_PORTS[scheme] else frozenset()
    return bare | {f"{host}:{port}" for host in given}


@dataclass(frozen=True, slots=True)
class Guard:
    """Wraps an application behind a door; `known` gives the id of the device with a secret.

    `files` are the addresses that take whole files.
    """

    app: ASGIApp
    door: Door
    known: Callable[[str], str]
    files: frozenset[str] = frozenset()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, or refuse before the application sees the request."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":
            return
        guarded = _with_headers(send)
        headers = Headers(scope=scope)
        refusal = self._host(headers) or _origin(scope["method"], headers, self.door.scheme)
        if refusal is None:
            device = await self._device(headers, scope["path"])
            scope.setdefault("state", {})["device"] = device
            refusal = None if device or self.door.opens_to(scope["path"]) else NOT_PAIRED
        body = b""
        if refusal is None and scope["method"] not in SAFE:
            most = MOST_FILE_BODY if scope["path"] in self.files else MOST_BODY
            body, refusal = await _body(headers, receive, most)
        if refusal is not None:
            await _answer(refusal, headers, scope["path"])(scope, receive, guarded)
            return
        await self.app(scope, _replayed(body, receive), guarded)

    def _host(self, headers: Headers) -> Refusal | None:
        given = headers.getlist("host")
        if len(given) == 1 and given[0].lower() in self.door.hosts:
            return None
        return FOREIGN_HOST_HERE if self.door.paired_only else FOREIGN_HOST

    async def _device(self, headers: Headers, path: str) -> str:
        """The id of the paired device that asks; empty if it is none, or asks for a mere file."""
        if not self.door.paired_only:
            return LAPTOP
        if path.startswith(FILES):
            return ""
        secret = cookie_parser(headers.get("cookie", "")).get(self.door.cookie, "")
        return await run_in_threadpool(self.known, secret) if secret else ""


FOREIGN_HOST = Refusal(
    421, "foreign_host", "this bench answers only to its own address on this machine"
)
FOREIGN_HOST_HERE = Refusal(
    421, "foreign_host",
    "the bench does not answer to this address: use one that the laptop shows under Phones; where "
    "the laptop has joined another network, start Pourwright again on it",
)  # fmt: skip
NOT_PAIRED = Refusal(
    401, "not_paired",
    "this device is not paired with the bench, or its pairing was revoked: on the laptop open "
    "Workplace, then Phones, and scan the code shown there",
)  # fmt: skip


def _answer(refusal: Refusal, headers: Headers, path: str) -> Response:
    answer = refused(refusal, headers, path)
    if refusal.status == NOT_PAIRED.status:
        answer.headers["www-authenticate"] = CHALLENGE
    return answer


def _origin(method: str, headers: Headers, scheme: str) -> Refusal | None:
    """Refuse what another site's page sends or reads."""
    site = headers.get("sec-fetch-site")
    if method in SAFE:
        opened = headers.get("sec-fetch-mode") == "navigate"
        if site in {"cross-site", "same-site"} and not opened:
            return Refusal(403, "cross_site", "another site's page may not read this bench")
        return None
    origin = headers.get("origin")
    if origin is None and site is None:
        if headers.get(NO_BROWSER) == "1":
            return None
        why = f"a program that is no browser says so with the header {NO_BROWSER}: 1"
        return Refusal(403, "cross_site", why)
    own = origin is None or origin.lower() == f"{scheme}://{headers['host'].lower()}"
    if own and site in {None, "same-origin", "none"}:
        return None
    return Refusal(403, "cross_site", "another site's page may not change this bench")


async def _body(headers: Headers, receive: Receive, most: int) -> tuple[bytes, Refusal | None]:
    """The whole body, or a refusal once it proves too big."""
    pieces: list[bytes] = []
    length = 0
    more = True
    while more and length <= MOST_DRAINED * most:
        message = await receive()
        if message["type"] != "http.request":
            break
        piece = message.get("body", b"")
        length += len(piece)
        if length <= most:
            pieces.append(piece)
        more = message.get("more_body", False)
    if length > most:
        why = f"more than {most // 2**20} MB was sent; nothing of it was kept"
        return b"", Refusal(413, "too_large", why)
    if "content-length" in headers and headers["content-length"] != str(length):
        return b"", Refusal(400, "cut_short", "the request broke off; nothing of it was kept")
    return b"".join(pieces), None


def _replayed(body: bytes, receive: Receive) -> Receive:
    """Hand the body over in one piece, then whatever the server still reports."""
    first: Iterator[Message] = iter([{"type": "http.request", "body": body, "more_body": False}])

    async def replay() -> Message:
        return next(first, None) or await receive()

    return replay


def _with_headers(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers[name] = value
            headers.setdefault("cache-control", "no-store")
        await send(message)

    return sending
