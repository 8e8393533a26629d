"""Height and place of the seat against stability, the heel test, and the push on the foot brace."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from oarkit.working import BadDesign, Finding, Level, Number, Quantity, formula

RAISE = 0.025  #: by which the seat is tried higher [m]
TEST_WEIGHT = 5.0  #: hung at the rail in a heel test, common practice [kg]
MUCH = 0.10  #: share of the stability that is much to give away, a choice of this project
BRACE_PER_HAND = 2.0  #: brace force over the force at each hand, common practice

_STATICS = "statics of a floating body"


@dataclass(frozen=True, slots=True, kw_only=True)
class HeelTest:
    """A weight [kg] set ``offset`` [m] off the centreline heels the boat by ``angle`` [rad]; the rower sits still."""

    weight: Number
    offset: Number
    angle: Number


@formula(
    "ΔGM = m Δz/(m + M)", unit="m", source=_STATICS,
    where={"rower_mass": "m [kg]", "boat_mass": "M [kg]", "rise": "Δz [m]"},
)  # fmt: skip
def stability_lost(*, rower_mass: Number, boat_mass: Number, rise: Number) -> Number:
    """Rise of the common centre of gravity when the seat is raised: so much of the GM is lost.

    Parameters
    ----------
    rower_mass : float or array
        Mass on the seat. [kg]
    boat_mass : float or array
        Boat and gear. [kg]
    rise : float or array
        Of the seat. [m]

    Returns
    -------
    float or array
        Loss of GM. [m]

    Notes
    -----
    Source: statics of a floating body; the displacement, and so the metacentre, stays where it is.

    Examples
    --------
    >>> round(stability_lost(rower_mass=75, boat_mass=45, rise=0.024), 6)
    0.015
    """
    return rower_mass * rise / (rower_mass + boat_mass)


@formula(
    "GM = m y/(W tan φ)", unit="m", source="heel test, common practice; statics of a floating body",
    where={"weight": "m [kg]", "offset": "y [m]", "total_mass": "W [kg]", "angle": "φ [rad]"},
)  # fmt: skip
def gm_from_heel(*, weight: Number, offset: Number, total_mass: Number, angle: Number) -> Number:
    """Metacentric height from a heel test.

    Parameters
    ----------
    weight : float or array
        Set off the centreline. [kg]
    offset : float or array
        From the centreline to the weight. [m]
    total_mass : float or array
        All that floats: boat, gear, rower and the weight. [kg]
    angle : float or array
        Heel that the weight brings. [rad]

    Returns
    -------
    float or array
        GM of the boat as she floats in the test. [m]

    Raises
    ------
    BadDesign
        The boat did not heel, or lies on her side.

    Notes
    -----
    Source: statics of a floating body; small angles, within which the metacentre stands still.

    Examples
    --------
    >>> round(float(gm_from_heel(weight=5, offset=0.4, total_mass=125, angle=np.arctan(0.1))), 6)
    0.16
    """
    if np.any(np.asarray(angle) <= 0) or np.any(np.asarray(angle) >= math.pi / 2):
        raise BadDesign(
            "a heel of {angle} says nothing of the stability; hang more weight at the rail and read the angle again",
            {"angle": Quantity(value=float(np.min(angle)), unit="rad")},
        )
    return weight * offset / (total_mass * np.tan(angle))


@formula(
    "tan φ = m y/(W GM)", unit="rad", source=_STATICS,
    where={"weight": "m [kg]", "offset": "y [m]", "total_mass": "W [kg]", "gm": "GM [m]"},
)  # fmt: skip
def heel_under(*, weight: Number, offset: Number, total_mass: Number, gm: Number) -> Number:
    """Heel that a weight off the centreline brings to a boat of known stability.

    Parameters
    ----------
    weight : float or array
        Set off the centreline. [kg]
    offset : float or array
        From the centreline to the weight. [m]
    total_mass : float or array
        All that floats. [kg]
    gm : float or array
        Metacentric height. [m]

    Returns
    -------
    float or array
        Heel. [rad]

    Notes
    -----
    Source: statics of a floating body; `gm_from_heel` the other way about.

    Examples
    --------
    >>> round(float(np.tan(heel_under(weight=5, offset=0.4, total_mass=125, gm=0.16))), 6)
    0.1
    """
    return np.arctan(weight * np.asarray(offset) / (total_mass * np.asarray(gm)))


@formula(
    "F = 2 F_h", unit="N", source="common practice", where={"hand_force": "F_h [N]"}
)  # fmt: skip
def brace_force(*, hand_force: Number) -> Number:
    """Push of both feet on the brace, inertia of the body not counted.

    Parameters
    ----------
    hand_force : float or array
        At each hand. [N]

    Returns
    -------
    float or array
        On the brace, both feet together. [N]

    Notes
    -----
    Source: common practice; what both hands pull, the feet push.

    Examples
    --------
    >>> brace_force(hand_force=400)
    800.0
    """
    return BRACE_PER_HAND * hand_force


@formula("M = F L/4", unit="N m", source="statics", where={"force": "F [N]", "length": "L [m]"})
def brace_moment(*, force: Number, length: Number) -> Number:
    """Bending moment of a brace plank that lies in notches at its ends.

    Parameters
    ----------
    force : float or array
        Both feet, taken at the middle. [N]
    length : float or array
        Between the notches. [m]

    Returns
    -------
    float or array
        At the middle of the plank. [N m]

    Notes
    -----
    Source: statics, beam on two supports; feet apart bend it less.

    Examples
    --------
    >>> brace_moment(force=800, length=0.5)
    100.0
    """
    return force * length / 4


@formula(
    "Δx = W GM_L θ/m", unit="m", source=_STATICS,
    where={"rower_mass": "m [kg]", "total_mass": "W [kg]", "gm_long": "GM_L [m]", "trim": "θ [rad]"},
)  # fmt: skip
def seat_shift(*, rower_mass: Number, total_mass: Number, gm_long: Number, trim: Number) -> Number:
    """How far the rower moves along the boat to change her trim.

    Parameters
    ----------
    rower_mass : float or array
        Mass that moves. [kg]
    total_mass : float or array
        All that floats. [kg]
    gm_long : float or array
        Metacentric height lengthwise. [m]
    trim : float or array
        Change of trim that is wanted, small. [rad]

    Returns
    -------
    float or array
        Move of the seat toward the end that is to sink. [m]

    Notes
    -----
    Source: statics of a floating body, small angles.

    Examples
    --------
    >>> round(seat_shift(rower_mass=75, total_mass=120, gm_long=5.0, trim=0.01), 6)
    0.08
    """
    return total_mass * gm_long * trim / rower_mass


def seat_findings(
    *,
    rower_mass: Number,
    boat_mass: Number,
    hand_force: Number,
    half_beam: Number,
    test: HeelTest | None = None,
    rise: Number = RAISE,
    brace_length: Number | None = None,
) -> list[Finding]:
    """Findings on the height of the seat and the push on the brace (scalars).

    Parameters
    ----------
    rower_mass : float
        Mass of the rower. [kg]
    boat_mass : float
        Boat and gear. [kg]
    hand_force : float
        Hard start at each hand. [N]
    half_beam : float
        Centreline to the rail, where a test weight would hang. [m]
    test : HeelTest, optional
        With the rower on the seat; its weight counts as afloat too. [record]
    rise : float, optional
        By which the seat is tried higher. [m]
    brace_length : float, optional
        Of a brace plank between its notches. [m]

    Returns
    -------
    list of Finding
        Sentences with their quantities. [records]

    Notes
    -----
    Source: statics of a floating body; common practice for the heel test and the brace.

    Examples
    --------
    >>> [f.code for f in seat_findings(rower_mass=75, boat_mass=45, hand_force=400, half_beam=0.43)]
    ['seat_height', 'brace']
    """
    lost = float(stability_lost(rower_mass=rower_mass, boat_mass=boat_mass, rise=rise))
    sizes = {"rise": _m(rise), "lost": _m(lost)}
    text = "Every {rise} that the seat is raised costs {lost} of the height that keeps the boat upright (GM)"
    if test is None:
        more, extra, level = _how_to_test(float(rower_mass) + float(boat_mass), float(half_beam), lost)
    else:
        more, extra, level = _tested(test, float(rower_mass) + float(boat_mass), lost, float(rise))
    found = [
        Finding(level=level, code="seat_height", text=text + more, quantities=sizes | extra, source=_STATICS),
        _brace(hand_force, brace_length),
    ]
    return found


def _m(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="m")


def _tested(test: HeelTest, mass: float, lost: float, rise: float) -> tuple[str, dict[str, Quantity], Level]:
    gm = float(
        gm_from_heel(weight=test.weight, offset=test.offset, total_mass=mass + float(test.weight), angle=test.angle)
    )
    share = lost / gm
    sizes = {
        "gm": _m(gm),
        "share": Quantity(value=share, unit="%"),
        "weight": Quantity(value=test.weight, unit="kg"),
        "angle": Quantity(value=test.angle, unit="rad"),
    }
    text = ", or {share} of the {gm} that the heel test found ({weight} heeled her {angle})"
    if share >= 1:
        return f"{text}: she would no longer stand upright.", sizes, "fails"
    if share > MUCH:
        sizes |= {"most": _m(rise * MUCH / share), "much": Quantity(value=MUCH, unit="%")}
        return f"{text}; {{most}} would cost {{much}}.", sizes, "caution"
    return f"{text}.", sizes, "note"


def _how_to_test(mass: float, half_beam: float, lost: float) -> tuple[str, dict[str, Quantity], Level]:
    """How to find the stability, and what an angle would mean in this boat."""
    angles = {"slight": math.radians(2), "plain": math.radians(8)}
    sizes = {
        "weight": Quantity(value=TEST_WEIGHT, unit="kg"),
        "offset": _m(half_beam),
    }
    for name, angle in angles.items():
        gm = float(gm_from_heel(weight=TEST_WEIGHT, offset=half_beam, total_mass=mass + TEST_WEIGHT, angle=angle))
        sizes |= {
            name: Quantity(value=angle, unit="rad"),
            f"gm_{name}": _m(gm),
            f"share_{name}": Quantity(value=lost / gm, unit="%"),
        }
    text = (
        "; what share that is, only a heel test tells. Sit still on the seat, hang {weight} at the rail, {offset} off "
        "the centreline, and read the angle on a plumb bob: {slight} would mean a GM of {gm_slight}, of which the rise "
        "takes {share_slight}; {plain} only {gm_plain}, of which it takes {share_plain}."
    )
    return text, sizes, "note"


def _brace(hand_force: Number, length: Number | None) -> Finding:
    force = float(brace_force(hand_force=hand_force))
    sizes = {"force": Quantity(value=force, unit="N")}
    text = "In a hard start the feet push the brace with about {force}, and more as the body is stopped"
    if length is not None:
        moment = float(brace_moment(force=force, length=length))
        sizes |= {"moment": Quantity(value=moment, unit="N m"), "length": _m(length)}
        text += "; a plank in notches {length} apart is bent by {moment}"
    return Finding(level="note", code="brace", text=f"{text}.", quantities=sizes, source="common practice; statics")
