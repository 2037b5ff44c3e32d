"""The whole bench as one file: byte for byte back, or refused in words with nothing taken in."""

from __future__ import annotations

import base64
import itertools
import json
from io import BytesIO

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from pourwright import wire
from pourwright.actions.demo import fill_demo
from pourwright.actions.port import Event
from pourwright.base.errors import BadInput, Conflict, NotFound
from pourwright.cli.main import main
from pourwright.shop.move import Move, MoveKind, contrary
from pourwright.shop.paper_file import paper_file
from pourwright.shop.stock_lot import LotSort, StockLot
from pourwright.shop.tool import Gear
from ready_store import demo_bench, empty_bench

PAPER = b"%PDF-1.7\r\n" + bytes(range(256))


def file_of(world):
    return b"".join(world.exchange.written())


def small_jpeg():
    file = BytesIO()
    Image.new("RGB", (3, 2), (90, 120, 40)).save(file, "JPEG")
    return file.getvalue()


@pytest.fixture(scope="module")
def full(tmp_path_factory):
    """A demo bench with a picture, a retired record and words that are awkward to write down."""
    world = demo_bench(tmp_path_factory.mktemp("full"))
    with world.bench() as bench:
        gear = Gear(name='"Quoted", \\ back\u2028slash \U0001f41f', note="two\nlines\ttab =1+1")
        bench.records.save("gear", "gear-odd", gear, expected_version=0)
        bench.records.save("gear", "gear-gone", gear, expected_version=0)
        bench.records.retire("gear", "gear-gone", expected_version=1)
        bench.photos.add("a" * 32, small_jpeg())
        bench.papers.add(paper_file(PAPER), at="2026-03-01T10:00:00Z")
        _stock(bench)
        bench.commit()
    return file_of(world)


def _stock(bench):
    """A bought lot, half of it used up, and a taking back."""
    at, ids = "2026-03-01T10:00:00Z", ("b" * 32, "c" * 32, "d" * 32)
    plastic = StockLot(
        code="M-1", sort=LotSort.MATERIAL, item="plastic/demo-plastic-medium", opened_at=at,
        name="Medium plastisol",
    )  # fmt: skip
    pot = StockLot(code="R-1", sort=LotSort.POT, item="remelt_pot/x", opened_at=at, name="Pot")
    bench.stock.open(plastic)
    bench.stock.open(pot)
    bought = Move(id=ids[0], at=at, kind=MoveKind.BOUGHT, target="M-1", mg=4_000_000, cost=460_000)
    used = Move(
        id=ids[1], at=at, kind=MoveKind.USED, source="M-1", target="R-1", mg=500, cost=57
    )  # fmt: skip
    bench.stock.post(bought, used, contrary(used, id=ids[2], at=at, note="a slip, =1+1"))


@pytest.fixture
def empty(tmp_path):
    return empty_bench(tmp_path)


def holds_nothing(world):
    return all(not rows for rows in json.loads(file_of(world))["tables"].values())


def test_a_bench_comes_back_byte_for_byte(full, empty):
    taken = empty.exchange.taken_in(full)
    assert file_of(empty) == full
    assert taken.rows["event"] == len(json.loads(full)["tables"]["event"])
    with empty.reading() as bench:
        assert bench.ledger.check() == taken.rows["event"]
        assert bench.photos.get("a" * 32) == small_jpeg()
        assert bench.papers.get(paper_file(PAPER).id) == paper_file(PAPER)


def test_the_file_is_plain_json_with_sorted_keys_and_a_row_a_line(full):
    read = json.loads(full)
    assert list(read) == ["application", "format", "schema", "tables"]
    assert list(read["tables"]) == sorted(read["tables"])
    rows = [row for rows in read["tables"].values() for row in rows]
    assert all(list(row) == sorted(row) for row in rows)
    lines = [line.removesuffix(b",") for line in full.splitlines() if line.startswith(b"{")][1:]
    assert [json.loads(line.removesuffix(b"]")) for line in lines] == rows


def test_a_reformatted_file_is_taken_in_just_the_same(full, empty):
    pretty = json.dumps(json.loads(full), indent=3).encode("utf-8-sig")
    empty.exchange.taken_in(pretty)
    assert file_of(empty) == full


def test_what_was_taken_in_goes_on_as_any_bench_does(full, empty):
    empty.exchange.taken_in(full)
    with empty.bench() as bench:
        before = bench.ledger.check()
        bench.records.save("gear", "gear-new", Gear(name="New"), expected_version=0)
        bench.commit()
        assert bench.ledger.check() == before + 1


