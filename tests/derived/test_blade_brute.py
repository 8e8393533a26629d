"""The blade across its grain, against every place of a fine net and against cases worked by hand.

Sections, zones and layers are written down once more here: nothing but the oar's sizes comes from the code under test.
"""

from dataclasses import replace

import numpy as np
import pytest
import sympy as sp

from oarkit import design, example_project
from oarkit.oar.build import build_oar
from oarkit.oar.pieces import Piece
from oarkit.strength.blade import corner_check, plate_check, without
from oarkit.wood.board import Wood


def _wood(name, splitting, strength=50e6):
    return Wood(name=name, modulus=11e9, shear_modulus=0.7e9, density=500.0, strength=strength, splitting=splitting,
                working=())  # fmt: skip


SPRUCE, ASH, FIR = _wood("spruce", 1.61e6), _wood("ash", 4.27e6), _wood("fir", 1.13e6)
ACROSS = _wood("ash across", 53e6, strength=4.0e6)
SHAPE = replace(
    design(example_project("quillet").inputs).oars["port"].shape,
    tip_thickness=0.0117, edge_at_root=0.0103, edge_at_tip=0.0049, blade_width=0.1287, blade_length=0.547,
)  # fmt: skip
LOOM = Piece(kind="loom", wood=SPRUCE)
FORCE, KNOCK, ARM = 173.0, 137.0, 0.043


def _oar(*pieces, shape=SHAPE):
    return build_oar(shape, [LOOM, *pieces])


def _width(u):
    return SHAPE.neck_width + (SHAPE.blade_width - SHAPE.neck_width) * np.minimum(u / 0.35, 1) ** 0.8


def _thickness(u, eta):
    """Ellipse at the root, two slopes beyond the first 8 % of the blade, blended between."""
    middle = SHAPE.neck_thickness + (SHAPE.tip_thickness - SHAPE.neck_thickness) * np.minimum(u / 0.75, 1) ** 0.8
    edge = SHAPE.edge_at_root + (SHAPE.edge_at_tip - SHAPE.edge_at_root) * u
    share = np.minimum(u / 0.08, 1)
    return (1 - share) * middle * np.sqrt(1 - eta**2) + share * (middle + (edge - middle) * eta)


def _net(strength):
    """Least ratio of the plate over a net of 1,001 stations and 2,000 places; ``strength`` by u and y."""
    u = np.linspace(1e-6, 1, 1001)[:, None]
    eta = np.linspace(0, 1, 2001)[None, :-1]
    fine = np.linspace(0, 1, 200001)
    area = SHAPE.blade_length * np.trapezoid(_width(fine), fine)
    half = _width(u) / 2
    overhang = half * (1 - eta)
    stress = FORCE / area * overhang**2 / 2 / (_thickness(u, eta) ** 2 / 6)  # moment over section modulus, unit width
    return np.min(strength(u, half, eta * half) / stress)


NET = 2e-3  # of the net: half a place is 1/4000 of the half-width, and stress goes as the square of the overhang


def test_plain_plate():
    """One wood: the spine of some station is the worst."""
    found = plate_check(_oar(), force=FORCE)
    assert found.ratio == pytest.approx(_net(lambda u, half, y: 1.61e6), rel=NET)
    assert (found.wood, found.off_spine) == ("spruce", 0.0)
    assert found.ratio == pytest.approx(found.strength / found.stress)


def test_plate_with_weak_edges():
    """Edge strips of a weak wood, 31 mm wide, are worst where they begin, and counted there with their own overhang."""
    weak = replace(FIR, splitting=0.21e6)
    found = plate_check(_oar(Piece(kind="edge", wood=weak, size=0.031)), force=FORCE)

    def strength(u, half, y):
        return np.where(y > half - 0.031, 0.21e6, 1.61e6)

    assert found.ratio == pytest.approx(_net(strength), rel=2 * NET)  # the wood begins between two places
    assert found.wood == "fir"


def test_plate_with_strong_edges_is_that_of_its_loom():
    """Strong edges do not help the spine."""
    bare, edged = plate_check(_oar(), force=FORCE), plate_check(
        _oar(Piece(kind="edge", wood=ASH, size=0.009)), force=FORCE
    )  # fmt: skip
    assert edged.ratio == pytest.approx(bare.ratio)


def test_plate_under_a_spline():
    """A strong spline 37 mm wide in the outer part: beside it the loom has less overhang to bear."""
    spline = Piece(kind="spline", wood=ASH, size=0.037, start=float(SHAPE.blade_root) + 1e-6)
    found = plate_check(_oar(spline), force=FORCE)
    expected = _net(lambda u, half, y: np.where(y < 0.037 / 2, 4.27e6, 1.61e6))
    assert found.ratio == pytest.approx(expected, rel=2 * NET)
    assert found.wood == "spruce"
    assert found.off_spine == pytest.approx(0.0185, abs=1e-6)


