"""Stresses along uniform bars, as the textbook has them: each expected value is worked here from the bar's sizes."""

from math import pi

import numpy as np
import pytest
from scipy.integrate import quad

from oarkit.oar.build import Leather, Piece, build_oar
from oarkit.oar.measured import MeasuredShape, Station
from oarkit.strength import abuse, cases
from oarkit.strength.all_cases import all_cases
from oarkit.strength.along import (
    bending_along,
    glue_stress_along,
    moment_strength,
    shear_stress_along,
    twist_stress_along,
)
from oarkit.strength.checks import CheckInputs, every_check
from oarkit.strength.hole import hole_cures, hole_stress_in, net_at_lock
from oarkit.strength.told import CrewInputs, HoleInputs, LoadInputs
from oarkit.wood.board import Wood

SPRUCE = Wood(
    name="spruce", modulus=10e9, shear_modulus=0.6e9, density=430.0, strength=40e6, working=(), shear_strength=5e6
)
ASH = Wood(name="ash", modulus=13e9, shear_modulus=1.0e9, density=650.0, strength=60e6, working=(), shear_strength=9e6)
LENGTH, BLADE, INBOARD, GRIP = 2.2, 0.4, 0.6, 0.06
HAND, ARM = INBOARD - GRIP, LENGTH - BLADE / 2 - INBOARD


def bar(form, thickness, width, pieces=None, corner=None):
    """A uniform bar with a blade 11 mm thick, its edge 6 mm, at its end."""
    section = {"thickness": thickness, "form": form, "width": width, "corner": corner}
    shape = MeasuredShape(
        stations=(
            Station(s=0.0, **section), Station(s=LENGTH - BLADE, **section),
            Station(s=LENGTH - BLADE, thickness=0.011, width=0.13, edge=0.006, form="blade"),
            Station(s=LENGTH, thickness=0.011, width=0.13, edge=0.006, form="blade"),
        ),
        inboard=INBOARD, grip_centre=GRIP, leather_start=INBOARD - 0.1, leather_length=0.25,
    )  # fmt: skip
    return build_oar(shape, pieces or [Piece(kind="loom", wood=SPRUCE)], Leather(mass=0.0), marks=(1.0,))


def at(oar, values, place):
    """Value at the station on a place or next beyond it; the bars are even, so between forces any station does."""
    return values[np.flatnonzero(oar.s >= place - 1e-9)[0]]


