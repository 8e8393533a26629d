"""Curves through measured stations and ordinates by other roads: the slope rule by hand, SymPy, scipy.quad."""

from itertools import pairwise
from types import SimpleNamespace

import numpy as np
import pytest
import sympy as sp
from scipy.integrate import quad
from scipy.interpolate import CubicHermiteSpline

from oarkit.oar.blade import (
    Blade,
    arc_sweep,
    centre_of_outline,
    depth_of_curve,
    developed_area,
    developed_length,
    outline_area,
    tip_angle,
)
from oarkit.oar.measured import MeasuredShape, Station
from oarkit.section.profile import zone_moments


def _hermite(x, y):
    """Monotone cubic by the rule of Fritsch and Butland (1984): the slope at a station is the harmonic mean of those
    beside it, weighted by spans, nil at a peak; at the ends the three-point slope, held to keep the shape."""
    h, d = np.diff(x), np.diff(y) / np.diff(x)
    slope = np.zeros_like(y)
    for k in range(1, len(x) - 1):
        if d[k - 1] * d[k] > 0:
            w1, w2 = 2 * h[k] + h[k - 1], h[k] + 2 * h[k - 1]
            slope[k] = (w1 + w2) / (w1 / d[k - 1] + w2 / d[k])
    for k, (h0, h1, d0, d1) in ((0, (h[0], h[1], d[0], d[1])), (-1, (h[-1], h[-2], d[-1], d[-2]))):
        end = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1)
        end = 0.0 if end * d0 <= 0 else end
        slope[k] = 3 * d0 if d0 * d1 <= 0 and abs(end) > 3 * abs(d0) else end
    return CubicHermiteSpline(x, y, slope)


LOOM_S = np.array([0.0, 0.35, 0.62, 1.10, 1.70])
LOOM_D = np.array([0.034, 0.047, 0.047, 0.041, 0.029])
BLADE_S = np.array([1.70, 1.85, 2.05, 2.31])
BLADE_T, BLADE_W = np.array([0.026, 0.017, 0.012, 0.010]), np.array([0.036, 0.098, 0.131, 0.124])
BLADE_E = np.array([0.010, 0.008, 0.007, 0.005])


@pytest.fixture(scope="module")
def shape():
    loom = [Station(s=s, thickness=d, form="round") for s, d in zip(LOOM_S, LOOM_D, strict=True)]
    blade = [
        Station(s=s, thickness=t, width=w, edge=e, form="blade")
        for s, t, w, e in zip(BLADE_S, BLADE_T, BLADE_W, BLADE_E, strict=True)
    ]
    return MeasuredShape(
        stations=(*loom, *blade), inboard=0.64, grip_centre=0.06, leather_start=0.53, leather_length=0.24
    )


@pytest.mark.parametrize(
    ("at", "measured", "name"),
    [
        (LOOM_S, LOOM_D, "thickness"), (LOOM_S, LOOM_D, "width"), (BLADE_S, BLADE_T, "thickness"),
        (BLADE_S, BLADE_W, "width"), (BLADE_S, BLADE_E, "edge"),
    ],
    ids=["loom thick", "loom wide", "blade thick", "blade wide", "blade edge"],
)  # fmt: skip
def test_sizes_follow_the_monotone_cubic(shape, at, measured, name):
    """Every size between stations is on the cubic that the slope rule makes, worked by hand, of its own run alone."""
    s = np.linspace(at[0], at[-1], 97)[1:-1]
    found = getattr(shape.profile(SimpleNamespace(s=s, middle=s)), name)
    assert found == pytest.approx(_hermite(at, measured)(s), rel=1e-12)


def test_volume_by_quad(shape):
    """The volume on the stations is the integral of circles and trapezia on the hand-made curves."""
    loom, thick, wide, edge = (
        _hermite(*pair) for pair in ((LOOM_S, LOOM_D), (BLADE_S, BLADE_T), (BLADE_S, BLADE_W), (BLADE_S, BLADE_E))
    )
    by_quad = sum(quad(lambda s: np.pi / 4 * loom(s) ** 2, a, b)[0] for a, b in pairwise(LOOM_S))
    by_quad += sum(quad(lambda s: wide(s) * (thick(s) + edge(s)) / 2, a, b)[0] for a, b in pairwise(BLADE_S))
    laid = shape.laid()
    profile = shape.profile(laid)
    area = zone_moments(profile, np.zeros_like(laid.s), np.ones_like(laid.s)).area
    # Simpson's rule of 12 double steps errs by 1/(180 · 24^4) = 2e-8 of the fourth derivative over a stretch, here some
    # tens of times the area, as a square of cubics has it.
    assert np.sum(laid.weight * area) == pytest.approx(by_quad, rel=1e-6)


# Blades

