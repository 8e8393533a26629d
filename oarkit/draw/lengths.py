"""Why the oar is as long as it is: rules of thumb, limits of this station, and what would be chosen, side by side."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from oarkit.design import Design
from oarkit.draw.paper import GREY, INK, PALE, SMALL, WIDTH, WOOD_HARD, WOOD_SOFT, Paper, length_text
from oarkit.project import Project
from oarkit.rig.height import BLADE_COVER, FEATHERED_HALF_WIDTH
from oarkit.rig.ranges import HAND_OVER_ELBOW
from oarkit.rig.rules import BY_BOAT
from oarkit.rig.waves import blade_arm_for_hand, longest_blade_arm
from oarkit.units import Display, feet_inches

_LEFT, _RIGHT = 54.0, 137.0  #: ends of the axis on the paper [mm]
_ROW = 5.0  #: from one row to the next [mm]
_NEAR = 0.30  #: a limit so near to the other lengths is taken onto the axis [m]
_FOOT = 20.0  #: under the last row, for the axis [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the chart: a bar from low to high, either without end, marks, and what is said of it. [m]"""

    name: str
    words: str = ""
    low: float | None = None  #: None for no bar, "-inf" for no lower end
    high: float | None = None
    marks: tuple[float, ...] = ()
    limit: bool = False


def _said(low: float, high: float, display: Display) -> str:
    first, last = (length_text(value, display, second=False) for value in (low, high))
    if math.isclose(low, high):
        return first
    return f"{first.removesuffix(' mm')} to {last}"


def rule_rows(made: Design, display: Display) -> tuple[list[Row], list[Row]]:
    """A row for each rule of thumb: those that go by the boat, and the ratios by use."""
    rows = [
        Row(
            name=rule.name, words=_said(float(rule.low), float(rule.high), display), low=float(rule.low),
            high=float(rule.high), marks=(float(rule.low),) if math.isclose(rule.low, rule.high) else (),
        )
        for rule in made.rules
    ]  # fmt: skip
    return rows[:BY_BOAT], rows[BY_BOAT:]


def limit_rows(made: Design, display: Display) -> list[Row]:
    """A row for each limit that this station, with this inboard, sets to the length of the oar."""
    station, choice = made.inputs.station, made.choice
    half_width = float(made.inputs.sizes.blade_width) / 2
    rows = []
    if made.inputs.rower.body.thigh_thickness is not None:
        ways = [("square", half_width)]
        if station.lock == "feathering":
            ways.append(("feathered", FEATHERED_HALF_WIDTH))
        rows += [_thighs(made, name, half, display) for name, half in ways]
    dip = float(choice.limits.dip)
    shortest = _length(made, (float(made.rig.lock_above_water) + half_width + BLADE_COVER) / math.sin(dip))
    rows.append(
        Row(
            name=f"dip of {math.degrees(dip):.0f}° at most",
            words=f"from {length_text(shortest, display, second=False)}",
            low=shortest,
            high=math.inf,
            limit=True,
        )
    )
    if station.longest_stowed is not None:
        stows = float(station.longest_stowed)
        words = f"up to {length_text(stows, display, second=False)}"
        rows.append(Row(name="stows in the boat", words=words, low=-math.inf, high=stows, limit=True))
    return rows


def _length(made: Design, blade_arm: float) -> float:
    """Oar of a blade arm, the inboard kept as it is. [m]."""
    return blade_arm + float(made.inputs.sizes.blade_length) / 2 + float(made.rig.inboard)


