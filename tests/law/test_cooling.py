"""Laws of the barrel, of a bait in its mold, and of the hands between cup and molds."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.base.record import to_json
from pourwright.forecast.hot_cup import HotCup
from pourwright.forecast.pour_rotation import pour_rotation
from pourwright.forecast.rotation import Doing, Hands, Pour, Rotation
from pourwright.forecast.rotation_input import RotationInput
from pourwright.forecast.turns import rotated
from pourwright.heat.bait_in_mold import BaitInMold, Mold, Shot, bait_in_mold
from pourwright.heat.barrel import Barrel, filled
from pourwright.heat.mold_warming import cool_mold
from pourwright.heat.mold_warming_input import MoldWarmingInput
from pourwright.matter.plastisol import heat_capacity_j_kgk

lawful = settings(derandomize=True, deadline=None, max_examples=30)
few = settings(derandomize=True, deadline=None, max_examples=10)

thick = st.floats(3, 25)
shots = st.floats(2, 80)
molds = st.floats(0.2, 4)


def one(value: float) -> np.ndarray:
    return np.array([value])


@lawful
@given(st.floats(15, 60), st.floats(1, 5), st.floats(20, 120), st.floats(145, 165))
def test_barrel_window(bore_mm, wall_mm, barrel_c, least_c):
    def left(**changed):
        known = {
            "bore_m": bore_mm / 1000, "wall_m": wall_mm / 1000, "barrel_c": barrel_c,
            "alpha_m2_s": 0.075e-6, "k_w_mk": 0.14, "film_w_m2k": 1000.0, "ambient_c": 22.0,
        }  # fmt: skip
        arrays = {k: one(v) for k, v in (known | changed).items()}
        start = arrays.pop("barrel_c")
        return filled(Barrel(**arrays), melt_c=172.0, barrel_c=start).window_s(least_c)[0]

    assert left() > 0
    assert left(barrel_c=barrel_c + 10) > left()
    assert left(bore_m=bore_mm * 1.2e-3) > left()
    assert left(film_w_m2k=1500.0) < left()
    if barrel_c < 80:
        # A cold wall takes heat in; a warm one keeps it.
        assert left(wall_m=wall_mm * 0.8e-3) > left()


def bait(
    *, thick_mm: float = 12, shot_g: float = 25, mold_kg: float = 1.2, loss: float = 0.5,
    flat: bool = False, open_face: bool = False, air_c: float = 25,
) -> BaitInMold:  # fmt: skip
    shot = Shot(
        one(thick_mm / 1000), flat, one(shot_g / 1000 * 1950), one(165), one(60),
        one(0.13 / 1000 / 1950), one(0.13),
    )  # fmt: skip
    film = one(19.0) if open_face else None
    return bait_in_mold(shot, Mold(one(mold_kg * 897), one(loss), one(800), one(air_c), film))


@lawful
@given(thick, shots, molds, st.floats(0, 3), st.floats(5, 55), st.floats(1, 3000), st.booleans())
def test_heat_of_a_shot_is_all_accounted_for(thick_mm, shot_g, mold_kg, loss, mold_c, end_s, flat):
    # What the bait gives is what the mold takes and the bench gets, to 0.1 %.
    made = bait(thick_mm=thick_mm, shot_g=shot_g, mold_kg=mold_kg, loss=loss, flat=flat)
    poured = made.poured(one(mold_c))
    times = np.linspace(0, end_s, 2001)
    mold = np.array([made.mold_c(poured, one(t))[0] for t in times])
    given_j = shot_g / 1000 * 1950 * (165 - 25 - poured.mean_k(one(end_s))[0])
    taken_j = mold_kg * 897 * (mold[-1] - mold_c)
    lost_j = loss * np.trapezoid(mold - 25, times)
    assert taken_j + lost_j == pytest.approx(given_j, rel=1e-3, abs=0.5)


@lawful
@given(thick, st.floats(15, 80), molds, st.floats(10, 40), st.booleans())
def test_opening_of_a_mold_that_warms(thick_mm, shot_g, mold_kg, mold_c, flat):
    # Without losses, since a light warm mold sheds its heat faster than a heavy one.
    about = {"thick_mm": thick_mm, "shot_g": shot_g, "mold_kg": mold_kg, "flat": flat, "loss": 0.0}

    def opened(start_c: float = mold_c, **changed: float) -> float:
        made = bait(**(about | changed))
        return float(made.open_s(made.poured(one(start_c)))[0])

    assert 0 < opened() <= 3600
    if opened() < 3000:
        assert opened(mold_c + 3) > opened()
        assert opened(thick_mm=thick_mm * 1.1) > opened()
        # To the hundredth of a second that times are sought to.
        assert opened(mold_kg=mold_kg * 1.3) < opened() + 0.02
        assert opened(shot_g=shot_g * 1.3) > opened() - 0.02


@few
@given(thick, st.floats(2, 30), st.integers(1, 5), st.integers(300, 2500))
def test_row_of_shots(thick_mm, bait_g, count, mold_g):
    def asked(**changed):
        known = {"thickest_mm": thick_mm, "bait_g": bait_g, "molds": count, "mold_g": mold_g,
                 "mold_c": 22, "ambient_c": 22}  # fmt: skip
        return cool_mold(MoldWarmingInput(**(known | changed)))

    found = asked()
    typical = [(s.mold_c.typical, s.open_s.typical) for s in found.shots]
    for (mold_c, open_s), (next_c, next_s) in pairwise(typical):
        assert next_c > mold_c - 0.01
        assert next_s > open_s - 0.02
    assert all(s.mold_c.low <= s.mold_c.typical <= s.mold_c.high for s in found.shots)
    assert typical[-1][0] <= found.plateau_c.typical + 0.05
    assert found.busy_plateau >= found.busy_first >= 2
    assert asked(dip_s=60).plateau_c.typical < found.plateau_c.typical
    assert asked(molds=count + 3).plateau_c.typical <= found.plateau_c.typical + 0.01
    assert to_json(asked()) == to_json(found)


@few
@given(st.floats(20, 60), st.integers(50, 200))
def test_plateau_is_where_very_many_shots_end(bait_g, mold_g):
    asked = MoldWarmingInput(thickest_mm=10, bait_g=bait_g, mold_g=10.0 * mold_g, shots=60)
    found = cool_mold(asked)
    assert found.shots[-1].mold_c.typical == pytest.approx(found.plateau_c.typical, abs=0.3)


def turns(
    *, shots: int, count: int, row: int, shot_g: float, thick_mm: float, power_w: float,
    window_s: float, draw_s: float = 10, shoot_s: float = 20, open_s: float = 75,
) -> tuple[Rotation, HotCup, BaitInMold]:  # fmt: skip
    made = bait(thick_mm=thick_mm, shot_g=shot_g, mold_kg=0.9)
    slow = window_s / np.log((175 - 25) / (155 - 25))
    cup = HotCup(one(shots * shot_g + 15), 175.0, 155.0, one(25.0), one(slow), one(power_w))
    hands = Hands(one(draw_s), one(shoot_s), one(open_s), one(20.0), one(0.0))
    return rotated(Pour(shots, one(shot_g), count, row, one(25.0)), hands, cup, made), cup, made


def verify(found: Rotation, shots: int, row: int, least_c: float) -> None:
    """What nobody can do: two things at once, shoot a full mold, draw from a cold cup."""
    before, in_load = 0.0, 0
    empty: dict[int, bool] = {}
    firm_at: dict[int, float] = {}
    openings = iter(found.open_s)
    for act in found.acts:
        start, end, cup = (float(x[0]) for x in (act.start_s, act.end_s, act.cup_c))
        assert start == pytest.approx(before, abs=1e-9)
        assert end >= start
        before = end
        match act.doing:
            case Doing.DRAW:
                assert cup >= least_c - 1e-9
                in_load = row
            case Doing.SHOOT:
                assert empty.get(act.mold, True)
                assert in_load > 0
                in_load -= 1
                empty[act.mold] = False
                firm_at[act.mold] = end + float(next(openings)[0])
            case Doing.OPEN:
                assert empty[act.mold] is False
                assert start >= firm_at[act.mold] - 1e-6
                empty[act.mold] = True
    assert all(empty.values())
    made = [a for a in found.acts if a.doing is Doing.SHOOT]
    assert len(made) == shots == len(found.open_s)
    assert {a.mold for a in made} <= set(range(found.molds))


@lawful
@given(
    st.integers(1, 14), st.integers(1, 6), st.integers(1, 4), st.floats(5, 60), thick,
    st.floats(350, 800), st.floats(120, 500), st.floats(5, 60), st.floats(20, 200),
)  # fmt: skip
def test_hands_do_one_thing_at_a_time(
    shots, count, row, shot_g, thick_mm, power_w, window_s, shoot_s, open_s
):
    found, _, _ = turns(
        shots=shots, count=count, row=row, shot_g=shot_g, thick_mm=thick_mm, power_w=power_w,
        window_s=window_s, shoot_s=shoot_s, open_s=open_s,
    )  # fmt: skip
    verify(found, shots, row, 155.0)
    busy = sum(float((a.end_s - a.start_s)[0]) for a in found.acts if a.doing is not Doing.WAIT)
    assert found.idle_s[0] == pytest.approx(found.seconds[0] - busy, abs=1e-6)
    assert found.idle_s[0] >= -1e-6


@lawful
@given(st.floats(50, 800), st.floats(0.1, 1), st.floats(250, 900), st.floats(120, 170))
def test_warming_is_paid_for(full_g, level, power_w, cup_c):
    # Power x time = heat of what is left + its losses, summed along the way.
    cup = HotCup(one(full_g), 175.0, 155.0, one(22.0), one(1700.0), one(power_w)).holding(
        one(full_g * level)
    )
    seconds = cup.rewarm_s(one(cup_c))[0]
    assert 0 < seconds <= 900
    times = np.linspace(0, seconds, 4001)
    loss_w_k = cup.heat_j_k[0] / cup.slow_s[0]
    temp, dt = cup_c, times[1]
    for _ in times[1:]:
        middle = temp + dt / 2 * (cup.power_w[0] - loss_w_k * (temp - 22)) / cup.heat_j_k[0]
        temp += dt * (cup.power_w[0] - loss_w_k * (middle - 22)) / cup.heat_j_k[0]
    assert cup.warmed_c(one(cup_c), one(seconds))[0] == pytest.approx(temp, abs=0.02)
    if seconds == 900:
        return
    assert temp == pytest.approx(175, abs=0.02)
    plain = full_g * level / 1000 * heat_capacity_j_kgk(np.array(165.0)) * (175 - cup_c)
    assert seconds > plain / power_w


@few
@given(st.integers(1, 5), st.floats(6, 16), st.sampled_from([1, 2, 3]))
def test_rotation_answers_alike(count, thick_mm, row):
    asked = RotationInput(
        plastic_g=260, shot_g=24, molds=count, thickest_mm=thick_mm, shots_a_load=row
    )
    found = pour_rotation(asked)
    assert to_json(pour_rotation(asked)) == to_json(found)
    assert found.minutes.low <= found.minutes.typical <= found.minutes.high
    assert found.shots == 10
    same = next(c for c in found.counts if c.molds == count)
    assert same.minutes == pytest.approx(found.minutes.typical, rel=1e-9)
    slower = pour_rotation(replace(asked, thickest_mm=thick_mm + 3))
    assert slower.minutes.typical > found.minutes.typical - 1e-9
