"""Sections against printed formulas.

Wood Handbook FPL-GTR-282 (Forest Products Laboratory, 2021), ch. 9, eq. 9-3, 9-4, 9-12 to 9-14 (read in FPL-GTR-190,
2010, whose equations agree). ANC-18, Design of Wood Aircraft Structures (1944), sec. 3.1330 and 3.133 (read).
J. A. Newlin and G. W. Trayer, NACA Technical Report 181 (1924), from memory. S. G. Lekhnitskii, Anisotropic Plates,
from memory, with the ratios of Wood Handbook Tables 5-1 and 5-2 (read).
"""

import numpy as np
import pytest

from oarkit.section.forms import (
    bored_moments,
    box_moments,
    eased_moments,
    ellipse_moments,
    regular_moments,
    trapezium_moments,
)
from oarkit.section.hole import (
    diameter_for_hole,
    hole_stress,
    loss_along_bending,
    loss_along_neutral_axis,
    net_section,
    stress_concentration,
    strip_loss_along_bending,
    strip_loss_along_neutral_axis,
)
from oarkit.section.outline import outline_moments, outline_of_points
from oarkit.section.outline_shapes import bored_outline, eased_outline
from oarkit.section.pieces import strips, whole
from oarkit.section.shear_flow import glue_lines, peak_shear, shear_at
from oarkit.section.stack import part_stresses, stack
from oarkit.wood.board import Wood

D, B, H = 0.046, 0.041, 0.031
FINE = 1e-6  # a curve drawn as a polygon is promised to hold this


def _wood(modulus):
    return Wood(name="wood", modulus=modulus, shear_modulus=1e9, density=400.0, strength=40e6, working=())


def _bar(outline):
    return stack(outline, pieces=[whole(outline, name="bar", wood=_wood(9e9))])


def test_second_moments():
    """I = b h^3/12 or pi d^4/64 (eq. 9-3)."""
    assert float(eased_moments(thickness=H, width=B).bending) == pytest.approx(B * H**3 / 12, rel=1e-12, abs=0)
    assert float(regular_moments(across_flats=B, sides=4).bending) == pytest.approx(B**4 / 12, rel=1e-12, abs=0)
    assert float(trapezium_moments(thickness=H, aft_width=B, forward_width=B).bending) == pytest.approx(
        B * H**3 / 12, rel=1e-12, abs=0
    )
    assert float(bored_moments(diameter=D).bending) == pytest.approx(np.pi * D**4 / 64, rel=1e-12, abs=0)
    assert float(ellipse_moments(thickness=D, width=D).bending) == pytest.approx(np.pi * D**4 / 64, rel=1e-12, abs=0)
    outside = eased_moments(thickness=H, width=B).bending
    hollow = eased_moments(thickness=H - 0.012, width=B - 0.010).bending
    assert float(box_moments(thickness=H, width=B, face=0.006, cheek=0.005).bending) == pytest.approx(
        outside - hollow, rel=1e-12, abs=0
    )


@pytest.mark.parametrize(("outline", "area"), [
    (eased_outline(thickness=H, width=B), 5 / 6 * B * H), (bored_outline(diameter=D), 9 / 40 * np.pi * D**2),
])  # fmt: skip
def test_shear_area(outline, area):
    """A' = (5/6) b h or (9/40) pi d^2 (eq. 9-4): the energy of V Q/(I b), summed over the levels, is V^2/(2 G A')."""
    # Sixty points are exact to rounding; a round of 4096 corners lacks 4e-7 of its area and 8e-7, twice, of its I.
    top = float(outline.z.max())
    node, weight = np.polynomial.legendre.leggauss(60)
    at = shear_at(_bar(outline), level=top * node, shear=1.0)
    assert 1 / float(np.sum(top * weight * at.flow**2 / at.breadth)) == pytest.approx(area, rel=3e-6)


def test_bending_and_axial_stress():
    """f = P/A (9-12), f_b = M/S with S = b h^2/6 or pi D^3/32 (9-13); tension on the aft face in a stroke."""
    for outline, area, modulus in (
        (eased_outline(thickness=H, width=B), B * H, B * H**2 / 6),
        (bored_outline(diameter=D), np.pi * D**2 / 4, np.pi * D**3 / 32),
    ):
        (stress,) = part_stresses(_bar(outline), bending_moment=130.0)
        assert float(stress.highest) == pytest.approx(130 / modulus, rel=FINE)
        assert float(stress.z) > 0
        (pulled,) = part_stresses(_bar(outline), bending_moment=0.0, axial=500.0)
        assert float(pulled.lowest) == pytest.approx(500 / area, rel=FINE)
    net = net_section(thickness=D, width=D, hole=0.0, along="bending direction")
    assert float(net.section_modulus) == pytest.approx(np.pi * D**3 / 32)
    stress = hole_stress(moment=130.0, thickness=D, width=D, hole=0.0, along="neutral axis", allowance=1.0)
    assert float(stress) == pytest.approx(130 / (np.pi * D**3 / 32))


