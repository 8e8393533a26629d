"""Glued-up sections against sectionproperties, with the pieces stacked here by hand from their corners.

In its axes x runs across the width and y through the thickness. Its moment M_yy pulls the side of -x, so that it is the
lateral moment with the sign changed. Shear by level is integrated again from the breadths alone.
"""

import numpy as np
import pytest
from scipy.integrate import quad
from sectionproperties.analysis import Section
from sectionproperties.pre import CompoundGeometry, Geometry, Material
from shapely import Polygon, box

from oarkit.section.outline import outline_of_points
from oarkit.section.outline_shapes import blade_outline, box_outline, eased_outline, ellipse_outline
from oarkit.section.pieces import cheeks, edge_strips, faces, piece_of_points, spline, strips, whole
from oarkit.section.shear_flow import glue_lines, peak_shear, shear_at
from oarkit.section.stack import part_stresses, stack
from oarkit.wood.board import Wood

MODULI = {"spruce": (10.8e9, 430.0), "ash": (13.4e9, 640.0), "cedar": (7.7e9, 330.0)}
WOODS = {
    name: Wood(name=name, modulus=e, shear_modulus=e / 16, density=rho, strength=40e6, working=())
    for name, (e, rho) in MODULI.items()
}
MM = 1e-3


def _by_hand(pieces):
    """Section of sectionproperties from (wood, polygon in mm) pairs that fit together."""
    made = []
    for index, (wood, polygon) in enumerate(pieces):
        e, rho = MODULI[wood]
        material = Material(f"{wood} {index}", e, 0.0, 1.0, rho, "brown")
        holes = [np.array(hole.coords) * MM for hole in polygon.interiors]
        made.append(Geometry(Polygon(np.array(polygon.exterior.coords) * MM, holes), material))
    section = Section(CompoundGeometry(made).create_mesh([2e-5]))
    section.calculate_geometric_properties()
    return section


def _unequal_strips():
    """30 x 41 mm from the forward face: 7 cedar, 14 ash, 9 spruce."""
    bar = eased_outline(thickness=0.030, width=0.041)
    pieces = strips(bar, names=["a", "b", "c"], woods=[WOODS[n] for n in ("cedar", "ash", "spruce")],
                    thicknesses=[0.007, 0.014, 0.009])  # fmt: skip
    by_hand = [
        ("cedar", box(-20.5, -15, 20.5, -8)), ("ash", box(-20.5, -8, 20.5, 6)), ("spruce", box(-20.5, 6, 20.5, 15)),
    ]  # fmt: skip
    return bar, pieces, by_hand


def _one_sided_blade():
    """Blade 130 x 12/6 mm, core 40 wide and 10 off centre, cheeks of two sizes, a spline let in off both axes."""
    blade = blade_outline(thickness=0.012, width=0.130, edge=0.006)
    pieces = [
        whole(blade, name="core", wood=WOODS["spruce"]),
        cheeks(blade, name="cheeks", wood=WOODS["cedar"], core=0.040, core_centre=0.010),
        spline(name="spline", wood=WOODS["ash"], width=0.008, thickness=0.004, y=0.020, z=0.002),
    ]

    def half(y):
        return 6 - 3 * abs(y) / 65

    let_in = box(16, 0, 24, 4)
    core = Polygon([(-10, -half(10)), (0, -6), (30, -half(30)), (30, half(30)), (0, 6), (-10, half(10))])
    port = Polygon([(30, -half(30)), (65, -3), (65, 3), (30, half(30))])
    starboard = Polygon([(-65, -3), (-10, -half(10)), (-10, half(10)), (-65, 3)])
    core = Polygon(core.exterior.coords, [list(let_in.exterior.coords)])
    return blade, pieces, [("spruce", core), ("cedar", port), ("cedar", starboard), ("ash", let_in)]


