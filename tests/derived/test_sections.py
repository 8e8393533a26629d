"""Sections computed by other roads: closed forms by SymPy, sectionproperties, scipy.quad, and the outline as drawn.

sectionproperties gets its geometry built here by hand from the sizes alone, never from oarkit's outline. In its axes x
runs across the width and y through the thickness, so that its I_xx is the bending of the stroke.
"""

from dataclasses import fields

import numpy as np
import pytest
import sympy
from scipy.integrate import quad
from sectionproperties.analysis import Section
from sectionproperties.pre import CompoundGeometry, Geometry, Material
from sectionproperties.pre import library as shapes
from shapely import Polygon, box

from oarkit import design, example_project
from oarkit.oar.shape import EASED_AREA
from oarkit.section.laminate import laminated
from oarkit.section.profile import Profile, corner_of_area_share, outline, zone_moments
from oarkit.wood.board import Wood

NIL, ONE = np.array(0.0), np.array(1.0)


def _profile(*, thickness, width, edge=0.0, corner=0.0, blade_share=0.0) -> Profile:
    return Profile(
        thickness=np.array(thickness), width=np.array(width), edge=np.array(edge), corner=np.array(corner),
        blade_share=np.array(blade_share),
    )  # fmt: skip


def _found(profile: Profile, inner=NIL, outer=ONE) -> tuple[float, float, float]:
    moments = zone_moments(profile, np.array(inner), np.array(outer))
    return float(moments.area), float(moments.bending), float(moments.lateral)


# Closed forms, integrated by SymPy over the half-width


def _integrated(half_thickness, start, stop, y) -> np.ndarray:
    """Area and second moments of a double-symmetric piece of section between two places, both sides."""
    z = half_thickness
    whole = (4 * z, sympy.Rational(4, 3) * z**3, 4 * y**2 * z)
    return np.array([float(sympy.integrate(part, (y, start, stop))) for part in whole])


def test_ellipse():
    """An ellipse has pi t w/4, pi w t^3/64 and pi t w^3/64, integrated over the angle of its outline."""
    t, w, a = sympy.Rational(33, 1000), sympy.Rational(27, 1000), sympy.Symbol("a")
    y, z, dy = w / 2 * sympy.sin(a), t / 2 * sympy.cos(a), w / 2 * sympy.cos(a)
    parts = (4 * z * dy, sympy.Rational(4, 3) * z**3 * dy, 4 * y**2 * z * dy)
    exact = [sympy.integrate(part, (a, 0, sympy.pi / 2)) for part in parts]
    assert exact == [sympy.pi * t * w / 4, sympy.pi * w * t**3 / 64, sympy.pi * t * w**3 / 64]
    found = _found(_profile(thickness=0.033, width=0.027, corner=0.5))
    assert found == pytest.approx([float(value) for value in exact], rel=1e-12, abs=0)  # smooth after the substitution


def test_eased_square():
    """A square with quarter-round corners has the moments of its flat middle and of its corners, by SymPy."""
    side, radius, a = sympy.Rational(48, 1000), sympy.Rational(10, 1000), sympy.Symbol("a")
    flat, y = side / 2 - radius, sympy.Symbol("y")
    middle = _integrated(side / 2, 0, flat, y)
    out, z, dy = flat + radius * sympy.sin(a), flat + radius * sympy.cos(a), radius * sympy.cos(a)
    parts = (4 * z * dy, sympy.Rational(4, 3) * z**3 * dy, 4 * out**2 * z * dy)
    corners = np.array([float(sympy.integrate(part, (a, 0, sympy.pi / 2))) for part in parts])
    found = _found(_profile(thickness=0.048, width=0.048, corner=10 / 48))
    assert found == pytest.approx(middle + corners, rel=1e-12, abs=0)
    assert found[1] == pytest.approx(found[2], rel=1e-12, abs=0)  # a square bends alike both ways


