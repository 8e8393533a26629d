"""Stations, pieces of wood, hard start and bench on small oars, and arrays of oars against single ones."""

from dataclasses import replace

import numpy as np
import pytest

from oarkit import design, example_project
from oarkit.oar.build import Leather, Oar, Piece, build_oar
from oarkit.oar.mass import balance, blade_area, hand_weight, inertia_about_lock, mass, piece_masses
from oarkit.oar.shape import NODES_PER_SEGMENT, OarShape, profile_at, stations
from oarkit.rig.station import rig_from_station
from oarkit.strength.bend import bench_drop, drop_shares, first_frequency, stiffness_index
from oarkit.strength.hard_start import bending_stress, blade_force, checks, hand_force, moment_along, stress_along
from oarkit.wood.board import Wood
from oarkit.working import BadDesign

# Round sizes: length 2.3 m, inboard 0.65 m, leather from 0.55 to 0.80 m, blade root at 1.7 m, mid-blade at 2.0 m.
SHAPE = OarShape(
    length=2.3, inboard=0.65, grip_centre=0.05, grip_diameter=0.032, grip_length=0.13, inboard_size=0.048,
    square_inboard=True, lock_diameter=0.046, neck_thickness=0.030, neck_width=0.026, blade_length=0.6,
    blade_width=0.13, tip_thickness=0.011, edge_at_root=0.009, edge_at_tip=0.006, leather_length=0.25,
    leather_inboard=0.10,
)  # fmt: skip
SPRUCE = Wood(name="spruce", modulus=10.5e9, shear_modulus=0.65e9, density=430.0, strength=40e6, working=())
ASH = Wood(name="ash", modulus=13.5e9, shear_modulus=1.2e9, density=650.0, strength=60e6, working=())
CAP = Wood(name="ash across", modulus=1.1e9, shear_modulus=0.14e9, density=650.0, strength=4e6, working=())
LOOM, EDGE, TIP = (
    Piece(kind="loom", wood=SPRUCE), Piece(kind="edge", wood=ASH, size=0.006), Piece(kind="tip", wood=CAP, size=0.020),
)  # fmt: skip


@pytest.fixture(scope="module")
def oar() -> Oar:
    return build_oar(SHAPE, [LOOM, EDGE, TIP])


# Stations and shape


@pytest.mark.parametrize(
    "place",
    [0.0, 0.05, 0.13, 0.18, 0.49, 0.55, 0.65, 0.675, 0.80, 1.7, 1.748, 1.91, 2.0, 2.15, 2.28, 2.3],
)
def test_every_break_is_a_station(oar, place):
    """Grip, shoulder, leather, pin, neck, blade and pieces of wood begin and end on stations, twice within the oar."""
    at = np.isclose(oar.s, place, rtol=0, atol=1e-12)
    assert at.sum() == (1 if place in (0.0, 2.3) else 2)


def test_stations_are_many_and_in_order(oar):
    """Two hundred stations or more, in order, whose weights add up to the length."""
    assert oar.s.shape[-1] >= 200
    assert np.all(np.diff(oar.s) >= 0)
    assert np.all(oar.weight >= 0)
    assert oar.weight.sum() == pytest.approx(2.3)


def test_weights_integrate_a_cube():
    """The weights integrate s^3 along the oar exactly, as Simpson's rule must."""
    laid = stations(SHAPE)
    assert np.sum(laid.weight * laid.s**3) == pytest.approx(2.3**4 / 4, rel=1e-12)


@pytest.mark.parametrize(
    ("place", "thickness", "width"),
    [
        (0.05, 0.032, 0.032),  # grip
        (0.155, 0.040, 0.040),  # half-way through the shoulder
        (0.30, 0.048, 0.048),  # inboard
        (0.52, 0.047, 0.047),  # half-way to the round of the leather
        (0.65, 0.046, 0.046),  # pin
        (1.25, 0.038, 0.036),  # half-way down the loom
        (1.70, 0.030, 0.026),  # neck
        (1.91, 0.030 - 0.019 * (0.35 / 0.75) ** 0.8, 0.130),  # where the blade has its width
        (2.15, 0.011, 0.130),  # where the blade has its thickness
        (2.30, 0.011, 0.130),  # tip
    ],
)
def test_sizes_along_the_oar(place, thickness, width):
    """The oar has the sizes it was given at the places they belong to, and their mean half-way between."""
    at = profile_at(SHAPE, np.array([place]))
    assert (at.thickness[0], at.width[0]) == pytest.approx((thickness, width))