def _faced_and_edged():
    """Blade 131 x 14/7 mm with an aft face of 2.5 mm and edge strips of 9 mm over it: three woods, unsymmetric."""
    blade = blade_outline(thickness=0.014, width=0.131, edge=0.007)
    pieces = [
        whole(blade, name="core", wood=WOODS["cedar"]),
        faces(blade, name="face", wood=WOODS["spruce"], thickness=0.0025, which="aft"),
        edge_strips(blade, name="edge", wood=WOODS["ash"], size=0.009),
    ]

    def half(y):
        return 7 - 3.5 * abs(y) / 65.5

    h = half(56.5)
    core = Polygon([(-56.5, -h), (0, -7), (56.5, -h), (56.5, h - 2.5), (0, 4.5), (-56.5, h - 2.5)])
    face = Polygon([(-56.5, h - 2.5), (0, 4.5), (56.5, h - 2.5), (56.5, h), (0, 7), (-56.5, h)])
    edge = Polygon([(56.5, -h), (65.5, -3.5), (65.5, 3.5), (56.5, h)])
    other = Polygon([(-y, z) for y, z in edge.exterior.coords])
    return blade, pieces, [("cedar", core), ("spruce", face), ("ash", edge), ("ash", other)]


def _skew_scarf():
    """A three-sided bar, glued askew: two woods and a large product."""
    bar = outline_of_points(y=np.array([-20, 25, -5]) * MM, z=np.array([-10, -10, 22]) * MM)
    corner = np.array([(-20, -10), (-2, -10), (-5, 22)])
    pieces = [
        whole(bar, name="bar", wood=WOODS["spruce"]),
        piece_of_points(name="cap", wood=WOODS["ash"], y=corner[:, 0] * MM, z=corner[:, 1] * MM),
    ]
    return bar, pieces, [("spruce", Polygon([(-2, -10), (25, -10), (-5, 22)])), ("ash", Polygon(corner))]


CASES = [_unequal_strips, _one_sided_blade, _faced_and_edged, _skew_scarf]
CLOSE = 1e-6  # promised; both are exact for straight-sided pieces, sectionproperties rounds its mesh


@pytest.mark.parametrize("case", CASES)
def test_stiffness_and_axis(case):
    """E A, E I about both axes, the product, the neutral axis and the mass."""
    outline, pieces, by_hand = case()
    found, other = stack(outline, pieces=pieces), _by_hand(by_hand)
    bending, lateral, product = other.get_eic()
    assert float(found.axial_stiffness) == pytest.approx(other.get_ea(), rel=CLOSE)
    assert (float(found.neutral_y), float(found.neutral_z)) == pytest.approx(other.get_c(), rel=CLOSE, abs=1e-11)
    assert float(found.bending_stiffness) == pytest.approx(bending, rel=CLOSE)
    assert float(found.lateral_stiffness) == pytest.approx(lateral, rel=CLOSE)
    assert float(found.product_stiffness) == pytest.approx(product, rel=CLOSE, abs=CLOSE * bending)
    assert float(found.mass_per_length) == pytest.approx(other.get_mass(), rel=CLOSE)


@pytest.mark.parametrize("case", CASES)
def test_stress(case):
    """Highest and lowest stress of each part under both moments and a pull at once."""
    outline, pieces, by_hand = case()
    found = part_stresses(stack(outline, pieces=pieces), bending_moment=31.0, lateral_moment=17.0, axial=-400.0)
    post = _by_hand(by_hand).calculate_stress(n=-400.0, mxx=31.0, myy=-17.0)
    wanted = {}
    for group, (wood, _) in zip(post.get_stress(), by_hand, strict=True):
        stress = group["sig_zz"][group["sig_zz"] != 0]  # places of other parts are nil
        high, low = wanted.get(wood, (-np.inf, np.inf))
        wanted[wood] = (max(high, stress.max()), min(low, stress.min()))
    for part, piece in zip(found, pieces, strict=True):
        high, low = wanted[piece.wood.name]
        assert float(part.highest) == pytest.approx(high, rel=CLOSE), part.name
        assert float(part.lowest) == pytest.approx(low, rel=CLOSE), part.name
        assert float(part.worst) == pytest.approx(high if high >= -low else low, rel=CLOSE)


def test_covered_woods_still_add_up():
    """Cut pieces fill the section once, whatever lies over what."""
    outline, pieces, by_hand = _faced_and_edged()
    glued = stack(outline, pieces=pieces)
    whole = 0.131 * (0.014 + 0.007) / 2
    assert sum(part.area for part in glued.parts) == pytest.approx(whole, rel=1e-9)  # cut on a grid of 1e-12 m
    _, axis = _by_hand(by_hand).get_c()
    assert glued.parts[0].aft_fibre == pytest.approx(0.0045 - axis, rel=CLOSE)


