"""What scale and thermometer told of a cup before it was heated."""

from __future__ import annotations

import dataclasses
from typing import Any

from pourwright.bench.cup_story import WORKED, Happening
from pourwright.bench.tap_kind import PART_IN, READ_START, TAKEN_BACK, TAKEN_UP
from pourwright.bench.told_fill import told_fill
from pourwright.heat.cooked_cup import CookedCup

AT = "2026-03-07T10:00:00Z"
PLANNED = CookedCup(plastic_g=400.0, ambient_c=22.0)


def told(*events: tuple[str, dict[str, Any]], cup: int = 1) -> CookedCup:
    made = [Happening(f"e{n}", kind, AT, body) for n, (kind, body) in enumerate(events)]
    return told_fill(made, cup, PLANNED)


def part(name: str, grams: float, wanted_g: float, cup: int = 1) -> tuple[str, dict[str, Any]]:
    return PART_IN, {"cup": cup, "part": name, "grams": grams, "wanted_g": wanted_g}


def start(plastic_c: float | None, air_c: float | None) -> tuple[str, dict[str, Any]]:
    return READ_START, {"plastic_c": plastic_c, "air_c": air_c}


ROUND = (WORKED, {"cup": 1})


def test_nothing_told_is_the_plan():
    assert told() == PLANNED


def test_what_the_scale_showed_beside_what_was_wanted_counts():
    found = told(part("plastic", 352.5, 350.0), part("salt", 19.2, 20.0))
    assert found == dataclasses.replace(PLANNED, plastic_g=401.7)


def test_a_part_said_twice_counts_once_and_other_cups_not_at_all():
    twice = told(
        part("salt", 21.0, 20.0), part("salt", 25.0, 20.0), part("salt", 90.0, 20.0, cup=2)
    )
    assert twice.plastic_g == 401.0


def test_what_was_read_replaces_what_was_planned_and_silence_does_not():
    assert told(start(19.5, None)) == dataclasses.replace(PLANNED, start_c=19.5)
    assert told(start(None, 26.0)) == dataclasses.replace(PLANNED, ambient_c=26.0)


def test_a_start_read_on_a_second_phone_does_not_count():
    assert told(start(19.5, 22.0), start(35.0, 35.0)).start_c == 19.5


def test_who_takes_the_pour_up_again_reads_the_start_anew():
    found = told(start(19.5, 22.0), (TAKEN_UP, {}), start(15.0, 16.0))
    assert (found.start_c, found.ambient_c) == (15.0, 16.0)


def test_after_the_first_round_of_the_cup_nothing_of_its_fill_changes():
    late = (ROUND, start(30.0, 30.0), part("plastic", 500.0, 350.0))
    assert told(*late) == PLANNED
    assert told(*late, cup=2).start_c == 30.0


def test_what_was_taken_back_was_not_told():
    assert told(start(19.5, 22.0), (TAKEN_BACK, {"event": "e0"})) == PLANNED
    heated = (ROUND, (TAKEN_BACK, {"event": "e0"}), start(30.0, None))
    assert told(*heated).start_c == 30.0
