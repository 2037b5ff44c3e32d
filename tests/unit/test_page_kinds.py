"""Which pages are measured: kinds of addresses, and a walk over links that always ends."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest
from speed.page_kinds import ALIKE, found_pages, kind_of, patterns, why_left_out


class Endless:
    """A house in which every page leads to pages never seen before, and one page is broken."""

    def __init__(self) -> None:
        self.asked: list[str] = []

    def get(self, path: str) -> Any:
        self.asked.append(path)
        n = len(self.asked)
        links = f"/money/quarter/{n}-Q1", f"/sheets/{n}", f"/records/mold/m{n}", "/static/a.css"
        text = "".join(f'<a href="{it}?back=1&amp;n={n}">x</a>' for it in links)
        return SimpleNamespace(status_code=404 if path == "/reach" else 200, text=text)


@pytest.mark.parametrize(
    ("address", "kind"),
    [
        ("/money/quarter/2031-Q4?x=1", "/money/quarter/{quarter}"),
        ("/records/mold/m1", "/records/mold/{id}"),
        ("/records/mold/new", "/records/mold/new"),
        ("/orders/new", "/orders/new"),
        ("/orders/0a", "/orders/{id}"),
        ("/static/house.css", ""),
    ],
)
def test_a_kind_is_an_address_without_what_names_one_of_many(address: str, kind: str):
    assert kind_of(address) == kind


def test_a_walk_ends_where_links_do_not_and_takes_a_few_of_each_kind():
    house: Any = Endless()
    found = found_pages(house)
    assert len(found.kinds["/money/quarter/{quarter}"]) == ALIKE
    assert all("&amp;" not in it for its in found.kinds.values() for it in its)
    assert len(house.asked) == len(set(house.asked)) == len(found.firsts)
    again: Any = Endless()
    assert found_pages(again).kinds == found.kinds


def test_every_page_is_measured_or_left_out_with_a_reason():
    house: Any = Endless()
    found = found_pages(house)
    left = {kind for kinds in found.left_out.values() for kind in kinds}
    measured = {kind.replace("/records/mold", "/records/{sort}") for kind in found.kinds}
    assert measured | left == set(patterns())
    assert not measured & left
    assert "/reach" in left
    assert why_left_out("/looks/{id}/card.pdf")
    assert not why_left_out("/looks/{id}")
    assert "/orders/{id}/send" in left
    assert "/sheets/{number}/bench" in measured
