"""The drawings of the stroke can be read, stand to scale, and say their numbers in words too."""

import itertools
import math
import re
from dataclasses import replace

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text

from oarkit import design, example_project
from oarkit.draw.curves import clearance_curves
from oarkit.draw.lengths import hand_row, length_chart, limit_rows
from oarkit.draw.paper import SMALL, WIDTH
from oarkit.draw.side import elbow_of, hand_loop, poses
from oarkit.draw.stroke import side_view, stroke_plan

DPI = 100.0
MM = DPI / 25.4  # [pixels]
SLACK = 0.2  # [mm]: a box holds the whole height of a line, its letters leave more than that free
DRAWINGS = (stroke_plan, side_view, clearance_curves, length_chart)
NAMES = ("quillet", "tumblehod", *(f"Bench {number}" for number in range(1, 9)))
BOATS = [(name, display) for name in NAMES for display in ("mm", "ft-in")]
#: Boats less usual than the examples: an example, and the lines of it that are changed.
UNUSUAL = {
    "an oar of 10 ft": ("quillet", ('length = "2286 mm"', 'length = "10 ft"')),
    "an oar of 1.8 m": ("quillet", ('length = "2286 mm"', 'length = "1800 mm"')),
    "a boat of 500 mm": ("quillet", ('"863.6 mm"        #', '"500 mm"        #')),
    "a high wave": ("quillet", ('wave_clearance = "100 mm"', 'wave_clearance = "500 mm"')),
    "a wide gap": ("tumblehod", ('gap = "50.8 mm"', 'gap = "300 mm"')),
    "a pinned lock": ("quillet", ('lock = "feathering"', 'lock = "pinned"')),
    "a wide overlap": ("quillet", ('overlap = "152.4 mm"', 'overlap = "260 mm"')),
    "a short reach": ("quillet", ('mass = "75 kg"', 'mass = "75 kg"\nreach_catch = "150 mm"\nreach_finish = "80 mm"')),
    "a finish before square": (
        "quillet", ('mass = "75 kg"', 'mass = "75 kg"\nreach_catch = "450 mm"\nreach_finish = "-40 mm"'),
    ),
    "a reach beyond the arm": ("quillet", ('mass = "75 kg"', 'mass = "75 kg"\nreach_catch = "560 mm"')),
    "stowed under a thwart": ("quillet", ('overlap = "152.4 mm"', 'overlap = "152.4 mm"\nlongest_stowed = "2 m"')),
    "high locks": (
        "quillet", ('rail_above_water = "255 mm"', 'rail_above_water = "720 mm"'),
        ('length = "2286 mm"', 'length = "3000 mm"'),
    ),
    "thigh not known": ("quillet", ('stature = "1725 mm"\n', ""), ('thigh_thickness = "160 mm"', "")),
}  # fmt: skip


def _named(given):
    return given if isinstance(given, str) else ", ".join(given)


def drawn(project):
    """Every drawing of a project that can be made."""
    made = design(project.inputs)
    papers = [draw(project, made) for draw in DRAWINGS]
    return [paper for paper in papers if paper is not None]


@pytest.fixture(scope="module", params=[*BOATS, *UNUSUAL], ids=_named)
def papers(request, benches, changed):
    """The drawings of one boat, each with its words, their boxes and sizes."""
    if request.param in UNUSUAL:
        of, *changes = UNUSUAL[request.param]
        project = changed(*changes, of=of)
    else:
        name, display = request.param
        project = replace(benches[name] if name in benches else example_project(name), display=display)
    made = drawn(project)
    assert len(made) >= (1 if request.param == "thigh not known" else 4)
    for paper in made:
        paper.figure.set_dpi(DPI)
        FigureCanvasAgg(paper.figure)
    return [(paper, labels(paper)) for paper in made]


def labels(paper):
    """The words of a drawing with their boxes (left, bottom, right, top) [mm] and their size [pt]."""
    renderer = paper.figure.canvas.get_renderer()
    shown = []
    for axes in paper.figure.axes:
        if axes.axison:
            paper.figure.draw_without_rendering()  # places the ticks
            undrawn = {id(tick.label1) for axis in (axes.xaxis, axes.yaxis) for tick in _beyond(axis)}
            shown += [text for text in axes.findobj(Text) if id(text) not in undrawn]
        else:
            shown += axes.texts
    shown = [text for text in shown if text.get_visible() and text.get_text().strip()]
    return [
        (text.get_text(), np.asarray(text.get_window_extent(renderer).extents) / MM, text.get_fontsize())
        for text in shown
    ]


