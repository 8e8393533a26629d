"""Torsion and shear of sections: what can be told without computing, and what is refused."""

import numpy as np
import pytest

from oarkit.section.inlaid import face, strip, upright
from oarkit.section.mesh import joint_ends, mesh_section, quadrature
from oarkit.section.regions import ellipse, hollow, rectangle, two_slope_blade
from oarkit.section.torsion import _away_from_joint_ends, shear, torsion
from oarkit.section.torsion_forms import (
    bored_round_torsion_constant,
    ellipse_torsion_constant,
    ellipse_torsion_modulus,
    rectangle_torsion_constant,
    rectangle_torsion_modulus,
)
from oarkit.section.torsion_thin import blade_torsion_constant, thin_box_torsion_modulus, thin_box_torsion_stiffness
from oarkit.working import BadDesign

SPRUCE = {"modulus": 10.8e9, "shear_modulus": 0.67e9}
ASH = {"modulus": 13.2e9, "shear_modulus": 1.21e9}
LOOM = ellipse(name="loom", thickness=0.046, width=0.042, **SPRUCE)
BLADE = two_slope_blade(name="blade", thickness=0.014, edge=0.0065, width=0.13, **SPRUCE)


def _area(regions, *, elements: int = 1500) -> dict[int, float]:
    """Area of each region as meshed."""
    mesh = mesh_section(regions, elements=elements)
    weight = quadrature(mesh, points=3).weight.sum(axis=1)
    return {int(i): float(weight[mesh.region == i].sum()) for i in np.unique(mesh.region)}


def test_mesh_fits_every_joint():
    """Pieces laid over one another have the areas that plane geometry gives."""
    bar = rectangle(name="bar", thickness=0.04, width=0.05, **SPRUCE)
    pieces = [
        bar,
        strip(bar, name="strip", bottom=0.004, top=0.010, **ASH),
        upright(bar, name="cheek", left=0.018, right=0.025, **ASH),
        face(bar, name="face", size=0.003, aft=True, **ASH),
        hollow(rectangle(name="hole", thickness=0.01, width=0.006, y=-0.01, z=-0.01, **SPRUCE)),
    ]
    face_area, cheek, layer, hole = 0.05 * 0.003, 0.007 * 0.037, 0.043 * 0.006, 0.01 * 0.006
    rest = 0.04 * 0.05 - face_area - cheek - layer - hole
    # straight edges: exact
    assert _area(pieces) == pytest.approx({0: rest, 1: layer, 2: cheek, 3: face_area}, rel=1e-9)


def test_mesh_follows_a_round_outline():
    """A strip cut off by an ellipse and an off-centre bore have the areas of circle segments and circles."""
    across = 0.012 / 0.023  # level over half-thickness
    segment = 0.023 * 0.021 * (np.arccos(across) - across * np.sqrt(1 - across**2))
    bore = ellipse(name="bore", thickness=0.012, width=0.012, y=0.003, z=-0.004, **SPRUCE)
    # Parabolas leave an arc of a fifth of a radian, the longest here, by 0.2^3/125 of its radius, now in, now out.
    found = _area([LOOM, strip(LOOM, name="strip", bottom=0.012, top=0.03, **ASH), hollow(bore)])
    rest = np.pi * 0.023 * 0.021 - segment - np.pi * 0.006**2
    assert found == pytest.approx({0: rest, 1: segment}, rel=5e-5)


def test_mesh_fits_a_blade_and_its_forward_face():
    """A two-slope blade has w (t + e)/2, an edge strip is a trapezoid, a face along the whole width has w s."""
    pieces = [
        BLADE, upright(BLADE, name="edge", left=0.039, right=0.065, **ASH),
        face(BLADE, name="face", size=0.002, aft=False, **ASH),
    ]  # fmt: skip
    skin, edge = 0.13 * 0.002, 0.026 * (0.008 - 0.002)  # 9.5 mm at 3/5 of the half-width, 6.5 mm at the end: mean 8 mm
    # straight edges, a column of nodes on the ridge: exact
    assert _area(pieces) == pytest.approx({0: 0.13 * 0.01025 - skin - edge, 1: edge, 2: skin}, rel=1e-9)
    mesh = mesh_section(pieces)
    assert np.all(mesh.points[mesh.elements[mesh.region == 2]][..., 1] < 0)  # the forward side


