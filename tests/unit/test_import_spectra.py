"""Spectra from a file: read, put in place, refused by line."""

from __future__ import annotations

import numpy as np
import pytest

from pourwright.actions.calibrate_shelf import calibrated
from pourwright.actions.import_spectra import import_spectra
from pourwright.base.errors import BadInput
from pourwright.color.fit.reading import Instrument
from pourwright.intake.spectrum_file import spectra
from ready_store import demo_bench

GRID = range(380, 731, 10)


def file(*columns: tuple[str, float], apart: str = ",") -> bytes:
    head = apart.join(["nm", *(f'"{n}"' for n, _ in columns)])
    rows = [apart.join([str(nm), *(str(v) for _, v in columns)]) for nm in GRID]
    return "\n".join([head, *rows]).encode()


@pytest.mark.parametrize("apart", [",", ";", "\t"])
def test_shares_and_percent_are_told_apart(apart):
    one, two = spectra(file(("a", 0.5), ("b", 0.25), apart=apart))
    assert (one.name, two.name) == ("a", "b")
    assert one.reflectance == pytest.approx((0.5,) * 31)
    (percent,) = spectra(file(("a", 50.0), apart=apart))
    assert percent.reflectance == pytest.approx((0.5,) * 31)


def test_other_steps_are_interpolated():
    rows = "\n".join(f"{nm},{nm / 1000}" for nm in range(390, 721, 5))
    (found,) = spectra(f"nm,ramp\n{rows}".encode())
    assert found.reflectance == pytest.approx(tuple(np.arange(0.40, 0.701, 0.01)))


def test_wavelengths_may_run_along_the_first_row():
    along = ",".join(map(str, GRID))
    values = ",".join("0.25" for _ in GRID)
    one, two = spectra(f"name,{along}\nWhite card,{values}\nBlack card,{values}\n".encode())
    assert (one.name, two.name) == ("White card", "Black card")
    assert two.reflectance == pytest.approx((0.25,) * 31)


def test_a_decimal_comma_is_read_between_semicolons():
    rows = "\n".join(f"{nm};0,5" for nm in GRID)
    assert spectra(f"nm;a\n{rows}".encode())[0].reflectance == pytest.approx((0.5,) * 31)


def test_a_dark_file_in_percent_says_so_in_its_first_cell():
    rows = "\n".join(f"{nm},0.9" for nm in GRID)
    (found,) = spectra(f"nm %,black\n{rows}".encode())
    assert found.percent
    assert found.reflectance == pytest.approx((0.009,) * 31)


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (b"", "needs a row of names"),
        (b"\xff\xfe\x00", "UTF-8"),
        (b"nm,a\n400,x\n700,1\n", "is no number \\(line 2\\)"),
        (b"nm,a\n400,0.5\n700\n", "has 1 columns"),
        (b"nm,a\n400,0.5\n700,0.5\n", "steps of at most 20 nm"),
        (b"nm,a\n410,0.5\n420,0.5\n", "must reach from 400 to 700"),
        (b"nm,a\n400,-1\n700,0.5\n", "zero or more \\(line 2\\)"),
        (file(("a", 400.0)), "between 0 and 120, being percent"),
        (file(("a", 1.5)), "may be percent or a share"),
        (b"nm,a\n\n400,0.5\n\n700,x\n", "is no number \\(line 5\\)"),
    ],
)
def test_a_bad_file_is_refused_by_line_and_value(data, why):
    with pytest.raises(BadInput, match=why):
        spectra(data)


@pytest.fixture
def demo(tmp_path):
    return demo_bench(tmp_path)


def test_columns_go_where_their_names_say(demo):
    done = import_spectra(
        demo,
        file(
            ("White card", 0.87), ("Moss, 8 drops / White card", 0.2),
            ("Moss, 8 drops / Black card", 0.02),
        ),
    )  # fmt: skip
    assert done == (
        "White card: bare spectrum taken in, read as shares from 0 to 1",
        "Moss, 8 drops: 2 spectra taken in, read as shares from 0 to 1",
    )
    with demo.bench() as bench:
        puck = bench.records.get("puck", "demo-puck-4").noun
        card = bench.records.get("card", "demo-card-white").noun
        assert calibrated(bench).answer.fits
    assert puck.instrument is Instrument.SPECTRUM
    assert [len(r.read.reflectance) for r in puck.readings] == [31, 31]
    assert card.bare.reflectance[0] == pytest.approx(0.87)


@pytest.mark.parametrize("name", ["Nobody", "Nobody / White card", "Moss, 8 drops / Gray card"])
def test_an_unknown_name_changes_nothing(demo, name):
    with pytest.raises(BadInput, match="names nothing on the bench"):
        import_spectra(demo, file(("White card", 0.9), (name, 0.5)))
    with demo.bench() as bench:
        assert bench.records.get("card", "demo-card-white").version == 1
