"""Strength of a board in each way it can fail, from the species table to the oar in service."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.wood import adjust
from oarkit.wood.moisture import NO_LAW, PER_PERCENT
from oarkit.wood.species import Species
from oarkit.working import BadDesign, Number, Working, formula

ROLLING_SHARE = 0.18  #: rolling shear over shear along the grain, least of 18 to 28 %, Wood Handbook (2021), p. 5-15

#: Property to the names of its lines: mean in service, share by the plain rule, lower 5 % value.
LINES = {
    "bending_strength": ("wood.wet_strength", "wood.moisture_share", "wood.strength"),
    "bending_modulus": ("wood.table_modulus", "wood.modulus_moisture_share", "wood.modulus"),
    "compression_parallel": ("wood.wet_crushing", "wood.crushing_moisture_share", "wood.crushing"),
    "compression_across": ("wood.wet_across", "wood.across_moisture_share", "wood.across_strength"),
    "shear_parallel": ("wood.wet_shear", "wood.shear_moisture_share", "wood.shear_strength"),
    "tension_across": ("", "", "wood.splitting"),
}


@formula(
    "f = f_mean × slope × moisture", unit="Pa", source="Wood Handbook FPL-GTR-282 (2021), Tables 5-3a, 5-12, eq. 5-3",
    where={"mean": "f_mean [Pa]", "slope_share": "slope [1]", "moisture_share": "moisture [1]"},
)  # fmt: skip
def mean_in_service(*, mean: Number, slope_share: Number, moisture_share: Number) -> Number:
    """Mean strength of boards like this one in service: half of them are weaker.

    Parameters
    ----------
    mean : float or array
        Mean strength of small clear specimens at 12 %. [Pa]
    slope_share : float or array
        Share left by the slope of grain. [1]
    moisture_share : float or array
        Share left by the moisture in service. [1]

    Returns
    -------
    float or array
        Adjusted mean strength. [Pa]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Tables 5-3a and 5-12 and eq. 5-3, multiplied.

    Examples
    --------
    >>> round(mean_in_service(mean=70e6, slope_share=0.9, moisture_share=0.9) / 1e6, 2)
    56.7
    """
    return mean * slope_share * moisture_share


@formula(
    "F_r = 0.18 F_v", unit="Pa", source="Wood Handbook FPL-GTR-282 (2021), p. 5-15", where={"shear": "F_v [Pa]"}
)  # fmt: skip
def rolling_shear(*, shear: Number) -> Number:
    """Strength of wood whose fibres are sheared over one another like rollers, as in a piece laid across the oar.

    Parameters
    ----------
    shear : float or array
        Shear strength along the grain. [Pa]

    Returns
    -------
    float or array
        Rolling shear strength, the least of the printed 18 to 28 %. [Pa]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), p. 5-15.

    Examples
    --------
    >>> round(rolling_shear(shear=10e6) / 1e6, 2)
    1.8
    """
    return ROLLING_SHARE * shear


def needed(species: Species, field: str) -> float:
    """A value of the table, refused where the table has none.

    Parameters
    ----------
    species : Species
        Row of the table. [record]
    field : str
        Name of the value, e.g. "bending_strength_12". [text]

    Returns
    -------
    float
        The value. [SI]

    Raises
    ------
    BadDesign
        The table has no such value for that wood.

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> from oarkit.tables import species_table
    >>> needed(species_table()[0], "bending_strength_12") / 1e6
    70.0
    """
    value: float | None = getattr(species, field)
    if value is None:
        what = field.removesuffix("_12").replace("_", " ")
        raise BadDesign(f"the table has no {what} for {species.name} ({species.origin}); choose another wood")
    return value


def mean_at(species: Species, prop: str, *, moisture: Number, work: Working) -> Number:
    """Mean of a property at a moisture content: the exponential law, or the plain rule where no green value is known.

    Parameters
    ----------
    species : Species
        Row of the table. [record]
    prop : str
        Property as the table names it, e.g. "compression_parallel". [text]
    moisture : float or array
        Moisture content as a fraction. [1]
    work : Working
        Keeps the line. [record]

    Returns
    -------
    float or array
        Mean of clear wood; tension across the grain as printed, for it follows no law of moisture. [Pa]

    Raises
    ------
    BadDesign
        The table has no value at 12 %.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), eq. 5-3; US Forest Products Laboratory, report of the 1940s; ANC-18
    (1944), Table 2-2.

    Examples
    --------
    >>> from oarkit.tables import species_table
    >>> sitka = species_table()[0]
    >>> round(float(mean_at(sitka, "shear_parallel", moisture=0.15, work=Working())) / 1e6, 2)
    7.27
    """
    at_12, green = needed(species, f"{prop}_12"), getattr(species, f"{prop}_green")
    if prop in NO_LAW:
        return at_12
    wet, plain, _ = LINES[prop]
    if green is None:
        wet_enough = np.minimum(moisture, species.moisture_point)  # past it the rule, like the law, changes nothing
        share: Number = work(plain, adjust.simple_moisture_factor, moisture=wet_enough, per_percent=PER_PERCENT[prop])
        return at_12 * share
    value: Number = work(
        wet, adjust.at_moisture,
        at_12=at_12, green=green, moisture=moisture, moisture_point=species.moisture_point, prop=prop,
    )  # fmt: skip
    return value


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """A strength in service: the table's mean at 12 %, the shares left by slope and moisture, the lower 5 % value."""

    at_12: float
    slope_share: Number
    moisture_share: Number
    lower: Number


def strength_in_service(
    species: Species, prop: str, *, moisture: Number, work: Working, slope_share: Number | None = None,
    name: str | None = None,
) -> Strength:  # fmt: skip
    """Lower 5 % strength of a board in one way of failing, as moist as it is in service.

    Parameters
    ----------
    species : Species
        Row of the table. [record]
    prop : str
        "bending_strength", "compression_parallel", "compression_across", "shear_parallel", "tension_across". [text]
    moisture : float or array
        Moisture content in service as a fraction. [1]
    work : Working
        Keeps the lines. [record]
    slope_share : float or array, optional
        Share left by the slope of grain, for what it weakens. [1]
    name : str, optional
        Name of the last line, where it is not the usual one. [text]

    Returns
    -------
    Strength
        Adjusted strength. [Pa]

    Raises
    ------
    BadDesign
        The table has no value at 12 %.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), Tables 5-3a, 5-6, 5-12 and eq. 5-3.

    Examples
    --------
    >>> from oarkit.tables import species_table
    >>> sitka = species_table()[0]
    >>> round(float(strength_in_service(sitka, "tension_across", moisture=0.15, work=Working()).lower) / 1e6, 2)
    1.53
    """
    at_12, variation = needed(species, f"{prop}_12"), species.clear(prop).variation
    name = name or LINES[prop][2]
    mean = mean_at(species, prop, moisture=moisture, work=work)
    share = mean / at_12
    if slope_share is None:
        lower = work(name, adjust.lower_fifth, mean=mean, variation=variation)
        return Strength(at_12=at_12, slope_share=1.0, moisture_share=share, lower=lower)
    lower = work(
        name, adjust.adjusted_strength,
        mean=at_12, variation=variation, slope_share=slope_share, moisture_share=share,
    )  # fmt: skip
    return Strength(at_12=at_12, slope_share=slope_share, moisture_share=share, lower=lower)
