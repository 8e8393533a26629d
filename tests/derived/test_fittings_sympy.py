"""Bracket, thole pin, dock and heel test derived again: vectors, equilibrium and integrals, no formula copied.

The bolts are springs alike on a rigid foot: the foot turns a little, every bolt answers in the measure of its own
displacement, and the sum of moments fixes the turn. Axes: x forward, y outboard, z up.
"""

import numpy as np
import pytest
import sympy
from sympy import Matrix, Rational, cos, integrate, pi, sin, solve, sqrt, symbols

from oarkit.rig import bolts, bracket, dock, thole
from oarkit.rig.bracket import BracketInputs, RailInputs, bracket_loads
from oarkit.rower import seat
from oarkit.tables import species_table
from oarkit.wood.bearing import washer_pressure
from oarkit.wood.board import Board

HAND, BLADE, PULL = 0.571, 1.383, 413.0  # pin line to grip centre, to mid-blade [m]; hard start [N]
OVERHANG, ABOVE, THICK, DEEP = 0.1203, 0.0447, 0.0192, 0.0377  # pin out of the rail, over it; rail [m]
ASH = Board(species=species_table()[0])
ROUNDING = 1e-12  # of doubles, after a few operations


def _spring_row(n, spacing, moment):
    """Forces of n bolts in a row on a foot turned about their middle, from the sum of moments; exact."""
    turn = symbols("turn")
    places = [Rational(2 * i - n + 1, 2) * spacing for i in range(n)]
    balance = sum(turn * place * place for place in places) - moment
    found = solve(balance, turn)[0]
    return [found * place for place in places], places


@pytest.mark.parametrize("n", [2, 3, 4, 7])
def test_couple_share(n):
    """The end bolt of a row of springs, which together hold the moment and push nothing sideways."""
    moment, spacing = Rational(613, 10), Rational(37, 500)
    forces, places = _spring_row(n, spacing, moment)
    assert sum(forces) == 0
    assert sum(f * x for f, x in zip(forces, places, strict=True)) == moment
    found = bolts.couple_share(moment=float(moment), bolts=n, spacing=float(spacing))
    assert found == pytest.approx(float(max(forces)), rel=ROUNDING)


def test_two_bolts_share_is_moment_over_spacing():
    """Two bolts make a plain couple."""
    assert bolts.couple_share(moment=61.3, bolts=2, spacing=0.074) == pytest.approx(61.3 / 0.074, rel=ROUNDING)


def test_pin_force():
    """The blade's force from moments about the pin, the pin's from the sum of forces."""
    at_blade, at_pin = symbols("b p")
    found = solve([PULL * HAND - at_blade * BLADE, PULL + at_blade - at_pin], [at_blade, at_pin])[at_pin]
    given = bracket.pin_force(force=PULL, hand_arm=HAND, blade_arm=BLADE)
    assert given == pytest.approx(float(found), rel=ROUNDING)


@pytest.mark.parametrize("axis", ["athwart", "vertical"])
def test_moments_and_bolt_loads(axis):
    """Moments as cross products about the middle of the bolts; bolt loads by hand from springs and the foot's edge."""
    n, spacing, share = 3, Rational(143, 1000), Rational(27, 100)
    pin = Matrix([0, OVERHANG, ABOVE])
    middle = Matrix([0, 0, -DEEP / 2]) if axis == "athwart" else Matrix([0, -THICK / 2, 0])
    push = PULL * (1 + HAND / BLADE)
    sweep, drop = Matrix([push, 0, 0]), Matrix([0, 0, -share * push])
    by_sweep, by_drop = (pin - middle).cross(sweep), (pin - middle).cross(drop)
    loads = bracket_loads(
        BracketInputs(bolts=n, bolt_diameter=0.008, bolt_spacing=float(spacing), bolt_axis=axis),
        RailInputs(thickness=THICK, depth=DEEP, board=ASH),
        hand_force=PULL, hand_arm=HAND, blade_arm=BLADE, lock_overhang=OVERHANG, lock_above_rail=ABOVE,
        vertical_share=float(share),
    )  # fmt: skip
    assert [loads.roll, loads.pitch, loads.yaw] == pytest.approx(
        [abs(float(by_drop[0])), abs(float(by_sweep[1])), abs(float(by_sweep[2]))], rel=ROUNDING
    )
    # Axis of an athwartship bolt is y, so what turns about y shears it and what turns about z pulls it.
    about_bolt, about_other = (1, 2) if axis == "athwart" else (2, 1)
    sheared, _ = _spring_row(n, spacing, abs(by_sweep[about_bolt]))
    pulled, _ = _spring_row(n, spacing, abs(by_sweep[about_other]))
    assert loads.bolt_shear == pytest.approx(float(sqrt(max(sheared) ** 2 + (push / n) ** 2)), rel=ROUNDING)
    reach, y = (DEEP / 2 if axis == "athwart" else THICK / 2), symbols("y")
    lever = integrate(y * y, (y, 0, reach)) / integrate(y, (y, 0, reach))
    assert loads.bolt_tension == pytest.approx(float(max(pulled) + abs(by_drop[0]) / lever / n), rel=ROUNDING)


def _section(outline_half_height, half_depth):
    """Section modulus by integral: second moment over the outermost fibre."""
    z = symbols("z")
    return integrate(z**2 * outline_half_height(z), (z, -half_depth, half_depth)) / half_depth


