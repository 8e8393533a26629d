"""The rower from the side, to scale: seat, legs and foot brace, the trunk and arm at three moments, the hand's path."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from oarkit.design import Design
from oarkit.draw.paper import GREY, INK, PALE, SMALL, WATER, WIDTH, WOOD_HARD, Paper, length_text, spread
from oarkit.project import Project
from oarkit.rig.height import HALF_FIST
from oarkit.rower.body import Size
from oarkit.rower.sizes import KNEE_JOINT
from oarkit.stroke.arc import stops_at
from oarkit.units import Display

UPPER_ARM = 0.49  #: acromion to elbow over acromion to grip centre, from the means of ANSUR II (men; women 0.495)
HEAD_UP, HEAD = 0.205, 0.110  #: shoulder to the middle of the head, and its radius, ANSUR II's means rounded [m]
_LABELS = 58.0  #: width kept free for the labels of the heights [mm]
_NAMES = ("catch", "middle", "finish")
_DASHES: tuple[tuple[float, ...], ...] = ((), (5, 2), (1, 1.6))
Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pose:
    """The rower at one moment: x forward of the pin line, z above the water. [m]"""

    trunk_angle: float  #: from upright, positive toward the stern [rad]
    hip: Point
    shoulder: Point
    elbow: Point | None  #: None where the arm is straight
    head: Point
    hand: Point


def elbow_of(shoulder: Point, hand: Point, arm: float) -> Point | None:
    """Where the elbow goes, below and behind the line from shoulder to hand; None where the arm is straight."""
    upper, fore = UPPER_ARM * arm, (1 - UPPER_ARM) * arm
    away = math.dist(shoulder, hand)
    if away >= arm * (1 - 1e-6):
        return None
    along = (away**2 + upper**2 - fore**2) / (2 * away)
    aside = math.sqrt(max(upper**2 - along**2, 0.0))
    ux, uz = (hand[0] - shoulder[0]) / away, (hand[1] - shoulder[1]) / away
    both = [(shoulder[0] + along * ux - s * aside * uz, shoulder[1] + along * uz + s * aside * ux) for s in (1, -1)]
    return max(both, key=lambda place: place[0] - place[1])


def poses(made: Design) -> tuple[Pose, Pose, Pose] | None:
    """The rower at the catch, half way through the arc and at the finish; None where the body is not known."""
    seated, stroke, rig, posture = made.seated, made.stroke, made.rig, made.inputs.rower.posture
    if stroke is None or seated.trunk is None or seated.arm is None or seated.hip_x is None:
        return None
    seat = float(rig.lock_above_water) - float(rig.lock_above_seat)
    level = float(rig.hand_arm) * math.cos(float(rig.dip_in_drive))
    hand_z = seat + float(rig.hand_height_in_drive)
    hip = (float(seated.hip_x), seat + float(posture.hip_above_seat))
    catch, finish = float(stroke.catch_angle), float(stroke.finish_angle)
    first, last = float(posture.trunk_at_catch), float(posture.trunk_at_finish)

    def pose(lean: float, sweep: float) -> Pose:
        trunk, neck = float(seated.trunk or 0.0), float(seated.trunk or 0.0) + HEAD_UP
        shoulder = (hip[0] - trunk * math.sin(lean), hip[1] + trunk * math.cos(lean))
        hand = (-level * math.sin(sweep), hand_z)
        return Pose(
            trunk_angle=lean, hip=hip, shoulder=shoulder, hand=hand,
            elbow=elbow_of(shoulder, hand, float(seated.arm or 0.0)),
            head=(hip[0] - neck * math.sin(lean), hip[1] + neck * math.cos(lean)),
        )  # fmt: skip

    return pose(first, catch), pose((first + last) / 2, (catch + finish) / 2), pose(last, finish)


def hand_loop(made: Design) -> list[Point]:
    """Corners of the hand's path: catch and finish of the drive, then finish and catch of the recovery. [m]."""
    stroke, rig = made.stroke, made.rig
    assert stroke is not None
    ends = (float(stroke.catch_angle), float(stroke.finish_angle))
    corners = []
    for dip, order in ((float(rig.dip_in_drive), ends), (float(rig.dip_in_recovery), ends[::-1])):
        z = float(rig.lock_above_water) + float(rig.hand_arm) * math.sin(dip)
        corners += [(-float(rig.hand_arm) * math.cos(dip) * math.sin(sweep), z) for sweep in order]
    return corners