def test_corner_of_the_eased_square():
    """The corner that leaves 96 % of a square is the radius that SymPy solves for."""
    side, radius = 1, sympy.Symbol("radius", positive=True)
    (exact,) = sympy.solve(side**2 - 4 * radius**2 + sympy.pi * radius**2 - sympy.Rational(96, 100) * side**2, radius)
    assert EASED_AREA == 0.96
    assert float(corner_of_area_share(EASED_AREA)) == pytest.approx(float(exact), rel=1e-12, abs=0)
    side = 0.0481
    found = _found(_profile(thickness=side, width=side, corner=float(exact)))
    assert found[0] == pytest.approx(0.96 * side**2, rel=1e-12, abs=0)


def test_two_slope_blade():
    """A blade of two slopes has w (t + e)/2 and w (t^3 + t^2 e + t e^2 + e^3)/48, and SymPy's lateral moment."""
    t, e, w, y = sympy.symbols("t e w y", positive=True)
    z = (t + (e - t) * y / (w / 2)) / 2
    area, bending, lateral = (
        sympy.integrate(part, (y, 0, w / 2)) for part in (4 * z, sympy.Rational(4, 3) * z**3, 4 * y**2 * z)
    )
    assert sympy.simplify(area - w * (t + e) / 2) == 0
    assert sympy.simplify(bending - w * (t**3 + t**2 * e + t * e**2 + e**3) / 48) == 0
    sizes = {t: 0.0132, e: 0.0071, w: 0.1304}
    found = _found(_profile(thickness=0.0132, width=0.1304, edge=0.0071, blade_share=1.0))
    assert found == pytest.approx([float(value.subs(sizes)) for value in (area, bending, lateral)], rel=1e-12, abs=0)


# Parts of the width, and the blend of two shapes, by scipy.quad


def _blended(y: float, *, thickness: float, width: float, edge: float, share: float) -> float:
    """Half-thickness between an ellipse and a blade of two slopes."""
    ellipse = thickness / 2 * np.sqrt(max(1 - (2 * y / width) ** 2, 0.0))
    slope = (thickness + (edge - thickness) * 2 * y / width) / 2
    return (1 - share) * ellipse + share * slope


@pytest.mark.parametrize("share", [0.0, 0.13, 0.5, 0.87, 1.0])
@pytest.mark.parametrize(("inner", "outer"), [(0.0, 1.0), (0.0, 0.62), (0.62, 0.91), (0.91, 1.0)])
def test_blend_of_loom_and_blade(share, inner, outer):
    """Between loom and blade, every strip of the section is the integral of the blended half-thickness."""
    sizes = {"thickness": 0.031, "width": 0.042, "edge": 0.0088}
    half = sizes["width"] / 2

    def integral(part) -> float:
        return 4 * quad(lambda y: part(y, _blended(y, share=share, **sizes)), inner * half, outer * half, epsabs=0)[0]

    exact = [integral(lambda y, z: z), integral(lambda y, z: z**3 / 3), integral(lambda y, z: y**2 * z)]
    found = _found(_profile(corner=0.5, blade_share=share, **sizes), inner, outer)
    assert found == pytest.approx(exact, rel=1e-8, abs=0)  # quad's own tolerance at the root of the ellipse


# sectionproperties


def _section(geometry: Geometry | CompoundGeometry) -> Section:
    section = Section(geometry.create_mesh(mesh_sizes=[2e-5]))
    section.calculate_geometric_properties()
    return section


def test_ellipse_meshed():
    """An ellipse of unequal axes, meshed."""
    section = _section(shapes.elliptical_section(d_x=0.027, d_y=0.033, n=400))
    i_xx, i_yy, _ = section.get_ic()
    found = _found(_profile(thickness=0.033, width=0.027, corner=0.5))
    # 400 chords lie inside the ellipse and miss (2 pi/400)^2/6 of its area, twice that of a moment.
    assert found == pytest.approx([section.get_area(), i_xx, i_yy], rel=2e-4, abs=0)


