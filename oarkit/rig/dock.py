"""Brackets at a dock: how far they reach, which docks they pass under or over, how thick a fender keeps them off."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from oarkit.working import Finding, Level, Line, Number, Quantity, Working, formula

DOCK_HEEL = math.radians(5)  #: heel of a boat at a dock, a choice of this project
TIP_BEYOND_PIN = 0.025  #: bracket beyond the pin, 20 to 30 mm is common practice [m]
CLEAR = 0.100  #: height left between bracket and dock edge, common practice [m]
BANK_STEP = 0.150  #: most overhang to step in over from a bank, common practice [m]

_GEOMETRY = "plane geometry; 25, 100 and 150 mm common practice"


@dataclass(frozen=True, slots=True, kw_only=True)
class DockClearance:
    """Reach of a bracket and the docks it keeps clear of. Lengths in m, heights above the water.

    A dock edge is safe at or below ``low_dock`` or at or above ``high_dock``, whatever the fender; the gap is None
    where no fender was given. ``width`` is over both tips.
    """

    overhang: Number
    tip_reach: Number
    width: Number
    heel_lift: Number
    low_dock: Number
    high_dock: Number
    fender_needed: Number
    gap: Number | None
    working: tuple[Line, ...]


@formula("e = a_0 + 25 mm", unit="m", source="common practice, 20 to 30 mm", where={"overhang": "a_0 [m]"})
def tip_reach(*, overhang: Number) -> Number:
    """Reach of the bracket's tip beyond the outer face of the rail.

    Parameters
    ----------
    overhang : float or array
        Pin beyond the outer face of the rail. [m]

    Returns
    -------
    float or array
        Tip beyond the outer face of the rail. [m]

    Notes
    -----
    Source: common practice, the tip 20 to 30 mm beyond the pin.

    Examples
    --------
    >>> round(tip_reach(overhang=0.12), 6)
    0.145
    """
    return overhang + TIP_BEYOND_PIN


@formula(
    "g = f − r − e", unit="m", source="plane geometry",
    where={"fender": "f [m]", "flare_run": "r [m]", "reach": "e [m]"},
)  # fmt: skip
def dock_gap(*, fender: Number, flare_run: Number, reach: Number) -> Number:
    """Gap between the bracket's tip and a dock that the hull's fender lies against.

    Parameters
    ----------
    fender : float or array
        Thickness of the fender. [m]
    flare_run : float or array
        Rail outside the hull's side at the height of the fender. [m]
    reach : float or array
        Tip beyond the outer face of the rail. [m]

    Returns
    -------
    float or array
        Gap, negative where the tip overlaps the dock. [m]

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> round(dock_gap(fender=0.20, flare_run=0.03, reach=0.145), 6)
    0.025
    """
    return fender - flare_run - reach


@formula(
    "f = max(0, r + e)", unit="m", source="plane geometry", where={"flare_run": "r [m]", "reach": "e [m]"}
)  # fmt: skip
def fender_needed(*, flare_run: Number, reach: Number) -> Number:
    """Thickness of fender that just keeps the bracket's tip off a dock of any height.

    Parameters
    ----------
    flare_run : float or array
        Rail outside the hull's side at the height of the fender. [m]
    reach : float or array
        Tip beyond the outer face of the rail. [m]

    Returns
    -------
    float or array
        Thickness of the fender. [m]

    Notes
    -----
    Source: plane geometry; `dock_gap` set to nil.

    Examples
    --------
    >>> round(float(fender_needed(flare_run=0.03, reach=0.145)), 6)
    0.175
    """
    return np.maximum(0.0, np.add(flare_run, reach))


@formula(
    "u = S/2 sin φ", unit="m", source="plane geometry", where={"span": "S [m]", "heel": "φ [rad]"}
)  # fmt: skip
def heel_lift(*, span: Number, heel: Number = DOCK_HEEL) -> Number:
    """Rise or fall of a lock as the boat heels.

    Parameters
    ----------
    span : float or array
        Distance between the two pin lines. [m]
    heel : float or array, optional
        Heel; 5 degrees where nothing is said. [rad]

    Returns
    -------
    float or array
        Up on one side, down on the other. [m]

    Notes
    -----
    Source: plane geometry; the boat turns about the middle of her waterline.

    Examples
    --------
    >>> round(float(heel_lift(span=1.2, heel=np.radians(30))), 6)
    0.3
    """
    return np.multiply(span, np.sin(heel)) / 2


@formula(
    "z_low = z_u − 100 mm − u", unit="m", source=_GEOMETRY, where={"underside": "z_u [m]", "lift": "u [m]"}
)  # fmt: skip
def low_dock(*, underside: Number, lift: Number) -> Number:
    """Highest dock edge that the bracket passes over.

    Parameters
    ----------
    underside : float or array
        Lowest place of the bracket above the water. [m]
    lift : float or array
        Rise or fall of the lock in heeling. [m]

    Returns
    -------
    float or array
        Height above the water; negative where no dock is low enough. [m]

    Notes
    -----
    Source: common practice, 100 mm to spare.

    Examples
    --------
    >>> round(low_dock(underside=0.25, lift=0.05), 6)
    0.1
    """
    return underside - CLEAR - lift


@formula("z_high = z_o + 100 mm + u", unit="m", source=_GEOMETRY, where={"top": "z_o [m]", "lift": "u [m]"})
def high_dock(*, top: Number, lift: Number) -> Number:
    """Lowest dock edge that the bracket passes under.

    Parameters
    ----------
    top : float or array
        Highest place of bracket and lock above the water. [m]
    lift : float or array
        Rise or fall of the lock in heeling. [m]

    Returns
    -------
    float or array
        Height above the water. [m]

    Notes
    -----
    Source: common practice, 100 mm to spare.

    Examples
    --------
    >>> round(high_dock(top=0.30, lift=0.05), 6)
    0.45
    """
    return top + CLEAR + lift


def dock_clearance(
    *,
    beam: Number,
    overhang: Number,
    underside: Number,
    top: Number,
    fender: Number | None = None,
    flare_run: Number = 0.0,
    heel: Number = DOCK_HEEL,
) -> DockClearance:
    """Reach of the brackets and the docks they keep clear of.

    Parameters
    ----------
    beam : float or array
        Over the rails, abreast of the pins. [m]
    overhang : float or array
        Pin beyond the outer face of the rail. [m]
    underside : float or array
        Lowest place of the bracket above the water. [m]
    top : float or array
        Highest place of bracket and lock above the water. [m]
    fender : float or array, optional
        Thickness of the fender that the hull lies against. [m]
    flare_run : float or array, optional
        Rail outside the hull's side at the height of the fender. [m]
    heel : float or array, optional
        Heel at the dock. [rad]

    Returns
    -------
    DockClearance
        Reach, gap and safe heights. [m]

    Notes
    -----
    Source: plane geometry; allowances are common practice.

    Examples
    --------
    >>> found = dock_clearance(beam=0.86, overhang=0.12, underside=0.22, top=0.30, fender=0.10)
    >>> round(float(found.gap), 3), round(float(found.high_dock), 3)
    (-0.045, 0.448)
    """
    work = Working()
    reach = work("rig.tip_reach", tip_reach, overhang=overhang)
    lift = work("rig.heel_lift", heel_lift, span=beam + 2 * overhang, heel=heel)
    gap = None if fender is None else work("rig.dock_gap", dock_gap, fender=fender, flare_run=flare_run, reach=reach)
    return DockClearance(
        overhang=overhang,
        tip_reach=reach,
        width=beam + 2 * np.maximum(reach, 0.0),
        heel_lift=lift,
        low_dock=work("rig.low_dock", low_dock, underside=underside, lift=lift),
        high_dock=work("rig.high_dock", high_dock, top=top, lift=lift),
        fender_needed=work("rig.fender_needed", fender_needed, flare_run=flare_run, reach=reach),
        gap=gap,
        working=tuple(work.lines),
    )


def _m(value: Number) -> Quantity:
    return Quantity(value=float(value), unit="m")


def dock_findings(clearance: DockClearance, *, dock_height: Number | None = None) -> list[Finding]:
    """Findings on brackets at a dock, at a bank and in crowded water (scalars).

    Parameters
    ----------
    clearance : DockClearance
        Reach, gap and safe heights. [record]
    dock_height : float, optional
        Edge of the dock above the water. [m]

    Returns
    -------
    list of Finding
        None where nothing stands out beyond the rail. [records]

    Notes
    -----
    Source: plane geometry; common practice.

    Examples
    --------
    >>> found = dock_clearance(beam=0.86, overhang=0.12, underside=0.22, top=0.30)
    >>> [f.code for f in dock_findings(found, dock_height=0.30)]
    ['dock', 'boarding']
    """
    if float(clearance.tip_reach) <= 0:
        return []
    return [_dock(clearance, dock_height), *_boarding(clearance)]


def _dock(c: DockClearance, dock_height: Number | None) -> Finding:
    sizes = {
        "reach": _m(c.tip_reach),
        "low": _m(c.low_dock),
        "high": _m(c.high_dock),
        "fender": _m(c.fender_needed),
        "lift": _m(c.heel_lift),
    }
    over = "" if float(c.low_dock) < 0 else "lower than {low} or "
    level: Level = "note"
    if c.gap is not None and float(c.gap) > 0:
        sizes["gap"] = _m(c.gap)
        text = "With that fender the tips of the brackets stay {gap} off a dock of any height."
    elif dock_height is None:
        text = (
            f"The tips of the brackets reach {{reach}} beyond the rails. They keep clear of a dock whose edge is {over}"
            "higher than {high} above the water (heeling moves a lock by {lift}); anywhere between, a fender of more "
            "than {fender} keeps them off."
        )
    elif float(dock_height) <= float(c.low_dock) or float(dock_height) >= float(c.high_dock):
        sizes["dock"] = _m(dock_height)
        passes = "over" if float(dock_height) <= float(c.low_dock) else "under"
        text = f"The brackets pass {passes} the edge of a dock {{dock}} above the water, through {{lift}} of heeling."
    else:
        level = "caution"
        sizes["dock"] = _m(dock_height)
        text = (
            f"A dock edge {{dock}} above the water catches the brackets, which keep clear only of docks {over}higher "
            "than {high}. Fold them, swing them in or unbolt them before landing, or hang a fender of more than "
            "{fender}."
        )
    if c.gap is not None and float(c.gap) <= 0:
        sizes["gap"] = _m(-float(c.gap))
        text += " The fender there is leaves the tips {gap} over the dock."
    return Finding(level=level, code="dock", text=text, quantities=sizes, source=_GEOMETRY)


def _boarding(c: DockClearance) -> list[Finding]:
    far = float(c.overhang) > BANK_STEP
    first = (
        "The pins stand {overhang} out: too far to step in over from a bank ({most} at most)"
        if far
        else "The pins stand {overhang} out, within the {most} that can be stepped over from a bank"
    )
    text = f"{first}; in crowded water the boat is {{width}} wide over the brackets, oars not counted."
    sizes = {"overhang": _m(c.overhang), "most": _m(BANK_STEP), "width": _m(c.width)}
    if float(c.overhang) <= 0:
        return []
    return [
        Finding(
            level="caution" if far else "note", code="boarding", text=text, quantities=sizes, source="common practice"
        )
    ]
