"""Observer, lights, color spaces and differences against printed tables and a library."""

from __future__ import annotations

import numpy as np
import pytest

from pourwright.spectrum.color_space import hex_of, lab_of, srgb_of, xyz_of_hex
from pourwright.spectrum.difference import delta_e00, delta_e76
from pourwright.spectrum.light import BANDS, WAVELENGTHS_NM, Light, white_xyz, xyz_of

# Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21, table 1, all 34 pairs (published).
SHARMA = [
    ((50, 2.6772, -79.7751), (50, 0, -82.7485), 2.0425),
    ((50, 3.1571, -77.2803), (50, 0, -82.7485), 2.8615),
    ((50, 2.8361, -74.0200), (50, 0, -82.7485), 3.4412),
    ((50, -1.3802, -84.2814), (50, 0, -82.7485), 1.0000),
    ((50, -1.1848, -84.8006), (50, 0, -82.7485), 1.0000),
    ((50, -0.9009, -85.5211), (50, 0, -82.7485), 1.0000),
    ((50, 0, 0), (50, -1, 2), 2.3669),
    ((50, -1, 2), (50, 0, 0), 2.3669),
    ((50, 2.4900, -0.0010), (50, -2.4900, 0.0009), 7.1792),
    ((50, 2.4900, -0.0010), (50, -2.4900, 0.0010), 7.1792),
    ((50, 2.4900, -0.0010), (50, -2.4900, 0.0011), 7.2195),
    ((50, 2.4900, -0.0010), (50, -2.4900, 0.0012), 7.2195),
    ((50, -0.0010, 2.4900), (50, 0.0009, -2.4900), 4.8045),
    ((50, -0.0010, 2.4900), (50, 0.0010, -2.4900), 4.8045),
    ((50, -0.0010, 2.4900), (50, 0.0011, -2.4900), 4.7461),
    ((50, 2.5, 0), (50, 0, -2.5), 4.3065),
    ((50, 2.5, 0), (73, 25, -18), 27.1492),
    ((50, 2.5, 0), (61, -5, 29), 22.8977),
    ((50, 2.5, 0), (56, -27, -3), 31.9030),
    ((50, 2.5, 0), (58, 24, 15), 19.4535),
    ((50, 2.5, 0), (50, 3.1736, 0.5854), 1.0000),
    ((50, 2.5, 0), (50, 3.2972, 0), 1.0000),
    ((50, 2.5, 0), (50, 1.8634, 0.5757), 1.0000),
    ((50, 2.5, 0), (50, 3.2592, 0.3350), 1.0000),
    ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
    ((63.0109, -31.0961, -5.8663), (62.8187, -29.7946, -4.0864), 1.2630),
    ((61.2901, 3.7196, -5.3901), (61.4292, 2.2480, -4.9620), 1.8731),
    ((35.0831, -44.1164, 3.7933), (35.0232, -40.0716, 1.5901), 1.8645),
    ((22.7233, 20.0904, -46.6940), (23.0331, 14.9730, -42.5619), 2.0373),
    ((36.4612, 47.8580, 18.3852), (36.2715, 50.5065, 21.2231), 1.4146),
    ((90.8027, -2.0831, 1.4410), (91.1528, -1.6435, 0.0447), 1.4441),
    ((90.9257, -0.5406, -0.9208), (88.6381, -0.8985, -0.7239), 1.5381),
    ((6.7747, -0.2908, -2.4247), (5.8714, -0.0985, -2.2286), 0.6377),
    ((2.0776, 0.0795, -1.1350), (0.9033, -0.0636, -0.5514), 0.9082),
]


@pytest.mark.parametrize(("one", "two", "printed"), SHARMA)
def test_ciede2000_equals_the_table(one, two, printed):
    assert float(delta_e00(np.array(one), np.array(two))) == pytest.approx(printed, abs=5e-5)


def test_ciede2000_takes_a_whole_table_at_once():
    one, two, printed = (np.array(column) for column in zip(*SHARMA, strict=True))
    assert delta_e00(one, two) == pytest.approx(printed, abs=5e-5)


def test_plain_distance_of_a_right_triangle():
    # Closed form: 2² + 3² + 6² = 7².
    assert float(delta_e76(np.array([50, 1, 1]), np.array([52, 4, 7]))) == 7


