"""What moisture does to wood: strength and stiffness, gravity and density; and what moisture it comes to in air."""

from __future__ import annotations

import numpy as np

from oarkit.working import BadDesign, Number, Quantity, formula

COLDEST_AIR, HOTTEST_AIR = -1.2, 132.3  #: of Table 4-2, 30 to 270 °F, from memory [°C]
SATURATION = 0.30  #: moisture at which the fibres hold all they can, Wood Handbook FPL-GTR-282 (2021), eq. 4-9
NO_LAW = {
    "work_to_maximum": "work to maximum load",
    "impact": "impact bending",
    "tension_across": "tension across the grain",
}  #: properties that the exponential law is not meant for, Wood Handbook FPL-GTR-282 (2021), p. 5-34
PER_PERCENT = {
    "bending_strength": 0.04,
    "bending_modulus": 0.02,
    "compression_parallel": 0.06,
    "compression_across": 0.05,
    "shear_parallel": 0.03,
}  #: loss per 1 % of moisture: US Forest Products Laboratory; across and shear about ANC-18 (1944), Table 2-2

_HANDBOOK = "Wood Handbook FPL-GTR-282 (2021)"


@formula(
    "P = P_12 (P_12/P_g)^((12 % − M)/(M_p − 12 %))", unit="Pa", source=f"{_HANDBOOK}, eq. 5-3, p. 5-34",
    where={"at_12": "P_12 [Pa]", "green": "P_g [Pa]", "moisture": "M [1]", "moisture_point": "M_p [1]"},
)  # fmt: skip
def at_moisture(
    *, at_12: Number, green: Number, moisture: Number, moisture_point: Number, prop: str = "bending_strength"
) -> Number:
    """Strength or modulus of clear wood at a moisture content.

    Parameters
    ----------
    at_12 : float or array
        Value at 12 % moisture. [Pa]
    green : float or array
        Value in green wood. [Pa]
    moisture : float or array
        Moisture content as a fraction of ovendry mass. [1]
    moisture_point : float or array
        Moisture at which drying begins to change the property. [1]
    prop : str, optional
        Property it is of, as the species table names it. [text]

    Returns
    -------
    float or array
        Value at that moisture; the green value at or above the moisture point. [Pa]

    Raises
    ------
    BadDesign
        Work to maximum load, impact bending or tension across the grain, which do not follow the law.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), eq. 5-3 and Table 5-13, p. 5-34.

    Examples
    --------
    >>> round(float(at_moisture(at_12=100e6, green=50e6, moisture=0.15, moisture_point=0.24)) / 1e6, 2)
    84.09
    """
    if prop in NO_LAW:
        raise BadDesign(
            f"{NO_LAW[prop]} does not follow the law of moisture; take the value at 12 % or in green wood as printed"
        )
    moisture = np.minimum(moisture, moisture_point)
    return at_12 * np.power(np.divide(at_12, green), (0.12 - moisture) / np.subtract(moisture_point, 0.12))


@formula(
    "f = 1 − r (M − 12 %)/1 %", unit="1", source="US Forest Products Laboratory, moisture-content adjustments, "
        "1940s report",
    where={"per_percent": "r [1]", "moisture": "M [1]"},
)  # fmt: skip
def simple_moisture_factor(*, moisture: Number, per_percent: Number) -> Number:
    """Share of the 12 % value left at a moisture content, by the plain rule per 1 %.

    Serves where a species has no green value for the exponential law.

    Parameters
    ----------
    moisture : float or array
        Moisture content as a fraction of ovendry mass. [1]
    per_percent : float or array
        Loss per 1 % of moisture: 0.04 for bending strength, 0.02 for modulus. [1]

    Returns
    -------
    float or array
        Share of the value at 12 %. [1]

    Notes
    -----
    Source: US Forest Products Laboratory, Moisture-content adjustments for wood strength, report of the 1940s.

    Examples
    --------
    >>> round(simple_moisture_factor(moisture=0.15, per_percent=0.04), 3)
    0.88
    """
    return 1 - per_percent * (moisture - 0.12) * 100