def test_mesh_fits_round_corners():
    """A rectangle with round corners has t w - (4 - pi) r^2, a core of it off the centre likewise."""
    bar = rectangle(name="bar", thickness=0.04, width=0.05, corner=0.008, **SPRUCE)
    core = rectangle(name="core", thickness=0.012, width=0.018, corner=0.004, y=0.006, z=-0.005, **ASH)
    inner = 0.012 * 0.018 - (4 - np.pi) * 0.004**2
    rest = 0.04 * 0.05 - (4 - np.pi) * 0.008**2 - inner
    assert core.kinks == pytest.approx((0.001, 0.011))  # 6 -+ (9 - 4) mm
    # As above: arcs of 1/14 and 1/7 of a right angle, off by 1.1e-5 and 9e-5 of radii of 8 and 4 mm over four corners
    # of 12.6 and 6.3 mm, are 4.5e-9 and 9e-9 m2 at most, and in and out by turns a fifth of that.
    found = _area([bar, core], elements=6000)
    assert found == pytest.approx({0: rest, 1: inner}, rel=1e-5)


def test_peaks_leave_out_the_ends_of_joints():
    """A bar of 20 mm by 30 mm with a joint at 10 mm: what is left out is 2 mm round its two ends, not the joint."""
    bar = rectangle(name="bar", thickness=0.02, width=0.03, **SPRUCE)
    mesh = mesh_section([bar, upright(bar, name="cheek", left=0.01, right=0.015, **ASH)])
    moduli = np.array([SPRUCE["shear_modulus"], ASH["shear_modulus"]])[mesh.region]
    assert joint_ends(mesh, moduli) == pytest.approx(np.array([[0.01, -0.01], [0.01, 0.01]]))
    near = np.hypot(mesh.points[:, 0] - 0.01, np.abs(mesh.points[:, 1]) - 0.01) <= 0.002
    assert np.any(near)
    assert np.array_equal(_away_from_joint_ends(mesh, moduli), ~near)


def test_hollow_has_no_wood():
    """Both moduli of a hollow are nil; its shape stays."""
    bore = hollow(LOOM)
    assert (bore.modulus, bore.shear_modulus, bore.left, bore.right) == (0, 0, LOOM.left, LOOM.right)


@pytest.mark.parametrize("elements", [200, 1500, 9000])
def test_a_joint_of_one_wood_is_no_joint(elements):
    """Cutting a section into pieces of the same wood changes nothing, however fine the mesh."""
    pieces = [
        LOOM, strip(LOOM, name="strip", bottom=0.004, top=0.0101, **SPRUCE),
        upright(LOOM, name="cheek", left=0.013, right=0.021, **SPRUCE),
    ]  # fmt: skip
    for of in (torsion, shear):
        plain, cut = of([LOOM], elements=elements), of(pieces, elements=elements)
        # Quadratic elements, the coarsest 16 across: ten times 1/16^4.
        assert cut.stiffness == pytest.approx(plain.stiffness, rel=10 / 16**4)
        stress = [max(peak.stress for peak in found.peaks) for found in (plain, cut)]
        assert stress[1] == pytest.approx(stress[0], rel=0.01)  # the nodes stand elsewhere


def test_worst_place_of_a_loom():
    """An ellipse twisted is stressed most where its surface is nearest the axis; sheared, in the middle."""
    twisted, sheared = torsion([LOOM]).peaks[0], shear([LOOM]).peaks[0]
    assert (abs(twisted.y), twisted.z) == pytest.approx((0.021, 0.0), abs=1e-6)
    assert sheared.z == pytest.approx(0.0, abs=0.001)  # within an element


def test_worst_wood_comes_first():
    """Stiff cheeks take more of a torque than the wood between them; both are named."""
    cheeks = [
        upright(LOOM, name=f"cheek {s}", left=s * 0.0185 - 0.0025, right=s * 0.0185 + 0.0025, **ASH) for s in (-1, 1)
    ]
    found = torsion([LOOM, *cheeks])
    assert {peak.name for peak in found.peaks[:2]} == {"cheek -1", "cheek 1"}
    assert found.peaks[2].name == "loom"
    assert found.peaks[0].stress == pytest.approx(found.peaks[1].stress, rel=1e-6)  # symmetry
    assert found.stress_per_torque == found.peaks[0].stress


