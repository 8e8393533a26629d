"""Back from button mark and working ratio to the inboard: the inverses of `oarkit.rig.arms`."""

from __future__ import annotations

import numpy as np

from oarkit.working import BadDesign, Number, Quantity, formula

ALIKE = 1e-6  #: ratios nearer than this tell no inboard: it would be a ten thousandth part right at best [1]


@formula(
    "L_i = L_m + half the lock's width", unit="m", source="2006 world-championship rigging survey",
    where={"button_mark": "L_m [m]", "lock_half_width": "half width [m]"},
)  # fmt: skip
def inboard_from_mark(*, button_mark: Number, lock_half_width: Number) -> Number:
    """Inboard of an oar whose button is marked.

    Parameters
    ----------
    button_mark : float or array
        Handle end to the face that bears on the lock. [m]
    lock_half_width : float or array
        Pin line to the bearing face of the lock. [m]

    Returns
    -------
    float or array
        Handle end to pin line. [m]

    Notes
    -----
    Source: 2006 world-championship rigging survey, measurement definitions: the overlap is 2 i - S + 2 hl with i
    to the button's face, so the pin line lies hl further out. The inverse of `oarkit.rig.arms.button_mark`.

    Examples
    --------
    >>> round(inboard_from_mark(button_mark=0.63, lock_half_width=0.02), 3)
    0.65
    """
    return button_mark + lock_half_width


@formula(
    "L_i = (L − b_L/2 + k e)/(1 + k)", unit="m", source="plane geometry",
    where={
        "length": "L [m]", "working_ratio": "k [1]", "blade_length": "b_L [m]", "grip_centre": "e [m]",
    },
)  # fmt: skip
def inboard_from_working_ratio(
    *, length: Number, working_ratio: Number, blade_length: Number, grip_centre: Number
) -> Number:
    """Inboard of an oar of known length that gives a wanted working ratio.

    Parameters
    ----------
    length : float or array
        Handle end to blade tip. [m]
    working_ratio : float or array
        Blade arm over hand arm. [1]
    blade_length : float or array
        Blade root to tip. [m]
    grip_centre : float or array
        Handle end to the middle of the hand. [m]

    Returns
    -------
    float or array
        Handle end to pin line. [m]

    Notes
    -----
    Source: plane geometry; k = (L_o - b_L/2)/(L_i - e) with L_o = L - L_i, solved for L_i.

    Examples
    --------
    >>> round(inboard_from_working_ratio(length=2.35, working_ratio=2.5, blade_length=0.4, grip_centre=0.05), 3)
    0.65
    """
    return (length - blade_length / 2 + working_ratio * grip_centre) / (1 + working_ratio)


@formula(
    "L_i = (b_L/2 − k e)/(R − k)", unit="m", source="plane geometry",
    where={
        "leverage_ratio": "R [1]", "working_ratio": "k [1]", "blade_length": "b_L [m]", "grip_centre": "e [m]",
    },
)  # fmt: skip
def inboard_from_ratios(
    *, leverage_ratio: Number, working_ratio: Number, blade_length: Number, grip_centre: Number
) -> Number:
    """Inboard of the one oar that has both a wanted leverage ratio and a wanted working ratio.

    Parameters
    ----------
    leverage_ratio : float or array
        Outboard over inboard. [1]
    working_ratio : float or array
        Blade arm over hand arm. [1]
    blade_length : float or array
        Blade root to tip. [m]
    grip_centre : float or array
        Handle end to the middle of the hand. [m]

    Returns
    -------
    float or array
        Handle end to pin line. [m]

    Raises
    ------
    BadDesign
        The two ratios are so nearly alike that no inboard, or any, would do.

    Notes
    -----
    Source: plane geometry; R L_i - b_L/2 = k (L_i - e), solved for L_i.

    Examples
    --------
    >>> round(float(inboard_from_ratios(leverage_ratio=2.6, working_ratio=2.5, blade_length=0.37, grip_centre=0.05)), 3)
    0.6
    """
    apart = np.subtract(leverage_ratio, working_ratio)
    if np.any(np.abs(apart) < ALIKE):
        worst = float(np.broadcast_to(working_ratio, apart.shape).flat[int(np.argmin(np.abs(apart)))])
        raise BadDesign(
            "leverage ratio and working ratio are both {ratio}: two ratios alike do not tell the size of the oar; give "
            "its length or inboard in place of one of them",
            {"ratio": Quantity(value=worst, unit="1")},
        )
    return (blade_length / 2 - working_ratio * grip_centre) / apart