def test_greatest_shear():
    """f_v = k V/A with k = 3/2 for a rectangle and 4/3 for a circle (9-14)."""
    assert float(peak_shear(_bar(eased_outline(thickness=H, width=B)), shear=700.0).stress) == pytest.approx(
        1.5 * 700 / (B * H), rel=FINE
    )
    assert float(peak_shear(_bar(bored_outline(diameter=D)), shear=700.0).stress) == pytest.approx(
        4 / 3 * 700 / (np.pi * D**2 / 4), rel=FINE
    )


def test_weighted_strips():
    """Each strip counts e = E/E_basic times in area, centroid and I; its stress is e M y/I (sec. 3.1330 and 3.1331)."""
    bar = eased_outline(thickness=H, width=B)
    glued = stack(bar, pieces=strips(bar, names=["a", "b"], woods=[_wood(9e9), _wood(13.5e9)],
                                     thicknesses=[0.020, 0.011]))  # fmt: skip
    e, heights, middles = np.array([1.0, 1.5]), np.array([0.020, 0.011]), np.array([0.010, 0.0255])
    areas = e * B * heights
    axis = (areas @ middles) / areas.sum()
    second = (e * B * heights**3 / 12 + areas * (middles - axis) ** 2).sum()
    assert float(glued.neutral_z) == pytest.approx(axis - H / 2)
    assert float(glued.bending_stiffness) == pytest.approx(9e9 * second)
    low, high = part_stresses(glued, bending_moment=40.0)
    assert float(low.worst) == pytest.approx(-40 * axis / second)
    assert float(high.worst) == pytest.approx(1.5 * 40 * (H - axis) / second)
    (line,) = glue_lines(glued, shear=300.0)
    assert float(line.stress) == pytest.approx(300 * areas[1] * (middles[1] - axis) / (second * B), rel=FINE)  # 3.133


def test_form_factors():
    """Section moduli of square over circle of equal area 1.18; square on its diagonal 1.414 (NACA TR 181, memory)."""
    side = 0.040
    square = float(eased_moments(thickness=side, width=side).bending) / (side / 2)
    equal = 2 * side / np.sqrt(np.pi)
    circle = float(ellipse_moments(thickness=equal, width=equal).bending) / (equal / 2)
    assert square / circle == pytest.approx(1.18, abs=0.005)  # given to two decimals
    corner = side / np.sqrt(2)
    diagonal = outline_of_points(y=corner * np.array([1.0, 0, -1, 0]), z=corner * np.array([0, 1.0, 0, -1]))
    upright = float(outline_moments(diagonal).bending) / corner
    assert square / upright == pytest.approx(1.414, abs=0.0005)  # given to three decimals


@pytest.mark.parametrize(
    ("across", "shear", "poisson", "printed"), [(0.078, 0.064, 0.372, 5.7), (0.043, 0.061, 0.467, 6.0)]
)
def test_stress_concentration(across, shear, poisson, printed):
    """Sitka spruce, radial and tangential, ratios of Tables 5-1 and 5-2: about 5.7 and 6.0, against 3 in metal."""
    found = stress_concentration(across_ratio=across, shear_ratio=shear, poisson=poisson)
    assert float(found) == pytest.approx(printed, abs=0.05)  # given to one decimal


def test_strip_rule():
    """Share of I by the strip rule is 64 a/(12 pi d), slightly too large; the other way is more than tenfold less."""
    loom = {"thickness": D, "width": D, "hole": 0.008}
    whole_round = np.pi * D**4 / 64
    strip = strip_loss_along_bending(thickness=D, hole=0.008) / whole_round
    assert float(strip) == pytest.approx(64 * 0.008 / (12 * np.pi * D))
    along, across = loss_along_bending(**loom), loss_along_neutral_axis(**loom)
    # By the next terms of the series in a/d: 1 + (a/d)^2/2 and 1 + (3/10) (a/d)^2, the ones after it (a/d)^4 at most.
    small = (0.008 / D) ** 2
    assert strip / (along / whole_round) == pytest.approx(1 + small / 2, abs=small**2)
    ratio = strip_loss_along_neutral_axis(width=D, hole=0.008) / across
    assert ratio == pytest.approx(1 + 0.3 * small, abs=small**2)
    assert along > 10 * across
    stiff, strong = (diameter_for_hole(diameter=D, hole=0.008, along="bending direction", keep=k)
                     for k in ("stiffness", "strength"))  # fmt: skip
    assert D < stiff < strong < D + 0.008  # the two answers differ
