"""The drawings of the oar itself: every piece shows where it lies, to scale, and charts show the numbers they tell."""

import re
from dataclasses import replace

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text
from scipy.integrate import quad
from shapely import unary_union

from oarkit import example_project
from oarkit.draw import oar_bent, oar_ratios, oar_strength
from oarkit.draw.oar import along_middle, glue_lines, oar_views, on_face
from oarkit.draw.oar_bent import bent_cases, bent_chart
from oarkit.draw.oar_ratios import ratio_chart
from oarkit.draw.oar_sections import drawn_places, hatches, pieces_in_section, wood_key
from oarkit.draw.oar_sizing import sizing_chart
from oarkit.draw.oar_stations import marked_stations
from oarkit.draw.oar_strength import closest, nearest_bending, strength_chart
from oarkit.draw.paper import WIDTH
from oarkit.oar.build import Piece, build_oar
from oarkit.oar.measured import MeasuredShape, Station
from oarkit.oar.planed import PlanedShape
from oarkit.strength.all_cases import all_cases
from oarkit.strength.cases import bench_test, hard_start
from oarkit.strength.hard_start import Check
from oarkit.strength.sizing import LoomSize
from oarkit.tables import grain_table, species_table
from oarkit.wood.board import Board, wood_of_board
from oarkit.wood.species import find_species

DPI = 100.0
MM = DPI / 25.4  # [pixels]
SLACK = 0.2  # [mm]: a box holds the whole height of a line, its letters leave more than that free


def _wood(name, grain="along"):
    return wood_of_board(
        Board(species=find_species(name, species_table()), grain_slope=1 / 15, grain=grain), grain_table=grain_table()
    )


SPRUCE, ASH, CEDAR, WALNUT = (
    _wood(name) for name in ("Sitka spruce", "ash, white", "cedar, western redcedar", "walnut, black")
)
ASH_ACROSS = _wood("ash, white", grain="across")
LOOM = Piece(kind="loom", wood=SPRUCE)


def _shape(name, length, inboard):
    return example_project(name).inputs.sizes.at(length=length, inboard=inboard)


QUILLET = _shape("quillet", 2.286, 0.62865)
TUMBLEHOD = _shape("tumblehod", 2.2098, 0.6223)
EDGE, FACE = Piece(kind="edge", wood=ASH, size=0.006), Piece(kind="face", wood=ASH_ACROSS, size=0.0015)
EVERY_KIND = (
    LOOM,
    Piece(kind="strip", wood=CEDAR, size=0.012, stop=1.9),
    Piece(kind="strip", wood=ASH, size=0.004, at=0.014, stop=1.6),
    Piece(kind="cheek", wood=ASH, size=0.006, start=0.52, stop=0.78),
    replace(FACE, start=1.8),
    Piece(kind="spline", wood=WALNUT, size=0.020),
    EDGE,
    Piece(kind="tip", wood=ASH, size=0.012),
)


def _rows():
    """An oar with an eight-sided inboard whose section jumps at the blade root."""
    loom = [
        Station(s=s, thickness=size, form=form)
        for s, size, form in ((0.0, 0.034, "round"), (0.13, 0.035, "round"), (0.18, 0.048, "eight"),
                              (0.45, 0.047, "eight"), (0.52, 0.046, "round"), (0.80, 0.0455, "round"))
    ]  # fmt: skip
    loom += [
        Station(s=s, thickness=t, width=w, form="ellipse") for s, t, w in ((1.2, 0.041, 0.038), (1.75, 0.032, 0.028))
    ]
    blade = (
        (1.75, 0.030, 0.040, 0.010),
        (1.9, 0.020, 0.12, 0.008),
        (2.1, 0.013, 0.15, 0.006),
        (2.32, 0.009, 0.14, 0.005),
    )
    return (*loom, *(Station(s=s, thickness=t, width=w, edge=e, form="blade") for s, t, w, e in blade))


