"""The next burst: what it says, what it asks, what it refuses."""

from __future__ import annotations

import time

import pytest

from cup_talk import CUP, FIRST, SECOND, asked, heated, stirred_and_read
from pourwright.base.errors import BadInput
from pourwright.base.units import convert
from pourwright.heat.next_burst import next_burst


def test_time_grows_no_faster_than_the_history():
    # Seconds are measured by `run.py speed heat`; here only growth is fenced, on any machine.
    rounds = [step for _ in range(4) for step in (heated(6), *stirred_and_read(152))]
    short, long = [*SECOND, *rounds], [*SECOND, *rounds, *rounds, *rounds]
    took: dict[str, list[float]] = {"short": [], "long": []}
    for _ in range(3):
        for name, steps in (("short", short), ("long", long)):
            begin = time.perf_counter()
            asked(steps)
            took[name].append(time.perf_counter() - begin)
    assert min(took["long"]) < 8 * min(took["short"])


def test_a_cold_cup_is_heated_to_the_gel():
    told = asked()
    assert told["do"] == "heat"
    assert 40 < told["on_s"] < 110
    assert told["ends_c"]["high"] < 85
    assert "gel begins" in told["advice"][0]


def test_after_heat_it_wants_a_stirred_reading():
    told = asked(heated(70))
    assert told["do"] == "stir and read"
    assert told["reads_c"]["low"] < told["reads_c"]["typical"] < told["reads_c"]["high"]


def test_first_reading_of_a_new_oven_is_taken_twice():
    assert asked(heated(75), stirred_and_read(66))["do"] == "read once more"
    assert asked(FIRST)["do"] == "heat"


def test_the_hot_limit_cuts_a_burst():
    free, tight = asked(FIRST), asked(FIRST, limit_c=165, target_c=150)
    assert tight["on_s"] < free["on_s"]
    assert tight["hottest_c"]["high"] < 165
    assert free["hottest_c"]["high"] < 200
    assert tight["limit_reason"] == "your own limit"


def test_it_pours_on_target_after_a_second_look():
    done = [*SECOND, heated(48), *stirred_and_read(169.5)]
    more = [*done, {"did": "read", "read_c": 169.5, "while_stirring": True}]
    told = asked(done, thermometer_bias_k=-2.5)
    assert told["do"] in {"read once more", "heat"}
    end = asked(more, thermometer_bias_k=-2.5)
    assert end["do"] == "pour"
    assert abs(end["estimates"]["mean_c"]["typical"] - 172) < 2.5
    assert end["estimates"]["fused"] > 0.85


def test_too_warm_waits():
    told = asked(SECOND, heated(80), stirred_and_read(181), {"did": "read", "read_c": 181,
                 "while_stirring": True}, thermometer_bias_k=0)  # fmt: skip
    assert told["do"] == "wait"
    assert told["wait_s"] >= 10
    assert told["on_s"] == 0


def test_at_the_limit_it_stops():
    hot = [*SECOND, heated(100), *stirred_and_read(206)]
    told = asked([*hot, {"did": "read", "read_c": 206, "while_stirring": True}])
    assert told["do"] == "stop"
    assert "Too hot" in told["advice"][0] or "no further" in told["advice"][0].lower()


def test_probe_above_the_flash_point_stops():
    read = {"did": "read", "read_c": 188, "instrument": "probe"}
    hot = [*SECOND, heated(75), {"did": "stirred"}, read, dict(read)]
    told = asked(hot, flash_point_c=186)
    assert told["do"] == "stop"
    assert "Too hot" in told["advice"][0]


@pytest.mark.parametrize("typed", [170.0, 165.0])
def test_wrong_unit_is_asked_not_guessed(typed):
    # Where °F is set and 170 is typed, 170 °F arrives as 77 °C.
    told = asked(SECOND, heated(48), stirred_and_read(convert(typed, "f", "c")))
    assert told["do"] == "read again"
    assert told["readings"][-1]["meant_c"] == pytest.approx(typed)
    assert told["readings"][-1]["doubted"]
    assert "unit" in told["question"]


def test_celsius_typed_as_fahrenheit_is_refused_with_a_hint():
    with pytest.raises(BadInput, match="338 °F would be 170 °C") as refused:
        asked(FIRST, heated(180), stirred_and_read(338))
    assert "read_c" in refused.value.field


def test_colder_than_the_room_is_asked_about():
    told = asked(heated(75), stirred_and_read(-5))
    assert told["do"] == "read again"
    assert "colder than the room" in told["question"]


def test_clock_running_backwards_is_refused():
    steps = [{"did": "heated", "for_s": 60, "at_s": 100}, {"did": "stirred", "at_s": 120}]
    with pytest.raises(BadInput, match=r"history\[1\]\.at_s.*backwards"):
        asked(steps)


def test_clock_tells_the_rests():
    told_rest = asked(heated(75), stirred_and_read(60))
    clocked = asked(
        {"did": "heated", "for_s": 75, "at_s": 1000},
        {"did": "stirred", "at_s": 1090},
        {"did": "read", "read_c": 60, "while_stirring": True, "at_s": 1090},
    )
    assert clocked["ends_c"]["typical"] == pytest.approx(told_rest["ends_c"]["typical"], abs=0.05)


