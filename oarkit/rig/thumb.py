"""The trade's rules of thumb for the length of an oar, as formulas; `oarkit.rig.rules` sets them side by side."""

from __future__ import annotations

from oarkit.rig.ranges import INCH
from oarkit.working import Number, formula

ALLOWANCE = 2 * INCH  #: of each handle past the middle of the boat, common practice [m]
_PRACTICE = "common practice"


@formula("L = 25/7 (S/2 + 2 in)", unit="m", source=_PRACTICE, where={"span": "S [m]"})
def seven_to_eighteen(*, span: Number) -> Number:
    """Oar length with two inches of each handle past the middle, inboard and outboard as 7 to 18.

    Parameters
    ----------
    span : float or array
        Distance between the two pin lines. [m]

    Returns
    -------
    float or array
        Handle end to blade tip. [m]

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> round(seven_to_eighteen(span=52 * 0.0254) / 0.0254, 3)
    100.0
    """
    return 25 / 7 * (span / 2 + ALLOWANCE)


@formula("L = 25/7 · S/2", unit="m", source=_PRACTICE, where={"span": "S [m]"})
def half_span(*, span: Number) -> Number:
    """Oar length with the handles end to end, inboard and outboard as 7 to 18.

    Parameters
    ----------
    span : float or array
        Distance between the two pin lines. [m]

    Returns
    -------
    float or array
        Handle end to blade tip. [m]

    Notes
    -----
    Source: common practice; about 10 cm are added where the handles should overlap.

    Examples
    --------
    >>> round(half_span(span=1.12), 3)
    2.0
    """
    return 25 / 7 * span / 2


@formula("L = 7/2 (S/2 + 2 in)", unit="m", source=_PRACTICE, where={"span": "S [m]"})
def two_sevenths(*, span: Number) -> Number:
    """Oar length with two inches of each handle past the middle and two sevenths of the oar inboard.

    Parameters
    ----------
    span : float or array
        Distance between the two pin lines. [m]

    Returns
    -------
    float or array
        Handle end to blade tip. [m]

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> round(two_sevenths(span=52 * 0.0254) / 0.0254, 3)
    98.0
    """
    return 7 / 2 * (span / 2 + ALLOWANCE)


@formula("L = 3 · S/2 + 6 in", unit="m", source=_PRACTICE, where={"span": "S [m]"})
def three_halves_plus_six(*, span: Number) -> Number:
    """Oar length of one and a half spans and six inches.

    Parameters
    ----------
    span : float or array
        Distance between the two pin lines. [m]

    Returns
    -------
    float or array
        Handle end to blade tip. [m]

    Notes
    -----
    Source: common practice. It is three times half the span with two inches, so that the ratio is 2.

    Examples
    --------
    >>> round(three_halves_plus_six(span=52 * 0.0254) / 0.0254, 3)
    84.0
    """
    return 3 * span / 2 + 6 * INCH


@formula("L = 2 B", unit="m", source=_PRACTICE, where={"beam": "B [m]"})
def twice_the_beam(*, beam: Number) -> Number:
    """Oar length of twice the beam; the trade takes a little under to a little over.

    Parameters
    ----------
    beam : float or array
        Over the rails, abreast of the pins. [m]

    Returns
    -------
    float or array
        Handle end to blade tip. [m]

    Notes
    -----
    Source: common practice. It is four times half the beam, so that the ratio is 3.

    Examples
    --------
    >>> twice_the_beam(beam=1.25)
    2.5
    """
    return 2 * beam


@formula("L = 25/7 L_i", unit="m", source=_PRACTICE, where={"inboard": "L_i [m]"})
def own_inboard(*, inboard: Number) -> Number:
    """Oar length from the inboard that is wanted, inboard and outboard as 7 to 18.

    Parameters
    ----------
    inboard : float or array
        Handle end to pin line. [m]

    Returns
    -------
    float or array
        Handle end to blade tip. [m]

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> round(own_inboard(inboard=0.7), 3)
    2.5
    """
    return 25 / 7 * inboard
