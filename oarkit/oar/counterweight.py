"""Counterweight for a wanted weight in the hand, and what it does to mass, balance and inertia."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.oar.mass import GRAVITY
from oarkit.working import BadDesign, Number, formula


@formula(
    "m_c = (m g x − W l_h)/(g c)",
    unit="kg",
    source="lever; Shaw in Rankov (ed.) 2012, p. 47",
    where={
        "mass": "m [kg]", "balance": "x [m]", "hand_arm": "l_h [m]", "wanted": "W [N]", "weight_inboard": "c [m]",
    },
)  # fmt: skip
def counterweight(*, mass: Number, balance: Number, hand_arm: Number, wanted: Number, weight_inboard: Number) -> Number:
    """Mass to add inboard of the pin line so that the oar weighs in the hand what is wanted.

    Parameters
    ----------
    mass : float or array
        Mass of the oar. [kg]
    balance : float or array
        Balance point outboard of the pin line. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]
    wanted : float or array
        Force at the grip centre that shall hold the oar level. [N]
    weight_inboard : float or array
        Pin line to the middle of the counterweight. [m]

    Returns
    -------
    float or array
        Mass of lead less the wood bored out for it; negative where the oar is lighter in the hand than wanted. [kg]

    Raises
    ------
    BadDesign
        The place is not inboard of the pin line.

    Notes
    -----
    Source: moments about the pin, as Shaw in Rankov (ed.), Trireme Olympias: The Final Report, 2012, p. 47.

    Examples
    --------
    >>> round(counterweight(mass=2.0, balance=0.40, hand_arm=0.60, wanted=9.80665, weight_inboard=0.50), 3)
    0.4
    """
    if np.any(np.asarray(weight_inboard) <= 0):
        raise BadDesign("a counterweight must stand inboard of the pin line")
    return (mass * GRAVITY * balance - wanted * hand_arm) / (GRAVITY * weight_inboard)


@dataclass(frozen=True, slots=True, kw_only=True)
class Swing:
    """Mass [kg], balance outboard of the pin line [m] and inertia about the pin [kg m2] of an oar."""

    mass: Number
    balance: Number
    inertia: Number


def with_counterweight(swing: Swing, *, added: Number, weight_inboard: Number) -> Swing:
    """What a counterweight does to mass, balance and inertia.

    Parameters
    ----------
    swing : Swing
        The oar without it. [record]
    added : float or array
        Mass of the counterweight, less the wood bored out for it. [kg]
    weight_inboard : float or array
        Pin line to the middle of the counterweight. [m]

    Returns
    -------
    Swing
        The oar with it, the counterweight taken as a point. [record]

    Notes
    -----
    Source: definition of the centre of gravity and of inertia.

    Examples
    --------
    >>> oar = Swing(mass=2.0, balance=0.40, inertia=1.6)
    >>> heavy = with_counterweight(oar, added=0.4, weight_inboard=0.50)
    >>> round(heavy.mass, 3), round(heavy.balance, 3), round(heavy.inertia, 3)
    (2.4, 0.25, 1.7)
    """
    total = swing.mass + added
    return Swing(
        mass=total,
        balance=(swing.mass * swing.balance - added * weight_inboard) / total,
        inertia=swing.inertia + added * weight_inboard**2,
    )