words = st.text(st.characters(exclude_categories=["Cs"]), max_size=30)
plain = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**63), 2**63) | st.floats(allow_nan=False,
    allow_infinity=False) | words,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(words, inner, max_size=3),
    max_leaves=8,
)  # fmt: skip
folders = itertools.count()


@settings(max_examples=12)
@given(st.lists(st.dictionaries(words, plain, max_size=4), min_size=1, max_size=4))
def test_any_event_comes_back(tmp_path_factory, bodies):
    folder = tmp_path_factory.mktemp(f"any-{next(folders)}")
    world = empty_bench(folder)
    with world.bench() as bench:
        for body in bodies:
            at = "2026-01-01T00:00:00Z"
            bench.ledger.append(Event(world.ids.fresh(), "lot/x", "noted", at, body))
        bench.commit()
    (folder / "other").mkdir()
    other = empty_bench(folder / "other")
    other.exchange.taken_in(file_of(world))
    assert file_of(other) == file_of(world)


def test_a_bench_that_holds_anything_is_left_alone(full, tmp_path):
    world = empty_bench(tmp_path)
    with world.bench() as bench:
        bench.records.save("gear", "mine", Gear(name="Mine"), expected_version=0)
        bench.commit()
    before = file_of(world)
    with pytest.raises(Conflict, match="holds something already"):
        world.exchange.taken_in(full)
    assert file_of(world) == before


def altered(full, change):
    read = json.loads(full)
    change(read)
    return json.dumps(read).encode()


def body_of_first_event(read):
    read["tables"]["event"][0]["body"]["version"] = 2


def time_of_an_event(read):
    read["tables"]["event"][5]["at"] = "2020-01-01T00:00:00Z"


def link_of_an_event(read):
    read["tables"]["event"][5]["previous_hash"] = "0" * 64


def an_event_left_out(read):
    del read["tables"]["event"][7]


def the_last_events_left_out(read):
    del read["tables"]["event"][-4:]


def events_swapped(read):
    events = read["tables"]["event"]
    events[3], events[4] = events[4], events[3]


def price_of_a_record(read):
    row = next(r for r in read["tables"]["record"] if r["id"] == "demo-mold-worm")
    row["body"]["price_money"] = 1


def name_of_a_record(read):
    read["tables"]["record"][0]["name"] = "Other"


def a_record_left_out(read):
    del read["tables"]["record"][3]


def a_record_unretired(read):
    next(r for r in read["tables"]["record"] if r["retired"])["retired"] = 0


def plan_of_a_sheet(read):
    read["tables"]["sheet"][0]["plan"]["shots"] += 1


def a_sheet_left_out(read):
    read["tables"]["sheet"].clear()


def mass_of_a_move(read):
    read["tables"]["move"][0]["mg"] -= 1


def a_move_left_out(read):
    del read["tables"]["move"][-1]


def name_of_a_lot(read):
    read["tables"]["lot"][0]["name"] = "Other"


def a_picture_that_is_none(read):
    read["tables"]["photo"][0]["jpeg"] = "PHNjcmlwdD4="


def content_of_a_paper(read):
    row = read["tables"]["paper_file"][0]
    row["bytes"] = base64.b64encode(PAPER + b" ").decode()


def a_paper_that_is_no_base64(read):
    read["tables"]["paper_file"][0]["bytes"] = "*"


def kind_of_a_paper(read):
    read["tables"]["paper_file"][0]["media_type"] = "text/html"


def a_paper_left_out(read):
    read["tables"]["paper_file"].clear()


@pytest.mark.parametrize(
    "change",
    [
        body_of_first_event, time_of_an_event, link_of_an_event, an_event_left_out,
        the_last_events_left_out, events_swapped, price_of_a_record, name_of_a_record,
        a_record_left_out, a_record_unretired, plan_of_a_sheet, a_sheet_left_out,
        mass_of_a_move, a_move_left_out, name_of_a_lot, a_picture_that_is_none,
        content_of_a_paper, a_paper_that_is_no_base64, kind_of_a_paper, a_paper_left_out,
    ],
)  # fmt: skip
def test_an_altered_file_is_refused_and_nothing_taken_in(full, empty, change):
    with pytest.raises(Conflict, match="the file was altered: "):
        empty.exchange.taken_in(altered(full, change))
    assert holds_nothing(empty)


