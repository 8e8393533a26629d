"""The rowing station to scale: the section abreast of the pins with its heights, and the plan at mid-stroke."""

from __future__ import annotations

import math

import numpy as np

from oarkit.design import Design
from oarkit.draw.paper import (
    GREY,
    INK,
    PALE,
    SMALL,
    TEXT,
    WATER,
    WIDTH,
    WOOD_HARD,
    WOOD_SOFT,
    Paper,
    length_text,
    spread,
)
from oarkit.project import Project
from oarkit.rig.height import BLADE_COVER, CLOTHING, HALF_FIST
from oarkit.units import Display
from oarkit.working import Array

_LABELS = 58.0  #: width kept free for the labels of the heights [mm]
_LEVELS = 9  #: heights that may have to be labelled, one above the other


def _oar_outline(made: Design, *, face: bool) -> tuple[Array, Array]:
    """Half sizes of the oar against the distance outboard of the pin line, on the blade's face or its edge."""
    oar = made.oars["port"]
    size = oar.profile.width if face else oar.profile.thickness
    return oar.s - float(made.rig.inboard), size / 2


def _placed_oar(made: Design, *, dip: float, face: bool, pin: tuple[float, float]) -> tuple[Array, Array]:
    """Outline of an oar turned down by its dip about the pin, out to the right."""
    along, half = _oar_outline(made, face=face)
    x = np.concatenate([along, along[::-1]])
    y = np.concatenate([half, -half[::-1]])
    return pin[0] + x * math.cos(dip) + y * math.sin(dip), pin[1] - x * math.sin(dip) + y * math.cos(dip)


def section_view(project: Project, made: Design) -> Paper:
    """Section abreast of the pins: one side, with the oar in the drive and on the recovery, and every height."""
    rig, file, display = made.rig, project.file, project.display
    span, water_to_lock = float(rig.span), float(rig.lock_above_water)
    seat = water_to_lock - float(rig.lock_above_seat)
    dips = float(rig.dip_in_drive), float(rig.dip_in_recovery), float(rig.dip_in_recovery_feathered)
    right = span / 2 + float(rig.outboard) * max(math.cos(dip) for dip in dips) + 0.04
    inner = span / 2 - float(rig.inboard) - 0.05
    scale = math.ceil((right - inner) * 1e3 / (WIDTH - _LABELS - 2))
    heels = file.boat.seat_above_heels
    floor = min(seat - (heels or 0.0), 0.0) - 0.10
    deep = -float(rig.outboard) * math.sin(dips[0]) + water_to_lock - 0.10
    bottom = min(floor, deep)
    pin = (span / 2, water_to_lock)
    placed = [
        _placed_oar(made, dip=dip, face=face, pin=pin) for dip, face in zip(dips, (True, True, False), strict=True)
    ]
    top = max(float(y.max()) for _, y in placed)
    outer = max(float(y[x > span / 2].max()) for x, y in placed)
    height = max((top - bottom) * 1e3 / scale + 18, (outer - bottom) * 1e3 / scale + 29, 17 + 4.6 * _LEVELS)
    paper = Paper(
        height=height,
        scale=scale,
        origin=(_LABELS - inner * 1e3 / scale, 15 - bottom * 1e3 / scale),
        title="Section abreast of the pins, looking forward: starboard oar",
        text_alternative=_section_in_words(made, display),
    )
    _water(paper, right, bottom)
    _hull(paper, project, made, floor)
    for (x, y), dashed in ((placed[2], True), (placed[1], False), (placed[0], False)):
        paper.shape(
            x, y, fill="none" if dashed else WOOD_SOFT, dashed=dashed, width=0.7, order=4, edge=GREY if dashed else INK
        )
    paper.circle(*pin, 0.014, fill="white", order=5)
    for dip in dips[:2]:
        hand = (span / 2 - float(rig.hand_arm) * math.cos(dip), water_to_lock + float(rig.hand_arm) * math.sin(dip))
        paper.circle(*hand, HALF_FIST, fill="white", order=5)
        paper.circle(*hand, 0.006, fill=INK, order=6)
    _heights(paper, project, made, seat, heels)
    _at_blade(paper, made, dips, pin, display)
    paper.scale_bar(2, 11.5)
    return paper


