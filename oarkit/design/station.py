"""The half of the spine that asks whether it will row: what is left open chosen, then rig, rower and stroke."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from oarkit.design.records import Inputs
from oarkit.fit import Choice, FitStation, choose
from oarkit.fit.limits import HAND_AIM, Candidate
from oarkit.rig import waves
from oarkit.rig.station import Rig, rig_from_station
from oarkit.rower.seated import Seated, seat_rower
from oarkit.rower.sizes import grip_diameter
from oarkit.stroke.account import note_stroke
from oarkit.stroke.arc import stops_at
from oarkit.stroke.clear import BRACKET_FOOT, Sides
from oarkit.stroke.station import Stroke, stroke_of_rig
from oarkit.working import Working


def choice_of(inputs: Inputs) -> Choice:
    """What limits and custom would choose: what is left open, or, where nothing is, overlap and length.

    Parameters
    ----------
    inputs : Inputs
        Everything given. [record]

    Returns
    -------
    Choice
        The rig chosen, and why. [record]

    Notes
    -----
    Source: each room that is called names its own.

    Examples
    --------
    >>> from oarkit import example_project
    >>> inputs = example_project("quillet").inputs
    >>> choice_of(inputs).fits
    True
    """
    given = inputs.station
    length = given.length is not None or given.leverage_ratio is not None
    settled = length and given.overlap is not None and given.lock_overhang is not None
    kept = {name: getattr(given, name) for name in _OF_STATION}
    if settled:
        kept |= {"overlap": None, "length": None, "leverage_ratio": None}
    return _choose(inputs, kept)


def own_rig(inputs: Inputs, rig: Rig) -> Candidate:
    """The rig of the design as one that might have been chosen, with its distance from each aim.

    Parameters
    ----------
    inputs : Inputs
        Everything given, nothing left open. [record]
    rig : Rig
        The rig. [record]

    Returns
    -------
    Candidate
        The rig; what the file gives is no limit to it. [record]

    Notes
    -----
    Source: each room that is called names its own.

    Examples
    --------
    >>> from oarkit import example_project
    >>> inputs = example_project("quillet").inputs
    >>> round(own_rig(inputs, rig_of(inputs)).strains["leverage_ratio"], 2)
    0.43
    """
    kept = {name: getattr(inputs.station, name) for name in _OF_STATION}
    kept |= {"overlap": float(rig.overlap), "length": float(rig.length), "leverage_ratio": None}
    return _choose(inputs, kept).chosen


def _choose(inputs: Inputs, kept: dict[str, Any]) -> Choice:
    given, rower = inputs.station, inputs.rower
    station = FitStation(
        **kept,
        reach_catch=None if rower.reach_catch is None else float(rower.reach_catch),
        reach_finish=None if rower.reach_finish is None else float(rower.reach_finish),
        blade_length=float(inputs.sizes.blade_length),
        blade_width=float(inputs.sizes.blade_width),
        grip_centre=float(inputs.sizes.grip_centre),
    )
    stowed = given.longest_stowed
    limits = replace(inputs.limits, longest_stowed=None if stowed is None else float(stowed))
    return choose(
        station, limits=limits, body=rower.body, posture=rower.posture, may_feather=given.lock == "feathering"
    )


_OF_STATION = (
    "beam", "lock_overhang", "seat_above_water", "lock_above_water", "overlap", "length", "leverage_ratio", "lengths",
    "wave_clearance", "seat_edge_to_pins", "seat_above_heels", "brace_from_seat_edge", "catch_limit", "finish_limit",
)  # fmt: skip


def settled(inputs: Inputs, choice: Choice) -> Inputs:
    """The inputs with what was left open filled in.

    Parameters
    ----------
    inputs : Inputs
        Everything given. [record]
    choice : Choice
        What was chosen. [record]

    Returns
    -------
    Inputs
        Nothing of the station is None that the rig needs. [record]

    Notes
    -----
    Source: each room that is called names its own.

    Examples
    --------
    >>> from oarkit import example_project
    >>> inputs = example_project("quillet").inputs
    >>> settled(inputs, choice_of(inputs)).left_open
    ()
    """
    station, found = inputs.station, choice.chosen
    overhang = found.lock_overhang if station.lock_overhang is None else station.lock_overhang
    overlap = found.overlap if station.overlap is None else station.overlap
    length, ratio = station.length, station.leverage_ratio
    if length is None and ratio is None:
        length = found.length
    elif length is None and ratio is not None and isinstance(station.lengths, tuple):  # the nearest to that ratio
        exact = (station.beam / 2 + overhang + overlap / 2) * (1 + ratio)
        length = min(station.lengths, key=lambda stock: abs(stock - float(exact)))
    open_ = tuple(name for name in ("lock_overhang", "overlap") if getattr(station, name) is None)
    if station.length is None and station.leverage_ratio is None:
        open_ = (*open_, "length")
    filled = replace(station, lock_overhang=overhang, overlap=overlap, length=length)
    return replace(inputs, station=filled, left_open=open_)


def rig_of(inputs: Inputs) -> Rig:
    """The rig of inputs of which nothing is left open.

    Parameters
    ----------
    inputs : Inputs
        Everything given. [record]

    Returns
    -------
    Rig
        The rig. [record]

    Notes
    -----
    Source: each room that is called names its own.

    Examples
    --------
    >>> from oarkit import example_project
    >>> inputs = example_project("quillet").inputs
    >>> round(rig_of(inputs).span, 4)
    1.1049
    """
    station, thigh = inputs.station, inputs.rower.body.thigh_thickness
    assert station.lock_overhang is not None
    step = station.lengths
    return rig_from_station(
        beam=station.beam,
        lock_overhang=station.lock_overhang,
        seat_above_water=station.seat_above_water,
        lock_above_water=station.lock_above_water,
        overlap=station.overlap,
        length=station.length,
        leverage_ratio=None if station.length is not None else station.leverage_ratio,
        round_length=None if isinstance(step, tuple) else step,
        thigh_thickness=None if thigh is None else thigh.value,
        wave_clearance=station.wave_clearance,
        blade_length=inputs.sizes.blade_length,
        blade_width=inputs.sizes.blade_width,
        grip_centre=inputs.sizes.grip_centre,
        hands_apart=station.hands_apart,
    )


def note_heights(work: Working, inputs: Inputs, rig: Rig) -> None:
    """Keep the working of what the heights leave room for: heel, and the blade arms that the seat's height sets.

    Parameters
    ----------
    work : Working
        Keeps the working. [record]
    inputs : Inputs
        Everything given. [record]
    rig : Rig
        The rig. [record]

    Returns
    -------
    None
        Nothing. [none]

    Notes
    -----
    Source: each room that is called names its own.

    Examples
    --------
    >>> from oarkit import example_project
    >>> inputs, work = example_project("quillet").inputs, Working()
    >>> note_heights(work, inputs, rig_of(inputs))
    >>> [line.name for line in work.lines]
    ['rig.heel_square', 'rig.heel_feathered', 'rig.blade_arm_for_hand']
    """
    station, body = inputs.station, inputs.rower.body
    arms = {"hand_arm": rig.hand_arm, "blade_arm": rig.blade_arm}
    for name, clearance in (("square", rig.thigh_clearance), ("feathered", rig.thigh_clearance_feathered)):
        if clearance is not None:
            work(f"rig.heel_{name}", waves.heel_that_takes, clearance=clearance, span=rig.span, **arms)
    heights = {
        "hand_arm": rig.hand_arm,
        "lock_above_water": rig.lock_above_water,
        "lock_above_seat": rig.lock_above_seat,
    }
    thigh, elbow, width = body.thigh_thickness, body.elbow_height, inputs.sizes.blade_width
    if thigh is not None and np.isfinite(waves.longest_blade_arm(
        wave_clearance=station.wave_clearance, half_height=width / 2, thigh_thickness=thigh.value, **heights
    )):  # fmt: skip
        work(
            "rig.longest_blade_arm", waves.longest_blade_arm,
            wave_clearance=station.wave_clearance, half_height=width / 2, thigh_thickness=thigh.value, **heights,
        )  # fmt: skip
    if elbow is not None and elbow.value + HAND_AIM > float(rig.lock_above_seat):
        work(
            "rig.blade_arm_for_hand", waves.blade_arm_for_hand,
            blade_width=width, hand_height=elbow.value + HAND_AIM, **heights,
        )  # fmt: skip


def stroke_of(inputs: Inputs, rig: Rig, work: Working) -> tuple[Seated, Stroke | None]:
    """The rower on the seat, and the stroke where the reach is known.

    Parameters
    ----------
    inputs : Inputs
        Everything given. [record]
    rig : Rig
        The rig. [record]
    work : Working
        Keeps the working. [record]

    Returns
    -------
    tuple
        Seated, and Stroke or None. [records]

    Notes
    -----
    Source: each room that is called names its own.

    Examples
    --------
    >>> from oarkit import example_project
    >>> inputs = example_project("quillet").inputs
    >>> seated, stroke = stroke_of(inputs, rig_of(inputs), Working())
    >>> bool(stroke.arc > 1.0)
    True
    """
    station, rower = inputs.station, inputs.rower
    if rower.body.hand_length is not None:
        work("rower.grip_diameter", grip_diameter, hand_length=rower.body.hand_length.value)
    seated = seat_rower(
        body=rower.body,
        posture=rower.posture,
        hand_height=rig.hand_height_in_drive,
        seat_edge_to_pins=station.seat_edge_to_pins,
        seat_above_heels=station.seat_above_heels,
        brace_from_seat_edge=station.brace_from_seat_edge,
        reach_catch=rower.reach_catch,
        reach_finish=rower.reach_finish,
        work=work,
    )
    if seated.reach_catch is None or seated.reach_finish is None:
        return seated, None
    stroke = stroke_of_rig(
        rig,
        reach_catch=seated.reach_catch,
        reach_finish=seated.reach_finish,
        catch_limit=stops_at(station.catch_limit),
        finish_limit=station.finish_limit,
        legs=seated.legs,
        sides=_sides(inputs, rig),
        hands_apart=station.hands_apart,
        hands_ahead=station.hands_ahead,
        work=work,
    )
    note_stroke(work, stroke, rig, hands_apart=station.hands_apart, wave_clearance=station.wave_clearance)
    return seated, stroke


def _sides(inputs: Inputs, rig: Rig) -> Sides | None:
    station, bracket = inputs.station, inputs.fixtures.bracket
    if station.rail_above_water is None:
        return None
    half = np.divide(station.beam, 2)
    bracket_half_length = 0.0 if bracket is None else (bracket.bolts - 1) * bracket.bolt_spacing / 2
    return Sides(
        rail_inner=half - station.rail_thickness,
        rail_outer=half,
        rail_top=station.rail_above_water + station.coaming_above_rail,
        pin=np.divide(rig.span, 2),
        lock_above_water=rig.lock_above_water,
        bracket_half_length=BRACKET_FOOT + bracket_half_length,
    )
