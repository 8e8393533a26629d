"""Dip, hand height, clearance of thighs and waves, lock offset for crossed hands.

The oar turns about its lock: what the blade must do in the water fixes the slope of the loom, and the slope
fixes the height of the hand. Heights of the loom are taken on its axis at the pin line.
"""

from __future__ import annotations

import numpy as np

from oarkit.working import BadDesign, Number, Quantity, formula

BLADE_COVER = 0.020  #: water over the blade's top edge at mid-blade in the drive [m], common practice
FEATHERED_HALF_WIDTH = 0.005  #: stands in place of half the blade width when the blade is feathered [m]
HALF_FIST = 0.045  #: grip axis to the underside of the fist [m]
CLOTHING = 0.015  #: ordinary clothing over the thigh [m]

_DERIVED = "plane geometry; rule of the lever"


def _sine(rise: Number, arm: Number, doing: str) -> Number:
    """Sine of the dip, refused where no oar could reach."""
    sine = np.divide(rise, arm)
    if np.any(np.abs(sine) >= 1.0):
        raise BadDesign(
            f"the blade cannot {doing}: it would have to stand {{rise}} from the lock's height with an arm of "
            f"only {{arm}}; "
            "check the lock height above the water and the oar's length",
            {
                "rise": Quantity(value=float(np.max(np.abs(rise))), unit="m"),
                "arm": Quantity(value=float(np.min(arm)), unit="m"),
            },
        )
    return sine


@formula(
    "sin β_d = (H + w/2 + d)/l_b", unit="rad", source=_DERIVED,
    where={
        "lock_above_water": "H [m]", "blade_width": "w [m]", "cover": "d [m]", "blade_arm": "l_b [m]",
    },
)  # fmt: skip
def dip_in_drive(
    *, lock_above_water: Number, blade_width: Number, blade_arm: Number, cover: Number = BLADE_COVER
) -> Number:
    """Slope of the loom in the drive, blade square and just covered.

    Parameters
    ----------
    lock_above_water : float or array
        Loom axis at the lock above the water, boat loaded. [m]
    blade_width : float or array
        Width of the blade. [m]
    blade_arm : float or array
        Pin line to mid-blade. [m]
    cover : float or array, optional
        Water over the top edge at mid-blade. [m]

    Returns
    -------
    float or array
        Dip, positive with the blade lower than the lock. [rad]

    Raises
    ------
    BadDesign
        The blade cannot reach the water.

    Notes
    -----
    Source: plane geometry; a cover of 20 mm is common practice.

    Examples
    --------
    >>> round(float(np.degrees(dip_in_drive(lock_above_water=0.30, blade_width=0.12, blade_arm=1.30))), 2)
    17.0
    """
    return np.arcsin(_sine(lock_above_water + blade_width / 2 + cover, blade_arm, "be covered in the drive"))


@formula(
    "sin β_r = (H − c − y)/l_b,  y = w/2 square, 5 mm feathered", unit="rad", source=_DERIVED,
    where={
        "lock_above_water": "H [m]", "wave_clearance": "c [m]", "half_height": "y [m]", "blade_arm": "l_b [m]",
    },
)  # fmt: skip
def dip_in_recovery(
    *, lock_above_water: Number, wave_clearance: Number, half_height: Number, blade_arm: Number
) -> Number:
    """Slope of the loom on the recovery, lower edge of the blade clear of the water.

    Parameters
    ----------
    lock_above_water : float or array
        Loom axis at the lock above the water, boat loaded. [m]
    wave_clearance : float or array
        Lower edge of the blade above the water at mid-blade. [m]
    half_height : float or array
        Blade axis to its lower edge: half the width square, 5 mm feathered. [m]
    blade_arm : float or array
        Pin line to mid-blade. [m]

    Returns
    -------
    float or array
        Dip, positive with the blade lower than the lock. [rad]

    Raises
    ------
    BadDesign
        The blade cannot be carried that high.

    Notes
    -----
    Source: plane geometry; 5 mm for a feathered blade is a choice of this project.

    Examples
    --------
    >>> round(float(np.degrees(dip_in_recovery(
    ...     lock_above_water=0.30, wave_clearance=0.10, half_height=0.06, blade_arm=1.30))), 2)
    6.18
    """
    return np.arcsin(_sine(lock_above_water - wave_clearance - half_height, blade_arm, "be carried clear of that wave"))


@formula(
    "h = h_ls + l_h sin β",
    unit="m",
    source=_DERIVED,
    where={"lock_above_seat": "h_ls [m]", "hand_arm": "l_h [m]", "dip": "β [rad]"},
)
def hand_height(*, lock_above_seat: Number, hand_arm: Number, dip: Number) -> Number:
    """Height of the grip centre above the seat.

    Parameters
    ----------
    lock_above_seat : float or array
        Loom axis at the lock above the top of the seat. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]
    dip : float or array
        Slope of the loom, positive with the blade lower. [rad]

    Returns
    -------
    float or array
        Grip centre above the top of the seat. [m]

    Notes
    -----
    Source: plane geometry; the oar taken as rigid and turning about the pin.

    Examples
    --------
    >>> round(float(hand_height(lock_above_seat=0.20, hand_arm=0.60, dip=np.radians(10))), 4)
    0.3042
    """
    return lock_above_seat + hand_arm * np.sin(dip)