def _water(paper: Paper, right: float, bottom: float) -> None:
    left = (_LABELS - paper.origin[0]) * paper.scale / 1e3
    paper.shape(
        np.array([left, right, right, left]), np.array([0, 0, bottom, bottom]), fill=WATER, edge="none", order=0
    )
    paper.line([left, right], [0, 0], color=GREY, width=0.9)


def _hull(paper: Paper, project: Project, made: Design, floor: float) -> None:
    """Hull in outline (its shape is not known, so dashed), rail, bracket, seat, heels and thighs."""
    boat, rig = project.file.boat, made.rig
    half = boat.beam_at_station / 2
    seat = float(rig.lock_above_water) - float(rig.lock_above_seat)
    rail_top = boat.rail_above_water if boat.rail_above_water is not None else float(rig.lock_above_water) - 0.045
    t = np.linspace(0, math.pi / 2, 40)
    keel = floor - 0.01
    left = (_LABELS - paper.origin[0]) * paper.scale / 1e3
    hull_x, hull_y = half * np.sin(t) ** 0.55, keel + (rail_top - keel) * (1 - np.cos(t))
    paper.line([left, *hull_x], [keel, *hull_y], color=GREY, width=0.9, dashes=(5, 2.5))
    paper.line(
        [0, 0],
        [keel - 0.03, (paper.height - 1 - paper.origin[1]) * paper.scale / 1e3],
        color=PALE,
        width=0.6,
        dashes=(6, 2, 1, 2),
    )
    thickness = boat.rail.thickness if boat.rail else 0.019
    depth = boat.rail.depth if boat.rail else 0.038
    paper.shape(
        np.array([half - thickness, half, half, half - thickness]),
        np.array([rail_top, rail_top, rail_top - depth, rail_top - depth]),
        fill=WOOD_HARD,
        order=3,
    )
    pin = float(rig.span) / 2
    paper.line([min(half - thickness, pin), max(half, pin)], [rail_top + 0.004] * 2, width=2.0)
    paper.line([pin, pin], [rail_top, float(rig.lock_above_water)], width=1.6)
    paper.line([left, half * 0.72], [seat, seat], width=2.4)
    if boat.seat_above_heels is not None:
        paper.line([left, half * 0.45], [seat - boat.seat_above_heels] * 2, color=GREY, width=1.0, dashes=(2, 2))
    if made.inputs.rower.body.thigh_thickness is not None:
        thigh = float(made.inputs.rower.body.thigh_thickness.value)
        x = np.array([max(left, 0.02), 0.20, 0.20, max(left, 0.02)])
        paper.shape(x, seat + np.array([0, 0, thigh, thigh]), fill="#eeeeee", edge=GREY, order=1)
        paper.line([max(left, 0.02), 0.20], [seat + thigh + CLOTHING] * 2, color=GREY, width=0.7, dashes=(1.5, 1.5))


def _heights(paper: Paper, project: Project, made: Design, seat: float, heels: float | None) -> None:
    """The ladder of heights at the left edge, each line led to its label."""
    rig, display = made.rig, project.display
    levels = [
        (
            seat + float(rig.hand_height_in_drive),
            f"hand, drive: seat + {length_text(float(rig.hand_height_in_drive), display, second=False)}",
        ),
        (
            float(rig.lock_above_water),
            f"lock: water + {length_text(float(rig.lock_above_water), display, second=False)}",
        ),
        (
            seat + float(rig.hand_height_in_recovery),
            f"hand, recovery: seat + {length_text(float(rig.hand_height_in_recovery), display, second=False)}",
        ),
        (seat, f"seat: water + {length_text(seat, display, second=False)}"),
        (0.0, "water, boat loaded"),
    ]
    if made.inputs.rower.body.thigh_thickness is not None:
        thigh = float(made.inputs.rower.body.thigh_thickness.value)
        mark = "" if made.inputs.rower.body.thigh_thickness.measured else ", estimated"
        levels.append((seat + thigh, f"thigh{mark}: seat + {length_text(thigh, display, second=False)}"))
        fist = float(rig.hand_height_in_recovery) - HALF_FIST
        levels.append(
            (
                seat + (thigh + CLOTHING + fist) / 2,
                f"thigh clearance {length_text(float(rig.thigh_clearance or 0.0), display, second=False)}",
            )
        )
        if abs(fist - thigh - CLOTHING) * 1e3 / paper.scale > 1:
            paper.upright(float(paper.at(0.22, 0)[0]), seat + thigh + CLOTHING, seat + fist)
            paper.line([-0.02, 0.23], [seat + fist] * 2, color=GREY, width=0.5)
    if heels is not None:
        levels.append((seat - heels, f"heels: seat − {length_text(heels, display, second=False)}"))
    paper.line([0.0, float(rig.span) / 2], [float(rig.lock_above_water)] * 2, color=PALE, width=0.5, dashes=(4, 2))
    levels.sort(key=lambda level: level[0])
    wanted = [float(paper.at(0, y)[1]) for y, _ in levels]
    for (y, words), label in zip(levels, spread(wanted, 4.6, 17, paper.height - 2.5), strict=True):
        level = float(paper.at(0, y)[1])
        paper.line([_LABELS - 4, _LABELS, _LABELS + 9], [label, level, level], color=GREY, width=0.5, model=False)
        paper.text(_LABELS - 5, label, words, size=SMALL, ha="right")


