"""Keeps the working of the stroke: where hands meet, what keeps them apart, what they clear."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np

from oarkit.rig.station import Rig
from oarkit.stroke import hands
from oarkit.stroke.station import Least, Stroke
from oarkit.working import Number, Quantity, Working, formula


@formula("least over 41 angles of (hand − 45 mm − 15 mm − leg)", unit="m", source="plane geometry")
def least_leg_clearance(stroke: Stroke) -> Number | None:
    """Least clear height between fist and leg on the recovery, blade square.

    Parameters
    ----------
    stroke : Stroke
        The stroke. [record]

    Returns
    -------
    float, array or None
        Clearance, negative where the hands strike. [m]

    Notes
    -----
    Source: plane geometry; looked at along the path of the hand, not at one place.

    Examples
    --------
    >>> least_leg_clearance.formula.unit
    'm'
    """
    return _value(stroke.legs)


@formula("least over 41 angles of (hand to rail or bracket) − 45 mm", unit="m", source="solid geometry")
def least_side_clearance(stroke: Stroke) -> Number | None:
    """Least distance from fist to rail, coaming or bracket, drive and recovery.

    Parameters
    ----------
    stroke : Stroke
        The stroke. [record]

    Returns
    -------
    float, array or None
        Distance, negative where the fist strikes. [m]

    Notes
    -----
    Source: solid geometry; the fist is a ball of 45 mm.

    Examples
    --------
    >>> least_side_clearance.formula.unit
    'm'
    """
    return _value(stroke.sides)


def _value(least: Least | None) -> Number | None:
    return None if least is None else least.clearance


def note_stroke(work: Working, stroke: Stroke, rig: Rig, *, hands_apart: Number, wave_clearance: Number) -> None:
    """Keep the working of one stroke.

    Parameters
    ----------
    work : Working
        Where to keep it. [record]
    stroke : Stroke
        The stroke of one design. [record]
    rig : Rig
        Its rig. [record]
    hands_apart : float
        One hand above the other, where they pass so. [m]
    wave_clearance : float
        Lower edge of the blade above the water on the recovery. [m]

    Returns
    -------
    None
        Nothing. [none]

    Notes
    -----
    Source: each line names its own.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> "stroke.leg_clearance" in design(example_project("quillet").inputs).values
    True
    """
    arms = {"blade_arm": rig.blade_arm, "hand_arm": rig.hand_arm}
    if float(stroke.abreast.least) < hands.FIST:
        work("stroke.meeting_angle", hands.meeting_angle, span=rig.span, hand_arm=rig.hand_arm, dip=rig.dip_in_recovery)
        needed = float(stroke.abreast.needed_apart)
        across = {"D": hands.FIST, "g": float(np.sqrt(max(hands.FIST**2 - needed**2, 0.0)))}
        _keep(work, "stroke.needed_apart", hands.least_apart, stroke.abreast.needed_apart, across)
        twice = 2 * rig.hand_arm * np.cos(rig.dip_in_recovery)
        lead = {"S": rig.span, "D": hands.FIST, "v": 0.0, "2 l_h cos β_r": twice}
        _keep(work, "stroke.needed_lead", hands.least_lead, stroke.abreast.needed_lead, lead)
        work("stroke.blade_depth_difference", hands.blade_depth_difference, apart=hands_apart, **arms)
        work("stroke.hiding_heel", hands.hiding_heel, apart=hands_apart, span=rig.span, **arms)
    for name, function, numbers in (
        ("stroke.leg_clearance", least_leg_clearance, {"c": wave_clearance}),
        ("stroke.side_clearance", least_side_clearance, {}),
    ):
        value = function(stroke)
        if value is not None and float(value) < float("inf"):
            _keep(work, name, function, value, numbers)


def _keep(work: Working, name: str, function: Callable[..., Any], value: Number, lengths: Mapping[str, Number]) -> None:
    work.keep(name, function, value, {symbol: Quantity(value=given, unit="m") for symbol, given in lengths.items()})