def test_kinds_of_section_along_the_oar():
    """The grip and the leather are round, the inboard between eased, the blade two slopes with edges 9 to 6 mm."""
    at = profile_at(SHAPE, np.array([0.05, 0.30, 0.65, 1.2, 1.7, 1.748, 2.0, 2.3]))
    assert at.corner[[0, 2, 3]] == pytest.approx([0.5, 0.5, 0.5])
    assert at.corner[1] == pytest.approx(np.sqrt(0.04 / (4 - np.pi)))
    assert at.blade_share == pytest.approx([0, 0, 0, 0, 0, 1, 1, 1])
    assert at.edge[[6, 7]] == pytest.approx([0.0075, 0.006])


def test_round_inboard():
    """A round loom is round from end to end of the inboard."""
    at = profile_at(replace(SHAPE, square_inboard=False), np.linspace(0, 1.7, 50))
    assert np.all(at.corner == 0.5)


def test_places():
    """Root, mid-blade and leather follow from the sizes."""
    assert (SHAPE.blade_root, SHAPE.mid_blade) == pytest.approx((1.7, 2.0))
    assert (SHAPE.leather_start, SHAPE.leather_end) == pytest.approx((0.55, 0.80))


# Refusals


@pytest.mark.parametrize(
    ("change", "said", "overlap"),
    [
        ({"grip_length": 0.50}, "no room for grip and shoulder", 0.06),
        ({"leather_length": 1.2}, "no room for leather", 0.05),
        ({"blade_length": 1.55}, "no room for leather", 0.05),
    ],
)
def test_parts_that_overlap_are_refused(change, said, overlap):
    """Parts that run into one another are refused with how far they do."""
    with pytest.raises(BadDesign, match=said) as refused:
        stations(replace(SHAPE, **change))
    assert refused.value.quantities["overlap"].value == pytest.approx(overlap)


@pytest.mark.parametrize(
    "change",
    [
        {"edge_at_tip": 0.012},
        {"edge_at_root": 0.031},
        # Thinner than its edge only half-way: there the centre is 15.5 mm and the edge 17.5 mm.
        {"tip_thickness": 0.010, "edge_at_root": 0.025, "edge_at_tip": 0.010},
    ],
)
def test_an_edge_thicker_than_the_blade_is_refused(change):
    """A blade is thickest on its centre line all along."""
    with pytest.raises(BadDesign, match="edge is thicker than its centre"):
        build_oar(replace(SHAPE, **change), [LOOM])


@pytest.mark.parametrize(
    ("piece", "said"),
    [
        (replace(EDGE, start=1.9, stop=1.8), "edge of ash runs from 1.9 m to 1.8 m"),
        (replace(EDGE, stop=2.4), "not a stretch of an oar 2.3 m long"),
        (replace(EDGE, start=-0.1), "edge of ash runs from -0.1 m"),
        (replace(TIP, size=None), "tip of ash across needs its size"),
        (replace(TIP, size=2.4), "tip of ash across runs from -0.1 m"),
        (replace(EDGE, size=None), "edge of ash"),
    ],
)
def test_a_piece_that_lies_nowhere_is_refused(piece, said):
    """A piece must be a stretch of the oar, and say its size where it needs one."""
    with pytest.raises(BadDesign, match=said):
        build_oar(SHAPE, [LOOM, piece])


@pytest.mark.parametrize("pieces", [[], [TIP], [replace(LOOM, stop=2.0)], [replace(LOOM, start=0.1), EDGE]])
def test_a_stretch_without_wood_is_refused(pieces):
    """Every stretch of the oar must be of some wood."""
    with pytest.raises(BadDesign, match="left without wood"):
        build_oar(SHAPE, pieces)


# Pieces of wood


