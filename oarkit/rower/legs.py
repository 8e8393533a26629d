"""The legs from the side: two stiff rods, hip to knee and knee to heel, and the outline that the hands must clear."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.rower.sizes import KNEE_JOINT
from oarkit.working import BadDesign, Number, Quantity, formula

_DERIVED = "plane geometry"


@formula(
    "D = √(d² − z²),  d² = a² + b² + 2 a b cos f,  z = z_h + heels", unit="m",
    source=_DERIVED + " (two circles)",
    where={
        "thigh": "a [m]", "shank": "b [m]", "flexion": "f [rad]", "hip_above_seat": "z_h [m]",
        "seat_above_heels": "heels [m]",
    },
)  # fmt: skip
def brace_distance(
    *, thigh: Number, shank: Number, flexion: Number, hip_above_seat: Number, seat_above_heels: Number
) -> Number:
    """Horizontal distance from hip joint to heel for a wanted bend of the knee.

    Parameters
    ----------
    thigh : float or array
        Hip joint to knee joint. [m]
    shank : float or array
        Knee joint to sole. [m]
    flexion : float or array
        Bend of the knee, nil for a straight leg. [rad]
    hip_above_seat : float or array
        Hip joint above the top of the seat. [m]
    seat_above_heels : float or array
        Top of the seat above the heels. [m]

    Returns
    -------
    float or array
        Hip joint to heel along the keel. [m]

    Raises
    ------
    BadDesign
        The seat stands higher over the heels than the leg so bent is long.

    Notes
    -----
    Source: plane geometry, law of cosines with 180° − f between thigh and shank.

    Examples
    --------
    >>> round(float(brace_distance(thigh=0.4, shank=0.3, flexion=np.pi / 2, hip_above_seat=0.09,
    ...                            seat_above_heels=0.21)), 3)
    0.4
    """
    drop = hip_above_seat + seat_above_heels
    square = np.square(thigh) + np.square(shank) + 2 * thigh * shank * np.cos(flexion) - np.square(drop)
    if np.any(square <= 0):
        raise BadDesign(
            "the hip stands {drop} above the heels, more than the bent leg is long: nobody can sit so; check the "
            "height of the seat above the heels and the bend of the knee",
            {"drop": Quantity(value=float(np.max(drop)), unit="m")},
        )
    return np.sqrt(square)


@formula(
    "cos(180° − f) = (a² + b² − D² − z²)/(2 a b),  z = z_h + heels", unit="rad", source=_DERIVED + " (two circles)",
    where={
        "thigh": "a [m]", "shank": "b [m]", "brace": "D [m]", "hip_above_seat": "z_h [m]",
        "seat_above_heels": "heels [m]",
    },
)  # fmt: skip
def knee_bend(
    *, thigh: Number, shank: Number, brace: Number, hip_above_seat: Number, seat_above_heels: Number
) -> Number:
    """Bend of the knee with the heel against a brace at a known distance.

    Parameters
    ----------
    thigh : float or array
        Hip joint to knee joint. [m]
    shank : float or array
        Knee joint to sole. [m]
    brace : float or array
        Hip joint to heel along the keel. [m]
    hip_above_seat : float or array
        Hip joint above the top of the seat. [m]
    seat_above_heels : float or array
        Top of the seat above the heels. [m]

    Returns
    -------
    float or array
        Bend of the knee, nil for a straight leg. [rad]

    Raises
    ------
    BadDesign
        The leg does not reach the brace, or cannot fold so far.

    Notes
    -----
    Source: plane geometry, law of cosines; the inverse of `brace_distance`.

    Examples
    --------
    >>> round(float(knee_bend(thigh=0.4, shank=0.3, brace=0.4, hip_above_seat=0.09, seat_above_heels=0.21)), 4)
    1.5708
    """
    square = np.square(brace) + np.square(hip_above_seat + seat_above_heels)
    away = np.sqrt(square)
    if np.any(away > thigh + shank):
        drop = hip_above_seat + seat_above_heels
        straight = np.sqrt(
            np.maximum(np.square(thigh + shank) - np.square(drop), 0.0)
        )  # along the keel, as a brace moves
        raise BadDesign(
            "the foot brace is {short} further than the legs reach; bring it nearer",
            {"short": Quantity(value=float(np.max(brace - straight)), unit="m")},
        )
    if np.any(away <= np.abs(np.subtract(thigh, shank))):
        raise BadDesign(
            "the foot brace is only {away} from the hip, nearer than the legs can fold; move it away",
            {"away": Quantity(value=float(np.min(away)), unit="m")},
        )
    bend: Number = np.arccos((square - np.square(thigh) - np.square(shank)) / (2 * np.multiply(thigh, shank)))
    return bend


@dataclass(frozen=True, slots=True, kw_only=True)
class Knee:
    """Where the knee is: its joint aft of the hip, and its top above the seat. [m]"""

    aft_of_hip: Number
    top_above_seat: Number


@formula(
    "h_k = z_h + a sin(α − asin(z/d)) + 60 mm,  cos α = (a² + d² − b²)/(2 a d),  d² = D² + z²", unit="m",
    source=_DERIVED + " (two circles)",
    where={
        "thigh": "a [m]", "shank": "b [m]", "brace": "D [m]", "hip_above_seat": "z_h [m]",
        "seat_above_heels": "heels [m]",
    },
)  # fmt: skip
def knee_place(
    *, thigh: Number, shank: Number, brace: Number, hip_above_seat: Number, seat_above_heels: Number
) -> Knee:
    """Place of the knee: where a circle about the hip and one about the heel cut, the upper cut.

    Parameters
    ----------
    thigh : float or array
        Hip joint to knee joint. [m]
    shank : float or array
        Knee joint to sole. [m]
    brace : float or array
        Hip joint to heel along the keel. [m]
    hip_above_seat : float or array
        Hip joint above the top of the seat. [m]
    seat_above_heels : float or array
        Top of the seat above the heels. [m]

    Returns
    -------
    Knee
        Joint aft of the hip, and top of the knee (joint + 60 mm) above the seat. [m]

    Notes
    -----
    Source: plane geometry; 60 mm from joint to top of the knee is an allowance of this project. The distance must be
    one that the leg can span (`knee_bend` refuses others).

    Examples
    --------
    >>> knee = knee_place(thigh=0.4, shank=0.3, brace=0.4, hip_above_seat=0.09, seat_above_heels=0.21)
    >>> round(float(knee.aft_of_hip), 3), round(float(knee.top_above_seat), 3)
    (0.4, 0.15)
    """
    drop = hip_above_seat + seat_above_heels
    away = np.hypot(brace, drop)
    cosine = (np.square(thigh) + np.square(away) - np.square(shank)) / (2 * thigh * away)
    at_hip = np.arccos(np.clip(cosine, -1.0, 1.0))
    raised = at_hip - np.arctan2(drop, brace)
    return Knee(aft_of_hip=thigh * np.cos(raised), top_above_seat=hip_above_seat + thigh * np.sin(raised) + KNEE_JOINT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Legs:
    """Outline of the legs from the side: x forward of the pin line, z above the seat; hip, knee, toes. [m]"""

    hip_x: Number
    thigh_top: Number
    knee_x: Number
    knee_top: Number
    toe_x: Number
    toe_top: Number


def leg_top(legs: Legs, x: Number) -> Number:
    """Top of the legs at a place along the keel.

    Parameters
    ----------
    legs : Legs
        Outline of the legs. [m]
    x : float or array
        Place forward of the pin line. [m]

    Returns
    -------
    float or array
        Above the top of the seat; straight from thigh at the hip to knee and on to the toes, level beyond. [m]

    Notes
    -----
    Source: plane geometry; a leg drawn as straight lines is a choice of this project.

    Examples
    --------
    >>> legs = Legs(hip_x=0.4, thigh_top=0.16, knee_x=0.0, knee_top=0.2, toe_x=-0.4, toe_top=0.1)
    >>> [round(float(leg_top(legs, x)), 3) for x in (0.5, 0.2, -0.2, -0.6)]
    [0.16, 0.18, 0.15, 0.1]
    """
    over_thigh = np.clip((legs.hip_x - x) / np.subtract(legs.hip_x, legs.knee_x), 0.0, 1.0)
    over_shin = np.clip((legs.knee_x - x) / np.subtract(legs.knee_x, legs.toe_x), 0.0, 1.0)
    rise = np.subtract(legs.knee_top, legs.thigh_top) * over_thigh
    return legs.thigh_top + rise + np.subtract(legs.toe_top, legs.knee_top) * over_shin
