"""The batch book: newest first, so many a page, and a way to the older ones."""

from __future__ import annotations

import dataclasses
import re

from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.port import World
from pourwright.shop.code import lot_code
from pourwright.web.pages.today import BATCHES
from web.client import Client


def filled(world: World, batches: int) -> None:
    """So many frozen sheets in all, all but the demo bench's own of one plan."""
    first = freeze_sheet(world, DEMO_DRAFT)
    with world.bench() as bench:
        for number in range(first.number + 1, batches + 1):
            code = lot_code(date="2026-11-25", number=number)
            bench.sheets.add(dataclasses.replace(first, number=number, code=code))
        bench.commit()


def numbers(page) -> list[int]:
    return [int(n) for n in re.findall(r'<strong><a href="/sheets/(\d+)">', page.text)]


def test_every_batch_is_on_one_page_of_the_book(full_world):
    filled(full_world, 2 * BATCHES + 5)
    client, address, pages = Client(full_world), "/book", 0
    seen: list[int] = []
    while address:
        page = client.get(address)
        seen, pages = [*seen, *numbers(page)], pages + 1
        older = re.search(r'href="(/book\?before=\d+)">Older', page.text)
        assert ("The newest" in page.text) == (pages > 1)
        address = older.group(1) if older else ""
    assert seen == list(range(2 * BATCHES + 5, 0, -1))
    assert pages == 3


def test_a_book_that_fits_one_page_leads_nowhere_else(full_world):
    filled(full_world, BATCHES)
    page = Client(full_world).get("/book")
    assert len(numbers(page)) == BATCHES
    assert "Older batches" not in page.text
    assert "The newest" not in page.text


def test_an_address_that_is_no_sheet_is_refused_in_words(full_world):
    page = Client(full_world).get("/book?before=soon")
    assert page.status_code == 422
    assert "must be the number of a sheet" in page.text
