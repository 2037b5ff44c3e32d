"""Promises kept for every photo and every kind of target."""

from __future__ import annotations

import functools
import itertools

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from photo_booth import Scene, Shot, camera, dyed_pucks, taken
from pourwright.base.errors import BadInput, NoAnswer, PourwrightError
from pourwright.base.picture import Picture
from pourwright.color.photo.camera import ROOT_PRIOR, root_monomials, weight_of
from pourwright.color.photo.corner import plane, quad, through
from pourwright.color.photo.joint import Sample, joint_fit
from pourwright.color.photo.read import PhotoInput, photo
from pourwright.color.photo.shape import likely_reflectance
from pourwright.color.photo.spot import LINEAR, Disk, Point, Spot, reading
from pourwright.color.photo.target import TARGETS, ColorPatches, GrayStrip
from pourwright.spectrum.light import xyz_of
from pourwright.spectrum.patches import PATCH_REFLECTANCE

PUCKS = dyed_pucks(4, 21)
SHARES = (0.9, 0.4, 0.18, 0.07, 0.03)
KNOWN = {
    "24 patches": (ColorPatches(), Scene(PATCH_REFLECTANCE, 6, PUCKS)),
    "gray strip": (
        GrayStrip(shares=SHARES),
        Scene(np.repeat(np.array(SHARES)[:, None], 31, axis=1), 5, PUCKS),
    ),
}
some = settings(max_examples=8)


@functools.cache
def shot_of(key, *, exposure=0.6, **how):
    return taken(KNOWN[key][1], camera(5, phone=True, exposure=exposure), Shot(**how))


def asked(key, shot, *, codes=None, order=(0, 1, 2, 3), corners=None):
    taps = shot.corners if corners is None else corners
    return photo(
        PhotoInput(
            photo=Picture(shot.codes if codes is None else codes),
            target=KNOWN[key][0],
            corners=tuple(Point(x_px=x, y_px=y) for x, y in taps[list(order)]),
            spots=tuple(
                Spot(name=str(i), x_px=x, y_px=y, radius_px=7)
                for i, (x, y) in enumerate(shot.pucks)
            ),
            card=tuple(Disk(x_px=x, y_px=y, radius_px=5) for x, y in shot.card),
        )
    )


@functools.cache
def plainly_asked(key):
    return asked(key, shot_of(key))


def colors(answer):
    return np.array(
        [[s.lab.lightness.typical, s.lab.a.typical, s.lab.b.typical] for s in answer.spots]
    )


def test_every_kind_of_target_is_tried_here():
    assert set(KNOWN) == set(TARGETS)


@pytest.mark.parametrize("key", KNOWN)
def test_taps_may_come_in_any_order(key):
    shot = shot_of(key, tilt=0.1)
    straight = asked(key, shot)
    # Every fourth of the 24 orders: each corner comes first once or twice, both ways round.
    for order in itertools.islice(itertools.permutations(range(4)), 0, None, 4):
        answer = asked(key, shot, order=order)
        assert colors(answer) == pytest.approx(colors(straight), abs=0.7)
        assert answer.patches[0].x_px == pytest.approx(straight.patches[0].x_px, abs=0.01)


@pytest.mark.parametrize("key", KNOWN)
@pytest.mark.parametrize("turn", [90, 180, 270])
def test_a_target_may_lie_any_way_round(key, turn):
    upright = colors(plainly_asked(key))
    # The taps begin at the upper left as seen, whichever patch lies there.
    shot = shot_of(key, turn_deg=turn)
    first = int(np.argmin(shot.corners.sum(axis=1)))
    answer = asked(key, shot, order=np.roll(np.arange(4), -first))
    assert answer.turned_deg == turn
    assert colors(answer) == pytest.approx(upright, abs=1.5)


@pytest.mark.parametrize("key", KNOWN)
@some
@given(st.floats(0.3, 0.75))
def test_exposure_changes_no_color(key, exposure):
    # Linear fits scale with the light; what is left is noise and the rounding to 8 bits.
    bright = colors(plainly_asked(key))
    assert colors(asked(key, shot_of(key, exposure=exposure))) == pytest.approx(bright, abs=2.5)


@pytest.mark.parametrize("key", KNOWN)
@some
@given(st.tuples(*[st.floats(-0.3, 0.3)] * 2), st.floats(0, 0.3))
def test_bands_hold_order_and_range(key, fall, tilt):
    answer = asked(key, shot_of(key, exposure=0.45, fall=(*fall, 0.1), tilt=tilt))
    for spot in answer.spots:
        for band in (spot.lab.lightness, spot.lab.a, spot.lab.b):
            assert band.low < band.typical < band.high
            assert band.half_width < 30
        assert 0 <= spot.lab.lightness.low <= spot.lab.lightness.high <= 100
        assert all(0 < b.low < b.typical < b.high < 1 for b in spot.reflectance)
        assert spot.miss_de00 > 0
    assert answer.light_ratio >= 1


