"""Light under water against printed figures, measured lakes and closed forms."""

from __future__ import annotations

import warnings

import jerlov
import numpy as np
import pytest

from pourwright.spectrum.light import BANDS, WAVELENGTHS_NM, WEIGHTS, Light
from pourwright.water import algae, pure, spread
from pourwright.water.content import BACK_SHARE, SILT_SCATTER, Content
from pourwright.water.daylight import OVERCAST, SURFACE_POWER, Daylight, Sky, daylight, sunlight
from pourwright.water.decay import down_decay_per_m, reflectance
from pourwright.water.field import LightField, light_field
from pourwright.water.kind import WaterKind, typical_content
from pourwright.water.medium import Medium, medium_of
from pourwright.water.scaled import typical_water
from pourwright.water.secchi import lee_m, tyler_m, water_shine


def at(nm: float) -> int:
    return int(np.flatnonzero(nm == WAVELENGTHS_NM)[0])


def flat(absorb: float, scatter: float, back: float) -> Medium:
    """A water alike in all bands."""
    return Medium(*(np.full(BANDS, v) for v in (absorb, scatter, back)))


def holding(*, chlorophyll: float = 0.0, stain: float = 0.0, silt: float = 0.0) -> Medium:
    return medium_of(Content(*(np.asarray(v) for v in (chlorophyll, stain, silt))))


# Pure water and what drifts in it.


@pytest.mark.parametrize(
    ("nm", "per_m"),
    [(440, 0.00635), (500, 0.0204), (550, 0.0565), (600, 0.2224), (650, 0.34), (700, 0.624)],
)
def test_water_absorbs_as_pope_and_fry_measured(nm, per_m):
    # Pope and Fry, Appl. Opt. 36 (1997) 8710, table 3.
    assert pure.ABSORB_PER_M[at(nm)] == per_m


def test_water_is_clearest_in_the_violet():
    # Pope and Fry (1997), table 3: least absorption 0.00442 1/m at 417.5 nm.
    least = int(pure.ABSORB_PER_M.argmin())
    assert WAVELENGTHS_NM[least] == 420
    assert pure.ABSORB_PER_M[least] == pytest.approx(0.00442, rel=0.03)


def test_water_absorbs_as_another_table_has_it():
    # Buiteveld et al. (1994) through the jerlov package: another measurement, so only to 20 %.
    nm = np.arange(490.0, 701.0, 10)
    other = jerlov.pure_water_absorption(nm)
    assert pure.ABSORB_PER_M[9:] == pytest.approx(other, rel=0.2)


def test_water_scatters_as_fresh_water_does():
    # Morel (1974) by Boss and Pegau's formula, through the jerlov package.
    assert pytest.approx(jerlov.pure_water_scattering(WAVELENGTHS_NM, 0.0), rel=0.005) == (
        pure.SCATTER_PER_M
    )


@pytest.mark.parametrize(
    ("nm", "per_mg", "fall"),
    # Bricaud et al., J. Geophys. Res. 100 (1995) 13321, table 2.
    [(440, 0.0403, 0.332), (490, 0.0274, 0.361), (550, 0.0080, 0.052), (670, 0.0189, 0.149)],
)
def test_algae_absorb_as_bricaud_tabulated(nm, per_mg, fall):
    one, ten = algae.absorb_per_m(np.array([1.0, 10.0]))[:, at(nm)]
    assert one == pytest.approx(per_mg, rel=1e-9)
    assert ten / one == pytest.approx(10 ** (1 - fall), rel=1e-9)


@pytest.mark.parametrize("chlorophyll", [0.1, 1.0, 10.0])
def test_algae_absorb_as_a_later_study_found(chlorophyll):
    # Bricaud, Ciotti and Gentili (2012): 0.0375 chl^0.620 at 443 nm; other samples, so to 20 %.
    blue = algae.absorb_per_m(np.asarray(chlorophyll))
    at_443 = np.interp(443, WAVELENGTHS_NM, blue)
    assert at_443 == pytest.approx(0.0375 * chlorophyll**0.620, rel=0.2)


def test_a_gram_of_silt_scatters_half_a_square_meter():
    # Babin et al., Limnol. Oceanogr. 48 (2003) 843, abstract: 0.5 m²/g near shores, 1.0 offshore.
    added = holding(silt=2.0).scatter_per_m - pure.SCATTER_PER_M
    assert np.interp(555, WAVELENGTHS_NM, added) / 2.0 == pytest.approx(0.5, rel=1e-3)
    assert SILT_SCATTER.band.high == 1.0


