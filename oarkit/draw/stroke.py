"""The stroke to scale: both oars at five angles in plan, how the hands pass, and the rower from the side."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from oarkit.design import Design
from oarkit.draw.paper import GREY, INK, PALE, SMALL, WIDTH, WOOD_SOFT, Paper, length_text, spread
from oarkit.draw.side import side_view
from oarkit.project import Project
from oarkit.rig.height import HALF_FIST
from oarkit.stroke.hands import FIST, meeting_angle
from oarkit.stroke.path import SIGN, Side, place_along
from oarkit.stroke.station import Stroke
from oarkit.units import Display

__all__ = ["side_view", "stroke_plan"]

_TALLEST = 234.0  #: a drawing fits a page of A4 and of Letter [mm]
_HEAD, _STRIP, _FOOT = 13.0, 21.0, 11.0  #: over the plan, between plan and hands, and under the hands [mm]
_SIDES: tuple[Side, Side] = ("port", "starboard")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Angles:
    """The five angles that are drawn [rad], and what the middle one is."""

    five: tuple[float, float, float, float, float]
    middle_is: str


def _angles(stroke: Stroke) -> _Angles:
    catch, finish = float(stroke.catch_angle), float(stroke.finish_angle)
    square = finish < 0 < catch
    middle = 0.0 if square else (catch + finish) / 2
    five = (catch, (catch + middle) / 2, middle, (middle + finish) / 2, finish)
    return _Angles(five=five, middle_is="square" if square else "mid-stroke")


def angle_text(angle: float) -> str:
    """A sweep angle in the words of a boat."""
    toward = "bow" if angle > 0 else "stern"
    return f"{abs(math.degrees(angle)):.1f}° to the {toward}"


def _seen(made: Design, side: Side, along: float, sweep: float, dip: float) -> tuple[float, float]:
    """A point of an oar in plan, bow up: to starboard and forward. [m]."""
    rig = made.rig
    place = place_along(
        side=side, along=along, sweep=sweep, dip=dip, span=rig.span, lock_above_water=rig.lock_above_water
    )
    return -float(place.y), float(place.x)


def _is_upper(made: Design, side: Side) -> bool:
    """Whether an oar's hand lies over the other: the left hand of a rower, who faces aft, holds the starboard oar."""
    return side == ("starboard" if made.inputs.station.upper_hand == "left" else "port")


def stroke_plan(project: Project, made: Design) -> Paper | None:
    """Plan of the stroke, bow up: both oars at five angles, and below it, larger, how the hands pass."""
    stroke = made.stroke
    if stroke is None:
        return None
    rig, display, angles = made.rig, project.display, _angles(stroke)
    dip, out = float(rig.dip_in_drive), float(rig.outboard)
    tips = [_seen(made, "starboard", out, sweep, dip) for sweep in angles.five]
    hands = [_seen(made, "starboard", -float(rig.hand_arm), sweep, dip) for sweep in angles.five]
    scale = math.ceil(2 * max(x for x, _ in tips) * 1e3 / (WIDTH - 4))
    high = max(max(y for _, y in tips), max(y for _, y in hands) + 0.30)
    low = min(min(y for _, y in tips), min(y for _, y in hands) - HALF_FIST)
    passing = _passing(made, stroke)
    plan_height = (high - low) * 1e3 / scale
    room = _TALLEST - plan_height - _HEAD - _STRIP - _FOOT - 12
    if passing.touch is None:
        room = min(room, 52.0)  # hands that keep apart need no more
    wide = 30.0 if passing.touch is None else 60.0  # room from the middle to the outer side of a fist [mm]
    detail = max(
        4,
        math.ceil((passing.top - passing.bottom) * 1e3 / room),
        math.ceil((abs(passing.across) / 2 + HALF_FIST) * 1e3 / wide),
    )
    detail_height = max((passing.top - passing.bottom) * 1e3 / detail, 46.0)
    base = _FOOT + detail_height + 12 + _STRIP
    paper = Paper(
        height=base + plan_height + _HEAD,
        scale=scale,
        origin=(WIDTH / 2, base - low * 1e3 / scale),
        title="The stroke in plan, bow up: both oars at five angles, blades in the water",
        text_alternative=_in_words(made, stroke, angles, passing, display),
    )
    _boat(paper, made, display, low, high)
    for side in _SIDES:
        for sweep in angles.five:
            _oar(paper, made, side, sweep, whole=sweep == angles.five[2])
        _paths(paper, made, side, stroke)
    _plan_words(paper, angles, tips, base)
    _hands(paper, made, passing, display, detail, detail_height)
    return paper


