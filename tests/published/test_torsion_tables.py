"""Torsion and shear as printed in handbooks.

* Wood Handbook FPL-GTR-282 (2021), eq. 9-9 to 9-11, 9-14, 9-23, 9-24: form of the formulas; its factors are a chart.
* S. Timoshenko and J. N. Goodier, Theory of Elasticity: table of the rectangle in torsion, three figures, and the shear
  of a round bar. From memory.
* Roark's Formulas for Stress and Strain, table of torsion of solid bars: ellipse, equilateral triangle, trapezoid; and
  R. Bredt's thin tube. From memory.
"""

import numpy as np
import pytest

from oarkit.section.regions import Region, ellipse, hollow, rectangle
from oarkit.section.torsion import shear, torsion
from oarkit.section.torsion_forms import (
    bored_round_torsion_constant,
    bored_round_torsion_modulus,
    ellipse_torsion_constant,
    ellipse_torsion_modulus,
    rectangle_torsion_constant,
    rectangle_torsion_modulus,
)
from oarkit.section.torsion_thin import (
    blade_torsion_constant,
    blade_torsion_modulus,
    thin_box_torsion_modulus,
    thin_box_torsion_stiffness,
)

# Finite elements here are quadratic: with n of them across, stiffness comes to some 1/n^4 and stress to some 1/n^2. Ten
# and two times that are let pass. 1500 elements are 44 across a round, 51 along a triangle; a bore has 20 of its own.
G = 0.67e9
SPRUCE = {"modulus": 10.8e9, "shear_modulus": G}

#: Timoshenko and Goodier, from memory: h/b, K/(h b^3), T/(tau h b^2)
RECTANGLES = [
    (1.0, 0.1406, 0.208), (1.2, 0.166, 0.219), (1.5, 0.196, 0.231), (2.0, 0.229, 0.246), (2.5, 0.249, 0.258),
    (3.0, 0.263, 0.267), (4.0, 0.281, 0.282), (5.0, 0.291, 0.291), (10.0, 0.312, 0.312),
]  # fmt: skip


@pytest.mark.parametrize(("ratio", "stiff", "strong"), RECTANGLES)
def test_rectangle_table(ratio, stiff, strong):
    """The series gives the printed factors, whichever side is called the width."""
    b = 0.021
    h = ratio * b
    for sides in ({"thickness": b, "width": h}, {"thickness": h, "width": b}):
        found = rectangle_torsion_constant(**sides) / (h * b**3)
        assert found == pytest.approx(stiff, abs=0.00051)  # printed to three figures, 0.2808 as 0.281
        assert rectangle_torsion_modulus(**sides) / (h * b**2) == pytest.approx(strong, abs=0.00051)


@pytest.mark.parametrize(("ratio", "stiff", "strong"), [RECTANGLES[0], RECTANGLES[3], RECTANGLES[7]])
def test_rectangle_meshed(ratio, stiff, strong):
    """The finite elements give the printed factors."""
    b = 0.021
    found = torsion([rectangle(name="bar", thickness=b, width=ratio * b, **SPRUCE)])
    assert found.stiffness / (G * ratio * b**4) == pytest.approx(stiff, abs=0.00051)  # printed to three figures
    assert 1 / (found.stress_per_torque * ratio * b**3) == pytest.approx(strong, abs=0.00051)


def test_ellipse():
    """Half-axes a and b: K = pi a^3 b^3/(a^2 + b^2), stress 2 T/(pi a b^2) with b the shorter (Roark, from memory)."""
    a, b = 0.0165, 0.0135
    for sizes in ({"thickness": 2 * a, "width": 2 * b}, {"thickness": 2 * b, "width": 2 * a}):
        constant, modulus = np.pi * a**3 * b**3 / (a**2 + b**2), np.pi * a * b**2 / 2
        assert ellipse_torsion_constant(**sizes) == pytest.approx(constant, rel=1e-12, abs=0)
        assert ellipse_torsion_modulus(**sizes) == pytest.approx(modulus, rel=1e-12, abs=0)
        found = torsion([ellipse(name="loom", **sizes, **SPRUCE)])
        assert found.stiffness == pytest.approx(G * constant, rel=10 / 44**4)
        assert found.stress_per_torque == pytest.approx(1 / modulus, rel=2 / 44**2)


def test_bored_round():
    """K = pi (D^4 - d^4)/32 and stress 16 T D/(pi (D^4 - d^4)) (Roark, from memory)."""
    outside, bore = 0.046, 0.021
    fourth = outside**4 - bore**4
    assert bored_round_torsion_constant(diameter=outside, bore=bore) == pytest.approx(
        np.pi * fourth / 32, rel=1e-12, abs=0
    )
    assert bored_round_torsion_modulus(diameter=outside, bore=bore) == pytest.approx(
        np.pi * fourth / 16 / outside, rel=1e-12, abs=0
    )
    loom, hole = (ellipse(name=n, thickness=d, width=d, **SPRUCE) for n, d in (("loom", outside), ("bore", bore)))
    found = torsion([loom, hollow(hole)])
    assert found.stiffness == pytest.approx(G * np.pi * fourth / 32, rel=10 / 20**4)
    assert found.stress_per_torque == pytest.approx(16 * outside / (np.pi * fourth), rel=2 / 20**2)


