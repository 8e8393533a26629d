"""The whole stroke of a station: arc, hands against hands, hands against legs and the boat's sides."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.rig.station import Rig
from oarkit.rower.legs import Legs
from oarkit.stroke import arc, hands
from oarkit.stroke.clear import Sides, leg_clearance, side_clearance
from oarkit.stroke.hands import HANDS_AHEAD, Passing, passing
from oarkit.stroke.path import Path, Place, Side, path_along, sweep_angles
from oarkit.working import Array, Number, Working

FURTHEST_AHEAD = 0.5  #: of the hand arm in plan; a lead beyond 30 degrees is no way to row, a choice of this project
ANGLES = 41  #: sweep angles looked at, catch to finish


@dataclass(frozen=True, slots=True, kw_only=True)
class Least:
    """Where a clearance is least on the path of the hand."""

    clearance: Number  #: [m]
    at: Number  #: sweep angle [rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """The stroke of a rig. SI; angles positive with the blade toward the bow.

    Hands abreast, with nothing done, and the three ways of passing hold the lesser distance of drive and recovery.
    Clearances of the legs are those of the recovery, "inf" where the hands keep outside the legs, None where the
    legs are not known.
    """

    catch_angle: Number
    finish_angle: Number
    arc: Number
    hand_travel: Number
    chord: Number
    sweep: Array
    meeting_in_drive: Number
    meeting_in_recovery: Number
    abreast: Passing
    one_above: Passing
    one_ahead: Passing
    mixed: Passing
    legs: Least | None
    legs_feathered: Least | None
    sides: Least | None


def stroke_of_rig(
    rig: Rig,
    *,
    reach_catch: Number,
    reach_finish: Number,
    catch_limit: Number = arc.MOST_SWEEP,
    finish_limit: Number = -arc.MOST_SWEEP,
    legs: Legs | None = None,
    sides: Sides | None = None,
    hands_apart: Number = 0.06,
    hands_ahead: Number = HANDS_AHEAD,
    work: Working | None = None,
) -> Stroke:
    """Arc, passing hands and clearances of a rig, at 41 sweep angles.

    Parameters
    ----------
    rig : Rig
        The rig; arrays of designs or plain numbers. [record]
    reach_catch : float or array
        Hand aft of the pin line at the catch. [m]
    reach_finish : float or array
        Hand forward of the pin line at the finish. [m]
    catch_limit : float or array, optional
        Greatest sweep angle that lock, boat or rower allow. [rad]
    finish_limit : float or array, optional
        Least sweep angle, negative. [rad]
    legs : Legs, optional
        Outline of the legs. [m]
    sides : Sides, optional
        Rail, coaming and bracket. [m]
    hands_apart : float or array, optional
        One hand above the other, where they pass so. [m]
    hands_ahead : float or array, optional
        One hand ahead of the other, where they pass so. [m]
    work : Working, optional
        Keeps the working. [record]

    Returns
    -------
    Stroke
        Everything about the stroke. [rad, m]

    Raises
    ------
    BadDesign
        The reach makes no stroke.

    Notes
    -----
    Source: plane geometry; each line of the working names its own. "Mixed" is half of either way.

    Examples
    --------
    >>> from oarkit.rig.station import rig_from_station
    >>> rig = rig_from_station(beam=0.90, lock_overhang=0.10, seat_above_water=0.08, lock_above_water=0.30,
    ...                        overlap=0.10, leverage_ratio=2.5, thigh_thickness=0.16)
    >>> stroke = stroke_of_rig(rig, reach_catch=0.35, reach_finish=0.35)
    >>> bool(stroke.catch_angle == -stroke.finish_angle), bool(stroke.arc == 2 * stroke.catch_angle)
    (True, True)
    """
    work = Working() if work is None else work
    arm, drive, recovery = rig.hand_arm, rig.dip_in_drive, rig.dip_in_recovery
    catch = work("stroke.catch_angle", arc.catch_angle, reach=reach_catch, hand_arm=arm, dip=drive, limit=catch_limit)
    finish = work(
        "stroke.finish_angle", arc.finish_angle, reach=reach_finish, hand_arm=arm, dip=drive, limit=finish_limit
    )
    swept = work("stroke.arc", arc.stroke_arc, catch=catch, finish=finish)
    sweep = sweep_angles(catch, finish, ANGLES)
    port = path_of_rig(rig, sweep, side="port", along=-arm)
    hands_ahead = np.minimum(hands_ahead, FURTHEST_AHEAD * arm * np.cos(drive))
    lead = hands.lead_angle(ahead=hands_ahead, hand_arm=arm, dip=drive)
    half_lead = hands.lead_angle(ahead=np.divide(hands_ahead, 2), hand_arm=arm, dip=drive)
    ways = [
        _worse(*(passing(sweep=sweep, hand_arm=arm, dip=dip, span=rig.span, **way) for dip in (drive, recovery)))
        for way in (
            {},
            {"apart": hands_apart},
            {"lead": lead},
            {"apart": np.divide(hands_apart, 2), "lead": half_lead},
        )
    ]
    seat = np.subtract(rig.lock_above_water, rig.lock_above_seat)
    return Stroke(
        catch_angle=catch,
        finish_angle=finish,
        arc=swept,
        hand_travel=work("stroke.hand_travel", arc.hand_travel, hand_arm=arm, dip=drive, arc=swept),
        chord=work("stroke.chord", arc.handle_chord, hand_arm=arm, dip=drive, catch=catch, finish=finish),
        sweep=sweep,
        meeting_in_drive=hands.meeting_angle(span=rig.span, hand_arm=arm, dip=drive),
        meeting_in_recovery=hands.meeting_angle(span=rig.span, hand_arm=arm, dip=recovery),
        abreast=ways[0],
        one_above=ways[1],
        one_ahead=ways[2],
        mixed=ways[3],
        legs=_over_legs(port.recovery, legs, sweep, seat),
        legs_feathered=_over_legs(port.feathered, legs, sweep, seat),
        sides=None if sides is None else _beside(port, sides, sweep),
    )


def path_of_rig(rig: Rig, sweep: Array, *, side: Side, along: Number) -> Path:
    """Path of a hand or a blade of a rig, in plan and elevation, through drive and recovery.

    Parameters
    ----------
    rig : Rig
        The rig. [record]
    sweep : array
        Sweep angles on the last axis, e.g. those of its `Stroke`. [rad]
    side : {"port", "starboard"}
        Which oar. [text]
    along : float or array
        Along the loom from the pin line: the blade arm, or less the hand arm. [m]

    Returns
    -------
    Path
        Places in the boat: drive, recovery with the blade square, recovery feathered. [m]

    Notes
    -----
    Source: plane geometry; the oar turns about its pin line with its dip kept.

    Examples
    --------
    >>> from oarkit.rig.station import rig_from_station
    >>> rig = rig_from_station(beam=0.90, lock_overhang=0.10, seat_above_water=0.08, lock_above_water=0.30,
    ...                        overlap=0.10, leverage_ratio=2.5)
    >>> blade = path_of_rig(rig, sweep_angles(0.9, -0.5), side="port", along=rig.blade_arm)
    >>> bool((blade.recovery.z > 0).all()), bool((blade.drive.z < 0).all())
    (True, True)
    """
    return path_along(
        side=side,
        along=along,
        sweep=sweep,
        span=rig.span,
        lock_above_water=rig.lock_above_water,
        drive_dip=rig.dip_in_drive,
        recovery_dip=rig.dip_in_recovery,
        feathered_dip=rig.dip_in_recovery_feathered,
    )


def _over_legs(hand: Place, legs: Legs | None, sweep: Array, seat: Number) -> Least | None:
    return None if legs is None else _least(leg_clearance(hand, legs, seat_above_water=seat), sweep)


def _beside(path: Path, sides: Sides, sweep: Array) -> Least:
    return _least(np.minimum(side_clearance(path.drive, sides), side_clearance(path.recovery, sides)), sweep)


def _least(clearance: Array, sweep: Array) -> Least:
    worst = np.argmin(clearance, axis=-1, keepdims=True)
    angles = np.broadcast_to(sweep, clearance.shape)
    return Least(
        clearance=np.take_along_axis(clearance, worst, -1)[..., 0], at=np.take_along_axis(angles, worst, -1)[..., 0]
    )


def _worse(one: Passing, other: Passing) -> Passing:
    """The nearer pass of two, and the greater of each need."""
    nearer = np.less_equal(one.least, other.least)
    return Passing(
        apart=one.apart,
        lead=one.lead,
        least=np.where(nearer, one.least, other.least)[()],
        least_at=np.where(nearer, one.least_at, other.least_at)[()],
        needed_apart=np.maximum(one.needed_apart, other.needed_apart),
        needed_lead=np.maximum(one.needed_lead, other.needed_lead),
    )