def _boat(paper: Paper, made: Design, display: Display, low: float, high: float) -> None:
    """Centreline, rails and pins, with beam and span."""
    rig, half = made.rig, float(made.inputs.station.beam) / 2
    pin = float(rig.span) / 2
    hands = float(rig.hand_arm) * math.cos(float(rig.dip_in_drive))
    assert made.stroke is not None
    fore = max(-hands * math.sin(float(made.stroke.finish_angle)), 0.0) + HALF_FIST
    paper.line([0, 0], [low, high], color=PALE, width=0.6, dashes=(6, 2, 1, 2))
    span_at = float(paper.at(0, fore)[1]) + 3.5
    top = (span_at + 8 - paper.origin[1]) * paper.scale / 1e3
    for side in (-1, 1):
        paper.line([side * half] * 2, [low, top], color=GREY, width=1.2)
    level = paper.origin[1] + 2
    paper.across(-pin, pin, span_at, f"span {length_text(float(rig.span), display, second=False)}", from_y=(level,) * 2)
    words = f"rails {length_text(2 * half, display, second=False)}"
    paper.across(-half, half, span_at + 7.5, words, from_y=(span_at + 8,) * 2)


def _oar(paper: Paper, made: Design, side: Side, sweep: float, *, whole: bool) -> None:
    """One oar in plan: its outline, or its centre line out to the blade; the hand as a circle."""
    oar, rig = made.oars["port"], made.rig
    dip, inboard = float(rig.dip_in_drive), float(rig.inboard)
    order = 4.5 if _is_upper(made, side) else 4.0
    shown = np.ones_like(oar.s, dtype=bool) if whole else oar.s >= float(oar.shape.blade_root)
    along, half = oar.s[shown] - inboard, oar.profile.thickness[shown] / 2
    ends = [_seen(made, side, a, sweep, dip) for a in (-inboard, float(rig.outboard))]
    axis = np.subtract(ends[1], ends[0])
    axis = axis / np.hypot(*axis)
    level = along * math.cos(dip)
    pin = np.array(_seen(made, side, 0.0, sweep, dip))
    x = np.concatenate([pin[0] + level * axis[0] - half * axis[1], (pin[0] + level * axis[0] + half * axis[1])[::-1]])
    y = np.concatenate([pin[1] + level * axis[1] + half * axis[0], (pin[1] + level * axis[1] - half * axis[0])[::-1]])
    if not whole:
        paper.line([end[0] for end in ends], [end[1] for end in ends], color=GREY, width=0.5)
    paper.shape(x, y, fill=WOOD_SOFT, width=0.6, order=order)
    hand = _seen(made, side, -float(rig.hand_arm), sweep, dip)
    paper.circle(hand[0], hand[1], HALF_FIST, fill="white" if whole else "none", order=5)
    paper.circle(pin[0], pin[1], 0.012, fill="white", order=5.5)


def _paths(paper: Paper, made: Design, side: Side, stroke: Stroke) -> None:
    """Paths of the hand and of mid-blade in the drive, with their direction."""
    rig, dip = made.rig, float(made.rig.dip_in_drive)
    for along, color, dashes in ((-float(rig.hand_arm), INK, ()), (float(rig.blade_arm), GREY, (3, 2))):
        places = np.array([_seen(made, side, along, float(sweep), dip) for sweep in stroke.sweep])
        paper.line(places[:, 0], places[:, 1], color=color, width=0.8 if along < 0 else 0.6, dashes=dashes)
        third = len(places) // 3
        x, y = paper.at(places[third, 0], places[third, 1])
        ahead = places[third + 1] - places[third]
        paper.tip(float(x), float(y), (float(ahead[0]), float(ahead[1])), fill=color)


