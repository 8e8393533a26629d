"""Span, inboard, outboard, overlap and leverage: plane geometry with both oars level and square off.

Each equation is one short function; `split` strings them together so that any sufficient set gives the rest.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from oarkit.working import BadDesign, Number, Quantity, formula


@formula("S = B + 2 a", unit="m", source="plane geometry", where={"beam": "B [m]", "overhang": "a [m]"})
def span_from_beam(*, beam: Number, overhang: Number) -> Number:
    """Span between the pin lines of a station.

    Parameters
    ----------
    beam : float or array
        Over the rails, abreast of the pins. [m]
    overhang : float or array
        Pin outside (+) or inside (-) the rail's outer face, each side. [m]

    Returns
    -------
    float or array
        Distance between the two pin lines. [m]

    Notes
    -----
    Source: plane geometry; measuring to the pin centre is common practice.

    Examples
    --------
    >>> round(span_from_beam(beam=0.9, overhang=-0.02), 3)
    0.86
    """
    return beam + 2 * overhang


@formula("O = 2 L_i − S", unit="m", source="common practice", where={"inboard": "L_i [m]", "span": "S [m]"})
def handle_overlap(*, span: Number, inboard: Number) -> Number:
    """Length by which the two handles cross with both oars level and square off.

    Parameters
    ----------
    span : float or array
        Distance between the two pin lines. [m]
    inboard : float or array
        One oar, from its pin line to the end of the grip. [m]

    Returns
    -------
    float or array
        Overlap of the grip ends, negative for a gap. [m]

    Notes
    -----
    Source: common practice; plane geometry, exact at mid-stroke with level oars.

    Examples
    --------
    >>> round(handle_overlap(span=1.20, inboard=0.65), 3)
    0.1
    """
    return 2 * inboard - span


@formula("L_i = (S + O)/2", unit="m", source="common practice", where={"span": "S [m]", "overlap": "O [m]"})
def inboard_from_overlap(*, span: Number, overlap: Number) -> Number:
    """Inboard that gives a wanted overlap (or gap) of the handles.

    Parameters
    ----------
    span : float or array
        Distance between the two pin lines. [m]
    overlap : float or array
        Overlap of the grip ends, negative for a gap. [m]

    Returns
    -------
    float or array
        Handle end to pin line. [m]

    Notes
    -----
    Source: common practice; the inverse of `handle_overlap`.

    Examples
    --------
    >>> round(inboard_from_overlap(span=1.20, overlap=0.10), 3)
    0.65
    """
    return (span + overlap) / 2


@formula("L_o = L − L_i", unit="m", source="common practice", where={"length": "L [m]", "inboard": "L_i [m]"})
def outboard_from_length(*, length: Number, inboard: Number) -> Number:
    """Outboard part of an oar, pin line to blade tip.

    Parameters
    ----------
    length : float or array
        Handle end to blade tip. [m]
    inboard : float or array
        Handle end to pin line. [m]

    Returns
    -------
    float or array
        Pin line to blade tip. [m]

    Notes
    -----
    Source: common practice (rigging survey definitions, 2006).

    Examples
    --------
    >>> round(outboard_from_length(length=2.3, inboard=0.6), 3)
    1.7
    """
    return length - inboard


@formula("R = L_o/L_i", unit="1", source="common practice", where={"outboard": "L_o [m]", "inboard": "L_i [m]"})
def leverage_ratio(*, outboard: Number, inboard: Number) -> Number:
    """The trade's ratio of outboard to inboard, end to tip (not what the forces follow).

    Parameters
    ----------
    outboard : float or array
        Pin line to blade tip. [m]
    inboard : float or array
        Handle end to pin line. [m]

    Returns
    -------
    float or array
        Leverage ratio. [1]

    Notes
    -----
    Source: common practice; e.g. Shaw in Rankov (ed.) 2012, p. 76.

    Examples
    --------
    >>> leverage_ratio(outboard=1.75, inboard=0.7)
    2.5
    """
    return outboard / inboard


@formula("L = L_i (1 + R)", unit="m", source="common practice", where={"inboard": "L_i [m]", "ratio": "R [1]"})
def length_from_ratio(*, inboard: Number, ratio: Number) -> Number:
    """Oar length that gives a wanted leverage ratio.

    Parameters
    ----------
    inboard : float or array
        Handle end to pin line. [m]
    ratio : float or array
        Outboard over inboard. [1]

    Returns
    -------
    float or array
        Handle end to blade tip, before rounding. [m]

    Notes
    -----
    Source: common practice. With a ratio of 18/7 this is the old rule "inboard times 25/7".

    Examples
    --------
    >>> round(length_from_ratio(inboard=0.7, ratio=18 / 7), 3)
    2.5
    """
    return inboard * (1 + ratio)


@formula("L_i = L/(1 + R)", unit="m", source="common practice", where={"length": "L [m]", "ratio": "R [1]"})
def inboard_from_ratio(*, length: Number, ratio: Number) -> Number:
    """Inboard of an oar of known length and leverage ratio.

    Parameters
    ----------
    length : float or array
        Handle end to blade tip. [m]
    ratio : float or array
        Outboard over inboard. [1]

    Returns
    -------
    float or array
        Handle end to pin line. [m]

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> inboard_from_ratio(length=4.5, ratio=3.0)
    1.125
    """
    return length / (1 + ratio)


@formula("L rounded to the nearest r", unit="m", source="common practice", where={"length": "L [m]", "step": "r [m]"})
def rounded_length(*, length: Number, step: Number | None) -> Number:
    """Length rounded once to a step that a builder can read off a tape.

    Parameters
    ----------
    length : float or array
        Derived length. [m]
    step : float, array or None
        Rounding step; None leaves the length as it is. [m]

    Returns
    -------
    float or array
        Rounded length; outboard and ratios are then worked again. [m]

    Notes
    -----
    Source: common practice. A length half-way between two steps goes up, as on a tape.

    Examples
    --------
    >>> round(float(rounded_length(length=2.2451, step=0.0254)), 4)
    2.2352
    """
    if step is None:
        return length
    return np.floor(length / step + 0.5) * step


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """How an oar and a span divide. Lengths in m, the ratio is outboard over inboard."""

    span: Number
    inboard: Number
    outboard: Number
    length: Number
    overlap: Number
    leverage_ratio: Number


_EQUATIONS: tuple[tuple[str, tuple[str, str], Callable[[Number, Number], Number]], ...] = (
    ("overlap", ("span", "inboard"), lambda s, i: handle_overlap(span=s, inboard=i)),
    ("inboard", ("span", "overlap"), lambda s, o: inboard_from_overlap(span=s, overlap=o)),
    ("span", ("inboard", "overlap"), lambda i, o: 2 * i - o),
    ("outboard", ("length", "inboard"), lambda n, i: outboard_from_length(length=n, inboard=i)),
    ("inboard", ("length", "outboard"), lambda n, o: n - o),
    ("length", ("inboard", "outboard"), lambda i, o: i + o),
    ("leverage_ratio", ("outboard", "inboard"), lambda o, i: leverage_ratio(outboard=o, inboard=i)),
    ("inboard", ("length", "leverage_ratio"), lambda n, r: inboard_from_ratio(length=n, ratio=r)),
    ("length", ("inboard", "leverage_ratio"), lambda i, r: length_from_ratio(inboard=i, ratio=r)),
    ("inboard", ("outboard", "leverage_ratio"), lambda o, r: o / r),
)


def split(
    *,
    span: Number | None = None,
    inboard: Number | None = None,
    outboard: Number | None = None,
    length: Number | None = None,
    overlap: Number | None = None,
    leverage_ratio: Number | None = None,
) -> Split:
    """All six numbers of the split from any three that suffice.

    Parameters
    ----------
    span : float or array, optional
        Distance between the two pin lines. [m]
    inboard : float or array, optional
        Handle end to pin line. [m]
    outboard : float or array, optional
        Pin line to blade tip. [m]
    length : float or array, optional
        Handle end to blade tip. [m]
    overlap : float or array, optional
        Overlap of the handles, negative for a gap. [m]
    leverage_ratio : float or array, optional
        Outboard over inboard. [1]

    Returns
    -------
    Split
        The six numbers; lengths. [m]

    Raises
    ------
    BadDesign
        Too little is given, or two of the given numbers contradict each other.

    Notes
    -----
    Source: plane geometry; O = 2 L_i - S, L = L_i + L_o, R = L_o/L_i.

    Examples
    --------
    >>> s = split(span=1.2, overlap=0.1, length=2.275)
    >>> round(s.inboard, 3), round(s.outboard, 3), round(s.leverage_ratio, 3)
    (0.65, 1.625, 2.5)
    """
    given = {
        "span": span, "inboard": inboard, "outboard": outboard,
        "length": length, "overlap": overlap, "leverage_ratio": leverage_ratio,
    }  # fmt: skip
    known: dict[str, Number] = {name: value for name, value in given.items() if value is not None}
    for _ in range(len(_EQUATIONS)):
        for name, (first, second), equation in _EQUATIONS:
            if first in known and second in known:
                value = equation(known[first], known[second])
                _agree(name, known.setdefault(name, value), value, (first, second))
    missing = [name for name in given if name not in known]
    if missing:
        raise BadDesign(
            f"{', '.join(missing)} cannot be worked out from {', '.join(known) or 'nothing'}; "
            "give two of span, inboard and overlap, and one of length, outboard and leverage ratio"
        )
    return Split(**known)


def _agree(name: str, held: Number, worked: Number, inputs: tuple[str, str]) -> None:
    """Refuse a contradiction, naming what disagrees and by how much."""
    difference = float(np.max(np.abs(np.subtract(held, worked))))
    if difference > 1e-9 * max(1.0, float(np.max(np.abs(held)))):
        unit = "1" if name == "leverage_ratio" else "m"
        raise BadDesign(
            f"{name.replace('_', ' ')} does not agree with {inputs[0]} and {inputs[1].replace('_', ' ')}: "
            "they differ by {difference}",
            {"difference": Quantity(value=difference, unit=unit)},
        )
