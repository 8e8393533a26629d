"""ANSUR II: 2012 Anthropometric Survey of U.S. Army Personnel, C. C. Gordon et al., NATICK/TR-15/007 (2014).

The regressions of thigh clearance were computed from the survey's public records, 4082 men and 1986 women, and printed
to the figures below (status: derived).
"""

import pytest

from oarkit.rower.body import body_size, estimated_size
from oarkit.tables import body_table

# y = constant + per_stature stature + per_mass mass, with its standard error: mm, mm, kg, mm
PRINTED = {"male": (165.9, -0.0404, 1.000, 8.4), "female": (148.3, -0.0371, 1.179, 7.6)}
NORMAL_5_95 = 1.645  # standard errors from the mean to the 5 % and 95 % points of the normal law


def _thigh(body: str):
    return body_table()[body, "thighclearance"]


@pytest.mark.parametrize("body", ["male", "female"])
@pytest.mark.parametrize(("stature", "mass"), [(1725, 75), (1600, 58), (1830, 88)])
def test_thigh_by_stature_and_mass(body, stature, mass):
    """The thigh's thickness follows the printed line."""
    constant, per_stature, per_mass, _ = PRINTED[body]
    printed = constant + per_stature * stature + per_mass * mass
    found = estimated_size(regression=_thigh(body), stature=stature / 1e3, mass=mass)
    # Coefficients printed to 0.1 mm, 0.0001 and 0.001: up to 0.05 + 0.00005 x 1830 + 0.0005 x 88 mm.
    assert found * 1e3 == pytest.approx(printed, abs=0.19)


@pytest.mark.parametrize(
    ("body", "stature", "mass", "median"), [("male", 1755, 84.6, 180), ("female", 1626, 66.8, 167)]
)
def test_the_median_rower_has_the_median_thigh(body, stature, mass, median):
    """Median stature and mass give the printed median thigh clearance."""
    found = estimated_size(regression=_thigh(body), stature=stature / 1e3, mass=mass)
    assert found * 1e3 == pytest.approx(median, abs=1.0)  # medians are whole millimetres and of skew distributions


@pytest.mark.parametrize("body", ["male", "female"])
def test_spread_of_the_estimate(body):
    """An estimate comes with its 5 to 95 % band, 1.645 standard errors each way."""
    size = body_size(measured=None, regression=_thigh(body), stature=1.7, mass=70)
    assert size.spread * 1e3 == pytest.approx(NORMAL_5_95 * PRINTED[body][3], abs=0.09)  # error printed to 0.1 mm
    assert not size.measured


def test_a_measured_thigh_wins():
    """What was measured stands, without a spread."""
    size = body_size(measured=0.151, regression=_thigh("male"), stature=1.7, mass=70)
    assert (size.value, size.spread, size.measured) == (0.151, 0.0, True)