def _plan_words(paper: Paper, angles: _Angles, tips: list[tuple[float, float]], base: float) -> None:
    """Names of the angles, sides, bow, and the scale."""
    names = ("catch", "half way", angles.middle_is, "half way", "finish")
    for at in (0, 4):
        x, y = paper.at(*tips[at])
        slope = max(math.tan(angles.five[4]), 0.0)  # a blade that is still before square at the finish runs downward
        paper.text(
            min(float(x), WIDTH - 22), float(y) + (2.6 if at == 0 else -2.8 - 40 * slope),
            f"{names[at]} {angle_text(angles.five[at])}", ha="center",
        )  # fmt: skip
    end = paper.height - 3.5
    paper.text(3, end, "port", color=GREY)
    paper.text(WIDTH / 2, end, "bow ↑", color=GREY, ha="center")
    paper.text(WIDTH - 3, end, "starboard", color=GREY, ha="right")
    paper.scale_bar(3, base - 8)
    notes = (
        f"whole oar: {angles.middle_is}; half way: {angle_text(angles.five[1])}, {angle_text(angles.five[3])}",
        "circles: fists, in the drive; arrows: ways of hands and blades",
        "rails drawn straight, as far apart as abreast of the pins",
    )
    for row, words in enumerate(notes):
        paper.text(WIDTH - 3, base - 8 - 4.4 * row, words, size=SMALL, color=GREY, ha="right")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Passing:
    """Hands on the recovery, abreast: at which angles off square they touch and stand in line, and what is drawn."""

    dip: float
    touch: float | None  #: fists touch nearer to square than this [rad]
    meet: float  #: centres stand in line here, nil where they do not reach one another [rad]
    across: float  #: centre to centre athwart at square (or nearest to it), positive where they are crossed [m]
    nearest: float  #: sweep angle of that [rad]
    drawn: tuple[tuple[float, str], ...]  #: sweep angles and what happens there
    bottom: float  #: [m]
    top: float


def _passing(made: Design, stroke: Stroke) -> _Passing:
    rig = made.rig
    span, arm, dip = float(rig.span), float(rig.hand_arm), float(rig.dip_in_recovery)
    catch, finish = float(stroke.catch_angle), float(stroke.finish_angle)
    level = arm * math.cos(dip)
    nearest = min(max(0.0, finish), catch)
    across = 2 * level * math.cos(nearest) - span
    meet = float(stroke.meeting_in_recovery)
    touch = None
    if across > -FIST:
        touch = float(meeting_angle(span=span - FIST, hand_arm=arm, dip=dip))
    name = "square" if nearest == 0 else "nearest to square"
    wanted: list[tuple[float, str]] = []
    if touch is not None:
        wanted += [(touch, "fists touch"), (-touch, "fists touch")]
    if meet > 0:
        wanted += [(meet, "centres in line"), (-meet, "centres in line")]
    if 2 * level * math.sin(meet) > FIST or meet == 0:  # else its circles would lie on those in line
        wanted.append((nearest, name))
    drawn = tuple(sorted((angle, words) for angle, words in wanted if finish <= angle <= catch))
    places = [-level * math.sin(angle) for angle, _ in drawn] or [0.0]
    return _Passing(
        dip=dip, touch=touch, meet=meet, across=across, nearest=nearest, drawn=drawn,
        bottom=min(*places, -0.10) - 0.07, top=max(*places, 0.10) + 0.07,
    )  # fmt: skip


def _hands(paper: Paper, made: Design, passing: _Passing, display: Display, scale: int, height: float) -> None:
    """The hands again, larger: where fists touch and where their centres stand in line."""
    plan = paper.scale, paper.origin
    paper.line([8, WIDTH - 8], [_FOOT + height + 11] * 2, color=PALE, width=0.6, model=False)
    middle = (passing.top + passing.bottom) / 2
    paper.scale, paper.origin = scale, (WIDTH / 2, _FOOT + height / 2 - middle * 1e3 / scale)
    paper.line([0, 0], [passing.bottom, passing.top], color=PALE, width=0.6, dashes=(6, 2, 1, 2))
    level = float(made.rig.hand_arm) * math.cos(passing.dip)
    assert made.stroke is not None
    sweep = np.linspace(float(made.stroke.catch_angle), float(made.stroke.finish_angle), 400)
    sweep = sweep[(-level * np.sin(sweep) >= passing.bottom) & (-level * np.sin(sweep) <= passing.top)]
    crossed = float(made.rig.overlap) > 0
    wide = 34.0 * scale / 1e3
    for side in _SIDES:
        places = np.array([_seen(made, side, -float(made.rig.hand_arm), float(a), passing.dip) for a in sweep])
        dashed = crossed and not _is_upper(made, side)
        paper.line(places[:, 0], places[:, 1], width=0.7, color=GREY, dashes=(3, 2) if dashed else ())
        for angle, _ in passing.drawn:
            hand = np.array(_seen(made, side, -float(made.rig.hand_arm), angle, passing.dip))
            end = np.array(_seen(made, side, -float(made.rig.inboard), angle, passing.dip))
            toward = (hand - end) / np.hypot(*(hand - end))
            out = end + toward * abs((wide + SIGN[side] * end[0]) / toward[0])
            paper.line([end[0], out[0]], [end[1], out[1]], color=PALE, width=0.6)
            paper.circle(hand[0], hand[1], HALF_FIST, dashed=dashed, order=5)
            paper.circle(hand[0], hand[1], 0.004, fill=INK, order=5)
    _passing_words(paper, made, passing, display, height)
    paper.scale, paper.origin = plan