def _corner(strength, share=1.0):
    """Least ratio at the tip over 20,000 places on the arm: force on its arm over b t²/6."""
    y = np.linspace(0, ARM, 20001)[:-1]
    eta = y / (SHAPE.blade_width / 2)
    t = SHAPE.tip_thickness + (SHAPE.edge_at_tip - SHAPE.tip_thickness) * eta
    stress = KNOCK * (ARM - y) / (0.060 * t**2 / 6)
    return np.min(strength(y, t) * share / stress)


FINE = 3e-4  # nine places and the bounds of woods, where the worst may lie between two: a flat minimum


def test_corner_of_one_wood_by_hand():
    """At the spine 6 F c/(b t²) by SymPy: 6 x 137 x 43 mm/(60 mm x 11.7² mm²); further out the arm falls faster."""
    force, arm, b, t = sp.Integer(137), sp.Rational(43, 1000), sp.Rational(60, 1000), sp.Rational(117, 10000)
    stress = float(force * arm / (b * t**2 / 6))
    found = corner_check(_oar(), force=KNOCK, arm=ARM)
    assert found.stress == pytest.approx(stress)
    assert found.ratio == pytest.approx(1.61e6 / stress) == pytest.approx(_corner(lambda y, t: 1.61e6), rel=FINE)
    assert (found.off_spine, found.place) == pytest.approx((0.0, float(SHAPE.length)))


def test_corner_within_a_steep_edge():
    """Where the blade thins fast toward its edge, the worst place lies off the spine."""
    shape = replace(SHAPE, tip_thickness=0.016, edge_at_tip=0.001, edge_at_root=0.009)
    y = np.linspace(0, ARM, 20001)[:-1]
    t = 0.016 - 0.015 * y / (SHAPE.blade_width / 2)
    stress = np.max(KNOCK * (ARM - y) / (0.060 * t**2 / 6))
    found = corner_check(_oar(shape=shape), force=KNOCK, arm=ARM)
    assert found.stress <= stress * (1 + 1e-9)
    assert found.stress == pytest.approx(stress, rel=0.02)  # nine places stand 4.8 mm apart
    assert found.off_spine > 0


@pytest.mark.parametrize("size", [0.023, 0.060, 0.110])
def test_a_cap_shares_with_its_own_length(size):
    """A cap across the tip bears as b = its length, up to 60 mm; the loom's splitting matters no more."""
    found = corner_check(_oar(Piece(kind="tip", wood=ACROSS, size=size)), force=KNOCK, arm=ARM)
    assert found.ratio == pytest.approx(_corner(lambda y, t: 53e6, share=min(size / 0.060, 1)), rel=FINE)
    assert found.wood == "ash across"
    assert found.ratio > 1 > corner_check(_oar(), force=KNOCK, arm=ARM).ratio


def test_a_cap_along_the_grain_is_no_better_than_the_weakest_or_itself():
    """Ash along the grain, 13 mm: 4.27 x 13/60 is less than what all 60 mm bear as spruce."""
    found = corner_check(_oar(Piece(kind="tip", wood=ASH, size=0.013)), force=KNOCK, arm=ARM)
    assert found.ratio == pytest.approx(_corner(lambda y, t: 1.61e6), rel=FINE)
    assert found.wood == "spruce"
    longer = corner_check(_oar(Piece(kind="tip", wood=ASH, size=0.047)), force=KNOCK, arm=ARM)
    assert longer.ratio == pytest.approx(_corner(lambda y, t: 4.27e6, share=47 / 60), rel=FINE)


def test_faces_across():
    """Faces of 1.3 mm laid across carry alone with (t³ − (t − 2 t_f)³)/(6 t) a unit of width, by SymPy's integral."""
    z, t, f = sp.symbols("z t f", positive=True)
    modulus = 2 * sp.integrate(z**2, (z, t / 2 - f, t / 2)) / (t / 2)
    alone = sp.lambdify((t, f), sp.simplify(modulus / (t**2 / 6)))
    found = corner_check(_oar(Piece(kind="face", wood=ACROSS, size=0.0013)), force=KNOCK, arm=ARM)
    expected = _corner(lambda y, thick: np.maximum(53e6 * alone(thick, 0.0013), 1.61e6))
    assert found.ratio == pytest.approx(expected, rel=FINE)
    assert found.wood == "ash across"
    thin = corner_check(_oar(Piece(kind="face", wood=ACROSS, size=0.00002)), force=KNOCK, arm=ARM)
    assert thin.ratio == pytest.approx(_corner(lambda y, t: 1.61e6), rel=FINE)  # too thin: the loom bears more