def test_a_gram_of_silt_absorbs_little_and_in_the_blue():
    # Babin et al., J. Geophys. Res. 108 (2003) 3211, from memory: 0.041 m²/g at 443 nm, falling
    # by a factor e over 1 / 0.0123 nm.
    added = holding(silt=1.0).absorb_per_m - pure.ABSORB_PER_M
    assert np.interp(443, WAVELENGTHS_NM, added) == pytest.approx(0.041, rel=2e-3)
    assert added[at(640)] / added[at(440)] == pytest.approx(np.exp(-2.46), rel=1e-9)


def test_silt_scatters_blue_a_little_more_than_red():
    # Babin et al. (2003) saw scattering near shores nearly alike in all bands; the power of 0.3 is
    # an estimate: 1.12 times as much at 440 as at 640 nm.
    added = holding(silt=1.0).scatter_per_m - pure.SCATTER_PER_M
    assert added[at(440)] / added[at(640)] == pytest.approx(1.119, abs=1e-3)


def test_stain_falls_by_e_every_71_nm():
    # Bricaud, Morel and Prieur (1981), from memory: slope 0.014 per nm.
    added = holding(stain=3.0).absorb_per_m - pure.ABSORB_PER_M
    assert added[at(440)] == pytest.approx(3.0, rel=1e-9)
    assert added[at(540)] == pytest.approx(3.0 * np.exp(-1.4), rel=1e-9)


@pytest.mark.parametrize("chlorophyll", [1.0, 8.0])
def test_algae_scatter_by_gordon_and_morel(chlorophyll):
    # Gordon and Morel (1983), from memory: 0.30 chl^0.62 (550 / wavelength).
    added = holding(chlorophyll=chlorophyll).scatter_per_m - pure.SCATTER_PER_M
    assert added[at(550)] == pytest.approx(0.30 * chlorophyll**0.62, rel=1e-9)
    assert added[at(440)] / added[at(550)] == pytest.approx(1.25, rel=1e-9)


def test_the_share_thrown_back_spans_petzolds_stations():
    # Petzold (1972), eight stations, through the jerlov package.
    shares = [jerlov.petzold_scattering(s).backscatter_ratio for s in jerlov.PETZOLD_STATIONS]
    assert BACK_SHARE.band.low == pytest.approx(min(shares), abs=1e-3)
    assert BACK_SHARE.band.high == pytest.approx(max(shares), abs=1e-3)


def test_water_throws_half_of_its_own_scattering_back():
    # Rayleigh scattering is alike forward and backward; jerlov package, Boss and Pegau (2001).
    empty = holding()
    assert empty.back_per_m == pytest.approx(empty.scatter_per_m / 2)


# How daylight goes in and down.


@pytest.mark.parametrize(
    ("from_zenith_deg", "mirrored"),
    # Kirk, Light and Photosynthesis in Aquatic Ecosystems, table 2.1, from memory.
    [(0, 0.020), (30, 0.021), (60, 0.060), (70, 0.134), (80, 0.348)],
)
def test_the_surface_mirrors_the_sun(from_zenith_deg, mirrored):
    assert 1 - sunlight(90 - from_zenith_deg).entered == pytest.approx(mirrored, abs=0.002)


def test_the_sun_stands_higher_under_water():
    # Snell's law: sin 30° / 1.333 = 0.3751; the lowest sun comes in at the critical angle, 48.6°.
    assert sunlight(60).cosine == pytest.approx(np.sqrt(1 - 0.3751**2), abs=1e-4)
    assert np.degrees(np.arccos(sunlight(0.01).cosine)) == pytest.approx(48.6, abs=0.05)


def test_an_even_sky_counts_the_same_wherever_the_sun_is():
    # Kirk, from memory: mean cosine 0.86 under an even sky, 6.6 % mirrored.
    assert daylight(Sky.OVERCAST, 10) == daylight(Sky.OVERCAST, 80) == Daylight(0.86, 1 - 0.066)
    assert daylight(Sky.SUN, 30) == sunlight(30)


def test_daylight_on_the_surface_is_d65():
    # CIE 15:2004: D65 has 82.7549 at 400 nm, 104.865 at 520 and 71.6091 at 700, 100 at 560.
    assert SURFACE_POWER[at(560)] == pytest.approx(1, abs=1e-3)
    found = [SURFACE_POWER[at(nm)] for nm in (400, 520, 700)]
    assert found == pytest.approx([0.827549, 1.048650, 0.716091], rel=3e-3)


@pytest.mark.parametrize("kind", ["II", "III", "1C", "3C", "5C"])
def test_decay_against_the_sea_that_jerlov_measured(kind):
    # Kirk's formula from a and b of Williamson and Hollins, Appl. Opt. 61 (2022) 9951, against Kd
    # of Jerlov, Marine Optics (1976), table XXVII: both through the jerlov package.
    nm = np.arange(500.0, 651.0, 25)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", jerlov.ProvenanceWarning)
        warnings.simplefilter("ignore", jerlov.CoverageWarning)
        sea, measured = jerlov.water(kind), jerlov.water(kind, "jerlov1976").kd(nm)
    medium = Medium(sea.a(nm), sea.b(nm), 0.02 * sea.b(nm))
    ratio = down_decay_per_m(medium, 0.86) / measured
    assert ratio.min() > 0.83
    assert ratio.max() < 1.28
    assert ratio.mean() == pytest.approx(1.05, abs=0.12)


