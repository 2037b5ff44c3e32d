"""The door: who may ask, how much they may send, and what every answer carries."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from starlette.datastructures import Headers, MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from pourwright.web.refusal import Refusal, refused

MOST_BODY = 8 * 1024 * 1024
# A body that is too big is read on to this length and thrown away, so that the refusal arrives
# instead of a broken connection.
MOST_DRAINED = 4 * MOST_BODY
SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
NO_BROWSER = "x-pourwright"

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


def hosts_of(port: int) -> frozenset[str]:
    """The Host headers a server on this machine answers to."""
    names = ("127.0.0.1", "localhost", "[::1]")
    bare = frozenset(names) if port == 80 else frozenset()
    return bare | {f"{name}:{port}" for name in names}


@dataclass(frozen=True, slots=True)
class Guard:
    """Wraps an application; `hosts` are the exact Host headers it answers to."""

    app: ASGIApp
    hosts: frozenset[str]

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, or refuse before the application sees the request."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":
            return
        guarded = _with_headers(send)
        headers = Headers(scope=scope)
        refusal = self._host(headers) or _origin(scope["method"], headers)
        body = b""
        if refusal is None and scope["method"] not in SAFE:
            body, refusal = await _body(headers, receive)
        if refusal is not None:
            await refused(refusal, headers, scope["path"])(scope, receive, guarded)
            return
        await self.app(scope, _replayed(body, receive), guarded)

    def _host(self, headers: Headers) -> Refusal | None:
        given = headers.getlist("host")
        if len(given) == 1 and given[0].lower() in self.hosts:
            return None
        why = "this bench answers only to its own address on this machine"
        return Refusal(421, "foreign_host", why)


def _origin(method: str, headers: Headers) -> Refusal | None:
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
    own = origin is None or origin.lower() == f"http://{headers['host'].lower()}"
    if own and site in {None, "same-origin", "none"}:
        return None
    return Refusal(403, "cross_site", "another site's page may not change this bench")


async def _body(headers: Headers, receive: Receive) -> tuple[bytes, Refusal | None]:
    """The whole body, or a refusal once it proves too big."""
    pieces: list[bytes] = []
    length = 0
    more = True
    while more and length <= MOST_DRAINED:
        message = await receive()
        if message["type"] != "http.request":
            break
        piece = message.get("body", b"")
        length += len(piece)
        if length <= MOST_BODY:
            pieces.append(piece)
        more = message.get("more_body", False)
    if length > MOST_BODY:
        why = f"more than {MOST_BODY // 2**20} MB was sent; nothing of it was kept"
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
