"""Every drawing can be read: its words lie on the paper and apart from one another, and it has a text alternative."""

import re
from dataclasses import replace

import numpy as np
import pytest
from conftest import all_sized
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text

from oarkit import design, example_project
from oarkit.draw.paper import WIDTH, spread
from oarkit.sheet.html import drawings

DPI = 100.0
MM = DPI / 25.4  # [pixels]
SLACK = 0.2  # [mm]: a box holds the whole height of a line, its letters leave more than that free
NAMES = ("quillet", "tumblehod", *(f"Bench {number}" for number in range(1, 9)))
BOATS = [(name, display) for name in NAMES for display in ("mm", "ft-in")]
#: Boats that the project file allows, less usual than the examples: an example, and the lines of it that are changed.
UNUSUAL = {
    "an oar of 10 ft": ("quillet", ('length = "2286 mm"', 'length = "10 ft"')),
    "an oar of 1.8 m": ("quillet", ('length = "2286 mm"', 'length = "1800 mm"')),
    "a boat of 500 mm": ("quillet", ('"863.6 mm"        #', '"500 mm"        #')),
    "a low rail": ("quillet", ('rail_above_water = "255 mm"', 'rail_above_water = "120 mm"')),
    "a high wave": ("quillet", ('wave_clearance = "100 mm"', 'wave_clearance = "500 mm"')),
    "a wide gap": ("tumblehod", ('gap = "50.8 mm"', 'gap = "300 mm"')),
    "a short blade": ("quillet", ('blade = { length = "558.8 mm"', 'blade = { length = "300 mm"')),
    "thigh not known": ("quillet", ('stature = "1725 mm"\n', ""), ('thigh_thickness = "160 mm"', "")),
    "all left to be chosen": (
        "quillet", ('lock_overhang = "120.65 mm"', ""), ('overlap = "152.4 mm"', ""), ('length = "2286 mm"', "")
    ),
    "a length from stock": ("quillet", ('length = "2286 mm"', ""), ('round_length = "1 in"', 'round_length = "stock"')),
    "nothing that fits": (
        "tumblehod", ('length = "2209.8 mm"', ""), ("[wanted]", '[limits]\nmost_dip = "5 deg"\n\n[wanted]')
    ),
    "a dock, a coaming and hands ahead": (
        "quillet", ('water = "fresh"', 'coaming_above_rail = "40 mm"\ndock = { height = "600 mm" }'),
        ('upper_hand = "left"', 'upper_hand = "left"\nhands_ahead = "300 mm"\ncatch_limit = "45 deg"'),
    ),
    "a stress far above the strength": ("quillet", ("[wanted]", '[loads]\nhard_start = "1900 N"\n\n[wanted]')),
}  # fmt: skip


def _named(given):
    return given if isinstance(given, str) else ", ".join(given)


@pytest.fixture(scope="module", params=[*BOATS, *UNUSUAL], ids=_named)
def papers(request, benches, changed):
    """The drawings of one boat, each with its words and their boxes, drawn once."""
    if request.param in UNUSUAL:
        of, *changes = UNUSUAL[request.param]
        project = changed(*changes, of=of)
    else:
        name, display = request.param
        project = replace(benches[name] if name in benches else example_project(name), display=display)
    found = design(project.inputs)
    made = drawings(project, found, all_sized(found.oar))
    for paper in made:
        paper.figure.set_dpi(DPI)
        FigureCanvasAgg(paper.figure)
    return [(paper, labels(paper)) for paper in made]


def labels(paper):
    """The words of a drawing with their boxes (left, bottom, right, top) [mm]."""
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
    return [(text.get_text(), np.asarray(text.get_window_extent(renderer).extents) / MM) for text in shown]


def _beyond(axis):
    """Ticks that an axis makes beyond its ends and does not draw."""
    low, high = sorted(axis.get_view_interval())
    return [tick for tick in axis.majorTicks if not low - 1e-9 <= tick.get_loc() <= high + 1e-9]


def test_every_label_lies_on_the_paper(papers):
    """No word is cut off by the edge of its drawing."""
    cut = []
    for paper, found in papers:
        assert len(found) >= 8, paper.title
        for words, box in found:
            if (box[:2] < 0).any() or (box[2:] > (WIDTH, paper.height)).any():
                cut.append((paper.title, words, box.round(1).tolist(), round(paper.height, 1)))
    assert cut == []


def test_no_two_labels_lie_over_each_other(papers):
    """Each word can be read without another over it."""
    colliding = []
    for paper, found in papers:
        for i, (one, a) in enumerate(found):
            for two, b in found[i + 1 :]:
                if min(a[2], b[2]) - max(a[0], b[0]) > SLACK and min(a[3], b[3]) - max(a[1], b[1]) > SLACK:
                    colliding.append((paper.title, one, two))
    assert colliding == []