@pytest.mark.parametrize(
    ("change", "error", "match"),
    [
        (lambda r: r.update(format=2), Conflict, "newer than this program: update"),
        (lambda r: r.update(schema="9999"), Conflict, "newer than this program: update"),
        (lambda r: r.update(schema="0000"), Conflict, "take it in with the program that wrote it"),
        (lambda r: r.update(application="else"), BadInput, "no export of a Pourwright bench"),
        (lambda r: r.update(format="1"), BadInput, "no export of a Pourwright bench"),
        (lambda r: r["tables"].update(zebra=[{}]), BadInput, "is no table of a bench"),
        (lambda r: r["tables"]["record"][0].update(more=1), BadInput, "is no row of record"),
        (lambda r: r["tables"]["event"].insert(0, 7), BadInput, "is no row of event"),
        (
            lambda r: r["tables"]["photo"][0].update(jpeg="/9j/*"), BadInput,
            "is no base64 text, in photo.jpeg",
        ),
        (
            lambda r: r["tables"]["photo"][0].update(id=None), BadInput,
            "holds a row that photo does not take",
        ),
        (
            lambda r: r["tables"]["event"][0].update(body={"note": "\ud800"}), BadInput,
            "holds a row of event with half a character",
        ),
        (
            lambda r: r["tables"]["photo"][0].update(id=10**30), BadInput,
            "or a number that is too large",
        ),
    ],
)  # fmt: skip
def test_a_file_of_another_program_is_refused_in_words(full, empty, change, error, match):
    with pytest.raises(error, match=match):
        empty.exchange.taken_in(altered(full, change))
    assert holds_nothing(empty)


@pytest.mark.parametrize(
    ("data", "match"),
    [
        (b"", "ends in the middle"),
        (b"\xff\xfe", "is no JSON text in UTF-8"),
        (b"[1, 2]", "is no export of a bench, at character 0"),
        (b"name,price\r\n", "is no export of a bench"),
        (b'{"a": 1}', "is no export of a bench"),
        (b'{"tables": {}}', "is no export of a Pourwright bench"),
        (b"{" * 100_000, "is no export of a bench"),
        (b'{"application": ' + b"[" * 100_000, "is no export of a bench"),
        (b'{"application": ' + b"1" * 5_000, "is no export of a bench"),
    ],
)
def test_what_is_no_export_is_refused_in_words(empty, data, match):
    with pytest.raises(BadInput, match=match):
        empty.exchange.taken_in(data)


def test_a_file_cut_off_anywhere_is_refused(full, empty):
    for share in (0.1, 0.5, 0.9, 0.999):
        with pytest.raises((BadInput, Conflict)):
            empty.exchange.taken_in(full[: int(len(full) * share)])
        assert holds_nothing(empty)
    with pytest.raises(BadInput, match="at character"):
        empty.exchange.taken_in(full + b"more")


def test_a_number_that_is_not_finite_is_refused(full, empty):
    with pytest.raises(BadInput, match="not finite"):
        empty.exchange.taken_in(full.replace(b'"retired":0', b'"retired":NaN', 1))


def test_tables_out_of_order_are_refused(full, empty):
    def turned(read):
        read["tables"] = dict(reversed(read["tables"].items()))

    with pytest.raises((BadInput, Conflict)):
        empty.exchange.taken_in(altered(full, turned))
    assert holds_nothing(empty)


def run(*arguments):
    return CliRunner().invoke(main, [str(a) for a in arguments])


def test_the_command_line_writes_a_file_and_takes_it_in(tmp_path):
    store, other, file = tmp_path / "a.db", tmp_path / "b.db", tmp_path / "bench.json"
    fill_demo(wire.world(store))
    written = run("export", file, "--store", store)
    assert (written.exit_code, f"{file.stat().st_size:,} bytes" in written.output) == (0, True)
    assert run("export", file, "--store", store).exit_code == Conflict.exit_code
    taken = run("import", file, "--store", other)
    assert taken.exit_code == 0
    assert "all in their chain" in taken.output
    assert run("export", tmp_path / "again.json", "--store", other).exit_code == 0
    assert (tmp_path / "again.json").read_bytes() == file.read_bytes()
    again = run("import", file, "--store", other)
    assert again.exit_code == Conflict.exit_code
    assert "holds something already" in again.stderr
    assert run("import", tmp_path / "none", "--store", other).exit_code == NotFound.exit_code
    assert run("export", tmp_path / "x", "--store", tmp_path / "no").exit_code == 3