def test_empty_cup_is_refused():
    with pytest.raises(BadInput, match="empty cup"):
        asked(FIRST, {"did": "drawn", "mass_g": 495})


@pytest.mark.parametrize(
    ("step", "why"),
    [
        ({"did": "heated"}, "for_s"),
        ({"did": "stirred", "read_c": 60}, "does not belong"),
        ({"did": "read", "read_c": -60}, "-10 to 260"),
        ({"did": "drawn", "mass_g": 10, "for_s": 3}, "does not belong"),
    ],
)
def test_strange_steps_are_refused(step, why):
    with pytest.raises(BadInput, match=why):
        asked(step)


def test_prior_counts_label_and_bias_once():
    carry = asked(FIRST)["carry_over"]
    with pytest.raises(BadInput, match=r"label_w.*prior already"):
        next_burst.answer(CUP | {"prior": carry})
    known = {k: v for k, v in CUP.items() if k != "label_w"}
    second = next_burst.answer(known | {"prior": carry})
    width = {k: a["ends_c"]["high"] - a["ends_c"]["low"] for k, a in
             {"first": asked(), "second": second}.items()}  # fmt: skip
    assert width["second"] < 0.5 * width["first"]


def test_target_too_near_the_limit_is_refused():
    with pytest.raises(BadInput, match=r"target_c.*2 K below the limit of 180"):
        asked(target_c=179.5, flash_point_c=None)


def test_proposed_target_leaves_room():
    assert asked(flash_point_c=None)["target_c"] == 163
    assert asked(flash_point_c=230)["target_c"] == 172
    assert asked(flash_point_c=188)["target_c"] == pytest.approx(161)


def test_power_is_never_called_a_measured_wattage():
    described = next_burst.schema()["output"]
    assert "not a measured wattage" in str(described)


def test_drawing_plastic_leaves_less_to_heat():
    twice = [*SECOND, {"did": "read", "read_c": 152, "while_stirring": True}]
    whole = asked(twice)
    less = asked(twice, {"did": "drawn", "mass_g": 150})
    assert less["left_g"] == pytest.approx(348)
    assert less["on_s"] < whole["on_s"]


def test_cold_plastic_added_cools_the_cup():
    before = asked(SECOND)["estimates"]
    after = asked(SECOND, {"did": "added", "mass_g": 50, "added_c": 22})["estimates"]
    # Mixing by heat content: 50 g at 22 °C into 498 g near 155 °C takes some 11 K.
    fall = before["mean_c"]["typical"] - after["mean_c"]["typical"]
    assert 9 < fall < 14
    assert after["fused"] < before["fused"] + 0.1


def test_a_doubted_reading_says_why_and_counts_little():
    wild = [*FIRST, heated(185), *stirred_and_read(118), *stirred_and_read(152)[1:],
            *stirred_and_read(152)[1:]]  # fmt: skip
    told, clean = asked(wild), asked(SECOND)
    doubted = [r for r in told["readings"] if r["doubted"]]
    assert [r["read_c"] for r in doubted] == [118]
    assert doubted[0]["trust"] < 0.4
    assert doubted[0]["why"]
    mean = told["estimates"]["mean_c"]["typical"]
    assert mean == pytest.approx(clean["estimates"]["mean_c"]["typical"], abs=2)


def test_two_that_agree_are_believed():
    told = asked(FIRST, heated(185), stirred_and_read(118), stirred_and_read(118.5)[1:])
    assert told["do"] != "read again"
    assert told["estimates"]["mean_c"]["typical"] < 135


def test_line_ends_where_the_answer_does():
    told = asked(FIRST)
    to_come = [p for p in told["line"] if p["to_come"]]
    past = [p for p in told["line"] if not p["to_come"]]
    assert past[0]["at_s"] == 0
    assert to_come[-1]["mean_c"]["typical"] == pytest.approx(told["ends_c"]["typical"], abs=1)
    assert all(a["at_s"] <= b["at_s"] for a, b in zip(told["line"], told["line"][1:], strict=False))


def test_same_in_same_out():
    assert asked(SECOND) == asked(SECOND)


def test_a_hot_cup_that_stood_unstirred_is_read_before_it_is_heated_again():
    second_look = {"did": "read", "read_c": 151.5, "while_stirring": True}
    hot = [*SECOND, second_look]
    assert asked(*hot, stood_s=60)["do"] == "heat"
    stood = asked(*hot, stood_s=300)
    assert (stood["do"], stood["on_s"]) == ("stir and read", 0)
    rested = {"did": "rested", "for_s": 300}
    assert asked(*hot, rested)["do"] == "stir and read"
    expected_c = round(stood["reads_c"]["typical"], 1)
    assert asked(*hot, rested, *stirred_and_read(expected_c)[1:])["do"] == "heat"


def test_a_cup_read_at_the_limit_stays_stopped_while_it_stands():
    over = [*FIRST, heated(185), *stirred_and_read(201), *stirred_and_read(201)[1:]]
    assert asked(*over)["do"] == "stop"
    assert asked(*over, stood_s=60)["do"] == "stop"