def side_view(project: Project, made: Design) -> Paper | None:
    """The rower from the side at catch, middle and finish, seen from starboard with the bow to the right."""
    three = poses(made)
    if three is None:
        return None
    rig, display, seated = made.rig, project.display, made.seated
    seat = float(rig.lock_above_water) - float(rig.lock_above_seat)
    heels = seat - float(made.inputs.station.seat_above_heels)
    xs = [x for pose in three for x in (pose.head[0] - HEAD, pose.head[0] + HEAD, pose.hand[0] - HALF_FIST)]
    xs += [pose.elbow[0] for pose in three if pose.elbow] + [float(made.inputs.station.seat_edge_to_pins) + 0.32]
    if seated.heel_x is not None:
        xs.append(float(seated.heel_x) - 0.05)
    left, right = min(xs) - 0.03, max(xs) + 0.03
    hands = [z + HALF_FIST for _, z in hand_loop(made)]
    top = max(*(pose.head[1] + HEAD for pose in three), *hands, *(pose.elbow[1] for pose in three if pose.elbow))
    bottom = min(heels - 0.04, -0.03)
    scale = math.ceil((right - left) * 1e3 / (WIDTH - _LABELS - 10))
    notes = _body_notes(made, display)
    foot = 30 + 4.4 * len(notes)
    paper = Paper(
        height=foot + (top - bottom) * 1e3 / scale + 18,
        scale=scale,
        origin=(_LABELS + 8 - left * 1e3 / scale, foot - bottom * 1e3 / scale),
        title="The rower from the side at catch, middle and finish",
        text_alternative=_in_words(made, three, display),
    )
    _station(paper, made, left, right, bottom)
    _legs(paper, made)
    for pose, dashes in zip(three, _DASHES, strict=True):
        _pose(paper, pose, dashes)
    _loop(paper, made)
    _names(paper, three)
    _heights(paper, made, display, foot)
    _lengths(paper, made, display, foot)
    for row, words in enumerate(notes):
        paper.text(3, 4 + 4.4 * (len(notes) - 1 - row), words, size=SMALL, color=GREY)
    paper.text(3, paper.height - 3.5, "seen from starboard, looking to port: bow to the right", size=SMALL, color=GREY)
    paper.scale_bar(3, 15 + 4.4 * len(notes))
    return paper


def _station(paper: Paper, made: Design, left: float, right: float, bottom: float) -> None:
    """Water, pin line and lock, seat."""
    rig, edge = made.rig, float(made.inputs.station.seat_edge_to_pins)
    seat, lock = float(rig.lock_above_water) - float(rig.lock_above_seat), float(rig.lock_above_water)
    paper.shape(
        np.array([left, right, right, left]), np.array([0, 0, bottom, bottom]), fill=WATER, edge="none", order=0
    )
    paper.line([left, right], [0, 0], color=GREY, width=0.9)
    paper.line([0, 0], [bottom, lock + 0.10], color=GREY, width=0.6, dashes=(6, 2, 1, 2))
    paper.circle(0, lock, 0.018, fill="white", order=5)
    paper.shape(
        edge + np.array([0, 0.25, 0.25, 0]), seat + np.array([0, 0, -0.022, -0.022]), fill=WOOD_HARD, width=0.8, order=3
    )


def _legs(paper: Paper, made: Design) -> None:
    """Leg outline, its two rods, and the foot brace."""
    legs, seated = made.seated.legs, made.seated
    if legs is None or seated.heel_x is None:
        return
    seat = float(made.rig.lock_above_water) - float(made.rig.lock_above_seat)
    sole, heel = seat - float(made.inputs.station.seat_above_heels), float(seated.heel_x)
    knee = (float(legs.knee_x), seat + float(legs.knee_top) - KNEE_JOINT)
    hip = (float(legs.hip_x), seat + float(seated.hip_z or 0.0))
    edge = float(made.inputs.station.seat_edge_to_pins)
    outline = [
        (hip[0] + 0.10, seat), (hip[0] + 0.07, seat + 0.10), (hip[0], seat + float(legs.thigh_top)),
        (knee[0], knee[1] + KNEE_JOINT), (float(legs.toe_x), max(seat + float(legs.toe_top), sole + 0.08)),
        (heel, sole), (heel + 0.06, sole), (knee[0], knee[1] - KNEE_JOINT), (edge, seat),
    ]  # fmt: skip
    x, z = np.array(outline).T
    paper.shape(x, z, fill="#eeeeee", edge=GREY, width=0.7, order=1)
    paper.line([hip[0], knee[0], heel], [hip[1], knee[1], sole], width=1.0)
    for place in (hip, knee):
        paper.circle(*place, 0.012, fill="white", order=4)
    high = max(seat + float(legs.toe_top), sole + 0.08)
    paper.shape(
        heel - np.array([0, 0.022, 0.022, 0]), np.array([sole - 0.02, sole - 0.02, high, high]), fill=WOOD_HARD, order=3
    )
    paper.line([heel - 0.03, heel + 0.16], [sole, sole], color=GREY, width=1.0, dashes=(2, 2))


