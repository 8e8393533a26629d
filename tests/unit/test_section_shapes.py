"""Shapes, pieces and holes at work: what is refused and in which words, arrays, and cases done in the head."""

import numpy as np
import pytest

from oarkit.section import forms, hole, outline_shapes
from oarkit.section.outline import outline_moments, outline_of_points
from oarkit.section.pieces import cheeks, edge_strips, faces, piece_of_points, spline, strips, whole
from oarkit.section.shear_flow import glue_lines, shear_at
from oarkit.section.stack import part_stresses, stack
from oarkit.wood.board import Wood
from oarkit.working import BadDesign

MM = 1e-3
BAR = outline_shapes.eased_outline(thickness=0.030, width=0.040)
LOOM = {"thickness": 0.046, "width": 0.041}


def _wood(modulus=10e9, density=400.0):
    return Wood(name="spruce", modulus=modulus, shear_modulus=1e9, density=density, strength=40e6, working=())


def _whole(name="bar"):
    return whole(BAR, name=name, wood=_wood())


def _points(*corners):
    y, z = np.array(corners, dtype=float).T * MM
    return {"y": y, "z": z}


REFUSED = [
    (lambda: outline_of_points(**_points((0, 0), (40, 30), (40, 0), (0, 30))), "crosses"),
    (lambda: outline_of_points(**_points((0, 0), (50, 30), (40, 0), (0, 30))), "crosses"),
    (lambda: outline_of_points(**_points((0, 0), (40, 0))), "only 2 corners"),
    (lambda: outline_of_points(**_points((0, 0), (40, 0), (80, 0))), "no size"),
    (lambda: outline_of_points(y=np.array([0.0, 0.04, np.nan]), z=np.array([0.0, 0.0, 0.03])), "numbers only"),
    (lambda: outline_of_points(y=BAR.y, z=BAR.z, holes=((BAR.y * 0.5 + 0.015, BAR.z * 0.5),)), "hole .*sticks out"),
    (lambda: outline_of_points(y=BAR.y, z=BAR.z, holes=((BAR.y / 2, BAR.z / 2), (BAR.y / 3, BAR.z / 3))), "each other"),
    (lambda: outline_shapes.ellipse_outline(thickness=0.0, width=0.04), "thickness of the ellipse is nought"),
    (lambda: outline_shapes.blade_outline(thickness=0.012, width=-0.13, edge=0.006), "width of the blade"),
    (lambda: outline_shapes.blade_outline(thickness=0.012, width=0.13, edge=-0.006), "edge of the blade is less"),
    (lambda: outline_shapes.trapezium_outline(thickness=0.03, aft_width=np.nan, forward_width=0.04), "aft width"),
    (lambda: outline_shapes.eased_outline(thickness=0.03, width=0.04, corner=0.016), "eased to a radius"),
    (lambda: outline_shapes.bored_outline(diameter=0.04, bore=0.03, bore_off=0.006), "breaks out"),
    (lambda: outline_shapes.box_outline(thickness=0.03, width=0.04, face=0.015, cheek=0.005), "hollow of the box"),
    (lambda: outline_shapes.regular_outline(across_flats=0.04, sides=6), "6 equal sides"),
    (lambda: outline_shapes.lens_outline(thickness=0.04, width=0.03), "wider than thick"),
    (lambda: strips(BAR, names=["a"], woods=[_wood()], thicknesses=[0.029]), "thinner than the section"),
    (lambda: strips(BAR, names=["a"], woods=[_wood()], thicknesses=[0.031]), "thicker than the section"),
    (lambda: strips(BAR, names=["a"], woods=[_wood()], thicknesses=[-0.031]), "strip 'a'"),
    (lambda: strips(BAR, names=["a"], woods=[_wood()], thicknesses=[0.004], forward_side=0.02), "misses the section"),
    (lambda: cheeks(BAR, name="cheek", wood=_wood(), core=0.040), "misses the section"),
    (lambda: edge_strips(BAR, name="edge", wood=_wood(), size=0.020), "meet in the middle"),
    (lambda: faces(BAR, name="face", wood=_wood(), thickness=0.015), "leaves nothing between"),
    (lambda: stack(BAR, pieces=[_whole(), spline(name="in", wood=_wood(), width=0.01, thickness=0.01, z=0.012)]),
     "'in' sticks out of the section by 0.002 m"),
    (lambda: stack(BAR, pieces=[_whole(), piece_of_points(name="cap", wood=_wood(), over=False,
                                                           **_points((-5, 0), (5, 0), (5, 9), (-5, 9)))]),
     "'cap' overlaps 'bar' by 0.01 m by 0.009 m"),
    (lambda: stack(BAR, pieces=strips(BAR, names=["a"], woods=[_wood()], thicknesses=[0.02], forward_side=-0.015)),
     "gap of 0.04 m by 0.01 m"),
    (lambda: stack(BAR, pieces=[_whole(), _whole()]), "two pieces are called 'bar'"),
    (lambda: shear_at(stack(BAR, pieces=[_whole()]), level=0.016, shear=1.0), "outside the section"),
    (lambda: hole.net_section(**LOOM, hole=0.041, along="bending direction"), "as big as the loom"),
    (lambda: hole.net_section(**LOOM, hole=0.047, along="neutral axis"), "as big as the loom"),
    (lambda: hole.loss_along_bending(**LOOM, hole=-0.004), "diameter of the hole is less"),
    (lambda: hole.diameter_for_hole(diameter=0.04, hole=0.05, along="neutral axis", keep="strength"), "bigger"),
]  # fmt: skip


