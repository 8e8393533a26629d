"""Torsion and shear by other roads: sectionproperties, scikit-fem, and SymPy.

sectionproperties takes one modulus a material for everything: in torsion it is given the shear moduli, in shear woods
whose modulus and shear modulus keep one ratio. Sections of woods that do not are checked with scikit-fem on the
triangles of sectionproperties, and a round of two woods with the exact solution. Pieces are cut here by hand with
shapely. In the axes of sectionproperties x runs across the width and y through the thickness.
"""

from dataclasses import replace

import numpy as np
import pytest
import skfem
import sympy
from sectionproperties.analysis import Section
from sectionproperties.pre import CompoundGeometry, Geometry, Material
from shapely import Point, Polygon, affinity, box, contains_xy, unary_union
from skfem.helpers import dot, grad

from oarkit.section.inlaid import face, strip, upright
from oarkit.section.regions import Region, ellipse, hollow, rectangle, two_slope_blade
from oarkit.section.torsion import JOINT_END, shear, torsion
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

pytestmark = pytest.mark.filterwarnings(r"error:\sThe section geometry contains disjoint regions")

WOODS = {"spruce": (10.8e9, 0.67e9), "ash": (13.2e9, 1.21e9), "cedar": (6.3e9, 0.31e9)}  # E, G


def _of(wood: str) -> dict[str, float]:
    return {"modulus": WOODS[wood][0], "shear_modulus": WOODS[wood][1]}


def _round(thickness: float, width: float, y: float = 0.0, z: float = 0.0) -> Polygon:
    return affinity.translate(affinity.scale(Point(0, 0).buffer(1, quad_segs=100), width / 2, thickness / 2), y, z)


def _eased(thickness: float, width: float, corner: float, y: float = 0.0, z: float = 0.0) -> Polygon:
    core = box(corner - width / 2, corner - thickness / 2, width / 2 - corner, thickness / 2 - corner)
    return affinity.translate(core.buffer(corner, quad_segs=60), y, z)


FAR = 1.0
LOOM = ellipse(name="spruce", thickness=0.046, width=0.042, **_of("spruce"))
ROUND = _round(0.046, 0.042)
BLADE = two_slope_blade(name="spruce", thickness=0.014, edge=0.0065, width=0.13, **_of("spruce"))
OUTLINE = Polygon([(-0.065, -0.00325), (0, -0.007), (0.065, -0.00325), (0.065, 0.00325), (0, 0.007), (-0.065, 0.00325)])
SKIN = Polygon(
    [(-0.065, 0.00325), (0, 0.007), (0.065, 0.00325), (0.065, 0.00125), (0, 0.005), (-0.065, 0.00125)]
)  # fmt: skip
SQUARE = rectangle(name="spruce", thickness=0.05, width=0.04, corner=0.006, **_of("spruce"))

LEANING = Region(
    name="spruce", left=-0.02, right=0.02, lower=lambda y: 0.6 * y - 0.01, upper=lambda y: 0.6 * y + 0.01,
    **_of("spruce"),
)  # fmt: skip
LEANING_OUTLINE = Polygon([(-0.02, -0.022), (0.02, 0.002), (0.02, 0.022), (-0.02, -0.002)])