def _pose(paper: Paper, pose: Pose, dashes: Sequence[float]) -> None:
    """Trunk and arm as rods, head and fist as circles."""
    arm = [pose.shoulder, *([pose.elbow] if pose.elbow else []), pose.hand]
    for rod, width in (([pose.hip, pose.shoulder], 1.8), (arm, 1.2)):
        paper.line([x for x, _ in rod], [z for _, z in rod], width=width, dashes=dashes)
    turn = np.linspace(0, 2 * math.pi, 73)
    paper.line(pose.head[0] + HEAD * np.cos(turn), pose.head[1] + HEAD * np.sin(turn), width=1.0, dashes=dashes)
    for joint in (pose.shoulder, *([pose.elbow] if pose.elbow else [])):
        paper.circle(*joint, 0.010, fill="white", order=4)
    paper.circle(*pose.hand, HALF_FIST, fill="none", order=4)


def _loop(paper: Paper, made: Design) -> None:
    """The closed path of the hand, drive above and recovery below, with arrows."""
    corners = hand_loop(made)
    closed = [*corners, corners[0]]
    paper.line([x for x, _ in closed], [z for _, z in closed], color=INK, width=0.9)
    for (x0, z0), (x1, z1), share in ((corners[0], corners[1], 0.80), (corners[2], corners[3], 0.20)):
        x, z = paper.at(x0 + share * (x1 - x0), z0 + share * (z1 - z0))
        paper.tip(float(x), float(z), (x1 - x0, z1 - z0), size=2.6)


def _names(paper: Paper, three: tuple[Pose, ...]) -> None:
    """Catch, middle and finish over the heads, each with its trunk's angle."""
    line = paper.height - 9.5
    heads = [float(paper.at(pose.head[0], 0)[0]) for pose in three]
    words = [f"trunk {_short_lean(pose.trunk_angle)}" for pose in three]
    styles = ("solid", "dashed", "dotted")
    order = spread(heads, 25.0, _LABELS, WIDTH - 12)
    for pose, x, name, said, style in zip(three, order, _NAMES, words, styles, strict=True):
        px, pz = paper.at(pose.head[0], pose.head[1] + HEAD)
        paper.line([x, float(px)], [line - 5.6, float(pz)], color=PALE, width=0.6, model=False)
        paper.text(x, line, f"{name} ({style})", size=SMALL, ha="center")
        paper.text(x, line - 4, said, size=SMALL, ha="center", color=GREY)


def _heights(paper: Paper, made: Design, display: Display, foot: float) -> None:
    """The ladder of heights at the left edge, each line led to its label."""
    rig, station, legs = made.rig, made.inputs.station, made.seated.legs
    seat = float(rig.lock_above_water) - float(rig.lock_above_seat)

    def over(height: float) -> str:
        return f"seat + {length_text(height, display, second=False)}"

    drive, recovery = float(rig.hand_height_in_drive), float(rig.hand_height_in_recovery)
    custom = ", assumed" if "seat_above_heels" in station.assumed else ""
    levels = [
        (seat + drive, f"hand, drive: {over(drive)}"),
        (seat + recovery, f"hand, recovery: {over(recovery)}"),
        (float(rig.lock_above_water), f"lock: {over(float(rig.lock_above_seat))}"),
        (seat, f"seat: water + {length_text(seat, display, second=False)}"),
        (0.0, "water, boat loaded"),
        (
            seat - float(station.seat_above_heels),
            f"heels{custom}: seat − {length_text(float(station.seat_above_heels), display, second=False)}",
        ),
    ]
    if legs is not None:
        levels.append((seat + float(legs.knee_top), f"knee, {_knee_known(made)}: {over(float(legs.knee_top))}"))
    levels.sort(key=lambda level: level[0])
    wanted = [float(paper.at(0, z)[1]) for z, _ in levels]
    for (z, words), label in zip(levels, spread(wanted, 4.6, foot - 4, paper.height - 20), strict=True):
        level = float(paper.at(0, z)[1])
        paper.line([_LABELS - 4, _LABELS, _LABELS + 9], [label, level, level], color=GREY, width=0.5, model=False)
        paper.text(_LABELS - 5, label, words, size=SMALL, ha="right")


