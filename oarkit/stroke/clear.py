"""What the hands meet on their way: thighs, knees and feet, the rail and its coaming, the lock bracket."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.rig.height import CLOTHING, HALF_FIST
from oarkit.rower.legs import Legs, leg_top
from oarkit.stroke.path import Place, per_angle
from oarkit.working import Array, Number

LEGS_HALF_WIDTH = 0.21  #: feet 12 in apart (common practice) and 60 mm of knee outside each, from the middle [m]
BRACKET_FOOT = 0.025  #: bracket beyond its bolts, fore and aft [m], a choice of this project


@dataclass(frozen=True, slots=True, kw_only=True)
class Sides:
    """What stands at the boat's side [m]: rail and coaming, and the bracket out to the pin."""

    rail_inner: Number  #: inner face of the rail, from the centreline
    rail_outer: Number  #: outer face
    rail_top: Number  #: top of rail or coaming above the water
    pin: Number  #: half the span
    lock_above_water: Number
    bracket_half_length: Number  #: fore and aft of the pin line


def leg_clearance(hand: Place, legs: Legs, *, seat_above_water: Number) -> Array:
    """Clear height between fist and clothed leg at every place of a path.

    Parameters
    ----------
    hand : Place
        Places of the grip centre, angles on the last axis. [m]
    legs : Legs
        Outline of the legs. [m]
    seat_above_water : float or array
        Top of the seat above the water. [m]

    Returns
    -------
    array
        Clearance, negative where the hand strikes; "inf" where the hand is outside the legs. [m]

    Notes
    -----
    Source: plane geometry; half a fist of 45 mm, clothing of 15 mm and legs of 210 mm half width are choices of this
    project.

    Examples
    --------
    >>> legs = Legs(hip_x=0.4, thigh_top=0.16, knee_x=0.0, knee_top=0.2, toe_x=-0.4, toe_top=0.1)
    >>> hand = Place(x=np.array([0.0, 0.0]), y=np.array([0.1, 0.4]), z=np.array([0.40, 0.40]))
    >>> leg_clearance(hand, legs, seat_above_water=0.1).round(3).tolist()
    [0.04, inf]
    """
    outline = Legs(**{name: per_angle(getattr(legs, name)) for name in Legs.__slots__})
    clear = hand.z - per_angle(seat_above_water) - HALF_FIST - CLOTHING - leg_top(outline, hand.x)
    return np.where(np.abs(hand.y) > LEGS_HALF_WIDTH + HALF_FIST, np.inf, clear)


def side_clearance(hand: Place, sides: Sides) -> Array:
    """Distance from fist to the rail with its coaming and to the bracket, at every place of a path.

    Parameters
    ----------
    hand : Place
        Places of the grip centre, angles on the last axis. [m]
    sides : Sides
        What stands at the boat's side. [m]

    Returns
    -------
    array
        Distance from the fist's ball of 45 mm to the nearer of the two; negative where it strikes, and the more so the
        deeper it would have to go. [m]

    Notes
    -----
    Source: plane geometry; the rail is taken as parallel to the keel. One that curves in toward the stern stands
    nearer to the hand at the catch by as much as it curves in there.

    Examples
    --------
    >>> sides = Sides(rail_inner=0.4, rail_outer=0.42, rail_top=0.25, pin=0.55, lock_above_water=0.3,
    ...               bracket_half_length=0.1)
    >>> hand = Place(x=np.array([-0.4]), y=np.array([0.30]), z=np.array([0.25]))
    >>> side_clearance(hand, sides).round(3).tolist()
    [0.055]
    """
    s = Sides(**{name: per_angle(getattr(sides, name)) for name in Sides.__slots__})
    x, y, z = np.abs(hand.x), np.abs(hand.y), hand.z
    inside = s.rail_inner - y
    rail = _to_box(np.maximum(inside, y - s.rail_outer), z - s.rail_top)
    outward = np.maximum(np.minimum(s.rail_inner, s.pin) - y, y - np.maximum(s.pin, s.rail_outer))
    above = np.maximum(s.rail_top - z, z - s.lock_above_water)
    bracket = _to_box(x - s.bracket_half_length, outward, above)
    nearest: Array = np.minimum(rail, bracket) - HALF_FIST
    return nearest


def _to_box(*beyond: Number) -> Array:
    """Distance to a box from how far a point lies beyond its faces; inside, the way out with its sign turned."""
    outside = np.sqrt(sum(np.maximum(each, 0.0) ** 2 for each in beyond))
    within: Array = outside + np.minimum(np.maximum.reduce(np.broadcast_arrays(*beyond)), 0.0)
    return within