@pytest.mark.parametrize(("make", "said"), REFUSED)
def test_refused_in_words(make, said):
    """What cannot be built is refused with its name and its sizes."""
    with pytest.raises(BadDesign, match=said):
        make()


def test_hole_between_the_two_sizes():
    """A hole wider than the loom is wide may still run along the width."""
    assert hole.net_section(**LOOM, hole=0.043, along="neutral axis").share_lost < 1


def test_outline_either_way_round():
    """Corners clockwise or with the first repeated make the same outline."""
    turned = outline_of_points(y=np.append(BAR.y[::-1], BAR.y[-1]), z=np.append(BAR.z[::-1], BAR.z[-1]))
    assert float(outline_moments(turned).bending) == pytest.approx(0.04 * 0.03**3 / 12, abs=0)


def test_arrays_equal_scalars():
    """Closed forms take arrays of designs."""
    sizes = np.array([0.03, 0.04])
    many = forms.eased_moments(thickness=sizes, width=0.05, corner=0.004).bending
    alone = [forms.eased_moments(thickness=t, width=0.05, corner=0.004).bending for t in sizes]
    assert many == pytest.approx(np.array(alone, dtype=float), abs=0)


def test_many_boards_in_one_section():
    """Moduli and densities may be arrays; each design is what it is alone."""
    moduli, densities = np.array([9e9, 12e9]), np.array([380.0, 450.0])

    def glued(modulus, density):
        woods = [_wood(modulus, density), _wood(14e9, 640.0)]
        return stack(BAR, pieces=strips(BAR, names=["a", "b"], woods=woods, thicknesses=[0.019, 0.011]))

    def told(section):
        low, high = part_stresses(section, bending_moment=20.0, lateral_moment=5.0)
        (line,) = glue_lines(section, shear=100.0)
        return np.array(
            [section.bending_stiffness, section.neutral_z, section.mass_per_length, low.worst, high.highest,
             high.y + 0 * high.worst, line.stress, section.parts[0].aft_fibre]
        )  # fmt: skip

    many = told(glued(moduli, densities))
    alone = np.stack([told(glued(e, rho)) for e, rho in zip(moduli, densities, strict=True)], axis=-1)
    assert many == pytest.approx(alone, abs=0)


def test_covered_piece_weighs_nothing():
    """A piece that a later one covers wholly stays in the list with nil area and stress."""
    first, second = (stack(BAR, pieces=[_whole("old"), _whole("new")])).parts
    assert (first.area, float(first.aft_fibre), float(first.mass_per_length)) == (0.0, 0.0, 0.0)
    assert second.area == pytest.approx(0.0012)
    stresses = part_stresses(stack(BAR, pieces=[_whole("old"), _whole("new")]), bending_moment=60.0)
    assert [float(s.worst) for s in stresses] == pytest.approx([0.0, 10e6])


