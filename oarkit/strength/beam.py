"""The oar as a beam under any load case: moment and shear along it, how it bends, and what its blade does by that."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.oar.build import Oar, once
from oarkit.strength.bar import Bar, bar_of
from oarkit.strength.bend import running
from oarkit.strength.cases import bench_test_at_tip, hard_start
from oarkit.strength.hard_start import CUSTOMARY_FORCE
from oarkit.strength.load import LoadCase
from oarkit.working import Array, Number, formula


def _column(value: Number) -> Array:
    return np.asarray(value, dtype=float)[..., None]


@formula("M = n (Σ F_i (s − s_i) + P e)", unit="N m", source="statics; Wood Handbook FPL-GTR-282 (2021), eq. 9-7")
def moment_along(oar: Oar, case: LoadCase) -> Array:
    """Bending moment at the oar's stations, all forces between handle end and station counted.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    case : LoadCase
        The load. [record]

    Returns
    -------
    array
        Moment, positive where it pulls on the aft face, or on the lower edge. [N m]

    Notes
    -----
    Source: statics; a push along the oar makes bending n times as large (`oarkit.strength.load.amplification`).

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> round(float(moment_along(oar, hard_start(oar)).max() / (400 * oar.hand_arm)), 9)
    1.0
    """
    moment = _moment(case, once(oar.s), beside=once(oar.middle))
    return oar.spread(moment if _plainly(case.amplified, 1.0) else _column(case.amplified) * moment)


def _moment(case: LoadCase, s: Array, *, beside: Array) -> Array:
    """Moment at places along the oar, not amplified; ``beside`` tells their side of a place that a push ends at."""
    moment: Array = np.zeros(())
    for place, force in zip(case.places, case.forces, strict=True):
        moment = moment + _column(force) * np.maximum(s - _column(place), 0.0)
    if not _plainly(case.axial, 0.0):
        first, last = case.pressed
        pressed = (beside > _column(first)) & (beside < _column(last))
        moment = moment + _column(np.multiply(case.axial, case.eccentricity)) * pressed
    return moment


def _plainly(number: Number, value: float) -> bool:
    """Whether a number is that one for all designs, so that what it would change need not be worked."""
    return isinstance(number, float) and number == value


@formula("V = n Σ F_i", unit="N", source="statics; Wood Handbook FPL-GTR-282 (2021), eq. 9-7")
def shear_along(oar: Oar, case: LoadCase) -> Array:
    """Shear force at the oar's stations, all forces between handle end and station counted.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    case : LoadCase
        The load. [record]

    Returns
    -------
    array
        Shear force; of the two stations at a break each has that of its own side. [N]

    Notes
    -----
    Source: statics.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> round(float(shear_along(oar, hard_start(oar)).max()), 6)
    400.0
    """
    s, middle = once(oar.s), once(oar.middle)
    shear: Array = np.zeros(())
    for place, force in zip(case.places, case.forces, strict=True):
        beyond = s - _column(place)
        here = np.where(np.abs(beyond) <= 1e-9, middle - _column(place), beyond)
        shear = shear + _column(force) * (here > 0)
    return oar.spread(shear if _plainly(case.amplified, 1.0) else _column(case.amplified) * shear)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bent:
    """Deflected shape at the oar's stations, counted from the line through the two places where it is held.

    Deflection in m, positive as forces are; ``slope`` is the turn of the sections in rad.
    """

    s: Array
    deflection: Array
    slope: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Shares:
    """Where a deflection comes from: bending outboard of the lock, bending inboard, shear; together the whole [m].

    ``outboard`` is what would remain if the oar were clamped at the lock and had no shear.
    """

    outboard: Number
    inboard: Number
    shear: Number


@dataclass(frozen=True, slots=True, kw_only=True)
class Service:
    """What the oar does in a stroke: the middle of the blade lags, its face turns further than that.

    ``lag`` in m behind where a stiff oar would have it; ``lag_angle`` the same as an angle at the pin, ``face_turn``
    the turn of the blade face at its middle, ``tip_turn`` at the tip, in rad.
    """

    lag: Number
    lag_angle: Number
    face_turn: Number
    tip_turn: Number


def _bent(
    oar: Oar, case: LoadCase, *, at: Number, inboard: bool = True, outboard: bool = True, shear: bool = True
) -> tuple[Bar, Array, Array]:
    """Deflection and slope at the bar's stations, ``at`` among them; parts of the oar may be rigid."""
    ends = () if _plainly(case.axial, 0.0) else case.pressed
    bar = bar_of(oar, plane=case.plane, places=(at, *case.held, *ends, *case.places), with_shear=shear)
    curvature = bar.flexibility * _moment(case, bar.point, beside=bar.point)
    if not (inboard and outboard):
        beyond = bar.point > _column(oar.shape.inboard)
        curvature = curvature * ((beyond & outboard) | (~beyond & inboard))
    slope, bent = bar.turned(bar.reach * curvature)
    if shear:
        middle = (bar.s[..., 1:] + bar.s[..., :-1]) / 2
        forces = zip(case.places, case.forces, strict=True)
        force = sum((_column(force) * (middle > _column(place)) for place, force in forces), np.zeros(()))
        bent = bent - running(force * bar.give)
    (first, start), (last, stop) = ((bar.at(bent, place), bar.at(bar.s, place)) for place in case.held)
    turn = (last - first) / (stop - start)
    more = _column(case.amplified)
    return bar, more * (bent - first - turn * (bar.s - start)), more * (slope - turn)


