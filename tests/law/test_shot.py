"""Laws of the shot account."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from pourwright.base.errors import NoAnswer
from pourwright.fill.account import Account, Bench, account
from pourwright.fill.shot import ShotInput, shot_plan

lawful = settings(derandomize=True, deadline=None, max_examples=150)
few = settings(derandomize=True, deadline=None, max_examples=40)


@st.composite
def benches(draw):
    by_hand = draw(st.booleans())
    return Bench(
        bait_g=draw(st.floats(0.5, 40)),
        feed_g=draw(st.floats(0, 30)),
        cavities=draw(st.integers(1, 12)),
        molds=draw(st.integers(1, 8)),
        load_ml=0.0 if by_hand else draw(st.floats(30, 700)),
        heel_ml=0.0 if by_hand else draw(st.floats(0, 25)),
        cup_ml=draw(st.floats(100, 2000)),
        fill_share=draw(st.floats(0.3, 0.8)),
        residue_g=draw(st.floats(0, 20)),
        cold_g_ml=draw(st.floats(1.0, 1.1)),
        hot_g_ml=draw(st.floats(0.9, 1.0)),
    )


jobs = st.fixed_dictionaries(
    {
        "count": st.integers(1, 600),
        "reject_share": st.floats(0, 0.6),
        "warmup_shots": st.integers(0, 5),
    }
)


def accounted(bench: Bench, **job) -> Account:
    try:
        return account(bench, **job)
    except NoAnswer:
        assume(False)
        raise


@lawful
@given(benches(), jobs)
def test_every_gram_is_accounted_for(bench, job):
    done = accounted(bench, **job)
    parts = (
        done.good_g, done.spare_g, done.reject_g, done.warmup_g,
        done.feed_g, done.heel_g, done.residue_g,
    )  # fmt: skip
    assert all(p >= 0 for p in parts)
    assert math.fsum(parts) == pytest.approx(done.plastic_g, rel=1e-9)
    assert done.waste_g == pytest.approx(math.fsum(parts[1:]), rel=1e-9, abs=1e-6)
    drawn = done.shots * bench.shot_g
    assert math.fsum(c.plastic_g for c in done.cups) == pytest.approx(
        drawn + len(done.cups) * (bench.residue_g + bench.heel_g), rel=1e-9
    )


@lawful
@given(benches(), jobs)
def test_no_fewer_shots_would_do(bench, job):
    done = accounted(bench, **job)
    each = bench.cavities * (1 - job["reject_share"])
    real = done.shots - done.warmup_shots
    assert done.good >= job["count"]
    assert (real - 1) * each < job["count"]
    assert done.spare == done.good - job["count"]


@lawful
@given(benches(), jobs)
def test_cups_hold_whole_shots_and_no_more_than_they_may(bench, job):
    done = accounted(bench, **job)
    assert sum(c.shots for c in done.cups) == done.shots
    assert all(c.shots >= 1 and c.plastic_g <= bench.cup_g + 1e-6 for c in done.cups)
    assert bench.cup_need_g(bench.shots_a_cup + 1) > bench.cup_g
    # Only the last cup may hold less.
    assert all(c.shots == bench.shots_a_cup for c in done.cups[:-1])


@lawful
@given(benches(), jobs)
def test_loads_hold_whole_shots(bench, job):
    done = accounted(bench, **job)
    if bench.load_ml:
        usable = (bench.load_ml - bench.heel_ml) * bench.hot_g_ml
        assert bench.shots_a_load * bench.shot_g <= usable * (1 + 1e-8)
        assert (bench.shots_a_load + 1) * bench.shot_g > usable
        assert done.waves <= done.loads <= done.shots
    else:
        assert done.loads == 0
        assert done.heel_g == 0


@lawful
@given(benches(), jobs, st.integers(1, 200))
def test_more_wanted_never_takes_less(bench, job, more):
    fewer = accounted(bench, **job)
    larger = account(bench, **(job | {"count": job["count"] + more}))
    assert larger.shots >= fewer.shots
    assert len(larger.cups) >= len(fewer.cups)
    assert larger.plastic_g >= fewer.plastic_g * (1 - 1e-12)


@lawful
@given(benches(), jobs)
def test_one_more_mold_never_takes_more_waves(bench, job):
    fields = {name: getattr(bench, name) for name in Bench.__dataclass_fields__}
    more = Bench(**(fields | {"molds": bench.molds + 1}))
    fewer_molds, more_molds = accounted(bench, **job), account(more, **job)
    assert more_molds.waves <= fewer_molds.waves
    # Loads may grow: three molds on loads of two take two loads a wave.
    # Molds change when a cup waits, not what it holds.
    assert more_molds.plastic_g == fewer_molds.plastic_g


@few
@given(
    st.floats(1, 30), st.integers(1, 8), st.integers(1, 300), st.integers(1, 6),
    st.floats(0, 2000), st.floats(0, 1), st.integers(0, 9),
)  # fmt: skip
def test_remelt_and_ranges(bait_ml, cavities, count, molds, remelt_g, share, seed):
    inputs = ShotInput(
        bait_ml=bait_ml, cavities=cavities, count=count, molds=molds, cup_ml=946,
        injector_ml=355, remelt_g=remelt_g, remelt_share=share, seed=seed,
    )  # fmt: skip
    done = shot_plan(inputs)
    assert done.virgin_g + done.remelt_g == pytest.approx(done.plastic_g.typical, rel=1e-9)
    assert done.remelt_g <= min(remelt_g, share * done.plastic_g.typical) * (1 + 1e-12)
    assert 0 <= done.short_risk <= 1
    assert done.good.low <= done.good.typical <= done.good.high
    assert done.good.high <= (done.shots - inputs.warmup_shots) * cavities
    # Packing and density are known to 6 %, feed to 2.5 g a shot, heel and residue to 10 g a cup.
    widest = 0.06 * done.plastic_g.typical + 2.5 * done.shots + 10 * len(done.cups)
    assert done.plastic_g.half_width < widest
    assert shot_plan(inputs) == done
