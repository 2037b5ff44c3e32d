"""Looks side by side; the address says which, and where."""

from __future__ import annotations

from pourwright.web.look_compare import compare_context
from pourwright.web.page import Page, Show, Visit


def compare(visit: Visit) -> Show:
    """Up to four looks, in the hand and in up to three waters."""
    with visit.world.reading() as bench:
        page = compare_context(bench, visit.request.query_params.multi_items(), visit.settings)
    return Show("look/compare.html", page, 422 if page.form.problem else 200)


LOOK_COMPARE_PAGES = (Page("/looks/compare", compare),)
