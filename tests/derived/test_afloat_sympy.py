"""Oars afloat and swinging by other roads: closed forms in SymPy, sections cut by shapely, rest by scipy.optimize."""

from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
import sympy as sp
from scipy.integrate import quad
from scipy.optimize import fsolve
from shapely.affinity import rotate
from shapely.geometry import Polygon, box

from oarkit.oar.afloat import _cut, afloat, centre_of_volume, volume
from oarkit.oar.build import Leather, Oar
from oarkit.oar.counterweight import Swing, counterweight, with_counterweight
from oarkit.oar.mass import GRAVITY, balance, centre_of_percussion, mass
from oarkit.oar.measured import stations_between
from oarkit.section.profile import Profile, outline, zone_moments
from oarkit.working import BadDesign

LENGTH = 2.0
SHAPE = SimpleNamespace(length=LENGTH, inboard=0.6, leather_start=0.5, leather_length=0.2)


def _bar(sizes, density, breaks=(0.7,)):
    """A bar whose sizes and density are functions of the place along it."""
    laid = stations_between([0.0, *breaks, LENGTH], 25)
    profile = Profile(**{name: value(laid.s) for name, value in sizes.items()})
    area = zone_moments(profile, np.zeros_like(laid.s), np.ones_like(laid.s)).area
    return Oar(
        shape=SHAPE, pieces=(), leather=Leather(mass=0.0), s=laid.s,
        weight=laid.weight, middle=laid.middle, profile=profile,
        laminate=SimpleNamespace(mass_per_length=np.where(laid.middle < breaks[0], *density) * area),
    )  # fmt: skip


def _plank(thickness, width, density=(450.0, 450.0), breaks=(0.7,)):
    even = {"thickness": thickness, "width": width, "edge": thickness, "corner": 0.0, "blade_share": 0.0}
    return _bar({name: lambda s, v=value: np.full(s.shape, v) for name, value in even.items()}, density, breaks)


# Sections cut by the water

SECTIONS = {
    "round": (0.046, 0.046, 0.046, 0.5, 0.0),
    "ellipse": (0.030, 0.026, 0.030, 0.5, 0.0),
    "square": (0.050, 0.040, 0.050, 0.0, 0.0),
    "eased": (0.048, 0.052, 0.048, 0.216, 0.0),
    "blade": (0.014, 0.130, 0.006, 0.5, 1.0),
    "half blade": (0.025, 0.045, 0.010, 0.5, 0.5),
}


@pytest.mark.parametrize("lies", ["flat", "on edge"])
@pytest.mark.parametrize("share", [-1.2, -0.8, -0.33, -0.04, 0.0, 0.2, 0.71, 1.3])
@pytest.mark.parametrize("name", SECTIONS)
def test_section_cut_by_shapely(name, share, lies):
    """Area under water, its moment and the breadth at the water are those of the outline cut by a half-plane."""
    profile = Profile(
        **{
            key: np.array([value])
            for key, value in zip(("thickness", "width", "edge", "corner", "blade_share"), SECTIONS[name], strict=True)
        }
    )
    one = Profile(**{key: np.float64(getattr(profile, key)[0]) for key in Profile.__slots__})
    shape = Polygon(np.column_stack(outline(one, 3000)))
    shape = rotate(shape, 90, origin=(0, 0)) if lies == "on edge" else shape
    height = share * (shape.bounds[3] - shape.bounds[1]) / 2
    under = shape.intersection(box(-1, -1, 1, height))
    moment = under.area * under.centroid.y if under.area else 0.0
    step = 1e-7
    breadth = shape.intersection(box(-1, height - step, 1, height + step)).area / (2 * step)
    found = _cut(profile, np.array([height]), lies)
    # The outline is a polygon of 12,000 sides, the breadth that of a slice of 0.2 micrometres.
    whole = shape.area
    assert found.area[0] == pytest.approx(under.area, abs=1e-6 * whole)
    assert found.moment[0] == pytest.approx(moment, abs=1e-6 * whole * abs(shape.bounds[3]))
    assert found.breadth[0] == pytest.approx(breadth, rel=1e-3, abs=1e-5)


# Rest and roll


@pytest.mark.parametrize(
    ("thickness", "width", "density"), [(0.03, 0.08, 430.0), (0.05, 0.06, 610.0), (0.09, 0.02, 300.0)]
)
def test_metacentre_of_a_plank(thickness, width, density):
    """SymPy: a plank of breadth B and depth H floating to a share f has GM = B^2/(12 f H) - H (1 - f)/2."""
    b, h, f, y, z = sp.symbols("B H f y z", positive=True)
    draught = f * h
    second = sp.integrate(y**2, (y, -b / 2, b / 2))
    buoyancy = sp.integrate(z, (z, 0, draught)) / draught
    metacentric = second / (b * draught) + buoyancy - h / 2
    assert sp.simplify(metacentric - (b**2 / (12 * f * h) - h * (1 - f) / 2)) == 0
    plank = _plank(thickness, width, (density, density))
    for lies, across, deep in (("flat", width, thickness), ("on edge", thickness, width)):
        exact = float(metacentric.subs({b: across, h: deep, f: density / 1000}))
        assert afloat(plank, lies=lies).metacentric == pytest.approx(exact, rel=1e-9)


