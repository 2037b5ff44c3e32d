"""The fewest cups: against exhaustive search, closed forms, and what every packing must keep."""

from __future__ import annotations

import functools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pourwright.base.errors import BadInput, NoAnswer
from pourwright.base.record import from_json
from pourwright.fill.shot import shot_plan
from pourwright.plan.cups.cups import plan_cups
from pourwright.plan.cups.cups_input import CupsInput
from pourwright.plan.cups.packing import best_fit, least_cups, packed
from pourwright.plan.cups.remelt_spread import spread

# Nothing is lost in cup or injector, so that shots alone decide.
BARE = {
    "residue_g": 0, "heel_ml": 0, "injector_ml": 0, "cold_density_g_ml": 1,
    "hot_density_g_ml": 1, "fill_share": 0.5,
}  # fmt: skip


def exhaustive(sizes: tuple[int, ...], counts: tuple[int, ...], room: int) -> int:
    """The fewest cups by trying every filling of every cup."""

    @functools.cache
    def fewest(left: tuple[int, ...]) -> int:
        if not any(left):
            return 0
        best = sum(left)
        first = next(k for k, n in enumerate(left) if n)

        def fill(kind: int, spare: int, now: list[int]) -> None:
            nonlocal best
            if kind == len(sizes):
                if now[first] < left[first]:
                    best = min(best, 1 + fewest(tuple(now)))
                return
            for n in range(min(left[kind], spare // sizes[kind]) + 1):
                now[kind] = left[kind] - n
                fill(kind + 1, spare - n * sizes[kind], now)
            now[kind] = left[kind]

        fill(0, room, list(left))
        return best

    return fewest(counts)


LOADS = st.lists(
    st.tuples(st.integers(7, 60), st.integers(1, 4)), min_size=1, max_size=4
)  # fmt: skip


@settings(max_examples=80)
@given(LOADS, st.integers(60, 100))
def test_no_packing_has_fewer_cups(load, room):
    sizes, counts = zip(*load, strict=True)
    found = packed([float(s) for s in sizes], counts, float(room))
    assert found.proven
    assert len(found.cups) == exhaustive(sizes, counts, room)
    assert least_cups(sizes, counts, room) <= len(found.cups) <= len(best_fit(sizes, counts, room))


@given(LOADS, st.integers(60, 100))
def test_every_shot_is_in_one_cup_and_no_cup_runs_over(load, room):
    sizes, counts = zip(*load, strict=True)
    found = packed([float(s) for s in sizes], counts, float(room))
    assert tuple(map(sum, zip(*found.cups, strict=True))) == counts
    for cup in found.cups:
        assert sum(s * n for s, n in zip(sizes, cup, strict=True)) <= room


@given(st.integers(1, 100), st.integers(1, 400), st.integers(100, 900))
def test_shots_of_one_size_fill_cups_one_after_the_other(size, count, room):
    # Closed form: a cup gives floor(room / size) whole shots.
    assert len(packed([size], [count], room).cups) == math.ceil(count / (room // size))


@given(st.lists(st.integers(51, 100), min_size=1, max_size=30))
def test_shots_above_half_a_cup_stand_alone(sizes):
    # Closed form: no two of them share a cup.
    assert len(packed(sizes, [1] * len(sizes), 100).cups) == len(sizes)


def test_a_packing_by_size_is_bettered_where_a_better_one_exists():
    # 44 + 24 + 32 fills a cup, and so does 44 + 33 + 23; by size the two 44s share a cup at once.
    sizes, counts = (44, 24, 32, 33, 23), (2, 1, 1, 1, 1)
    assert len(best_fit(sizes, counts, 100)) == 3
    found = packed([float(s) for s in sizes], counts, 100.0)
    assert len(found.cups) == 2
    assert found.proven


def orders(*lines, **more):
    told = [
        {"color": c, "mold": m, "count": n, "cavities": 2, "bait_g": g, "feed_g": 3,
         "reject_share": 0, "warmup_shots": 0}
        for c, m, n, g in lines
    ]  # fmt: skip
    return {"orders": told, "cup_ml": 200, **BARE, **more}


def cups(data):
    return plan_cups(from_json(CupsInput, data))


def test_plastic_is_baits_feed_residue_and_heel():
    found = cups(
        orders(("green", "worm", 15, 10), residue_g=7, heel_ml=4, injector_ml=60)
    )  # fmt: skip
    # Eight shots of two baits and 3 g feed; 100 g a cup less 7 g residue and 4 g heel gives 3.
    color = found.colors[0]
    assert (color.shots, len(color.cups)) == (8, 3)
    assert found.plastic_g.typical == pytest.approx(8 * 23 + 3 * 11)
    assert color.plastic_g == pytest.approx(sum(c.plastic_g for c in color.cups))
    assert found.spare_baits == 1
    assert (found.residue_g, found.heel_g) == (21, 12)


def test_a_color_through_one_mold_is_the_account_of_a_single_batch():
    data = orders(("green", "worm", 100, 10))
    alone = shot_plan.answer(
        {k: v for k, v in data["orders"][0].items() if k not in {"color", "mold"}}
        | {"cup_ml": 200, **BARE},
    )
    found = cups(data)
    assert found.shots == alone["shots"]
    assert found.cups == len(alone["cups"])
    assert found.plastic_g.typical == pytest.approx(alone["plastic_g"]["typical"])
    assert found.spare_baits == alone["spare_baits"]


def test_orders_of_one_color_and_mold_are_shot_together():
    # Three and three baits of two cavities: 3 shots, not 2 and 2.
    found = cups(orders(("green", "worm", 3, 10), ("green", "worm", 3, 10)))
    assert found.shots == 3
    assert found.spare_baits == 0


def test_colors_never_share_a_cup():
    found = cups(orders(("green", "worm", 2, 10), ("pearl", "worm", 2, 10)))
    assert [len(c.cups) for c in found.colors] == [1, 1]
    assert [c.number for color in found.colors for c in color.cups] == [1, 2]


def test_molds_share_a_cup_unless_told_otherwise():
    lines = (("green", "worm", 4, 10), ("green", "craw", 4, 8))
    assert cups(orders(*lines)).cups == 1
    apart = cups(orders(*lines, one_mold_a_cup=True))
    assert apart.cups == 2
    assert any("would save a cup" in note for note in apart.notes)


def test_remelt_goes_where_it_may_and_never_beyond_its_share():
    data = orders(
        ("green", "worm", 20, 10), ("pearl", "worm", 20, 10), remelt_share=0.25,
        remelt=[{"name": "dark pot", "on_hand_g": 500}], remelt_colors=[{"color": "green"}],
    )  # fmt: skip
    found = cups(data)
    green, pearl = found.colors
    assert pearl.remelt_g == 0
    assert green.remelt_g == pytest.approx(0.25 * green.plastic_g)
    assert all(c.remelt_g <= 0.25 * c.plastic_g + 1e-9 for c in green.cups)
    assert found.virgin_g + found.remelt_g == pytest.approx(found.plastic_g.typical)
    assert found.remelt_left_g == pytest.approx(500 - green.remelt_g)


def test_a_little_remelt_is_used_up():
    data = orders(("green", "worm", 20, 10), remelt=[{"name": "pot", "on_hand_g": 12}],
                  remelt_colors=[{"color": "green"}])  # fmt: skip
    assert cups(data).remelt_g == pytest.approx(12)


def test_a_pot_bound_to_one_color_leaves_the_free_one_for_the_other():
    pots = from_json(
        CupsInput,
        orders(
            ("green", "worm", 2, 10), ("brown", "worm", 2, 10),
            remelt=[{"name": "any", "on_hand_g": 50},
                    {"name": "greens", "on_hand_g": 50, "only_into": "green"}],
            remelt_colors=[{"color": "green"}, {"color": "brown"}],
        ),
    ).remelt  # fmt: skip
    found = spread(pots, {"green": 40.0, "brown": 60.0})
    assert found == pytest.approx({("any", "brown"): 50, ("greens", "green"): 40})


def test_remelt_without_a_color_to_hide_it_is_said_and_not_used():
    found = cups(orders(("pearl", "worm", 2, 10), remelt=[{"name": "pot", "on_hand_g": 90}]))
    assert found.remelt_g == 0
    assert any(note.startswith("remelt:") for note in found.notes)


@pytest.mark.parametrize(
    ("data", "field", "why"),
    [
        (orders(("green", "worm", 2, 10), ("green", "worm", 2, 11)), r"orders\[1\].mold", "sizes"),
        (orders(("green", "worm", 2, 10), remelt_colors=[{"color": "red"}]),
         r"remelt_colors\[0\].color", "nobody ordered"),
        (orders(("green", "worm", 2, 10), remelt=[{"name": "a", "on_hand_g": 1}] * 2),
         r"remelt\[1\].name", "twice"),
        (orders(("green", "worm", 20_000, 10), ("green", "worm", 1, 10)),
         r"orders\[1\].count", "more than"),
    ],
)  # fmt: skip
def test_what_does_not_fit_together_is_refused_by_name(data, field, why):
    with pytest.raises(BadInput, match=f"{field}.*{why}"):
        cups(data)


def test_a_shot_that_fits_no_cup_has_no_answer():
    with pytest.raises(NoAnswer, match="worm: one shot needs"):
        cups(orders(("green", "worm", 2, 60)))


def test_more_shots_than_a_search_takes_still_come_into_cups_at_once():
    # The search for the proof took minutes where it was asked about thousands of cups.
    orders = [
        {"color": "a", "mold": str(i), "count": 5000, "cavities": 1, "bait_g": 3.1 * i}
        for i in range(1, 11)
    ]
    answer = plan_cups.answer({"orders": orders, "cup_ml": 500})
    (color,) = answer["colors"]
    shots = sum(mold["shots"] for cup in color["cups"] for mold in cup["shots"])
    assert shots == answer["shots"]
    assert color["least_cups"] <= answer["cups"] <= 1.02 * color["least_cups"]
    assert not answer["proven"]
    assert any("the search ended" in note for note in answer["notes"])


def test_what_an_order_lacks_is_said_at_its_place():
    orders = [
        {"color": "a", "mold": "worm", "count": 5, "cavities": 1, "bait_g": 9},
        {"color": "a", "mold": "craw", "count": 5, "cavities": 1},
    ]
    with pytest.raises(BadInput) as refused:
        plan_cups.answer({"orders": orders, "cup_ml": 500})
    assert refused.value.field == "orders[1].bait_g"
