"""Parts, centre of percussion, counterweight and the blade's centre, on oars worked in the head."""

from types import SimpleNamespace

import numpy as np
import pytest

from oarkit.oar.build import Leather, Oar
from oarkit.oar.counterweight import Swing, counterweight, with_counterweight
from oarkit.oar.mass import (
    GRAVITY,
    balance,
    blade_centre,
    centre_of_percussion,
    hand_weight,
    inertia_about_lock,
    mass,
    part_masses,
)
from oarkit.oar.measured import MeasuredShape, Station
from oarkit.working import BadDesign


def _oar(per_length, *, tip_width=0.12):
    """An oar 2 m long, lock at 0.6 m, blade from 1.5 m; its mass per length as told."""
    shape = MeasuredShape(
        stations=(
            Station(s=0.0, thickness=0.040, form="round"),
            Station(s=1.5, thickness=0.040, form="round"),
            Station(s=1.5, thickness=0.014, width=0.06, edge=0.006, form="blade"),
            Station(s=2.0, thickness=0.014, width=tip_width, edge=0.006, form="blade"),
        ),
        inboard=0.6, grip_centre=0.1, leather_start=0.5, leather_length=0.3,
    )  # fmt: skip
    laid = shape.laid()
    return Oar(
        shape=shape, pieces=(), leather=Leather(mass=0.05), s=laid.s, weight=laid.weight, middle=laid.middle,
        profile=shape.profile(laid), laminate=SimpleNamespace(mass_per_length=per_length(laid)),
    )  # fmt: skip


def test_parts():
    """0.5 kg/m inboard, 0.8 between lock and blade, 0.4 on the blade: 0.30, 0.72 and 0.20 kg, and 50 g of leather."""
    oar = _oar(lambda laid: np.where(laid.middle < 0.6, 0.5, np.where(laid.middle < 1.5, 0.8, 0.4)))
    parts = part_masses(oar)
    assert (parts.inboard, parts.outboard, parts.blade, parts.leather) == pytest.approx((0.30, 0.72, 0.20, 0.05))
    assert mass(oar) == pytest.approx(1.27)


def test_centre_of_a_spreading_blade():
    """A trapezium of 60 and 120 mm has its centre (60 + 2 x 120)/(3 x 180) = 5/9 of its 0.5 m from the root."""
    assert blade_centre(_oar(lambda laid: 0.5 + 0 * laid.s)) == pytest.approx(1.5 + 0.5 * 5 / 9)


def test_percussion_of_an_even_bar():
    """An even bar held at its end is struck without a jar at two thirds of its length."""
    bar = {"mass": 1.7, "balance": 1.1, "inertia": 1.7 * 2.2**2 / 3}
    assert centre_of_percussion(**bar) == pytest.approx(2.2 * 2 / 3)


def test_percussion_about_the_grip():
    """The same bar with its lock 0.7 m from the grip at its end: the inertia carried there gives two thirds again."""
    bar = {"mass": 1.7, "balance": 0.4, "inertia": 1.7 * (2.2**2 / 12 + 0.4**2)}
    assert centre_of_percussion(**bar, pivot_inboard=0.7) == pytest.approx(2.2 * 2 / 3)


def test_no_percussion_inboard():
    """An oar that balances at its lock or inboard of it is refused, one of several enough."""
    for at in (0.0, -0.1, np.array([0.2, -0.1])):
        with pytest.raises(BadDesign, match="balances inboard"):
            centre_of_percussion(mass=1.2, balance=at, inertia=0.5)


def test_counterweight_gives_the_wanted_weight():
    """The oar with its counterweight weighs in the hand what was wanted, by the formula of the plain oar."""
    oar = _oar(lambda laid: 0.7 + 0 * laid.s)
    swing = Swing(mass=mass(oar), balance=balance(oar), inertia=inertia_about_lock(oar))
    for wanted in (0.0, 1.0, np.array([0.5, 2.0])):
        added = counterweight(
            mass=swing.mass, balance=swing.balance, hand_arm=oar.hand_arm, wanted=wanted, weight_inboard=0.55
        )
        heavy = with_counterweight(swing, added=added, weight_inboard=0.55)
        assert hand_weight(mass=heavy.mass, balance=heavy.balance, hand_arm=oar.hand_arm) == pytest.approx(wanted)


def test_counterweight_worked_by_hand():
    """2 kg balancing 0.4 m out pull 0.8 kg m; 0.5 kg in a hand 0.6 m away leave 0.5 kg m, half a metre in: 1 kg."""
    found = counterweight(mass=2.0, balance=0.4, hand_arm=0.6, wanted=0.5 * GRAVITY, weight_inboard=0.5)
    assert found == pytest.approx(1.0)
    heavy = with_counterweight(Swing(mass=2.0, balance=0.4, inertia=1.5), added=1.0, weight_inboard=0.5)
    assert (heavy.mass, heavy.balance, heavy.inertia) == pytest.approx((3.0, 0.1, 1.75))


def test_counterweight_on_a_light_oar():
    """Where the oar is lighter in the hand than wanted the mass is negative; outboard of the pin it is refused."""
    assert counterweight(mass=2.0, balance=0.1, hand_arm=0.6, wanted=GRAVITY, weight_inboard=0.5) == pytest.approx(-0.8)
    with pytest.raises(BadDesign, match="inboard of the pin line"):
        counterweight(mass=2.0, balance=0.1, hand_arm=0.6, wanted=1.0, weight_inboard=np.array([0.5, 0.0]))
