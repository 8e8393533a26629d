"""Local checks of an oar: bearing at the lock, the blade as a plate, the tip's corner, twist."""

from __future__ import annotations

import numpy as np

from oarkit.working import Array, Number, formula

LOCK_LENGTH = 0.030  #: of the loom that bears in a lock, common practice [m]
CONTACT_MODULUS = 0.5e9  #: across the grain, for a bare loom on a bare pin, from memory [Pa]
CORNER_FORCE, CORNER_ARM, CORNER_WIDTH = 150.0, 0.040, 0.060  #: knock on the tip's corner, common practice [N, m, m]
PRESSURE_OFFSET = 0.015  #: of the centre of pressure from the blade's middle line, a choice of this project [m]
FEATHER_TORQUE = 3.0  #: of the hand that feathers, 2 to 4 N m, common practice [N m]
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
    *, thickness: Number, force: Number = CORNER_FORCE, arm: Number = CORNER_ARM, width: Number = CORNER_WIDTH
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
    "T = F_b e + T_f", unit="N m", source="statics",
    where={"force": "F_b [N]", "offset": "e [m]", "feathering": "T_f [N m]"},
)  # fmt: skip
def loom_torque(*, force: Number, offset: Number = PRESSURE_OFFSET, feathering: Number = FEATHER_TORQUE) -> Number:
    """Torque on the loom: pressure off the blade's middle line, and the hand that feathers.

    Parameters
    ----------
    force : float or array
        Of the water on the blade. [N]
    offset : float or array, optional
        Of the centre of pressure from the middle line. [m]
    feathering : float or array, optional
        Torque of the hand. [N m]

    Returns
    -------
    float or array
        Torque. [N m]

    Notes
    -----
    Source: statics; the offset is a choice of this project, the hand's 2 to 4 N m common practice.

    Examples
    --------
    >>> float(loom_torque(force=200.0))
    6.0
    """
    return np.multiply(force, offset) + feathering


@formula(
    "τ = 16 T/(π a b²), b the shorter axis", unit="Pa", source="torsion of an ellipse, textbook",
    where={"torque": "T [N m]", "thickness": "t [m]", "width": "w [m]"},
)  # fmt: skip
def torsion_stress(*, torque: Number, thickness: Number, width: Number) -> Number:
    """Greatest shear stress of a twisted elliptic loom, at the ends of its shorter axis.

    Parameters
    ----------
    torque : float or array
        On the loom. [N m]
    thickness : float or array
        Of the loom. [m]
    width : float or array
        Of the loom. [m]

    Returns
    -------
    float or array
        Shear stress. [Pa]

    Notes
    -----
    Source: St Venant's torsion of an ellipse; torsional strength is that in shear along the grain, with a
    proportional limit at two thirds of it, Wood Handbook FPL-GTR-282 (2021), p. 5-15.

    Examples
    --------
    >>> round(float(torsion_stress(torque=np.pi, thickness=0.02, width=0.02)) / 1e6, 6)
    2.0
    """
    shorter, longer = np.minimum(thickness, width), np.maximum(thickness, width)
    stress: Number = 16 * torque / (np.pi * longer * np.square(shorter))
    return stress


@formula(
    "K = π t³ w³/(16 (t² + w²))", unit="m4", source="torsion of an ellipse, textbook",
    where={"thickness": "t [m]", "width": "w [m]"},
)  # fmt: skip
def ellipse_torsion_constant(*, thickness: Number, width: Number) -> Number:
    """Torsion constant of an elliptic loom.

    Parameters
    ----------
    thickness : float or array
        Of the loom. [m]
    width : float or array
        Of the loom. [m]

    Returns
    -------
    float or array
        Torsion constant; pi d^4/32 for a round. [m4]

    Notes
    -----
    Source: St Venant's torsion of an ellipse; for a circle Wood Handbook FPL-GTR-282 (2021), eq. 9-10.

    Examples
    --------
    >>> round(float(ellipse_torsion_constant(thickness=0.04, width=0.04) / (np.pi * 0.04**4 / 32)), 9)
    1.0
    """
    cubes = np.power(thickness, 3) * np.power(width, 3)
    constant: Number = np.pi * cubes / (16 * (np.square(thickness) + np.square(width)))
    return constant


@formula(
    "φ = ∫ T/(G K) ds", unit="rad", source="Wood Handbook FPL-GTR-282 (2021), eq. 9-9", where={"torque": "T [N m]"}
)
def twist(*, torque: Number, stiffness: Array, weight: Array) -> Number:
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
    >>> round(float(twist(torque=6.0, stiffness=np.full(2, 120.0), weight=np.array([0.5, 0.5]))), 3)
    0.05
    """
    total: Number = torque * np.sum(weight / stiffness, axis=-1)
    return total