def _passing_words(paper: Paper, made: Design, passing: _Passing, display: Display, height: float) -> None:
    """What happens at each angle, led to its hands, and what is drawn."""
    arm, station = float(made.rig.hand_arm), made.inputs.station
    top = _FOOT + height + 6.5
    title = f"Hands on the recovery at 1:{paper.scale:g}, drawn abreast, one neither over nor ahead of the other"
    paper.text(3, top, title, size=SMALL, color=GREY)
    places = [_seen(made, "starboard", -arm, angle, passing.dip) for angle, _ in passing.drawn]
    wanted = [float(paper.at(0, y)[1]) for _, y in places]
    right = WIDTH / 2 + 37
    for (angle, words), (x, y), label in zip(
        passing.drawn, places, spread(wanted, 9.0, _FOOT + 4, _FOOT + height - 4), strict=True
    ):
        edge, level = paper.at(abs(x) + HALF_FIST, y)
        paper.line(
            [float(edge), right - 4, right], [float(level), float(level), label], color=GREY, width=0.5, model=False
        )
        where = "" if angle == 0 else angle_text(angle)
        paper.text(right + 1.5, label + (2.0 if where else 0), words, size=SMALL)
        if where:
            paper.text(right + 1.5, label - 2.0, f"oars {where}", size=SMALL)
    if passing.touch is None:
        half = -passing.across / 2
        level = float(paper.at(0, places[0][1] - HALF_FIST)[1])
        words = length_text(2 * half, display, second=False)
        paper.across(-half, half, level - 5, words, from_y=(level + 2,) * 2)
    notes = _passing_notes(made, passing, display)
    for row, words in enumerate(notes):
        paper.text(3, _FOOT + height / 2 + 4.4 * (len(notes) / 2 - row) - 2.2, words, size=SMALL)
    crossed = float(made.rig.overlap) > 0
    other = "right" if station.upper_hand == "left" else "left"
    foot = f"fists {length_text(FIST, display, second=False)} across"
    if crossed:
        foot += f"; upper hand ({station.upper_hand}) solid, lower ({other}) dashed"
    paper.text(3, 4, f"{foot}; the rower faces aft, down the page", size=SMALL, color=GREY)


def _passing_notes(made: Design, passing: _Passing, display: Display) -> list[str]:
    """Short lines on the meeting of the hands."""
    across = length_text(abs(passing.across), display, second=False)
    at = "square off" if passing.nearest == 0 else "nearest to square"
    if passing.touch is None:
        clear = length_text(-passing.across - FIST, display, second=False)
        return ["The fists do not touch.", f"{at.capitalize()}: centres", f"{across} apart,", f"fists {clear} apart."]
    lines = ["The fists touch within", f"{math.degrees(passing.touch):.1f}° of square."]
    if passing.meet > 0:
        lines += ["Centres pass each other", f"{math.degrees(passing.meet):.1f}° either side of square."]
    crossed = "crossed by" if passing.across > 0 else "apart by"
    lines += [f"{at.capitalize()}: centres", f"{crossed} {across}."]
    return [*lines, "One hand goes over,", "or ahead, or some of both."]


def _in_words(made: Design, stroke: Stroke, angles: _Angles, passing: _Passing, display: Display) -> str:
    rig = made.rig
    level = float(rig.hand_arm) * math.cos(float(rig.dip_in_drive))
    catch, finish = angles.five[0], angles.five[4]
    aft, fore = level * math.sin(catch), -level * math.sin(finish)
    words = (
        f"Plan of the stroke, bow up. The oars sweep {math.degrees(float(stroke.arc)):.1f}°, from {angle_text(catch)} "
        f"at the catch to {angle_text(finish)} at the finish; half way they stand {angle_text(angles.five[1])} and "
        f"{angle_text(angles.five[3])}. Span {length_text(float(rig.span), display)}, rails "
        f"{length_text(float(made.inputs.station.beam), display)} apart. The hands go from "
        f"{_from_pins(aft, 'aft', 'forward', display)} of the pins at the catch to "
        f"{_from_pins(fore, 'forward', 'aft', display)} of them at the finish. On the recovery, hands abreast: "
    )
    return words + " ".join(_passing_notes(made, passing, display))


def _from_pins(distance: float, one: str, other: str, display: Display) -> str:
    return f"{length_text(abs(distance), display)} {one if distance >= 0 else other}"
