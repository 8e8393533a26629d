"""Sizes of the loads derived again with SymPy: the felt mass, the crab's bound, the foot, the pressed column."""

import numpy as np
import pytest
import sympy

from oarkit import design, example_project
from oarkit.strength.abuse import push_off, step_moment, stepped_on, stepping_moment
from oarkit.strength.beam import deflection_at, moment_along
from oarkit.strength.bend import bench_drop
from oarkit.strength.cases import proof_load, steering
from oarkit.strength.crab import caught_crab, crab_force, felt_mass, yaw_inertia
from oarkit.strength.load import amplification, balanced, loom_torque, water_force


@pytest.fixture(scope="module")
def oar():
    return design(example_project("quillet").inputs).oars["port"]


def test_felt_mass():
    """A blow J beside the centre moves the struck point at J/m + (J y/I) y; the felt mass is J over that."""
    blow, mass, yaw, arm = sympy.symbols("J m I y", positive=True)
    moved = blow / mass + blow * arm / yaw * arm
    felt = sympy.lambdify((mass, yaw, arm), sympy.simplify(blow / moved))
    assert felt_mass(mass=131.0, yaw=71.0, arm=1.93) == pytest.approx(felt(131.0, 71.0, 1.93))
    assert felt_mass(mass=131.0, yaw=71.0, arm=0.0) == pytest.approx(131.0)  # struck at the centre: the whole


def test_crab_force():
    """The energy ½ m_e v² goes whole into the oar as ½ F²/k."""
    force, speed, felt, stiffness = sympy.symbols("F v m k", positive=True)
    (solved,) = sympy.solve(sympy.Eq(felt * speed**2 / 2, force**2 / (2 * stiffness)), force)
    exact = float(solved.subs({speed: 1.7, felt: 17.3, stiffness: 1490.0}))
    assert crab_force(speed=1.7, felt=17.3, stiffness=1490.0) == pytest.approx(exact)


def test_yaw_inertia():
    """A boat of 45 kg and 4.572 m and a rower of 75 kg by hand: 45 · 1.143² + 7.5."""
    assert yaw_inertia(boat_mass=45.0, length_overall=4.572, rower_mass=75.0) == pytest.approx(45 * 1.306449 + 7.5)


def test_the_crab_of_the_example(oar):
    """The bound worked by hand from the oar's bench drop; force, reversed, and what open water alone holds."""
    case = caught_crab(oar, boat_mass=45.0, length_overall=4.572, rower_mass=75.0, span=1.1049, speed=1.8)
    arm = 1.1049 / 2 + oar.blade_arm
    felt = 1 / (1 / 120 + arm**2 / 66.290205)
    bound = 1.8 * np.sqrt(felt * 98.0665 / bench_drop(oar))
    assert case.forces[0] == pytest.approx(-bound)
    assert case.forces[1] == pytest.approx(-bound * oar.blade_arm / oar.hand_arm)
    # The energy stored under that force is the boat's own.
    bent = abs(deflection_at(oar, case, place=oar.shape.mid_blade))
    assert bound * bent / 2 == pytest.approx(felt * 1.8**2 / 2, rel=1e-4)  # two quadratures of the drop
    area = oar.integral(oar.profile.width * (oar.middle > oar.shape.blade_root))
    assert case.beside["open water holds"].value == pytest.approx(1000 * area * 1.8**2)  # ½ ρ · 2 · A v²


def test_water_force():
    """Half the density times speed squared is the head of water that would drive it: ρ g h with h = v²/2g."""
    density, gravity, speed = sympy.symbols("rho g v", positive=True)
    pressure = density * gravity * (speed**2 / (2 * gravity))
    exact = float(pressure.subs({density: 1025, speed: 2.5}) * 0.0642 * 1.1)
    assert water_force(density=1025.0, coefficient=1.1, area=0.0642, speed=2.5) == pytest.approx(exact)


def test_steering_of_the_example(oar):
    """A blade of that area in a run of 2.5 m/s, fresh water."""
    area = oar.integral(oar.profile.width * (oar.middle > oar.shape.blade_root))
    assert steering(oar).forces[0] == pytest.approx(0.5 * 1000 * 1.1 * area * 6.25)
    assert steering(oar, density=1025.0).forces[0] == pytest.approx(0.5 * 1025 * 1.1 * area * 6.25)


def test_supports():
    """What two supports give, as SymPy solves the two balances for unequal arms."""
    first, second = sympy.symbols("R_1 R_2")
    places, loads, held = [0.3, 2.9], [40.0, -13.0], (0.7, 1.9)
    ways = (*places, *held)
    forces = (*loads, first, second)
    solved = sympy.solve([sum(forces), sum(f * s for f, s in zip(forces, ways, strict=True))], [first, second])
    _, found = balanced(places=places, forces=loads, held=held)
    assert found[2:] == pytest.approx((float(solved[first]), float(solved[second])))


