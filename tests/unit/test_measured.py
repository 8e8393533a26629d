"""Oars measured from life and blades by ordinates, on sizes worked in the head."""

from dataclasses import replace
from itertools import pairwise
from types import SimpleNamespace

import numpy as np
import pytest

from oarkit.oar.blade import (
    Blade,
    arc_sweep,
    blade_stations,
    centre_of_outline,
    depth_of_curve,
    developed_area,
    developed_length,
    outline_area,
    tip_angle,
)
from oarkit.oar.build import Leather, Oar
from oarkit.oar.mass import blade_area, blade_centre, mass
from oarkit.oar.measured import MeasuredShape, Station, stations_between
from oarkit.section.profile import zone_moments
from oarkit.working import BadDesign

# A round grip, a square inboard that jumps to a round loom in the lock, an elliptic neck and a blade.
TABLE = (
    Station(s=0.00, thickness=0.032, form="round"),
    Station(s=0.13, thickness=0.034, form="round"),
    Station(s=0.18, thickness=0.048, form="square"),
    Station(s=0.52, thickness=0.048, form="square"),
    Station(s=0.52, thickness=0.046, form="round"),
    Station(s=0.80, thickness=0.046, form="round"),
    Station(s=1.30, thickness=0.039, width=0.037, form="ellipse"),
    Station(s=1.70, thickness=0.030, width=0.026, form="ellipse"),
    Station(s=1.75, thickness=0.024, width=0.050, form="blade", edge=0.009),
    Station(s=2.00, thickness=0.014, width=0.130, form="blade", edge=0.007),
    Station(s=2.30, thickness=0.011, width=0.130, form="blade", edge=0.006),
)
SHAPE = MeasuredShape(stations=TABLE, inboard=0.65, grip_centre=0.05, leather_start=0.55, leather_length=0.25)


def _at(shape, *places, side=0.0):
    """Sections at places, seen from their outboard side, or from inboard with a negative side."""
    s = np.array(places)
    return shape.profile(SimpleNamespace(s=s, middle=s + side))


def _oar(shape, *, density, leather=0.0):
    """An oar of one wood on a measured shape."""
    laid = shape.laid()
    profile = shape.profile(laid)
    area = zone_moments(profile, np.zeros_like(profile.width), np.ones_like(profile.width)).area
    return Oar(
        shape=shape, pieces=(), leather=Leather(mass=leather), s=laid.s, weight=laid.weight, middle=laid.middle,
        profile=profile, laminate=SimpleNamespace(mass_per_length=density * area),
    )  # fmt: skip


# The station table


@pytest.mark.parametrize("station", TABLE, ids=lambda each: f"{each.s}-{each.form}")
def test_curves_pass_through_what_was_measured(station):
    """At every station the sections have the measured sizes, each side of a jump its own."""
    side = -1e-9 if (station.s, station.form) == (0.52, "square") else 1e-9
    sizes = _at(SHAPE, station.s, side=side)
    assert sizes.thickness[0] == pytest.approx(station.thickness, abs=1e-15)
    assert sizes.width[0] == pytest.approx(station.wide, abs=1e-15)
    assert sizes.blade_share[0] == pytest.approx(float(station.form == "blade"), abs=1e-15)
    if station.edge:
        assert sizes.edge[0] == pytest.approx(station.edge, abs=1e-15)


def test_curves_do_not_overshoot():
    """Between neighbouring stations no size leaves the range of the two."""
    for before, after in pairwise(TABLE):
        if after.s > before.s:
            sizes = _at(SHAPE, *np.linspace(before.s, after.s, 41)[:-1])
            for name, pair in (
                ("thickness", (before.thickness, after.thickness)), ("width", (before.wide, after.wide)),
            ):  # fmt: skip
                run = getattr(sizes, name)
                assert np.all(run >= min(pair) - 1e-15)
                assert np.all(run <= max(pair) + 1e-15)


def test_even_stretch_stays_even_beside_a_taper():
    """The 46 mm of the lock stays 46 mm to its last station, and the blade keeps its width to the tip."""
    assert _at(SHAPE, 0.55, 0.65, 0.79).thickness == pytest.approx(0.046, abs=1e-15)
    assert _at(SHAPE, 2.05, 2.2, 2.3).width == pytest.approx(0.130, abs=1e-15)


