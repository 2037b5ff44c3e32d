"""The fish's eye against printed values, closed forms and what real fish confused."""

from __future__ import annotations

import itertools

import numpy as np
import pytest

from fish_told_apart import told_apart
from pourwright.base.band import exact
from pourwright.base.draws import Draws
from pourwright.spectrum.lamp import daylight_power
from pourwright.spectrum.light import BANDS, EYE, WAVELENGTHS_NM
from pourwright.water.fish.contrast import fish_contrast
from pourwright.water.fish.dim import PHOTONS_PER_LX, photons
from pourwright.water.fish.eye import Cone, Eye
from pourwright.water.fish.noise import brightness_steps, class_noise, color_steps, with_photons
from pourwright.water.fish.pigment import main_band_a1, main_band_a2, sensitivity
from pourwright.water.fish.species import KNOWN, Species

DAYLIGHT = daylight_power(6504)
GRAY = 0.2 * DAYLIGHT
BASS = KNOWN[Species.LARGEMOUTH_BASS].eye


def test_the_main_band_is_one_at_its_peak():
    # Govardovskii et al., Vis. Neurosci. 17 (2000) 509: the printed constants, put in by hand.
    assert main_band_a1(np.array(535.0), 535) == pytest.approx(1.00085, abs=1e-5)
    assert main_band_a1(np.array(400.0), 400) == pytest.approx(1.00018, abs=2e-5)
    assert main_band_a2(np.array(614.0), 614) == pytest.approx(0.99966, abs=1e-5)


@pytest.mark.parametrize("peak_nm", [440.0, 535.0, 600.0])
@pytest.mark.parametrize("band", [main_band_a1, main_band_a2])
def test_the_main_band_has_its_top_where_it_says(band, peak_nm):
    # Govardovskii et al. (2000): the templates are normalized at their peak.
    grid = np.arange(400.0, 700.0, 0.25)
    found = band(grid, peak_nm)
    assert grid[found.argmax()] == pytest.approx(peak_nm, abs=2)
    assert found.max() == pytest.approx(1, abs=0.003)


@pytest.mark.parametrize(
    ("wavelength_nm", "scotopic"),
    # CIE 1951 scotopic luminous efficiency V' (CIE S 010:2004, from memory), by power.
    [(550, 0.481), (580, 0.1212), (600, 0.03315), (620, 0.00737), (640, 0.001497)],
)
def test_the_sea_pigment_follows_our_own_rods(wavelength_nm, scotopic):
    # The lens is clear on the long side, so V' by photons is the rod's rhodopsin (peak 500 nm).
    by_photons = scotopic * 507 / wavelength_nm
    found = sensitivity(np.array([float(wavelength_nm), 507.0]), 500, a2=False)
    assert np.log10(found[0] / found[1]) == pytest.approx(np.log10(by_photons), abs=0.12)


def test_the_fresh_pigment_is_the_broader():
    # Bridges, Vision Res. 7 (1967) 349 (from memory): porphyropsin bands are broader.
    grid = np.arange(400.0, 701.0)
    widths = [int((band(grid, 540) > 0.5).sum()) for band in (main_band_a1, main_band_a2)]
    assert widths[0] + 8 < widths[1] < widths[0] + 40


@pytest.mark.parametrize(
    ("a2", "middle_nm", "wide_nm", "height"),
    [(False, 357.525, 63.825, 0.26), (True, 370.245, 57.204, 0.37)],
)
def test_the_small_band_lies_where_it_is_printed(a2, middle_nm, wide_nm, height):
    # Govardovskii et al. (2000), for a peak of 535 nm: 189 + 0.315·535, 216.7 + 0.287·535 and the
    # widths in which it falls to 1/e, put in by hand.
    main = main_band_a2 if a2 else main_band_a1
    at = np.array([middle_nm, middle_nm + wide_nm])
    small = sensitivity(at, 535, a2=a2) - main(at, 535)
    assert small == pytest.approx([height, height / np.e], abs=1e-4)


@pytest.mark.parametrize(
    ("species", "peaks_nm"),
    [
        # Mitchem et al., Curr. Zool. 65 (2019) 43, abstract.
        (Species.LARGEMOUTH_BASS, [535, 614]),
        # Dearry and Barlow (1987), restated by Lynch, Univ. of Pennsylvania (1998), abstract.
        (Species.GREEN_SUNFISH, [532, 621]),
        # Bowmaker and Kunz, Vision Res. 27 (1987) 2101, abstract; ultraviolet left out.
        (Species.BROWN_TROUT, [440, 535, 600]),
        # Hawryshyn and Harosi, Vision Res. 34 (1994) 1385, abstract; ultraviolet left out.
        (Species.RAINBOW_TROUT, [434, 531, 576]),
    ],
)
def test_the_cones_of_known_fish(species, peaks_nm):
    assert [c.peak_nm for c in KNOWN[species].eye.cones] == peaks_nm


