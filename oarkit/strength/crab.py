"""A caught crab: the boat runs on, the blade stays, and what moved goes into bending the oar."""

from __future__ import annotations

import numpy as np

from oarkit.oar.afloat import FRESH_WATER
from oarkit.oar.build import Oar
from oarkit.oar.mass import blade_area
from oarkit.strength.bend import BENCH_LOAD, bench_drop
from oarkit.strength.cases import PRESSURE_OFFSET
from oarkit.strength.load import LoadCase, above_nought, balanced, loom_torque, sound, water_force
from oarkit.working import Number, Quantity, formula

CRAB_SPEED = 1.8  #: of the boat [m/s], a choice of this project
OPEN_WATER_COEFFICIENT = 2.0  #: of a blade that open water alone holds


@formula(
    "I_zz = m_b (L/4)^2 + 0.1 m2 · m_r", unit="kg m2", source="from memory: ship-motion work; an allowance",
    where={"boat_mass": "m_b [kg]", "length_overall": "L [m]", "rower_mass": "m_r [kg]"},
)  # fmt: skip
def yaw_inertia(*, boat_mass: Number, length_overall: Number, rower_mass: Number) -> Number:
    """Inertia of boat and rower against turning about the vertical.

    Parameters
    ----------
    boat_mass : float or array
        Boat and gear. [kg]
    length_overall : float or array
        Length of the boat. [m]
    rower_mass : float or array
        The rower. [kg]

    Returns
    -------
    float or array
        Yaw inertia. [kg m2]

    Notes
    -----
    Source: from memory, a quarter of the length as radius, usual in ship-motion work; the rower's share is an
    allowance of this project.

    Examples
    --------
    >>> float(yaw_inertia(boat_mass=40.0, length_overall=4.0, rower_mass=80.0))
    48.0
    """
    return boat_mass * np.square(np.divide(length_overall, 4)) + 0.1 * rower_mass


@formula(
    "m_e = 1/(1/m + y^2/I_zz)", unit="kg", source="derived: rigid body struck beside its centre",
    where={"mass": "m [kg]", "yaw": "I_zz [kg m2]", "arm": "y [m]"},
)  # fmt: skip
def felt_mass(*, mass: Number, yaw: Number, arm: Number) -> Number:
    """Mass of the boat as felt at the blade, when the boat may swing.

    Parameters
    ----------
    mass : float or array
        Boat, gear and rower. [kg]
    yaw : float or array
        Their inertia against turning. [kg m2]
    arm : float or array
        Blade from the centreline. [m]

    Returns
    -------
    float or array
        The felt mass, less than the whole. [kg]

    Notes
    -----
    Source: derived; a rigid body struck beside its centre.

    Examples
    --------
    >>> float(felt_mass(mass=100.0, yaw=100.0, arm=2.0))
    20.0
    """
    return 1 / (np.divide(1, mass) + np.square(arm) / yaw)


@formula(
    "F_b = v √(m_e k)", unit="N", source="derived: the boat's energy goes into bending the oar",
    where={"speed": "v [m/s]", "felt": "m_e [kg]", "stiffness": "k [N/m]"},
)  # fmt: skip
def crab_force(*, speed: Number, felt: Number, stiffness: Number) -> Number:
    """Most that a caught crab can bring on the blade.

    Parameters
    ----------
    speed : float or array
        Of the boat. [m/s]
    felt : float or array
        Mass of the boat as felt at the blade. [kg]
    stiffness : float or array
        Of the oar at mid-blade, hand and lock held. [N/m]

    Returns
    -------
    float or array
        Force on the blade. [N]

    Notes
    -----
    Source: derived, an upper bound: the blade slips, the hand lets go, the boat swings.

    Examples
    --------
    >>> float(crab_force(speed=2.0, felt=20.0, stiffness=1280.0))
    320.0
    """
    return speed * np.sqrt(np.multiply(felt, stiffness))


def caught_crab(
    oar: Oar,
    *,
    boat_mass: Number,
    length_overall: Number,
    rower_mass: Number,
    span: Number,
    speed: Number = CRAB_SPEED,
    density: Number = FRESH_WATER,
) -> LoadCase:
    """The blade caught while the boat runs on: its energy bends the oar.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    boat_mass : float or array
        Boat and gear. [kg]
    length_overall : float or array
        Length of the boat. [m]
    rower_mass : float or array
        The rower. [kg]
    span : float or array
        Between the pin lines. [m]
    speed : float or array, optional
        Of the boat. [m/s]
    density : float or array, optional
        Of the water, for what it alone could hold. [kg/m3]

    Returns
    -------
    LoadCase
        Abuse, reversed to the stroke; beside it what open water alone can hold, the felt mass and the stiffness. [N]

    Notes
    -----
    Source: derived, an energy bound for a blade caught in weed, ice or on the bottom; the stiffness is that of the
    oar's own bench drop.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> case = caught_crab(oar, boat_mass=45.0, length_overall=4.572, rower_mass=75.0, span=1.1049)
    >>> case.reversed, bool(case.forces[0] < 0), sorted(case.beside)
    (True, True, ['felt mass', 'open water holds', 'stiffness at mid-blade'])
    """
    above_nought(
        "caught crab", boat_mass=boat_mass, length_overall=length_overall, rower_mass=rower_mass, span=span,
        speed=speed, density=density,
    )  # fmt: skip
    yaw = yaw_inertia(boat_mass=boat_mass, length_overall=length_overall, rower_mass=rower_mass)
    felt = felt_mass(mass=np.add(boat_mass, rower_mass), yaw=yaw, arm=np.divide(span, 2) + oar.blade_arm)
    stiffness = BENCH_LOAD / bench_drop(oar)
    at_blade = crab_force(speed=speed, felt=felt, stiffness=stiffness)
    open_water = water_force(density=density, coefficient=OPEN_WATER_COEFFICIENT, area=blade_area(oar), speed=speed)
    held = (oar.shape.grip_centre, oar.shape.inboard)
    places, forces = balanced(places=[oar.shape.mid_blade], forces=[-at_blade], held=held)
    return sound(
        oar,
        LoadCase(
            name="caught crab", kind="abuse", plane="stroke", places=places, forces=forces, held=held, reversed=True,
            torque=loom_torque(force=at_blade, offset=PRESSURE_OFFSET),
            twisted=(oar.shape.grip_centre, oar.shape.mid_blade),
            basis="derived: v √(m_e k), an upper bound; the blade held fast, the boat running on",
            beside={
                "open water holds": Quantity(value=open_water, unit="N"),
                "felt mass": Quantity(value=felt, unit="kg"),
                "stiffness at mid-blade": Quantity(value=stiffness, unit="N/m"),
            },
        ),
    )  # fmt: skip