def bent_shape(oar: Oar, case: LoadCase, *, with_shear: bool = True) -> Bent:
    """How the oar bends under a load, along its stations.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    case : LoadCase
        The load. [record]
    with_shear : bool, optional
        Whether shear counts; off for comparison with a beam that has none. [flag]

    Returns
    -------
    Bent
        Deflection and slope at the stations, from the line through the two places where it is held. [m, rad]

    Notes
    -----
    Source: curvature integrated twice, textbook; shear form from Wood Handbook FPL-GTR-282 (2021), eq. 9-4.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bent = bent_shape(oar, hard_start(oar))
    >>> bool(bent.deflection[-1] > bent.deflection[-30] > 0)
    True
    """
    bar, bent, slope = _bent(oar, case, at=case.held[0], shear=with_shear)
    return Bent(s=oar.s, deflection=bar.at_own(bent), slope=bar.at_own(slope))


@formula("y″ = M/(E I), y′ less V/(G A/k), y nil where held", unit="m", source="curvature integrated twice, textbook")
def deflection_at(oar: Oar, case: LoadCase, *, place: Number, with_shear: bool = True) -> Number:
    """Deflection at any place along the oar, from the line through the two places where it is held.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    case : LoadCase
        The load. [record]
    place : float or array
        From the handle end. [m]
    with_shear : bool, optional
        Whether shear counts. [flag]

    Returns
    -------
    float or array
        Deflection, positive as forces are. [m]

    Notes
    -----
    Source: curvature integrated twice, textbook; shear form from Wood Handbook FPL-GTR-282 (2021), eq. 9-4.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> float(deflection_at(oar, hard_start(oar), place=oar.shape.inboard))
    0.0
    """
    bar, bent, _ = _bent(oar, case, at=place, shear=with_shear)
    return bar.at(bent, place)[..., 0][()]


@formula("φ = ∫ M/(E I) ds, from the line through the supports", unit="rad", source="textbook")
def slope_at(oar: Oar, case: LoadCase, *, place: Number, with_shear: bool = True) -> Number:
    """Turn of the section at any place along the oar, from the line through the two places where it is held.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    case : LoadCase
        The load. [record]
    place : float or array
        From the handle end, the length for the tip. [m]
    with_shear : bool, optional
        Whether shear counts, which moves the line through the supports. [flag]

    Returns
    -------
    float or array
        Turn. [rad]

    Notes
    -----
    Source: curvature integrated, textbook.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> case = hard_start(oar)
    >>> bool(slope_at(oar, case, place=oar.shape.length) > slope_at(oar, case, place=oar.shape.inboard) > 0)
    True
    """
    bar, _, slope = _bent(oar, case, at=place, shear=with_shear)
    return bar.at(slope, place)[..., 0][()]


def deflection_shares(oar: Oar, case: LoadCase, *, place: Number) -> Shares:
    """Where the deflection at a place comes from.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    case : LoadCase
        The load. [record]
    place : float or array
        From the handle end. [m]

    Returns
    -------
    Shares
        Bending outboard, bending inboard, shear. [m]

    Notes
    -----
    Source: curvature integrated over one part of the oar, the rest rigid; textbook.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> shares = deflection_shares(oar, hard_start(oar), place=oar.shape.mid_blade)
    >>> bool(shares.outboard > shares.inboard > shares.shear > 0)
    True
    """
    parts = ((False, True, False), (True, False, False), (False, False, True))
    drops = []
    for inboard, outboard, shear in parts:
        bar, bent, _ = _bent(oar, case, at=place, inboard=inboard, outboard=outboard, shear=shear)
        drops.append(bar.at(bent, place)[..., 0][()])
    return Shares(outboard=drops[0], inboard=drops[1], shear=drops[2])


@formula("Δ_t = y under 7 lb hung 5 mm in from the tip", unit="m", source="curvature integrated twice, textbook")
def bench_drop_at_tip(oar: Oar, *, with_shear: bool = True) -> Number:
    """Drop under 7 lb hung at the tip, grip centre and lock held.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    with_shear : bool, optional
        Whether shear counts. [flag]

    Returns
    -------
    float or array
        Drop where the weight hangs. [m]

    Notes
    -----
    Source: common practice for the test, the other customary one beside `oarkit.strength.bend.bench_drop`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(0.02 < bench_drop_at_tip(oar) < 0.06)
    True
    """
    case = bench_test_at_tip(oar)
    return deflection_at(oar, case, place=case.places[0], with_shear=with_shear)


def in_service(oar: Oar, *, force: Number = CUSTOMARY_FORCE) -> Service:
    """How far the blade lags and its face turns in a hard start.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    force : float or array, optional
        At the grip centre. [N]

    Returns
    -------
    Service
        Lag, and the turn of the face, which is larger. [m, rad]

    Notes
    -----
    Source: derived, as `deflection_at` and `slope_at`; from the line through hand and pin.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> service = in_service(oar)
    >>> bool(service.tip_turn > service.lag_angle > 0)
    True
    """
    case = hard_start(oar, force=force)
    middle = oar.shape.mid_blade
    lag = deflection_at(oar, case, place=middle)
    return Service(
        lag=lag,
        lag_angle=np.arctan2(lag, oar.blade_arm),
        face_turn=slope_at(oar, case, place=middle),
        tip_turn=slope_at(oar, case, place=oar.shape.length),
    )
