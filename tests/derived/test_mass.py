"""Mass, balance, inertia and blade area by other roads: solids worked by hand, and scipy.quad on the sections.

The solids are of the example's oar with its fairing taken away: each stretch is a cylinder, a cone or a slab, whose
volume and moments are textbook.
"""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import quad

from oarkit import design, example_project
from oarkit.oar.build import Leather, Oar, Piece, build_oar
from oarkit.oar.mass import balance, blade_area, hand_weight, inertia_about_lock, mass, piece_masses
from oarkit.oar.shape import OarShape, profile_at
from oarkit.strength.bend import bench_drop
from oarkit.strength.hard_start import blade_force, lock_moment, moment_along
from oarkit.wood.board import Wood

LENGTH, INBOARD, DENSITY, GRAVITY = 2.213, 0.634, 447.0, 9.80665


def _wood(density: float) -> Wood:
    return Wood(name="any", modulus=10e9, shear_modulus=0.6e9, density=density, strength=40e6, working=())


@pytest.fixture(scope="module")
def quillet() -> Oar:
    return design(example_project("quillet").inputs).oars["port"]


@pytest.fixture(scope="module")
def plain() -> Oar:
    """A round oar of 40 mm to its blade, of one wood and without leather."""
    shape = _plain_shape()
    return build_oar(shape, [Piece(kind="loom", wood=_wood(DENSITY))], Leather(mass=0.0))


def _plain_shape() -> OarShape:
    sizes = example_project("quillet").inputs.sizes
    round_bar = replace(
        sizes, grip_diameter=0.04, inboard_size=0.04, square_inboard=False, lock_diameter=0.04, neck_thickness=0.04,
        neck_width=0.04,
    )  # fmt: skip
    return round_bar.at(length=LENGTH, inboard=INBOARD)


def _even(oar: Oar) -> Oar:
    return replace(oar, laminate=replace(oar.laminate, mass_per_length=np.full(oar.s.shape, 0.731)))


def test_even_bar(plain):
    """A bar of even weight balances at half its length and has L^2/12 about there, shifted to the lock."""
    bar = _even(plain)
    offset = LENGTH / 2 - INBOARD
    assert mass(bar) == pytest.approx(0.731 * LENGTH)
    assert balance(bar) == pytest.approx(offset)
    assert inertia_about_lock(bar) == pytest.approx(0.731 * LENGTH * (LENGTH**2 / 12 + offset**2))


def test_round_loom(plain):
    """To the blade root the plain oar weighs what its cylinder does."""
    root = plain.shape.blade_root
    cylinder = DENSITY * np.pi * 0.04**2 / 4 * root
    assert plain.integral(plain.laminate.mass_per_length * (plain.middle < root)) == pytest.approx(cylinder, rel=1e-12)


def test_leather(plain):
    """The leather adds a point mass at the middle of its length, here 25 mm outboard of the pin."""
    shod = replace(plain, leather=Leather(mass=0.085))
    assert plain.shape.leather_start + plain.shape.leather_length / 2 == pytest.approx(INBOARD + 0.025)
    assert mass(shod) == pytest.approx(mass(plain) + 0.085)
    moment = mass(plain) * balance(plain) + 0.085 * 0.025
    assert balance(shod) == pytest.approx(moment / (mass(plain) + 0.085))
    assert inertia_about_lock(shod) == pytest.approx(inertia_about_lock(plain) + 0.085 * 0.025**2)


def test_conical_loom():
    """A loom tapered from 46 to 30 mm between leather and neck weighs what its frustum does."""
    shape = replace(_plain_shape(), lock_diameter=0.046, neck_thickness=0.030, neck_width=0.030)
    oar = build_oar(shape, [Piece(kind="loom", wood=_wood(DENSITY))])
    height = shape.blade_root - shape.leather_end
    frustum = np.pi / 12 * height * (0.046**2 + 0.046 * 0.030 + 0.030**2)
    tapered = (oar.middle > shape.leather_end) & (oar.middle < shape.blade_root)
    assert oar.integral(oar.laminate.mass_per_length * tapered) == pytest.approx(DENSITY * frustum, rel=1e-12)


def test_blade_area(plain):
    """The face of the blade is its length by its width, less what the spreading root leaves out.

    Over the first 0.35 of its length the width grows from the neck as the power 0.8, whose mean is 1/1.8.
    """
    shape = plain.shape
    growing = 0.35 * shape.blade_length
    exact = (shape.blade_length - growing) * shape.blade_width + growing * (0.04 + (shape.blade_width - 0.04) / 1.8)
    # Simpson's rule feels the infinite slope at the root of the power.
    assert blade_area(plain) == pytest.approx(exact, rel=1e-4)


def _area(shape: OarShape, place: float, *, outer: float = 1.0) -> float:
    """Area of a section within a share of its half-width: eased rectangle, two slopes, or a blend, by hand."""
    sizes = profile_at(shape, np.array([place]))
    thickness, width, edge, corner, share = (
        float(getattr(sizes, name)[0]) for name in ("thickness", "width", "edge", "corner", "blade_share")
    )
    flat = min(outer, 1 - 2 * corner)
    sine = np.clip((outer - (1 - 2 * corner)) / (2 * corner), 0, 1)
    quarter = (sine * np.sqrt(1 - sine**2) + np.arcsin(sine)) / 2
    eased = flat + (outer - flat) * (1 - 2 * corner) + (2 * corner) ** 2 * quarter
    sloped = outer - (1 - edge / thickness) * outer**2 / 2
    return thickness * width * ((1 - share) * eased + share * sloped)


