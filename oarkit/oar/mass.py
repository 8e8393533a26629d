"""Mass, balance, weight in the hand, inertia and blade area of finished wood plus leather; no glue or finish."""

from __future__ import annotations

import numpy as np

from oarkit.oar.build import Oar
from oarkit.working import Number, formula

GRAVITY = 9.80665

_BY_QUADRATURE = "definition; Simpson's rule on the stations"


@formula("m = Σ∫ ρ A ds + leather", unit="kg", source=_BY_QUADRATURE)
def mass(oar: Oar) -> Number:
    """Mass of the oar.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    float or array
        Finished wood plus leather. [kg]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(1.0 < mass(oar) < 1.5)
    True
    """
    return oar.integral(oar.laminate.mass_per_length) + oar.leather.mass


def piece_masses(oar: Oar) -> tuple[Number, ...]:
    """Mass of each piece of wood, in the order they were laid.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    tuple of float or array
        One mass a piece, leather not among them. [kg]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> abs(round(float(sum(piece_masses(oar)) + oar.leather.mass - mass(oar)), 9))
    0.0
    """
    return tuple(oar.integral(each) for each in oar.laminate.piece_mass)


@formula("x = ∫ s dm/m − L_i", unit="m", source=_BY_QUADRATURE)
def balance(oar: Oar) -> Number:
    """Balance point of the oar, outboard of the pin line.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    float or array
        Centre of gravity beyond the pin line, positive outboard. [m]

    Notes
    -----
    Source: definition of the centre of gravity.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(0.2 < balance(oar) < 0.6)
    True
    """
    about_pin = oar.s - np.asarray(oar.shape.inboard)[..., None]
    moment = oar.integral(oar.laminate.mass_per_length * about_pin)
    return (moment + oar.leather.mass * (oar.leather_middle - oar.shape.inboard)) / mass(oar)


@formula(
    "W = m g x/l_h",
    unit="N",
    source="lever; Shaw in Rankov (ed.) 2012, p. 47",
    where={"mass": "m [kg]", "balance": "x [m]", "hand_arm": "l_h [m]"},
)
def hand_weight(*, mass: Number, balance: Number, hand_arm: Number) -> Number:
    """Force at the grip centre that holds the oar level.

    Parameters
    ----------
    mass : float or array
        Mass of the oar. [kg]
    balance : float or array
        Balance point outboard of the pin line. [m]
    hand_arm : float or array
        Pin line to grip centre. [m]

    Returns
    -------
    float or array
        Downward force of the hand. [N]

    Notes
    -----
    Source: Shaw in Rankov (ed.), Trireme Olympias: The Final Report, 2012, p. 47, with the arm of the hand.

    Examples
    --------
    >>> round(hand_weight(mass=1.2, balance=0.3, hand_arm=0.6), 2)
    5.88
    """
    return mass * GRAVITY * balance / hand_arm


@formula("I = ∫ (s − L_i)^2 dm", unit="kg m2", source=_BY_QUADRATURE)
def inertia_about_lock(oar: Oar) -> Number:
    """Moment of inertia about the vertical axis at the pin.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    float or array
        Inertia of wood and leather. [kg m2]

    Notes
    -----
    Source: definition; the oar as a line of masses, its own thickness neglected.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(0.4 < inertia_about_lock(oar) < 1.2)
    True
    """
    about_pin = oar.s - np.asarray(oar.shape.inboard)[..., None]
    wood = oar.integral(oar.laminate.mass_per_length * about_pin**2)
    return wood + oar.leather.mass * (oar.leather_middle - oar.shape.inboard) ** 2


@formula("A_b = ∫ w ds, root to tip", unit="m2", source=_BY_QUADRATURE)
def blade_area(oar: Oar) -> Number:
    """Area of the blade face.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    float or array
        Width integrated from blade root to tip. [m2]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(0.05 < blade_area(oar) < 0.08)
    True
    """
    return oar.integral(oar.profile.width * (oar.middle > np.asarray(oar.shape.blade_root)[..., None]))