#: name: regions, pieces cut by hand, largest triangle, ends of joints at the surface
SECTIONS = {
    "cheeks": (
        [
            LOOM, upright(LOOM, name="ash", left=-0.021, right=-0.016, **_of("ash")),
            upright(LOOM, name="cedar", left=0.013, right=0.021, **_of("cedar")),
        ],
        [
            ("spruce", ROUND & box(-0.016, -FAR, 0.013, FAR)), ("ash", ROUND & box(-FAR, -FAR, -0.016, FAR)),
            ("cedar", ROUND & box(0.013, -FAR, FAR, FAR)),
        ], 1e-6, [(y, s * 0.023 * np.sqrt(1 - (y / 0.021) ** 2)) for y in (-0.016, 0.013) for s in (-1, 1)],
    ),
    "strips": (
        [
            LOOM, strip(LOOM, name="ash", bottom=0.012, top=0.023, **_of("ash")),
            strip(LOOM, name="cedar", bottom=-0.008, top=0.003, **_of("cedar")),
        ],
        [
            ("ash", ROUND & box(-FAR, 0.012, FAR, FAR)), ("spruce", ROUND & box(-FAR, 0.003, FAR, 0.012)),
            ("cedar", ROUND & box(-FAR, -0.008, FAR, 0.003)), ("spruce", ROUND & box(-FAR, -FAR, FAR, -0.008)),
        ], 1e-6, [(s * 0.021 * np.sqrt(1 - (z / 0.023) ** 2), z) for z in (0.012, 0.003, -0.008) for s in (-1, 1)],
    ),
    "blade edges": (
        [
            BLADE, upright(BLADE, name="ash", left=-0.065, right=-0.059, **_of("ash")),
            upright(BLADE, name="ash", left=0.057, right=0.065, **_of("ash")),
        ],
        [
            ("ash", OUTLINE & box(-FAR, -FAR, -0.059, FAR)), ("spruce", OUTLINE & box(-0.059, -FAR, 0.057, FAR)),
            ("ash", OUTLINE & box(0.057, -FAR, FAR, FAR)),
        ], 3e-7, [(y, s * (0.007 - 0.0075 * abs(y) / 0.13)) for y in (-0.059, 0.057) for s in (-1, 1)],
    ),
    "blade face": (
        [BLADE, face(BLADE, name="ash", size=0.002, aft=True, **_of("ash"))],
        [("ash", SKIN), ("spruce", OUTLINE - SKIN)], 3e-7, [(-0.065, 0.00125), (0.065, 0.00125)],
    ),
    "leaning": (
        [LEANING, upright(LEANING, name="ash", left=0.0125, right=0.02, **_of("ash"))],
        [
            ("spruce", LEANING_OUTLINE & box(-FAR, -FAR, 0.0125, FAR)),
            ("ash", LEANING_OUTLINE & box(0.0125, -FAR, FAR, FAR)),
        ], 3e-7, [(0.0125, 0.0075 + s * 0.01) for s in (-1, 1)],
    ),
    "box": (
        [
            SQUARE, strip(SQUARE, name="ash", bottom=0.018, top=0.025, **_of("ash")),
            hollow(rectangle(name="hole", thickness=0.03, width=0.022, corner=0.005, y=0.001, z=-0.001, **_of("ash"))),
        ],
        [
            ("ash", _eased(0.05, 0.04, 0.006) & box(-FAR, 0.018, FAR, FAR)),
            (
                "spruce",
                (_eased(0.05, 0.04, 0.006) & box(-FAR, -FAR, FAR, 0.018)) - _eased(0.03, 0.022, 0.005, 0.001, -0.001),
            ),
        ], 1e-6, [(-0.02, 0.018), (0.02, 0.018)],
    ),
    "bored": (
        [
            LOOM, upright(LOOM, name="ash", left=0.0145, right=0.021, **_of("ash")),
            hollow(ellipse(name="bore", thickness=0.02, width=0.018, y=0.003, z=0.002, **_of("ash"))),
        ],
        [
            ("ash", ROUND & box(0.0145, -FAR, FAR, FAR)),
            ("spruce", (ROUND & box(-FAR, -FAR, 0.0145, FAR)) - _round(0.02, 0.018, 0.003, 0.002)),
        ], 1e-6, [(0.0145, s * 0.023 * np.sqrt(1 - (0.0145 / 0.021) ** 2)) for s in (-1, 1)],
    ),
}  # fmt: skip


def _meshed(pieces, moduli: dict[str, float], size: float) -> Section:
    """Section of pieces whose one modulus is given by wood."""
    known = {
        wood: Material(
            name=wood, elastic_modulus=modulus, poissons_ratio=0.0, yield_strength=1.0, density=1.0, color="w"
        )
        for wood, modulus in moduli.items()
    }
    cut = [Geometry(polygon, material=known[wood]) for wood, polygon in pieces]
    geometry = CompoundGeometry(cut) if len(cut) > 1 else cut[0]  # a compound of one piece is called disjoint
    section = Section(geometry.create_mesh(mesh_sizes=[size]))
    section.calculate_geometric_properties()
    return section