@some
@given(st.integers(0, 2**31), st.sampled_from(list(KNOWN)), st.integers(2, 40))
def test_patches_of_no_target_are_never_read(seed, key, block):
    # Blocks of any color: nothing of this is the target.
    shot = shot_of(key)
    draw = np.random.default_rng(seed)
    small = draw.integers(3, 250, (*(-(-s // block) for s in shot.codes.shape[:2]), 3))
    codes = np.repeat(np.repeat(small, block, axis=0), block, axis=1).astype(np.uint8)
    codes = codes[: shot.codes.shape[0], : shot.codes.shape[1]]
    with pytest.raises((NoAnswer, BadInput)):
        asked(key, shot, codes=codes)


@settings(max_examples=25)
@given(st.lists(st.tuples(st.floats(0, 380), st.floats(0, 250)), min_size=4, max_size=4))
def test_wild_taps_are_refused_or_answered_but_never_break(taps):
    shot = shot_of("24 patches")
    try:
        answer = asked("24 patches", shot, corners=np.array(taps))
    except PourwrightError:
        return
    assert np.isfinite(colors(answer)).all()


@given(st.lists(st.tuples(st.floats(0, 999), st.floats(0, 999)), min_size=4, max_size=4),
       st.permutations(range(4)))  # fmt: skip
def test_corners_come_back_by_the_clock(points, order):
    corners = np.array(points)
    try:
        turned = quad(corners, patches_long=6, patches=24)
    except BadInput:
        assume(False)
    again = quad(corners[list(order)], patches_long=6, patches=24)
    first = int(np.argmin(np.abs(again - turned[0]).sum(axis=1)))
    assert np.roll(again, -first, axis=0) == pytest.approx(turned)
    assert through(plane(turned), np.array([[0, 0], [1, 0], [1, 1], [0, 1.0]])) == pytest.approx(
        turned, abs=1e-4
    )


@given(st.integers(3, 240), st.floats(0, 0.25), st.integers(0, 2**31))
def test_a_lamps_mirror_image_changes_no_reading(code, share, seed):
    codes = np.full((400, 3), code, dtype=np.uint8)
    wet = codes.copy()
    wet[: int(share * 400)] = 255
    np.random.default_rng(seed).shuffle(wet)
    assume(LINEAR[255] > 1.25 * LINEAR[code] + 0.005)
    got = reading(wet)
    assert got.glare_share == pytest.approx(int(share * 400) / 400)
    assert got.linear == pytest.approx(reading(codes).linear)


@given(st.integers(0, 23), st.floats(0, 4))
def test_a_likely_reflectance_shows_its_color(patch, doubt):
    xyz = xyz_of(PATCH_REFLECTANCE[patch])
    bands = likely_reflectance(xyz, np.eye(3) * doubt)
    shown = xyz_of(np.array([b.typical for b in bands]))
    assert shown == pytest.approx(xyz, abs=1 + 2 * doubt)
    surer = likely_reflectance(xyz, np.eye(3) * 1e-6)
    assert all(a.half_width <= b.half_width + 0.02 for a, b in zip(surer, bands, strict=True))


def burden(sample, coefficients, fall, log_bend):
    """What the fit makes least, written out anew from its docstring and the priors beside it."""
    lit = np.exp(-sample.terms @ fall)[:, None, None] * sample.monomials ** np.exp(log_bend)
    missed = (np.einsum("nck,ck->nc", lit, coefficients) - sample.known) * sample.weight[:, None]
    card = np.exp(log_bend) * sample.card_log - sample.card_terms @ fall
    total = (missed**2).sum() + (ROOT_PRIOR * coefficients**2).sum() + (log_bend / 0.15) ** 2
    prior = np.array([0.3, 0.3, 0.045, 0.045, 0.045]) ** -2
    return (
        total + (prior * fall**2).sum() + len(card) * (card.std() / 0.01 if len(card) else 0) ** 2
    )


@some
@given(st.integers(0, 2**31), st.sampled_from([0, 4]))
def test_no_small_step_makes_the_fit_better(seed, cards):
    draw = np.random.default_rng(seed)
    known = xyz_of(PATCH_REFLECTANCE)
    linear = np.maximum(known / 100 @ np.array([[1.2, 0.1, 0], [0.1, 1, 0.1], [0, 0.1, 0.9]]), 1e-3)
    terms, card_terms = draw.uniform(-1, 1, (24, 5)), draw.uniform(-1, 1, (cards, 5))
    fall = draw.normal(0, [0.2, 0.2, 0.03, 0.03, 0.03])
    seen = (linear * np.exp(terms @ fall)[:, None]) ** draw.uniform(0.85, 1.15)
    seen *= draw.normal(1, 0.02, seen.shape)
    sample = Sample(
        root_monomials(0.9 * seen / seen.max()), terms, known, weight_of(known[:, 1]),
        card_terms, card_terms @ fall + draw.normal(0, 0.01, cards),
    )  # fmt: skip
    fit = joint_fit(sample, ROOT_PRIOR)
    found = np.concatenate([fit.coefficients.ravel(), fit.fall, [fit.log_bend]])
    least = burden(sample, fit.coefficients, fit.fall, fit.log_bend)
    spread = np.sqrt(np.diag(fit.covariance))
    for i, side in itertools.product(range(len(found)), (-1, 1)):
        other = found.copy()
        other[i] += 0.1 * side * spread[i]
        assert burden(sample, other[:18].reshape(3, 6), other[18:23], other[23]) > least