def test_photons_count_not_power():
    # Planck: a photon of wavelength l carries hc/l, so a light of equal photons has power 1/l.
    equal_photons = 1 / WAVELENGTHS_NM
    caught = BASS.caught(equal_photons, np.array([1.0]))
    sums = [sensitivity(WAVELENGTHS_NM, peak, a2=True).sum() for peak in (535, 614)]
    assert caught[0] == pytest.approx(sums, rel=1e-12)


def test_two_cones_follow_the_printed_form():
    # Vorobyev and Osorio, Proc. R. Soc. B 265 (1998) 351: |f1 - f2| / sqrt(e1² + e2²).
    found = color_steps(np.array([0.21, -0.4]), np.array([0.05, 0.12]))
    assert found == pytest.approx(0.61 / 0.13, rel=1e-12)


def test_three_cones_follow_the_printed_form():
    # Vorobyev and Osorio (1998), trichromats.
    (f1, f2, f3), (e1, e2, e3) = (0.3, -0.1, 0.17), (0.11, 0.07, 0.05)
    above = (e1 * (f3 - f2)) ** 2 + (e2 * (f3 - f1)) ** 2 + (e3 * (f1 - f2)) ** 2
    below = (e1 * e2) ** 2 + (e1 * e3) ** 2 + (e2 * e3) ** 2
    found = color_steps(np.array([f1, f2, f3]), np.array([e1, e2, e3]))
    assert found == pytest.approx(np.sqrt(above / below), rel=1e-12)


def test_four_cones_follow_the_printed_form():
    # Vorobyev and Osorio (1998), tetrachromats.
    f, e = np.array([0.3, -0.1, 0.17, 0.02]), np.array([0.11, 0.07, 0.05, 0.09])
    pairs = [
        (i, j, *(k for k in range(4) if k not in (i, j)))
        for i, j in itertools.combinations(range(4), 2)
    ]
    above = sum((e[i] * e[j] * (f[k] - f[m])) ** 2 for i, j, k, m in pairs)
    below = sum(np.prod(np.delete(e, i)) ** 2 for i in range(4))
    assert color_steps(f, e) == pytest.approx(np.sqrt(above / below), rel=1e-12)


@pytest.mark.parametrize("cones", [2, 3, 4, 6])
def test_any_number_of_cones_follows_the_matrix_form(cones):
    # Generalized least squares on the differences of neighbors, closed form: dS² =
    # (A f)' (A E A')⁻¹ (A f) with E the variances.
    rng = np.random.default_rng(cones)
    f, e = rng.normal(size=cones), rng.uniform(0.02, 0.2, size=cones)
    a = np.diff(np.eye(cones), axis=0)
    expected = (a @ f) @ np.linalg.solve(a @ np.diag(e**2) @ a.T, a @ f)
    assert color_steps(f, e) ** 2 == pytest.approx(expected, rel=1e-10)


def test_a_darker_copy_differs_in_brightness_alone():
    # Vorobyev and Osorio (1998), identity; Siddiqi et al., J. Exp. Biol. 207 (2004) 2471: ln k / w.
    eye = Eye("sure", BASS.cones, exact(1), exact(0.05))
    red = np.linspace(0.02, 0.7, BANDS)
    looks = told_apart(red, red / 1.8, DAYLIGHT, GRAY, eye).looks
    assert looks.color_jnd.high == pytest.approx(0, abs=1e-9)
    assert looks.brightness_jnd.low == pytest.approx(np.log(1.8) / 0.05, rel=1e-9)
    assert looks.brightness_jnd.high == pytest.approx(np.log(1.8) / 0.05, rel=1e-9)


def test_fewer_cells_are_noisier():
    # Vorobyev and Osorio (1998): the noise of n pooled cells falls as 1/√n.
    found = class_noise(np.array([0.05]), np.array([[1.0, 4.0]]), 1)
    assert found[0] == pytest.approx([0.1, 0.05], rel=1e-12)


def test_dim_light_is_noisy_as_poisson_says():
    # Poisson: the deviation of a count is its root (de Vries 1943, Rose 1948).
    counts = np.random.default_rng(5).poisson(400, size=200_000)
    found = with_photons(np.array(0.0), np.array(400.0), np.array(400.0))
    assert found == pytest.approx(counts.std() / counts.mean(), rel=0.01)