def _away(points: np.ndarray, ends, regions) -> np.ndarray:
    """Points that do not lie at the end of a joint, where the stress has no limit."""
    whole = regions[0]
    y = np.linspace(whole.left, whole.right, 999)
    near = JOINT_END * min(2 * np.max(whole.upper(y)), np.ptp(y))
    return np.min([np.hypot(*(points - end).T) for end in np.array(ends)], axis=0) > near


def _worst(found) -> dict[str, float]:
    """Greatest stress in each wood."""
    return {
        wood: max(peak.stress for peak in found.peaks if peak.name == wood) for wood in {p.name for p in found.peaks}
    }


@pytest.mark.parametrize("name", SECTIONS)
def test_compared_pieces_share_their_joints(name):
    """The pieces cut by hand hang together along every joint: triangles have free sides at the surface only.

    All outlines bulge outward, so the surface is as long as a string round the section, and the rims of its holes.
    """
    _, pieces, size, _ = SECTIONS[name]
    mesh = _meshed(pieces, dict.fromkeys(WOODS, 1.0), 10 * size).mesh
    sides = np.sort(np.asarray(mesh["triangles"])[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
    ends, times = np.unique(sides, axis=0, return_counts=True)
    free = mesh["vertices"][ends[times == 1]]
    surface = unary_union([polygon for _, polygon in pieces]).convex_hull.length
    rims = sum(ring.length for _, polygon in pieces for ring in polygon.interiors)
    found = np.sum(np.hypot(*(free[:, 1] - free[:, 0]).T))
    assert found == pytest.approx(surface + rims, rel=1e-9)  # coordinates are rounded to 1e-12 of a metre


@pytest.mark.parametrize("name", SECTIONS)
def test_sectionproperties(name):
    """Mixed sections have its torsion stiffness, shear centre, and greatest stress in each wood, twisted and sheared.

    For the shear the woods are given moduli in one ratio.
    """
    regions, pieces, size, ends = SECTIONS[name]
    section = _meshed(pieces, {wood: moduli[1] for wood, moduli in WOODS.items()}, size)
    section.calculate_warping_properties()
    twisted, sheared = torsion(regions), shear([replace(r, modulus=16 * r.shear_modulus) for r in regions])
    assert twisted.stiffness == pytest.approx(section.get_ej(), rel=3e-4)  # its round outlines are polygons
    assert sheared.centre_y == pytest.approx(section.get_sc()[0], abs=2e-5)  # 1/1000 of the width
    assert sheared.neutral_axis == pytest.approx(section.get_c()[1], abs=1e-6)
    away = _away(section.mesh["vertices"], ends, regions)
    parts = section.calculate_stress(mzz=1.0, vy=1.0).get_stress()
    for found, load in ((twisted, "mzz"), (sheared, "vy")):
        worst = {p["material"]: np.max(away * np.hypot(p[f"sig_zx_{load}"], p[f"sig_zy_{load}"])) for p in parts}
        assert _worst(found) == pytest.approx(worst, rel=0.01)  # the accuracy asked for


@pytest.mark.parametrize("name", SECTIONS)
def test_shear_of_unlike_woods(name):
    """With the moduli as they are, shear stiffness, shear centre and greatest stress are those of scikit-fem."""
    regions, pieces, size, ends = SECTIONS[name]
    made = CompoundGeometry([Geometry(polygon, material=Material(wood, 1, 0, 1, 1, "w")) for wood, polygon in pieces])
    made.create_mesh(mesh_sizes=[size / 4])  # fine, as its stress is taken inside the triangles
    corners = np.asarray(made.mesh["triangles"])[:, :3]
    used, numbers = np.unique(corners, return_inverse=True)
    mesh = skfem.MeshTri(np.asarray(made.mesh["vertices"])[used].T, numbers.reshape(corners.shape).T)
    middle = mesh.p[:, mesh.t].mean(axis=1)
    wood = np.empty(middle.shape[1], dtype="<U6")
    for name_of, polygon in pieces:
        wood[contains_xy(polygon, *middle)] = name_of
    flat = skfem.Basis(mesh, skfem.ElementTriP0(), intorder=4)
    basis = flat.with_element(skfem.ElementTriP2())
    modulus, rigid = (flat.interpolate(np.array([WOODS[w][k] for w in wood])) for k in (0, 1))
    e, places = np.asarray(modulus), np.asarray(basis.global_coordinates())
    axial = np.sum(e * basis.dx)
    y, z = (place - np.sum(e * place * basis.dx) / axial for place in places)
    second = [[np.sum(e * a * b * basis.dx) for b in (y, z)] for a in (y, z)]
    share = np.linalg.solve(second, [0.0, 1.0])
    stiffness = skfem.BilinearForm(lambda u, v, w: w.g * dot(grad(u), grad(v))).assemble(basis, g=rigid)
    load = skfem.LinearForm(lambda v, w: w.q * v).assemble(basis, q=e * (share[0] * y + share[1] * z))
    warping = skfem.solve(*skfem.condense(stiffness, load, D=np.array([0])))
    stress = np.asarray(rigid) * np.asarray(basis.interpolate(warping).grad)
    found = shear(regions)
    assert found.stiffness == pytest.approx(
        1 / np.sum(np.sum(stress**2, axis=0) / np.asarray(rigid) * basis.dx), rel=5e-4
    )
    moment = np.sum((places[0] * stress[1] - places[1] * stress[0]) * basis.dx)
    assert found.centre_y == pytest.approx(moment, abs=2e-5)  # 1/1000 of the width
    away = _away(places.reshape(2, -1).T, ends, regions).reshape(places.shape[1:])
    size_at = away * np.hypot(*stress)
    worst = {w: np.max(size_at[wood == w]) for w in set(wood)}
    assert _worst(found) == pytest.approx(worst, rel=0.015)  # taken inside its triangles, a little from the surface


# Exact solutions by SymPy


def test_round_of_two_woods():
    """A core in a sleeve of another wood: torsion at once, shear from the equations of its warping, by SymPy."""
    b, big, r, alpha = sympy.symbols("b R r alpha", positive=True)
    (e1, g1), (e2, g2) = (sympy.symbols(f"E{i} G{i}", positive=True) for i in (1, 2))
    a1, a2, b2 = sympy.symbols("A1 A2 B2")
    core = a1 * r - e1 * alpha / (8 * g1) * r**3  # the warping over sin(theta): lap u = -E alpha z/G
    sleeve = a2 * r + b2 / r - e2 * alpha / (8 * g2) * r**3
    for warping, e, g in ((core, e1, g1), (sleeve, e2, g2)):
        laplace = sympy.diff(warping, r, 2) + sympy.diff(warping, r) / r - warping / r**2
        assert sympy.simplify(laplace + e * alpha * r / g) == 0
    joined = sympy.solve(
        [
            (core - sleeve).subs(r, b), (g1 * sympy.diff(core, r) - g2 * sympy.diff(sleeve, r)).subs(r, b),
            sympy.diff(sleeve, r).subs(r, big),
        ], [a1, a2, b2], dict=True,
    )[0]  # fmt: skip
    bending = sympy.pi / 4 * (e1 * b**4 + e2 * (big**4 - b**4))
    sizes = {b: 0.013, big: 0.021, e1: 6.3e9, g1: 0.31e9, e2: 13.2e9, g2: 1.21e9}
    core, sleeve = (w.subs(joined).subs(alpha, 1 / bending).subs(sizes) for w in (core, sleeve))
    side = [
        max(abs(float((g * w / r).subs(sizes).subs(r, at))) for at in np.linspace(low, high, 60))
        for w, g, low, high in ((core, g1, 1e-6, 0.013), (sleeve, g2, 0.013, 0.021))
    ]  # on the neutral axis, where it is greatest
    energy = sum(
        sympy.integrate(sympy.expand(e * w * r * r), (r, low, high)) * sympy.pi
        for w, e, low, high in ((core, 6.3e9, 0, 0.013), (sleeve, 13.2e9, 0.013, 0.021))
    ) / bending.subs(sizes)
    regions = [
        ellipse(name="sleeve", thickness=0.042, width=0.042, modulus=13.2e9, shear_modulus=1.21e9),
        ellipse(name="core", thickness=0.026, width=0.026, modulus=6.3e9, shear_modulus=0.31e9),
    ]
    found = shear(regions)
    assert found.stiffness == pytest.approx(float(1 / energy), rel=1e-4)
    assert _worst(found) == pytest.approx({"core": side[0], "sleeve": side[1]}, rel=0.01)  # the accuracy asked for
    stiffness = np.pi / 2 * (0.31e9 * 0.013**4 + 1.21e9 * (0.021**4 - 0.013**4))
    twisted = torsion(regions)
    assert twisted.stiffness == pytest.approx(stiffness, rel=1e-4)
    assert twisted.stress_per_torque == pytest.approx(1.21e9 * 0.021 / stiffness, rel=0.004)


def test_ellipse_formula():
    """Prandtl's function C (1 - y^2/a^2 - z^2/b^2) solves the ellipse; its volume gives J, its slope the stress."""
    a, b, y, z, c, r, t = sympy.symbols("a b y z c r t", positive=True)
    function = c * (1 - y**2 / a**2 - z**2 / b**2)
    (height,) = sympy.solve(sympy.diff(function, y, 2) + sympy.diff(function, z, 2) + 2, c)
    volume = sympy.integrate(c * (1 - r**2) * a * b * r, (r, 0, 1), (t, 0, 2 * sympy.pi)).subs(c, height)
    stress = -sympy.diff(function, z).subs(z, b).subs(c, height)
    sizes = {a: 0.021, b: 0.0165}
    found = ellipse_torsion_constant(thickness=0.033, width=0.042)
    assert found == pytest.approx(float((2 * volume).subs(sizes)))
    assert ellipse_torsion_modulus(thickness=0.033, width=0.042) == pytest.approx(
        float((2 * volume / stress).subs(sizes))
    )


def test_bored_round_formula():
    """J is the polar moment of the ring, and the stress its radius over it, by SymPy."""
    r, inner, outer = sympy.symbols("r d D", positive=True)
    polar = sympy.integrate(2 * sympy.pi * r**3, (r, inner / 2, outer / 2))
    sizes = {inner: 0.018, outer: 0.046}
    assert bored_round_torsion_constant(diameter=0.046, bore=0.018) == pytest.approx(float(polar.subs(sizes)))
    modulus = float((polar / (outer / 2)).subs(sizes))
    assert bored_round_torsion_modulus(diameter=0.046, bore=0.018) == pytest.approx(modulus)


@pytest.mark.parametrize(("thickness", "width"), [(0.021, 0.021), (0.033, 0.021), (0.012, 0.13)])
def test_rectangle_series(thickness, width):
    """The double sine series of Prandtl's function, another road, and the slope of its single series at mid-side."""
    m, n = np.meshgrid(np.arange(1, 1201, 2.0), np.arange(1, 1201, 2.0))
    double = 256 / np.pi**6 / (m**2 * n**2 * (m**2 / thickness**2 + n**2 / width**2))
    exact = float(thickness * width * np.sum(double))
    assert rectangle_torsion_constant(thickness=thickness, width=width) == pytest.approx(exact, rel=1e-6)
    short, long = sorted((thickness, width))
    k = sympy.Symbol("k", integer=True, nonnegative=True)
    odd = 2 * k + 1
    term = sympy.lambdify(k, 1 / (odd**2 * sympy.cosh(odd * sympy.pi * sympy.Rational(long / short) / 2)), "mpmath")
    slope = short * (1 - 8 / np.pi**2 * float(sum(term(i) for i in range(9))))
    assert rectangle_torsion_modulus(thickness=thickness, width=width) == pytest.approx(exact / slope, rel=1e-6)


def test_blade_formula():
    """Rayleigh's principle with a (h^2 - z^2), h linear from the ridge: J and its slope term by SymPy."""
    t, e, w, m, y, z, a = sympy.symbols("t e w m y z a", positive=True)
    h = (t - 2 * m * y) / 2
    function = a * (h**2 - z**2)
    inside = 4 * function - sympy.diff(function, y) ** 2 - sympy.diff(function, z) ** 2
    across = sympy.integrate(sympy.expand(inside), (z, -h, h))
    whole = 2 * sympy.integrate(sympy.expand(across), (y, 0, w / 2))
    (best,) = sympy.solve(sympy.diff(whole, a), a)
    bound = sympy.simplify(whole.subs(a, best).subs(m, (t - e) / w))
    plain = w * (t**3 + t**2 * e + t * e**2 + e**3) / (12 * (1 + 3 * ((t - e) / w) ** 2))
    assert sympy.simplify(bound - plain) == 0
    sizes = {t: 0.0132, e: 0.0071, w: 0.1304}
    ends = float(0.1304 * 0.0071**3 / 3 - rectangle_torsion_constant(thickness=0.0071, width=0.1304))
    exact = float(plain.subs(sizes)) - ends
    assert blade_torsion_constant(thickness=0.0132, edge=0.0071, width=0.1304) == pytest.approx(exact, rel=1e-9)


@pytest.mark.parametrize(
    ("thickness", "edge", "width"), [(0.014, 0.0065, 0.13), (0.011, 0.006, 0.15), (0.018, 0.005, 0.11)]
)
def test_blade_meshed(thickness, edge, width):
    """The thin-section formula is within 1 % of sectionproperties, its stress 3 to 15 % high."""
    h, e, t = width / 2, edge / 2, thickness / 2
    outline = Polygon([(-h, -e), (0, -t), (h, -e), (h, e), (0, t), (-h, e)])
    section = _meshed([("spruce", outline)], {"spruce": 1.0}, 1e-6)
    section.calculate_warping_properties()
    sizes = {"thickness": thickness, "edge": edge, "width": width}
    assert blade_torsion_constant(**sizes) == pytest.approx(section.get_ej(), rel=0.01)
    (part,) = section.calculate_stress(mzz=1.0).get_stress()
    worst = np.max(np.hypot(part["sig_zx_mzz"], part["sig_zy_mzz"]))
    assert 1.03 < 1 / blade_torsion_modulus(**sizes) / worst < 1.15


def test_thin_box_meshed():
    """Bredt's box of two woods is a little softer than sectionproperties has it, and its stress that of mid-wall."""
    # walls 0.4 mm thick, ash over and under, spruce beside
    pieces = [
        ("ash", box(-0.024, 0.0236, 0.024, 0.024)), ("ash", box(-0.024, -0.024, 0.024, -0.0236)),
        ("spruce", box(0.0236, -0.0236, 0.024, 0.0236)), ("spruce", box(-0.024, -0.0236, -0.0236, 0.0236)),
    ]  # fmt: skip
    section = _meshed(pieces, {"ash": 1.21e9, "spruce": 0.67e9}, 1e-7)
    section.calculate_warping_properties()
    walls = {"thickness": 0.048, "width": 0.048, "face": 0.0004, "side": 0.0004}
    found = thin_box_torsion_stiffness(**walls, face_shear_modulus=1.21e9, side_shear_modulus=0.67e9)
    assert 0.98 < found / section.get_ej() < 1
    points = section.mesh["vertices"]
    middle = (np.abs(points[:, 1]) < 0.01) & (points[:, 0] > 0.023)
    flow = [
        np.mean(np.abs(part["sig_zy_mzz"][middle]))
        for part in section.calculate_stress(mzz=1.0).get_stress()
        if part["material"] == "spruce"
    ]
    assert flow[0] == pytest.approx(1 / thin_box_torsion_modulus(**walls), rel=0.02)  # thin-wall theory