@pytest.mark.parametrize(("share", "ratio"), [(0.5, 1.2247), (0.25, 1.0607), (0.7, 1.1225)])
def test_when_a_log_lies_flat(share, ratio):
    """A square-cut log is on the point of rolling at B/H = sqrt(6 f (1 - f)), the root of its GM."""
    assert ratio == pytest.approx(np.sqrt(6 * share * (1 - share)), abs=5e-5)
    for factor, stays in ((0.99, False), (1.01, True)):
        log = _plank(0.05, 0.05 * ratio * factor, (1000 * share, 1000 * share))
        assert bool(afloat(log).stays) is stays


@pytest.mark.parametrize("lies", ["flat", "on edge"])
def test_trim_of_an_oar_of_two_woods(lies):
    """SymPy: a plank of two woods joined at 0.9 m rests where lift and turning are nil, a linear pair of equations."""
    x, level, trim = sp.symbols("x h theta")
    thickness, width, woods, joint = 0.05, 0.08, (560, 420), sp.Rational(9, 10)
    deep, across = (thickness, width) if lies == "flat" else (width, thickness)
    weight = [(woods[0], 0, joint), (woods[1], joint, 2)]

    def moment(n):
        lift = 1000 * sp.integrate(x**n * across * (level + trim * x + sp.Float(deep) / 2), (x, 0, 2))
        return lift - sum(rho * deep * across * sp.integrate(x**n, (x, a, b)) for rho, a, b in weight)

    rest = sp.solve([moment(0), moment(1)], [level, trim])
    found = afloat(_plank(thickness, width, woods, (0.9,)), lies=lies)
    assert found.at_handle == pytest.approx(float(rest[level]), abs=1e-12)
    assert found.at_tip == pytest.approx(float(rest[level] + 2 * rest[trim]), abs=1e-12)
    assert found.handle_low


@pytest.mark.parametrize("lies", ["flat", "on edge"])
def test_trim_under_a_heavy_leather(lies):
    """SymPy: an even plank of 3.6 kg with 0.7 kg of leather 0.6 m from its end, a point that displaces nothing.

    The centre of gravity goes to (3.6 + 0.7 x 0.6)/4.3 m from the end; lift and turning are nil as above, and the roll
    is the second moment of the waterplane and the moment of what is under water, about the axis, where all weight lies.
    """
    x, z, level, trim = sp.symbols("x z h theta")
    thickness, width, leather, at = sp.Rational(5, 100), sp.Rational(8, 100), sp.Rational(7, 10), sp.Rational(6, 10)
    deep, across = (thickness, width) if lies == "flat" else (width, thickness)
    wood = 450 * thickness * width * 2
    water = level + trim * x

    def unrest(n):
        lift = 1000 * sp.integrate(x**n * across * (water + deep / 2), (x, 0, 2))
        return lift - 450 * deep * across * sp.integrate(x**n, (x, 0, 2)) - leather * at**n

    rest = sp.solve([unrest(0), unrest(1)], [level, trim])
    ends = [float(water.subs(rest).subs(x, end)) for end in (0, 2)]
    assert max(map(abs, ends)) < deep / 2  # the water cuts the sides all along, as the pair of equations takes it
    under = sp.integrate(across * sp.integrate(z, (z, -deep / 2, water)), (x, 0, 2)) + 2 * across**3 / 12
    metacentric = float(under.subs(rest) / ((wood + leather) / 1000))
    oar = replace(_plank(0.05, 0.08), leather=Leather(mass=0.7))
    assert mass(oar) == pytest.approx(4.3, rel=1e-12)
    assert balance(oar) == pytest.approx((3.6 + 0.7 * 0.6) / 4.3 - 0.6, rel=1e-12)
    found = afloat(oar, lies=lies)
    assert found.share == pytest.approx(4.3 / 8, rel=1e-12)
    assert (found.at_handle, found.at_tip) == pytest.approx(ends, abs=1e-12)
    assert found.metacentric == pytest.approx(metacentric, rel=1e-9)
    assert found.handle_low
    assert not afloat(replace(oar, leather=Leather(mass=0.0)), lies=lies).handle_low  # without it: level