def _many_rows():
    loom = [Station(s=0.05 * i, thickness=0.046 - 0.0003 * i, form="round") for i in range(36)]
    blade = [Station(s=1.8 + 0.05 * i, thickness=0.030 - 0.0015 * i, width=0.05 + 0.005 * i, edge=0.006, form="blade")
             for i in range(1, 12)]  # fmt: skip
    return (*loom, *blade)


def _measured(rows):
    return MeasuredShape(stations=rows, inboard=0.65, grip_centre=0.06, leather_start=0.55, leather_length=0.25)


OARS = {
    "quillet": build_oar(QUILLET, [LOOM, EDGE, Piece(kind="tip", wood=ASH_ACROSS, size=0.020)]),
    "tumblehod": build_oar(TUMBLEHOD, [LOOM]),
    "every kind of piece": build_oar(QUILLET, EVERY_KIND),
    "faces over edges": build_oar(QUILLET, [LOOM, EDGE, FACE]),
    "faces under edges": build_oar(QUILLET, [LOOM, FACE, EDGE]),
    "measured": build_oar(_measured(_rows()), [LOOM, Piece(kind="tip", wood=ASH, size=0.020)]),
    "measured at many places": build_oar(_measured(_many_rows()), [LOOM]),
    "planed": build_oar(PlanedShape(base=TUMBLEHOD, thickness=0.002, width=0.001, start=1.0, stop=1.6), [LOOM]),
}
SHORT_BITS = build_oar(QUILLET, [LOOM, Piece(kind="cheek", wood=ASH, size=0.005, start=0.20, stop=0.30), EDGE])


def _sizes(*rows):
    return tuple(
        LoomSize(lock=lock, neck_thickness=0.03, neck_width=0.027, mass=mass, index=index, ratio=1.5, fits=fits,
                 decides=())
        for index, mass, lock, fits in rows
    )  # fmt: skip


SIZES = _sizes((0.030, 1.75, 0.0515, True), (0.040, 1.57, 0.048, True), (0.050, 1.44, 0.045, True),
               (0.0505, 1.43, 0.045, True), (0.060, 1.30, 0.043, False))  # fmt: skip


def _check(case, what, ratio, *, part="loom", breaks=True, plane="stroke"):
    return Check(case=case, what=what, part=part, wood="Spruce, Sitka", place=0.62865, stress=1e6, strength=ratio * 1e6,
                 ratio=ratio, ok=ratio >= 1.5, breaks=breaks, plane=plane)  # fmt: skip


CHECKS = (
    _check("hard start", "bending", 1.72), _check("cruise", "bending", 4.6), _check("cruise", "glue line", 64.0),
    _check("stepped on where it is weakest", "bending at the blade root", 0.62, part="spline"),
    _check("hard start", "bending", 2.9, part="edge"), _check("hard start", "bearing, bare", 1.1, breaks=False),
    _check("cruise", "bearing, bare", 1.6, breaks=False), _check("stepped on", "bending", 0.9, plane="lateral"),
    _check("tip knocked", "tip corner", 0.11, part="blade"),
)  # fmt: skip


def _drawings(oar, display):
    return [
        oar_views(oar, display),
        strength_chart(oar, all_cases(oar).made, display, safety=1.5),
        bent_chart(oar, display, force=400.0, of="starboard oar"),
        sizing_chart(oar, SIZES, display, wanted_index=0.05),
        ratio_chart(CHECKS, 1.5, display),
    ]


@pytest.fixture(scope="module", params=[(n, d) for n in OARS for d in ("mm", "ft-in")], ids=", ".join)
def papers(request):
    """The drawings of one oar, each with its words and their boxes."""
    name, display = request.param
    made = _drawings(OARS[name], display)
    for paper in made:
        paper.figure.set_dpi(DPI)
        FigureCanvasAgg(paper.figure)
    return [(paper, _labels(paper)) for paper in made]