def test_every_line_lies_on_the_paper(papers):
    """Oars, hull, arrows and fists are whole: nothing that is drawn reaches beyond the paper."""
    cut = []
    for paper, _ in papers:
        for axes in paper.figure.axes:
            if axes.axison:  # a chart's own frame clips its curves
                continue
            for artist in (*axes.lines, *axes.patches):
                drawn = artist.get_transform().transform(artist.get_path().vertices) / MM
                low, high = drawn.min(axis=0), drawn.max(axis=0)
                # [mm]: less than a tenth of any pen
                if (low < -0.01).any() or (high > np.array([WIDTH, paper.height]) + 0.01).any():
                    cut.append((paper.title, type(artist).__name__, low.round(1).tolist(), high.round(1).tolist()))
    assert cut == []


def test_a_curve_stays_within_its_chart(papers):
    """Moments and what the oar can bear lie within the axes of the chart."""
    charts = [paper for paper, _ in papers if paper.title.startswith("Bending moment")]
    assert charts
    for paper in charts:
        axes = next(axes for axes in paper.figure.axes if axes.axison)
        bottom, top = axes.get_ylim()
        left, right = axes.get_xlim()
        curves = [line for line in axes.lines if len(line.get_xdata()) > 2]
        assert curves
        for line in curves:
            assert np.nanmin(line.get_ydata()) >= bottom
            assert np.nanmax(line.get_ydata()) <= top
            assert left <= np.min(line.get_xdata())
            # the tip, in millimetres or in inches
            assert np.max(line.get_xdata()) <= right * (1 + 1e-12)


def test_every_drawing_has_a_text_alternative(papers):
    """Each says in words what it shows, in the reader's units, and no two say the same unless the oars are alike."""
    assert len(papers) >= 4
    for paper, _ in papers:
        assert paper.title.strip()
        assert len(paper.text_alternative) > 40
        assert re.search(r"\d", paper.text_alternative)
        assert not re.search(r"[{}]|nan|None", paper.text_alternative)


def test_every_drawing_is_as_wide_as_the_text(papers):
    """A drawing fits between the margins of A4 and of Letter, so that both print it at 100 %."""
    for paper, _ in papers:
        width, height = paper.figure.get_size_inches() * 25.4
        assert width == pytest.approx(180, abs=1e-9)
        assert height == pytest.approx(paper.height, abs=1e-9)
        assert height <= 240


@pytest.mark.parametrize("name", ["quillet", "tumblehod"])
def test_levels_of_the_section_are_at_their_scale(name):
    """The pin stands its height over the water and half the span from the middle, at 1:N of the paper [mm]."""
    lock, half_span = {"quillet": (300.0, 552.45), "tumblehod": (350.0, 647.7)}[name]
    project = example_project(name)
    found = design(project.inputs)
    made = drawings(project, found, all_sized(found.oar))
    (paper,) = [each for each in made if each.title.startswith("Section abreast of the pins")]
    x, y = paper.at(half_span / 1e3, lock / 1e3)
    circles = [p for p in paper.axes.patches if type(p).__name__ == "Circle"]
    nearest = min(np.hypot(c.center[0] - x, c.center[1] - y) for c in circles)
    assert nearest < 1e-9
    assert (x - paper.origin[0]) * paper.scale == pytest.approx(half_span)
    assert (y - paper.origin[1]) * paper.scale == pytest.approx(lock)


@pytest.mark.parametrize(
    ("wanted", "expected"),
    [
        ([10.0, 30.0, 50.0], [10.0, 30.0, 50.0]),  # far enough apart: left where they are
        ([20.0, 20.0], [18.0, 22.0]),  # one place: half a gap each way
        ([50.0, 20.0], [50.0, 20.0]),  # the order given is kept
        ([0.0, 1.0], [2.0, 6.0]),  # held off the lower end
        ([99.0, 100.0], [94.0, 98.0]),  # and off the upper one
    ],
)
def test_labels_are_spread_a_gap_apart(wanted, expected):
    """Labels go as near as can be to their places, at least 4 mm apart, between 2 and 98 mm."""
    # [mm]: sixty rounds of halving the shortfall leave far less than a hundredth
    assert spread(wanted, 4.0, 2.0, 98.0) == pytest.approx(expected, abs=0.01)


def test_a_dozen_crowded_labels_are_spread_in_order():
    """Labels that all want one place stand in their order, a gap apart, within the ends."""
    placed = spread([50.0] * 12, 4.0, 2.0, 98.0)
    assert placed == sorted(placed)
    # [mm]: spreading stops after sixty rounds, when a tenth may still be wanting
    assert (np.diff(placed) >= 4.0 - 0.1).all()
    assert min(placed) >= 2.0
    assert max(placed) <= 98.0
