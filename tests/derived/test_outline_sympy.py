"""Closed forms of the shapes integrated again by SymPy, and outlines by Green's theorem against the closed forms."""

import numpy as np
import pytest
import sympy as sp

from oarkit.section import forms, outline_shapes
from oarkit.section.outline import edge_moments, edges_of, outline_moments, outline_of_points

MM = sp.Rational(1, 1000)
y, z = sp.symbols("y z", real=True)


def _values(m) -> list[float]:
    return [float(v) for v in (m.area, m.centre_y, m.centre_z, m.bending, m.lateral, m.product)]


def _of_half_thickness(pieces) -> list[float]:
    """Area and second moments of a shape alike to both sides of both axes, from z over half of its width."""
    whole = [
        sum(sp.Integral(part(half), (y, start, stop)).evalf(25) for half, start, stop in pieces)
        for part in (lambda h: 4 * h, lambda h: sp.Rational(4, 3) * h**3, lambda h: 4 * y**2 * h)
    ]
    area, bending, lateral = (float(v) for v in whole)
    return [area, 0.0, 0.0, bending, lateral, 0.0]


CLOSE = {"rel": 1e-12, "abs": 1e-20}  # both sides hold rounding only


def test_ellipse():
    """Integrated over the angle of its outline."""
    t, w, a = 33 * MM, 27 * MM, sp.Symbol("a")
    half_y, half_z, step = w / 2 * sp.sin(a), t / 2 * sp.cos(a), w / 2 * sp.cos(a)
    parts = (4 * half_z * step, sp.Rational(4, 3) * half_z**3 * step, 4 * half_y**2 * half_z * step)
    area, bending, lateral = (float(sp.integrate(part, (a, 0, sp.pi / 2))) for part in parts)
    found = forms.ellipse_moments(thickness=0.033, width=0.027)
    assert _values(found) == pytest.approx([area, 0, 0, bending, lateral, 0], **CLOSE)


def test_eased_rectangle():
    """Flat to the corner, then a quarter circle; unequal sides."""
    t, w, r = 48 * MM, 40 * MM, 7 * MM
    arc = t / 2 - r + sp.sqrt(r**2 - (y - w / 2 + r) ** 2)
    exact = _of_half_thickness([(t / 2, 0, w / 2 - r), (arc, w / 2 - r, w / 2)])
    found = forms.eased_moments(thickness=0.048, width=0.040, corner=0.007)
    assert _values(found) == pytest.approx(exact, **CLOSE)


@pytest.mark.parametrize("sides", [4, 8, 16])
def test_regular(sides):
    """Triangles from the centre, in polar coordinates; the second moment is half the polar one."""
    flats, angle = 43 * MM, sp.Symbol("angle")
    reach = flats / 2 / sp.cos(angle)
    bounds = (angle, -sp.pi / sides, sp.pi / sides)
    area = float(sp.Integral(sides * reach**2 / 2, bounds).evalf(20))
    second = float(sp.Integral(sides * reach**4 / 8, bounds).evalf(20))
    found = forms.regular_moments(across_flats=0.043, sides=sides)
    assert _values(found) == pytest.approx([area, 0, 0, second, second, 0], **CLOSE)


def test_blade():
    """A half-thickness that falls straight to the edge."""
    t, w, e = 12 * MM, 131 * MM, 5 * MM
    exact = _of_half_thickness([(t / 2 - (t - e) * y / w, 0, w / 2)])
    assert _values(forms.blade_moments(thickness=0.012, width=0.131, edge=0.005)) == pytest.approx(exact, **CLOSE)


@pytest.mark.parametrize(("thickness", "width"), [(12, 131), (30, 41), (3, 131)])
def test_lens(thickness, width):
    """The circle through the edges and the crown, as a half-thickness."""
    t, w = thickness * MM, width * MM
    radius = (w**2 + t**2) / (4 * t)
    exact = _of_half_thickness([(sp.sqrt(radius**2 - y**2) - (radius - t / 2), 0, w / 2)])
    found = forms.lens_moments(thickness=thickness / 1000, width=width / 1000)
    assert _values(found) == pytest.approx(exact, rel=1e-7, abs=1e-20)  # a thin lens is a small rest of a large arc


def test_trapezium():
    """A width that changes straight from face to face; the centroid lies toward the wider one."""
    t, a, b = 30 * MM, 50 * MM, 35 * MM
    width = (a + b) / 2 + (a - b) * z / t
    span = (z, -t / 2, t / 2)
    area = sp.integrate(width, span)
    centre = sp.integrate(width * z, span) / area
    bending, lateral = sp.integrate(width * (z - centre) ** 2, span), sp.integrate(width**3 / 12, span)
    found = forms.trapezium_moments(thickness=0.030, aft_width=0.050, forward_width=0.035)
    assert _values(found) == pytest.approx([float(v) for v in (area, 0, centre, bending, lateral, 0)], **CLOSE)
    assert float(found.centre_z) > 0