def test_photons_of_a_cone_by_land_s_equation():
    # Land, Handbook of Sensory Physiology VII/6B (1981), as restated by Warrant and Nilsson, Vision
    # Res. 38 (1998) 195 (from memory): photons = radiance · (π/4)² · (D/f)² · d² · kept · time,
    # for a Matthiessen lens (f = 1.25 D), d = 5 µm, 30 % kept, 1/20 s. Planck constant, light
    # speed: SI. 683 lm/W: SI, by the Y weights of an even light.
    watts_lm = DAYLIGHT / (683 * (DAYLIGHT @ EYE[:, 1]) / EYE[:, 1].max())
    per_m2 = watts_lm * WAVELENGTHS_NM * 1e-9 / (6.62607015e-34 * 299792458)
    for_cone = per_m2 @ sensitivity(WAVELENGTHS_NM, 614, a2=True) / np.pi
    found = for_cone * (np.pi / 4) ** 2 / 1.25**2 * (5e-6) ** 2 * 0.3 * 0.05
    assert PHOTONS_PER_LX.band.low * 2 < found < PHOTONS_PER_LX.band.high / 2
    draws = Draws()
    white = np.ones((draws.count + 1, 2))
    assert photons(draws, white, white, 3.0)[0] == pytest.approx([found * 3] * 2, rel=0.1)


def rising(at_nm: float, low: float, high: float) -> np.ndarray:
    """A paint that sends back the long side of the spectrum."""
    return low + (high - low) / (1 + np.exp(-(WAVELENGTHS_NM - at_nm) / 12))


def humped(at_nm: float, low: float, high: float) -> np.ndarray:
    """A paint that sends back the middle of the spectrum best."""
    return low + (high - low) * np.exp(-(((WAVELENGTHS_NM - at_nm) / 40) ** 2))


PAINTS = {
    "white": np.full(BANDS, 0.85),
    "gray": np.full(BANDS, 0.2),
    "black": np.full(BANDS, 0.04),
    "chartreuse": rising(500, 0.08, 0.8),
    "green": humped(525, 0.06, 0.3),
    "blue": humped(460, 0.06, 0.35),
    "red": rising(600, 0.05, 0.6),
}


def by_color(one: str, two: str, eye: Eye = BASS) -> float:
    """Typical steps by color."""
    return told_apart(PAINTS[one], PAINTS[two], DAYLIGHT, GRAY, eye).looks.color_jnd.typical


def test_a_bass_confuses_what_bass_confused():
    # Mitchem et al., Curr. Zool. 65 (2019) 43, abstract: bass should tell neither chartreuse from
    # white nor green from blue, but red from every gray. The paints here are idealized.
    assert by_color("green", "blue") < 1
    assert by_color("chartreuse", "white") < 3
    for gray in ("white", "gray", "black"):
        assert by_color("red", gray) > 7
        assert by_color("red", gray) > 3 * by_color("chartreuse", "white")
    assert by_color("green", "gray") > 3  # they picked green from among grays


def test_a_trout_has_a_cone_more_and_sees_the_blue():
    # Bowmaker and Kunz (1987): a third cone at 440 nm, which parts blue from green.
    trout = KNOWN[Species.BROWN_TROUT].eye
    assert by_color("green", "blue", trout) > 5 > 5 * by_color("green", "blue")
    assert by_color("chartreuse", "white", trout) > 3


def test_the_calculation_says_the_same_of_bass():
    # As above, by the door a maker uses.
    asked = {
        name: {"reflectance": PAINTS[paint].tolist()}
        for name, paint in (("first", "red"), ("second", "gray"))
    }
    found = fish_contrast.answer(asked | {"species": "largemouth bass"})
    assert found["color_words"] == "clear"
    assert 7 < found["color_jnd"]["typical"] < 14


def test_one_noise_in_place_of_the_band():
    # Siddiqi et al. (2004): steps go as 1/noise, so 0.10 gives half of 0.05.
    cones = (Cone(535, exact(1)), Cone(614, exact(2)))
    keen, dull = (Eye("", cones, exact(1), exact(noise)) for noise in (0.05, 0.10))
    pair = PAINTS["red"], PAINTS["green"], DAYLIGHT, GRAY
    keen_steps = told_apart(*pair, keen).looks.color_jnd.typical
    assert keen_steps == pytest.approx(2 * told_apart(*pair, dull).looks.color_jnd.typical)


def test_brightness_by_one_class():
    # Siddiqi et al. (2004): |ln ratio| / noise.
    assert brightness_steps(np.array(-0.35), np.array(0.07)) == pytest.approx(5, rel=1e-12)