def test_between_its_woods():
    """A mixed section is stiffer than one wholly of its softer wood, and softer than one of its stiffer."""
    soft, mixed = torsion([BLADE]), torsion([BLADE, upright(BLADE, name="edge", left=0.055, right=0.065, **ASH)])
    assert soft.stiffness < mixed.stiffness < soft.stiffness * ASH["shear_modulus"] / SPRUCE["shear_modulus"]


def test_neutral_axis_and_shear_centre():
    """A stiff aft strip draws the neutral axis aft; a stiff cheek draws the shear centre to its side."""
    aft = shear([LOOM, strip(LOOM, name="strip", bottom=0.012, top=0.023, **ASH)])
    assert aft.neutral_axis > 0.0003
    assert aft.centre_y == pytest.approx(0, abs=1e-9)
    cheek = shear([LOOM, upright(LOOM, name="cheek", left=0.012, right=0.021, **ASH)])
    assert cheek.neutral_axis == pytest.approx(0, abs=1e-9)
    assert cheek.centre_y > 0.0003


def test_bore_costs_stiffness():
    """The hollow carries nothing: a bored loom is softer in torsion and in shear."""
    bored = [LOOM, hollow(ellipse(name="bore", thickness=0.02, width=0.02, **SPRUCE))]
    assert torsion(bored).stiffness < torsion([LOOM]).stiffness
    assert shear(bored).stiffness < shear([LOOM]).stiffness


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: ellipse(name="loom", thickness=0.0, width=0.04, **SPRUCE), "thickness is 0 m"),
        (lambda: rectangle(name="bar", thickness=0.02, width=-0.04, **SPRUCE), "width is -0.04 m"),
        (lambda: rectangle(name="bar", thickness=0.02, width=0.04, corner=0.012, **SPRUCE), "radius 0.012 m"),
        (lambda: two_slope_blade(name="b", thickness=0.014, edge=0.0, width=0.13, **SPRUCE), "edge is 0 m"),
        (lambda: upright(LOOM, name="cheek", left=0.018, right=0.023, **ASH), "cheek sticks out .* by 0.002 m"),
        (lambda: upright(LOOM, name="cheek", left=-0.024, right=-0.018, **ASH), "cheek sticks out .* by 0.003 m"),
        (lambda: upright(LOOM, name="cheek", left=0.018, right=0.012, **ASH), "width of cheek is -0.006 m"),
        (lambda: strip(LOOM, name="strip", bottom=0.01, top=0.01, **ASH), "thickness of strip is 0 m"),
        (lambda: face(LOOM, name="face", size=-0.002, aft=True, **ASH), "thickness of face is -0.002 m"),
        (lambda: torsion([LOOM, hollow(LOOM)]), "hollow loom breaks through"),
        (lambda: torsion([LOOM, ellipse(name="core", thickness=0.01, width=0.05, **ASH)]), "core sticks out"),
        (
            lambda: torsion([LOOM, rectangle(name="gap", thickness=0.01, width=0.03, modulus=1, shear_modulus=-1)]),
            "a modulus of gap is below nil",
        ),
        (lambda: bored_round_torsion_constant(diameter=0.04, bore=0.04), "a bore of 0.04 m leaves nothing"),
        (
            lambda: thin_box_torsion_modulus(thickness=0.04, width=0.03, face=0.004, side=0.015),
            "the walls fill the box",
        ),
        (
            lambda: thin_box_torsion_modulus(thickness=0.04, width=0.03, face=0.02, side=0.004),
            "the walls fill the box",
        ),
    ],
)  # fmt: skip
def test_refused_in_words(make, said):
    """What cannot be built is refused, with the piece and the size named."""
    with pytest.raises(BadDesign, match=said):
        make()