def _at(oar: Oar, place: float, side: int = 1) -> int:
    """The station nearest a place on the stretch beyond it, or with side −1 on the stretch before it."""
    return int(np.argmin(np.where(side * (oar.middle - place) > 0, np.abs(oar.s - place), np.inf)))


def test_a_tip_lies_over_an_edge(oar):
    """Over the last 20 mm there is the tip alone: its wood weighs and bends, edge and loom are cut away."""
    at = _at(oar, 2.28)
    area = 0.130 * (0.011 + oar.profile.edge[at]) / 2
    assert oar.laminate.mass_per_length[at] == pytest.approx(650 * area)
    assert oar.laminate.axial_stiffness[at] == pytest.approx(1.1e9 * area)
    assert [fibre[at] for fibre in oar.laminate.fibre] == pytest.approx([0, 0, 0.0055])


def test_edge_strips(oar):
    """At mid-blade two strips of ash 6 mm wide lie beside the spruce."""
    at = _at(oar, 2.2)
    edge = oar.profile.edge[at]
    slope = (0.011 - edge) / 0.065
    strip = 2 * 0.006 * (edge + slope * 0.003)
    whole = 0.130 * (0.011 + edge) / 2
    assert oar.laminate.piece_mass[1][at] == pytest.approx(650 * strip)
    assert oar.laminate.piece_mass[0][at] == pytest.approx(430 * (whole - strip))
    assert oar.laminate.axial_stiffness[at] == pytest.approx(13.5e9 * strip + 10.5e9 * (whole - strip))
    assert oar.laminate.fibre[1][at] == pytest.approx((edge + slope * 0.006) / 2)
    assert oar.laminate.fibre[0][at] == pytest.approx(0.0055)


def test_no_strip_short_of_the_blade(oar):
    """Edge strips begin at the blade root, the tip piece at its length from the end."""
    assert oar.laminate.piece_mass[1][_at(oar, 1.7, -1)] == 0
    assert oar.laminate.piece_mass[1][_at(oar, 1.7)] > 0
    assert oar.laminate.piece_mass[2][_at(oar, 2.28, -1)] == 0
    assert oar.laminate.piece_mass[2][_at(oar, 2.28)] > 0


def test_the_order_of_laying_counts():
    """A tip laid before the edge leaves the strips running over it."""
    under = build_oar(SHAPE, [LOOM, TIP, EDGE])
    at = _at(under, 2.28)
    assert under.laminate.piece_mass[2][at] > 0
    assert [fibre[at] > 0 for fibre in under.laminate.fibre] == [False, True, True]


def test_strips_wider_than_the_neck():
    """Strips of 20 mm meet over the whole width of a narrow blade root."""
    wide = build_oar(SHAPE, [LOOM, replace(EDGE, size=0.020)])
    at = _at(wide, 1.701)
    assert wide.laminate.piece_mass[0][at] == 0
    assert wide.laminate.fibre[1][at] == pytest.approx(wide.profile.thickness[at] / 2)


def test_strips_over_strips():
    """Of two edge strips the later lies over the outer part of the earlier."""
    two = build_oar(SHAPE, [LOOM, replace(EDGE, size=0.020), replace(EDGE, wood=SPRUCE, size=0.005)])
    at = _at(two, 2.2)
    edge = two.profile.edge[at]
    slope = (0.011 - edge) / 0.065
    outer = 2 * 0.005 * (edge + slope * 0.0025)
    both = 2 * 0.020 * (edge + slope * 0.010)
    assert two.laminate.piece_mass[2][at] == pytest.approx(430 * outer)
    assert two.laminate.piece_mass[1][at] == pytest.approx(650 * (both - outer))


def test_a_spliced_loom():
    """A loom of two woods end to end changes wood at the splice, a station of its own."""
    spliced = build_oar(SHAPE, [LOOM, Piece(kind="loom", wood=ASH, start=1.0)])
    assert np.isclose(spliced.s, 1.0, rtol=0, atol=1e-12).sum() == 2
    density = spliced.laminate.mass_per_length / (np.pi / 4 * spliced.profile.thickness * spliced.profile.width)
    assert density[_at(spliced, 1.0, -1)] == pytest.approx(430)
    assert density[_at(spliced, 1.0)] == pytest.approx(650)