@formula(
    "M = 18/W [K h/(1 − K h) + (K_1 K h + 2 K_1 K_2 K² h²)/(1 + K_1 K h + K_1 K_2 K² h²)]", unit="1",
    source=f"{_HANDBOOK}, eq. 4-5, p. 4-3 (quoted)", where={"humidity": "h [1]", "temperature": "T [°C]"},
)  # fmt: skip
def equilibrium_moisture(*, humidity: Number, temperature: Number = 20.0) -> Number:
    """Moisture content that wood comes to in air of a humidity.

    Parameters
    ----------
    humidity : float or array
        Relative humidity as a fraction. [1]
    temperature : float or array, optional
        Of the air. [°C]

    Returns
    -------
    float or array
        Moisture content as a fraction of ovendry mass. [1]

    Raises
    ------
    BadDesign
        A humidity below nil or above 100 %, or air colder or hotter than the printed table.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), eq. 4-5, p. 4-3 (quoted, checked against the printed Table 4-2).

    Examples
    --------
    >>> round(float(equilibrium_moisture(humidity=0.65, temperature=20.0)), 3)
    0.12
    """
    h, t = np.asarray(humidity, dtype=float), np.asarray(temperature, dtype=float)
    if not np.all((t >= COLDEST_AIR) & (t <= HOTTEST_AIR)):
        raise BadDesign("no equilibrium moisture is known for air below -1 °C or above 132 °C; give degrees Celsius")
    if not np.all((h >= 0) & (h <= 1)):
        raise BadDesign(
            "air of {humidity} relative humidity does not exist; give a share between 0 and 100 %",
            {"humidity": Quantity(value=float(h.max() if h.max() > 1 else h.min()), unit="%")},
        )
    molar = 349 + 1.29 * t + 0.0135 * t**2
    kh = (0.805 + 0.000736 * t - 0.00000273 * t**2) * h
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    first, second = k1 * kh, k1 * k2 * kh**2
    moisture: Number = 18 / molar * (kh / (1 - kh) + (first + 2 * second) / (1 + first + second))
    return moisture


@formula(
    "G_x = G_b/(1 − 0.265 G_b (1 − x/30 %))", unit="1", source=f"{_HANDBOOK}, eq. 4-13",
    where={"green_gravity": "G_b [1]", "moisture": "x [1]"},
)  # fmt: skip
def gravity_at(*, green_gravity: Number, moisture: Number) -> Number:
    """Specific gravity on the volume at a moisture content, from the gravity on green volume.

    Parameters
    ----------
    green_gravity : float or array
        Ovendry mass on green volume. [1]
    moisture : float or array
        Moisture content as a fraction. [1]

    Returns
    -------
    float or array
        Ovendry mass on the volume at that moisture. [1]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), eqs 4-9, 4-12 and 4-13 (quoted).

    Examples
    --------
    >>> round(float(gravity_at(green_gravity=0.40, moisture=0.30)), 3)
    0.4
    """
    return green_gravity / (1 - 0.265 * green_gravity * (1 - np.minimum(moisture, SATURATION) / SATURATION))


@formula(
    "ρ = 1000 G (1 + M)", unit="kg/m3", source=f"{_HANDBOOK}, eq. 4-14, p. 4-12",
    where={"gravity": "G [1]", "moisture": "M [1]"},
)  # fmt: skip
def density_at(*, gravity: Number, moisture: Number) -> Number:
    """Density of wood with the moisture in it.

    Parameters
    ----------
    gravity : float or array
        Specific gravity, ovendry mass on the volume at that moisture. [1]
    moisture : float or array
        Moisture content as a fraction. [1]

    Returns
    -------
    float or array
        Density. [kg/m3]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), eq. 4-14, p. 4-12.

    Examples
    --------
    >>> round(density_at(gravity=0.5, moisture=0.10), 1)
    550.0
    """
    return 1000 * gravity * (1 + moisture)