def test_straight_taper_stays_straight():
    """Stations on a straight line, unevenly spaced, give the straight line."""
    loom = [Station(s=s, thickness=0.050 - 0.01 * s, form="round") for s in (0.0, 0.2, 0.7, 1.5)]
    blade = [
        Station(s=s, thickness=0.05 - 0.01 * s, width=0.12, edge=0.006, form="blade") for s in (1.5, 1.8, 2.0)
    ]  # fmt: skip
    shape = MeasuredShape(
        stations=(*loom, *blade), inboard=0.6, grip_centre=0.05, leather_start=0.5, leather_length=0.2
    )
    s = np.array([0.1, 0.33, 1.1, 1.6, 1.93])
    assert _at(shape, *s).thickness == pytest.approx(0.05 - 0.01 * s, rel=1e-12)


def test_form_goes_over_between_stations():
    """Half-way from neck to blade the sizes are the mean, and the form half blade."""
    sizes = _at(SHAPE, 1.725)
    found = [float(getattr(sizes, name)[0]) for name in ("thickness", "width", "edge", "blade_share")]
    # The neck's edge counts as its thickness, 30 mm.
    assert found == pytest.approx([0.027, 0.038, (0.030 + 0.009) / 2, 0.5], abs=1e-12)


def test_jump_of_section():
    """The square before the lock ends at 48 mm, and the round begins there at 46 mm."""
    assert _at(SHAPE, 0.52, side=-0.001).thickness[0] == pytest.approx(0.048)
    assert _at(SHAPE, 0.52, side=0.001).thickness[0] == pytest.approx(0.046)
    assert _at(SHAPE, 0.52, side=-0.001).corner[0] < 0.3
    assert _at(SHAPE, 0.52, side=0.001).corner[0] == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("station", "area"),
    [
        (Station(s=0.0, thickness=0.040, form="round"), np.pi * 0.020**2),
        (Station(s=0.0, thickness=0.040, width=0.030, form="ellipse"), np.pi * 0.020 * 0.015),
        (Station(s=0.0, thickness=0.050, form="square"), 0.96 * 0.050**2),
        (Station(s=0.0, thickness=0.050, corner=0.0, form="square"), 0.050**2),
        (Station(s=0.0, thickness=0.050, corner=0.010, form="square"), 0.050**2 - (4 - np.pi) * 0.010**2),
        (Station(s=0.0, thickness=0.050, form="eight"), 8 * 0.025**2 * np.tan(np.pi / 8)),
        (Station(s=0.0, thickness=0.050, width=0.040, form="eight"), 8 * 0.025 * 0.020 * np.tan(np.pi / 8)),
    ],
    ids=["round", "ellipse", "square", "sharp", "eased", "eight", "long eight"],
)
def test_area_of_a_form(station, area):
    """Each form has the area that plane geometry gives it."""
    shape = replace(SHAPE, stations=(station, replace(station, s=1.0), *TABLE[-3:]))
    profile = _at(shape, 0.5)
    assert zone_moments(profile, np.zeros(1), np.ones(1)).area[0] == pytest.approx(area, rel=1e-9)


def test_stiffness_of_eight_sides():
    """For the eight-sided section stands the eased square of its size and area; it bends 0.15 % less than the octagon.

    Octagon: 8 triangles of the polygon formula. Eased square: the sharp one less four corners, each a square of the
    radius c less a quarter circle about d = a/2 - c.
    """
    corners = 0.025 / np.cos(np.pi / 8) * np.exp(1j * (np.pi / 8 + np.pi / 4 * np.arange(9)))
    y, z = corners.real, corners.imag
    cross = y[:-1] * z[1:] - y[1:] * z[:-1]
    polygon = np.sum(cross * (z[:-1] ** 2 + z[:-1] * z[1:] + z[1:] ** 2)) / 12
    c = np.sqrt((0.050**2 - np.sum(cross) / 2) / (4 - np.pi))
    d = 0.025 - c
    spandrel = c * (0.025**3 - d**3) / 3 - (np.pi * c**2 * d**2 / 4 + 2 * c**3 * d / 3 + np.pi * c**4 / 16)
    eased = 0.050**4 / 12 - 4 * spandrel
    eight = Station(s=0.0, thickness=0.050, form="eight")
    profile = _at(replace(SHAPE, stations=(eight, replace(eight, s=1.0), *TABLE[-3:])), 0.5)
    found = zone_moments(profile, np.zeros(1), np.ones(1)).bending[0]
    assert found == pytest.approx(eased, rel=1e-12, abs=0)
    assert 100 * (1 - found / polygon) == pytest.approx(0.15, abs=0.005)  # as the record says, to two decimals


