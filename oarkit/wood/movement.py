"""How wood shrinks and swells as its moisture changes."""

from __future__ import annotations

import numpy as np

from oarkit.wood.moisture import SATURATION
from oarkit.working import Number, formula

_HANDBOOK = "Wood Handbook FPL-GTR-282 (2021)"


@formula(
    "S_x = S_0 (1 − x/30 %)", unit="1", source=f"{_HANDBOOK}, eq. 4-9, p. 4-10 (quoted)",
    where={"ovendry": "S_0 [1]", "moisture": "x [1]"},
)  # fmt: skip
def shrinkage_at(*, ovendry: Number, moisture: Number) -> Number:
    """Shrinkage from green wood to a moisture content.

    Parameters
    ----------
    ovendry : float or array
        Shrinkage from green to ovendry as a share of the green size: radial, tangential or volumetric. [1]
    moisture : float or array
        Moisture content as a fraction. [1]

    Returns
    -------
    float or array
        Share of the green size that is lost; nil above fibre saturation. [1]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), eq. 4-9, p. 4-10 (quoted), fibre saturation at 30 %.

    Examples
    --------
    >>> round(float(shrinkage_at(ovendry=0.075, moisture=0.12)), 4)
    0.045
    """
    return ovendry * (1 - np.minimum(moisture, SATURATION) / SATURATION)


@formula(
    "ΔD = D (S(M_1) − S(M_2))/(1 − S(M_1))", unit="m", source=f"{_HANDBOOK}, eq. 4-9, taken twice",
    where={"width": "D [m]", "ovendry": "S_0 [1]", "moisture": "M_1 [1]", "later": "M_2 [1]"},
)  # fmt: skip
def movement(*, width: Number, ovendry: Number, moisture: Number, later: Number) -> Number:
    """Change of a width between two moisture contents, from the shrinkage of the species.

    Parameters
    ----------
    width : float or array
        Width at the first moisture. [m]
    ovendry : float or array
        Shrinkage from green to ovendry, radial or tangential as the width lies. [1]
    moisture : float or array
        Moisture content at which the width was measured. [1]
    later : float or array
        Moisture content that the wood comes to. [1]

    Returns
    -------
    float or array
        How much wider it grows, negative where it shrinks. [m]

    Notes
    -----
    Source: derived from Wood Handbook FPL-GTR-282 (2021), eq. 4-9; the coefficients of the 2010 edition, Table 13-5,
    are this for 1 % at 10 % moisture.

    Examples
    --------
    >>> round(float(movement(width=0.100, ovendry=0.078, moisture=0.10, later=0.12)) * 1e3, 2)
    0.55
    """
    before, after = shrinkage_at(ovendry=ovendry, moisture=moisture), shrinkage_at(ovendry=ovendry, moisture=later)
    return width * (before - after) / (1 - before)


@formula(
    "ΔD = D C (M_2 − M_1)/1 %", unit="m", source="Wood Handbook FPL-GTR-190 (2010), Table 13-5",
    where={"width": "D [m]", "per_percent": "C [1]", "moisture": "M_1 [1]", "later": "M_2 [1]"},
)  # fmt: skip
def movement_by_coefficient(*, width: Number, per_percent: Number, moisture: Number, later: Number) -> Number:
    """Change of a width between two moisture contents, from a printed coefficient.

    Parameters
    ----------
    width : float or array
        Width at the first moisture. [m]
    per_percent : float or array
        Movement coefficient, share of the width per 1 % of moisture, radial or tangential. [1]
    moisture : float or array
        Moisture content at which the width was measured, between 6 and 14 %. [1]
    later : float or array
        Moisture content that the wood comes to, between 6 and 14 %. [1]

    Returns
    -------
    float or array
        How much wider it grows, negative where it shrinks. [m]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-190 (2010), Table 13-5; meant for moistures between 6 and 14 %.

    Examples
    --------
    >>> round(movement_by_coefficient(width=0.100, per_percent=0.00274, moisture=0.10, later=0.12) * 1e3, 2)
    0.55
    """
    return width * per_percent * (later - moisture) * 100