def test_section_that_falls_apart():
    """Two crossed rows of hollows that leave an island are refused."""
    ring = hollow(rectangle(name="ring", thickness=0.03, width=0.03, **SPRUCE))
    island = rectangle(name="island", thickness=0.01, width=0.01, **SPRUCE)
    bar = rectangle(name="bar", thickness=0.05, width=0.05, **SPRUCE)
    with pytest.raises(BadDesign, match="falls apart"):
        torsion([bar, ring, island])


def test_arrays_equal_scalars():
    """The closed forms take arrays of designs, each with the handbook's formula of its own.

    Rectangles by the fit of Roark's tables, a b^3 (16/3 - 3.36 b/a (1 - b^4/12 a^4)) of half-sides, which lies within
    half a per cent of the series; blades by the integral of t^3/3 over 1 + 3 ((t - e)/w)^2, less the ends of a plate as
    thick as the edge, 0.630 e/w of it (both from memory; the derivation is with SymPy in the derived tests).
    """
    t, w = np.array([0.02, 0.03, 0.012]), np.array([0.05, 0.03, 0.13])
    ellipse_constant, ellipse_modulus = np.pi * t**3 * w**3 / (16 * (t**2 + w**2)), np.pi * t**2 * w / 16
    assert ellipse_torsion_constant(thickness=t, width=w) == pytest.approx(ellipse_constant, rel=1e-12, abs=0)
    assert ellipse_torsion_modulus(thickness=t, width=w) == pytest.approx(ellipse_modulus, rel=1e-12, abs=0)
    a, b = w / 2, t / 2  # none is thicker than wide
    plate = a * b**3 * (16 / 3 - 3.36 * b / a * (1 - b**4 / (12 * a**4)))
    assert rectangle_torsion_constant(thickness=t, width=w) == pytest.approx(plate, rel=5e-3, abs=0)
    factor = np.array([0.258, 0.208, 0.312])  # Timoshenko and Goodier, from memory, for 2.5, 1 and 10 or more
    modulus = rectangle_torsion_modulus(thickness=t, width=w)
    assert modulus[:2] / (t**2 * w)[:2] == pytest.approx(factor[:2], abs=0.00051)  # printed to three figures
    assert factor[2] < modulus[2] / (t**2 * w)[2] < 1 / 3
    edge = np.array([0.004, 0.006])
    grid = blade_torsion_constant(thickness=t[:, None], edge=edge, width=0.13)
    thick = t[:, None]
    whole = (
        0.13 * (thick**3 + thick**2 * edge + thick * edge**2 + edge**3) / 12 / (1 + 3 * ((thick - edge) / 0.13) ** 2)
    )
    # 0.630 is printed to three figures: half a unit of its last place is 0.08 % of the ends, 1 % of the whole.
    assert grid == pytest.approx(whole - 0.630 * edge**4 / 3, rel=1e-5, abs=0)


def test_very_long_rectangle():
    """A plate a thousand times as wide as thick has b t^3/3 and b t^2/3, less the ends, 0.63 of a thickness in all."""
    sizes = {"thickness": 0.001, "width": 1.0}
    less = 1 - 0.630e-3  # printed to three figures (Timoshenko and Goodier, from memory)
    assert rectangle_torsion_constant(**sizes) == pytest.approx(1e-9 / 3 * less, rel=0.5e-6, abs=0)
    assert rectangle_torsion_modulus(**sizes) == pytest.approx(1e-6 / 3 * less, rel=0.5e-6, abs=0)


def test_thin_box_of_two_woods():
    """Walls of twice the modulus and half the thickness twist alike."""
    box = {"thickness": 0.05, "width": 0.05, "side": 0.003}
    thick = thin_box_torsion_stiffness(**box, face=0.004, face_shear_modulus=1e9, side_shear_modulus=1e9)
    thin = thin_box_torsion_stiffness(
        **box | {"thickness": 0.048}, face=0.002, face_shear_modulus=2e9, side_shear_modulus=1e9
    )
    assert thin == pytest.approx(thick, rel=1e-12)  # the middle lines are the same
    # Bredt by hand: 4 A^2 over the sum of s/(G t), A of 46 by 47 mm within the middle lines.
    around = 2 * 0.047 / (1e9 * 0.004) + 2 * 0.046 / (1e9 * 0.003)
    assert thick == pytest.approx(4 * (0.046 * 0.047) ** 2 / around)