def test_decay_without_scattering_is_the_slanted_way():
    # Bouguer's law along the beam.
    assert down_decay_per_m(flat(0.3, 0.0, 0.0), 0.8) == pytest.approx(0.3 / 0.8)


def test_reflectance_of_a_hazy_water():
    # Kirk (1984), from memory: R = (0.975 - 0.629 mu) bb / a while bb is small; 0.346 overhead.
    found = reflectance(flat(1.0, 0.05, 1e-6), 1.0)
    assert found == pytest.approx(0.346e-6, rel=1e-4)


# The lake that Tyler measured: Lake Pend Oreille, 28 April 1957.


def tyler(depth_m: float) -> dict[str, float]:
    """Ratios to downwelling light, from his radiances averaged around the compass."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        found = jerlov.tyler1958_radiance(depth_m)
    around = np.radians(found.azimuth_deg)
    mean = np.trapezoid(found.radiance, around, axis=1) / np.pi
    tilt = np.linspace(0, np.pi, 3601)
    radiance = np.exp(np.interp(tilt, np.radians(found.tilt_deg), np.log(mean)))
    cosine, sine = np.cos(tilt), np.sin(tilt)

    def over(values):
        return float(2 * np.pi * np.trapezoid(radiance * values * sine, tilt))

    down = over(np.clip(cosine, 0, 1))
    return {
        "down": down,
        "reflectance": over(np.clip(-cosine, 0, 1)) / down,
        "scalar": over(np.ones_like(tilt)) / down,
        "longer": over(cosine > 0) / down,
        "face": over(sine) / np.pi / down,
        "face from above": over(sine * (cosine > 0)) / np.pi / down,
        "level": radiance[1800] / down,
        "above": radiance[0] / down,
        "below": radiance[-1] / down,
    }


DEEP_M = (29.0, 41.3, 53.7)
BEAM_PER_M = 0.396


@pytest.fixture(scope="module")
def lake() -> dict[str, float]:
    return tyler(29.0)


def lake_absorb_per_m(lake: dict[str, float]) -> float:
    """By Gershun's law from Tyler's own decay between 29 and 54 m."""
    decay = np.log(lake["down"] / tyler(53.7)["down"]) / (53.7 - 29.0)
    return float(decay * (1 - lake["reflectance"]) / lake["scalar"])


@pytest.mark.parametrize("depth_m", jerlov.TYLER1958_DEPTHS)
def test_light_on_an_upright_face_of_the_lake(depth_m):
    # Tyler, SIO Reference 58-25 (1958), tables IV to X: face from the mean way of the light.
    measured = tyler(depth_m)
    power = spread.power_of(np.asarray(measured["longer"]))
    assert spread.on_upright(power) == pytest.approx(measured["face from above"], rel=0.06)


@pytest.mark.parametrize("depth_m", DEEP_M)
def test_way_of_the_light_in_the_lake(depth_m):
    # The same tables: what comes down is told from the whole by 2.8 times what comes up.
    measured = tyler(depth_m)
    up = np.asarray(measured["reflectance"])
    decay = np.asarray(measured["scalar"] / (1 - up))
    assert spread.way_longer(np.asarray(1.0), decay, up) == pytest.approx(
        measured["longer"], rel=0.01
    )


@pytest.mark.parametrize("depth_m", DEEP_M)
def test_radiance_from_straight_above_in_the_lake(depth_m):
    # The same tables, below the glitter of the sun.
    measured = tyler(depth_m)
    power = spread.power_of(np.asarray(measured["longer"]))
    assert spread.from_above(power) == pytest.approx(measured["above"], rel=0.3)


def test_decay_of_the_lake(lake):
    # Tyler's beam attenuation and Gershun's absorption, put into Kirk's formula, give his decay.
    absorb = lake_absorb_per_m(lake)
    measured = np.log(lake["down"] / tyler(53.7)["down"]) / (53.7 - 29.0)
    found = down_decay_per_m(flat(absorb, BEAM_PER_M - absorb, 0.0), 0.86)[0]
    assert found == pytest.approx(measured, rel=0.1)


@pytest.fixture(scope="module")
def lake_field(lake) -> LightField:
    """The lake's field from its absorption, beam and reflectance; backscattering follows."""
    absorb, light = lake_absorb_per_m(lake), Daylight(0.86, 1.0)
    u = lake["reflectance"] / (0.975 - 0.629 * light.cosine)
    back = absorb * u / (1 - u)
    return light_field(flat(absorb, BEAM_PER_M - absorb, back), depth_m=29.0, light=light)


