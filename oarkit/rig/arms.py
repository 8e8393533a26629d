"""The arms that the forces act on: pin line to hand, pin line to mid-blade."""

from __future__ import annotations

from oarkit.working import Number, formula


@formula("l_h = L_i − e", unit="m", source="common practice", where={"inboard": "L_i [m]", "grip_centre": "e [m]"})
def hand_arm(*, inboard: Number, grip_centre: Number) -> Number:
    """Lever arm of the hand, pin line to grip centre.

    Parameters
    ----------
    inboard : float or array
        Handle end to pin line. [m]
    grip_centre : float or array
        Handle end to the middle of the hand. [m]

    Returns
    -------
    float or array
        Pin line to grip centre. [m]

    Notes
    -----
    Source: common practice; arms to mid-hand as Coates in Rankov (ed.) 2012, p. 90.

    Examples
    --------
    >>> round(hand_arm(inboard=0.65, grip_centre=0.06), 3)
    0.59
    """
    return inboard - grip_centre


@formula(
    "l_b = L_o − b_L/2", unit="m", source="common practice", where={"outboard": "L_o [m]", "blade_length": "b_L [m]"}
)
def blade_arm(*, outboard: Number, blade_length: Number) -> Number:
    """Lever arm of the blade, pin line to the middle of the blade's length.

    Parameters
    ----------
    outboard : float or array
        Pin line to blade tip. [m]
    blade_length : float or array
        Blade root to tip. [m]

    Returns
    -------
    float or array
        Pin line to mid-blade. [m]

    Notes
    -----
    Source: common practice. Lipke in Rankov (ed.) 2012, p. 25, puts the centre of pressure at 0.47 of the
    blade's length from the tip; the middle is used here.

    Examples
    --------
    >>> round(blade_arm(outboard=1.7, blade_length=0.6), 3)
    1.4
    """
    return outboard - blade_length / 2


@formula(
    "k = l_b/l_h",
    unit="1",
    source="Dudhia, Basic Physics of Rowing, sec. 7",
    where={"blade_arm": "l_b [m]", "hand_arm": "l_h [m]"},
)
def working_ratio(*, blade_arm: Number, hand_arm: Number) -> Number:
    """Ratio of the arms that the forces follow: hand force over blade force.

    Parameters
    ----------
    blade_arm : float or array
        Pin line to mid-blade. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]

    Returns
    -------
    float or array
        Working ratio. [1]

    Notes
    -----
    Source: A. Dudhia, Basic Physics of Rowing, sec. 7, eqs 7.1-7.3 (lever).

    Examples
    --------
    >>> working_ratio(blade_arm=1.5, hand_arm=0.6)
    2.5
    """
    return blade_arm / hand_arm


@formula(
    "L_i − half the lock's width", unit="m", source="common practice",
    where={"inboard": "L_i [m]", "lock_half_width": "half width [m]"},
)  # fmt: skip
def button_mark(*, inboard: Number, lock_half_width: Number) -> Number:
    """Place of the button's face, handle end to the face that bears on the lock.

    Parameters
    ----------
    inboard : float or array
        Handle end to pin line. [m]
    lock_half_width : float or array
        Pin line to the bearing face of the lock. [m]

    Returns
    -------
    float or array
        Where to mark the button. [m]

    Notes
    -----
    Source: common practice; the face stands half a lock width nearer the handle.

    Examples
    --------
    >>> round(button_mark(inboard=0.65, lock_half_width=0.02), 3)
    0.63
    """
    return inboard - lock_half_width