def _labels(paper):
    """The words of a drawing with their boxes (left, bottom, right, top) [mm]."""
    paper.figure.draw_without_rendering()  # places the ticks
    renderer = paper.figure.canvas.get_renderer()
    shown = []
    for axes in paper.figure.axes:
        undrawn = {id(tick.label1) for axis in (axes.xaxis, axes.yaxis) for tick in _beyond(axis)}
        found = axes.findobj(Text) if axes.axison else axes.texts
        shown += [text for text in found if id(text) not in undrawn]
    shown = [text for text in shown if text.get_visible() and text.get_text().strip()]
    return [(text.get_text(), np.asarray(text.get_window_extent(renderer).extents) / MM) for text in shown]


def _beyond(axis):
    """Ticks that an axis makes beyond its ends and does not draw."""
    low, high = sorted(axis.get_view_interval())
    return [tick for tick in axis.majorTicks if not low - 1e-9 <= tick.get_loc() <= high + 1e-9]


def test_words_lie_on_the_paper_and_apart(papers):
    """No word is cut off by the edge of its drawing, and none lies over another."""
    wrong = []
    for paper, found in papers:
        assert len(found) >= 8, paper.title
        for i, (one, a) in enumerate(found):
            if (a[:2] < 0).any() or (a[2:] > (WIDTH, paper.height)).any():
                wrong.append((paper.title, one, a.round(1).tolist()))
            for two, b in found[i + 1 :]:
                if min(a[2], b[2]) - max(a[0], b[0]) > SLACK and min(a[3], b[3]) - max(a[1], b[1]) > SLACK:
                    wrong.append((paper.title, one, two))
    assert wrong == []


def test_lines_lie_on_the_paper(papers):
    """Views, sections, hatches and bars are whole; charts hold their curves."""
    wrong = []
    for paper, _ in papers:
        for axes in paper.figure.axes:
            for artist in (*axes.lines, *axes.patches):
                drawn = artist.get_transform().transform(artist.get_path().vertices) / MM
                low, high = drawn.min(axis=0), drawn.max(axis=0)
                # [mm]: less than a tenth of any pen
                if not ((low > -0.01).all() and (high < np.array([WIDTH, paper.height]) + 0.01).all()):
                    wrong.append((paper.title, type(artist).__name__, low.round(1).tolist(), high.round(1).tolist()))
    assert wrong == []


def test_drawings_say_what_they_show(papers):
    """Each has a title and a text alternative with numbers, is as wide as the text, and fits a page."""
    for paper, _ in papers:
        assert paper.title.strip()
        assert len(paper.text_alternative) > 100
        assert re.search(r"\d", paper.text_alternative)
        assert not re.search(r"[{}]|nan|None|inf\b", paper.text_alternative)
        assert paper.height <= 240
        assert paper.svg().count("<svg") == 1


# Sections


def test_strips_in_a_square_are_what_its_outline_leaves_them():
    """12 mm of cedar in a square of 48 mm are 576 mm2; ash 12 to 16 mm out has its rim cut by the eased corners."""
    found = pieces_in_section(OARS["every kind of piece"], 0.30, side=-1)
    assert found[1].area == pytest.approx(576e-6)
    radius = 0.048 * np.sqrt(0.04 / (4 - np.pi))  # four corners take 4 % of the square
    flat = 0.024 - radius
    ash, _ = quad(lambda z: 2 * (flat + np.sqrt(radius**2 - max(z - flat, 0.0) ** 2)), 0.012, 0.016, points=[flat])
    # corners are drawn in chords of 1.5 degrees
    assert found[2].area == pytest.approx(ash, rel=1e-4)
    assert found[2].bounds[1::2] == pytest.approx((0.012, 0.016))  # aft is up
    assert sum(own.area for own in found) == pytest.approx(0.96 * 48**2 * 1e-6, rel=1e-4)