def _beyond(axis):
    """Ticks that an axis makes beyond its ends and does not draw."""
    low, high = sorted(axis.get_view_interval())
    return [tick for tick in axis.majorTicks if not low - 1e-9 <= tick.get_loc() <= high + 1e-9]


def test_every_label_lies_on_the_paper(papers):
    """No word is cut off by the edge of its drawing, and none is smaller than 8 pt."""
    cut = []
    for paper, found in papers:
        assert len(found) >= 8, paper.title
        for words, box, size in found:
            assert size >= SMALL, words
            if (box[:2] < 0).any() or (box[2:] > (WIDTH, paper.height)).any():
                cut.append((paper.title, words, box.round(1).tolist(), round(paper.height, 1)))
    assert cut == []


def test_no_two_labels_lie_over_each_other(papers):
    """Each word can be read without another over it."""
    colliding = []
    for paper, found in papers:
        for i, (one, a, _) in enumerate(found):
            for two, b, _ in found[i + 1 :]:
                if min(a[2], b[2]) - max(a[0], b[0]) > SLACK and min(a[3], b[3]) - max(a[1], b[1]) > SLACK:
                    colliding.append((paper.title, one, two))
    assert colliding == []


def test_every_line_lies_on_the_paper(papers):
    """Nothing that is drawn reaches beyond the paper."""
    cut = []
    for paper, _ in papers:
        for axes in paper.figure.axes:
            if axes.axison:  # a chart's own frame clips its curves
                continue
            for artist in (*axes.lines, *axes.patches):
                inches = artist.get_transform().transform(artist.get_path().vertices) / MM
                low, high = inches.min(axis=0), inches.max(axis=0)
                # [mm]: less than a tenth of any pen
                if (low < -0.01).any() or (high > np.array([WIDTH, paper.height]) + 0.01).any():
                    cut.append((paper.title, type(artist).__name__, low.round(1).tolist(), high.round(1).tolist()))
    assert cut == []


def test_every_drawing_fits_a_page_and_speaks(papers):
    """Each is 180 mm wide and no taller than a page, and says its numbers in words."""
    for paper, _ in papers:
        width, height = paper.figure.get_size_inches() * 25.4
        assert width == pytest.approx(180, abs=1e-9)
        assert height == pytest.approx(paper.height, abs=1e-9)
        assert height <= 240
        assert paper.title.strip()
        assert len(re.findall(r"\d", paper.text_alternative)) > 20
        assert not re.search(r"[{}]|nan|None|\binf\b", paper.text_alternative)


def circles(paper, radius):
    """Centres of the circles of a radius [mm of paper]."""
    found = [p for p in paper.axes.patches if type(p).__name__ == "Circle"]
    return np.array([p.center for p in found if abs(p.radius - radius) < 1e-9])


def nearest(places, x, y):
    return float(np.hypot(places[:, 0] - x, places[:, 1] - y).min())


@pytest.fixture(scope="module")
def made():
    project = example_project("quillet")
    return project, design(project.inputs)


def test_hands_of_the_plan_stand_at_their_angles(made):
    """At the catch a hand is 484.7 mm aft of the pins (its reach), at the finish 270 mm forward, both on their arms."""
    project, of = made
    paper = stroke_plan(project, of)
    fists = circles(paper, 45.0 / paper.scale)
    assert len(fists) == 10  # five angles, two hands; those of the detail are at another scale
    # Quillet: pins 552.45 mm from the middle, hand arm 628.65 - 60 mm; lock 300 + half blade 65.1 + cover 20 mm over
    # a blade arm of 2286 - 628.65 - 279.4 = 1377.95 mm
    pin, arm, sine = 552.45, 568.65, 385.1 / 1377.95
    level = arm * math.sqrt(1 - sine**2)
    for sweep in (of.stroke.catch_angle, of.stroke.finish_angle, 0.0, of.stroke.catch_angle / 2):
        for side in (-1, 1):
            x = side * (pin - level * math.cos(sweep)) / paper.scale + paper.origin[0]
            y = -level * math.sin(sweep) / paper.scale + paper.origin[1]
            assert nearest(fists, x, y) < 1e-6  # [mm]: nothing between but arithmetic
    aft = (paper.origin[1] - fists[:, 1].min()) * paper.scale
    assert aft == pytest.approx(float(of.seated.reach_catch) * 1e3, abs=1e-6)
    assert (fists[:, 1].max() - paper.origin[1]) * paper.scale == pytest.approx(270.0, abs=1e-6)


