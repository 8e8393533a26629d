"""Where hand and blade are at a sweep angle, in the axes of the boat: x forward, y to port, z up from the water.

Origin on the centreline abreast of the pins. The rower faces aft, so the left hand holds the starboard oar.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from oarkit.working import Array, Number

Side = Literal["port", "starboard"]
SIGN: dict[Side, int] = {"port": 1, "starboard": -1}


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A place in the boat [m]: x forward of the pin line, y to port, z above the water."""

    x: Number
    y: Number
    z: Number


def place_along(
    *, side: Side, along: Number, sweep: Number, dip: Number, span: Number, lock_above_water: Number
) -> Place:
    """A point on the axis of an oar, by its distance outboard of the pin line.

    Parameters
    ----------
    side : {"port", "starboard"}
        Which oar. [text]
    along : float or array
        Along the loom from the pin line, positive toward the blade, negative toward the hand. [m]
    sweep : float or array
        Sweep angle, nil when square to the keel, positive with the blade toward the bow. [rad]
    dip : float or array
        Slope of the loom, positive with the blade lower than the lock. [rad]
    span : float or array
        Distance between the two pin lines. [m]
    lock_above_water : float or array
        Loom axis at the lock above the water. [m]

    Returns
    -------
    Place
        Coordinates in the boat. [m]

    Notes
    -----
    Source: plane geometry; the oar turns about its pin line with its dip kept.

    Examples
    --------
    >>> hand = place_along(side="starboard", along=-0.6, sweep=0.0, dip=0.0, span=1.2, lock_above_water=0.3)
    >>> float(abs(hand.x)), float(abs(hand.y)), float(hand.z)
    (0.0, 0.0, 0.3)
    """
    level = along * np.cos(dip)
    return Place(
        x=level * np.sin(sweep),
        y=SIGN[side] * (np.divide(span, 2) + level * np.cos(sweep)),
        z=lock_above_water - along * np.sin(dip),
    )


def sweep_angles(catch: Number, finish: Number, count: int = 41) -> Array:
    """Sweep angles from catch to finish on a new last axis.

    Parameters
    ----------
    catch : float or array
        Sweep angle at the catch. [rad]
    finish : float or array
        Sweep angle at the finish. [rad]
    count : int, optional
        How many angles. [count]

    Returns
    -------
    array
        Angles, shape of the designs and one axis more. [rad]

    Notes
    -----
    Source: derived; evenly spread.

    Examples
    --------
    >>> sweep_angles(1.0, -1.0, 3).tolist()
    [1.0, 0.0, -1.0]
    """
    return np.linspace(catch, finish, count, axis=-1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Path:
    """Path of a point of an oar at the sweep angles, catch to finish; the recovery is rowed in the other order."""

    drive: Place
    recovery: Place  #: blade square
    feathered: Place  #: the recovery with the blade feathered


def path_along(
    *,
    side: Side,
    along: Number,
    sweep: Array,
    drive_dip: Number,
    recovery_dip: Number,
    feathered_dip: Number,
    span: Number,
    lock_above_water: Number,
) -> Path:
    """Path of a hand or a blade through the drive and back through the recovery.

    Parameters
    ----------
    side : {"port", "starboard"}
        Which oar. [text]
    along : float or array
        Along the loom from the pin line: the blade arm, or less the hand arm. [m]
    sweep : array
        Sweep angles on the last axis, catch to finish. [rad]
    drive_dip : float or array
        Slope of the loom in the drive. [rad]
    recovery_dip : float or array
        Slope of the loom on the recovery, blade square. [rad]
    feathered_dip : float or array
        Slope of the loom on the recovery, blade feathered. [rad]
    span : float or array
        Distance between the two pin lines. [m]
    lock_above_water : float or array
        Loom axis at the lock above the water. [m]

    Returns
    -------
    Path
        Places in the drive and on the recovery. [m]

    Notes
    -----
    Source: plane geometry; hand and blade change height at the two ends of the arc.

    Examples
    --------
    >>> path = path_along(side="port", along=-0.6, sweep=sweep_angles(0.5, -0.5, 3), drive_dip=0.25,
    ...                   recovery_dip=0.1, feathered_dip=0.15, span=1.2, lock_above_water=0.3)
    >>> bool(path.drive.z > path.recovery.z)
    True
    """
    places = [
        place_along(
            side=side,
            along=per_angle(along),
            sweep=sweep,
            dip=per_angle(dip),
            span=per_angle(span),
            lock_above_water=per_angle(lock_above_water),
        )
        for dip in (drive_dip, recovery_dip, feathered_dip)
    ]
    return Path(drive=places[0], recovery=places[1], feathered=places[2])


def per_angle(value: Number) -> Array:
    """A number of each design with a last axis for the angles; a plain number stays one.

    Parameters
    ----------
    value : float or array
        One number a design. [any]

    Returns
    -------
    array
        The same, to be combined with arrays that have the angles last. [any]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> per_angle(np.array([1.0, 2.0])).shape
    (2, 1)
    """
    array = np.asarray(value, float)
    return array[..., None] if array.ndim else array