def test_faces_are_their_thickness_over_the_width():
    """Two faces of 1.5 mm on a blade 130.2 mm wide are 390.6 mm2, square to the blade's middle plane."""
    found = pieces_in_section(build_oar(QUILLET, [LOOM, FACE]), 2.0, side=-1)
    assert found[1].area == pytest.approx(2 * 1.5 * 130.2e-6)


def test_edges_and_faces_lie_in_the_order_they_are_laid():
    """Two edges of 6 mm are trapezia from edge to 6 mm in; faces laid later take their 1.5 mm off each side of them."""
    u = (2.0 - QUILLET.blade_root) / QUILLET.blade_length
    edge, centre = 9 + (6 - 9) * u, 31.75 + (11 - 31.75) * (u / 0.75) ** 0.8
    inner = centre + (edge - centre) * (65.1 - 6) / 65.1
    both = 2 * 6 * (edge + inner) / 2 * 1e-6
    over = pieces_in_section(OARS["faces under edges"], 2.0, side=-1)
    under = pieces_in_section(OARS["faces over edges"], 2.0, side=-1)
    assert over[2].area == pytest.approx(both)
    assert under[1].area == pytest.approx(both - 4 * 6 * 1.5e-6)
    assert over[1].area == pytest.approx(2 * 1.5 * (130.2 - 12) * 1e-6)


@pytest.mark.parametrize("name", OARS)
def test_sections_hold_the_wood_that_is_weighed(name):
    """Area of each piece in the drawing is its mass per metre over its density, and no two pieces overlap."""
    oar = OARS[name]
    for at in range(3, len(oar.s) - 3, 17):
        if oar.middle[at] == oar.s[at]:  # in the middle of its segment, or of a jump, which is neither side
            continue
        side = 1 if oar.middle[at] > oar.s[at] else -1
        found = pieces_in_section(oar, float(oar.s[at]), side=side)
        for piece, own, mass in zip(oar.pieces, found, oar.laminate.piece_mass, strict=True):
            # chords of 1.5 degrees miss up to a thousandth of a slice at the rim
            assert own.area == pytest.approx(mass[at] / piece.wood.density, rel=1e-3, abs=2e-8)
        assert unary_union(found).area == pytest.approx(sum(own.area for own in found), rel=1e-9)


@pytest.mark.parametrize("oar", [*OARS.values(), SHORT_BITS], ids=[*OARS, "a short cheek between stations"])
def test_every_piece_shows_in_a_section(oar):
    """Sections are added until each piece has been seen once."""
    shown = [pieces_in_section(oar, place.s, side=place.side) for place in drawn_places(oar)]
    for number in range(len(oar.pieces)):
        assert max(section[number].area for section in shown) > 1e-7
    assert len(shown) <= 10


def test_a_piece_between_two_stations_is_drawn_where_it_lies():
    """A cheek from 200 to 300 mm passes no station of the table, so its section is named by its place."""
    (place,) = [place for place in drawn_places(SHORT_BITS) if not place.letter]
    assert 0.20 < place.s < 0.30
    assert f"at {place.s * 1e3:.1f} mm" in oar_views(SHORT_BITS, "mm").text_alternative


def test_woods_are_told_apart_without_colour():
    """Each wood has lines of its own, the loom's none, and one laid across is crossed."""
    marks = hatches(OARS["every kind of piece"])
    assert len(marks) == 5
    assert len({(mark.angles, mark.step) for mark in marks.values()}) == 5
    assert marks[wood_key(SPRUCE)].angles == ()
    assert len(marks[wood_key(ASH_ACROSS)].angles) == 2
    assert all(len(marks[wood_key(wood)].angles) == 1 for wood in (ASH, CEDAR, WALNUT))


# Views


def test_faces_laid_later_hide_edges_and_earlier_ones_do_not():
    """Edges of 6 mm under faces are hidden all over; over them, all in sight."""
    seen, hidden = on_face(OARS["faces over edges"])
    assert seen[1].area == pytest.approx(0, abs=1e-9)
    assert hidden[1].area > 0.006 * 0.5
    seen, hidden = on_face(OARS["faces under edges"])
    assert hidden[2].area == 0
    assert seen[2].area > 0.006 * 0.5
    assert seen[1].intersection(seen[2]).area == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("name", OARS)