def _at_blade(paper: Paper, made: Design, dips: tuple[float, ...], pin: tuple[float, float], display: Display) -> None:
    """What the blade does, said over and under it."""
    rig, station = made.rig, made.inputs.station
    edge = WIDTH - 1
    square = (
        f"recovery: blade square, {length_text(float(station.wave_clearance), display, second=False)} clear "
        f"at mid-blade"
    )
    paper.text(edge, paper.height - 3, square, size=SMALL, ha="right")
    paper.text(edge, paper.height - 7.6, "dashed: feathered, at the same clearance", size=SMALL, ha="right", color=GREY)
    mid = pin[0] + float(rig.blade_arm) * math.cos(dips[1])
    paper.upright(float(paper.at(mid, 0)[0]), 0.0, float(station.wave_clearance))
    drive = (
        f"drive: dip {math.degrees(dips[0]):.1f}°, top edge {length_text(BLADE_COVER, display, second=False)} "
        f"under at mid-blade"
    )
    paper.text(edge, 10.5, drive, size=SMALL, ha="right")


def _section_in_words(made: Design, display: Display) -> str:
    rig = made.rig
    words = (
        f"Section abreast of the pins. Lock {length_text(float(rig.lock_above_water), display)} above the water and "
        f"{length_text(float(rig.lock_above_seat), display)} above the seat. Hand above the seat: "
        f"{length_text(float(rig.hand_height_in_drive), display)} in the drive, "
        f"{length_text(float(rig.hand_height_in_recovery), display)} on the recovery, blade square."
    )
    if rig.thigh_clearance is not None:
        words += f" Thigh clearance {length_text(float(rig.thigh_clearance), display)}."
    return words


def plan_view(project: Project, made: Design) -> Paper:
    """Plan at mid-stroke: both oars square off, and the handles again at a larger scale."""
    rig, display = made.rig, project.display
    reach = float(rig.span) / 2 + float(rig.outboard)
    scale = math.ceil(2 * reach * 1e3 / (WIDTH - 4))
    half_beam = project.file.boat.beam_at_station / 2
    detail_height = 62.0
    paper = Paper(
        height=detail_height + 66,
        scale=scale,
        origin=(WIDTH / 2, detail_height + 33),
        title="Plan at mid-stroke, bow up: both oars square off and level",
        text_alternative=(
            f"Plan at mid-stroke. Span {length_text(float(rig.span), display)}, each oar "
            f"{length_text(float(rig.length), display)} long, "
            f"{length_text(float(rig.inboard), display)} of it inboard. {_handles_in_words(made, display)}"
        ),
    )
    middle = paper.origin[1]
    along = np.linspace(-0.55, 0.55, 40)
    for side in (-1, 1):
        paper.line([*(side * (half_beam - 0.10 * along**2))], [*along], color=GREY, width=1.2)
    paper.line([0, 0], [-0.62, 0.62], color=PALE, width=0.6, dashes=(6, 2, 1, 2))
    for side in (-1, 1):
        _plan_oar(paper, made, side)
    up, down = middle + 14, middle - 16
    pin = float(rig.span) / 2
    paper.across(-pin, pin, up, f"span {length_text(float(rig.span), display)}", from_y=(middle + 2, middle + 2))
    paper.across(
        pin, reach, down, f"outboard {length_text(float(rig.outboard), display)}", from_y=(middle - 4, middle - 4)
    )
    paper.across(
        -reach,
        pin - float(rig.inboard) - (2 * pin - 2 * float(rig.inboard)),
        down + 0,
        f"length {length_text(float(rig.length), display)}",
        from_y=(middle - 4, middle - 4),
    )
    paper.text(3, middle + 9, "port", color=GREY)
    paper.text(WIDTH - 3, middle + 9, "starboard", color=GREY, ha="right")
    paper.text(WIDTH / 2 + 2, middle + 26, "bow ↑", color=GREY, size=SMALL)
    paper.scale_bar(3, middle + 29)
    _handles(paper, made, display, detail_height)
    return paper