def test_stations_of_the_quadrature():
    """Measured places, lock, grip centre, leather and mid-blade are stations; the weights add up to the length."""
    laid = SHAPE.laid([1.9])
    for place in (0.05, 0.13, 0.52, 0.55, 0.65, 0.675, 0.80, 1.75, 1.9, 2.025, 2.3):
        assert np.any(np.isclose(laid.s, place, rtol=0, atol=1e-12))
    assert laid.weight.sum() == pytest.approx(2.3)
    assert np.all(np.diff(laid.s) >= 0)


@pytest.mark.parametrize(("count", "laid_out"), [(30, 16 * 3), (101, 16 * 7), (401, 16 * 25)])
def test_count_of_stations(count, laid_out):
    """As many stations as asked for, as near as an odd number in each of 16 segments comes, at least three."""
    laid = SHAPE.laid(count=count)
    assert laid.s.size == laid_out
    assert laid.weight.sum() == pytest.approx(2.3)


def test_places_that_follow_from_the_table():
    """Blade root at the first station of the blade, 0.55 m of blade, its middle at 2.025 m."""
    found = (SHAPE.length, SHAPE.blade_root, SHAPE.blade_length, SHAPE.mid_blade, SHAPE.blade_width)
    assert found == pytest.approx((2.3, 1.75, 0.55, 2.025, 0.130))
    assert (SHAPE.lock_diameter, SHAPE.neck_thickness, SHAPE.neck_width, SHAPE.tip_thickness) == pytest.approx(
        (0.046, 0.030, 0.026, 0.011)
    )
    assert (SHAPE.leather_end, SHAPE.leather_inboard) == pytest.approx((0.80, 0.10))


def test_arrays_of_inboards():
    """Two places of the lock on one oar give what each gives alone."""
    many = replace(SHAPE, inboard=np.array([0.60, 0.65]))
    laid = many.laid()
    assert laid.s.shape[0] == 2
    thick = np.sum(laid.weight * many.profile(laid).thickness, axis=-1)
    for inboard, found in zip((0.60, 0.65), thick, strict=True):
        alone = replace(SHAPE, inboard=inboard)
        one = alone.laid()
        assert found == pytest.approx(np.sum(one.weight * alone.profile(one).thickness), rel=1e-12)


def test_cylinder_and_blade_weigh_what_they_do():
    """A 40 mm round of 1.5 m and a blade of even section of 0.5 m, by hand: a trapezium on either side of the spine."""
    shape = MeasuredShape(
        stations=(
            Station(s=0.0, thickness=0.040, form="round"),
            Station(s=1.5, thickness=0.040, form="round"),
            Station(s=1.5, thickness=0.014, width=0.12, edge=0.006, form="blade"),
            Station(s=2.0, thickness=0.014, width=0.12, edge=0.006, form="blade"),
        ),
        inboard=0.6, grip_centre=0.05, leather_start=0.5, leather_length=0.2,
    )  # fmt: skip
    oar = _oar(shape, density=450.0, leather=0.060)
    by_hand = 450 * (np.pi * 0.020**2 * 1.5 + 0.12 * (0.014 + 0.006) / 2 * 0.5) + 0.060
    assert mass(oar) == pytest.approx(by_hand, rel=1e-12)
    assert blade_area(oar) == pytest.approx(0.060)
    assert blade_centre(oar) == pytest.approx(1.75)