def test_face_and_cut_are_filled_once(name):
    """What is seen fills the outline of the face, and the cut that of the middle, with nothing twice."""
    oar = OARS[name]
    for found, size in ((on_face(oar)[0], oar.profile.width), (along_middle(oar), oar.profile.thickness)):
        whole = np.sum(np.diff(oar.s) * (size[1:] + size[:-1]) / 2)
        assert sum(own.area for own in found) == pytest.approx(whole, rel=1e-6)
        assert unary_union(found).area == pytest.approx(whole, rel=1e-6)


def test_the_cut_along_the_middle_is_at_the_sizes_of_its_pieces():
    """12 mm of cedar up to 1900 mm is 0.0228 m2, in the middle; two faces of 1.5 mm from 1800 mm end at the spline."""
    found = along_middle(OARS["every kind of piece"])
    assert found[1].area == pytest.approx(0.012 * 1.9)
    assert found[1].bounds == pytest.approx((0, -0.006, 1.9, 0.006))
    spline_from = 2.286 - 0.25 * 0.5588
    assert found[4].area == pytest.approx(2 * 0.0015 * (spline_from - 1.8), rel=1e-9)
    assert found[7].bounds[0::2] == pytest.approx((2.286 - 0.012, 2.286))


def test_glue_lines_are_dashed_behind_cheeks_and_end_at_the_tip_piece():
    """The cedar's joints, 6 mm off the middle, are seen but for the cheeks from 520 to 780 mm and past the neck."""
    lines = [(s, seen) for s, z, seen in glue_lines(OARS["every kind of piece"]) if np.allclose(z, 0.006)]
    assert [(round(float(s[0]), 5), round(float(s[-1]), 5), seen) for s, seen in lines] == [
        (0.0, 0.52, True), (0.78, 1.7272, True), (0.52, 0.78, False), (1.7272, 1.9, False)
    ]  # fmt: skip
    faces = [s for s, z, _ in glue_lines(OARS["every kind of piece"]) if s[0] >= 1.8 - 1e-9]
    assert faces
    assert max(float(s[-1]) for s in faces) == pytest.approx(2.286 - 0.012)


def test_views_and_sections_are_at_their_scales():
    """Quillet's oar of 2286 mm at 1:14 is 163.3 mm long; the square of 48 mm at 1:1.5 is 32 mm wide."""
    paper = oar_views(OARS["quillet"], "mm")
    wide = [np.ptp(line.get_xdata()) for line in paper.axes.lines if len(line.get_xdata()) > 40]
    assert max(wide) == pytest.approx(2286 / 14)
    assert any(size == pytest.approx(48 / 1.5) for size in wide)
    assert "1:14" in "".join(text.get_text() for text in paper.axes.texts)


# Stations


def test_stations_of_a_measured_oar_are_the_rows_of_its_table():
    """Every row has its letter and its own sizes, both at the jump; pin, leather and mid-blade stand between."""
    rows, places = _rows(), marked_stations(OARS["measured"])
    measured = [place for place in places if "measured" in place.what]
    told = np.array([(p.s, p.thickness, p.width) for p in measured])
    # [m]: exact but for the micrometre by which a place stands off a jump
    assert told == pytest.approx(np.array([(row.s, row.thickness, row.wide) for row in rows]), abs=1e-8)
    assert [p.edge for p in measured if p.edge] == pytest.approx([row.edge for row in rows if row.edge], abs=1e-8)
    assert [p.letter for p in places] == list("ABCDEFGHIJKLMNO")
    assert [p.s for p in places] == sorted(p.s for p in places)
    others = {p.what.split(",")[0]: p.s for p in places if p.what.split(",")[0] != "measured"}
    assert others == pytest.approx({
        "handle end": 0, "leather starts": 0.55, "pin line": 0.65, "leather ends": 0.80, "blade root": 1.75,
        "mid-blade": 2.035, "tip": 2.32,
    })  # fmt: skip
    assert "eight-sided" in places[2].what


