"""What a slope of grain takes from the strength of clear wood."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.working import BadDesign, Number, Quantity, formula

_HANDBOOK = "Wood Handbook FPL-GTR-282 (2021)"


@dataclass(frozen=True, slots=True, kw_only=True)
class GrainTable:
    """Share of straight-grained strength at each slope of grain, flattest first; nil slope is 1.00.

    ``shares`` is bending strength; ``impact`` and ``compression`` (along the grain) stand beside it.
    """

    slopes: tuple[float, ...]
    shares: tuple[float, ...]
    impact: tuple[float, ...] = ()
    compression: tuple[float, ...] = ()

    def column(self, prop: str) -> tuple[float, ...]:
        """Shares of one property: "bending", "impact" or "compression"."""
        columns = {"bending": self.shares, "impact": self.impact, "compression": self.compression}
        if not columns.get(prop):
            raise BadDesign(
                f"the table of grain slopes has no column for {prop}; it knows bending, impact, compression"
            )
        return columns[prop]


@dataclass(frozen=True, slots=True, kw_only=True)
class GrainLaw:
    """Power n and across/along ratio Q/P of the law of inclined grain for one property."""

    power: float
    ratio: float


#: Wood Handbook FPL-GTR-282 (2021), pp. 5-28 to 5-30: bending, impact and compression as its text fits them to Table
#: 5-12; tension and modulus at the lower end of the printed ranges, which gives the lesser value.
LAWS = {
    "bending": GrainLaw(power=1.5, ratio=0.10),
    "impact": GrainLaw(power=1.5, ratio=0.05),
    "compression": GrainLaw(power=2.5, ratio=0.10),
    "tension": GrainLaw(power=1.5, ratio=0.04),
    "modulus": GrainLaw(power=2.0, ratio=0.04),
}


@formula(
    "share of straight-grained strength, linear in slope",
    unit="1",
    source=f"{_HANDBOOK}, Table 5-12, p. 5-31",
    where={"slope": "slope [1]"},
)
def slope_factor(*, slope: Number, table: GrainTable, prop: str = "bending") -> Number:
    """Share of a strength left by a slope of grain.

    Parameters
    ----------
    slope : float or array
        Rise over run of the grain, e.g. 1/15. [1]
    table : GrainTable
        Slopes and the shares left at them. [1]
    prop : str, optional
        "bending", "impact" or "compression" (along the grain). [text]

    Returns
    -------
    float or array
        Share of the straight-grained strength. [1]

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
    steepest, flattest = float(np.max(slope)), float(np.min(slope))
    if not (flattest >= 0 and steepest <= table.slopes[-1] + 1e-12):  # so that what is no number is refused too
        raise BadDesign(
            "the grain slopes {slope} (rise over run), and no strength is known for more than {steepest}; "
            "choose a straighter board, 1:15 or flatter",
            {
                "slope": Quantity(value=flattest if flattest < 0 else steepest, unit="1"),
                "steepest": Quantity(value=table.slopes[-1], unit="1"),
            },
        )
    return np.interp(slope, [0.0, *table.slopes], [1.0, *table.column(prop)])


@formula(
    "N = P Q/(P sin^n θ + Q cos^n θ), tan θ = slope", unit="Pa", source=f"{_HANDBOOK}, eq. 5-2, p. 5-28",
    where={"along": "P [Pa]", "across": "Q [Pa]", "slope": "slope [1]", "power": "n [1]"},
)  # fmt: skip
def inclined_strength(*, along: Number, across: Number, slope: Number, power: Number) -> Number:
    """Strength or modulus at an angle to the grain, by the law that Hankinson's belongs to.

    Parameters
    ----------
    along : float or array
        Value along the grain. [Pa]
    across : float or array
        Value across the grain. [Pa]
    slope : float or array
        Rise over run of the grain; infinite straight across. [1]
    power : float or array
        n of the law: 2 is Hankinson's, 1.5 to 2.5 as the property asks. [1]

    Returns
    -------
    float or array
        Value at that slope. [Pa]

    Raises
    ------
    BadDesign
        A slope below nil.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), eq. 5-2, pp. 5-28 and 5-29. For bending strength it runs 1 to 4 points
    below Table 5-12, so the table is used for strengths that have a column there.

    Examples
    --------
    >>> round(float(inclined_strength(along=70e6, across=7e6, slope=1 / 15, power=1.5)) / 1e6, 1)
    59.9
    """
    if not np.all(np.asarray(slope) >= 0):
        raise BadDesign("a slope of grain is nil or more; give rise over run, 1/15 for 1:15")
    angle = np.arctan(slope)
    return along * across / (along * np.sin(angle) ** power + across * np.cos(angle) ** power)


def inclined_share(*, slope: Number, prop: str) -> Number:
    """Share of a property left by a slope of grain, with the handbook's own n and Q/P for that property.

    Parameters
    ----------
    slope : float or array
        Rise over run of the grain. [1]
    prop : str
        "bending", "impact", "compression", "tension" or "modulus". [text]

    Returns
    -------
    float or array
        Share of the straight-grained value. [1]

    Raises
    ------
    BadDesign
        The law has no n for that property; a slope below nil.

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), eq. 5-2 with the n and Q/P of pp. 5-28 to 5-30.

    Examples
    --------
    >>> round(float(inclined_share(slope=1 / 12, prop="bending")), 3)
    0.81
    """
    if prop not in LAWS:
        raise BadDesign(f"the law of inclined grain has no power for {prop}; it knows {', '.join(LAWS)}")
    law = LAWS[prop]
    return inclined_strength(along=1.0, across=law.ratio, slope=slope, power=law.power)


@formula(
    "s = √(a² + b²)", unit="1", source=f"{_HANDBOOK}, p. 5-31", where={"first": "a [1]", "second": "b [1]"},
)  # fmt: skip
def slope_of_two_faces(*, first: Number, second: Number) -> Number:
    """Slope of grain of a board from the slopes read on two faces that meet.

    Parameters
    ----------
    first : float or array
        Slope on one face. [1]
    second : float or array
        Slope on the face beside it. [1]

    Returns
    -------
    float or array
        Slope of the grain itself. [1]

    Notes
    -----
    Source: Wood Handbook FPL-GTR-282 (2021), p. 5-31.

    Examples
    --------
    >>> round(1 / float(slope_of_two_faces(first=1 / 18, second=1 / 12)))
    10
    """
    slope: Number = np.hypot(first, second)
    return slope