def _thighs(made: Design, name: str, half_height: float, display: Display) -> Row:
    rig, thigh = made.rig, made.inputs.rower.body.thigh_thickness
    assert thigh is not None
    arm = float(
        longest_blade_arm(
            hand_arm=float(rig.hand_arm), lock_above_water=float(rig.lock_above_water),
            lock_above_seat=float(rig.lock_above_seat), half_height=half_height,
            wave_clearance=float(made.inputs.station.wave_clearance), thigh_thickness=float(thigh.value),
        )
    )  # fmt: skip
    row = f"clears the thighs, {name}"
    if arm == math.inf:
        return Row(name=row, words="no limit", low=-math.inf, high=math.inf, limit=True)
    longest = _length(made, arm)
    if arm <= float(made.inputs.sizes.blade_length) / 2:
        return Row(name=row, words="no oar does", limit=True)
    words = f"up to {length_text(longest, display, second=False)}"
    return Row(name=row, words=words, low=-math.inf, high=longest, limit=True)


def hand_row(made: Design, display: Display) -> Row:
    """Oars that put the hand from the lowest to the highest comfortable height, and in their middle."""
    rig, elbow = made.rig, made.inputs.rower.body.elbow_height
    name = f"{length_text(HAND_OVER_ELBOW[0], display, second=False).removesuffix(' mm')} to " + (
        f"{length_text(HAND_OVER_ELBOW[1], display, second=False)} over elbow"
    )
    if elbow is None:
        return Row(name=name, words="elbow not known", limit=True)
    low, high = HAND_OVER_ELBOW
    longest, middle, shortest = (
        _length(
            made,
            float(
                blade_arm_for_hand(
                    hand_arm=float(rig.hand_arm), lock_above_water=float(rig.lock_above_water),
                    blade_width=float(made.inputs.sizes.blade_width), hand_height=float(elbow.value) + over,
                    lock_above_seat=float(rig.lock_above_seat),
                )
            ),
        )
        for over in (low, (low + high) / 2, high)
    )  # fmt: skip
    if shortest == math.inf:
        return Row(name=name, words="lock too high", limit=True)
    if middle == math.inf:
        words = f"from {length_text(shortest, display, second=False)}"
        return Row(name=name, words=words, low=shortest, high=math.inf, limit=True)
    words = _said(shortest, longest, display) if longest < math.inf else f"from {_said(shortest, shortest, display)}"
    return Row(name=name, words=words, low=shortest, high=longest, marks=(middle,), limit=True)


def length_chart(project: Project, made: Design) -> Paper:
    """Lengths of the oar by every rule of thumb, the limits of this station, and what would be chosen."""
    display, length = project.display, float(made.rig.length)
    by_boat, by_use = rule_rows(made, display)
    limits, chosen = limit_rows(made, display), _chosen_rows(made, display)
    groups = (
        ("rules of thumb that go by the boat", by_boat),
        ("ratios, with this oar's inboard", by_use),
        ("what this station allows", limits),
        ("hands easy in the drive", [hand_row(made, display)]),
        (_chosen_heading(made), chosen),
    )
    count = sum(len(rows) + 1.4 for _, rows in groups)
    height = _FOOT + _ROW * count + 12
    rules = [end for row in (*by_boat, *by_use) for end in (row.low or 0.0, row.high or 0.0)]
    near = [*rules, length, *(mark for row in chosen for mark in row.marks)]
    ends = [end for row in limits for end in (row.low, row.high) if end is not None]
    near += [end for end in ends if min(near) - _NEAR < end < max(near) + _NEAR]
    low, high = min(near) - 0.05, max(near) + 0.05
    scale = (high - low) * 1e3 / (_RIGHT - _LEFT)
    paper = Paper(
        height=height,
        scale=scale,
        origin=(_LEFT - low * 1e3 / scale, 0),
        title="Why this length: rules of thumb, limits of this station, and this oar",
        text_alternative=_in_words(made, groups, display),
    )
    _axis(paper, low, high, display, height)
    here = float(paper.at(length, 0)[0])
    paper.line([here, here], [_FOOT - 1, height - 7], width=1.4, model=False)
    words = f"this oar {length_text(length, display)}"
    paper.text(min(max(here, 30), WIDTH - 30), height - 4, words, ha="center")
    y = height - 12
    for heading, rows in groups:
        paper.text(3, y, heading, size=SMALL, color=GREY, backed=True)
        y -= _ROW
        for row in rows:
            _row(paper, row, y, low, high)
            y -= _ROW
        y -= 0.4 * _ROW
    return paper


