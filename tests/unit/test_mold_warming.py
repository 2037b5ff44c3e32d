"""A mold that warms shot by shot: time-step figures, the exact series, and the maker's story."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.heat.bait_cooling import open_seconds
from pourwright.heat.bait_in_mold import BaitInMold, Mold, Shot, bait_in_mold
from pourwright.heat.mold_warming import Pace, cool_mold, next_shot, plateau_c

K, ALPHA, CP = 0.13, 0.13 / 1000 / 1950, 1950.0
ROD = {"thickest_mm": 12, "bait_g": 25, "feed_g": 0, "mold_g": 1200}


def one(value: float) -> np.ndarray:
    return np.array([value])


def bait(
    *, mold_kg: float = 1.2, shot_g: float = 25, thick_mm: float = 12, loss: float = 0.5,
    flat: bool = False, film: float = 800.0, air_film: float | None = None,
) -> BaitInMold:  # fmt: skip
    shot = Shot(
        one(thick_mm / 1000), flat, one(shot_g / 1000 * CP), one(165), one(60), one(ALPHA), one(K)
    )
    air = None if air_film is None else one(air_film)
    return bait_in_mold(shot, Mold(one(mold_kg * 897), one(loss), one(film), one(25), air))


def row(
    made: BaitInMold, count: int, *, open_s: float = 40, dip_s: float = 0
) -> list[tuple[float, float]]:
    """Opening time of each shot and the mold before the next one."""
    pace = Pace(20.0, one(open_s), 1, one(0), dip_s, one(15), one(15))
    mold, found = one(25.0), []
    for _ in range(count):
        opened, mold = next_shot(made, pace, mold)
        found.append((float(opened[0]), float(mold[0])))
    return found


# Expected figures below: implicit half-second time steps on 24 even cells beside one mold node,
# an own computation made apart from this code.
@pytest.mark.parametrize(("shot", "open_s", "mold_c"), [
    (1, 193, 30), (4, 234, 41), (8, 285, 48), (12, 312, 51),
])  # fmt: skip
def test_heavy_mold_shot_by_shot(shot, open_s, mold_c):
    found = row(bait(), 12)[shot - 1]
    assert found[0] == pytest.approx(open_s, abs=1.5)
    assert found[1] == pytest.approx(mold_c, abs=0.6)


def test_light_mold_is_soon_too_warm():
    found = row(bait(mold_kg=0.5, loss=0.3), 60)
    assert found[2][0] == pytest.approx(308, abs=2)
    assert found[-1][0] == pytest.approx(457, abs=3)
    assert found[-1][1] == pytest.approx(55, abs=0.5)


def test_rest_between_shots():
    # Two molds by turns, so that each stands open for three minutes.
    assert row(bait(), 12, open_s=180)[-1][0] == pytest.approx(272, abs=1.5)


def test_dip_after_every_shot():
    found = row(bait(), 12, dip_s=60)
    assert all(19 < mold < 22 for _, mold in found)
    assert found[-1][0] == pytest.approx(182, abs=1.5)


@pytest.mark.parametrize("film", [300.0, 3000.0])
@pytest.mark.parametrize("thick_mm", [6.0, 20.0])
@pytest.mark.parametrize("flat", [True, False])
def test_first_shot_into_a_boundless_mold_is_the_exact_series(flat, thick_mm, film):
    # Series: Incropera and DeWitt, 6th ed., sec. 5.5 and 5.6.
    made = bait(mold_kg=1e6, thick_mm=thick_mm, flat=flat, film=film)
    exact = open_seconds(
        thickest_m=one(thick_mm / 1000), flat=flat, melt_c=one(165), mold_c=one(25),
        firm_c=one(60), film_w_m2k=one(film), alpha_m2_s=one(ALPHA), k_w_mk=one(K),
    )  # fmt: skip
    assert made.open_s(made.poured(one(25)))[0] == pytest.approx(exact[0], rel=0.006)


@pytest.mark.parametrize(("thick_mm", "open_s"), [(6, 220), (10, 504), (16, 1086)])
def test_open_mold_poured_by_hand(thick_mm, open_s):
    # Expected: half-second time steps, metal at 25 °C below (800 W/(m²·K)), air above (20).
    made = bait(mold_kg=1e6, thick_mm=thick_mm, flat=True, air_film=20)
    assert made.open_s(made.poured(one(25)))[0] == pytest.approx(open_s, rel=0.01)


def test_empty_mold_cools_by_newton():
    # Closed form: half of the excess is gone after C/UA·ln 2.
    half = 1.2 * 897 / 0.5 * math.log(2)
    assert bait().mold.rested_c(one(65), one(half))[0] == pytest.approx(45)
    dipped = bait().mold.dipped_c(
        one(55), seconds=1.2 * 897 / 15 * math.log(2), water_c=one(15), dip_w_k=one(15)
    )
    assert dipped[0] == pytest.approx(35)


def test_no_losses_no_rest_ends_where_heat_is_shared():
    # Heat balance on paper: 25 g at 165 °C and 1.2 kg of aluminum at 25 °C share their heat.
    made = bait(loss=1e-9)
    shared = (0.025 * CP * 165 + 1.2 * 897 * 25) / (0.025 * CP + 1.2 * 897)
    assert made.mold_c(made.poured(one(25)), one(30_000))[0] == pytest.approx(shared, abs=1e-3)


def test_plateau_gives_itself_back():
    pace = Pace(20.0, one(40), 1, one(0), 0.0, one(15), one(15))
    settled = plateau_c(bait(), pace)
    assert next_shot(bait(), pace, settled)[1][0] == pytest.approx(settled[0], abs=0.01)
    assert row(bait(), 80)[-1][1] == pytest.approx(settled[0], abs=0.05)


def test_several_molds_rest_while_others_have_their_turn():
    def after(molds: int) -> float:
        pace = Pace(20.0, one(40), molds, one(105), 0.0, one(15), one(15))
        opened, mold = next_shot(bait(), pace, one(25))
        assert opened[0] == pytest.approx(193, abs=1.5)
        return float(mold[0])

    # Closed form: six molds of 105 s each leave 630 s less the time the mold was closed.
    poured = bait().poured(one(25))
    closed = bait().open_s(poured) + 20
    rested = bait().mold.rested_c(bait().mold_c(poured, closed), 630 - closed)
    assert after(6) == pytest.approx(float(rested[0]))
    assert after(1) == pytest.approx(after(2))
    assert after(6) < after(2)


def test_story_of_a_light_mold():
    answer = cool_mold.answer(ROD | {"mold_g": 500})
    assert answer["warm_from"] == 4
    assert answer["plateau_c"]["typical"] > 45
    assert answer["busy_first"] == 3
    assert any("water flashes to steam" in n for n in answer["notes"])
    assert len(answer["shots"]) == 12
    for earlier, later in pairwise(answer["shots"]):
        assert later["open_s"]["typical"] > earlier["open_s"]["typical"] - 0.02


def test_dip_is_cautioned():
    answer = cool_mold.answer(ROD | {"dip_s": 60})
    assert answer["warm_from"] is None
    assert any("dry every cavity" in n for n in answer["notes"])
    assert any(n.startswith("water_c was left out") for n in answer["notes"])
    undipped = cool_mold.answer(ROD | {"mold_g": 5000})
    assert not any("dry every cavity" in n or "water_c" in n for n in undipped["notes"])


def test_open_and_insulating_molds_are_told_apart():
    closed = cool_mold.answer(ROD)["shots"][0]["open_s"]["typical"]
    open_face = cool_mold.answer(ROD | {"open_face": True})
    assert open_face["shots"][0]["open_s"]["typical"] > 2 * closed
    assert any("taken as flat" in n for n in open_face["notes"])
    soft = cool_mold.answer(ROD | {"material": "silicone"})
    assert soft["shots"][0]["open_s"]["typical"] > 1.8 * closed
    assert any("insulates" in n for n in soft["notes"])


@pytest.mark.parametrize(
    ("given", "field"),
    [({"molds": 0}, "molds"), ({"dip_s": -1}, "dip_s"), ({"bait_g": 0}, "bait_g"),
     ({"thickest_mm": float("nan")}, "thickest_mm")],
)  # fmt: skip
def test_nonsense_is_refused_by_name(given, field):
    with pytest.raises(BadInput) as refusal:
        cool_mold.answer(ROD | given)
    assert refusal.value.field == field


def test_mold_or_room_too_warm():
    with pytest.raises(NoAnswer, match=r"mold at 70 °C .* cool the mold first"):
        cool_mold.answer(ROD | {"mold_c": 70})
    with pytest.raises(NoAnswer, match="room at 42 °C"):
        cool_mold.answer(ROD | {"mold_c": 20, "ambient_c": 42, "firm_c": 40})
