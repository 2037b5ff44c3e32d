"""Numbers as people read them."""

from __future__ import annotations

import pytest

from pourwright.base.band import Band
from pourwright.base.field import fields_of
from pourwright.base.units import UNITS, System
from pourwright.base.wording import clock
from pourwright.shop.material import Colorant, Flake
from pourwright.shop.tool import Cup, Injector
from pourwright.web.number_text import read_unit
from pourwright.web.show import Settings, exactly, percent, shown

US, METRIC = Settings(System.US), Settings(System.METRIC, currency="€")
NBSP = "\N{NO-BREAK SPACE}"


@pytest.mark.parametrize(
    ("band", "unit", "settings", "value", "both_ends"),
    [
        (Band(417.3, 440.1, 466.2), "g", US, f"440{NBSP}g", f"417 to 466{NBSP}g"),
        (Band(0.3817, 0.4211, 0.4722), "money", US, "$0.42", "$0.38 to $0.47"),
        (Band(-1.0, -0.88, -0.7), "money", METRIC, "−€0.88", "−€1.00 to −€0.70"),
        (Band(170, 175, 180), "c", US, f"347{NBSP}°F", f"338 to 356{NBSP}°F"),
        (Band(170, 175, 180), "c", METRIC, f"175{NBSP}°C", f"170 to 180{NBSP}°C"),
        (Band(0.0, 0.0, 0.0), "s", US, f"0{NBSP}s", f"0 to 0{NBSP}s"),
        (Band(8, 8, 8), "", US, "8", "8 to 8"),
    ],
)
def test_a_range_is_no_finer_than_it_is_known(band, unit, settings, value, both_ends):
    found = shown(band, UNITS[unit] if unit else None, settings)
    assert (found.value, found.range) == (value, both_ends)
    assert found.sure == (band.low == band.high)


def test_entered_numbers_keep_their_digits_and_converted_ones_three():
    assert exactly(3975.0, UNITS["g"], US) == f"3,975{NBSP}g"
    assert exactly(946.0, UNITS["ml"], US) == f"32{NBSP}fl oz"
    assert exactly(89.0, UNITS["mm"], US) == f"3.5{NBSP}in"


def test_small_things_are_read_in_the_finer_unit():
    units = {
        f"{record.key}.{f.name}": read_unit(f, System.US)
        for record in (Cup, Injector, Flake, Colorant)
        for f in fields_of(record)
    }
    labels = {name: unit.label for name, unit in units.items() if unit}
    assert labels["cup.volume_ml"] == "fl oz"
    assert labels["injector.heel_ml"] == "mL"
    assert labels["injector.bore_mm"] == "in"
    assert labels["flake.size_mm"] == "in"
    assert labels["colorant.drop_mass_g"] == "g"


def test_clock_and_percent():
    assert clock(59.6) == "1:00"
    assert percent(0.184) == f"18{NBSP}%"