# Shear by level


def _layers():
    """Rectangular layers: breadth, bounds and modulus of each, from the forward face."""
    return 0.041, [(-0.015, -0.008, 7.7e9), (-0.008, 0.006, 13.4e9), (0.006, 0.015, 10.8e9)]


def _flow_of_layers(level, shear):
    b, layers = _layers()
    held = sum(e * (hi - lo) for lo, hi, e in layers)
    axis = sum(e * (hi**2 - lo**2) / 2 for lo, hi, e in layers) / held
    stiff = b * sum(e * ((hi - axis) ** 3 - (lo - axis) ** 3) / 3 for lo, hi, e in layers)
    first = b * sum(
        quad(lambda z: z - axis, max(lo, level), hi)[0] * e for lo, hi, e in layers if hi > level
    )  # fmt: skip
    return shear * first / stiff, axis


@pytest.mark.parametrize("level", [-0.015, -0.011, -0.008, 0.0, 0.006, 0.012, 0.015])
def test_shear_of_layers(level):
    """V Q_t/(I_t b) with Q_t integrated over what lies beyond, layer by layer."""
    outline, pieces, _ = _unequal_strips()
    at = shear_at(stack(outline, pieces=pieces), level=level, shear=640.0)
    wanted, _ = _flow_of_layers(level, 640.0)
    assert float(at.flow) == pytest.approx(wanted, rel=1e-10, abs=1e-8)  # rounding; nil on both faces
    assert float(at.stress) == pytest.approx(abs(wanted) / 0.041, rel=1e-10, abs=1e-6)


def test_glue_lines_of_layers():
    """Two glue lines, each with the shear of its level; the peak stands on the neutral axis."""
    outline, pieces, _ = _unequal_strips()
    glued = stack(outline, pieces=pieces)
    lines = glue_lines(glued, shear=640.0)
    assert [line.parts for line in lines] == [("a", "b"), ("b", "c")]
    for line, level in zip(lines, (-0.008, 0.006), strict=True):
        assert line.z == pytest.approx(level)
        assert line.breadth == pytest.approx(0.041, rel=1e-6)  # lines are found within 1e-9 m
        assert float(line.stress) == pytest.approx(abs(_flow_of_layers(level, 640.0)[0]) / 0.041, rel=1e-6)
    _, axis = _flow_of_layers(0.0, 640.0)
    peak = peak_shear(glued, shear=640.0)
    assert float(peak.level) == pytest.approx(axis, abs=1e-8)  # the top of a parabola is flat
    assert float(peak.stress) == pytest.approx(_flow_of_layers(axis, 640.0)[0] / 0.041, rel=1e-10)


def test_flow_in_an_unsymmetric_section():
    """The change of bending stress beyond a level, summed over strips of a skew section, with its product counted."""
    outline, pieces, by_hand = _skew_scarf()
    other = _by_hand(by_hand)
    at = [shear_at(stack(outline, pieces=pieces), level=c * MM, shear=90.0, lateral_shear=35.0, cut=cut)
          for cut, c in (("z", 5.0), ("y", 3.0))]  # fmt: skip
    bending, lateral, product = other.get_eic()
    slope = np.linalg.solve([[bending, product], [product, lateral]], [90.0, 35.0])
    cy, cz = other.get_c()
    for found, beyond in zip(at, (box(-99, 5, 99, 99), box(3, -99, 99, 99)), strict=True):
        flow = 0.0
        for wood, polygon in by_hand:
            cut = polygon.intersection(beyond)
            y, z = cut.centroid.coords[0] if cut.area else (0.0, 0.0)
            flow += MODULI[wood][0] * cut.area * MM**2 * (slope[0] * (z * MM - cz) + slope[1] * (y * MM - cy))
        assert float(found.flow) == pytest.approx(flow, rel=CLOSE)


def test_breadth_at_a_hollow():
    """In a box the walls carry the shear: V Q/(I b) on the neutral axis by hand, the walls' breadth at the hollow."""
    outline = box_outline(thickness=0.050, width=0.042, face=0.009, cheek=0.007)
    glued = stack(outline, pieces=[whole(outline, name="box", wood=WOODS["spruce"])])
    second = (42 * 50**3 - 28 * 32**3) / 12
    first = 42 * 25**2 / 2 - 28 * 16**2 / 2
    peak = peak_shear(glued, shear=1000.0)
    assert float(peak.stress) == pytest.approx(1000 * first / (second * 14) * 1e6, rel=1e-9)  # exact, flat top
    assert shear_at(glued, level=np.array([-0.020, -0.016, 0.0]), shear=1.0).breadth == pytest.approx(
        np.array([0.042, 0.014, 0.014])
    )