@pytest.mark.parametrize(("name", "within"), [("face", 0.08), ("level", 0.06), ("below", 0.1)])
def test_the_whole_field_of_the_lake(lake, lake_field, name, within):
    # As above; the jerlov package's own guess of `level` would be ten times too dark.
    found = getattr(lake_field, name)[at(480)] / lake_field.down[at(480)]
    assert found == pytest.approx(lake[name], rel=within)


def test_the_lake_throws_back_as_other_natural_waters_do(lake, lake_field):
    # Petzold (1972): bb / b between 0.013 and 0.044.
    medium = lake_field.medium
    assert 0.013 < medium.back_per_m[0] / medium.scatter_per_m[0] < 0.044
    assert lake["reflectance"] == pytest.approx(0.0225, rel=0.05)


def test_even_light_falls_half_as_much_on_an_upright_face():
    # Closed form: a hemisphere of even radiance L gives pi L on a level face, pi L / 2 upright.
    assert spread.on_upright(np.asarray(0.0)) == pytest.approx(0.5)
    assert spread.from_above(np.asarray(0.0)) == pytest.approx(1 / np.pi)


def test_the_way_without_scattering_is_that_of_the_beam():
    # Closed form: scalar over plane light of a beam at mean cosine mu is 1 / mu.
    medium, none = flat(0.2, 0.0, 0.0), np.zeros(BANDS)
    decay = down_decay_per_m(medium, 0.8)
    assert spread.way_longer(medium.absorb_per_m, decay, none) == pytest.approx(1.25)


# The white disk.


def test_lees_depth_of_a_water_that_sends_nothing_up():
    # Lee et al. (2015), from memory: ln(0.14 / 0.013) / 2.5 = 0.951 over the decay.
    assert lee_m(flat(0.5, 0.0, 0.0), 1.0) == pytest.approx(0.951 / 0.5, rel=1e-3)


def test_tylers_depth_of_a_clear_dye():
    # Tyler (1968), from memory: 8.69 / (c + K).
    assert tyler_m(flat(0.4, 0.0, 0.0), 0.8) == pytest.approx(8.69 / 0.9, rel=1e-3)


@pytest.mark.parametrize("kind", [WaterKind.CLEAR, WaterKind.GREEN])
def test_a_white_disk_goes_where_poole_and_atkins_saw_it_go(kind):
    # Poole and Atkins (1929), 14 days in the English Channel: K times depth 1.32 to 2.18.
    medium = typical_water(kind)
    eye = WEIGHTS[Light.D65][:, 1] / 100
    decay = float(down_decay_per_m(medium, OVERCAST.cosine) @ eye)
    assert 1.32 < decay * tyler_m(medium, OVERCAST.cosine) < 2.18


@pytest.mark.parametrize("kind", list(WaterKind))
def test_a_white_disk_goes_near_one_decay_of_the_clearest_band(kind):
    # Lee et al. (2015), from memory: depth times least Kd is about 1 over all their waters.
    medium = typical_water(kind)
    decay = down_decay_per_m(medium, OVERCAST.cosine)
    assert 0.8 < decay.min() * lee_m(medium, OVERCAST.cosine) < 1.0


def test_the_shine_of_a_blue_sea():
    # Gordon et al. (1988), from memory: rrs = 0.0949 u + 0.0794 u² for u = bb / (a + bb), and half
    # of it above the surface; within 10 % where u is small.
    u = 0.05
    medium = flat(1 - u, 1.0, u)
    assert water_shine(medium) == pytest.approx(0.52 * (0.0949 * u + 0.0794 * u**2), rel=0.1)


def test_the_shine_of_a_pale_water():
    # Lee, Carder and Arnone (2002), from memory, by hand for u = 0.6:
    # r = (0.0895 + 0.07482) 0.6 = 0.098592; 0.52 r / (1 - 1.7 r) = 0.061594.
    assert water_shine(flat(0.4, 1.0, 0.6)) == pytest.approx(0.061594, rel=1e-3)


def test_the_four_waters_look_as_lakes_of_their_name_do():
    # Carlson, Limnol. Oceanogr. 22 (1977) 361, from memory: a lake of 20 mg/m³ of chlorophyll
    # hides a white disk at 7.7 chl^-0.68 = 1.0 m, one of 1.5 mg/m³ at 5.8 m; to a factor of two.
    for kind in (WaterKind.CLEAR, WaterKind.GREEN):
        chlorophyll = float(typical_content(kind).chlorophyll_mg_m3)
        medium = typical_water(kind)
        disk = np.sqrt(lee_m(medium, 0.86) * tyler_m(medium, 0.86))
        assert 0.5 < disk / (7.7 * chlorophyll**-0.68) < 2.0
