"""Local checks of an oar: bearing at the lock, the blade as a plate, the tip's corner, the loom's twist."""

from __future__ import annotations

import numpy as np

from oarkit.strength.cases import CORNER_WIDTH, KNOCK, KNOCK_ARM
from oarkit.working import Array, Number, formula

LOCK_LENGTH = 0.030  #: of the loom that bears in a lock, common practice [m]
CONTACT_MODULUS = 0.5e9  #: across the grain, for a bare loom on a bare pin, from memory [Pa]
LEATHER_SPREADS = 2.0  #: leather about doubles the contact, common practice [1]


@formula(
    "p = F_p/(n D/2 L_c)", unit="Pa", source="common practice",
    where={"pin_force": "F_p [N]", "diameter": "D [m]", "lock_length": "L_c [m]", "spread": "n [1]"},
)  # fmt: skip
def lock_bearing(
    *, pin_force: Number, diameter: Number, lock_length: Number = LOCK_LENGTH, spread: Number = 1.0
) -> Number:
    """Pressure of the loom on the lock, over half its diameter.

    Parameters
    ----------
    pin_force : float or array
        Force of the oar on the pin. [N]
    diameter : float or array
        Of the loom in the lock. [m]
    lock_length : float or array, optional
        Of the loom that bears. [m]
    spread : float or array, optional
        How much more surface bears: 1 for bare wood, 2 with leather. [1]

    Returns
    -------
    float or array
        Pressure across the grain. [Pa]

    Notes
    -----
    Source: common practice, an effective breadth of half the diameter; leather about doubles the contact.

    Examples
    --------
    >>> round(float(lock_bearing(pin_force=600, diameter=0.04)) / 1e6, 6)
    1.0
    """
    return np.divide(pin_force, spread * np.divide(diameter, 2) * lock_length)


@formula(
    "p = (6 F E'²/(π³ R²))^(1/3),  R = √(D d)/2", unit="Pa", source="Hertz, from memory",
    where={"pin_force": "F [N]", "loom": "D [m]", "pin": "d [m]", "contact_modulus": "E' [Pa]"},
)  # fmt: skip
def crossed_round_bearing(
    *, pin_force: Number, loom: Number, pin: Number, contact_modulus: Number = CONTACT_MODULUS
) -> Number:
    """Greatest pressure of a bare round loom on a bare round thole, crossed.

    Parameters
    ----------
    pin_force : float or array
        Force of the oar on the pin. [N]
    loom : float or array
        Diameter of the loom. [m]
    pin : float or array
        Diameter of the thole pin. [m]
    contact_modulus : float or array, optional
        Contact modulus across the grain. [Pa]

    Returns
    -------
    float or array
        Pressure before the wood yields; far above its strength, so that bare wood dents until the contact has
        grown. [Pa]

    Notes
    -----
    Source: Hertz's point contact, from memory; exact for cylinders of one diameter, with a middle radius 2 % low
    where one is two and a half times as thick as the other.

    Examples
    --------
    >>> round(float(crossed_round_bearing(pin_force=600, loom=0.04, pin=0.04)) / 1e6, 1)
    41.7
    """
    radius = np.sqrt(np.multiply(loom, pin)) / 2
    return np.cbrt(6 * pin_force * np.square(contact_modulus) / (np.pi**3 * radius**2))[()]


@formula(
    "σ = 3 p c²/t²,  p = F_b/A_b", unit="Pa", source="statics of a cantilever strip",
    where={"force": "F_b [N]", "area": "A_b [m2]", "overhang": "c [m]", "thickness": "t [m]"},
)  # fmt: skip
def plate_stress(*, force: Number, area: Number, overhang: Number, thickness: Number) -> Number:
    """Stress across the grain where a blade's side hangs out over its spine, water pressing evenly.

    Parameters
    ----------
    force : float or array
        Of the water on the blade. [N]
    area : float or array
        Of the blade. [m2]
    overhang : float or array
        From the spine to the edge. [m]
    thickness : float or array
        Of the blade beside the spine. [m]

    Returns
    -------
    float or array
        Bending stress across the grain. [Pa]

    Notes
    -----
    Source: statics; a strip of unit width, moment p c²/2, section modulus t²/6.

    Examples
    --------
    >>> round(float(plate_stress(force=160, area=0.064, overhang=0.06, thickness=0.006)) / 1e6, 6)
    0.75
    """
    return 3 * np.divide(force, area) * np.square(overhang) / np.square(thickness)


@formula(
    "σ = 6 F c/(b t²)", unit="Pa", source="statics of a cantilever strip",
    where={"force": "F [N]", "arm": "c [m]", "width": "b [m]", "thickness": "t [m]"},
)  # fmt: skip
def corner_stress(
    *, thickness: Number, force: Number = KNOCK, arm: Number = KNOCK_ARM, width: Number = CORNER_WIDTH
) -> Number:
    """Stress across the grain of a knock on the corner of the blade's tip.

    Parameters
    ----------
    thickness : float or array
        Of the tip. [m]
    force : float or array, optional
        On the corner. [N]
    arm : float or array, optional
        From the spine to where it strikes. [m]
    width : float or array, optional
        Along the blade that shares the load. [m]

    Returns
    -------
    float or array
        Bending stress across the grain, to compare with tension across the grain. [Pa]

    Notes
    -----
    Source: statics; force, arm and width are common practice.

    Examples
    --------
    >>> round(float(corner_stress(thickness=0.010)) / 1e6, 6)
    6.0
    """
    return 6 * np.multiply(force, arm) / (width * np.square(thickness))


@formula(
    "φ = ∫ T/(G K) ds", unit="rad", source="Wood Handbook FPL-GTR-282 (2021), eq. 9-9", where={"torque": "T [N m]"}
)
def twist_angle(*, torque: Number, stiffness: Array, weight: Array) -> Number:
    """Angle that a stretch of the loom twists.

    Parameters
    ----------
    torque : float or array
        On the loom, designs alone. [N m]
    stiffness : array
        Torsion stiffness G K at stations, on the last axis. [N m2]
    weight : array
        Weights of the stations, nil outside the stretch. [m]

    Returns
    -------
    float or array
        The angle. [rad]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), eq. 9-9, summed along the loom.

    Examples
    --------
    >>> round(float(twist_angle(torque=6.0, stiffness=np.full(2, 120.0), weight=np.array([0.5, 0.5]))), 3)
    0.05
    """
    total: Number = torque * np.sum(weight / stiffness, axis=-1)
    return total