def _wedge(*, width: float, first: float, last: float) -> Region:
    """Trapezoid with its parallel sides at the two ends of the width."""

    def half(y):
        return (first + (last - first) * y / width) / 2

    return Region(name="bar", left=0.0, right=width, lower=lambda y: -half(y), upper=half, **SPRUCE)


def test_equilateral_triangle():
    """Side a: K = a^4 sqrt(3)/80 and stress 20 T/a^3 in the middle of each side (Roark, from memory)."""
    side = 0.05
    found = torsion([_wedge(width=side * np.sqrt(3) / 2, first=0.0, last=side)])
    assert found.stiffness / G == pytest.approx(side**4 * np.sqrt(3) / 80, rel=10 / 51**4, abs=0)
    # No node need stand in mid-side: half an element, 1/118 of the side, misses the top of the parabola by 4/118^2.
    assert found.stress_per_torque == pytest.approx(20 / side**3, rel=2 / 51**2 + 4 / 118**2)


@pytest.mark.parametrize(("width", "thick", "thin"), [(0.065, 0.014, 0.006), (0.06, 0.030, 0.015)])
def test_trapezoid(width, thick, thin):
    """K = b (m + n)(m^2 + n^2)/12 - V_L m^4 - V_S n^4, V of s = (m - n)/b (Roark, from memory)."""
    s = (thick - thin) / width
    large = 0.10504 - 0.10 * s + 0.0848 * s**2 - 0.06746 * s**3 + 0.0515 * s**4
    small = 0.10504 + 0.10 * s + 0.0848 * s**2 + 0.06746 * s**3 + 0.0515 * s**4
    printed = width * (thick + thin) * (thick**2 + thin**2) / 12 - large * thick**4 - small * thin**4
    found = torsion([_wedge(width=width, first=thick, last=thin)])
    # The printed one is a fit of unknown accuracy, so that no more is asked than of any mixed outline: 1 %.
    assert found.stiffness / G == pytest.approx(printed, rel=0.01, abs=0)


def test_blade_without_slope_is_a_long_rectangle():
    """A plate: b t^3/3 (1 - 0.630 t/b) (Timoshenko and Goodier, from memory) and stress T t/K."""
    width, thickness = 0.13, 0.01
    printed = width * thickness**3 / 3 * (1 - 0.630 * thickness / width)
    sizes = {"thickness": thickness, "edge": thickness, "width": width}
    # 0.630 is printed to three figures: half a unit of the last is 0.0005 t/b of the whole.
    near = 0.0005 * thickness / width / (1 - 0.630 * thickness / width)
    assert blade_torsion_constant(**sizes) == pytest.approx(printed, rel=near, abs=0)
    assert blade_torsion_modulus(**sizes) == pytest.approx(printed / thickness, rel=near, abs=0)


def test_thin_box():
    """K = 4 A^2/(sum of s/t) and stress T/(2 A t) in the thinner wall, A within the walls' middle line (Bredt)."""
    box = {"thickness": 0.052, "width": 0.041, "face": 0.003, "side": 0.002}
    area, around = 0.049 * 0.039, 2 * 0.039 / 0.003 + 2 * 0.049 / 0.002
    found = thin_box_torsion_stiffness(**box, face_shear_modulus=G, side_shear_modulus=G)
    assert found == pytest.approx(G * 4 * area**2 / around)
    assert thin_box_torsion_modulus(**box) == pytest.approx(2 * area * 0.002, rel=1e-12, abs=0)
    thin_faces = {"thickness": 0.052, "width": 0.041, "face": 0.002, "side": 0.003}
    assert thin_box_torsion_modulus(**thin_faces) == pytest.approx(2 * 0.050 * 0.038 * 0.002, rel=1e-12, abs=0)


def test_shear_of_a_round_bar():
    """(3 + 2 v)/(2 (1 + v)) V/A at the centre, 3/2 for Poisson's ratio nil (Timoshenko and Goodier, from memory)."""
    d = 0.042
    found = shear([ellipse(name="loom", thickness=d, width=d, **SPRUCE)])
    assert found.stress_per_force * np.pi * d**2 / 4 == pytest.approx(1.5, rel=2 / 44**2)
    assert (found.peaks[0].y, found.peaks[0].z) == pytest.approx((0, 0), abs=d / 40)  # one element


def test_shear_of_a_rectangle():
    """3/2 V/A (Wood Handbook eq. 9-14) and shear area 5/6 of the whole (eq. 9-4)."""
    found = shear([rectangle(name="bar", thickness=0.031, width=0.022, **SPRUCE)])
    assert found.stress_per_force * 0.031 * 0.022 == pytest.approx(1.5, rel=2 / 46**2)  # 46 through
    assert found.stiffness == pytest.approx(5 / 6 * G * 0.031 * 0.022, rel=10 / 33**4)  # 33 across
