"""A supplier's file with a bought lot: kept as given, or refused in words."""

from __future__ import annotations

import hashlib
from io import BytesIO

import pytest
from PIL import Image

from pourwright.actions.buy_lot import buy_lot
from pourwright.actions.demo import DEMO_DRAFT
from pourwright.actions.enter_lot import enter_lot
from pourwright.actions.freeze_sheet import freeze_sheet
from pourwright.actions.lot_paper import add_paper, paper_with, papers_of
from pourwright.actions.port import World
from pourwright.base.errors import BadInput, NotFound
from pourwright.shop.lot import LotEntry
from pourwright.shop.paper_file import MOST_BYTES, paper_file
from pourwright.shop.purchase import BuyUnit, Purchase

PLASTIC = ("plastic", "demo-plastic-medium")
KEYS = [f"{c * 32}" for c in "abcdef"]
PDF = b"%PDF-1.4\n% a data sheet\n%%EOF\n"
ONE = Purchase(quantity=1, unit=BuyUnit.KILOGRAM, price_money=20)


def picture(kind: str) -> bytes:
    file = BytesIO()
    Image.new("RGB", (4, 3), (200, 30, 30)).save(file, kind)
    return file.getvalue()


def files_of(world: World, code: str) -> list[tuple[str, str, bytes]]:
    with world.reading() as bench:
        found = papers_of(bench, code)
        files = [paper_with(bench, code, it.file) for it in found]
    return [(it.name, f.media_type, f.content) for it, f in zip(found, files, strict=True)]


# IETF RFC 8118 (application/pdf), RFC 2046 section 4.2 (image/jpeg), RFC 2083 section 12.11
# (image/png, first eight bytes).
@pytest.mark.parametrize(
    ("content", "media_type"),
    [(PDF, "application/pdf"), (picture("JPEG"), "image/jpeg"), (picture("PNG"), "image/png")],
)
def test_a_file_comes_back_as_it_was_given_under_its_hash(world, content, media_type):
    code = buy_lot(world, *PLASTIC, ONE, key=KEYS[0]).lot.code
    add_paper(world, code, content, "sheet", key=KEYS[1])
    assert files_of(world, code) == [("sheet", media_type, content)]
    with world.reading() as bench:
        (it,) = papers_of(bench, code)
    assert (it.file, it.size) == (hashlib.sha256(content).hexdigest(), len(content))


def test_a_purchase_brings_its_paper_and_a_refused_paper_buys_nothing(world):
    with world.reading() as bench:
        before = bench.ledger.check()
    with pytest.raises(BadInput, match="must be a PDF"):
        buy_lot(world, *PLASTIC, ONE, key=KEYS[0], paper=("a.html", b"<script>"))
    with world.reading() as bench:
        assert bench.ledger.check() == before
    held, again = (
        buy_lot(world, *PLASTIC, ONE, key=KEYS[0], paper=("a.pdf", PDF)) for _ in range(2)
    )
    assert held == again
    assert files_of(world, held.lot.code) == [("a.pdf", "application/pdf", PDF)]


def test_papers_are_told_once_each_and_the_newest_first(world):
    code = buy_lot(world, *PLASTIC, ONE, key=KEYS[0]).lot.code
    other = buy_lot(world, *PLASTIC, ONE, key=KEYS[1], paper=("x.pdf", PDF)).lot.code
    add_paper(world, code, PDF, "old.pdf", key=KEYS[2])
    add_paper(world, code, PDF, "old.pdf", key=KEYS[2])
    add_paper(world, code, picture("PNG"), "new.png", key=KEYS[3])
    assert [name for name, _, _ in files_of(world, code)] == ["new.png", "old.pdf"]
    with world.reading() as bench:
        png = papers_of(bench, code)[0].file
        assert len(bench.ledger.of(f"paper/{paper_file(PDF).id}")) == 1
        with pytest.raises(NotFound, match="no such paper"):
            paper_with(bench, other, png)


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (b"", "choose a file first"),
        (b"<html>", "must be a PDF, a JPEG or a PNG file"),
        (b" %PDF-1.4", "must be a PDF, a JPEG or a PNG file"),
        (b"\x89PNG\r\n\x1a\n and no picture", "picture that can be read"),
        (picture("JPEG")[:40], "picture that can be read"),
        (b"%PDF-" + bytes(MOST_BYTES - 4), "must be at most 8,000,000 bytes"),
    ],
)
def test_what_is_no_paper_is_refused_in_words(world, content, why):
    code = buy_lot(world, *PLASTIC, ONE, key=KEYS[0]).lot.code
    with pytest.raises(BadInput, match=why) as refused:
        add_paper(world, code, content, "x", key=KEYS[1])
    assert refused.value.field == "paper"
    assert files_of(world, code) == []


def test_the_largest_paper_is_kept():
    assert paper_file(b"%PDF-" + bytes(MOST_BYTES - 5)).media_type == "application/pdf"


def test_a_lot_of_baits_has_no_supplier(world):
    sheet = freeze_sheet(world, DEMO_DRAFT)
    enter_lot(world, sheet.number, LotEntry(shots=8, good=24))
    with pytest.raises(BadInput, match="came from no supplier"):
        add_paper(world, sheet.code, PDF, "x.pdf", key=KEYS[0])