def test_letters_go_on_after_z():
    """Station 27 is AA."""
    letters = [place.letter for place in marked_stations(OARS["measured at many places"])]
    assert letters[25:28] == ["Z", "AA", "AB"]
    assert len(set(letters)) == len(letters)


def test_a_planed_oar_has_the_stations_of_the_drawn_one():
    """Letters and places stay; 2 mm are off the thickness half-way to the neck, and nothing at the pin."""
    before, after = marked_stations(OARS["tumblehod"]), marked_stations(OARS["planed"])
    assert [(p.letter, p.what, p.s) for p in before] == [(p.letter, p.what, p.s) for p in after]
    off = {p.what: p.thickness - q.thickness for p, q in zip(before, after, strict=True)}
    assert off["1/2 way to the neck"] == pytest.approx(0.002)
    assert off["pin line"] == pytest.approx(0)


# Charts


def test_a_hard_start_comes_closest_in_the_lock():
    """Quillet's loom of 46 mm under 400 N on 568.65 mm: 32 M/(pi d^3) against the strength of the spruce."""
    near = closest(OARS["quillet"], hard_start(OARS["quillet"], force=400.0))
    moment = 400 * 0.56865
    borne = SPRUCE.strength * np.pi * 0.046**3 / 32
    assert (near.place, near.moment) == pytest.approx((0.62865, moment))
    assert (near.borne, near.ratio) == pytest.approx((borne, borne / moment), rel=1e-9)


def test_dots_of_the_strength_chart_stand_on_the_nearest_load():
    """They stand at its place, one on its line and one on the thick line, where it has come closest."""
    oar = OARS["quillet"]
    cases = all_cases(oar).made
    paper = strength_chart(oar, cases, "mm", safety=1.5)
    axes = next(axes for axes in paper.figure.axes if axes.axison)
    (dots,) = [line for line in axes.lines if line.get_marker() == "o"]
    near = nearest_bending([(closest(oar, case), case) for case in cases if case.plane == "stroke"])
    assert dots.get_xdata() == pytest.approx([near.place * 1e3] * 2)
    assert dots.get_ydata() == pytest.approx([near.moment, near.borne])
    assert near.ratio == pytest.approx(near.borne / near.moment)
    every = [closest(oar, case).ratio for case in cases if case.plane == "stroke" and not np.any(case.axial)]
    assert near.ratio == min(every)
    thick, thin = axes.lines[:2]
    assert thick.get_linewidth() > 3 * thin.get_linewidth()
    assert thick.get_ydata() == pytest.approx(1.5 * np.asarray(thin.get_ydata()))


def test_loads_left_out_of_the_strength_chart_are_named():
    """Ten loads are more than can be told apart; the two furthest from breaking are told in words."""
    oar = OARS["quillet"]
    paper = strength_chart(oar, all_cases(oar).made, "mm", safety=1.5)
    words = " ".join(text.get_text() for text in paper.axes.texts)
    assert "not drawn: cruise, bench test at the tip" in words
    assert (
        len({(line.get_color(), tuple(line._dash_pattern[1] or ())) for line in paper.figure.axes[1].lines[2:10]}) == 8
    )


