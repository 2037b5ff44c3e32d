"""A browser or a program in front of the application, without a socket between."""

from __future__ import annotations

import asyncio
import re
from collections.abc import AsyncIterator, Mapping
from html.parser import HTMLParser
from threading import Event
from typing import Any
from urllib.parse import urlencode

import httpx

from pourwright.actions.port import World
from pourwright.web.app import application
from pourwright.web.guard import Door, laptop_door, phone_door
from pourwright.web.pairing import Pairing, PhoneLink

PORT = 8765
BASE = f"http://127.0.0.1:{PORT}"
PHONE_HOST = "192.168.1.20:8766"
PHONE_BASE = f"https://{PHONE_HOST}"
LINK = PhoneLink((PHONE_BASE, "https://bench-test.local:8766"), True, b"der", "AB:" * 31 + "CD")


class Client:
    """Asks one thing at a time; by default as a browser on the bench's own page."""

    def __init__(
        self,
        world: World,
        *,
        door: Door | None = None,
        base: str = BASE,
        pairing: Pairing | None = None,
    ) -> None:
        self.app = application(world, door or laptop_door(PORT), Event(), pairing)
        self.base = base
        self.peer = "192.168.1.77"

    def ask(self, method: str, path: str, **more: Any) -> httpx.Response:
        async def asked() -> httpx.Response:
            transport = httpx.ASGITransport(
                self.app, raise_app_exceptions=False, client=(self.peer, 50000)
            )
            async with httpx.AsyncClient(transport=transport, base_url=self.base) as client:
                return await client.request(method, path, **more)

        return asyncio.run(asked())

    def get(self, path: str, **headers: str) -> httpx.Response:
        return self.ask("GET", path, headers={"accept": "text/html"} | headers)

    def send(self, path: str, fields: Mapping[str, str], **more: str) -> httpx.Response:
        headers = {
            "accept": "text/html",
            "origin": self.base,
            "sec-fetch-site": "same-origin",
            "content-type": "application/x-www-form-urlencoded",
        } | more
        return self.ask("POST", path, content=urlencode(dict(fields)), headers=headers)

    def calc(self, name: str, content: bytes | AsyncIterator[bytes]) -> httpx.Response:
        return self.ask("POST", f"/api/calc/{name}", content=content, headers={"x-pourwright": "1"})


def phone_client(world: World, pairing: Pairing, *, scheme: str = "https") -> Client:
    """A phone at the door on the network, not paired yet."""
    door = phone_door(("192.168.1.20", "bench-test.local"), 8766, scheme)
    return Client(world, door=door, base=f"{scheme}://{PHONE_HOST}", pairing=pairing)


class _FormReader(HTMLParser):
    """The fields a browser would send from the form with the id `record`."""

    def __init__(self) -> None:
        super().__init__()
        self.fields: dict[str, str] = {}
        self._inside = False
        self._select = self._area = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        have = {k: v or "" for k, v in attrs}
        if tag == "form":
            self._inside = have.get("id") == "record"
        if not self._inside:
            return
        name = have.get("name", "")
        if tag == "input" and (have.get("type") != "checkbox" or "checked" in have):
            self.fields[name] = have.get("value", "")
        elif tag == "textarea":
            self._area = name
            self.fields[name] = ""
        elif tag == "select":
            self._select = name
        elif tag == "option" and ("selected" in have or self._select not in self.fields):
            self.fields[self._select] = have.get("value", "")

    def handle_endtag(self, tag: str) -> None:
        if tag == "form":
            self._inside = False
        if tag == "textarea":
            self._area = ""

    def handle_data(self, data: str) -> None:
        if self._area:
            self.fields[self._area] += data


def form_in(page: httpx.Response) -> dict[str, str]:
    """What the form on a page would send as it stands."""
    reader = _FormReader()
    reader.feed(page.text)
    return reader.fields


def words_in(page: httpx.Response) -> str:
    """The text of a page, without its tags."""
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", page.text))
