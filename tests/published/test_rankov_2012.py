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
from oarkit.wood.board import Wood

SLOPE = np.radians(30)  # Table 9.1: slope of the topmost oars


@pytest.mark.parametrize(("length", "plan"), [(4.218, 3.653), (3.113, 2.696), (1.105, 0.957)])
def test_plan_of_a_sloping_length(length, plan):
    """Two lengths that slope 30 degrees just meet over a span of twice their printed plan length (Table 9.1)."""
    # Both columns are printed to the millimetre: half a millimetre each, twice over.
    assert overlap_in_drive(inboard=length, dip=SLOPE, span=2 * plan) == pytest.approx(0, abs=2e-3)


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