def test_fists_of_the_detail_touch_where_they_are_said_to(made):
    """Where fists are said to touch, their circles stand one fist apart; centres in line stand over each other."""
    project, of = made
    paper = stroke_plan(project, of)
    found = [p for p in paper.axes.patches if type(p).__name__ == "Circle"]
    scale = max(45.0 / p.radius for p in found if 45.0 / p.radius < paper.scale - 1 and 45.0 / p.radius > 3)
    fists = circles(paper, 45.0 / scale)
    assert round(scale) == pytest.approx(scale)
    rows = {round(float(y), 3) for y in fists[:, 1]}
    apart = sorted(float(np.ptp(fists[abs(fists[:, 1] - y) < 1e-2, 0])) * scale for y in rows)
    # two rows of centres in line, square (2 arms in plan less the span), two rows one fist of 90 mm apart
    sine = (300 - 100 - 65.1) / 1377.95
    square = 2 * 568.65 * math.sqrt(1 - sine**2) - 1104.9
    assert apart == pytest.approx([0.0, 0.0, square, 90.0, 90.0], abs=1e-6)
    assert f"{square:.1f} mm" in paper.text_alternative


def test_upper_hand_is_solid_and_lower_dashed(made):
    """The left hand, which holds the starboard oar, is over: its fists in the detail are solid, the others dashed."""
    project, of = made
    paper = stroke_plan(project, of)
    found = [p for p in paper.axes.patches if type(p).__name__ == "Circle" and 3.5 < 45 / p.radius < paper.scale - 1]
    touching = max(found, key=lambda p: p.center[1]).center[1]
    port, starboard = sorted((p for p in found if abs(p.center[1] - touching) < 1e-6), key=lambda p: p.center[0])
    assert port.get_linestyle() not in ("-", "solid")
    assert starboard.get_linestyle() in ("-", "solid")


def test_blades_of_the_catch_point_to_the_bow(made):
    """Bow up: at the catch the blade is up and the hand down, and the scale is a whole number."""
    project, of = made
    paper = stroke_plan(project, of)
    outlines = [p.get_xy() for p in paper.axes.patches if type(p).__name__ == "Polygon" and len(p.get_xy()) > 20]
    top = max(float(xy[:, 1].max()) for xy in outlines)
    sine = 385.1 / 1377.95
    tip = (2286 - 628.65) * math.sqrt(1 - sine**2) * math.sin(float(of.stroke.catch_angle))
    # [mm of boat]: the tip is 11 mm thick, so a corner stands up to half of that beyond the axis
    assert (top - paper.origin[1]) * paper.scale == pytest.approx(tip, abs=6)
    assert paper.scale == int(paper.scale)


@pytest.mark.parametrize(
    ("shoulder", "hand", "arm", "expected"),
    [
        # 0.49 and 0.51 of an arm of 1 m make a right angle over √(0.49² + 0.51²), here laid level
        ((math.hypot(0.49, 0.51), 0.0), (0.0, 0.0), 1.0, (0.51**2 / math.hypot(0.49, 0.51),
                                                          -0.49 * 0.51 / math.hypot(0.49, 0.51))),
        ((1.0, 0.0), (0.0, 0.0), 1.0, None),  # straight
        ((1.2, 0.0), (0.0, 0.0), 1.0, None),  # out of reach: drawn straight
    ],
)  # fmt: skip
def test_elbow_hangs_below_and_behind(shoulder, hand, arm, expected):
    """The elbow closes the triangle of upper arm and forearm, on the side away from the legs."""
    found = elbow_of(shoulder, hand, arm)
    assert found == (None if expected is None else pytest.approx(expected, abs=1e-12))


