"""From the handbook's mean of small clear specimens to the board in the oar."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.working import BadDesign, Number, Quantity, formula

SHEAR_SHARE = 1.10  #: shear-free E_L over the tabulated bending modulus
FIFTH_PERCENTILE = 1.645  #: normal deviate of the lower 5 %

_HANDBOOK = "Wood Handbook FPL-GTR-282 (2021)"


@dataclass(frozen=True, slots=True, kw_only=True)
class GrainTable:
    """Share of straight-grained bending strength at each slope of grain, flattest first; nil slope is 1.00."""

    slopes: tuple[float, ...]
    shares: tuple[float, ...]


@formula(
    "P = P_12 (P_12/P_g)^((12 % − M)/(M_p − 12 %))", unit="Pa", source=f"{_HANDBOOK}, eq. 5-3, p. 5-34",
    where={"at_12": "P_12 [Pa]", "green": "P_g [Pa]", "moisture": "M [1]", "moisture_point": "M_p [1]"},
)  # fmt: skip
def at_moisture(*, at_12: Number, green: Number, moisture: Number, moisture_point: Number) -> Number:
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

    Returns
    -------
    float or array
        Value at that moisture; the green value at or above the moisture point. [Pa]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), eq. 5-3 and Table 5-13, p. 5-34.
    Not for work to maximum load, impact bending or tension across the grain.

    Examples
    --------
    >>> round(float(at_moisture(at_12=100e6, green=50e6, moisture=0.15, moisture_point=0.24)) / 1e6, 2)
    84.09
    """
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


@formula("E as tested on a strip, free of shear", unit="Pa", source="measured", where={"tested": "E [Pa]"})
def tested_modulus(*, tested: Number) -> Number:
    """Shear-free modulus of a tested board: the tested value as it is.

    Parameters
    ----------
    tested : float or array
        Modulus from a thin strip on a long span. [Pa]

    Returns
    -------
    float or array
        Modulus free of shear. [Pa]

    Notes
    -----
    Source: derived; the shear of a strip a hundred times as long as thick is about 0.2 % of its drop.

    Examples
    --------
    >>> tested_modulus(tested=10.8e9) / 1e9
    10.8
    """
    return tested


@formula("E = 1.10 E_t", unit="Pa", source=f"{_HANDBOOK}, Table 5-3a, footnote c", where={"tabulated": "E_t [Pa]"})
def shear_free_modulus(*, tabulated: Number) -> Number:
    """Shear-free modulus from a tabulated one, which holds the shear of a beam 14 times as long as deep.

    Parameters
    ----------
    tabulated : float or array
        Bending modulus as the handbook prints it. [Pa]

    Returns
    -------
    float or array
        Modulus free of shear. [Pa]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Table 5-3a, footnote c, p. 5-8.

    Examples
    --------
    >>> round(shear_free_modulus(tabulated=10e9) / 1e9, 6)
    11.0
    """
    return SHEAR_SHARE * tabulated


@formula(
    "E_a = E E_T/E_L", unit="Pa", source=f"{_HANDBOOK}, Table 5-1; ANC-18 (1944), sec. 2.130",
    where={"modulus": "E [Pa]", "ratio": "E_T/E_L [1]"},
)  # fmt: skip
def across_modulus(*, modulus: Number, ratio: Number) -> Number:
    """Modulus across the grain, for a piece laid with its grain across the oar.

    Parameters
    ----------
    modulus : float or array
        Modulus along the grain. [Pa]
    ratio : float or array
        Tangential over longitudinal modulus. [1]

    Returns
    -------
    float or array
        Modulus across the grain. [Pa]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Table 5-1, p. 5-2; unlisted species ANC-18 (1944), sec. 2.130.

    Examples
    --------
    >>> round(across_modulus(modulus=13e9, ratio=0.08) / 1e9, 3)
    1.04
    """
    return modulus * ratio