def test_bent_oars_are_drawn_at_scale_times_the_told_factor():
    """The drawn drop is the deflection over the scale times a round factor, to the last of the paper's places."""
    oar = OARS["quillet"]
    paper = bent_chart(oar, "mm", force=400.0)
    (note,) = [text.get_text() for text in paper.axes.texts if "times as large" in text.get_text()]
    scale, larger = (float(number) for number in re.findall(r"1:(\d+), deflections (\d+)", note)[0])
    assert larger in oar_bent.FACTORS
    curves = [line for line in paper.axes.lines if len(line.get_xdata()) == len(oar.s)]
    for one, line in zip(bent_cases(oar, force=400.0), curves, strict=True):
        assert line.get_ydata()[0] - line.get_ydata()[-1] == pytest.approx(
            (one.bent.deflection[-1] - one.bent.deflection[0]) * 1e3 / scale * larger
        )
        assert one.outboard + one.inboard + one.shear == pytest.approx(1)
        assert one.at_tip > one.at_middle > 0


def test_a_bench_test_bends_as_the_hard_start_does():
    """Both bend the oar alike, so their drops stand as their loads: 98.07 N to 400 N times the ratio of the arms."""
    oar = OARS["quillet"]
    pulled, hung, _ = bent_cases(oar, force=400.0)
    arms = (0.62865 - 0.06) / (2.286 - 0.2794 - 0.62865)
    assert hung.at_middle / pulled.at_middle == pytest.approx(98.0665 / (400 * arms))
    assert hung.outboard == pytest.approx(pulled.outboard)
    assert hung.load == pytest.approx(abs(bench_test(oar).forces[0]))


def test_sizing_chart_marks_what_misses_and_what_is_wanted():
    """Four looms stand on the curve, filled; the one that misses is hollow and off it; each is named by its lock."""
    paper = sizing_chart(OARS["quillet"], SIZES, "mm", wanted_index=0.05)
    axes = next(axes for axes in paper.figure.axes if axes.axison)
    dots = [line for line in axes.lines if line.get_marker() == "o"]
    assert [line.get_markerfacecolor() == "white" for line in dots] == [False] * 4 + [True]
    (curve,) = [line for line in axes.lines if len(line.get_xdata()) == 4]
    assert list(curve.get_xdata()) == [0.030, 0.040, 0.050, 0.0505]
    assert any(list(line.get_xdata()) == [0.05, 0.05] for line in axes.lines)
    words = [text.get_text() for text in paper.axes.texts]
    assert [word for word in words if re.fullmatch(r"[\d.]+ mm", word)] == [
        "51.5 mm", "48.0 mm", "45.0 mm", "45.0 mm", "43.0 mm"
    ]  # fmt: skip
    assert {"this oar", "wanted 0.050"} <= set(words)
    assert any("hollow" in word for word in words)


def test_sizing_chart_tells_thirty_seconds_of_an_inch():
    """A builder's step in inches is 1/32, so a lock of 1 23/32 in is told as such."""
    paper = sizing_chart(OARS["quillet"], _sizes((0.05, 1.4, 55 / 32 * 0.0254, True)), "ft-in")
    assert '1 23/32"' in [text.get_text() for text in paper.axes.texts]
    assert not any("hollow" in text.get_text() for text in paper.axes.texts)


def test_ratios_are_sorted_and_told_once():
    """The worst stands first, each way of breaking once a load, dents once and last; the scale goes by factor."""
    paper = ratio_chart(CHECKS, 1.5, "mm")
    told = [text.get_text() for text in paper.axes.texts if re.match(r"[\d.]+ at ", text.get_text())]
    assert told == [f"{ratio} at 628.7 mm" for ratio in ("0.11", "0.62", "0.90", "1.72", "4.60", "64.00", "1.10")]
    assert oar_ratios._across(4) - oar_ratios._across(2) == pytest.approx(oar_ratios._across(2) - oar_ratios._across(1))
    assert "hard start, bending: edge" not in paper.text_alternative
    assert "stepped on, edgewise, bending: loom" in paper.text_alternative


def test_more_lines_than_styles_are_still_told_apart():
    """Seven black, and six grey that are dashed all, as the line of the wanted ratio is thin and solid."""
    styles = oar_strength._styles([False] * 7 + [True] * 6)
    assert len(set(styles)) == 13
    assert all(dashes for _, _, dashes in styles[7:])
