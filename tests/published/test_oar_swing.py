"""Shaw in B. Rankov (ed.), Trireme Olympias: The Final Report (Oxbow, 2012), pp. 47-48: the swing of the specified oar.

Read: 4.66 m long, 4.5 kgf, 2.0 kgf in a hand 1.225 m from the lock, balance 0.544 m outboard of the lock, k^2 1.488 m2,
centre of percussion 2.736 m beyond the balance and 0.15 m inside the tip.
"""

import pytest

from oarkit.oar.counterweight import counterweight
from oarkit.oar.mass import GRAVITY, centre_of_percussion

INERTIA = 4.5 * (1.488 + 0.544**2)  # k^2 carried from the balance to the lock


def test_centre_of_percussion():
    """The specified oar has its centre of percussion 2.736 m beyond its balance."""
    found = centre_of_percussion(mass=4.5, balance=0.544, inertia=INERTIA)
    # k^2 to 0.0005 m2 and the balance to 0.0005 m move k^2/x by 0.0035 m.
    assert found - 0.544 == pytest.approx(2.736, abs=0.0035)


def test_centre_of_percussion_inside_the_tip():
    """From the lock it is 0.15 m short of the tip, the oar reaching 4.66 m less 1.225 m beyond the lock."""
    found = centre_of_percussion(mass=4.5, balance=0.544, inertia=INERTIA)
    assert 4.66 - 1.225 - found == pytest.approx(0.15, abs=0.0085)  # printed to the centimetre, k^2/x as above


def test_no_counterweight_where_the_weight_is_as_specified():
    """2.0 kgf in the hand is what the specified oar weighs there, without any counterweight."""
    found = counterweight(mass=4.5, balance=0.544, hand_arm=1.225, wanted=2.0 * GRAVITY, weight_inboard=1.0)
    assert found == pytest.approx(0, abs=4.5 * 0.0005)  # the balance is printed to the millimetre