def test_box():
    """Faces and cheeks as four boards."""
    t, w, f, c = 50 * MM, 42 * MM, 9 * MM, 7 * MM
    exact = _of_half_thickness([(t / 2, 0, w / 2), (-(t / 2 - f), 0, w / 2 - c)])
    assert _values(forms.box_moments(thickness=0.050, width=0.042, face=0.009, cheek=0.007)) == pytest.approx(
        exact, **CLOSE
    )


def test_bored_off_centre():
    """Moments about the round's own centre, less the bore's, carried to the common centroid."""
    d, a, e = 46 * MM, 20 * MM, 4 * MM
    radius, angle = sp.symbols("radius angle", positive=True)

    def over(disc_radius, up, amount):
        at = up + radius * sp.sin(angle)
        return sp.integrate(sp.integrate(amount(at) * radius, (radius, 0, disc_radius)), (angle, 0, 2 * sp.pi))

    area, first, second = (over(d / 2, 0, f) - over(a / 2, e, f) for f in (lambda v: 1, lambda v: v, lambda v: v**2))
    lateral = over(d / 2, 0, lambda v: v**2) - over(a / 2, 0, lambda v: v**2)
    exact = [area, 0, first / area, second - first**2 / area, lateral, 0]
    found = forms.bored_moments(diameter=0.046, bore=0.020, bore_off=0.004)
    assert _values(found) == pytest.approx([float(v) for v in exact], **CLOSE)


# Outlines


FINE = {"rel": 1e-6, "abs": 1e-13}  # what a curve drawn as a polygon is promised to hold
DRAWN = [
    ("ellipse", {"thickness": 0.033, "width": 0.027}),
    ("bored", {"diameter": 0.046, "bore": 0.020, "bore_off": 0.004}),
    ("eased", {"thickness": 0.048, "width": 0.040, "corner": 0.007}),
    ("eased", {"thickness": 0.048, "width": 0.040, "corner": 0.020}),
    ("regular", {"across_flats": 0.043, "sides": 8}),
    ("regular", {"across_flats": 0.043, "sides": 16}),
    ("blade", {"thickness": 0.012, "width": 0.131, "edge": 0.005}),
    ("blade", {"thickness": 0.012, "width": 0.131, "edge": 0.0}),
    ("lens", {"thickness": 0.012, "width": 0.131}),
    ("trapezium", {"thickness": 0.030, "aft_width": 0.050, "forward_width": 0.035}),
    ("box", {"thickness": 0.050, "width": 0.042, "face": 0.009, "cheek": 0.007}),
]


@pytest.mark.parametrize(("shape", "sizes"), DRAWN)
def test_outline_as_drawn(shape, sizes):
    """Green's theorem on the outline as drawn gives the closed form."""
    drawn = outline_moments(getattr(outline_shapes, f"{shape}_outline")(**sizes))
    assert _values(drawn) == pytest.approx(_values(getattr(forms, f"{shape}_moments")(**sizes)), **FINE)


def test_product_of_a_wedge():
    """A right-angled wedge far from the origin, integrated by SymPy, with its product of inertia."""
    b, h, y0, z0 = 40 * MM, 30 * MM, 170 * MM, -90 * MM

    def over(amount):
        return sp.integrate(sp.integrate(amount, (z, z0, z0 + h * (1 - (y - y0) / b))), (y, y0, y0 + b))

    area = over(sp.Integer(1))
    cy, cz = over(y) / area, over(z) / area
    exact = [area, cy, cz, over((z - cz) ** 2), over((y - cy) ** 2), over((y - cy) * (z - cz))]
    wedge = outline_of_points(y=np.array([0.17, 0.17, 0.21]), z=np.array([-0.09, -0.06, -0.09]))  # clockwise
    found = _values(outline_moments(wedge))
    assert found == pytest.approx([float(v) for v in exact], rel=1e-11, abs=0)  # corners in mm are not whole in binary
    assert found[5] == pytest.approx(-(0.04**2) * 0.03**2 / 72, rel=1e-11, abs=0)  # the textbook's closed form


def test_many_designs_at_once():
    """Leading axes are designs."""
    edges = edges_of(outline_shapes.blade_outline(thickness=0.012, width=0.131, edge=0.005).shape)
    both = edge_moments(np.stack([edges, 2 * edges]))
    assert both.bending[1] == pytest.approx(16 * both.bending[0], abs=0)
    assert float(both.bending[0]) == pytest.approx(float(edge_moments(edges).bending), abs=0)