def test_stations_between_take_any_odd_number():
    """Halving the steps leaves the integral of a cube as it is."""
    for nodes in (3, 7, 25):
        laid = stations_between([0.0, 1.3, 2.0], nodes)
        assert np.sum(laid.weight * laid.s**3) == pytest.approx(4.0)


# Faults, in words


def _with(index, **changes):
    return (*TABLE[:index], replace(TABLE[index], **changes), *TABLE[index + 1 :])


@pytest.mark.parametrize(
    ("stations", "said"),
    [
        (TABLE[:1], "at least two stations"),
        (TABLE[1:], "first station stands at 0.13 m"),
        (_with(3, s=0.60), "station 5 stands at 0.52 m, behind station 4 at 0.6 m"),
        ((*TABLE[:5], TABLE[4], *TABLE[5:]), "stations 4 to 6 all stand at 0.52 m"),
        ((*TABLE, replace(TABLE[-1], width=0.12)), "cannot jump at an end"),
        ((TABLE[0], replace(TABLE[0], thickness=0.03), *TABLE[1:]), "cannot jump at an end"),
        (TABLE[:-3], "the last two stations or more must be of the blade"),
        ((*TABLE[:9], replace(TABLE[6], s=1.8), *TABLE[9:]), "the loom before them"),
        ((replace(TABLE[-1], s=0.0), *TABLE[8:]), "the loom before them"),
        (_with(2, thickness=0.0), "thickness of station 3 at 0.18 m must be above nought"),
        (_with(2, thickness=np.nan), "thickness of station 3"),
        (_with(7, width=-0.02), "width of station 8"),
        (_with(2, s=np.inf), "station 3 has no place"),
        (_with(7, width=None), "station 8 at 1.7 m is an ellipse and needs its width"),
        (_with(5, width=0.049), "station 6 at 0.8 m is 0.046 m thick and 0.049 m wide, which is not round"),
        (_with(9, edge=None), "needs the thickness of its edge"),
        (_with(6, edge=0.006), "has no edge to measure"),
        (_with(9, edge=0.015), "the edge of station 10 at 2 m is 0.015 m thick, thicker than its centre at 0.014 m"),
        (_with(1, corner=0.01), "is not square"),
        (_with(2, corner=0.025), "eased to 0.025 m"),
        (_with(2, form="triangle"), "station 3 at 0.18 m is triangle"),
    ],
)
def test_faults_of_a_table(stations, said):
    """Each fault of a station table is told by the number of its station, its place and its sizes."""
    with pytest.raises(BadDesign) as refused:
        replace(SHAPE, stations=tuple(stations))
    assert said in str(refused.value)


def test_faults_are_told_all_at_once():
    """Two bad stations are named in one go."""
    with pytest.raises(BadDesign) as refused:
        replace(SHAPE, stations=(replace(TABLE[0], thickness=0.0), *_with(9, edge=0.02)[1:]))
    assert "station 1" in str(refused.value)
    assert "station 10" in str(refused.value)
    assert "thick_1" in refused.value.quantities


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"grip_centre": 0.7}, "grip centre must lie between"),
        ({"grip_centre": 0.0}, "grip centre must lie between"),
        ({"inboard": 1.8}, "the pin line at 1.8 m lies on the blade, which begins at 1.75 m"),
        ({"leather_start": 0.66}, "the leather must lie in the lock"),
        ({"leather_length": 0.05}, "the leather must lie in the lock"),
        ({"leather_length": 1.5}, "the leather must lie in the lock"),
        ({"leather_start": -0.1, "leather_length": 1.0}, "the leather must lie in the lock"),
        ({"inboard": np.nan}, "must be numbers"),
        ({"inboard": np.array([0.65, 1.8])}, "pin line"),
    ],
)
def test_faults_of_the_rest(changes, said):
    """Lock, hand and leather must lie where they can."""
    with pytest.raises(BadDesign, match=said):
        replace(SHAPE, **changes)


# Blades by ordinates

PLACES = np.array([0.0, 0.1, 0.3, 0.6])
PLAIN = Blade(
    places=PLACES, half_width=0.02 + 0.1 * PLACES, centre=0.02 - 0.01 * PLACES, edge=0.008 - 0.003 * PLACES
)  # fmt: skip