def _lengths(paper: Paper, made: Design, display: Display, foot: float) -> None:
    """Seat edge to pins, and to the brace, under the rower."""
    station, seated = made.inputs.station, made.seated
    edge = float(station.seat_edge_to_pins)
    seat = float(paper.at(0, float(made.rig.lock_above_water) - float(made.rig.lock_above_seat))[1])
    mark = ", assumed" if "seat_edge_to_pins" in station.assumed else ""
    y = foot - 8
    paper.across(
        0, edge, y, f"seat edge to pins{mark} {length_text(edge, display, second=False)}", from_y=(y + 7, seat - 2)
    )
    if seated.heel_x is not None and seated.brace_from_seat_edge is not None:
        bend = math.degrees(float(made.inputs.rower.posture.knee_flexion))
        found = "" if station.brace_from_seat_edge is not None else f", knee bent {bend:.0f}°:"
        words = f"seat edge to brace{found} {length_text(float(seated.brace_from_seat_edge), display, second=False)}"
        paper.across(float(seated.heel_x), edge, y - 8, words, from_y=(y + 8, y + 0.5))


def _knee_known(made: Design) -> str:
    body = made.inputs.rower.body
    sizes = [body.thigh_length, body.shank_length]
    return "measured" if all(size is not None and size.measured for size in sizes) else "est."


def _known(size: Size, display: Display) -> str:
    value = length_text(float(size.value), display, second=False)
    return f"{value}, measured" if size.measured else (
        f"{value}, est. ± {length_text(float(size.spread), display, second=False)}"
    )  # fmt: skip


def _body_sizes(made: Design, display: Display) -> dict[str, str]:
    body = made.inputs.rower.body
    names = {
        "shoulder over seat": body.shoulder_height, "arm to grip": body.arm_length, "hip to knee": body.thigh_length,
        "knee to sole": body.shank_length, "thigh thickness": body.thigh_thickness, "foot": body.foot_length,
    }  # fmt: skip
    return {name: _known(size, display) for name, size in names.items() if size is not None}


def _body_notes(made: Design, display: Display) -> list[str]:
    """The rower's sizes, two to a line, and how they are drawn."""
    sizes = [f"{name} {said}" for name, said in _body_sizes(made, display).items()]
    lines = ["; ".join(sizes[at : at + 2]) for at in range(0, len(sizes), 2)]
    beyond = _beyond_arm(made)
    cut = made.stroke is not None and made.stroke.catch_angle >= stops_at(made.inputs.station.catch_limit) - 1e-9
    if made.stroke is not None and cut and beyond <= 0.001:
        lines.append(f"catch cut at {math.degrees(float(made.stroke.catch_angle)):.1f}°: the arm does not straighten")
    if beyond > 0.001:
        lines.append(f"the reach as measured is {length_text(beyond, display, second=False)} beyond the arm as drawn")
    return [
        *lines,
        "fists, joints and head in outline; trunk a stiff rod from the hip; elbow drawn in the plane of the arm",
    ]


def _beyond_arm(made: Design) -> float:
    """By how much a measured reach goes beyond the straight arm, at the worst moment. [m]."""
    three = poses(made) or ()
    return max((math.dist(p.shoulder, p.hand) - float(made.seated.arm or 0.0) for p in three), default=0.0)


def _in_words(made: Design, three: tuple[Pose, ...], display: Display) -> str:
    rig, station, seated = made.rig, made.inputs.station, made.seated
    words = (
        "The rower from the side, seen from starboard with the bow to the right, at the catch (solid), in the middle "
        "(dashed) and at the finish (dotted), trunk at "
        + ", ".join(_lean(pose.trunk_angle) for pose in three)
        + f". Hand {length_text(float(rig.hand_height_in_drive), display)} above the seat in the drive and "
        f"{length_text(float(rig.hand_height_in_recovery), display)} on the recovery; lock "
        f"{length_text(float(rig.lock_above_seat), display)} above it. Seat edge to pins "
        f"{length_text(float(station.seat_edge_to_pins), display)}."
    )
    if seated.legs is not None and seated.brace_from_seat_edge is not None:
        words += (
            f" Foot brace {length_text(float(seated.brace_from_seat_edge), display)} aft of the seat's edge, knee "
            f"{length_text(float(seated.legs.knee_top), display)} above the seat ({_knee_known(made)})."
        )
    sizes = "; ".join(f"{name} {said}" for name, said in _body_sizes(made, display).items())
    return f"{words} Sizes: {sizes}."


def _short_lean(angle: float) -> str:
    return f"{abs(round(math.degrees(angle), 1)):g}° {'aft' if angle >= 0 else 'fore'}"


def _lean(angle: float) -> str:
    return f"{abs(math.degrees(angle)):.1f}° toward the {'stern' if angle >= 0 else 'bow'}"
