"""A rower on the seat of a station: hip, shoulder and legs against the pin line, and how far the hands reach."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from oarkit.rower import legs, reach
from oarkit.rower.legs import Legs
from oarkit.rower.reach import Posture
from oarkit.rower.sizes import Body
from oarkit.working import Number, Quantity, Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Seated:
    """A seated rower [m]; x forward of the pin line, z above the seat. None where a size for it is not known."""

    reach_catch: Number | None = None  #: hand aft of the pin line at the catch
    reach_finish: Number | None = None  #: hand forward of the pin line at the finish
    hip_x: Number | None = None
    hip_z: Number | None = None
    trunk: Number | None = None  #: hip joint to shoulder
    arm: Number | None = None  #: shoulder to grip centre
    heel_x: Number | None = None
    brace_from_seat_edge: Number | None = None  #: heel aft of the seat's aft edge
    legs: Legs | None = None
    why_no_reach: str = ""
    why_no_legs: str = ""


def seat_rower(
    *,
    body: Body,
    posture: Posture,
    hand_height: Number,
    seat_edge_to_pins: Number | None,
    seat_above_heels: Number | None,
    brace_from_seat_edge: Number | None = None,
    reach_catch: Number | None = None,
    reach_finish: Number | None = None,
    work: Working | None = None,
) -> Seated:
    """Seat a rower at a station.

    Parameters
    ----------
    body : Body
        Sizes of the rower. [m]
    posture : Posture
        How the rower sits and swings. [m, rad]
    hand_height : float or array
        Grip centre above the top of the seat in the drive. [m]
    seat_edge_to_pins : float, array or None
        Aft edge of the seat to the pin line. [m]
    seat_above_heels : float, array or None
        Top of the seat above the heels. [m]
    brace_from_seat_edge : float or array, optional
        Heels aft of the seat's aft edge; found from the bend of the knee where not given. [m]
    reach_catch : float or array, optional
        Hand aft of the pin line at the catch, as measured. [m]
    reach_finish : float or array, optional
        Hand forward of the pin line at the finish, as measured. [m]
    work : Working, optional
        Keeps the working. [record]

    Returns
    -------
    Seated
        What can be known, and why the rest cannot. [m]

    Raises
    ------
    BadDesign
        Nobody can sit so: arms or legs do not reach.

    Notes
    -----
    Source: plane geometry, side view; each line of the working names its own.

    Examples
    --------
    >>> seat_rower(body=Body(), posture=Posture(), hand_height=0.35, seat_edge_to_pins=0.3,
    ...            seat_above_heels=0.17).why_no_reach
    'shoulder height and arm length are not known; give them, or stature and body'
    """
    work = Working() if work is None else work
    why_no_reach = ""
    hip_x = None if seat_edge_to_pins is None else seat_edge_to_pins + posture.hip_forward_of_seat_edge
    shoulder, arm = body.shoulder_height, body.arm_length
    trunk = None if shoulder is None else shoulder.value - posture.hip_above_seat
    if hip_x is None:
        why_no_reach = "the seat's distance to the pins is not known; give rig.seat_edge_to_pins"
    elif reach_catch is None and (trunk is None or arm is None):
        why_no_reach = "shoulder height and arm length are not known; give them, or stature and body"
    if reach_catch is None and hip_x is not None and trunk is not None and arm is not None:
        reach_catch = work(
            "stroke.reach_catch", reach.catch_reach,
            arm=arm.value, trunk=trunk, trunk_angle=posture.trunk_at_catch, hip_above_seat=posture.hip_above_seat,
            hand_height=hand_height, seat_edge_to_pins=seat_edge_to_pins,
            hip_forward_of_seat_edge=posture.hip_forward_of_seat_edge,
        )  # fmt: skip
    if reach_finish is None and hip_x is not None:
        reach_finish = work(
            "stroke.reach_finish", reach.finish_reach,
            seat_edge_to_pins=seat_edge_to_pins, hip_forward_of_seat_edge=posture.hip_forward_of_seat_edge,
            hand_at_finish=posture.hand_at_finish,
        )  # fmt: skip
    seated = Seated(
        reach_catch=reach_catch,
        reach_finish=reach_finish,
        hip_x=hip_x,
        hip_z=posture.hip_above_seat,
        trunk=trunk,
        arm=None if arm is None else arm.value,
        why_no_reach=why_no_reach,
    )
    return _with_legs(seated, body, posture, seat_above_heels, brace_from_seat_edge, work)


def _with_legs(
    seated: Seated,
    body: Body,
    posture: Posture,
    seat_above_heels: Number | None,
    brace_from_seat_edge: Number | None,
    work: Working,
) -> Seated:
    thigh, shank, thick, foot = body.thigh_length, body.shank_length, body.thigh_thickness, body.foot_length
    hip_x = seated.hip_x
    if hip_x is None:
        return replace(seated, why_no_legs="the seat's distance to the pins is not known; give rig.seat_edge_to_pins")
    if seat_above_heels is None:
        return replace(seated, why_no_legs="the heels' height is not known; give boat.seat_above_heels")
    if thigh is None or shank is None or thick is None:
        return replace(
            seated, why_no_legs="the legs are not known; give stature and body, or thigh, shank and thigh thickness"
        )
    rods = {
        "thigh": thigh.value,
        "shank": shank.value,
        "hip_above_seat": posture.hip_above_seat,
        "seat_above_heels": seat_above_heels,
    }
    if brace_from_seat_edge is None:
        brace = work("rower.brace_from_hip", legs.brace_distance, flexion=posture.knee_flexion, **rods)
    else:
        brace = brace_from_seat_edge + posture.hip_forward_of_seat_edge
        work("rower.knee_flexion", legs.knee_bend, brace=brace, **rods)
    knee = legs.knee_place(brace=brace, **rods)
    numbers = {"a": thigh.value, "b": shank.value, "D": brace, "z_h": posture.hip_above_seat, "heels": seat_above_heels}
    shown = {name: Quantity(value=value, unit="m") for name, value in numbers.items()}
    work.keep("rower.knee_top", legs.knee_place, knee.top_above_seat, shown)
    toe = np.subtract(foot.value if foot is not None else 0.0, seat_above_heels)
    return replace(
        seated,
        heel_x=hip_x - brace,
        brace_from_seat_edge=brace - posture.hip_forward_of_seat_edge,
        legs=Legs(
            hip_x=hip_x,
            thigh_top=thick.value,
            knee_x=hip_x - knee.aft_of_hip,
            knee_top=knee.top_above_seat,
            toe_x=hip_x - brace,
            toe_top=toe,
        ),
    )
