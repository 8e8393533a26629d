"""Span, inboard, outboard, overlap and leverage: plane geometry with both oars level and square off.

Each equation is one short function; `split` strings them together so that any sufficient set gives the rest.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.rig import arms, gearing
from oarkit.rig.solve import Kinds, Least, equation, refuse_unsound, solve
from oarkit.working import BadDesign, Number, formula


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
    """How an oar and a span divide. Lengths in m, the ratios are outboard over inboard and blade arm over hand arm.

    The working ratio is None where blade length or grip centre was not given.
    """

    span: Number
    inboard: Number
    outboard: Number
    length: Number
    overlap: Number
    leverage_ratio: Number
    working_ratio: Number | None
    button_mark: Number

    @property
    def gap(self) -> Number:
        """Gap between the handle ends, negative where they cross. [m]."""
        return 0.0 - self.overlap


_RESULTS = ("span", "inboard", "outboard", "length", "overlap", "leverage_ratio")
_KINDS = Kinds(
    ratios=frozenset({"leverage_ratio", "working_ratio"}),
    any_sign=frozenset({"overlap", "gap"}),
    conditions=frozenset({"blade_length", "grip_centre", "lock_half_width"}),
)
#: All the ways from one quantity to another; each function takes the quantities that its parameters are named after.
_EQUATIONS = (
    equation("overlap", lambda gap: 0.0 - gap),
    equation("gap", lambda overlap: 0.0 - overlap),
    equation("overlap", handle_overlap),
    equation("inboard", inboard_from_overlap),
    equation("span", lambda inboard, overlap: 2 * inboard - overlap),
    equation("outboard", outboard_from_length),
    equation("inboard", lambda length, outboard: length - outboard),
    equation("length", lambda inboard, outboard: inboard + outboard),
    equation("leverage_ratio", leverage_ratio),
    equation("inboard", lambda length, leverage_ratio: inboard_from_ratio(length=length, ratio=leverage_ratio)),
    equation("length", lambda inboard, leverage_ratio: length_from_ratio(inboard=inboard, ratio=leverage_ratio)),
    equation("inboard", lambda outboard, leverage_ratio: outboard / leverage_ratio),
    equation("button_mark", arms.button_mark),
    equation("inboard", gearing.inboard_from_mark),
    equation("hand_arm", arms.hand_arm),
    equation("inboard", lambda hand_arm, grip_centre: hand_arm + grip_centre),
    equation("blade_arm", arms.blade_arm),
    equation("bare_loom", lambda outboard, blade_length: outboard - blade_length),  # so that it is seen to be there
    equation("outboard", lambda blade_arm, blade_length: blade_arm + blade_length / 2),
    equation("working_ratio", arms.working_ratio),
    equation("hand_arm", lambda blade_arm, working_ratio: blade_arm / working_ratio),
    equation("blade_arm", lambda hand_arm, working_ratio: hand_arm * working_ratio),
    equation("inboard", gearing.inboard_from_working_ratio),
    equation("inboard", gearing.inboard_from_ratios),
)


def split(
    *,
    span: Number | None = None,
    inboard: Number | None = None,
    outboard: Number | None = None,
    length: Number | None = None,
    overlap: Number | None = None,
    gap: Number | None = None,
    leverage_ratio: Number | None = None,
    working_ratio: Number | None = None,
    button_mark: Number | None = None,
    blade_length: Number | None = None,
    grip_centre: Number | None = None,
    lock_half_width: Number = 0.0,
) -> Split:
    """All the numbers of the split from any three that suffice.

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
    gap : float or array, optional
        Gap between the handle ends: the overlap with its sign turned. [m]
    leverage_ratio : float or array, optional
        Outboard over inboard. [1]
    working_ratio : float or array, optional
        Blade arm over hand arm; needs blade length and grip centre. [1]
    button_mark : float or array, optional
        Handle end to the face that bears on the lock, in place of the inboard. [m]
    blade_length : float or array, optional
        Blade root to tip. [m]
    grip_centre : float or array, optional
        Handle end to the middle of the hand. [m]
    lock_half_width : float or array, optional
        Pin line to the bearing face of the lock. [m]

    Returns
    -------
    Split
        All of them, those given as they were given. [m, 1]

    Raises
    ------
    BadDesign
        Too little is given, two of the given numbers disagree, or nothing is left of a part of the oar.

    Notes
    -----
    Source: plane geometry; O = 2 L_i - S, L = L_i + L_o, R = L_o/L_i, k = (L_o - b_L/2)/(L_i - e). The allowance
    for the lock is that of the 2006 world-championship rigging survey.

    Examples
    --------
    >>> s = split(span=1.2, overlap=0.1, length=2.275)
    >>> round(s.inboard, 3), round(s.outboard, 3), round(s.leverage_ratio, 3)
    (0.65, 1.625, 2.5)
    """
    named = {  # as they are believed: what is measured on the boat first, what is wanted of the oar last
        "blade_length": blade_length, "grip_centre": grip_centre, "lock_half_width": lock_half_width,
        "span": span, "inboard": inboard, "button_mark": button_mark, "overlap": overlap, "gap": gap,
        "length": length, "outboard": outboard, "leverage_ratio": leverage_ratio, "working_ratio": working_ratio,
    }  # fmt: skip
    given: dict[str, Number] = {name: value for name, value in named.items() if value is not None}
    _refuse_unsound(given)
    known = solve(given=given, equations=_EQUATIONS, kinds=_KINDS)
    missing = [name.replace("_", " ") for name in _RESULTS if name not in known]
    if missing:
        had = [name.replace("_", " ") for name in given if name not in _KINDS.conditions]
        raise BadDesign(
            f"{', '.join(missing)} cannot be worked out from {', '.join(had) or 'nothing'}; "
            "give two of span, inboard and overlap, and one of length, outboard and leverage ratio; or one of span "
            "and overlap, and two of length, outboard and the ratios"
        )
    return Split(**{name: known[name] for name in (*_RESULTS, "button_mark")}, working_ratio=known.get("working_ratio"))


def _refuse_unsound(given: dict[str, Number]) -> None:
    """Refuse numbers that cannot stand for themselves, lists that do not match, and a ratio without its arms."""
    for name, value in given.items():
        least: Least = "nought" if name in _KINDS.conditions else "any" if name in _KINDS.any_sign else "above nought"
        refuse_unsound(name, value, least=least, unit="1" if name in _KINDS.ratios else "m")
    try:
        np.broadcast_shapes(*(np.shape(value) for value in given.values()))
    except ValueError:
        raise BadDesign("the numbers are lists of different lengths; give one of each for every oar") from None
    if "working_ratio" in given and not {"blade_length", "grip_centre"} <= given.keys():
        raise BadDesign(
            "a working ratio says nothing without the length of the blade and the place of the grip centre; "
            "give both, or the leverage ratio in its place"
        )