STRIP = Piece(kind="strip", wood=ASH, size=0.010, at=0.004)
CHEEK = Piece(kind="cheek", wood=ASH, size=0.003, start=0.90, stop=1.20)
FACE = Piece(kind="face", wood=ASH, size=0.002)
SPLINE = Piece(kind="spline", wood=ASH, size=0.013)


def test_a_strip_off_the_middle_moves_the_neutral_axis():
    """A stiffer strip toward the aft face draws the neutral axis aft, and the forward fibre is then the farther one."""
    made = build_oar(SHAPE, [LOOM, STRIP]).laminate
    assert np.all(made.neutral_axis > 0)
    assert np.all(made.fibre_aft[0] < -made.fibre_forward[0])
    assert made.fibre[0] == pytest.approx(-made.fibre_forward[0])
    middle = build_oar(SHAPE, [LOOM, replace(STRIP, at=0.0)]).laminate
    assert middle.neutral_axis == pytest.approx(np.zeros_like(middle.neutral_axis), abs=1e-12)


def test_cheeks_lie_where_they_are_told():
    """Two cheeks of 3 mm lie beside the loom from 0.9 to 1.2 m and nowhere else, as wide slices of the ellipse."""
    made = build_oar(SHAPE, [LOOM, CHEEK])
    assert made.laminate.piece_mass[1][_at(made, 0.90, -1)] == 0 == made.laminate.piece_mass[1][_at(made, 1.20)]
    at = _at(made, 1.20, -1)
    thickness, width = made.profile.thickness[at], made.profile.width[at]
    angle = np.arccos(1 - 2 * 0.003 / width)  # segment of an ellipse: t w/4 (a − sin a cos a), twice
    area = 2 * thickness * width / 4 * (angle - np.sin(angle) * np.cos(angle))
    assert made.laminate.piece_mass[1][at] == pytest.approx(650 * area)


def test_faces_follow_the_blade():
    """At 2.2 m two faces 2 mm thick lie over the blade from edge to edge; there is none on the loom."""
    made = build_oar(SHAPE, [LOOM, FACE])
    at = _at(made, 2.2)
    assert made.laminate.piece_mass[1][at] == pytest.approx(650 * 2 * 0.002 * 0.130)
    assert made.laminate.fibre_aft[0][at] == pytest.approx(0.0055 - 0.002)
    assert made.laminate.piece_mass[1][_at(made, 1.7, -1)] == 0


def test_a_spline_in_the_outer_quarter():
    """A spline lies in the middle of the width over the outer 150 mm of a blade of 600 mm, unless told otherwise."""
    made = build_oar(SHAPE, [LOOM, SPLINE])
    edge = made.profile.edge[at := _at(made, 2.2)]
    mean = 0.011 - (0.011 - edge) * 0.0065 / 2 / 0.065
    assert made.laminate.piece_mass[1][at] == pytest.approx(650 * 0.013 * mean)
    assert made.laminate.piece_mass[1][_at(made, 2.15, -1)] == 0
    elsewhere = build_oar(SHAPE, [LOOM, replace(SPLINE, start=1.8, stop=2.0)])
    assert elsewhere.laminate.piece_mass[1][_at(elsewhere, 1.8)] > 0 == elsewhere.laminate.piece_mass[1][-1]


@pytest.mark.parametrize(
    ("piece", "said"),
    [
        (replace(CHEEK, stop=None), "cheek of ash needs to say where it starts and where it stops"),
        (replace(STRIP, size=None), r"strip of ash needs its size \(thickness\)"),
        (replace(STRIP, size=0.0), r"size of the strip of ash \(thickness\) must be above nought"),
        (replace(FACE, size=-0.002), "must be above nought"),
        (replace(EDGE, size=np.array([0.004, np.nan])), "must be above nought"),
        (replace(STRIP, at=np.inf), "place of the strip of ash in the thickness"),
        (replace(STRIP, at=0.040), "strip of ash lies wholly outside the oar: its middle stands 0.04 m"),
        (replace(CHEEK, size=0.030), "cheek of ash sticks out of the oar: it is 0.03 m, and half of the width is 0.02"),
        (replace(FACE, size=0.020), "face of ash sticks out of the oar"),
        (replace(SPLINE, size=0.140), "and the whole of the width is 0.13 m at most"),
        (Piece(kind="keel", wood=ASH), "a piece of an oar is one of loom, strip"),
    ],
)
def test_a_piece_without_room_is_refused(piece, said):
    """A piece without a size, with a reversed one, or outside the outline is refused in words."""
    with pytest.raises(BadDesign, match=said):
        build_oar(SHAPE, [LOOM, piece])