def _chosen_heading(made: Design) -> str:
    if made.choice.fits:
        return "what would be chosen" + (", blade feathered" if made.choice.feathered else "")
    return "what falls short least"


def _chosen_rows(made: Design, display: Display) -> list[Row]:
    found = made.choice.chosen
    passing = "overlap" if found.overlap >= 0 else "gap"
    name = f"{passing} {length_text(abs(found.overlap), display, second=False)}"
    rows = [Row(name=name, words=length_text(found.length, display, second=False), marks=(found.length,), limit=True)]
    others = sorted({round(other.length, 6) for other in made.choice.runners_up} - {round(found.length, 6)})
    if others:
        words = _said(others[0], others[-1], display)
        rows.append(Row(name="the next best", words=words, marks=tuple(others)))
    return rows


def _axis(paper: Paper, low: float, high: float, display: Display, height: float) -> None:
    step = 0.2 if display == "mm" else 0.1524
    while (high - low) / step > 7:
        step *= 2
    y = _FOOT - 1
    paper.line([_LEFT, _RIGHT], [y, y], width=0.8, model=False)
    for tick in np.arange(math.ceil(low / step), math.floor(high / step) + 1) * step:
        x = float(paper.at(tick, 0)[0])
        paper.line([x, x], [y - 1.2, y], width=0.8, model=False)
        paper.line([x, x], [y, height - 9], width=0.4, color=PALE, model=False)
        words = f"{tick * 1e3:.0f}" if display == "mm" else feet_inches(float(tick))
        paper.text(x, y - 3.4, words, size=SMALL, ha="center")
    unit = " [mm]" if display == "mm" else ""
    paper.text((_LEFT + _RIGHT) / 2, y - 8, f"length of the oar{unit}", size=SMALL, ha="center")
    notes = (
        "station and hands too with this oar's inboard; arrow: the bar goes on; diamond: one length; circle: next best"
    )
    paper.text(3, 4, notes, size=SMALL, color=GREY)


def _row(paper: Paper, row: Row, y: float, low: float, high: float) -> None:
    """Name, bar and marks, value."""
    paper.text(_LEFT - 2, y, row.name, size=SMALL, ha="right")
    paper.text(_RIGHT + 3, y, row.words, size=SMALL)
    if row.low is not None and row.high is not None:
        start, stop = max(row.low, low), min(row.high, high)
        left, right = float(paper.at(start, 0)[0]), float(paper.at(stop, 0)[0])
        if start < stop:
            fill = WOOD_HARD if row.limit else WOOD_SOFT
            paper.bar(left, right, y, 2.2, fill=fill)
        if row.low < low:
            paper.tip(_LEFT - 1, y, (-1, 0), size=1.8)
        if row.high > high:
            paper.tip(_RIGHT + 2, y, (1, 0), size=1.8)
    for mark in row.marks:
        if low <= mark <= high:
            _mark(paper, float(paper.at(mark, 0)[0]), y, hollow=row.low is None and not row.limit)


def _mark(paper: Paper, x: float, y: float, *, hollow: bool) -> None:
    kind = "o" if hollow else "D"
    paper.axes.plot([x], [y], kind, color=INK, markersize=4, markerfacecolor="white" if hollow else INK, zorder=5)


def _in_words(made: Design, groups: tuple[tuple[str, list[Row]], ...], display: Display) -> str:
    parts = [f"This oar is {length_text(float(made.rig.length), display)} long."]
    for heading, rows in groups:
        parts.append(f"{heading.capitalize()}: {'; '.join(f'{row.name}, {row.words}' for row in rows)}.")
    return " ".join(parts)
