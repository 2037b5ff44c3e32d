"""What a shelf reaches, against printed pairs, an open color library and every recipe there is."""

from __future__ import annotations

import itertools
import math

import colour
import numpy as np
import pytest

from pourwright.base.record import from_json
from pourwright.color.match.metric import evened, frames
from pourwright.color.predict import predict
from pourwright.color.reach.fit import fits
from pourwright.color.reach.found import found_for
from pourwright.color.reach.gamut import gamut
from pourwright.color.reach.handful import handfuls
from pourwright.color.reach.packing import distinct
from pourwright.color.reach.palette import palette_of
from pourwright.color.reach.question import ReachInput
from pourwright.color.reach.rounding import rounded
from pourwright.color.reach.sample import Tried, sample
from pourwright.color.reach.stock import stock_of
from pourwright.color.reach.subset import best_choice
from pourwright.color.reach.survey import color_reach

# Invented colorants.
SHELF = [
    {"name": name, "drop_mass_g": 0.035, "colorant": {"kind": kind, "color_hex": color_hex}}
    for name, kind, color_hex in (
        ("white", "opaque", "#f4f4f0"),
        ("black", "opaque", "#1c1c1e"),
        ("yellow", "opaque", "#e8c21a"),
        ("red", "opaque", "#b3202a"),
        ("blue", "opaque", "#1f3f9c"),
        ("green", "dye", "#2c7a3d"),
        ("magenta", "dye", "#a82a7c"),
        ("brown", "opaque", "#6b4526"),
    )
]
FINE = colour.SpectralShape(380, 780, 5)


def ask(**changes):
    return from_json(ReachInput, {"shelf": SHELF, **changes})


def apart(one, other):
    """CIEDE2000 of the open library."""
    return colour.delta_E(one, other, method="CIE 2000")


@pytest.fixture(scope="module")
def eight():
    return color_reach.answer({"shelf": SHELF})


@pytest.fixture(scope="module")
def packed():
    """Colors of a sample of six bottles, and those kept as clearly different."""
    stock = stock_of(ask(shelf=SHELF[:6]))
    labs = sample(stock, handfuls(stock), tries=150_000, seed=1).labs
    return labs, labs[distinct(labs)]


def test_six_pigments_give_hundreds_of_colors(packed):
    # Common practice, no source: hundreds, which is neither dozens nor thousands.
    assert 100 < len(packed[1]) < 1000


def test_colors_counted_as_different_are_so(packed):
    # An open color-science library finds every pair of them 5 or more apart.
    kept = packed[1]
    pairs = np.array(list(itertools.combinations(range(len(kept)), 2)))
    assert apart(kept[pairs[:, 0]], kept[pairs[:, 1]]).min() >= 5 - 1e-6


