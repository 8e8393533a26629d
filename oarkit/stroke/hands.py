"""How the two hands pass one another: one above, one ahead, or some of both, and what each way needs.

Both oars keep the same dip. With u = 2 l_h cos β cos θ, the span S, one oar leading by ψ and one hand v above the
other, the squared distance of the hands is u² − 2 S u cos(ψ/2) + S² + v² = (u − S cos(ψ/2))² + (S sin(ψ/2))² + v².
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.rig.height import HALF_FIST
from oarkit.stroke.path import per_angle
from oarkit.working import Array, BadDesign, Number, Quantity, formula

FIST = 2 * HALF_FIST  #: hands nearer than this, centre to centre, touch [m]
HANDS_AHEAD = 0.150  #: one hand ahead of the other where they cross: 4 to 8 in, common practice [m]
_DERIVED = "plane geometry"


def hand_distance(
    *, sweep: Number, hand_arm: Number, dip: Number, span: Number, apart: Number = 0.0, lead: Number = 0.0
) -> Number:
    """Distance of the two grip centres at a sweep angle.

    Parameters
    ----------
    sweep : float or array
        Mean sweep angle of the two oars. [rad]
    hand_arm : float or array
        Pin line to grip centre. [m]
    dip : float or array
        Slope of the looms. [rad]
    span : float or array
        Distance between the two pin lines. [m]
    apart : float or array, optional
        One hand above the other. [m]
    lead : float or array, optional
        Difference of the two sweep angles. [rad]

    Returns
    -------
    float or array
        Centre to centre. [m]

    Notes
    -----
    Source: plane geometry, as at the head of this file; hands nearer than a fist of 90 mm touch.

    Examples
    --------
    >>> round(float(hand_distance(sweep=0.0, hand_arm=0.55, dip=0.0, span=1.2, apart=0.0)), 3)
    0.1
    """
    across = 2 * hand_arm * np.cos(dip) * np.cos(sweep) - span * np.cos(np.divide(lead, 2))
    aside = span * np.sin(np.divide(lead, 2))
    distance: Number = np.sqrt(np.square(across) + np.square(aside) + np.square(apart))
    return distance


@formula(
    "ψ = asin(k/(l_h cos β))", unit="rad", source=_DERIVED,
    where={"ahead": "k [m]", "hand_arm": "l_h [m]", "dip": "β [rad]"},
)  # fmt: skip
def lead_angle(*, ahead: Number, hand_arm: Number, dip: Number = 0.0) -> Number:
    """Difference of the two sweep angles that keeps one hand ahead of the other.

    Parameters
    ----------
    ahead : float or array
        One hand ahead of the other, along the keel, one oar square. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]
    dip : float or array, optional
        Slope of the looms. [rad]

    Returns
    -------
    float or array
        Difference of sweep angle. [rad]

    Raises
    ------
    BadDesign
        The hand cannot be so far ahead on that arm.

    Notes
    -----
    Source: plane geometry; 100 to 200 mm ahead is common practice.

    Examples
    --------
    >>> round(float(np.degrees(lead_angle(ahead=0.30, hand_arm=0.60))), 1)
    30.0
    """
    sine = np.divide(ahead, hand_arm * np.cos(dip))
    if np.any(sine >= 1):
        raise BadDesign(
            "one hand cannot be kept {ahead} ahead of the other on a hand arm of {arm}",
            {
                "ahead": Quantity(value=float(np.max(ahead)), unit="m"),
                "arm": Quantity(value=float(np.min(hand_arm)), unit="m"),
            },
        )
    return np.arcsin(sine)


@formula(
    "cos(ψ/2) = least of (u² + S² − w²)/(2 S u),  w² = D² − v²,  u = 2 l_h cos β cos θ", unit="rad", source=_DERIVED,
    where={"span": "S [m]", "apart": "v [m]", "wanted": "D [m]"},
)  # fmt: skip
def least_lead(*, least_u: Number, most_u: Number, span: Number, apart: Number, wanted: Number = FIST) -> Number:
    """Least difference of sweep angle that keeps the hands a wanted distance apart over the whole arc.

    Parameters
    ----------
    least_u : float or array
        Twice the hand arm in plan times the least cosine of the sweep in the arc. [m]
    most_u : float or array
        Twice the hand arm in plan times the greatest cosine: 1 where the arc passes square. [m]
    span : float or array
        Distance between the two pin lines. [m]
    apart : float or array
        One hand above the other. [m]
    wanted : float or array, optional
        Least distance of the grip centres. [m]

    Returns
    -------
    float or array
        Difference of sweep angle; nil where none is needed. [rad]

    Notes
    -----
    Source: plane geometry. With w² = wanted² − apart² and q = u² + S² − w² the hands are clear at u while
    cos(ψ/2) ≤ q/(2 S u); the right side is least at u = √(S² − w²), or at the end of the arc nearest to it.

    Examples
    --------
    >>> round(float(least_lead(least_u=0.5, most_u=1.3, span=1.2, apart=0.0, wanted=0.12)), 4)
    0.2003
    """
    rest = np.maximum(np.square(wanted) - np.square(apart), 0.0)
    worst = np.clip(np.sqrt(np.maximum(np.square(span) - rest, 0.0)), least_u, most_u)
    cosine = (np.square(worst) + np.square(span) - rest) / (2 * span * worst)
    lead: Number = 2 * np.arccos(np.clip(cosine, -1.0, 1.0))
    return lead


@formula(
    "v = √(D² − g²),  g = least |S − 2 l_h cos β cos θ| on the arc", unit="m", source=_DERIVED,
    where={"least_across": "g [m]", "wanted": "D [m]"},
)  # fmt: skip
def least_apart(*, least_across: Number, wanted: Number = FIST) -> Number:
    """Least distance in height that keeps hands apart which are side by side, neither ahead.

    Parameters
    ----------
    least_across : float or array
        Least distance of the grip centres in plan on the arc. [m]
    wanted : float or array, optional
        Least distance of the grip centres. [m]

    Returns
    -------
    float or array
        One hand above the other; nil where none is needed. [m]

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> round(float(least_apart(least_across=0.03, wanted=0.05)), 3)
    0.04
    """
    apart: Number = np.sqrt(np.maximum(np.square(wanted) - np.square(least_across), 0.0))
    return apart


@formula(
    "cos θ_x = S/(2 l_h cos β)", unit="rad", source=_DERIVED,
    where={"span": "S [m]", "hand_arm": "l_h [m]", "dip": "β [rad]"},
)  # fmt: skip
def meeting_angle(*, span: Number, hand_arm: Number, dip: Number) -> Number:
    """Sweep angle, both sides of square, where the grip centres stand at one place in plan.

    Parameters
    ----------
    span : float or array
        Distance between the two pin lines. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]
    dip : float or array
        Slope of the looms. [rad]

    Returns
    -------
    float or array
        The angle; nil where the centres do not reach one another even square off. [rad]

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> round(float(np.degrees(meeting_angle(span=1.0, hand_arm=1.0, dip=0.0))), 1)
    60.0
    """
    angle: Number = np.arccos(np.clip(np.divide(span, 2 * hand_arm * np.cos(dip)), -1.0, 1.0))
    return angle


@formula(
    "v_b = v l_b/l_h", unit="m", source=_DERIVED,
    where={"apart": "v [m]", "blade_arm": "l_b [m]", "hand_arm": "l_h [m]"},
)  # fmt: skip
def blade_depth_difference(*, apart: Number, blade_arm: Number, hand_arm: Number) -> Number:
    """How much deeper one blade runs where one hand is above the other and the locks are level.

    Parameters
    ----------
    apart : float or array
        One hand above the other. [m]
    blade_arm : float or array
        Pin line to mid-blade. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]

    Returns
    -------
    float or array
        Difference of depth at mid-blade, boat upright. [m]

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> round(blade_depth_difference(apart=0.06, blade_arm=1.5, hand_arm=0.6), 3)
    0.15
    """
    return apart * blade_arm / hand_arm


@formula(
    "tan φ = v l_b/(l_h (S + 2 l_b))", unit="rad", source=_DERIVED,
    where={"apart": "v [m]", "blade_arm": "l_b [m]", "hand_arm": "l_h [m]", "span": "S [m]"},
)  # fmt: skip
def hiding_heel(*, apart: Number, blade_arm: Number, hand_arm: Number, span: Number) -> Number:
    """Heel that brings both blades to one depth where one hand is above the other and the locks are level.

    Parameters
    ----------
    apart : float or array
        One hand above the other. [m]
    blade_arm : float or array
        Pin line to mid-blade. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]
    span : float or array
        Distance between the two pin lines. [m]

    Returns
    -------
    float or array
        The heel that the rower takes on unawares. [rad]

    Notes
    -----
    Source: plane geometry; with oars level in plan.

    Examples
    --------
    >>> round(float(np.degrees(hiding_heel(apart=0.06, blade_arm=1.5, hand_arm=0.6, span=1.2))), 2)
    2.05
    """
    return np.arctan(apart * blade_arm / (hand_arm * (span + 2 * blade_arm)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Passing:
    """How the hands pass on one way of rowing: what was looked at, and what it would need to keep fists apart."""

    apart: Number  #: one hand above the other [m]
    lead: Number  #: one oar before the other [rad]
    least: Number  #: least distance of the grip centres on the arc [m]
    least_at: Number  #: sweep angle where it is least [rad]
    needed_apart: Number  #: distance in height that keeps the fists clear with no lead [m]
    needed_lead: Number  #: lead that keeps the fists clear at that distance in height [rad]


def passing(
    *, sweep: Array, hand_arm: Number, dip: Number, span: Number, apart: Number = 0.0, lead: Number = 0.0
) -> Passing:
    """Least distance of the hands over the arc, and what would keep the fists clear of one another.

    Parameters
    ----------
    sweep : array
        Sweep angles on the last axis, catch to finish. [rad]
    hand_arm : float or array
        Pin line to grip centre. [m]
    dip : float or array
        Slope of the looms. [rad]
    span : float or array
        Distance between the two pin lines. [m]
    apart : float or array, optional
        One hand above the other. [m]
    lead : float or array, optional
        Difference of the two sweep angles. [rad]

    Returns
    -------
    Passing
        Least distance at the angles given, and the needs in closed form. [m, rad]

    Notes
    -----
    Source: plane geometry; the needs hold over the whole arc, not at the angles alone.

    Examples
    --------
    >>> level = passing(sweep=np.linspace(0.8, -0.5, 41), hand_arm=0.57, dip=0.1, span=1.1)
    >>> bool(level.least < FIST), round(float(level.needed_apart), 3)
    (True, 0.09)
    """
    twice = 2 * hand_arm * np.cos(dip)
    nearest = span * np.cos(np.divide(lead, 2))  # the u at which the hands are nearest: the formula's lowest point
    off = np.abs(per_angle(twice) * np.cos(sweep) - per_angle(nearest))
    worst = np.argmin(off, axis=-1, keepdims=True)
    rest = np.square(span * np.sin(np.divide(lead, 2))) + np.square(apart)
    first, last = sweep[..., 0], sweep[..., -1]
    least_u = twice * np.minimum(np.cos(first), np.cos(last))
    square = (np.minimum(first, last) <= 0) & (np.maximum(first, last) >= 0)
    most_u = twice * np.where(square, 1.0, np.maximum(np.cos(first), np.cos(last)))
    across = np.abs(np.clip(span, least_u, most_u) - span)
    return Passing(
        apart=apart,
        lead=lead,
        least=np.sqrt(np.square(np.take_along_axis(off, worst, -1)[..., 0]) + rest),
        least_at=np.take_along_axis(np.broadcast_to(sweep, off.shape), worst, -1)[..., 0],
        needed_apart=least_apart(least_across=across),
        needed_lead=least_lead(least_u=least_u, most_u=most_u, span=span, apart=apart),
    )
