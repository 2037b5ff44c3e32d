"""Promises that every shelf keeps."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from pourwright.base.record import from_json
from pourwright.color.match.miss import miss_in_words
from pourwright.color.reach.gamut import gamut
from pourwright.color.reach.handful import bits, handfuls
from pourwright.color.reach.packing import distinct
from pourwright.color.reach.question import ReachInput
from pourwright.color.reach.sample import sample
from pourwright.color.reach.stock import stock_of
from pourwright.color.reach.survey import color_reach

few = settings(max_examples=12)
HEXES = st.integers(0, 0xFFFFFF).map(lambda n: f"#{n:06x}")
KINDS = st.sampled_from(["dye", "opaque", "pearl"])
LAB = st.tuples(st.floats(0, 100), st.floats(-100, 100), st.floats(-100, 100)).map(np.array)


@st.composite
def shelves(draw, most=4):
    looks = draw(st.lists(st.tuples(KINDS, HEXES), min_size=1, max_size=most))
    return [
        {"name": f"bottle {i}", "colorant": {"kind": k, "color_hex": h}}
        for i, (k, h) in enumerate(looks)
    ]


def ask(shelf, **changes):
    return from_json(ReachInput, {"shelf": shelf, **changes})


@few
@given(shelves(), st.integers(1, 3), st.integers(1, 60))
def test_recipes_of_a_sample_keep_the_limits(shelf, colorants, drops):
    stock = stock_of(ask(shelf, most_colorants=colorants, most_drops=drops))
    tried = sample(stock, handfuls(stock), tries=2000, seed=5)
    steps = tried.steps
    assert (steps == np.rint(steps)).all()
    assert (steps >= 0).all()
    assert (steps.sum(axis=1) <= drops).all()
    assert ((steps > 0).sum(axis=1) <= min(colorants, len(shelf))).all()
    counts = stock.counts(tried.chosen, steps)
    assert len(np.unique(counts, axis=0)) == len(counts)


@few
@given(shelves(), st.integers(1, 60))
def test_answers_are_within_what_they_mean(shelf, drops):
    answer = color_reach(ask(shelf, most_drops=drops, k=2))
    reached = [c for c in answer.palette if c.reached]
    assert answer.reached_share == len(reached) / 24
    assert len(answer.not_reached) == 24 - len(reached)
    assert answer.distinct == len(answer.distinct_hex) <= answer.recipes_tried
    shares = [w.share for w in answer.within]
    assert shares == sorted(shares)
    for color in answer.palette:
        assert color.nearest_de00 <= color.counted_de00
        assert color.reached == (color.nearest_de00 <= 2) == (not color.miss)
    assert answer.small_shelf.reached <= len(reached)


@few
@given(shelves())
def test_one_bottle_more_never_takes_colors_away(shelf):
    fewer, more = (color_reach(ask(s)) for s in (shelf[:1], shelf))
    for one, other in zip(fewer.palette, more.palette, strict=True):
        assert other.nearest_de00 <= one.nearest_de00 + 1e-3


@settings(max_examples=6, phases=[Phase.generate])
@given(shelves(most=3), shelves(most=2))
def test_a_purchase_does_what_it_says(shelf, others):
    candidates = [{**b, "name": f"candidate {i}"} for i, b in enumerate(others)]
    answer = color_reach(ask(shelf, candidates=candidates))
    before = np.mean([c.nearest_de00 for c in answer.palette])
    for bought in answer.purchases:
        bottle = next(c for c in candidates if c["name"] == bought.name)
        after = color_reach(ask([*shelf, bottle]))
        assert bought.adds == len(answer.not_reached) - len(after.not_reached)
        drop = before - np.mean([c.nearest_de00 for c in after.palette])
        assert bought.mean_drop_de00 == pytest.approx(drop, abs=0.1)


@given(st.lists(LAB, min_size=1, max_size=40))
def test_distinct_colors_are_some_of_those_given(labs):
    kept = distinct(np.array(labs))
    assert len(set(kept.tolist())) == len(kept) >= 1


@given(st.lists(LAB, min_size=1, max_size=60))
def test_a_picture_shows_only_what_was_found(labs):
    found = {(lab[1], lab[2]) for lab in labs}
    for level in gamut(np.array(labs)):
        shown = {(p.a, p.b) for p in (*level.outline, *level.points)}
        assert shown <= found


@given(LAB, LAB)
def test_a_miss_has_words(wanted, nearest):
    assert miss_in_words(wanted, nearest).startswith("too ")


@few
@given(shelves(), shelves(most=3), st.integers(1, 3))
def test_handfuls_hold_one_candidate_at_most_and_none_twice(shelf, others, colorants):
    candidates = [{**b, "name": f"candidate {i}"} for i, b in enumerate(others)]
    stock = stock_of(ask(shelf, candidates=candidates, most_colorants=colorants))
    found = bits(stock, handfuls(stock)).tolist()
    assert len(set(found)) == len(found)
    for one in found:
        assert one.bit_count() <= colorants
        assert (one >> len(shelf)).bit_count() <= 1