@formula(
    "C = h − 45 mm − T − 15 mm",
    unit="m",
    source="plane geometry; the two allowances are a choice of this project",
    where={"hand_height": "h [m]", "thigh_thickness": "T [m]"},
)
def thigh_clearance(*, hand_height: Number, thigh_thickness: Number) -> Number:
    """Clear height between the fist and the clothed thigh.

    Parameters
    ----------
    hand_height : float or array
        Grip centre above the top of the seat. [m]
    thigh_thickness : float or array
        Seat to the highest point of the thigh, seated. [m]

    Returns
    -------
    float or array
        Clearance, negative where the hands strike. [m]

    Notes
    -----
    Source: plane geometry; half a fist of 45 mm and clothing of 15 mm are choices of this project.

    Examples
    --------
    >>> round(thigh_clearance(hand_height=0.29, thigh_thickness=0.17), 3)
    0.06
    """
    return hand_height - HALF_FIST - thigh_thickness - CLOTHING


@formula(
    "c_max = H − y − l_b (45 mm + T + 15 mm − h_ls)/l_h", unit="m", source=_DERIVED,
    where={
        "lock_above_water": "H [m]", "half_height": "y [m]", "blade_arm": "l_b [m]", "hand_arm": "l_h [m]",
        "lock_above_seat": "h_ls [m]", "thigh_thickness": "T [m]",
    },
)  # fmt: skip
def largest_wave(
    *,
    lock_above_water: Number,
    half_height: Number,
    blade_arm: Number,
    hand_arm: Number,
    lock_above_seat: Number,
    thigh_thickness: Number,
) -> Number:
    """Highest the lower edge of the blade can be carried before the hands touch the thighs.

    Parameters
    ----------
    lock_above_water : float or array
        Loom axis at the lock above the water, boat loaded. [m]
    half_height : float or array
        Blade axis to its lower edge: half the width square, 5 mm feathered. [m]
    blade_arm : float or array
        Pin line to mid-blade. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]
    lock_above_seat : float or array
        Loom axis at the lock above the top of the seat. [m]
    thigh_thickness : float or array
        Seat to the highest point of the thigh, seated. [m]

    Returns
    -------
    float or array
        Wave clearance at which the thigh clearance is nil; negative where the hands touch even with the
        blade at the water. [m]

    Notes
    -----
    Source: plane geometry; `thigh_clearance` set to nil and solved for the wave clearance.

    Examples
    --------
    >>> round(largest_wave(lock_above_water=0.3, half_height=0.06, blade_arm=1.3, hand_arm=0.5,
    ...                    lock_above_seat=0.2, thigh_thickness=0.15), 3)
    0.214
    """
    lowest_hand = HALF_FIST + thigh_thickness + CLOTHING
    return lock_above_water - half_height - blade_arm * (lowest_hand - lock_above_seat) / hand_arm


@formula(
    "O_d = 2 L_i cos β_d − S",
    unit="m",
    source=_DERIVED,
    where={"inboard": "L_i [m]", "dip": "β_d [rad]", "span": "S [m]"},
)
def overlap_in_drive(*, inboard: Number, dip: Number, span: Number) -> Number:
    """Overlap of the handles with the oars dipped, as they lie in the drive.

    Parameters
    ----------
    inboard : float or array
        Handle end to pin line. [m]
    dip : float or array
        Slope of the loom in the drive. [rad]
    span : float or array
        Distance between the two pin lines. [m]

    Returns
    -------
    float or array
        Overlap in plan, negative for a gap. [m]

    Notes
    -----
    Source: plane geometry; a sloping length shows its cosine in plan (Shaw in Rankov (ed.) 2012, Table 9.1).

    Examples
    --------
    >>> round(float(overlap_in_drive(inboard=0.65, dip=np.radians(15), span=1.2)), 4)
    0.0557
    """
    return 2 * inboard * np.cos(dip) - span


@formula(
    "δ = v l_b/(l_b + l_h)",
    unit="m",
    source=_DERIVED,
    where={"hands_apart": "v [m]", "blade_arm": "l_b [m]", "hand_arm": "l_h [m]"},
)
def lock_offset(*, hands_apart: Number, blade_arm: Number, hand_arm: Number) -> Number:
    """How much higher the upper hand's lock stands, so that both blades run at one depth.

    Parameters
    ----------
    hands_apart : float or array
        Vertical distance of the two grip centres where they cross. [m]
    blade_arm : float or array
        Pin line to mid-blade. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]

    Returns
    -------
    float or array
        Lift of the upper hand's lock over the other. [m]

    Notes
    -----
    Source: plane geometry; raising a lock by the offset lifts its hand by offset (1 + l_h/l_b) at equal depth.

    Examples
    --------
    >>> round(lock_offset(hands_apart=0.07, blade_arm=1.5, hand_arm=0.6), 4)
    0.05
    """
    return hands_apart * blade_arm / (blade_arm + hand_arm)


@formula("t = (b_L/2) sin β", unit="m", source=_DERIVED, where={"blade_length": "b_L [m]", "dip": "β [rad]"})
def tip_below_mid_blade(*, blade_length: Number, dip: Number) -> Number:
    """How much lower the tip hangs than the middle of the blade.

    Parameters
    ----------
    blade_length : float or array
        Blade root to tip. [m]
    dip : float or array
        Slope of the loom. [rad]

    Returns
    -------
    float or array
        Tip below mid-blade. [m]

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> round(float(tip_below_mid_blade(blade_length=0.6, dip=np.radians(15))), 4)
    0.0776
    """
    return blade_length / 2 * np.sin(dip)