@pytest.mark.parametrize(
    ("light", "printed"),
    [
        (Light.D65, (95.047, 100.0, 108.883)),  # CIE 15:2004, table T.3 (published)
        (Light.A, (109.850, 100.0, 35.585)),  # ASTM E308-01, table 5 (published)
        (Light.OFFICE, (100.962, 100.0, 64.350)),  # ASTM E308-01, table 5 (from memory)
    ],
)
def test_white_of_each_light(light, printed):
    assert white_xyz(light) == pytest.approx(printed, abs=0.01)


def test_white_of_the_led():
    # CIE 15:2018, chromaticity of LED-B3 (from memory), four places.
    x, y, z = white_xyz(Light.LED)
    assert (x / (x + y + z), y / (x + y + z)) == pytest.approx((0.3756, 0.3723), abs=5e-5)


# Integrals at 1 nm, 360 to 780 nm, by the open library colour-science 0.4.7 (library).
LIBRARY = [
    ("step", Light.D65, (46.9128, 37.9558, 11.4632)),
    ("step", Light.A, (66.2323, 45.9733, 3.8672)),
    ("bump", Light.D65, (14.4309, 30.1295, 17.3819)),
    ("bump", Light.A, (14.6256, 24.8303, 6.7523)),
    ("ramp", Light.D65, (44.3400, 48.6451, 74.9967)),
    ("ramp", Light.A, (44.9332, 45.5573, 24.0604)),
]
SPECTRA = {
    "step": 0.1 + 0.7 / (1 + np.exp(-(WAVELENGTHS_NM - 570) / 20)),
    "bump": 0.08 + 0.5 * np.exp(-(((WAVELENGTHS_NM - 520) / 40) ** 2)),
    "ramp": 0.8 - 0.6 * (WAVELENGTHS_NM - 400) / 300,
}


@pytest.mark.parametrize(("spectrum", "light", "integral"), LIBRARY)
def test_31_bands_stand_in_for_the_fine_integral(spectrum, light, integral):
    white = white_xyz(light)
    ours, fine = lab_of(xyz_of(SPECTRA[spectrum], light), white), lab_of(np.array(integral), white)
    # A fifth of what an eye can tell apart.
    assert float(delta_e00(ours, fine)) < 0.2


def test_gray_keeps_the_hue_of_its_light():
    # Closed form: the weights are linear.
    assert xyz_of(np.full(BANDS, 0.5), Light.A) == pytest.approx(white_xyz(Light.A) / 2)


@pytest.mark.parametrize(
    ("y", "lightness"),
    [
        (100.0, 100.0),
        (100 * (66 / 116) ** 3, 50.0),
        (100 * (6 / 29) ** 3, 8.0),  # the knee, where cube root and line meet
        (0.1, 0.1 / 100 * 24389 / 27),  # κ = 24389/27 below the knee
    ],
)
def test_lightness_by_its_definition(y, lightness):
    # ISO/CIE 11664-4:2019, eqs. 1 to 6 (published).
    white = white_xyz()
    lab = lab_of(white * y / 100, white)
    assert lab == pytest.approx([lightness, 0, 0], abs=1e-9)


@pytest.mark.parametrize(
    ("color_hex", "printed"),
    [
        ("#ff0000", (0.4124, 0.2126, 0.0193)),
        ("#00ff00", (0.3576, 0.7152, 0.1192)),
        ("#0000ff", (0.1805, 0.0722, 0.9505)),
        ("#ffffff", (0.9505, 1.0000, 1.0890)),
    ],
)
def test_primaries_of_a_screen(color_hex, printed):
    # IEC 61966-2-1:1999, the printed matrix from RGB to XYZ (published).
    assert xyz_of_hex(color_hex) / 100 == pytest.approx(printed, abs=1.5e-4)


def test_middle_gray_of_a_screen():
    # IEC 61966-2-1:1999, transfer curve: ((128/255 + 0.055)/1.055)^2.4.
    linear = ((128 / 255 + 0.055) / 1.055) ** 2.4
    assert xyz_of_hex("#808080")[1] / 100 == pytest.approx(linear, abs=1e-4)


def test_a_pure_spectral_green_lies_outside_the_screen():
    # CIE 1931 chromaticity of 520 nm, (0.0743, 0.8338) (CIE 15, table T.4; from memory): far
    # outside the sRGB triangle.
    x, y = 0.0743, 0.8338
    screen, inside = srgb_of(np.array([x / y, 1, (1 - x - y) / y]) * 50)
    assert not inside
    assert hex_of(screen).startswith("#00")