def test_rods_of_the_rower_keep_their_lengths(made):
    """Trunk and arm are as long at every moment, and the straight arm of the catch reaches the grip."""
    _, of = made
    for pose in poses(of):
        assert math.dist(pose.hip, pose.shoulder) == pytest.approx(float(of.seated.trunk), abs=1e-12)
        joints = [pose.shoulder, *([pose.elbow] if pose.elbow else []), pose.hand]
        length = sum(math.dist(a, b) for a, b in itertools.pairwise(joints))
        assert length == pytest.approx(float(of.seated.arm), abs=1e-9)
    catch, middle, finish = poses(of)
    assert catch.elbow is None
    assert finish.elbow[0] > finish.hand[0]
    assert catch.shoulder[0] < middle.shoulder[0] < finish.shoulder[0]  # from the stern toward the bow


def test_side_view_stands_to_scale(made):
    """The fists of the drive stand 381.9 mm over the seat at the reaches of catch and finish, bow to the right."""
    project, of = made
    paper = side_view(project, of)
    fists = circles(paper, 45.0 / paper.scale)
    assert len(fists) == 3
    # seat 77 mm and lock 300 mm over the water; the hand rises over the lock by the arm times the sine of the dip
    up = 300 + 568.65 * 385.1 / 1377.95
    assert (fists[:, 1] - paper.origin[1]) * paper.scale == pytest.approx(up, abs=1e-6)
    x = np.sort(fists[:, 0] - paper.origin[0]) * paper.scale
    assert x[[0, 2]] == pytest.approx([-float(of.seated.reach_catch) * 1e3, 270.0], abs=1e-6)
    assert f"seat + {up - 77:.1f} mm" in " ".join(text.get_text() for text in paper.axes.texts)
    assert "bow to the right" in paper.text_alternative
    assert "est. ±" in paper.text_alternative
    assert "160.0 mm, measured" in paper.text_alternative


def test_recovery_lies_below_the_drive(made):
    """The loop of the hand goes back lower than it came."""
    _, of = made
    drive_from, drive_to, back_from, back_to = hand_loop(of)
    assert drive_from[0] < drive_to[0]
    assert back_to[0] < back_from[0]
    assert back_from[1] == pytest.approx(back_to[1])
    assert back_from[1] < drive_from[1]


def panel_curves(paper):
    return [[line for line in axes.lines if len(line.get_xdata()) > 2] for axes in paper.figure.axes if axes.axison]


@pytest.mark.parametrize(("display", "per"), [("mm", 1.0), ("ft-in", 25.4)])
def test_curves_pass_through_the_rig_s_own_clearances(made, display, per):
    """At the project's wave the curves are at the height of the lever: square, feathered, and with a block."""
    project, of = made
    against_wave, against_heel = panel_curves(clearance_curves(replace(project, display=display), of))
    assert len(against_wave) == len(against_heel) == 4
    # C = 223 + 568.65/1377.95 (300 - wave - y) - 45 - 160 - 15 mm, y 65.1 square and 5 feathered
    ratio = 568.65 / 1377.95

    def clear(wave, y, block=0.0):
        return 223 + block + ratio * (300 + block - wave - y) - 220

    for line, y, block in zip(against_wave[:3], (65.1, 5.0, 65.1), (0, 0, 25.0), strict=True):
        waves = np.asarray(line.get_xdata()) * per
        assert waves[[0, -1]] == pytest.approx([0, 400])
        assert np.asarray(line.get_ydata()) * per == pytest.approx(clear(waves, y, block), abs=1e-9)
    for line, y, block in zip(against_heel[:3], (65.1, 5.0, 65.1), (0, 0, 25.0), strict=True):
        heels = np.radians(np.asarray(line.get_xdata()))
        fall = ratio * (552.45 + 1377.95) * np.sin(heels)
        assert np.asarray(line.get_ydata()) * per == pytest.approx(clear(100, y, block) - fall, abs=1e-9)


def test_strikes_are_marked_with_their_numbers(made):
    """Largest waves and heels are said where the curves meet nought, on the drawing and in words."""
    project, of = made
    paper = clearance_curves(project, of)
    words = " ".join(text.get_text() for axes in paper.figure.axes for text in axes.texts)
    ratio = 568.65 / 1377.95
    for y, block in ((65.1, 0.0), (5.0, 0.0), (65.1, 25.0)):
        at_nought = 223 + block + ratio * (300 + block - y) - 220
        heel = math.degrees(math.asin((at_nought - 100 * ratio) / (ratio * (552.45 + 1377.95))))
        for number in (f"{at_nought / ratio:.1f} mm", f"{heel:.1f}°"):
            assert number in words
            assert number in paper.text_alternative


