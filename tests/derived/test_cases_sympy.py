"""Sizes of the loads derived again with SymPy: the felt mass, the crab's bound, the foot, the pressed column."""

from dataclasses import replace

import numpy as np
import pytest
import sympy

from oarkit import design, example_project
from oarkit.oar.build import Oar, Piece, build_oar
from oarkit.oar.measured import MeasuredShape, Station
from oarkit.strength.abuse import push_off, step_moment, stepped_on, stepping_moment, worst_step
from oarkit.strength.beam import deflection_at, moment_along
from oarkit.strength.cases import proof_load, steering
from oarkit.strength.crab import caught_crab, crab_force, felt_mass, yaw_inertia
from oarkit.strength.load import amplification, balanced, loom_torque, water_force
from oarkit.wood.board import Wood

# The example by its drawing: 2286 mm, the pin 628.65 and the hand 60 mm from the handle end, a blade of 558.8 mm.
HAND, BLADE, MIDDLE = 0.56865, 1.37795, 1.173  # arms to hand and mid-blade, and half-way from hand to tip [m]
# 27 mm wide at the root, spreading to 130.2 mm at 35 % of the blade with the power 0.8, whose mean is 1/1.8.
AREA = 0.5588 * (0.027 + 0.1032 * (0.35 / 1.8 + 0.65))
# Simpson's rule starts on the upright end of that power: 0.02 h^1.8 of a step of 1/300 of the blade, 2e-6 of the area.
UPRIGHT = 1e-5

BENDING, SHEAR = 2100.0, 61e3  # E I [N m2] and G A/k [N] of an even bar


@pytest.fixture(scope="module")
def oar() -> Oar:
    return design(example_project("quillet").inputs).oars["port"]


@pytest.fixture(scope="module")
def even(oar) -> Oar:
    """The outline of the example as stiff everywhere as in one place, with a station half-way from hand to tip."""
    bar = build_oar(oar.shape, oar.pieces, oar.leather, marks=[MIDDLE])
    same = {"bending_stiffness": BENDING, "lateral_stiffness": BENDING, "shear_stiffness": SHEAR}
    laminate = replace(bar.laminate, **{name: np.full_like(bar.s, value) for name, value in same.items()})
    return replace(bar, laminate=laminate)


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


def test_the_crab_of_an_even_bar(even):
    """The bound worked by hand from the bar's drop; force, reversed, and what open water alone holds."""
    case = caught_crab(even, boat_mass=45.0, length_overall=4.572, rower_mass=75.0, span=1.1049, speed=1.8)
    drop = (BLADE**3 + BLADE**2 * HAND) / (3 * BENDING) + (BLADE + BLADE**2 / HAND) / SHEAR  # under 1 N at mid-blade
    arm = 1.1049 / 2 + BLADE
    felt = 1 / (1 / 120 + arm**2 / 66.290205)
    bound = 1.8 * np.sqrt(felt / drop)
    assert case.forces[0] == pytest.approx(-bound)
    assert case.forces[1] == pytest.approx(-bound * BLADE / HAND)
    assert case.beside["felt mass"].value == pytest.approx(felt)
    assert case.beside["stiffness at mid-blade"].value == pytest.approx(1 / drop)
    # The energy stored under that force is the boat's own.
    bent = abs(deflection_at(even, case, place=even.shape.mid_blade))
    assert bound * bent / 2 == pytest.approx(felt * 1.8**2 / 2)
    held = case.beside["open water holds"].value
    assert held == pytest.approx(1000 * AREA * 1.8**2, rel=UPRIGHT)  # ½ ρ · 2 · A v²


def test_water_force():
    """Half the density times speed squared is the head of water that would drive it: ρ g h with h = v²/2g."""
    density, gravity, speed = sympy.symbols("rho g v", positive=True)
    pressure = density * gravity * (speed**2 / (2 * gravity))
    exact = float(pressure.subs({density: 1025, speed: 2.5}) * 0.0642 * 1.1)
    assert water_force(density=1025.0, coefficient=1.1, area=0.0642, speed=2.5) == pytest.approx(exact)