@pytest.mark.parametrize("hidden", [LOOM, STRIP, CHEEK, FACE, SPLINE])
def test_a_piece_under_others_is_refused(hidden):
    """A piece that lies wholly under a later one would never be seen."""
    with pytest.raises(BadDesign, match=f"the {hidden.kind} of .* lies wholly under a later piece"):
        build_oar(SHAPE, [hidden, replace(LOOM, wood=CAP)])


@pytest.mark.parametrize("count", [101, 201])
def test_a_number_of_stations(oar, count):
    """About as many stations as asked for, on every break, give drop and mass within 0.1 % of several hundred."""
    few = build_oar(SHAPE, [LOOM, EDGE, TIP], count=count)
    assert abs(few.s.size - count) <= 1
    assert set(np.round(np.unique(oar.s[np.isclose(np.diff(oar.s, prepend=-1), 0)]), 9)) <= set(np.round(few.s, 9))
    for quantity in QUANTITIES:
        assert quantity(few) == pytest.approx(quantity(oar), rel=1e-3), quantity.__name__


def test_too_few_stations():
    """Every stretch needs three stations."""
    with pytest.raises(BadDesign, match="20 stations are too few for this oar"):
        build_oar(SHAPE, [LOOM], count=20)


@pytest.mark.parametrize("name", ["strip", "cheek", "face", "spline", "at"])
def test_an_array_of_layers(name):
    """An array of sizes or places of any piece gives the same oars as one by one."""
    laid = {piece.kind: piece for piece in (LOOM, STRIP, CHEEK, FACE, EDGE, SPLINE)}
    field, whose = ("at", "strip") if name == "at" else ("size", name)
    values = np.array([0.0021, 0.0034, 0.0047])

    def built(value) -> Oar:
        return build_oar(SHAPE, [replace(p, **{field: value}) if p.kind == whose else p for p in laid.values()])

    _same_as_alone(built(values), [built(float(value)) for value in values])


def test_leather_by_default(oar):
    """The leather is 60 g unless said otherwise."""
    assert mass(oar) - sum(piece_masses(oar)) == pytest.approx(0.060)


# Hard start


@pytest.mark.parametrize(("rower", "force"), [(60, 400), (79.9, 400), (80, 450), (110, 450)])
def test_hand_force(rower, force):
    """400 N a hand, 450 N for a rower of 80 kg and over (common practice)."""
    assert hand_force(rower_mass=rower) == force


def test_stress_at_the_pin(oar):
    """400 N at 0.6 m bends a round of 46 mm to 32 M/(pi d^3) at the pin."""
    found = stress_along(oar, force=400.0)[0]
    assert found[_at(oar, 0.65)] == pytest.approx(32 * 240 / (np.pi * 0.046**3))


def test_the_worst_place(oar):
    """A slender neck moves the worst place out along the loom, to where 32 M/(pi w t^2) is greatest."""
    s = np.linspace(0.80, 1.70, 9001)
    thickness, width = np.interp(s, [0.80, 1.70], [0.046, 0.030]), np.interp(s, [0.80, 1.70], [0.046, 0.026])
    moment = 400 * 0.60 / 1.35 * (2.0 - s)
    stress = 32 * moment / (np.pi * width * thickness**2)
    worst = checks(oar, force=400.0, wanted=1.5)[0]
    assert (worst.part, worst.wood, worst.case) == ("loom", "spruce", "hard start")
    assert worst.place == pytest.approx(s[np.argmax(stress)], abs=0.0375)  # stations stand 37.5 mm apart there
    assert worst.stress == pytest.approx(stress.max(), rel=1e-3)  # flat at its top
    assert worst.ratio == pytest.approx(40e6 / worst.stress)
    assert worst.ok