def test_curves_do_not_rely_on_colour(made):
    """Each curve of a panel has its own dashes, and its name beside its end."""
    project, of = made
    paper = clearance_curves(project, of)
    for curves in panel_curves(paper):
        assert len({str(line._dash_pattern) for line in curves}) == len(curves)
    for name in ("square", "feathered", "with block", "over knee", "strike", "tight"):
        assert [text.get_text() for text in paper.axes.texts].count(name) == 2


def test_chart_of_lengths_stands_to_its_axis(made):
    """The line of this oar and the rules' marks stand where the ticks say."""
    project, of = made
    paper = length_chart(project, of)
    ticks = {text.get_text(): text.get_position()[0] for text in paper.axes.texts if text.get_text().isdigit()}
    x1, x2 = ticks["1800"], ticks["2400"]

    def place(length):
        return x1 + (length - 1800) / 600 * (x2 - x1)

    upright = [line for line in paper.axes.lines if line.get_linewidth() > 1.3 and line.get_marker() == "None"]
    assert [line.get_xdata()[0] for line in upright] == pytest.approx([place(2286)])
    marks = [float(line.get_xdata()[0]) for line in paper.axes.lines if line.get_marker() == "D"]
    # half the span x 25/7, and three halves of the span plus 6 in
    for length in (2 * 863.6, 552.45 * 25 / 7, 3 * 552.45 + 152.4):
        assert min(abs(x - place(length)) for x in marks) < 1e-6  # [mm]: nothing between but arithmetic
    bars = [p.get_xy() for p in paper.axes.patches if len(p.get_xy()) == 5]
    general = [xy for xy in bars if abs(xy[:, 0].min() - place(628.65 * 3.5)) < 1e-6]  # 2.5 to 2.65, or to 2.7
    assert sorted(xy[:, 0].max() for xy in general) == pytest.approx([place(628.65 * 3.65), place(628.65 * 3.7)])


def test_limits_of_the_station_follow_the_lever(benches):
    """Bench 6, low locks: the oar's bounds by thigh, dip and hand, from its own heights by hand."""
    of = design(benches["Bench 6"].inputs)
    rows = {row.name: row for row in limit_rows(of, "mm")}
    station, sizes = of.inputs.station, of.inputs.sizes
    lock, seat = station.lock_above_water, station.seat_above_water
    beyond = sizes.blade_length / 2 + float(of.rig.span + of.rig.overlap) / 2
    arm = float(of.rig.span + of.rig.overlap) / 2 - sizes.grip_centre
    needed = 0.045 + 0.015 + of.inputs.rower.body.thigh_thickness.value - (lock - seat)
    for name, y in (("square", sizes.blade_width / 2), ("feathered", 0.005)):
        expected = arm * (lock - station.wave_clearance - y) / needed + beyond
        assert rows[f"clears the thighs, {name}"].high == pytest.approx(expected)
    deep = lock + sizes.blade_width / 2 + 0.020
    assert rows["dip of 20° at most"].low == pytest.approx(deep / math.sin(math.radians(20)) + beyond)
    rise = of.inputs.rower.body.elbow_height.value + 0.100 - (lock - seat)
    hand = hand_row(of, "mm")
    assert hand.marks == pytest.approx((arm * deep / rise + beyond,))
    assert hand.low == pytest.approx(arm * deep / (rise + 0.040) + beyond)  # 140 mm over the elbow


def test_a_limit_that_is_none_is_said_in_words(made):
    """Quillet's locks stand so high that no oar strikes the thighs: the row says so; one that stows says its length."""
    _, of = made
    assert {row.words for row in limit_rows(of, "mm") if row.name.startswith("clears")} == {"no limit"}
    stowed = replace(of, inputs=replace(of.inputs, station=replace(of.inputs.station, longest_stowed=2.0)))
    row = limit_rows(stowed, "mm")[-1]
    assert (row.name, row.words) == ("stows in the boat", "up to 2000.0 mm")


def test_nothing_is_drawn_of_what_is_not_known(changed):
    """Without body and thigh there is no stroke, no rower and no curve, and the chart of lengths still stands."""
    project = changed(('stature = "1725 mm"\n', ""), ('thigh_thickness = "160 mm"', ""))
    of = design(project.inputs)
    assert [draw(project, of) is None for draw in DRAWINGS] == [True, True, True, False]
    assert "elbow not known" in length_chart(project, of).text_alternative
