"""B. Rankov (ed.), Trireme Olympias: The Final Report (Oxbow, 2012).

Book pages stand beside each number. Prose was read; Table 9.1 is quoted at second hand. The authors of the passages
are Shaw (pp. 47-49 and 76-80) and Coates (pp. 85-90).
"""

from dataclasses import replace

import numpy as np
import pytest

from oarkit import example_project
from oarkit.oar.build import Leather, Oar, Piece, build_oar
from oarkit.oar.mass import GRAVITY, balance, hand_weight, inertia_about_lock, mass
from oarkit.rig.height import overlap_in_drive
from oarkit.rig.split import leverage_ratio, split
from oarkit.stroke.advice import SHORT_ARC
from oarkit.stroke.arc import arc_of_chord, hand_travel
from oarkit.stroke.path import place_along
from oarkit.wood.board import Wood

SLOPE = np.radians(30)  # Table 9.1: slope of the topmost oars


@pytest.mark.parametrize(("length", "plan"), [(4.218, 3.653), (3.113, 2.696), (1.105, 0.957)])
def test_plan_of_a_sloping_length(length, plan):
    """Two lengths that slope 30 degrees just meet over a span of twice their printed plan length (Table 9.1)."""
    # Both columns are printed to the millimetre: half a millimetre each, twice over.
    assert overlap_in_drive(inboard=length, dip=SLOPE, span=2 * plan) == pytest.approx(0, abs=2e-3)


@pytest.mark.parametrize(("length", "plan"), [(4.218, 3.653), (3.113, 2.696), (1.105, 0.957)])
def test_plan_of_a_point_on_a_sloping_oar(length, plan):
    """Seen from above, a point of the oar turns about its pin at the printed plan length (Table 9.1)."""
    at = place_along(side="port", along=length, sweep=0.61, dip=SLOPE, span=1.3, lock_above_water=0.9)
    # Both columns are printed to the millimetre: half a millimetre each.
    assert np.hypot(at.x, at.y - 1.3 / 2) == pytest.approx(plan, abs=1.1e-3)
    assert hand_travel(hand_arm=length, dip=SLOPE, arc=1.0) == pytest.approx(plan, abs=1.1e-3)


@pytest.mark.parametrize(
    ("chord", "arm", "printed"),
    [
        (0.78, 0.957, 48.1),  # p. 77, B of Table 9.1: metres, arm in plan
        (4.0, 3 + 5 / 12, 71.7),  # p. 78, the eight of 1870: feet
        (0.99, 1.225 * np.cos(SLOPE), 55.6),  # the specified oar: recomputed from pp. 47-48, not printed there
    ],
)
def test_sweep_from_the_chord(chord, arm, printed):
    """The sweep of an effective chord on an arm in plan."""
    assert np.degrees(arc_of_chord(chord=chord, arm=arm)) == pytest.approx(printed, abs=0.06)  # printed to 0.1 degree


def test_a_short_arc_is_shorter_than_any_that_was_rowed():
    """The arc below which a stroke is called short is the least effective sweep, 48.1 degrees (Table 9.1)."""
    assert np.degrees(SHORT_ARC) == pytest.approx(48.1, abs=0.5)  # a limit to the whole degree


def test_angle_of_attack_at_the_catch():
    """With two thirds of the sweep before square, the oar meets the keel line at 52.9 degrees at the catch (p. 47)."""
    sweep = arc_of_chord(chord=0.99, arm=1.225 * np.cos(SLOPE))
    assert 90 - np.degrees(sweep) * 2 / 3 == pytest.approx(52.9, abs=0.06)  # printed to 0.1 degree


def test_angle_that_a_hand_sweeps():
    """A hand that travels 0.15 m on an arm of 1.225 m sweeps 7.0 degrees (p. 47)."""
    one_radian = hand_travel(hand_arm=1.225, dip=0.0, arc=1.0)
    assert np.degrees(0.15 / one_radian) == pytest.approx(7.0, abs=0.05)  # printed to 0.1 degree


@pytest.mark.parametrize(
    ("outboard", "inboard", "printed"),
    [
        (3.113, 1.105, 2.817),  # p. 76, in metres
        (7, 2.5, 2.8),  # p. 76, in cubits
    ],
)
def test_gearing(outboard, inboard, printed):
    """Gearing is outboard over inboard, whatever the unit of both."""
    # Printed to three decimals at most.
    assert leverage_ratio(outboard=outboard, inboard=inboard) == pytest.approx(printed, abs=5e-4)


def test_gearing_of_the_short_oar():
    """A nine-cubit oar with seven cubits outboard is geared 3.5 (p. 86); the span does not enter."""
    short = split(length=9, outboard=7, span=4.4)
    assert short.leverage_ratio == pytest.approx(3.5)
    assert short.inboard == pytest.approx(2)


def test_length_of_the_specified_oar():
    """Geared 2.8 with 1.225 m inboard, the specified oar is 4.66 m long (p. 48)."""
    oar = split(inboard=1.225, leverage_ratio=2.8, overlap=0.0)
    assert oar.length == pytest.approx(4.66, abs=0.006)  # printed to the centimetre


def test_balance_from_the_weight_in_hand():
    """An oar of 4.5 kgf that balances 0.544 m outboard of its lock hangs 2.0 kgf in the hand at its butt (p. 48)."""
    in_hand = hand_weight(mass=4.5, balance=0.544, hand_arm=1.225) / GRAVITY
    assert in_hand == pytest.approx(2.0, abs=0.004)  # the balance is printed to the millimetre: 4.5/1.225 mm of it


def _even_bar(length: float, balance_outboard: float) -> Oar:
    """A bar of even weight, held so that it balances where it is told."""
    wood = Wood(name="any", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=40e6, working=())
    shape = example_project("quillet").inputs.sizes.at(length=length, inboard=length / 2 - balance_outboard)
    oar = build_oar(shape, [Piece(kind="loom", wood=wood)], Leather(mass=0.0))
    return replace(oar, laminate=replace(oar.laminate, mass_per_length=np.full(oar.s.shape, 1.07)))


def test_centre_of_percussion():
    """A bar whose k^2 is 1.488 m2 has its centre of percussion 2.736 m beyond its balance (p. 48).

    The squared radius of gyration k^2 of an even bar of length L is L^2/12 (textbook), which gives the length here.
    """
    bar = _even_bar(length=np.sqrt(12 * 1.488), balance_outboard=0.544)
    at = balance(bar)
    from_lock = inertia_about_lock(bar) / (mass(bar) * at)
    assert at == pytest.approx(0.544)
    # Printed to the millimetre; 1.488 m2 and 0.544 m are rounded too and move the quotient by 0.0027.
    assert from_lock - at == pytest.approx(2.736, abs=0.003)