def test_planed_strips():
    """Strips that stand out of the section are planed to it where the builder says where they begin."""
    loom = outline_shapes.ellipse_outline(thickness=0.046, width=0.040)
    three = strips(loom, names=["a", "b", "c"], woods=[_wood()] * 3, thicknesses=[0.02] * 3, forward_side=-0.03)
    glued = stack(loom, pieces=three)
    assert sum(part.area for part in glued.parts) == pytest.approx(np.pi * 0.046 * 0.040 / 4, rel=1e-6)
    assert [line.parts for line in glue_lines(glued, shear=1.0)] == [("a", "b"), ("b", "c")]


def test_equal_moduli_give_the_plain_section():
    """A section glued up from one wood is the plain section, with cheeks, faces and edges or without."""
    blade = outline_shapes.blade_outline(thickness=0.012, width=0.13, edge=0.006)
    pieces = [
        whole(blade, name="core", wood=_wood()),
        cheeks(blade, name="cheeks", wood=_wood(), core=0.05),
        faces(blade, name="faces", wood=_wood(), thickness=0.0015),
        edge_strips(blade, name="edges", wood=_wood(), size=0.006),
    ]
    glued, plain = stack(blade, pieces=pieces), forms.blade_moments(thickness=0.012, width=0.13, edge=0.006)
    assert float(glued.bending_stiffness) == pytest.approx(10e9 * float(plain.bending), rel=1e-9)
    assert float(glued.lateral_stiffness) == pytest.approx(10e9 * float(plain.lateral), rel=1e-9)
    assert float(glued.product_stiffness) == pytest.approx(0.0, abs=1e-6)


def test_cheeks_carry_no_shear_in_their_glue():
    """Cheeks alike to both faces are pulled as much as pushed: their glue has no mean shear from a stroke."""
    pieces = [_whole(), cheeks(BAR, name="cheeks", wood=_wood(14e9), core=0.025)]
    lines = glue_lines(stack(BAR, pieces=pieces), shear=500.0)
    assert [line.parts for line in lines] == [("bar", "cheeks")] * 2
    assert [float(line.stress) for line in lines] == pytest.approx([0.0, 0.0], abs=1.0)  # Pa
    across = glue_lines(stack(BAR, pieces=pieces), shear=0.0, lateral_shear=500.0)
    assert min(float(line.stress) for line in across) > 1e5


def test_glue_held_by_more_than_one_line():
    """A layer that edge strips hold too: its glue is judged by the greatest bound, the level here, done by hand."""
    pieces = [
        *strips(BAR, names=["a", "b"], woods=[_wood()] * 2, thicknesses=[0.020, 0.010]),
        edge_strips(BAR, name="edge", wood=_wood(), size=0.004),
    ]
    found = {(line.parts, round(line.y, 3)): line for line in glue_lines(stack(BAR, pieces=pieces), shear=600.0)}
    assert len(found) == 5
    level = 600 * (0.040 * 0.010 * 0.010) / (0.040 * 0.030**3 / 12 * 0.040)  # V Q/(I b) at z = 5 mm
    alone = 600 * (0.032 * 0.010 * 0.010) / (0.040 * 0.030**3 / 12) / (0.032 + 2 * 0.010)  # the layer over all its glue
    assert level > alone
    assert float(found[("a", "b"), 0.0].stress) == pytest.approx(level, rel=1e-6)
    assert float(found[("b", "edge"), 0.016].stress) == pytest.approx(alone, rel=1e-6)


@pytest.mark.parametrize("sides", [4, 8, 16])
def test_flats_on_all_four_faces(sides):
    """A section marked out from a square keeps the square's size both ways."""
    found = outline_shapes.regular_outline(across_flats=0.043, sides=sides)
    assert [found.y.max(), found.z.max(), -found.z.min()] == pytest.approx([0.0215] * 3)
