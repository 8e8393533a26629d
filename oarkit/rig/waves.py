"""Clearance over the thighs against wave height and heel, what a lock block buys, how high the locks may stand."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from oarkit.rig.height import BLADE_COVER, CLOTHING, HALF_FIST
from oarkit.working import Number, formula

TIGHT = 0.025  #: thigh clearance below which the hands are called tight, a choice of this project [m]
ROUNDING_DIP = math.radians(0.1)  #: what advice followed to the millimetre may do to a dip [rad]
STEEP_DIP = math.radians(20)  #: above this the blade lifts water, common practice [rad]
LOCK_BLOCK = 0.025  #: a lock block of customary thickness [m]
LEAST_OVER_SEAT, MOST_OVER_SEAT = (
    0.127,
    0.3048,
)  #: 5 in and 12 in: thighs scraped below, weak above; common practice [m]
_DERIVED = "plane geometry; rule of the lever"


@formula(
    "Δh = (l_h/l_b)(S/2 + l_b) sin φ", unit="m", source=_DERIVED,
    where={"hand_arm": "l_h [m]", "blade_arm": "l_b [m]", "span": "S [m]", "heel": "φ [rad]"},
)  # fmt: skip
def hand_fall_with_heel(*, hand_arm: Number, blade_arm: Number, span: Number, heel: Number) -> Number:
    """How much lower the hand comes over the seat on the side that heels down, blades carried at one height.

    Parameters
    ----------
    hand_arm : float or array
        Pin line to grip centre. [m]
    blade_arm : float or array
        Pin line to mid-blade. [m]
    span : float or array
        Distance between the two pin lines. [m]
    heel : float or array
        Heel of the boat. [rad]

    Returns
    -------
    float or array
        Fall of the hand near the centreline. [m]

    Notes
    -----
    Source: plane geometry; the lock falls by (S/2) sin φ while blade and middle of the boat stay.

    Examples
    --------
    >>> round(float(hand_fall_with_heel(hand_arm=0.6, blade_arm=1.5, span=1.0, heel=np.radians(3))), 4)
    0.0419
    """
    return np.divide(hand_arm, blade_arm) * (np.divide(span, 2) + blade_arm) * np.sin(heel)


@formula(
    "C = h_ls + (l_h/l_b)(H − c − y) − Δh(φ) − 45 mm − T − 15 mm", unit="m", source=_DERIVED,
    where={
        "lock_above_water": "H [m]", "lock_above_seat": "h_ls [m]", "hand_arm": "l_h [m]", "blade_arm": "l_b [m]",
        "span": "S [m]", "half_height": "y [m]", "thigh_thickness": "T [m]", "wave": "c [m]", "heel": "φ [rad]",
    },
)  # fmt: skip
def clearance_in_waves(
    *,
    lock_above_water: Number,
    lock_above_seat: Number,
    hand_arm: Number,
    blade_arm: Number,
    span: Number,
    half_height: Number,
    thigh_thickness: Number,
    wave: Number,
    heel: Number = 0.0,
) -> Number:
    """Clear height between fist and thigh against the wave to clear and the heel: the curves.

    Parameters
    ----------
    lock_above_water : float or array
        Loom axis at the lock above the water, boat loaded and upright. [m]
    lock_above_seat : float or array
        Loom axis at the lock above the top of the seat. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]
    blade_arm : float or array
        Pin line to mid-blade. [m]
    span : float or array
        Distance between the two pin lines. [m]
    half_height : float or array
        Blade axis to its lower edge: half the width square, 5 mm feathered. [m]
    thigh_thickness : float or array
        Seat to the highest point of the thigh, seated. [m]
    wave : float or array
        Lower edge of the blade above the level water. [m]
    heel : float or array, optional
        Heel toward the side looked at. [rad]

    Returns
    -------
    float or array
        Clearance, negative where the hands strike. [m]

    Notes
    -----
    Source: plane geometry; with no heel it is `oarkit.rig.height.thigh_clearance`.

    Examples
    --------
    >>> round(float(clearance_in_waves(lock_above_water=0.3, lock_above_seat=0.2, hand_arm=0.5, blade_arm=1.25,
    ...                                span=1.1, half_height=0.06, thigh_thickness=0.15, wave=0.1)), 3)
    0.046
    """
    hand = lock_above_seat + np.divide(hand_arm, blade_arm) * (lock_above_water - wave - half_height)
    fall = hand_fall_with_heel(hand_arm=hand_arm, blade_arm=blade_arm, span=span, heel=heel)
    return hand - fall - HALF_FIST - thigh_thickness - CLOTHING


@formula(
    "sin φ = C l_b/(l_h (S/2 + l_b))", unit="rad", source=_DERIVED,
    where={"clearance": "C [m]", "hand_arm": "l_h [m]", "blade_arm": "l_b [m]", "span": "S [m]"},
)  # fmt: skip
def heel_that_takes(*, clearance: Number, hand_arm: Number, blade_arm: Number, span: Number) -> Number:
    """Heel that eats a thigh clearance whole.

    Parameters
    ----------
    clearance : float or array
        Thigh clearance, boat upright. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]
    blade_arm : float or array
        Pin line to mid-blade. [m]
    span : float or array
        Distance between the two pin lines. [m]

    Returns
    -------
    float or array
        Heel; nil where there is no clearance, a right angle where no heel takes it. [rad]

    Notes
    -----
    Source: plane geometry; the inverse of `hand_fall_with_heel`.

    Examples
    --------
    >>> round(float(np.degrees(heel_that_takes(clearance=0.0419, hand_arm=0.6, blade_arm=1.5, span=1.0))), 1)
    3.0
    """
    sine = np.maximum(clearance, 0.0) * blade_arm / (hand_arm * (np.divide(span, 2) + blade_arm))
    return np.arcsin(np.minimum(sine, 1.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockGain:
    """What a block under the locks buys, and what it costs."""

    clearance: Number  #: over the thigh, more by so much [m]
    largest_wave: Number  #: blade carried higher by so much before the hands touch [m]
    hand_in_drive: Number  #: hand higher in the drive [m]
    dip_in_drive: Number  #: new slope of the loom in the drive [rad]


def lock_block(
    *, block: Number, lock_above_water: Number, blade_width: Number, hand_arm: Number, blade_arm: Number
) -> BlockGain:
    """What a block of some thickness under both locks changes.

    Parameters
    ----------
    block : float or array
        Thickness of the block. [m]
    lock_above_water : float or array
        Loom axis at the lock above the water, before. [m]
    blade_width : float or array
        Width of the blade. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]
    blade_arm : float or array
        Pin line to mid-blade. [m]

    Returns
    -------
    BlockGain
        Gains, and the dip that results. [m, rad]

    Notes
    -----
    Source: plane geometry; hands rise by the block times 1 + l_h/l_b, the largest wave by the block times
    1 + l_b/l_h.

    Examples
    --------
    >>> gain = lock_block(block=0.025, lock_above_water=0.30, blade_width=0.12, hand_arm=0.5, blade_arm=1.25)
    >>> round(float(gain.clearance), 4), round(float(gain.largest_wave), 4)
    (0.035, 0.0875)
    """
    rise = block * (1 + np.divide(hand_arm, blade_arm))
    sine = np.minimum((lock_above_water + block + np.divide(blade_width, 2) + BLADE_COVER) / blade_arm, 1.0)
    return BlockGain(
        clearance=rise,
        largest_wave=block * (1 + np.divide(blade_arm, hand_arm)),
        hand_in_drive=rise,
        dip_in_drive=np.arcsin(sine),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class LockRange:
    """How high the locks may stand over the seat [m], and each bound by itself."""

    lowest: Number
    highest: Number
    thighs: Number  #: lowest that leaves the hands 25 mm over the thighs
    custom_low: Number
    dip: Number  #: highest that keeps the dip at 20 degrees
    custom_high: Number


def lock_range(
    *,
    lock_above_water: Number,
    lock_above_seat: Number,
    thigh_clearance: Number,
    blade_width: Number,
    hand_arm: Number,
    blade_arm: Number,
) -> LockRange:
    """How low and how high the locks may stand over the seat, seat and oar as they are.

    Parameters
    ----------
    lock_above_water : float or array
        Loom axis at the lock above the water. [m]
    lock_above_seat : float or array
        Loom axis at the lock above the top of the seat. [m]
    thigh_clearance : float or array
        On the recovery, at the present height. [m]
    blade_width : float or array
        Width of the blade. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]
    blade_arm : float or array
        Pin line to mid-blade. [m]

    Returns
    -------
    LockRange
        Heights of the loom axis above the seat; the lowest may lie above the highest. [m]

    Notes
    -----
    Source: plane geometry; 5 to 12 in over the seat and a dip of at most 20° are common practice, 25 mm over the thighs
    a choice of this project.

    Examples
    --------
    >>> here = lock_range(lock_above_water=0.3, lock_above_seat=0.2, thigh_clearance=0.046, blade_width=0.12,
    ...                   hand_arm=0.5, blade_arm=1.25)
    >>> round(float(here.thighs), 4), round(float(here.dip), 4)
    (0.185, 0.2475)
    """
    thighs = lock_above_seat + (TIGHT - thigh_clearance) / (1 + np.divide(hand_arm, blade_arm))
    room = blade_arm * math.sin(STEEP_DIP) - np.divide(blade_width, 2) - BLADE_COVER - lock_above_water
    dip = lock_above_seat + room
    return LockRange(
        lowest=np.maximum(thighs, LEAST_OVER_SEAT),
        highest=np.minimum(dip, MOST_OVER_SEAT),
        thighs=thighs,
        custom_low=LEAST_OVER_SEAT,
        dip=dip,
        custom_high=MOST_OVER_SEAT,
    )


@formula(
    "l_b ≤ l_h (H − c − y)/(45 mm + T + 15 mm − h_ls)", unit="m", source=_DERIVED,
    where={
        "hand_arm": "l_h [m]", "lock_above_water": "H [m]", "wave_clearance": "c [m]", "half_height": "y [m]",
        "thigh_thickness": "T [m]", "lock_above_seat": "h_ls [m]",
    },
)  # fmt: skip
def longest_blade_arm(
    *,
    hand_arm: Number,
    lock_above_water: Number,
    wave_clearance: Number,
    half_height: Number,
    thigh_thickness: Number,
    lock_above_seat: Number,
) -> Number:
    """Longest blade arm with which the hands still pass over the thighs, set by the seat's height.

    Parameters
    ----------
    hand_arm : float or array
        Pin line to grip centre. [m]
    lock_above_water : float or array
        Loom axis at the lock above the water. [m]
    wave_clearance : float or array
        Lower edge of the blade above the water on the recovery. [m]
    half_height : float or array
        Blade axis to its lower edge: half the width square, 5 mm feathered. [m]
    thigh_thickness : float or array
        Seat to the highest point of the thigh, seated. [m]
    lock_above_seat : float or array
        Loom axis at the lock above the top of the seat. [m]

    Returns
    -------
    float or array
        Blade arm at which the thigh clearance is nil; "inf" where the lock alone stands high enough. [m]

    Notes
    -----
    Source: plane geometry; `oarkit.rig.height.thigh_clearance` set to nil and solved for the blade arm. A negative
    bound says that no oar can do it: the blade would have to be carried higher than the lock. "inf" holds while the
    wave is no higher than the lock; over a higher one an arm may also be too short.

    Examples
    --------
    >>> round(float(longest_blade_arm(hand_arm=0.5, lock_above_water=0.3, wave_clearance=0.1, half_height=0.06,
    ...                               thigh_thickness=0.18, lock_above_seat=0.2)), 3)
    1.75
    """
    short = HALF_FIST + thigh_thickness + CLOTHING - lock_above_seat
    rise = lock_above_water - wave_clearance - half_height
    with np.errstate(divide="ignore", invalid="ignore"):
        bound = np.where(np.asarray(short) > 1e-9, hand_arm * rise / short, np.inf)
    return bound[()]


@formula(
    "l_b = l_h (H + w/2 + 20 mm)/(h − h_ls)", unit="m", source=_DERIVED,
    where={
        "hand_arm": "l_h [m]", "lock_above_water": "H [m]", "blade_width": "w [m]", "hand_height": "h [m]",
        "lock_above_seat": "h_ls [m]",
    },
)  # fmt: skip
def blade_arm_for_hand(
    *, hand_arm: Number, lock_above_water: Number, blade_width: Number, hand_height: Number, lock_above_seat: Number
) -> Number:
    """Blade arm that puts the hand at a wanted height in the drive, set by the seat's height.

    Parameters
    ----------
    hand_arm : float or array
        Pin line to grip centre. [m]
    lock_above_water : float or array
        Loom axis at the lock above the water. [m]
    blade_width : float or array
        Width of the blade. [m]
    hand_height : float or array
        Wanted height of the grip centre above the seat in the drive. [m]
    lock_above_seat : float or array
        Loom axis at the lock above the top of the seat. [m]

    Returns
    -------
    float or array
        The blade arm; "inf" where the lock stands as high as the hand is wanted. [m]

    Notes
    -----
    Source: plane geometry; `oarkit.rig.height.hand_height` in the drive solved for the blade arm.

    Examples
    --------
    >>> round(float(blade_arm_for_hand(hand_arm=0.5, lock_above_water=0.3, blade_width=0.12, hand_height=0.35,
    ...                                lock_above_seat=0.2)), 4)
    1.2667
    """
    above = np.subtract(hand_height, lock_above_seat)
    with np.errstate(divide="ignore", invalid="ignore"):
        arm = np.where(
            above > 0, hand_arm * (lock_above_water + np.divide(blade_width, 2) + BLADE_COVER) / above, np.inf
        )
    return arm[()]
