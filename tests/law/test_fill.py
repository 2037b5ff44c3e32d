"""Laws of a push into a mold, of its branches, of holding and of layers."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from fill_bench import one, piece, push
from pourwright.base.draws import Draws
from pourwright.base.record import from_json, to_json
from pourwright.fill.branch import BranchPart, branch_chain
from pourwright.fill.chance import chance
from pourwright.fill.gate import Gate
from pourwright.fill.held import Standing, held
from pourwright.fill.march import LONGEST_S, march
from pourwright.fill.odds import OddsInput, fill_odds
from pourwright.fill.outcome import outcome
from pourwright.fill.peel import PeelTest, learned
from pourwright.fill.setup import one_push
from pourwright.fill.skin import Chill
from pourwright.fill.slice import SlicePart, chain_of
from pourwright.matter.flow import melt_viscosity_pa_s
from pourwright.matter.mold_material import MoldMaterial
from pourwright.physics.conduction import Solid
from pourwright.physics.two_layer import flows, line_for

lawful = settings(derandomize=True, deadline=None, max_examples=30)
few = settings(derandomize=True, deadline=None, max_examples=5)

PRESSURES = st.floats(2e4, 3e5)
FACES = st.floats(25, 120)


@st.composite
def chains(draw):
    """A sprue, a gate and a body of a few pieces."""
    cavities = draw(st.integers(1, 4))
    gate = draw(st.floats(1.5, 5))
    body = [
        (draw(st.floats(5, 60)), draw(st.floats(6, 14)), draw(st.floats(1.5, 6)))
        for _ in range(draw(st.integers(1, 3)))
    ]
    rows = [
        piece(30, 8, 8, 1, "sprue"),
        piece(4, gate, gate, cavities, "gate"),
        *(piece(*row, cavities) for row in body),
    ]
    return chain_of(from_json(SlicePart, row) for row in rows), cavities


def at(melt_c, face_c, chain, pressure, **known):
    chill = Chill(one(melt_c), one(face_c), one(130), one(0.075e-6), one(0))
    thick = melt_viscosity_pa_s(one(melt_c), 2.0, 5500.0).item()
    return push(chain, pressure=pressure, viscosity=thick, chill=chill, most=50e-6, **known)


@lawful
@given(chains(), st.floats(135, 200), FACES, PRESSURES)
def test_what_a_push_may_do(made, melt_c, face_c, pressure):
    chain, _ = made
    shot = at(melt_c, face_c, chain, pressure)
    found = march(shot)
    total = chain.volume_m3.sum()
    assert 0 <= found.volume_m3.item() <= total * (1 + 1e-9)
    assert 0 <= found.length_m.item() <= chain.length_m.sum() * (1 + 1e-9)
    assert found.clock_s.item() <= LONGEST_S
    # Never faster than the plunger.
    assert found.clock_s.item() >= found.volume_m3.item() / 50e-6 * (1 - 1e-9)
    assert found.peak_m3_s.item() <= 50e-6 * (1 + 1e-9)
    full = found.going.item()
    assert full == (found.volume_m3.item() == pytest.approx(total, rel=1e-9))
    if full:
        assert found.shut.item() == -1
        # Slower than without any skin.
        bare = march(replace(shot, chill=replace(shot.chill, face_c=one(130))))
        assert found.clock_s.item() >= bare.clock_s.item() * (1 - 1e-9)


@lawful
@given(chains(), st.floats(135, 190), FACES, PRESSURES, st.floats(1.02, 1.5))
def test_what_helps_never_hurts(made, melt_c, face_c, pressure, more):
    chain, cavities = made
    now = march(at(melt_c, face_c, chain, pressure))
    better = [
        march(at(melt_c + 10, face_c, chain, pressure)),
        march(at(melt_c, face_c + 5, chain, pressure)),
        march(at(melt_c, face_c, chain, pressure * more)),
    ]
    share = now.volume_m3.item() / chain.volume_m3.sum()
    for front in better:
        # A step of the march is a half of a slice.
        assert front.volume_m3.item() / chain.volume_m3.sum() >= share - 0.02
        if now.going.item():
            assert front.going.item()
            assert front.clock_s.item() <= now.clock_s.item() * (1 + 1e-6)
    if cavities > 1:
        fewer = chain.with_cavities(cavities, cavities - 1)
        alone = march(at(melt_c, face_c, fewer, pressure))
        if now.going.item():
            assert alone.going.item()
            assert alone.clock_s.item() < now.clock_s.item()


@lawful
@given(chains(), st.floats(1.2, 3))
def test_without_setting_time_goes_with_viscosity_over_push(made, more):
    chain, _ = made
    slow = march(push(chain, pressure=1e5, viscosity=more, chill=_warm()))
    fast = march(push(chain, pressure=1e5 * more, viscosity=1.0, chill=_warm()))
    assume(slow.going.item())
    assert slow.clock_s.item() == pytest.approx(fast.clock_s.item() * more**2, rel=1e-9)


def _warm() -> Chill:
    return Chill(one(175), one(150), one(130), one(0.075e-6), one(0))


@lawful
@given(chains(), st.integers(1, 9))
def test_cutting_and_plugging_keep_the_plastic(made, wanted):
    chain, cavities = made
    assume(wanted <= cavities)
    left = chain.with_cavities(cavities, wanted)
    feed = chain.volume_m3[[p.value == "sprue" for p in chain.part]].sum()
    assert left.volume_m3.sum() - feed == pytest.approx(
        (chain.volume_m3.sum() - feed) * wanted / cavities
    )
    assert chain.with_gate(0).volume_m3 == pytest.approx(chain.volume_m3)
    assert chain.with_gate(1).feed_m == chain.feed_m


@lawful
@given(
    st.floats(150, 190), st.floats(0.8, 4), st.floats(3, 60), st.floats(1.05, 2), st.booleans(),
)  # fmt: skip
def test_longer_thinner_and_colder_branches_fill_less(melt_c, thick_mm, long_mm, more, flat):
    def full(length, thick, hot_c):
        part = BranchPart(path_mm=200, branch_mm=length, least_thick_mm=thick, flat=flat)
        return march(at(hot_c, 30, branch_chain(part, 2), 1.2e5)).going.item()

    if not full(long_mm, thick_mm, melt_c):
        assert not full(long_mm * more, thick_mm, melt_c)
        assert not full(long_mm, thick_mm / more, melt_c)
        assert not full(long_mm, thick_mm, melt_c - 5)


@few
@given(
    st.sampled_from(["aluminum", "silicone", "plaster", "epoxy", "printed resin"]),
    st.sampled_from(["one hand", "two hands", "hand pour"]),
    st.floats(120, 215), st.integers(0, 9),
)  # fmt: skip
def test_odds_keep_their_word(material, pusher, melt_c, seed):
    body = [piece(30, 8, 8, 1, "sprue"), piece(4, 4, 4, 2, "gate"), piece(60, 9, 6, 2)]
    asked = {
        "chain": body, "cavities": 2, "melt_c": melt_c, "material": material, "push": pusher,
        "branches": [{"path_mm": 40, "least_thick_mm": 2.5}], "seed": seed,
    }  # fmt: skip
    inputs = from_json(OddsInput, asked)
    told = fill_odds(inputs)
    assert to_json(fill_odds(inputs)) == to_json(told)
    assert 0 <= told.odds.low <= told.odds.typical <= told.odds.high <= 1
    # 160 cases tell a share within a tenth.
    assert told.odds.high - told.odds.low < 0.15
    assert told.odds.typical <= told.branches[0].odds.typical + 1e-12
    assert [h.gained for h in told.helps] == sorted((h.gained for h in told.helps), reverse=True)
    assert all(h.odds - h.gained == pytest.approx(told.odds.typical) for h in told.helps)
    assert (told.fill_s is None) == (told.odds.typical == 0)
    if told.stop:
        assert told.odds.typical <= 1 - told.stop.share + 1e-12
        assert told.stop.front_mm.high <= 94 + 1e-9


@few
@given(st.floats(140, 185), st.floats(15, 60))
def test_hotter_and_warmer_raise_the_odds(melt_c, mold_c):
    body = [piece(40, 8, 8, 1, "sprue"), piece(4, 3.5, 3.5, 4, "gate"), piece(120, 9, 5, 4)]

    def odds(**known):
        asked = {"chain": body, "cavities": 4, "melt_c": melt_c, "mold_c": mold_c} | known
        return chance(outcome(one_push(Draws(), from_json(OddsInput, asked))).full).typical

    now = odds()
    assert odds(melt_c=melt_c + 8) >= now
    assert odds(mold_c=mold_c + 15) >= now
    assert odds(material="silicone") >= now
    assert odds(push_n=300) >= now


@lawful
@given(st.floats(1, 10), st.floats(4, 30), st.floats(150, 190), st.floats(15, 60), st.booleans())
def test_a_larger_gate_holds_longer_and_sinks_less(gate_mm, thick_mm, melt_c, mold_c, flat):
    draws = Draws(count=1)
    small = Standing(
        draws, (Gate(thick_mm=gate_mm),), thick_mm, Solid.SLAB if flat else Solid.CYLINDER,
        draws.known(melt_c), draws.known(mold_c), MoldMaterial.ALUMINUM,
    )  # fmt: skip
    less, more = held(small), held(replace(small, gate_larger_mm=1))
    assert (less.hold_s <= more.hold_s + 1e-9).all()
    assert (less.hold_s <= less.body_sets_s + 1e-9).all()
    assert (less.mean_c >= more.mean_c - 1e-6).all()
    for done in (less, more):
        assert (done.soft_share >= 0).all()
        assert (done.soft_share <= 1 + 1e-9).all()
        assert (done.sink_share >= 0).all()
        # What sinks in is part of what shrinks.
        assert (done.sink_share <= done.shrink_share(0.0) + 1e-9).all()


@lawful
@given(st.floats(0.05, 0.95), st.floats(0.1, 10))
def test_two_colors_in_a_slot(share, thicker):
    line = line_for(share, thicker).item()
    first, second = (f.item() for f in flows(line, thicker))
    assert 0 < line < 1
    assert first / (first + second) == pytest.approx(share, rel=1e-9)
    # Seen from the other wall it is the same slot.
    back, forth = (f.item() for f in flows(1 - line, 1 / thicker))
    assert (forth, back) == pytest.approx((thicker * first, thicker * second), rel=1e-9)
    # The thinner one runs past the other in less room.
    assert line_for(share, thicker * 1.5).item() < line


@lawful
@given(st.lists(st.tuples(st.floats(90, 190), st.booleans()), max_size=8), st.floats(100, 180))
def test_peel_tests_pull_the_odds_their_way(tests, join_c):
    done = [PeelTest(join_c=c, held=h) for c, h in tests]
    now = learned(done)
    assert now.likely.sum() == pytest.approx(1)
    temps = np.full(5, join_c)
    odds = now.odds(temps)
    assert 0 < odds.low <= odds.typical <= odds.high < 1
    assert now.odds(temps + 5).typical >= odds.typical
    better, worse = (
        learned([*done, PeelTest(join_c=join_c, held=h)]).odds(temps).typical for h in (True, False)
    )
    assert worse < odds.typical < better