def test_rail_root_and_pin_bending():
    """Moment over a section modulus that is integrated from the outline."""
    moment = Rational(67)
    thin = _section(lambda z: Rational(377, 10000), Rational(96, 10000))
    found = bolts.rail_bending(yaw=67.0, thickness=0.0192, depth=0.0377)
    assert found == pytest.approx(float(moment / 2 / thin), rel=ROUNDING)  # half the moment to either side
    flat = _section(lambda z: Rational(63, 10000), Rational(141, 10000))
    assert bolts.root_bending(yaw=67.0, width=0.0282, thickness=0.0063) == pytest.approx(
        float(moment / flat), rel=1e-12
    )
    radius = Rational(93, 10000)
    around = symbols("t")
    circle = (
        integrate(2 * (radius * sin(around)) ** 2 * radius**2 * cos(around) ** 2, (around, -pi / 2, pi / 2)) / radius
    )
    stress = thole.thole_bending(moment=17.3, diameter=0.0186)
    assert stress == pytest.approx(float(Rational(173, 10) / circle), rel=ROUNDING)
    needed = thole.needed_diameter(moment=17.3, strength=2.1 * stress, safety=2.1)
    assert needed == pytest.approx(0.0186, rel=ROUNDING)


def test_needed_section_modulus():
    """A bar that just has it stands the wanted ratio."""
    modulus = bolts.needed_section_modulus(yaw=67.0, strength=210e6, safety=1.7)
    width = np.sqrt(6 * modulus / 0.0063)
    stress = bolts.root_bending(yaw=67.0, width=width, thickness=0.0063)
    assert 210e6 / stress == pytest.approx(1.7, rel=ROUNDING)


def test_washer_ring():
    """The ring integrated from hole to rim."""
    r = symbols("r")
    area = integrate(2 * pi * r, (r, Rational(41, 10000), Rational(123, 10000)))
    assert washer_pressure(tension=911.0, washer=0.0246, hole=0.0082) == pytest.approx(float(911 / area), rel=ROUNDING)


def test_heel_lift():
    """Both locks turned with the boat about the middle of her waterline: half of what parts them in height."""
    half, height, heel = Rational(553, 1000), Rational(3, 10), Rational(7, 100)
    turned = [sympy.rot_axis1(-heel) * Matrix([0, side * half, height]) for side in (1, -1)]
    assert dock.heel_lift(span=2 * 0.553, heel=0.07) == pytest.approx(
        float((turned[0][2] - turned[1][2]) / 2), rel=1e-12
    )


def test_heel_test_on_a_wedge_sided_box():
    """A box afloat, exact hydrostatics: its metacentre by integral, the heel from the sum of moments, GM read back.

    The box heels by phi about the centre of its waterline; immersed and emerged wedges move the centre of buoyancy,
    integrated over the section. What the test reads back is GM at small heel, wall-sided: BM (1 + tan^2/2) - BG, so
    the found GM differs by BM tan^2/2, half a per cent here.
    """
    beam, draught, gravity, weight, off = 0.74, 0.11, 0.29, 5.0, 0.43
    y, z = symbols("y z")
    total = 1000 * beam * draught * 2.1  # of a box 2.1 m long [kg]
    slope = symbols("slope", positive=True)
    surface = draught + y * slope  # depth of water in the section, keel up, heeled
    area = integrate(surface, (y, -beam / 2, beam / 2))
    across = integrate(y * surface, (y, -beam / 2, beam / 2)) / area
    up = integrate(integrate(z, (z, 0, surface)), (y, -beam / 2, beam / 2)) / area
    # Arms square to the heeled vertical (sin, cos): buoyancy and the weights balance.
    at = weight * off / total
    balance = (across - at) + (up - gravity) * slope
    heel = float(sympy.atan(sympy.nsolve(balance, slope, 0.05)))
    upright = float((across / slope).limit(slope, 0)) + draught / 2 - gravity
    found = seat.gm_from_heel(weight=weight, offset=off, total_mass=total, angle=heel)
    assert 0.05 < heel < 0.2  # a heel that can be read on a plumb bob
    wall_sided = beam**2 / 12 / draught * np.tan(heel) ** 2 / 2  # how far the metacentre has moved
    assert found - upright == pytest.approx(wall_sided, rel=1e-6)  # number of digits of nsolve
    assert found == pytest.approx(upright, rel=0.02)  # the wall-sided part, small at that heel
    back = seat.heel_under(weight=weight, offset=off, total_mass=total, gm=found)
    assert back == pytest.approx(heel, rel=ROUNDING)


def test_stability_lost():
    """Centre of gravity of rower and boat before and after; the metacentre stays."""
    before = (77 * 0.41 + 46 * 0.17) / (77 + 46)
    after = (77 * (0.41 + 0.031) + 46 * 0.17) / (77 + 46)
    found = seat.stability_lost(rower_mass=77, boat_mass=46, rise=0.031)
    assert found == pytest.approx(after - before, rel=1e-10)  # difference of two near numbers


def test_seat_shift():
    """The trimming moment of the moved rower against the righting moment lengthwise."""
    move = symbols("move")
    found = solve(77 * move - 123 * Rational(47, 10) * Rational(13, 1000), move)[0]
    given = seat.seat_shift(rower_mass=77, total_mass=123, gm_long=4.7, trim=0.013)
    assert given == pytest.approx(float(found), rel=ROUNDING)


def test_brace_moment():
    """Bending moment at the middle of a beam on two supports, from its reactions."""
    reaction = symbols("reaction")
    found = solve(2 * reaction - 830, reaction)[0] * Rational(54, 100) / 2
    assert seat.brace_moment(force=830.0, length=0.54) == pytest.approx(float(found), rel=ROUNDING)