class TestBending:
    def test_a_round_bar_in_a_hard_start_bears_32_m_over_pi_d_cubed(self):
        oar = bar("round", 0.045, None)
        (stress,) = bending_along(oar, cases.hard_start(oar, force=380.0))
        assert at(oar, stress, INBOARD) == pytest.approx(32 * 380 * HAND / (pi * 0.045**3), rel=1e-9)

    def test_an_ellipse_bends_by_its_own_axis_in_each_plane(self):
        oar = bar("ellipse", 0.040, 0.030)
        (flat,) = bending_along(oar, abuse.stepped_on(oar, plane="stroke", place=1.0, weight=300.0, gap=0.8))
        (edge,) = bending_along(oar, abuse.stepped_on(oar, plane="lateral", place=1.0, weight=300.0, gap=0.8))
        moment = 300 * 0.8 / 4
        assert flat.max() == pytest.approx(32 * moment / (pi * 0.030 * 0.040**2), rel=1e-9)
        assert edge.max() == pytest.approx(32 * moment / (pi * 0.040 * 0.030**2), rel=1e-9)

    def test_faces_of_another_wood_bear_by_their_modulus(self):
        """40 x 30 mm of spruce with an ash strip 8 mm thick on its aft face: transformed section, by hand."""
        ash = Piece(kind="strip", wood=ASH, size=0.008, at=0.016)
        oar = bar("square", 0.040, 0.030, (Piece(kind="loom", wood=SPRUCE), ash), corner=0.0)
        n = 13 / 10
        area = 0.032 + 0.008 * n  # per width, spruce below, ash above; heights from the forward face
        axis = (0.032 * 0.016 + 0.008 * n * 0.036) / area
        second = 0.03 * (
            0.032**3 / 12 + 0.032 * (axis - 0.016) ** 2 + n * (0.008**3 / 12 + 0.008 * (0.036 - axis) ** 2)
        )
        moment = 200 * HAND
        spruce, hard = bending_along(oar, cases.cruise(oar, force=200.0))
        assert at(oar, spruce, INBOARD) == pytest.approx(moment * axis / second, rel=1e-9)
        assert at(oar, hard, INBOARD) == pytest.approx(n * moment * (0.040 - axis) / second, rel=1e-9)
        least = min(40e6 * second / axis, 60e6 * second / (n * (0.040 - axis)))
        assert at(oar, moment_strength(oar), 1.0) == pytest.approx(least, rel=1e-9)

    def test_a_push_along_the_oar_adds_p_over_a_and_bends_it_more(self):
        oar = bar("round", 0.045, None)
        case = abuse.push_off(oar, force=300.0, eccentricity=0.01, sideways=50.0, buckling=1500.0)
        (stress,) = bending_along(oar, case)
        free = LENGTH - GRIP
        place = 0.6 + GRIP
        moment = (300 * 0.01 + 50 / 2 * (place - GRIP)) / (1 - 300 / 1500)
        expected = 32 * moment / (pi * 0.045**3) + 300 / (pi * 0.045**2 / 4)
        near = np.argmin(np.abs(oar.s - place))
        moment_here = (300 * 0.01 + 50 / 2 * (oar.s[near] - GRIP)) / (1 - 300 / 1500)
        assert stress[near] == pytest.approx(expected + 32 * (moment_here - moment) / (pi * 0.045**3), rel=1e-9)
        assert free > 2 * (place - GRIP)  # the place lies on the hand's side of the side load

    def test_a_push_comes_in_over_the_cap_no_further_off_than_its_own_half(self):
        """P/A and the moment of half the thickness, on a cap of ash 11 mm thick at its middle."""
        cap = Piece(kind="tip", wood=ASH, size=0.02)
        oar = bar("round", 0.045, None, (Piece(kind="loom", wood=SPRUCE), cap))
        case = abuse.push_off(oar, force=300.0, eccentricity=0.02, sideways=0.0001, buckling=1500.0)
        _, stress = bending_along(oar, case)
        area, second = 0.13 * 0.0085, 0.13 * (0.011**3 + 0.011**2 * 0.006 + 0.011 * 0.006**2 + 0.006**3) / 48
        moment = 300 * 0.0055 / (1 - 300 / 1500)
        # The push itself does not reach beyond the tip, and the last station's share of the side load is nil.
        near = np.flatnonzero(oar.s > LENGTH - 0.015)[0]
        assert stress[near] == pytest.approx(moment * 0.0055 / second + 300 / area, rel=1e-4)

    def test_the_root_of_the_blade_under_a_pry(self):
        """M z/I of the blade's own section at its root, the tip trapped 5 mm in; the thin loom bears more than that."""
        oar = bar("round", 0.030, None)
        (stress,) = bending_along(oar, abuse.pry(oar, force=200.0))
        at_tip = 200 * HAND / (LENGTH - 0.005 - INBOARD)
        second = 0.13 * (0.011**3 + 0.011**2 * 0.006 + 0.011 * 0.006**2 + 0.006**3) / 48
        root = np.flatnonzero(oar.middle > LENGTH - BLADE)[0]
        expected = at_tip * (BLADE - 0.005) * 0.0055 / second
        assert stress[root] == pytest.approx(expected, rel=1e-9)
        checks = every_check(oar, all_cases(oar, LoadInputs(pry=200.0), CrewInputs()), CheckInputs())
        (found,) = [c for c in checks if (c.case, c.what) == ("prying", "bending at the blade root")]
        assert found.stress == pytest.approx(expected, rel=1e-9)


class TestShear:
    def test_round_and_rectangle(self):
        """4 V/(3 A) and 3 V/(2 A), Wood Handbook FPL-GTR-282 (2021), eq. 9-8 and textbook."""
        for oar, expected in (
            (bar("round", 0.045, None), 4 / 3 / (pi * 0.045**2 / 4)),
            (bar("square", 0.040, 0.030, corner=0.0), 3 / 2 / (0.040 * 0.030)),
        ):
            stress = shear_stress_along(oar, cases.hard_start(oar, force=400.0))
            assert at(oar, stress, 0.3) == pytest.approx(400 * expected, rel=1e-9)

    def test_on_edge_the_width_is_the_depth(self):
        oar = bar("square", 0.040, 0.030, corner=0.0)
        stress = shear_stress_along(oar, cases.tip_dragged(oar, force=90.0))
        inboard = 90 * (LENGTH - INBOARD) / HAND  # what the hand has to hold
        assert at(oar, stress, 0.3) == pytest.approx(1.5 * inboard / (0.040 * 0.030), rel=1e-9)

    def test_the_glue_line_of_a_strip(self):
        """V Q/(I b) with transformed widths: the ash strip on the spruce of the bending test."""
        ash = Piece(kind="strip", wood=ASH, size=0.008, at=0.016)
        oar = bar("square", 0.040, 0.030, (Piece(kind="loom", wood=SPRUCE), ash), corner=0.0)
        n = 13 / 10
        axis = (0.032 * 0.016 + 0.008 * n * 0.036) / (0.032 + 0.008 * n)
        second = 0.032**3 / 12 + 0.032 * (axis - 0.016) ** 2 + n * (0.008**3 / 12 + 0.008 * (0.036 - axis) ** 2)
        loom, strip = glue_stress_along(oar, cases.hard_start(oar, force=400.0))
        expected = 400 * n * 0.008 * (0.036 - axis) / (second * 0.03)
        assert at(oar, strip, 0.3) == pytest.approx(expected, rel=1e-9)
        assert not loom.any()


