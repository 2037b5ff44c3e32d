"""Tap a target and pucks in a photo, and read their color."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.web.page import Page, Show, Visit


@dataclass(frozen=True, slots=True)
class PhotoContext:
    """The page; all of it happens on the phone and in `color.photo`."""

    title: str
    looks: tuple[tuple[str, str], ...]


def photo_page(visit: Visit) -> Show:
    """Take or pick a photo, tap, read."""
    with visit.world.reading() as bench:
        looks = tuple((s.id, s.noun.name) for s in bench.records.all("look"))
    return Show("puck/photo.html", PhotoContext("Color from a photo", looks))


PHOTO_PAGES = (Page("/photo", photo_page),)