def test_trapezium_blade():
    """A blade from 40 to 160 mm wide over 600 mm: 0.06 m2, its centre three fifths of the way to the tip.

    A trapezium of ends a and b has its centre (a + 2 b)/(3 (a + b)) of the way from a: 360/600.
    """
    assert outline_area(PLAIN) == pytest.approx(0.060, rel=1e-12)
    assert centre_of_outline(PLAIN) == pytest.approx(0.36, rel=1e-12)


def test_flat_blade():
    """A flat blade is as long along its face as along the loom, with no hollow and no angle."""
    assert developed_length(PLAIN) == pytest.approx(0.6)
    assert developed_area(PLAIN) == pytest.approx(outline_area(PLAIN))
    assert depth_of_curve(PLAIN) == 0
    assert tip_angle(PLAIN) == 0


def test_straight_set():
    """A blade set aft in a straight line, 3 in 4: 5/4 as long, the angle of 3-4-5, and no hollow."""
    leaning = replace(PLAIN, sweep=0.75 * PLACES)
    assert developed_length(leaning) == pytest.approx(0.75)
    assert developed_area(leaning) == pytest.approx(0.075)
    assert tip_angle(leaning) == pytest.approx(np.arctan(0.75))
    assert depth_of_curve(leaning) == pytest.approx(0, abs=1e-15)


def test_arrays_of_blades():
    """Two outlines and two sweeps on one row of places give what each gives alone."""
    half = np.stack([PLAIN.half_width, 0.06 + 0 * PLACES])
    sweep = arc_sweep(PLACES, depth=np.array([0.02, 0.05]))
    both = replace(PLAIN, half_width=half, sweep=sweep)
    for function in (outline_area, centre_of_outline, developed_area, developed_length, tip_angle, depth_of_curve):
        alone = [float(function(replace(PLAIN, half_width=half[i], sweep=sweep[i]))) for i in (0, 1)]
        assert function(both) == pytest.approx(alone, rel=1e-12)


def test_no_depth_is_flat():
    """An arc of no depth is flat, and a quarter circle stands off as far as it is long."""
    assert arc_sweep(PLACES, depth=0.0) == pytest.approx(0 * PLACES)
    with pytest.raises(BadDesign, match="depth"):
        arc_sweep(PLACES, depth=0.6)
    with pytest.raises(BadDesign, match="depth"):
        arc_sweep(PLACES, depth=-0.01)
    assert arc_sweep(PLACES, depth=0.599999)[-1] == pytest.approx(0.6, abs=2e-6)  # as near a quarter as that


def test_blade_joins_the_table():
    """A blade by ordinates ends a measured loom, and the oar has its area."""
    shape = replace(SHAPE, stations=(*TABLE[:8], *blade_stations(PLAIN, root=1.7)))
    oar = _oar(shape, density=450.0)
    assert shape.length == pytest.approx(2.3)
    assert blade_area(oar) == pytest.approx(0.060, rel=1e-12)
    assert blade_centre(oar) == pytest.approx(1.7 + 0.36, rel=1e-12)


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"places": np.array([0.1, 0.2, 0.3, 0.6])}, "rise from 0"),
        ({"places": np.array([0.0, 0.3, 0.2, 0.6])}, "rise from 0"),
        ({"half_width": np.array([0.02, 0.05])}, "half-width of the blade needs one ordinate at each of its 4 places"),
        ({"half_width": np.array([0.02, 0.0, 0.05, 0.06])}, "half-width of the blade must be above nought"),
        ({"centre": np.array([0.02, np.nan, 0.01, 0.01])}, "centre thickness"),
        ({"edge": np.array([0.008, 0.03, 0.005, 0.005])}, "edge is thicker than its centre"),
        ({"sweep": np.array([0.0, 0.01])}, "sweep of the blade needs"),
        ({"sweep": np.array([0.01, 0.01, 0.02, 0.03])}, "begins at 0"),
    ],
)
def test_faults_of_a_blade(changes, said):
    """Each fault of the ordinates is told in words."""
    with pytest.raises(BadDesign, match=said):
        replace(PLAIN, **changes)
