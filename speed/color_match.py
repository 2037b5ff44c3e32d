"""Recipes a second against a color library's own way, and how near shelves of 8 and 20 come.

    python3 run.py speed color

The peer takes each recipe by itself through the library: a spectral distribution, to XYZ, to Lab.
Targets are the 99 color evaluation samples of IES TM-30-18 as that library carries them.
"""

from __future__ import annotations

import time
import warnings
from concurrent.futures import ThreadPoolExecutor

import numpy as np

from pourwright.base.draws import Array
from pourwright.color.match.counter import Counter
from pourwright.color.match.objective import Objective
from pourwright.color.match.proof import prove
from pourwright.color.match.search import search
from pourwright.color.match.steps import Bench, counter_of
from pourwright.color.plastic import RawPlastic
from pourwright.color.slab import Placing
from pourwright.spectrum.color_space import lab_of
from pourwright.spectrum.light import WAVELENGTHS_NM, WEIGHTS, Light, white_xyz, xyz_of
from speed.color_shelf import shelf

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import colour
    from colour.quality.cfi2017 import load_TCS_CIE2017

RECIPES = 1_000_000
_CHUNK = 65_536
_PEER_RECIPES = 400
_PROVEN = {8: 24, 20: 3}


def counter(size: int) -> Counter:
    """An invented shelf: 10 mm of clear plastic lying on a white card, 100 g cups, 40 drops."""
    bench = Bench(
        plastic_g=100, plastic=RawPlastic(), fixed=(), thick_mm=10, ground=0.85,
        placing=Placing.AIR_GAP, spoons_tsp=(1.0,), scale_step_g=0.1, most_steps=40,
    )  # fmt: skip
    return counter_of(shelf(size), bench, [WEIGHTS[Light.D65]])


def samples() -> Array:
    """L*a*b* of the 99 samples in daylight, (99, 3)."""
    spectra = load_TCS_CIE2017(colour.SpectralShape(380, 780, 5))
    grid = np.arange(380, 781, 5)
    values = np.stack([np.interp(WAVELENGTHS_NM, grid, v) for v in spectra.values.T])
    return np.asarray(lab_of(xyz_of(values), white_xyz()))


def recipes_a_second() -> None:
    """A million recipes to Lab, and the library's loop over a few of them."""
    ours = counter(8)
    random = np.random.default_rng(1)
    counts = random.integers(0, 20, (RECIPES, ours.bottles)).astype(float)
    starts = range(0, RECIPES, _CHUNK)
    ours.labs(counts[:_CHUNK])
    best = np.inf
    for _ in range(3):
        begin = time.perf_counter()
        with ThreadPoolExecutor(2) as pool:
            list(pool.map(lambda i: ours.labs(counts[i : i + _CHUNK]), starts))
        best = min(best, time.perf_counter() - begin)
    peer = _library_seconds(ours.reflectances(counts[:_PEER_RECIPES]).T.astype(float))
    rate = RECIPES / best / 1e6
    print(f"a million recipes to Lab, two threads: {best:.2f} s ({rate:.2f} million a second)")
    ratio = peer * RECIPES / best
    print(f"a color library, recipe by recipe: {peer * 1e6:.0f} us each; ratio {ratio:.0f}")


def _library_seconds(reflectances: Array) -> float:
    """Seconds a recipe of the straightforward way, the reflectance already known."""
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"]
    light = colour.SDS_ILLUMINANTS["D65"]
    begin = time.perf_counter()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        for row in reflectances:
            spectrum = colour.SpectralDistribution(row, WAVELENGTHS_NM)
            colour.XYZ_to_Lab(colour.sd_to_XYZ(spectrum, observer, light) / 100)
    return (time.perf_counter() - begin) / len(reflectances)


def shelves(size: int) -> None:
    """How near a shelf comes to the 99 samples at once, and how far that is from proven."""
    ours, targets = counter(size), samples()
    scores, seconds = [], []
    for lab in targets:
        begin = time.perf_counter()
        scores.append(float(search(ours, Objective(lab[None], 4, 160)).scores[0]))
        seconds.append(time.perf_counter() - begin)
    shares = "  ".join(f"{np.mean(np.array(scores) <= d):.0%} within {d}" for d in (1, 2, 3))
    print(
        f"{size} colorants, 99 samples: {shares}; instant {np.median(seconds):.2f} s a target "
        f"(95th percentile {np.quantile(seconds, 0.95):.2f})",
        flush=True,
    )
    _proofs(ours, targets, scores, _PROVEN[size])


def _proofs(ours: Counter, targets: Array, scores: list[float], count: int) -> None:
    picked = np.linspace(0, len(targets) - 1, count).astype(int)
    seconds, gaps, open_gaps = [], [], []
    for i in picked:
        begin = time.perf_counter()
        proof = prove(ours, Objective(targets[i][None], 4, 160), scores[i])
        seconds.append(time.perf_counter() - begin)
        gaps.append(scores[i] - proof.score)
        open_gaps.append(proof.score - proof.lower_bound)
    closed = sum(g <= 1e-9 for g in open_gaps)
    print(
        f"    proof of {count}: {closed} closed, {np.median(seconds):.1f} s a target (worst "
        f"{max(seconds):.1f}); instant worse than proven by {max(gaps):.2f} at most; largest gap "
        f"left open {max(open_gaps):.2f}",
        flush=True,
    )


def main() -> None:
    """Print everything."""
    recipes_a_second()
    for size in (8, 20):
        shelves(size)