def test_eased_rectangle_meshed():
    """A rectangle of unequal sides with quarter ellipses for corners, which take one share of each side."""
    width, thickness, corner = 0.052, 0.044, 0.21
    angle = np.linspace(0, np.pi / 2, 200)
    across = width * (0.5 - corner + corner * np.sin(angle))
    through = thickness * (0.5 - corner + corner * np.cos(angle))
    quarter = np.column_stack([across, through])
    points = np.concatenate(
        [quarter, quarter[::-1] * [1, -1], quarter * [-1, -1], quarter[::-1] * [-1, 1]]
    )  # fmt: skip
    section = _section(Geometry(Polygon(points).simplify(0)))
    i_xx, i_yy, _ = section.get_ic()
    found = _found(_profile(thickness=thickness, width=width, corner=corner))
    assert found == pytest.approx([section.get_area(), i_xx, i_yy], rel=1e-5, abs=0)  # 200 chords a corner


CEDAR, SPRUCE, ASH = (6.3e9, 0.31e9, 380.0), (10.8e9, 0.67e9, 430.0), (13.2e9, 1.21e9, 640.0)  # E, G, density


def _wood(known: tuple[float, float, float]) -> Wood:
    modulus, shear, density = known
    return Wood(name="any", modulus=modulus, shear_modulus=shear, density=density, strength=40e6, working=())


def _material(known: tuple[float, float, float]) -> Material:
    modulus, _, density = known
    return Material(
        name=f"{modulus}", elastic_modulus=modulus, poissons_ratio=0.0, yield_strength=1, density=density, color="w"
    )


def _hand_laid_blade(width: float, thickness: float, edge: float, strips: tuple[float, float]) -> CompoundGeometry:
    """A two-slope blade cut into a cedar middle, spruce strips beside it and ash at the edges."""
    half = width / 2
    lower = [(-half, -edge / 2), (0, -thickness / 2), (half, -edge / 2)]
    whole = Polygon([*lower, *[(-y, -z) for y, z in lower]])
    spruce, ash = strips
    cuts = [-half, -half + ash, -half + ash + spruce, half - ash - spruce, half - ash, half]
    woods = [ASH, SPRUCE, CEDAR, SPRUCE, ASH]
    pieces = [
        Geometry(whole.intersection(box(left, -1, right, 1)), material=_material(wood))
        for left, right, wood in zip(cuts[:-1], cuts[1:], woods, strict=True)
    ]
    return CompoundGeometry(pieces)


def test_edge_strips_of_other_woods():
    """Strips of unequal width and three moduli, stacked by hand, have the stiffness and mass of sectionproperties."""
    width, thickness, edge, spruce, ash = 0.130, 0.0140, 0.0065, 0.017, 0.006
    section = _section(_hand_laid_blade(width, thickness, edge, (spruce, ash)))
    i_xx, i_yy, _ = section.get_eic()
    bounds = [np.array([b]) for b in (0.0, 1 - 2 * (ash + spruce) / width, 1 - 2 * ash / width, 1.0)]
    blade = _profile(thickness=[thickness], width=[width], edge=[edge], blade_share=[1.0])
    owner = [np.array([index]) for index in (0, 1, 2)]
    stack = laminated(blade, bounds=bounds, owner=owner, woods=[_wood(CEDAR), _wood(SPRUCE), _wood(ASH)])
    found = [stack.axial_stiffness, stack.bending_stiffness, stack.lateral_stiffness, stack.mass_per_length]
    exact = [section.get_ea(), i_xx, i_yy, section.get_mass()]
    assert np.array(found)[:, 0] == pytest.approx(exact, rel=1e-9)  # straight edges: the mesh is exact
    assert [float(part[0]) for part in stack.fibre] == pytest.approx(
        [
            thickness / 2,  # cedar: on the centre line
            (thickness - (thickness - edge) * (1 - (ash + spruce) / (width / 2))) / 2,  # spruce: at its inner side
            (thickness - (thickness - edge) * (1 - ash / (width / 2))) / 2,  # ash: at its inner side
        ]
    )
    # Straight sides: the mean thickness of a strip is that of its middle.
    ash_mean = thickness - (thickness - edge) * (1 - ash / width)
    assert stack.piece_mass[2][0] == pytest.approx(ASH[2] * 2 * ash * ash_mean)


