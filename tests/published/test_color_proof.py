"""The bound on CIEDE2000 against the printed table: never above, and close below."""

from __future__ import annotations

import numpy as np
import pytest

from pourwright.color.match.nearest import least
from pourwright.color.match.span import Sheaf, Span
from published.test_spectrum import SHARMA


def bound(color, target, about=0.0):
    at = np.array([color], dtype=float)
    reach = np.full((1, 3), about)
    sheaf = Sheaf(at, np.eye(3)[None], reach, np.zeros((1, 3)))
    return float(least(sheaf, np.array(target, dtype=float), Span(at - about, at + about))[0][0])


def beyond_gray(one, two):
    """Whether hues are more than 170 degrees apart, where the bound gives up on hue."""
    hues = [np.degrees(np.arctan2(lab[2], lab[1])) for lab in (one, two)]
    return abs((hues[0] - hues[1] + 180) % 360 - 180) > 170


@pytest.mark.parametrize(("one", "two", "printed"), SHARMA)
def test_the_bound_of_a_color_is_its_printed_difference(one, two, printed):
    for color, target in ((one, two), (two, one)):
        found = bound(color, target)
        assert found <= printed + 5e-5
        least_share = 0.5 if beyond_gray(one, two) else 0.999
        assert found >= least_share * printed - 5e-5


@pytest.mark.parametrize(("one", "two", "printed"), SHARMA)
@pytest.mark.parametrize("about", [0.05, 0.5, 5.0])
def test_around_a_color_the_bound_is_below_the_printed_difference(one, two, printed, about):
    assert bound(one, two, about) <= printed + 5e-5