def test_leather_that_sinks_the_oar():
    """A plank of 8 litres and 3.6 kg floats under 4.3 kg of leather and sinks under 4.4; in salt water under 4.61."""
    plank = _plank(0.05, 0.08)
    with pytest.raises(BadDesign, match="the oar sinks"):
        afloat(replace(plank, leather=Leather(mass=4.4)))
    with pytest.raises(BadDesign, match="the oar sinks"):
        afloat(replace(plank, leather=Leather(mass=np.array([0.06, 4.4]))))  # one of several enough
    with pytest.raises(BadDesign, match="the oar sinks"):
        afloat(replace(plank, leather=Leather(mass=4.61)), water_density=1025.0)
    middle = SimpleNamespace(length=LENGTH, inboard=0.6, leather_start=0.9, leather_length=0.2)  # so that it lies level
    for most, water in ((4.3, 1000.0), (4.59, 1025.0)):
        heavy = replace(plank, shape=middle, leather=Leather(mass=most))
        share = (3.6 + most) / (8e-3 * water)
        found = afloat(heavy, water_density=water)
        assert found.share == pytest.approx(share, rel=1e-12)
        assert (found.at_handle, found.at_tip) == pytest.approx(((share - 0.5) * 0.05,) * 2, abs=1e-12)


def test_cone_at_rest():
    """A round taper of one wood: volume and its centre by SymPy, rest by segments of circles, scipy.quad and fsolve."""
    handle, tip, density = 0.050, 0.026, 455.0
    cone = _bar(
        {
            "thickness": lambda s: handle + (tip - handle) * s / LENGTH,
            "width": lambda s: handle + (tip - handle) * s / LENGTH,
            "edge": lambda s: 0 * s + 0.01,
            "corner": lambda s: 0 * s + 0.5,
            "blade_share": lambda s: 0 * s,
        },
        (density, density),
    )
    s = sp.Symbol("s")
    circle = sp.pi / 4 * (sp.Float(handle) + (sp.Float(tip) - sp.Float(handle)) * s / 2) ** 2
    whole, first = (float(sp.integrate(circle * s**n, (s, 0, 2))) for n in (0, 1))
    assert volume(cone) == pytest.approx(whole, rel=1e-9)
    assert centre_of_volume(cone) == pytest.approx(first / whole, rel=1e-9)

    def segment(height, radius):
        share = np.clip(height / radius, -1, 1)
        return radius**2 * (np.pi / 2 + np.arcsin(share) + share * np.sqrt(1 - share**2))

    def unrest(ends):
        def under(s, n):
            radius = (handle + (tip - handle) * s / LENGTH) / 2
            return segment(ends[0] + (ends[1] - ends[0]) * s / LENGTH, radius) * s**n

        lift, turn = (quad(under, 0, LENGTH, args=(n,), epsabs=1e-13)[0] for n in (0, 1))
        return [1e3 * (lift - density / 1000 * whole), 1e3 * (turn - density / 1000 * first)]

    rest = fsolve(unrest, [0.0, 0.0], xtol=1e-12)
    found = afloat(cone)
    # Heights of some millimetres to a tenth of a micrometre: Simpson's rule along the oar.
    assert (found.at_handle, found.at_tip) == pytest.approx(rest, abs=1e-7)


# Swing


def test_percussion_of_two_bars():
    """SymPy: a blow where the formula says leaves the held place of a two-wood bar without reaction.

    The blow J at q sets the bar turning at w = J q/I and its centre of gravity moving at w c; the held place takes the
    difference J - m w c, which must be nil.
    """
    x, q, blow = sp.symbols("x q J", positive=True)
    heavy, light, joint, length, lock = 0.9, 0.4, sp.Rational(7, 10), sp.Rational(11, 5), sp.Rational(13, 20)
    for pivot, inboard in ((lock, 0.0), (sp.Rational(1, 10), 0.55)):

        def about(place, n):
            return heavy * sp.integrate((x - place) ** n, (x, 0, joint)) + light * sp.integrate(
                (x - place) ** n, (x, joint, length)
            )

        mass, first, inertia = (about(pivot, n) for n in (0, 1, 2))
        quiet = sp.solve(blow - blow * q / inertia * first, q)[0]
        found = centre_of_percussion(
            mass=float(mass),
            balance=float(about(lock, 1) / mass),
            inertia=float(about(lock, 2)),
            pivot_inboard=inboard,
        )
        assert found == pytest.approx(float(quiet), rel=1e-12)


def test_counterweight_by_moments():
    """SymPy: the mass that makes hand, oar and counterweight balance about the pin, and what the sum then is."""
    m, x, arm, wanted, place, added, inertia = sp.symbols("m x a W c k I", positive=True)
    g = sp.Float(GRAVITY)
    solved = sp.solve(m * g * x - added * g * place - wanted * arm, added)[0]
    sizes = {m: 1.83, x: 0.412, arm: 0.587, wanted: 7.7, place: 0.43}
    found = counterweight(mass=1.83, balance=0.412, hand_arm=0.587, wanted=7.7, weight_inboard=0.43)
    assert found == pytest.approx(float(solved.subs(sizes)), rel=1e-12)
    heavy = with_counterweight(Swing(mass=1.83, balance=0.412, inertia=0.93), added=found, weight_inboard=0.43)
    centre = ((m * x + added * (-place)) / (m + added)).subs({**sizes, added: found})
    assert heavy.balance == pytest.approx(float(centre), rel=1e-12)
    assert heavy.inertia == pytest.approx(
        float((inertia + added * place**2).subs({inertia: 0.93, added: found, **sizes}))
    )
