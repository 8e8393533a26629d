"""From the handbook's mean of small clear specimens to the board in the oar."""

from __future__ import annotations

from oarkit.wood.grain import GrainTable, slope_factor
from oarkit.wood.moisture import at_moisture, density_at, gravity_at, simple_moisture_factor
from oarkit.working import Number, formula

__all__ = [
    "FIFTH_PERCENTILE", "SHEAR_SHARE", "GrainTable", "across_modulus", "adjusted_strength", "at_moisture",
    "density_at", "gravity_at", "lower_fifth", "shear_free_modulus", "simple_moisture_factor", "slope_factor",
    "tested_modulus",
]  # fmt: skip

SHEAR_SHARE = 1.10  #: shear-free E_L over the tabulated bending modulus
FIFTH_PERCENTILE = 1.645  #: normal deviate of the lower 5 %

_HANDBOOK = "Wood Handbook FPL-GTR-282 (2021)"


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
    "F = f_mean (1 − 1.645 COV) × slope × moisture", unit="Pa",
    source=f"{_HANDBOOK}, Tables 5-3a, 5-6, 5-12, eq. 5-3",
    where={
        "mean": "f_mean [Pa]", "variation": "COV [1]", "slope_share": "slope [1]", "moisture_share": "moisture [1]",
    },
)  # fmt: skip
def adjusted_strength(*, mean: Number, variation: Number, slope_share: Number, moisture_share: Number) -> Number:
    """Lower 5 % strength of a board as it will be in service, in bending or in any other way.

    Parameters
    ----------
    mean : float or array
        Mean strength of small clear specimens at 12 %. [Pa]
    variation : float or array
        Coefficient of variation of that strength. [1]
    slope_share : float or array
        Share left by the slope of grain; 1 for a strength across the grain or in shear. [1]
    moisture_share : float or array
        Share left by the moisture in service; 1 for tension across the grain, which has no law. [1]

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
