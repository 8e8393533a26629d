"""Mass, balance, weight in the hand, inertia and blade area of finished wood plus leather; no glue or finish.

Also the mass by part, the centre of the blade's area and the centre of percussion.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.oar.build import Oar
from oarkit.working import BadDesign, Number, formula

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


@formula("s_b = ∫ s w ds/A_b, root to tip", unit="m", source=_BY_QUADRATURE)
def blade_centre(oar: Oar) -> Number:
    """Centre of area of the blade face.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    float or array
        Place from the handle end. [m]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(oar.shape.mid_blade < blade_centre(oar) < oar.shape.length)
    True
    """
    on_blade = oar.middle > np.asarray(oar.shape.blade_root)[..., None]
    return oar.integral(oar.s * oar.profile.width * on_blade) / blade_area(oar)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartMasses:
    """Mass of the wood inboard of the pin line, from there to the blade root, and of the blade; and of the leather."""

    inboard: Number
    outboard: Number
    blade: Number
    leather: Number


def part_masses(oar: Oar) -> PartMasses:
    """Mass of the oar by part.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    PartMasses
        Parts that add up to the mass of the oar. [kg]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> parts = part_masses(oar)
    >>> abs(round(float(parts.inboard + parts.outboard + parts.blade + parts.leather - mass(oar)), 9))
    0.0
    """
    pin, root = np.asarray(oar.shape.inboard)[..., None], np.asarray(oar.shape.blade_root)[..., None]
    wood = oar.laminate.mass_per_length
    return PartMasses(
        inboard=oar.integral(wood * (oar.middle < pin)),
        outboard=oar.integral(wood * ((oar.middle >= pin) & (oar.middle < root))),
        blade=oar.integral(wood * (oar.middle >= root)),
        leather=oar.leather.mass,
    )


# Swinging: where a blow is not felt


@formula(
    "q = (I + 2 m x l_h + m l_h^2)/(m (x + l_h))",
    unit="m",
    source="centre of percussion; Shaw in Rankov (ed.) 2012, pp. 47-48, about any pivot",
    where={"mass": "m [kg]", "balance": "x [m]", "inertia": "I [kg m2]", "pivot_inboard": "l_h [m]"},
)
def centre_of_percussion(*, mass: Number, balance: Number, inertia: Number, pivot_inboard: Number = 0.0) -> Number:
    """Where a blow on the oar is not felt at the place it turns about.

    Parameters
    ----------
    mass : float or array
        Mass of the oar. [kg]
    balance : float or array
        Balance point outboard of the pin line; it must lie outboard of the pivot. [m]
    inertia : float or array
        Moment of inertia about the pin. [kg m2]
    pivot_inboard : float or array, optional
        How far inboard of the pin line the oar turns: 0 about the lock, the hand's arm about the grip centre. [m]

    Returns
    -------
    float or array
        Distance outboard of the pivot. [m]

    Raises
    ------
    BadDesign
        The oar balances at its pivot or inboard of it.

    Notes
    -----
    Source: Shaw in Rankov (ed.), Trireme Olympias: The Final Report, 2012, pp. 47-48, x + k^2/x about the lock; about
    another pivot with the inertia carried there by the rule of parallel axes.

    Examples
    --------
    >>> round(centre_of_percussion(mass=1.2, balance=0.3, inertia=0.72), 3)
    2.0
    """
    arm = balance + pivot_inboard
    if np.any(np.asarray(arm) <= 0):
        raise BadDesign(
            "the oar balances inboard of the place it turns about, so it has no centre of percussion outboard"
        )
    about_pivot = inertia + mass * pivot_inboard * (2 * balance + pivot_inboard)
    return about_pivot / (mass * arm)