PLACES = np.array([0.0, 0.07, 0.2, 0.41, 0.58])
HALF = np.array([0.014, 0.039, 0.063, 0.066, 0.052])


def _blade(places=PLACES, half=HALF, sweep=None):
    return Blade(places=places, half_width=half, centre=0.012 + 0 * places, edge=0.006 + 0 * places, sweep=sweep)


def test_outline_by_quad():
    """Area and its centre are integrals of twice the hand-made curve of half-widths."""
    half = _hermite(PLACES, HALF)
    spans = list(pairwise(PLACES))
    area = sum(quad(lambda x: 2 * half(x), a, b)[0] for a, b in spans)
    first = sum(quad(lambda x: 2 * x * half(x), a, b)[0] for a, b in spans)
    assert outline_area(_blade()) == pytest.approx(area, rel=1e-12)
    assert centre_of_outline(_blade()) == pytest.approx(first / area, rel=1e-12)


def test_spoon_by_quad():
    """Length and area of a face swept by ordinates, by quad on the hand-made curve; a hollow, by its deepest place."""
    ordinates = np.array([0.0, 0.001, 0.007, 0.021, 0.033])
    half, face = _hermite(PLACES, HALF), _hermite(PLACES, ordinates)
    slope = face.derivative()
    spans = list(pairwise(PLACES))
    length = sum(quad(lambda x: np.sqrt(1 + slope(x) ** 2), a, b)[0] for a, b in spans)
    area = sum(quad(lambda x: 2 * half(x) * np.sqrt(1 + slope(x) ** 2), a, b)[0] for a, b in spans)
    spoon = _blade(sweep=ordinates)
    # Eight points of Gauss between ordinates, on a root that is nearly one.
    assert developed_length(spoon) == pytest.approx(length, rel=1e-10)
    assert developed_area(spoon) == pytest.approx(area, rel=1e-10)
    assert tip_angle(spoon) == pytest.approx(np.arctan(slope(0.58)))
    x = np.linspace(0, 0.58, 20001)
    root, tip = np.array([0.0, 0.0]), np.array([0.58, 0.033])
    along = (tip - root) / np.hypot(*tip)
    gap = np.abs(along[0] * face(x) - along[1] * x)
    # Looked for at 401 places, half a step from the top of a parabola at most: 4 (1/800)^2 of it.
    assert depth_of_curve(spoon) == pytest.approx(gap.max(), rel=1e-5)


def test_arc_is_on_its_circle():
    """SymPy: the sweep is the branch of the circle through root and tip that is along the loom at the root."""
    x, z, d, length, radius = sp.symbols("x z d l R", positive=True)
    found = sp.solve((length**2 + (radius - d) ** 2 - radius**2), radius)[0]
    branch = sp.solve((radius - z) ** 2 + x**2 - radius**2, z)
    for depth in (0.012, 0.035, 0.2):
        values = {length: sp.Rational(58, 100), d: depth}
        circle = float(found.subs(values))
        at = np.array([0.0, 0.11, 0.3, 0.58])
        exact = [min(float(root.subs({radius: circle, x: place})) for root in branch) for place in at]
        assert arc_sweep(at, depth=depth) == pytest.approx(exact, abs=1e-12)


def test_spoon_swept_as_an_arc():
    """Length, angle and hollow of an arc: R alpha, alpha = 2 atan(d/l), and the versine of half the arc."""
    places, depth = np.linspace(0, 0.58, 59), 0.035
    spoon = _blade(places, 0.06 + 0 * places, arc_sweep(places, depth=depth))
    radius, angle = (0.58**2 + depth**2) / (2 * depth), 2 * np.arctan(depth / 0.58)
    # The curve goes through ordinates h = 10 mm apart, its slopes there harmonic means of those of chords that differ
    # by h/R: at a slope p too small by (h/2R)^2/p. Over the length p times that is (h/2R)^2 of it.
    short = (0.01 / (2 * radius)) ** 2
    assert developed_length(spoon) == pytest.approx(radius * angle, rel=short)
    assert developed_area(spoon) == pytest.approx(0.12 * radius * angle, rel=short)
    # At the tip the slope is that of the parabola through three ordinates: h^2/3 of the third derivative, 3 p/R^2 and
    # terms of p^2 beside it, a fiftieth.
    assert tip_angle(spoon) == pytest.approx(angle, rel=1.1 * (0.01 / radius) ** 2)
    # In mid-blade the slope is half that at the tip; an eighth of a step of twice its error, and the search as above.
    middle = 2 * 0.01 / 8 * short / np.tan(angle / 2)
    hollow = radius * (1 - np.cos(angle / 2))
    assert depth_of_curve(spoon) == pytest.approx(hollow, abs=middle + 4 * hollow / 800**2)
