"""Angles of catch and finish, the arc between them, and how far the hand travels."""

from __future__ import annotations

import math

import numpy as np

from oarkit.working import BadDesign, Number, Quantity, formula

MOST_SWEEP = math.radians(80)  #: nearer to fore and aft an oar pulls on nothing [rad]
THOLE_CATCH = math.radians(50)  #: fixed tholes rarely let an oar go further, common practice [rad]
FAR_CATCH = math.radians(65)  #: a reach beyond is not counted where nothing is said, a choice of this project [rad]
IDEAL_CATCH = math.radians(60)  #: of an ideal arc of 60 + 35 degrees, common practice [rad]
_DERIVED = "plane geometry"


def stops_at(catch_limit: Number | None) -> Number:
    """Greatest sweep angle that is counted: the limit that was told, else 65°.

    Parameters
    ----------
    catch_limit : float, array or None
        Most that the lock, the boat or the rower allows, where it was told. [rad]

    Returns
    -------
    float or array
        The angle. [rad]

    Notes
    -----
    Source: choice of this project; the ideal is 60° (common practice), and beyond it the pull goes across the boat.

    Examples
    --------
    >>> round(math.degrees(stops_at(None))), stops_at(0.8)
    (65, 0.8)
    """
    return FAR_CATCH if catch_limit is None else catch_limit


@formula(
    "sin θ_c = x_c/(l_h cos β_d), at most the limit", unit="rad", source=_DERIVED,
    where={"reach": "x_c [m]", "hand_arm": "l_h [m]", "dip": "β_d [rad]", "limit": "limit [rad]"},
)  # fmt: skip
def catch_angle(*, reach: Number, hand_arm: Number, dip: Number, limit: Number = MOST_SWEEP) -> Number:
    """Sweep angle at the catch from where the hand is.

    Parameters
    ----------
    reach : float or array
        Hand aft of the pin line along the keel. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]
    dip : float or array
        Slope of the loom in the drive. [rad]
    limit : float or array, optional
        Most that the lock, the boat or the rower allows. [rad]

    Returns
    -------
    float or array
        Sweep angle, positive with the blade toward the bow. [rad]

    Notes
    -----
    Source: plane geometry; the limit of 80° where none is given is a choice of this project.

    Examples
    --------
    >>> round(math.degrees(catch_angle(reach=0.30, hand_arm=0.60, dip=0.0)), 1)
    30.0
    """
    sine = np.clip(np.divide(reach, hand_arm * np.cos(dip)), -1.0, 1.0)
    angle: Number = np.minimum(np.arcsin(sine), limit)
    return angle


@formula(
    "sin θ_f = −x_f/(l_h cos β_d), at least the limit", unit="rad", source=_DERIVED,
    where={"reach": "x_f [m]", "hand_arm": "l_h [m]", "dip": "β_d [rad]", "limit": "limit [rad]"},
)  # fmt: skip
def finish_angle(*, reach: Number, hand_arm: Number, dip: Number, limit: Number = -MOST_SWEEP) -> Number:
    """Sweep angle at the finish from where the hand is.

    Parameters
    ----------
    reach : float or array
        Hand forward of the pin line along the keel. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]
    dip : float or array
        Slope of the loom in the drive. [rad]
    limit : float or array, optional
        Least that the lock, the boat or the rower allows, negative. [rad]

    Returns
    -------
    float or array
        Sweep angle, negative with the blade toward the stern. [rad]

    Notes
    -----
    Source: plane geometry; the limit of −80° where none is given is a choice of this project.

    Examples
    --------
    >>> round(math.degrees(finish_angle(reach=0.30, hand_arm=0.60, dip=0.0)), 1)
    -30.0
    """
    sine = np.clip(np.divide(reach, hand_arm * np.cos(dip)), -1.0, 1.0)
    angle: Number = np.maximum(-np.arcsin(sine), limit)
    return angle