def test_stress_of_the_hand_laid_blade():
    """Under a moment each wood's greatest stress is that of sectionproperties."""
    width, thickness, edge, spruce, ash, moment = 0.130, 0.0140, 0.0065, 0.017, 0.006, 25.0
    section = _section(_hand_laid_blade(width, thickness, edge, (spruce, ash)))
    section.calculate_warping_properties()
    stress = section.calculate_stress(mxx=moment).get_stress()
    worst = {float(part["material"]): np.max(np.abs(part["sig_zz"])) for part in stress}
    bounds = [np.array([b]) for b in (0.0, 1 - 2 * (ash + spruce) / width, 1 - 2 * ash / width, 1.0)]
    blade = _profile(thickness=[thickness], width=[width], edge=[edge], blade_share=[1.0])
    owner = [np.array([index]) for index in (0, 1, 2)]
    stack = laminated(blade, bounds=bounds, owner=owner, woods=[_wood(CEDAR), _wood(SPRUCE), _wood(ASH)])
    for known, fibre in zip((CEDAR, SPRUCE, ASH), stack.fibre, strict=True):
        found = known[0] * moment * fibre[0] / stack.bending_stiffness[0]
        assert found == pytest.approx(worst[known[0]], rel=1e-6)  # linear over the thickness: the mesh is exact


@pytest.mark.parametrize(
    ("corner", "share", "form"),
    [(0.5, 0.0, 10 / 9), (0.0, 0.0, 6 / 5), (0.25, 0.0, 52 / 45), (0.5, 0.5, 52 / 45), (0.5, 1.0, 6 / 5)],
)
def test_shear_form_between_round_and_blade(corner, share, form):
    """Half-way from round to rectangle, be it by eased corners or by the blade, the shear form is half-way too.

    10/9 and 6/5 are of Wood Handbook FPL-GTR-282 (2021), eq. 9-4, their mean 52/45; linear by choice of this project.
    """
    section = _profile(thickness=[0.031], width=[0.042], edge=[0.0088], corner=[corner], blade_share=[share])
    bounds = [np.array([0.0]), np.array([1.0])]
    stack = laminated(section, bounds=bounds, owner=[np.array([0])], woods=[_wood(SPRUCE)])
    assert stack.shear_stiffness[0] == pytest.approx(SPRUCE[1] * stack.axial_stiffness[0] / SPRUCE[0] / form)


# The outline as drawn


def _green(y: np.ndarray, z: np.ndarray) -> tuple[float, float, float]:
    """Area and second moments of a polygon by Green's theorem."""
    y0, y1, z0, z1 = y[:-1], y[1:], z[:-1], z[1:]
    cross = y0 * z1 - y1 * z0
    return (
        np.sum(cross) / 2,
        np.sum(cross * (z0**2 + z0 * z1 + z1**2)) / 12,
        np.sum(cross * (y0**2 + y0 * y1 + y1**2)) / 12,
    )


@pytest.mark.parametrize("place", [0.05, 0.15, 0.30, 0.50, 0.63, 1.20, 1.73, 1.75, 1.765, 1.90, 2.286])
def test_outline_as_drawn(place):
    """The outline that is drawn encloses the area and second moments that are counted, all along the oar."""
    oar = design(example_project("quillet").inputs).oars["port"]
    at = int(np.argmin(np.abs(oar.s - place)))
    one = Profile(**{field.name: getattr(oar.profile, field.name)[at] for field in fields(Profile)})
    y, z = outline(one, points=800)
    polygon = Polygon(np.column_stack([y, z]))
    assert polygon.is_valid
    assert polygon.exterior.is_ccw
    area, bending, lateral = _green(y, z)
    assert area == pytest.approx(polygon.area, rel=1e-12, abs=0)
    # 800 chords to the quarter turn miss (pi/1600)^2/6 of the area, two to four times that of a moment.
    assert _found(one) == pytest.approx([area, bending, lateral], rel=3e-6, abs=0)
    assert polygon.bounds == pytest.approx(
        [-one.width / 2, -one.thickness / 2, one.width / 2, one.thickness / 2], abs=1e-12
    )