@pytest.mark.parametrize("at", [0.0, 0.0013])
def test_a_strip_across(at):
    """A strip of 2.9 mm laid across carries alone with b t_s²/6 about its own middle, wherever it lies."""
    found = corner_check(_oar(Piece(kind="strip", wood=ACROSS, size=0.0029, at=at)), force=KNOCK, arm=ARM)
    expected = _corner(lambda y, t: np.maximum(53e6 * 0.0029**2 / t**2, 1.61e6))
    assert found.ratio == pytest.approx(expected, rel=FINE)


def test_plate_with_faces_across():
    """The same rule on the blade: the better of the faces alone and of the whole as the loom."""
    found = plate_check(_oar(Piece(kind="face", wood=ACROSS, size=0.0007)), force=FORCE)

    def strength(u, half, y):
        t = _thickness(u, y / half)
        inner = np.maximum(t - 2 * 0.0007, 0)
        return np.maximum(53e6 * (t**3 - inner**3) / t**3, 1.61e6)

    assert found.ratio == pytest.approx(_net(strength), rel=NET)


def test_layers_along_count_as_the_weakest():
    """Faces of fir along the grain weaken a spruce blade, though the loom fills its middle."""
    found = corner_check(_oar(Piece(kind="face", wood=FIR, size=0.0009)), force=KNOCK, arm=ARM)
    assert found.ratio == pytest.approx(_corner(lambda y, t: 1.13e6), rel=FINE)


def test_what_lies_under_another_piece_does_not_count():
    """A cap of 70 mm covers fir faces at the tip; it is as strong as on bare spruce."""
    faces, cap = Piece(kind="face", wood=FIR, size=0.0009), Piece(kind="tip", wood=ACROSS, size=0.070)
    covered = corner_check(_oar(faces, cap), force=KNOCK, arm=ARM)
    assert covered.ratio == pytest.approx(corner_check(_oar(cap), force=KNOCK, arm=ARM).ratio)


def test_a_wood_without_a_value_is_told_as_none():
    """No value across the grain, no check; a piece that is not there is not missed."""
    unknown = replace(FIR, splitting=None)
    assert corner_check(_oar(Piece(kind="tip", wood=unknown, size=0.020)), force=KNOCK, arm=ARM) is None
    assert plate_check(_oar(Piece(kind="face", wood=unknown, size=0.002)), force=FORCE) is None
    edged = _oar(Piece(kind="edge", wood=unknown, size=0.006))  # the knock lands inside of the edges
    assert corner_check(edged, force=KNOCK, arm=ARM) is not None
    assert plate_check(edged, force=FORCE) is None


def test_without():
    """Without a kind all its pieces are gone and the outline is kept; without a kind it has not, it is itself."""
    oar = _oar(Piece(kind="edge", wood=ASH, size=0.006), Piece(kind="tip", wood=ACROSS, size=0.02))
    bare = without(oar, "edge")
    assert [piece.kind for piece in bare.pieces] == ["loom", "tip"]
    assert bare.shape is oar.shape
    assert without(oar, "face") is oar


def test_many_designs_equal_single_ones():
    """Arrays of sizes, woods and loads: each as it is alone."""
    tips, sizes = np.array([0.0102, 0.0117, 0.0139]), np.array([0.013, 0.031, 0.075])
    forces, split = np.array([120.0, 173.0, 211.0]), np.array([0.9e6, 1.6e6, 2.2e6])
    many = build_oar(
        replace(SHAPE, tip_thickness=tips),
        [replace(LOOM, wood=replace(SPRUCE, splitting=split)), Piece(kind="edge", wood=FIR, size=0.007),
         Piece(kind="tip", wood=ACROSS, size=sizes)],
    )  # fmt: skip
    corner, plate = corner_check(many, force=forces, arm=ARM), plate_check(many, force=forces)
    for at in range(3):
        one = build_oar(
            replace(SHAPE, tip_thickness=tips[at]),
            [replace(LOOM, wood=replace(SPRUCE, splitting=split[at])), Piece(kind="edge", wood=FIR, size=0.007),
             Piece(kind="tip", wood=ACROSS, size=sizes[at])],
        )  # fmt: skip
        for told, alone in ((corner, corner_check(one, force=forces[at], arm=ARM)),
                            (plate, plate_check(one, force=forces[at]))):  # fmt: skip
            assert told.ratio[at] == pytest.approx(alone.ratio, rel=1e-3)  # stations stand where all designs want them
            assert told.wood[at] == alone.wood


def test_one_oar_under_many_forces():
    """A row of forces on one oar: ratios fall as the forces rise."""
    forces = np.array([50.0, 100.0, 400.0])
    found = plate_check(_oar(), force=forces)
    assert found.ratio * forces == pytest.approx(np.full(3, found.ratio[0] * 50.0))
    knocked = corner_check(_oar(), force=forces, arm=ARM)
    assert knocked.ratio * forces == pytest.approx(np.full(3, knocked.ratio[0] * 50.0))