class TestTorsion:
    @pytest.mark.parametrize(
        ("form", "thickness", "width", "per_torque", "rel"),
        [
            ("round", 0.045, None, 16 / (pi * 0.045**3), 1e-9),
            ("ellipse", 0.030, 0.042, 16 / (pi * 0.042 * 0.030**2), 1e-9),
            ("ellipse", 0.042, 0.030, 16 / (pi * 0.042 * 0.030**2), 1e-9),  # thicker than wide, as a neck is
            ("square", 0.040, 0.040, 4.81 / 0.040**3, 0.02),  # the stiffness of the square is 1.6 % out, as it says
        ],
    )
    def test_stress_of_a_torque(self, form, thickness, width, per_torque, rel):
        """Saint-Venant: 16 T/(π a b²) with b the lesser axis; a square 4.81 T/a³ (both textbook, Timoshenko)."""
        oar = bar(form, thickness, width, corner=0.0 if form == "square" else None)
        case = cases.tip_knocked(oar, force=100.0, arm=0.05)
        assert at(oar, twist_stress_along(oar, case)[0], 0.3) == pytest.approx(5.0 * per_torque, rel=rel)

    def test_a_thin_blade(self):
        """T t/J at its middle, J the integral of t³/3 over the width, by quad."""
        oar = bar("round", 0.045, None)
        third = quad(lambda y: (0.011 + (0.006 - 0.011) * y / 0.065) ** 3 / 3, 0, 0.065)[0] * 2
        (stress,) = twist_stress_along(oar, cases.tip_knocked(oar, force=100.0, arm=0.05))
        assert at(oar, stress, 2.1) == pytest.approx(5.0 * 0.011 / third, rel=0.015)  # thin: (t/w)² is 0.7 %

    def test_each_piece_bears_by_its_own_shear_modulus(self):
        """One strain for all: a strip with 5/3 of the shear modulus has 5/3 of the stress."""
        strip = Piece(kind="strip", wood=ASH, size=0.010)
        oar = bar("round", 0.045, None, (Piece(kind="loom", wood=SPRUCE), strip))
        loom, ash = twist_stress_along(oar, cases.tip_knocked(oar))
        assert at(oar, ash, 0.3) / at(oar, loom, 0.3) == pytest.approx(1.0 / 0.6)

    def test_nothing_is_twisted_beyond_the_places_twisted(self):
        oar = bar("round", 0.045, None)
        (stress,) = twist_stress_along(oar, cases.tip_knocked(oar))
        assert stress[oar.s < GRIP - 1e-9].max() == 0.0
        assert stress[oar.s > LENGTH - 0.060 + 1e-9].max() == 0.0 < at(oar, stress, LENGTH - 0.1)


class TestHole:
    def lost(self, along):
        """Share of I that a strip 8 mm wide takes from a round of 45 mm, by quad."""
        radius, half, whole = 0.0225, 0.004, pi * 0.045**4 / 64
        if along == "bending direction":
            loss = quad(lambda y: 2 / 3 * (radius**2 - y**2) ** 1.5, -half, half)[0]
        else:
            loss = quad(lambda z: 2 * z**2 * np.sqrt(radius**2 - z**2), -half, half)[0]
        return loss / whole

    @pytest.mark.parametrize("along", ["bending direction", "neutral axis"])
    def test_stress_at_the_hole(self, along):
        oar = bar("round", 0.045, None)
        hole = HoleInputs(diameter=0.008, along=along)
        case = cases.hard_start(oar, force=400.0)
        (stress,) = bending_along(oar, case)
        expected = 2.0 * 32 * 400 * HAND / (pi * 0.045**3) / (1 - self.lost(along))
        assert hole_stress_in(oar, case, hole, stress=stress) == pytest.approx(expected, rel=1e-6)

    def test_on_edge_the_hole_runs_the_other_way(self):
        oar = bar("round", 0.045, None)
        hole = HoleInputs(diameter=0.008, along="neutral axis")
        assert net_at_lock(oar, hole, plane="lateral").share_lost == pytest.approx(
            self.lost("bending direction"), rel=1e-6
        )

    def test_a_bush_takes_more_wood_and_crowds_the_stress_less(self):
        oar = bar("round", 0.045, None)
        cures = hole_cures(oar, HoleInputs(diameter=0.008, along="neutral axis"))
        assert cures.rise == pytest.approx(2.0 / (1 - self.lost("neutral axis")), rel=1e-6)
        assert cures.rise_other_way == pytest.approx(2.0 / (1 - self.lost("bending direction")), rel=1e-6)
        assert cures.bush == pytest.approx(0.012)
        lost = quad(lambda z: 2 * z**2 * np.sqrt(0.0225**2 - z**2), -0.006, 0.006)[0] / (pi * 0.045**4 / 64)
        assert cures.rise_bushed == pytest.approx(1.5 / (1 - lost), rel=1e-6)
