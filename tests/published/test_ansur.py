"""ANSUR II: 2012 Anthropometric Survey of U.S. Army Personnel, C. C. Gordon et al., NATICK/TR-15/007 (2014).

The regressions of thigh clearance were computed from the survey's public records, 4082 men and 1986 women, and printed
to the figures below (status: derived). Y.-K. Kong & B. D. Lowe, Int. J. Ind. Ergon. 35(6) 495-507 (2005) stand beside
them for the grip that fits the survey's hands (the rule is read, the diameters are its product).
"""

import math

import pytest

from oarkit.rower.body import SPREAD_5_95, body_size, estimated_size
from oarkit.rower.sizes import body_sizes, grip_diameter
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


# Every size of the rower

# Mean and standard deviation as printed, mm and kg; last of a row: slope of mass on stature, kg/mm.
SURVEYED = {
    "male": {"stature": (1756.21, 68.55), "mass": (85.52, 14.22), "mass on stature": 0.09727},
    "female": {"stature": (1628.47, 64.20), "mass": (67.76, 10.98), "mass on stature": 0.09128},
}
# Mean, standard deviation, 5 % and 95 % points as printed, mm.
DIMENSIONS = {
    "male": {
        "thighclearance": (180.46, 15.59, 157.0, 207.0), "handlength": (193.28, 9.95, 177.0, 210.0),
        "acromialheightsitting_derived": (602.81, 30.83, 552.0, 653.0),
        "acromionradialelength": (335.24, 17.48, 307.0, 365.0),
        "forearmcenterofgriplength": (349.01, 18.02, 320.0, 379.0),
        "buttockkneelength": (617.95, 30.59, 569.0, 669.0), "kneeheightsitting": (554.16, 27.95, 509.0, 602.0),
        "elbowrestheight": (245.04, 28.65, 197.0, 291.0), "footlength": (271.18, 13.10, None, None),
    },
    "female": {
        "thighclearance": (167.86, 14.06, 145.0, 191.0), "handlength": (181.08, 10.06, 165.0, 199.0),
        "acromialheightsitting_derived": (563.25, 27.83, 515.0, 609.0),
        "acromionradialelength": (311.20, 17.16, None, None),
        "forearmcenterofgriplength": (317.71, 18.02, None, None),
        "buttockkneelength": (590.59, 32.60, 541.0, 646.0), "kneeheightsitting": (511.29, 27.07, 469.0, 557.0),
        "elbowrestheight": (232.42, 26.25, 189.0, 276.0), "footlength": (246.29, 12.44, None, None),
    },
}  # fmt: skip
# What each size is made of, and what is taken off for the joints within: 120 mm to the hip, 60 mm to the knee.
MADE_OF = {
    "thigh_thickness": (("thighclearance",), 0), "hand_length": (("handlength",), 0),
    "shoulder_height": (("acromialheightsitting_derived",), 0),
    "arm_length": (("acromionradialelength", "forearmcenterofgriplength"), 0),
    "thigh_length": (("buttockkneelength",), 120 + 60), "shank_length": (("kneeheightsitting",), 60),
    "elbow_height": (("elbowrestheight",), 0), "foot_length": (("footlength",), 0),
}  # fmt: skip


def _regressions(body: str):
    return {name: row for (whose, name), row in body_table().items() if whose == body}


def _mean_rower(body: str, **measured):
    surveyed = SURVEYED[body]
    return body_sizes(
        measured=measured, table=_regressions(body), stature=surveyed["stature"][0] / 1e3, mass=surveyed["mass"][0]
    )


@pytest.mark.parametrize("size", MADE_OF)
@pytest.mark.parametrize("body", ["male", "female"])
def test_the_mean_rower_has_the_mean_size(body, size):
    """A regression passes through the means: the rower of mean stature and mass has the printed mean of each size."""
    names, less = MADE_OF[size]
    mean = sum(DIMENSIONS[body][name][0] for name in names) - less
    # Printed to 0.01 mm, 0.00001 x 1756 mm and 0.0001 x 86 kg: 0.005 + 0.009 + 0.004 + 0.005 mm for each part.
    assert getattr(_mean_rower(body), size).value * 1e3 == pytest.approx(mean, abs=0.025 * len(names))


def _unexplained(body: str, name: str) -> float:
    """Standard deviation that stature and mass leave over: total variance less that of the fitted line."""
    surveyed, row = SURVEYED[body], _regressions(body)[name]
    stature, mass = surveyed["stature"][1], surveyed["mass"][1]
    together = surveyed["mass on stature"] * stature**2  # covariance of the two
    by_stature, by_mass = row.per_stature, row.per_mass * 1e3
    fitted = (by_stature * stature) ** 2 + (by_mass * mass) ** 2 + 2 * by_stature * by_mass * together
    return math.sqrt(DIMENSIONS[body][name][1] ** 2 - fitted)


@pytest.mark.parametrize("size", MADE_OF)
@pytest.mark.parametrize("body", ["male", "female"])
def test_the_band_is_what_stature_and_mass_leave_over(body, size):
    """The half-width of each band is 1.645 times the deviation that is left of the printed one."""
    names, _ = MADE_OF[size]
    band = NORMAL_5_95 * sum(_unexplained(body, name) for name in names)
    if size == "shoulder_height":
        band = math.hypot(band, 20)  # taken from a standing posture: +-20 mm more
    # Deviations printed to 0.01 mm and 0.01 kg and the coefficients move what is left by up to 0.03 mm a part.
    assert getattr(_mean_rower(body), size).spread * 1e3 == pytest.approx(band, abs=NORMAL_5_95 * 0.03 * len(names))


@pytest.mark.parametrize("body", ["male", "female"])
def test_nine_in_ten_lie_within_1645_deviations(body):
    """The printed 5 % and 95 % points stand as far apart as the band takes them: the factor of the normal law holds."""
    for name, (_, deviation, low, high) in DIMENSIONS[body].items():
        if low is not None:
            # Points are whole millimetres (1 mm in 50) and a few dimensions are skew: 3 %.
            assert (high - low) / 2 == pytest.approx(SPREAD_5_95 * deviation, rel=0.03), name


@pytest.mark.parametrize("body", ["male", "female"])
def test_a_size_taken_on_the_rower_wins(body):
    """One measured size stands as it is and leaves the others as they were."""
    found, without = _mean_rower(body, shank_length=0.457), _mean_rower(body)
    assert (found.shank_length.value, found.shank_length.spread, found.shank_length.measured) == (0.457, 0.0, True)
    assert {**found.known(), "shank_length": None} == {**without.known(), "shank_length": None}
    assert not found.thigh_length.measured


@pytest.mark.parametrize(("hand", "printed"), [(193, 38.0), (180, 35.5)])
def test_grip_for_a_hand(hand, printed):
    """The best cylindrical handle is 19.7 % of the hand's length thick (Kong & Lowe 2005)."""
    assert grip_diameter(hand_length=hand / 1e3) * 1e3 == pytest.approx(printed, abs=0.05)  # printed to 0.1 mm