def _plan_oar(paper: Paper, made: Design, side: int) -> None:
    along, half = _oar_outline(made, face=False)
    x = side * (float(made.rig.span) / 2 + np.concatenate([along, along[::-1]]))
    paper.shape(
        x, np.concatenate([half, -half[::-1]]), fill=WOOD_SOFT, width=0.7, order=4 if _over(made) == side else 3
    )
    paper.circle(side * float(made.rig.span) / 2, 0, 0.012, fill="white", order=5)


def _over(made: Design) -> int:
    """Side of the oar that lies over: the left hand of a rower, who faces aft, holds the starboard oar."""
    return 1 if made.inputs.station.upper_hand == "left" else -1


def _handles_in_words(made: Design, display: Display) -> str:
    overlap, drive = float(made.rig.overlap), float(made.rig.overlap_in_drive)
    what = "overlap" if overlap > 0 else "gap"
    in_drive = f"{'overlap' if drive > 0 else 'gap'} in the drive {length_text(abs(drive), display)}"
    return f"Handles: {what} {length_text(abs(overlap), display)}, {in_drive}."


def _handles(paper: Paper, made: Design, display: Display, height: float) -> None:
    """The handles at mid-stroke again, larger, with a circle for each fist."""
    rig, sizes = made.rig, made.inputs.sizes
    overlap = float(rig.overlap)
    scale, centre = paper.scale, paper.origin
    reach = max(abs(overlap) / 2 + 0.26, 0.30)
    paper.scale, paper.origin = math.ceil(2 * reach * 1e3 / 118), (WIDTH / 2, height / 2 + 3)
    paper.line([8, WIDTH - 8], [height - 2, height - 2], color=PALE, width=0.6, model=False)
    paper.line([0, 0], [-0.09, 0.09], color=PALE, width=0.6, dashes=(6, 2, 1, 2))
    for side in sorted((-1, 1), key=lambda s: s == _over(made)):
        oar = made.oars["port"]
        ends = (
            overlap / 2 if side > 0 else -overlap / 2
        )  # the starboard oar's handle end lies beyond the middle, to port
        here = oar.s <= reach + overlap / 2
        x = -ends + side * oar.s[here]
        half = oar.profile.thickness[here] / 2
        lies_over = side == _over(made)
        paper.shape(
            np.concatenate([x, x[::-1]]),
            np.concatenate([half, -half[::-1]]),
            fill=WOOD_SOFT,
            order=4.5 if lies_over else 3,
            width=0.8,
        )
        hand = -ends + side * float(sizes.grip_centre)
        paper.circle(hand, 0, HALF_FIST, fill="none", dashed=overlap > 0 and not lies_over, order=5)
    low, high = paper.origin[1] - 17, paper.origin[1] + 17
    word = "overlap" if overlap >= 0 else "gap"
    paper.across(
        -abs(overlap) / 2,
        abs(overlap) / 2,
        low,
        f"{word} {length_text(abs(overlap), display)}",
        from_y=(paper.origin[1] - 4,) * 2,
        beside=abs(overlap) * 1e3 / paper.scale < 52,
    )
    drive = float(rig.overlap_in_drive)
    words = f"in the drive, oars dipped: {'overlap' if drive >= 0 else 'gap'} {length_text(abs(drive), display)}"
    paper.text(WIDTH / 2, low - 6.5, words, ha="center", size=TEXT)
    hands = (
        f"upper hand: {made.inputs.station.upper_hand} (its fist solid, the other dashed)"
        if overlap > 0
        else "fists side by side"
    )
    paper.text(
        WIDTH / 2,
        high + 2.5,
        f"The handles at 1:{paper.scale:g}; circles: fists, {length_text(2 * HALF_FIST, display, second=False)} "
        f"across; {hands}",
        ha="center",
        size=SMALL,
        color=GREY,
    )
    paper.scale, paper.origin = scale, centre