@formula("θ = θ_c − θ_f", unit="rad", source="definition", where={"catch": "θ_c [rad]", "finish": "θ_f [rad]"})
def stroke_arc(*, catch: Number, finish: Number) -> Number:
    """Angle that the oar sweeps from catch to finish.

    Parameters
    ----------
    catch : float or array
        Sweep angle at the catch. [rad]
    finish : float or array
        Sweep angle at the finish. [rad]

    Returns
    -------
    float or array
        The arc. [rad]

    Raises
    ------
    BadDesign
        The hand at the finish is not forward of the hand at the catch.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> float(stroke_arc(catch=1.0, finish=-0.5))
    1.5
    """
    arc: Number = np.subtract(catch, finish)
    if np.any(arc <= 0):
        raise BadDesign(
            "the reach lies behind the pins: at the catch the hands get no further aft than where they finish, "
            "so there is no stroke ({arc}); bring the seat nearer to the pins, or check reach, arm length and "
            "trunk angles, and the limits of catch and finish",
            {"arc": Quantity(value=float(np.min(arc)), unit="rad")},
        )
    return arc


@formula(
    "s_h = l_h cos β_d θ", unit="m", source=_DERIVED,
    where={"hand_arm": "l_h [m]", "dip": "β_d [rad]", "arc": "θ [rad]"},
)  # fmt: skip
def hand_travel(*, hand_arm: Number, dip: Number, arc: Number) -> Number:
    """Length of the hand's path through the drive.

    Parameters
    ----------
    hand_arm : float or array
        Pin line to grip centre. [m]
    dip : float or array
        Slope of the loom in the drive. [rad]
    arc : float or array
        Angle from catch to finish. [rad]

    Returns
    -------
    float or array
        Path along the arc, not its chord. [m]

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> round(float(hand_travel(hand_arm=0.60, dip=0.0, arc=1.5)), 3)
    0.9
    """
    return hand_arm * np.cos(dip) * arc


@formula(
    "c = x_c + x_f = l_h cos β_d (sin θ_c − sin θ_f)", unit="m", source=_DERIVED,
    where={"hand_arm": "l_h [m]", "dip": "β_d [rad]", "catch": "θ_c [rad]", "finish": "θ_f [rad]"},
)  # fmt: skip
def handle_chord(*, hand_arm: Number, dip: Number, catch: Number, finish: Number) -> Number:
    """How far the hand goes along the keel from catch to finish.

    Parameters
    ----------
    hand_arm : float or array
        Pin line to grip centre. [m]
    dip : float or array
        Slope of the loom in the drive. [rad]
    catch : float or array
        Sweep angle at the catch. [rad]
    finish : float or array
        Sweep angle at the finish. [rad]

    Returns
    -------
    float or array
        Distance along the keel. [m]

    Notes
    -----
    Source: plane geometry. Shaw in Rankov (ed.) 2012, p. 48, gives a free chord of about 1.1 m for trained men.

    Examples
    --------
    >>> round(float(handle_chord(hand_arm=0.60, dip=0.0, catch=np.pi / 6, finish=-np.pi / 6)), 3)
    0.6
    """
    chord: Number = hand_arm * np.cos(dip) * (np.sin(catch) - np.sin(finish))
    return chord


@formula(
    "θ = 2 asin(c/(2 l))", unit="rad", source="Shaw in Rankov (ed.) 2012, p. 77",
    where={"chord": "c [m]", "arm": "l [m]"},
)  # fmt: skip
def arc_of_chord(*, chord: Number, arm: Number) -> Number:
    """Arc of a stroke that lies evenly about square, from its chord.

    Parameters
    ----------
    chord : float or array
        Distance of the hand from catch to finish along the keel. [m]
    arm : float or array
        Arm in plan: true length times the cosine of the dip. [m]

    Returns
    -------
    float or array
        The arc. [rad]

    Raises
    ------
    BadDesign
        The chord is longer than the oar can swing.

    Notes
    -----
    Source: J. T. Shaw in B. Rankov (ed.), Trireme Olympias: The Final Report (2012), p. 77.

    Examples
    --------
    >>> round(math.degrees(arc_of_chord(chord=0.6, arm=0.6)), 1)
    60.0
    """
    sine = np.divide(chord, 2 * np.asarray(arm))
    if np.any(sine > 1):
        raise BadDesign(
            "a chord of {chord} is more than the whole circle of an arm of {arm}",
            {
                "chord": Quantity(value=float(np.max(chord)), unit="m"),
                "arm": Quantity(value=float(np.min(arm)), unit="m"),
            },
        )
    arc: Number = 2 * np.arcsin(sine)
    return arc
