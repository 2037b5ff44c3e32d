"""Which pages the tool has, which addresses of each a store has, and which are left out and why."""

from __future__ import annotations

import random
import re
import time
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from starlette.routing import compile_path

from pourwright.web.pages import PAGES
from web.client import Client

LINK = re.compile(r'href="(/[^"#]*)"')
OPENS = 200
# Addresses of a kind: each question is a calculation of its own, records of a sort are alike.
ALIKE, QUESTION, QUESTIONS = 5, "/questions/{name}", 500
WHY_LEFT = {
    "a file to keep, made anew at each visit": r"\.(pdf|csv|ics|json|journal)$|/paper/",
    "a picture or a solid": r"\.png$|/solid$|/files/|/photos/|/slabs/",
    "a script or a certificate": r"\.js$|/certificate$",
    "the state of a job or of a phone that pairs": r"^/api/|^/pair/|^/phones/code$",
}


class First(NamedTuple):
    """The first visit of an address."""

    status: int
    seconds: float


@dataclass(slots=True)
class Found:
    """Addresses by kind, how each answered the first time, and what is not a page to measure."""

    kinds: dict[str, list[str]] = field(default_factory=dict)
    firsts: dict[str, First] = field(default_factory=dict)
    left_out: dict[str, list[str]] = field(default_factory=dict)


def patterns() -> Iterator[str]:
    """Every address that opens a page, with what names one thing of many in braces."""
    for page in PAGES:
        if "GET" in page.methods:
            yield page.path


_MATCHING = tuple((path, compile_path(path)[0]) for path in patterns())


def kind_of(address: str) -> str:
    """The pattern of an address, each sort of record apart; empty for what is no page."""
    path = address.split("?", maxsplit=1)[0]
    for kind, pattern in _MATCHING:
        if match := pattern.match(path):
            return kind.replace("{sort}", match.groupdict().get("sort", ""))
    return ""


def why_left_out(kind: str) -> str:
    """Why a kind is not measured; empty for one that is."""
    return next((why for why, of in WHY_LEFT.items() if re.search(of, kind)), "")


def found_pages(client: Client, seed: int = 1) -> Found:
    """All kinds from links and from addresses without a name in them; a few addresses of each."""
    found, draw = Found(), random.Random(seed)  # noqa: S311  which records is no secret
    linked = _followed(client, found, draw)
    for kind in sorted(linked):
        chosen = [it for it in found.firsts if kind_of(it) == kind][: most_of(kind)]
        others = sorted(linked[kind] - set(chosen))
        chosen += draw.sample(others, min(len(others), most_of(kind) - len(chosen)))
        opened = [it for it in chosen if _first(client, found, it).status == OPENS]
        if opened:
            found.kinds[kind] = opened
        else:
            why = f"answered with {found.firsts[chosen[0]].status}, no page to read"
            found.left_out.setdefault(why, []).append(kind)
    _note_left_out(found, linked)
    return found


def most_of(kind: str) -> int:
    """Addresses that are measured of a kind."""
    return QUESTIONS if kind == QUESTION else ALIKE


def _followed(client: Client, found: Found, draw: random.Random) -> dict[str, set[str]]:
    """Every address seen by kind; two of a kind are followed, so that the walk ends."""
    linked: dict[str, set[str]] = {}
    followed: dict[str, int] = {}
    waiting = [it for it in patterns() if "{" not in it]
    while waiting:
        address = waiting.pop(0)
        kind = kind_of(address)
        if not kind or why_left_out(kind) or address in found.firsts:
            continue
        linked.setdefault(kind, set()).add(address)
        if followed.get(kind, 0) < ALIKE // 2:
            followed[kind] = followed.get(kind, 0) + 1
            links = list(dict.fromkeys(_links(client, found, address)))
            draw.shuffle(links)
            waiting += links
    return {**_below(linked), **linked}


def _below(linked: dict[str, set[str]]) -> dict[str, set[str]]:
    """Pages that only a button leads to, a word below one that was met."""
    found = {}
    for kind in patterns():
        parent, brace, word = kind.rpartition("}")
        if brace and word and parent + brace in linked and not why_left_out(kind):
            found[kind] = {it.split("?")[0] + word for it in linked[parent + brace]}
    return found


def _links(client: Client, found: Found, address: str) -> Iterable[str]:
    begun = time.perf_counter()
    page = client.get(address)
    found.firsts[address] = First(page.status_code, time.perf_counter() - begun)
    return (it.replace("&amp;", "&") for it in LINK.findall(page.text))


def _first(client: Client, found: Found, address: str) -> First:
    if address not in found.firsts:
        _links(client, found, address)
    return found.firsts[address]


def _note_left_out(found: Found, linked: dict[str, set[str]]) -> None:
    met = {re.sub(r"^(/records|/stock/buy)/[^/{]+", r"\1/{sort}", kind) for kind in linked}
    for kind in patterns():
        why = why_left_out(kind) or ("" if kind in met else "no link of the year leads to it")
        if why:
            found.left_out.setdefault(why, []).append(kind)
