"""A journal as plain text, in the syntax that open double-entry programs share."""

from __future__ import annotations

import re

from pourwright.shop.journal import Entry, Journal

# What would begin a comment, part a payee or end the line.
_UNSAFE = re.compile(r"[;|\s\x00-\x1f\x7f\u2028\u2029]+")
# A sign that needs no quotes around it.
_BARE = re.compile(r"[^\W\d_]+|[$€£¥₹₩₽]")
_WIDE = 44


def journal_text(journal: Journal) -> str:
    """One entry after the other, amounts to four places, the currency before them."""
    sign = _sign(journal.currency)
    head = "; Written by Pourwright. A record of the books, no tax return.\n"
    return "\n".join([head, *(_entry(it, sign) for it in journal.entries)])


def _entry(it: Entry, sign: str) -> str:
    words = _UNSAFE.sub(" ", it.words).strip()
    lines = [
        f"    {p.account:<{_WIDE}}  {sign}{p.amount.decimal():.4f}" for p in it.postings
    ]  # fmt: skip
    return "\n".join([f"{it.day} * {words}", *lines, ""])


def _sign(currency: str) -> str:
    found = _UNSAFE.sub(" ", currency.replace('"', "")).strip() or "money"
    return found if _BARE.fullmatch(found) else f'"{found}"'