def test_no_color_left_over_is_different_from_all_that_are_kept(packed):
    # A maximal packing (definition): whatever is left lies within 5 of one that is kept.
    labs, kept = packed
    some = labs[:: len(labs) // 300]
    nearest = apart(some[:, None, :], kept[None, :, :]).min(axis=1)
    assert nearest.max() < 5


@pytest.mark.parametrize(
    ("one", "two", "printed"),
    [
        # Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21, table 1.
        ((50, 2.8361, -74.0200), (50, 0, -82.7485), 3.4412),
        ((50, -0.0010, 2.4900), (50, 0.0009, -2.4900), 4.8045),
        ((50, 2.4900, -0.0010), (50, -2.4900, 0.0009), 7.1792),
        ((50, 2.5, 0), (58, 24, 15), 19.4535),
        ((50, 2.5, 0), (73, 25, -18), 27.1492),
    ],
)
def test_two_colors_are_one_or_two_by_their_printed_difference(one, two, printed):
    assert len(distinct(np.array([one, two], dtype=float))) == (2 if printed >= 5 else 1)


@pytest.mark.parametrize(
    ("one", "two", "printed"),
    [
        # Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21, table 1: pairs close to each other.
        ((50, 2.5, 0), (50, 3.1736, 0.5854), 1.0000),
        ((50, 2.5, 0), (50, 3.2972, 0), 1.0000),
        ((61.4292, 2.2480, -4.9620), (61.2901, 3.7196, -5.3901), 1.8731),
        ((22.7233, 20.0904, -46.6940), (23.0331, 14.9730, -42.5619), 2.0373),
        ((36.4612, 47.8580, 18.3852), (36.2715, 50.5065, 21.2231), 1.4146),
        ((90.8027, -2.0831, 1.4410), (91.1528, -1.6435, 0.0447), 1.4441),
    ],
)
def test_the_metric_halfway_gives_the_printed_difference(one, two, printed):
    one, two = np.array(one), np.array(two)
    frame = frames(((one + two) / 2)[None])[0]
    assert float(np.linalg.norm(frame @ (one - two))) == pytest.approx(printed, rel=0.01)


@pytest.mark.parametrize(
    ("one", "two", "printed"),
    [
        # Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21, table 1: pairs far from each other.
        ((50, 2.5, 0), (73, 25, -18), 27.1492),
        ((50, 2.5, 0), (61, -5, 29), 22.8977),
        ((50, 2.5, 0), (56, -27, -3), 31.9030),
        ((50, 2.5, 0), (58, 24, 15), 19.4535),
    ],
)
def test_colors_evened_out_are_within_a_third_as_far_apart_as_printed(one, two, printed):
    one, two = evened(np.array([one, two], dtype=float))
    assert float(np.linalg.norm(one - two)) == pytest.approx(printed, rel=0.3)


def test_the_built_in_palette_is_the_printed_target(eight):
    # ISO 17321-1 patches of an open color-science library, summed at 5 nm; 31 bands miss it by
    # some hundredths.
    patches = colour.SDS_COLOURCHECKERS["ISO 17321-1"]
    light = colour.SDS_ILLUMINANTS["D65"].copy().align(FINE)
    eye = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(FINE)
    weights = light.values[:, None] * eye.values
    white = weights.sum(axis=0) / weights[:, 1].sum()
    for ours, patch in zip(eight["palette"], patches.values(), strict=True):
        xyz = patch.copy().align(FINE).values @ weights / weights[:, 1].sum()
        lab = colour.XYZ_to_Lab(xyz / white[1], colour.XYZ_to_xy(white))
        assert apart(lab, [ours["lightness"], ours["a"], ours["b"]]) < 0.3


def test_samples_of_tm_30_by_recipes_that_predict_confirms():
    # The 99 color evaluation samples of ANSI/IES TM-30-18. Where a whole-step recipe is said to
    # hit one, color.predict must see that color, by the open library's CIEDE2000.
    samples = colour.quality.cfi2017.load_TCS_CIE2017(FINE).values.T[:, 4:65:2]
    palette = [{"color": {"reflectance": s.clip(0).tolist()}} for s in samples]
    answer = color_reach.answer({"shelf": SHELF, "palette": palette})
    assert len(answer["palette"]) == 99
    assert 0.5 < answer["reached_share"] < 1
    for color in answer["palette"][::11]:
        seen = predict.answer({"doses": [dosed(t) for t in color["counted"].split(", ")]})["lab"]
        lab = [seen[name]["typical"] for name in ("lightness", "a", "b")]
        found = apart(lab, [color["lightness"], color["a"], color["b"]])
        assert found == pytest.approx(color["counted_de00"], abs=0.1)


def dosed(words):
    """A dose of color.predict from "white 3 drops" in a cup of 100 g."""
    name, drops, _ = words.split(" ")
    return {**next(b for b in SHELF if b["name"] == name), "per_100g": int(drops)}


def test_nearest_recipes_against_every_recipe_there_is():
    # Exhaustion (closed form): all whole-step recipes of three bottles with 14 drops at most.
    inputs = ask(shelf=SHELF[2:5], most_drops=14, most_colorants=3)
    answer = color_reach(inputs)
    stock = stock_of(inputs)
    every = [s for s in itertools.product(range(15), repeat=3) if sum(s) <= 14]
    labs = stock.labs(np.pad(np.array(every, dtype=float), ((0, 0), (0, 1))))
    for color in answer.palette:
        best = apart(labs, np.array([color.lightness, color.a, color.b])).min()
        assert color.counted_de00 == pytest.approx(best, abs=0.02)
        assert color.nearest_de00 <= best + 0.02


def test_a_sample_counts_all_recipes_where_they_are_few():
    # Stars and bars (closed form): up to n drops of up to two of three bottles,
    # 1 + 3n + 3·n(n - 1)/2.
    stock = stock_of(ask(shelf=SHELF[:3], most_drops=9, most_colorants=2))
    steps = sample(stock, handfuls(stock), tries=40_000, seed=3).steps
    assert len(steps) == 1 + 3 * 9 + 3 * 9 * 8 // 2


@pytest.mark.parametrize(("bottles", "k"), [(6, 3), (9, 4), (12, 6), (21, 2), (22, 20)])
def test_the_best_few_by_trying_each(bottles, k):
    # Exhaustion (closed form) on random tables of reach.
    rng = np.random.default_rng(bottles)
    sets = list(itertools.combinations(range(bottles), 2))[::3]
    bits = np.array([0, *(sum(1 << i for i in s) for s in sets)], dtype=np.int64)
    differences = rng.uniform(0, 15, (70, len(bits)))
    best = best_choice(bits, differences, bottles=bottles, k=k, near=2)
    reached = [
        int((differences[:, (bits & ~np.int64(chosen)) == 0].min(axis=1) <= 2).sum())
        for chosen in (sum(1 << i for i in s) for s in itertools.combinations(range(bottles), k))
    ]
    assert best.reached == max(reached)
    assert best.ties == reached.count(max(reached))
    assert best.bottles.bit_count() == k


def test_every_choice_of_few_is_counted(eight):
    assert eight["small_shelf"]["tried"] == math.comb(8, 6)  # 28, closed form


@pytest.mark.parametrize("handful", [(0, 3, 4), (2, 4, 5), (1, 6, 7)])
def test_colors_of_known_recipes_are_found_again(handful):
    # Round trip (closed form): the color of 0.5 to 40 unrounded drops is reached by that handful.
    stock = stock_of(ask())
    rng = np.random.default_rng(4)
    steps = np.exp(rng.uniform(np.log(0.5), np.log(40), (40, 3)))
    rows = np.tile(handful, (40, 1)).astype(np.intp)
    found = fits(stock, rows[:1], stock.labs_of(rows, steps))
    assert np.mean(found.differences[:, 0] < 0.5) > 0.95
    again = apart(stock.labs_of(rows, found.steps[:, 0]), stock.labs_of(rows, steps))
    assert found.differences[:, 0] == pytest.approx(again, abs=1e-3)


def test_colors_far_out_are_neared_as_by_a_fine_grid():
    # Exhaustion on a grid of 32 amounts a bottle (closed form); the fit alone, without the sample.
    stock = stock_of(ask(shelf=SHELF[:3]))
    rows = np.array([[0, 1, 2]], dtype=np.intp)
    every = np.array(list(itertools.product(0.1 * np.expm1(np.linspace(0, 7.1, 32)), repeat=3)))
    every = every[every.sum(axis=1) <= 120]
    labs = stock.labs_of(np.repeat(rows, len(every), axis=0), every)
    wanted = palette_of(()).labs
    best = np.array([apart(labs, w).min() for w in wanted])
    found = fits(stock, rows, wanted).differences[:, 0]
    assert np.median(best) > 10
    assert abs(np.median(found - best)) < 0.05
    assert np.mean(found - best) < 0.5


def test_whole_steps_around_a_fit_are_near_it_in_a_large_cup():
    # Half a drop at most of each bottle is lost by rounding, which is little in 2 kg of plastic.
    stock = stock_of(ask(shelf=SHELF[:5], plastic_g=2000, most_drops=400))
    found = found_for(stock, palette_of(()), handfuls(stock))
    bare = Tried(np.full((1, 3), 5, dtype=np.intp), np.zeros((1, 3)), np.full((1, 3), 1e3))
    counts, misses = rounded(found, bare)
    assert (counts == np.rint(counts)).all()
    assert np.median(misses - found.nearest()) < 0.25


def test_the_picture_of_a_disc_is_its_rim():
    # A disc of colors of one lightness (closed form): the outline runs along its rim.
    turn, size = np.meshgrid(np.linspace(0, 2 * np.pi, 240, endpoint=False), np.arange(1, 31))
    labs = np.stack([np.full(turn.size, 50.0), (size * np.cos(turn)).ravel(),
                     (size * np.sin(turn)).ravel()], axis=1)  # fmt: skip
    (level,) = gamut(labs)
    assert level.lightness == 50
    assert [np.hypot(p.a, p.b) for p in level.outline] == pytest.approx([30] * 24, abs=1e-9)
    assert len(level.points) == pytest.approx(np.pi * 30**2 / 6**2, rel=0.35)
    for point in level.points:
        rgb = np.array([int(point.srgb_hex[i : i + 2], 16) for i in (1, 3, 5)]) / 255
        lab = colour.XYZ_to_Lab(colour.sRGB_to_XYZ(rgb), (0.3127, 0.3290))
        assert apart(lab, [50, point.a, point.b]) < 0.6