def _integrals(oar: Oar, per_length) -> np.ndarray:
    """Mass, first and second moment about the pin, by scipy.quad between breaks of shape and wood."""
    shape, tip = oar.shape, oar.pieces[2].size
    root, blade = shape.blade_root, shape.blade_length
    breaks = [
        0.0, shape.grip_length, shape.grip_length + 0.050, shape.leather_start - 0.060, shape.leather_start,
        shape.leather_end, root, root + 0.08 * blade, root + 0.35 * blade, root + 0.75 * blade, shape.length - tip,
        shape.length,
    ]  # fmt: skip
    return np.array(
        [
            sum(
                quad(lambda s, n=n: per_length(s) * (s - shape.inboard) ** n, a, b, epsrel=1e-7)[0]
                for a, b in pairwise(breaks)
            )
            for n in range(3)
        ]
    )


def test_quillet_by_quad(quillet):
    """Mass, balance and inertia of the example's oar are the integrals of its three woods along it, and leather."""
    shape = quillet.shape
    loom, strip, tip = (piece.wood.density for piece in quillet.pieces)
    strip_width, tip_length = quillet.pieces[1].size, quillet.pieces[2].size

    def per_length(s: float) -> float:
        if s > shape.length - tip_length:
            return tip * _area(shape, s)
        if s < shape.blade_root:
            return loom * _area(shape, s)
        width = float(profile_at(shape, np.array([s])).width[0])
        middle = _area(shape, s, outer=1 - 2 * strip_width / width)
        return loom * middle + strip * (_area(shape, s) - middle)

    wood = _integrals(quillet, per_length)
    leather_at = shape.leather_start + shape.leather_length / 2 - shape.inboard
    weight, first, second = wood + quillet.leather.mass * leather_at ** np.arange(3)
    # Simpson's rule feels the power of 0.8 at the blade root.
    assert mass(quillet) == pytest.approx(weight, rel=1e-5)
    assert balance(quillet) == pytest.approx(first / weight, rel=1e-5)
    assert inertia_about_lock(quillet) == pytest.approx(second, rel=1e-5)


def test_mass_of_each_piece(quillet):
    """The tip piece weighs its density by the volume of the last 20 mm, and the pieces add up to the wood."""
    shape, tip = quillet.shape, quillet.pieces[2]
    volume = quad(lambda s: _area(shape, s), shape.length - tip.size, shape.length)[0]
    assert piece_masses(quillet)[2] == pytest.approx(tip.wood.density * volume, rel=1e-9)
    assert sum(piece_masses(quillet)) == pytest.approx(mass(quillet) - quillet.leather.mass)


# Statics


def test_hand_holds_the_oar_level(quillet):
    """The hand's force and the weight of every slice of the oar have no moment about the pin."""
    weight = hand_weight(mass=mass(quillet), balance=balance(quillet), hand_arm=quillet.hand_arm)
    slices = quillet.weight * quillet.laminate.mass_per_length * GRAVITY
    turning = np.sum(slices * (quillet.s - quillet.shape.inboard))
    turning += quillet.leather.mass * GRAVITY * (quillet.leather_middle - quillet.shape.inboard)
    assert turning - weight * (quillet.shape.inboard - quillet.shape.grip_centre) == pytest.approx(0, abs=1e-12)


def test_forces_of_the_hard_start(quillet):
    """Hand, pin and blade sum to nil in force, and in moment about every place along the oar."""
    hand = 412.0
    blade = blade_force(force=hand, hand_arm=quillet.hand_arm, blade_arm=quillet.blade_arm)
    pin = -(hand + blade)
    shape = quillet.shape
    forces = np.array([hand, pin, blade])
    places = np.array([shape.grip_centre, shape.inboard, shape.length - shape.blade_length / 2])
    for about in (0.0, shape.grip_centre, shape.inboard, 1.234, shape.length):
        assert np.sum(forces * (places - about)) == pytest.approx(0, abs=1e-9)
    # Every station's moment is that of the forces inboard of it.
    inboard = sum(f * np.maximum(quillet.s - x, 0) for f, x in zip(forces, places, strict=True))
    assert moment_along(quillet, force=hand) == pytest.approx(inboard, abs=1e-9)
    assert lock_moment(force=hand, hand_arm=quillet.hand_arm) == pytest.approx(blade * quillet.blade_arm)


def test_drop_does_the_work_of_the_load(quillet):
    """The energy stored along the oar under the bench load is half the load times its drop."""
    moment = moment_along(quillet, force=98.0665 * quillet.blade_arm / quillet.hand_arm)
    energy = quillet.integral(moment**2 / (2 * quillet.laminate.bending_stiffness))
    assert energy == pytest.approx(98.0665 * bench_drop(quillet, with_shear=False) / 2)