def test_steering_of_the_example(oar):
    """A blade of that area in a run of 2.5 m/s, fresh water."""
    assert steering(oar).forces[0] == pytest.approx(0.5 * 1000 * 1.1 * AREA * 6.25, rel=UPRIGHT)
    assert steering(oar, density=1025.0).forces[0] == pytest.approx(0.5 * 1025 * 1.1 * AREA * 6.25, rel=UPRIGHT)


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
    """The most a foot brings at a station is the largest of W/2 (g/2 - |s - f|) over many places f of the foot."""
    gap = 0.83
    most = stepping_moment(oar, gap=gap)
    feet = np.linspace(gap / 2, 2.286 - gap / 2, 400)[:, None]
    tried = np.max(785 / 2 * np.maximum(gap / 2 - np.abs(oar.s - feet), 0), axis=0)
    # Feet 3.7 mm apart miss the worst place by half that: 785 N/2 · 1.9 mm.
    assert tried == pytest.approx(most, abs=0.75)
    assert np.all(most >= tried - 1e-9)


SPRUCE = Wood(name="spruce", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=45e6, working=())
BRASH = Wood(name="brash spruce", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=15e6, working=())


def _loom(*rounds: tuple[float, float], tip: float = 0.044, pieces: tuple[Piece, ...] = ()) -> Oar:
    """An oar of 2.3 m, lock at 0.65, of rounds and a blade as thick as they are from 1.75 m on."""
    blade = {"width": 0.120, "edge": 0.007, "form": "blade"}
    shape = MeasuredShape(
        stations=(
            *(Station(s=s, thickness=d, form="round") for s, d in rounds), Station(s=1.75, thickness=0.044, **blade),
            Station(s=2.3, thickness=tip, **blade),
        ),
        inboard=0.65, grip_centre=0.06, leather_start=0.55, leather_length=0.25,
    )  # fmt: skip
    return build_oar(shape, [Piece(kind="loom", wood=SPRUCE), *pieces])


@pytest.mark.parametrize("plane", ["stroke", "lateral"])
def test_worst_foot(plane):
    """A foot does worst where the loom is thinnest, at a waist or at the neck; the thin inboard does not count."""
    waist = _loom((0.0, 0.030), (0.5, 0.030), (0.6, 0.046), (1.1, 0.032), (1.5, 0.045), (1.75, 0.045))
    assert worst_step(waist, plane=plane) == pytest.approx(1.1, abs=1e-12)
    neck = _loom((0.0, 0.030), (0.5, 0.030), (0.6, 0.046), (1.75, 0.033))
    assert worst_step(neck, plane=plane) == pytest.approx(1.75, abs=1e-12)
    assert stepped_on(neck, plane=plane).places[0] == pytest.approx(1.75, abs=1e-12)


def test_worst_foot_on_a_thin_blade():
    """A blade that thins to the tip is worst as far out as the outer thwart, half the gap further, stays under it."""
    thin = _loom((0.0, 0.046), (1.75, 0.046), tip=0.008)
    worst = worst_step(thin, plane="stroke", gap=0.7)
    assert 1.95 - 0.55 / 24 < worst <= 1.95  # stations stand closer than 24 to the blade


def test_worst_foot_on_weak_wood():
    """Of an even bar, cheeks of brash wood, as stiff as the rest, are worst, though they are no thinner."""
    cheek = Piece(kind="cheek", wood=BRASH, size=0.006, start=1.21, stop=1.47)
    for plane in ("stroke", "lateral"):
        worst = worst_step(_loom((0.0, 0.046), (1.75, 0.046), pieces=(cheek,)), plane=plane)
        assert 1.21 <= worst <= 1.47


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


def test_push_off_of_an_even_bar(even):
    """The moment at mid-length is (P e + Q L/4)/(1 − P/P_cr), with Euler's load, in either plane."""
    span = 2.226
    euler = np.pi**2 * BENDING / span**2
    exact = (300 * 0.05 + 60 * span / 4) / (1 - 300 / euler)
    for plane in ("stroke", "lateral"):
        case = push_off(even, plane=plane, force=300.0, eccentricity=0.05, sideways=60.0)
        near = 1e-6  # of the buckling load, for a tapered oar; an even bar bows in the sine that the search starts with
        assert case.beside["buckling load"].value == pytest.approx(euler, rel=near)
        moment = moment_along(even, case)
        assert moment.max() == pytest.approx(exact, rel=near)
        assert even.s[np.argmax(moment)] == pytest.approx(MIDDLE)


def test_proof_load(oar):
    """A quarter more than the blade force of the hard start."""
    assert proof_load(oar, force=450.0).forces[0] == pytest.approx(1.25 * 450 * HAND / BLADE)


def test_loom_torque():
    """160 N, 15 mm off the axis, and 3 N m of the hand: 5.4 N m, whichever way the force goes."""
    assert loom_torque(force=-160.0, offset=0.015, feathering=3.0) == pytest.approx(5.4)