def test_foot(oar):
    """A foot in mid-gap: W g/4 is the largest moment that SymPy finds, and the beam has it there."""
    x, weight, gap, at = sympy.symbols("x W g p", positive=True)
    under = sympy.simplify((weight * (gap - at) / gap * x).subs(x, at))  # rises straight to the foot at p
    assert sympy.solve(sympy.diff(under, at), at) == [gap / 2]  # and is largest with the foot in the middle
    largest = sympy.lambdify((weight, gap), under.subs(at, gap / 2))
    assert step_moment(weight=785.0, gap=0.83) == pytest.approx(largest(785.0, 0.83))
    foot = float(oar.shape.inboard)  # a station
    for plane in ("stroke", "lateral"):
        case = stepped_on(oar, plane=plane, place=foot, gap=0.83)
        assert np.abs(moment_along(oar, case)).max() == pytest.approx(largest(785.0, 0.83))


def test_every_place_of_the_foot(oar):
    """The most a foot brings at a station is the largest over many places of the foot, one by one."""
    gap = 0.83
    most = stepping_moment(oar, gap=gap)
    feet = np.linspace(gap / 2, oar.shape.length - gap / 2, 400)
    tried = [np.abs(moment_along(oar, stepped_on(oar, plane="stroke", place=foot, gap=gap))) for foot in feet]
    # Feet 3.7 mm apart miss the worst place by half that: 785 N/2 · 1.9 mm.
    assert np.max(tried, axis=0) == pytest.approx(most, abs=0.75)
    assert np.all(most >= np.max(tried, axis=0) - 1e-9)


def test_worst_foot(oar):
    """The worst place outboard is no better than any other where the gap's ends lie under the oar, in both planes."""
    for plane in ("stroke", "lateral"):
        worst = float(stepped_on(oar, plane=plane).places[0])
        if plane == "stroke":
            stiffness, size = oar.laminate.bending_stiffness, oar.profile.thickness
        else:
            stiffness, size = oar.laminate.lateral_stiffness, oar.profile.width
        loom = oar.pieces[0].wood
        stress = 785 * 0.9 / 4 * size / 2 * loom.modulus / stiffness
        free = (oar.s > oar.shape.inboard) & (oar.s < oar.shape.blade_root)
        # All loom of one wood there: the thinnest section of the free stretch has the largest stress.
        there = stress[np.abs(oar.s - worst) < 1e-9].max()  # of the two stations at a break the weaker
        assert there >= stress[free].max() * (1 - 1e-9)


def test_pressed_column():
    """1/(1 − P/P_cr) against the exact column: 3 % either way up to a fifth of the buckling load."""
    x, k, half, side, push, off = sympy.symbols("x k l Q P e", positive=True)  # from mid-length, k² = P/(E I)
    # y″ = −k² (y + e) − Q (l − x)/(2 E I), with nil slope at mid-length and nil y at the end.
    y = sympy.Function("y")
    equation = sympy.Eq(y(x).diff(x, 2), -(k**2) * (y(x) + off) - side * (half - x) * k**2 / (2 * push))
    bow = sympy.dsolve(equation, ics={y(half): 0, y(x).diff(x).subs(x, 0): 0}).rhs
    moment = push * (bow.subs(x, 0) + off) + side * half / 2
    exact = sympy.lambdify((k, half, side, push, off), moment)
    stiffness, length = 1100.0, 2.226
    buckling = np.pi**2 * stiffness / length**2
    for share in (0.05, 0.1, 0.2):
        load = share * buckling
        plain = load * 0.020 + 80 * length / 4
        found = amplification(axial=load, buckling=buckling) * plain
        assert found == pytest.approx(exact(np.sqrt(load / stiffness), length / 2, 80.0, load, 0.020), rel=0.03)


def test_push_off_of_the_example(oar):
    """The moment at mid-length is (P e + Q L/4)/(1 − P/P_cr)."""
    case = push_off(oar, force=300.0, eccentricity=0.05, sideways=60.0)
    span = oar.shape.length - oar.shape.grip_centre
    buckling = case.beside["buckling load"].value
    exact = (300 * 0.05 + 60 * span / 4) / (1 - 300 / buckling)
    at = np.argmax(moment_along(oar, case))
    slack = 60 / 2 * abs(oar.s[at] - case.places[0]) * case.amplified  # no station at mid-length
    assert moment_along(oar, case)[at] == pytest.approx(exact - slack)


def test_proof_load(oar):
    """A quarter more than the blade force of the hard start."""
    assert proof_load(oar, force=450.0).forces[0] == pytest.approx(1.25 * 450 * oar.hand_arm / oar.blade_arm)


def test_loom_torque():
    """160 N, 15 mm off the axis, and 3 N m of the hand: 5.4 N m, whichever way the force goes."""
    assert loom_torque(force=-160.0, offset=0.015, feathering=3.0) == pytest.approx(5.4)