@formula(
    "share of straight-grained strength, linear in slope",
    unit="1",
    source=f"{_HANDBOOK}, Table 5-12, p. 5-31",
    where={"slope": "slope [1]"},
)
def slope_factor(*, slope: Number, table: GrainTable) -> Number:
    """Share of bending strength left by a slope of grain.

    Parameters
    ----------
    slope : float or array
        Rise over run of the grain, e.g. 1/15. [1]
    table : GrainTable
        Slopes and the shares left at them. [1]

    Returns
    -------
    float or array
        Share of the straight-grained bending strength. [1]

    Raises
    ------
    BadDesign
        Grain steeper than the table's last row (1 in 5) has no place in an oar.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Table 5-12, p. 5-31; linear between, 1.00 at no slope.

    Examples
    --------
    >>> table = GrainTable(slopes=(0.04, 0.2), shares=(0.96, 0.55))
    >>> round(float(slope_factor(slope=0.12, table=table)), 3)
    0.755
    """
    if np.any(np.asarray(slope) > table.slopes[-1] + 1e-12) or np.any(np.asarray(slope) < 0):
        raise BadDesign(
            "the grain slopes {slope} (rise over run), and no strength is known for more than {steepest}; "
            "choose a straighter board, 1:15 or flatter",
            {
                "slope": Quantity(value=float(np.max(slope)), unit="1"),
                "steepest": Quantity(value=table.slopes[-1], unit="1"),
            },
        )
    return np.interp(slope, [0.0, *table.slopes], [1.0, *table.shares])


@formula(
    "f_5 = f_mean (1 − 1.645 COV)", unit="Pa", source=f"{_HANDBOOK}, Table 5-6, p. 5-26; normal law",
    where={"mean": "f_mean [Pa]", "variation": "COV [1]"},
)  # fmt: skip
def lower_fifth(*, mean: Number, variation: Number) -> Number:
    """Strength that 95 of 100 clear pieces exceed.

    Parameters
    ----------
    mean : float or array
        Mean strength of small clear specimens. [Pa]
    variation : float or array
        Coefficient of variation between pieces. [1]

    Returns
    -------
    float or array
        Lower 5 % value. [Pa]

    Notes
    -----
    Source: normal law; coefficients of variation from Wood Handbook FPL-GTR-282 (2021), Table 5-6, p. 5-26.

    Examples
    --------
    >>> round(lower_fifth(mean=100e6, variation=0.16) / 1e6, 2)
    73.68
    """
    return mean * (1 - FIFTH_PERCENTILE * variation)


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
    return green_gravity / (1 - 0.265 * green_gravity * (1 - np.minimum(moisture, 0.30) / 0.30))


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


@formula(
    "F = f_mean (1 − 1.645 COV) × slope × moisture", unit="Pa",
    source=f"{_HANDBOOK}, Tables 5-3a, 5-6, 5-12, eq. 5-3",
    where={
        "mean": "f_mean [Pa]", "variation": "COV [1]", "slope_share": "slope [1]", "moisture_share": "moisture [1]",
    },
)  # fmt: skip
def adjusted_strength(*, mean: Number, variation: Number, slope_share: Number, moisture_share: Number) -> Number:
    """Lower 5 % bending strength of a board as it will be in service.

    Parameters
    ----------
    mean : float or array
        Mean bending strength of small clear specimens at 12 %. [Pa]
    variation : float or array
        Coefficient of variation. [1]
    slope_share : float or array
        Share left by the slope of grain. [1]
    moisture_share : float or array
        Share left by the moisture in service. [1]

    Returns
    -------
    float or array
        Adjusted lower 5 % strength. [Pa]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Tables 5-3a, 5-6, 5-12 and eq. 5-3, multiplied.

    Examples
    --------
    >>> round(adjusted_strength(mean=70e6, variation=0.16, slope_share=0.9, moisture_share=0.9) / 1e6, 2)
    41.78
    """
    return lower_fifth(mean=mean, variation=variation) * slope_share * moisture_share