def test_glue_of_a_spline_and_of_faces():
    """A body held by one glue line alone: its own Q over the whole length of the glue."""
    bar = eased_outline(thickness=0.030, width=0.041)
    pieces = [
        whole(bar, name="bar", wood=WOODS["spruce"]),
        spline(name="in", wood=WOODS["ash"], width=0.008, thickness=0.004, y=0.003, z=0.011),
        spline(name="let", wood=WOODS["ash"], width=0.006, thickness=0.005, y=-0.012, z=0.0125),
    ]
    # Bar 41 by 30 mm of 10.8 GPa, what is let in counted with the 2.6 GPa that ash has more.
    bits = [(0.008, 0.004, 0.003, 0.011, 0.024), (0.006, 0.005, -0.012, 0.0125, 0.016)]  # sizes, y, z, length of glue
    spruce, more = 10.8e9, 2.6e9
    axial = spruce * 0.041 * 0.030 + more * sum(w * d for w, d, *_ in bits)
    axis_y, axis_z = (more * sum(b[0] * b[1] * b[k] for b in bits) / axial for k in (2, 3))
    bending = spruce * 0.041 * 0.030**3 / 12 + more * sum(w * d * (d**2 / 12 + z**2) for w, d, _, z, _ in bits)
    lateral = spruce * 0.030 * 0.041**3 / 12 + more * sum(w * d * (w**2 / 12 + y**2) for w, d, y, _, _ in bits)
    product = more * sum(w * d * y * z for w, d, y, z, _ in bits) - axial * axis_y * axis_z
    stiff = [[bending - axial * axis_z**2, product], [product, lateral - axial * axis_y**2]]
    slope = np.linalg.solve(np.array(stiff), [640.0, 100.0])
    lines = glue_lines(stack(bar, pieces=pieces), shear=640.0, lateral_shear=100.0)
    for line, (width, depth, y, z, length) in zip(lines, bits, strict=True):
        pull = (spruce + more) * width * depth * (slope @ [z - axis_z, y - axis_y])
        assert line.length == pytest.approx(length, rel=1e-6)  # lines are found within 1e-9 m
        assert float(line.stress) == pytest.approx(abs(pull) / length, rel=1e-6)


def test_glue_of_a_curved_face():
    """The crescent of a faced round meets it along the arc moved in by the face, and is held by that glue alone."""
    loom = ellipse_outline(thickness=0.046, width=0.046)
    face = faces(loom, name="face", wood=WOODS["ash"], thickness=0.003, which="aft")
    glued = stack(loom, pieces=[whole(loom, name="loom", wood=WOODS["spruce"]), face])
    (line,) = glue_lines(glued, shear=640.0)
    # A polygon of 4096 corners misses (2 pi/4096)^2/6 = 4e-7 of an area; the crescent is a twelfth of the two rounds.
    near = 1e-5
    assert line.length == pytest.approx(0.046 * np.arccos(0.0015 / 0.023), rel=near)
    area, second = np.pi * 0.023**2, np.pi * 0.023**4 / 4

    def breadth(z):  # of what is common to the round and itself moved forward by the face
        return 2 * np.sqrt(0.023**2 - (abs(z + 0.0015) + 0.0015) ** 2)

    kept, first, kept_second = (
        sum(
            quad(lambda z, n=n: z**n * breadth(z), *ends, epsrel=1e-10)[0]
            for ends in ((-0.023, -0.0015), (-0.0015, 0.020))
        )
        for n in range(3)
    )
    crescent = area - kept
    axial = 10.8e9 * kept + 13.4e9 * crescent
    axis = (10.8e9 - 13.4e9) * first / axial
    bending = 10.8e9 * kept_second + 13.4e9 * (second - kept_second) - axial * axis**2
    assert glued.parts[1].area == pytest.approx(crescent, rel=near)
    pull = 13.4e9 * (-first - crescent * axis)
    assert float(line.flow) == pytest.approx(640.0 * pull / bending, rel=near)
