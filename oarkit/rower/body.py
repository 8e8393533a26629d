"""A body size measured, or estimated from stature and mass with its spread."""

from __future__ import annotations

from dataclasses import dataclass

from oarkit.working import Finding, Number, Quantity, formula

SPREAD_5_95 = 1.645  #: half-width of the 5-95 % band in standard errors (normal law)


@dataclass(frozen=True, slots=True, kw_only=True)
class Regression:
    """One row of the body table: size = constant + per_stature * stature + per_mass * mass."""

    dimension: str
    constant: float
    per_stature: float
    per_mass: float
    standard_error: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """A body size and the half-width of its 5-95 % band; the spread of a measured size is nil."""

    value: Number
    spread: Number
    measured: bool


@formula(
    "y = c_0 + c_1 stature + c_2 mass", unit="m", source="ANSUR II, NATICK/TR-15/007 (2014), regression on the records",
    where={"stature": "stature [m]", "mass": "mass [kg]"},
)  # fmt: skip
def estimated_size(*, regression: Regression, stature: Number, mass: Number) -> Number:
    """Body size expected for a stature and a mass.

    Parameters
    ----------
    regression : Regression
        Row of the body table. [m, 1, m/kg]
    stature : float or array
        Standing height. [m]
    mass : float or array
        Body mass. [kg]

    Returns
    -------
    float or array
        Expected size. [m]

    Notes
    -----
    Source: ANSUR II, 2012 Anthropometric Survey of U.S. Army Personnel, NATICK/TR-15/007 (2014).

    Examples
    --------
    >>> thigh = Regression(dimension="thigh", constant=0.16, per_stature=-0.04, per_mass=0.001,
    ...                    standard_error=0.008, source="example")
    >>> round(estimated_size(regression=thigh, stature=1.75, mass=80), 3)
    0.17
    """
    return regression.constant + regression.per_stature * stature + regression.per_mass * mass


def body_size(*, measured: Number | None, regression: Regression, stature: Number, mass: Number) -> Size:
    """A measured size as it is, else the estimate with its 5-95 % spread.

    Parameters
    ----------
    measured : float, array or None
        The size taken on the rower, if it was. [m]
    regression : Regression
        Row of the body table. [m, 1, m/kg]
    stature : float or array
        Standing height. [m]
    mass : float or array
        Body mass. [kg]

    Returns
    -------
    Size
        Value and spread. [m]

    Notes
    -----
    Source: ANSUR II, NATICK/TR-15/007 (2014); the band assumes a normal law of errors.

    Examples
    --------
    >>> thigh = Regression(dimension="thigh", constant=0.16, per_stature=-0.04, per_mass=0.001,
    ...                    standard_error=0.008, source="example")
    >>> body_size(measured=0.155, regression=thigh, stature=1.75, mass=80).value
    0.155
    """
    if measured is not None:
        return Size(value=measured, spread=0.0, measured=True)
    return Size(
        value=estimated_size(regression=regression, stature=stature, mass=mass),
        spread=SPREAD_5_95 * regression.standard_error,
        measured=False,
    )


def estimate_findings(thigh: Size | None) -> list[Finding]:
    """A note where the thigh was estimated and not measured.

    Parameters
    ----------
    thigh : Size or None
        Thickness of the thigh. [m]

    Returns
    -------
    list of Finding
        One sentence, or none. [records]

    Notes
    -----
    Source: ANSUR II, NATICK/TR-15/007 (2014).

    Examples
    --------
    >>> estimate_findings(Size(value=0.16, spread=0.0, measured=True))
    []
    """
    if thigh is None or thigh.measured:
        return []
    text = (
        "The thigh was not measured: {thigh} ± {spread} is estimated from stature and mass (5 to 95 % of people "
        "of that size). "
        "Measure it, for the clearance is worth no more than it."
    )
    quantities = {"thigh": Quantity(value=thigh.value, unit="m"), "spread": Quantity(value=thigh.spread, unit="m")}
    return [
        Finding(
            level="note",
            code="thigh_estimated",
            text=text,
            quantities=quantities,
            source="ANSUR II, NATICK/TR-15/007 (2014)",
        )
    ]