def test_checks_come_least_ratio_first(oar):
    """Each stressed piece has one check, the weakest first; a tip beyond mid-blade is not stressed at all."""
    made = checks(oar, force=400.0, wanted=1.5)
    assert [check.part for check in made] == ["loom", "edge"]
    assert made[0].ratio < made[1].ratio
    assert not checks(oar, force=4000.0, wanted=1.5)[0].ok


def test_forces():
    """400 N at 0.6 m is 160 N at 1.5 m."""
    assert blade_force(force=400, hand_arm=0.6, blade_arm=1.5) == pytest.approx(160)
    assert bending_stress(moment=100, fibre=0.02, modulus=10e9, bending_stiffness=2000) == pytest.approx(10e6)
    assert stiffness_index(drop=0.07, blade_arm=1.4) == pytest.approx(0.05)
    assert hand_weight(mass=2.0, balance=0.3, hand_arm=0.6) == pytest.approx(9.80665)


# Arrays of oars


QUANTITIES = (mass, balance, inertia_about_lock, blade_area, bench_drop, first_frequency)


def _same_as_alone(many: Oar, alone: list[Oar]) -> None:
    for quantity in QUANTITIES:
        found = np.broadcast_to(quantity(many), len(alone))
        assert found == pytest.approx([float(quantity(one)) for one in alone], rel=1e-9), quantity.__name__
    for part in range(3):
        found = np.broadcast_to(drop_shares(many)[part], len(alone))
        assert found == pytest.approx([float(drop_shares(one)[part]) for one in alone], rel=1e-9)
    by_part = {check.part: check for check in checks(many, force=400.0, wanted=1.5)}
    for index, one in enumerate(alone):
        for check in checks(one, force=400.0, wanted=1.5):
            for name in ("stress", "strength", "ratio", "place", "ok"):
                found = np.broadcast_to(getattr(by_part[check.part], name), len(alone))[index]
                assert found == pytest.approx(getattr(check, name)), (check.part, name)


SIZES = [name for name in OarShape.__dataclass_fields__ if name != "square_inboard"]


@pytest.mark.parametrize("size", SIZES)
def test_an_array_of_one_size(size):
    """An array of any size gives the same oars as its values one by one."""
    given = getattr(SHAPE, size)
    values = given * np.array([0.98, 1.0, 1.01])
    alone = [build_oar(replace(SHAPE, **{size: float(value)}), [LOOM, EDGE, TIP]) for value in values]
    _same_as_alone(build_oar(replace(SHAPE, **{size: values}), [LOOM, EDGE, TIP]), alone)


@pytest.mark.parametrize("known", ["modulus", "shear_modulus", "density", "strength"])
def test_an_array_of_woods(known):
    """An array of boards gives the same oars as the boards one by one."""
    values = getattr(SPRUCE, known) * np.array([0.8, 1.0, 1.3])

    def built(value) -> Oar:
        return build_oar(SHAPE, [replace(LOOM, wood=replace(SPRUCE, **{known: value})), EDGE, TIP])

    _same_as_alone(built(values), [built(float(value)) for value in values])


@pytest.mark.parametrize("piece", ["edge", "tip"])
def test_an_array_of_strips(piece):
    """An array of strip widths or tip lengths gives the same oars as one by one."""

    def built(value) -> Oar:
        return build_oar(SHAPE, [LOOM, *(replace(p, size=value) if p.kind == piece else p for p in (EDGE, TIP))])

    values = np.array([0.004, 0.008, 0.018])
    _same_as_alone(built(values), [built(float(value)) for value in values])


def test_an_array_of_leathers():
    """An array of leather masses gives the same oars as one by one."""
    values = np.array([0.0, 0.06, 0.10])

    def built(value) -> Oar:
        return build_oar(SHAPE, [LOOM, EDGE, TIP], Leather(mass=value))

    _same_as_alone(built(values), [built(float(value)) for value in values])


@pytest.mark.parametrize("count", [2, 16, 32, NODES_PER_SEGMENT])
def test_an_array_of_edges_of_any_length(count):
    """The number of designs does not matter, be it that of the quadrature's points or of the stations."""
    values = np.linspace(0.004, 0.009, count)
    many = build_oar(replace(SHAPE, edge_at_tip=values), [LOOM])
    alone = [float(mass(build_oar(replace(SHAPE, edge_at_tip=float(value)), [LOOM]))) for value in values]
    assert np.broadcast_to(mass(many), count) == pytest.approx(alone, rel=1e-9)


def test_a_grid_of_designs():
    """Two leading axes are as good as one: spans by moduli, from rig to checks."""
    beams, moduli = np.array([[0.85], [0.95]]), np.array([[9e9, 10e9, 12e9]])
    inputs = example_project("quillet").inputs

    def made(beam, modulus) -> Oar:
        rig = rig_from_station(
            beam=beam, lock_overhang=0.12, seat_above_water=0.08, lock_above_water=0.30, overlap=0.15,
            leverage_ratio=2.6, round_length=None, grip_centre=inputs.sizes.grip_centre,
            blade_length=inputs.sizes.blade_length,
        )  # fmt: skip
        loom = replace(LOOM, wood=replace(SPRUCE, modulus=modulus, density=430.0 + 0 * modulus))
        return build_oar(inputs.sizes.at(length=rig.length, inboard=rig.inboard), [loom, EDGE, TIP])

    many = made(beams, moduli)
    for row, beam in enumerate(beams[:, 0]):
        for column, modulus in enumerate(moduli[0]):
            one = made(float(beam), float(modulus))
            for quantity in QUANTITIES:
                found = np.broadcast_to(quantity(many), (2, 3))[row, column]
                assert found == pytest.approx(float(quantity(one)), rel=1e-9), quantity.__name__
            found = checks(many, force=400.0, wanted=1.5)[0].ratio[row, column]
            assert found == pytest.approx(checks(one, force=400.0, wanted=1.5)[0].ratio)


def test_an_array_of_forces(oar):
    """An array of forces gives moments and checks force by force."""
    forces = np.array([300.0, 400.0, 500.0])
    assert moment_along(oar, force=forces).max(axis=-1) == pytest.approx(0.6 * forces)  # 0.6 m from grip to pin
    assert checks(oar, force=forces, wanted=1.5)[0].ratio == pytest.approx(
        [checks(oar, force=force, wanted=1.5)[0].ratio for force in forces]
    )


def test_an_array_of_loads(oar):
    """An array of bench loads gives a drop for each."""
    loads = np.array([10.0, 20.0])
    assert bench_drop(oar, load=loads) == pytest.approx([bench_drop(oar, load=10.0), bench_drop(oar, load=20.0)])


# The whole design


@pytest.mark.parametrize(("name", "sides"), [("quillet", ["port"]), ("tumblehod", ["port"])])
def test_examples(name, sides):
    """The examples design as they are, meet their checks, and name every number."""
    made = design(example_project(name).inputs)
    assert list(made.oars) == sides
    assert made.passes
    for line in made.working:
        if line.name in made.values:
            assert made.values[line.name].value == line.result.value
    for value in made.values.values():
        assert (value.value is None) == bool(value.reason)


def test_pair_of_unlike_boards():
    """Where the boards of a pair differ, each oar has its own wood and both are checked."""
    inputs = example_project("quillet").inputs
    loom, *rest = inputs.pieces
    pair = [replace(loom, side=side, board=replace(loom.board, modulus=modulus))
            for side, modulus in (("port", 10e9), ("starboard", 11e9))]  # fmt: skip
    made = design(replace(inputs, pieces=(*pair, *rest)))
    assert list(made.oars) == list(made.checks) == ["port", "starboard"]
    assert bench_drop(made.oars["port"]) > bench_drop(made.oars["starboard"])
    assert made.values["oar.bench_drop"].value == bench_drop(made.oars["port"])
    assert made.values["oar.starboard.bench_drop"].value == bench_drop(made.oars["starboard"])
    ratios = [c.ratio for side in made.checks.values() for c in side if (c.case, c.what) == ("hard start", "bending")]
    assert made.values["strength.least_ratio"].value == pytest.approx(min(ratios))
