"""An oar as a beam held at grip centre and lock: moment, drop on the bench, first frequency."""

from __future__ import annotations

from typing import Literal, TypeAlias

import numpy as np

from oarkit.oar.build import Oar, once
from oarkit.oar.mass import GRAVITY
from oarkit.working import Array, Number, formula

Plane: TypeAlias = Literal["stroke", "lateral"]

BENCH_MASS = 10.0  #: hung at mid-blade in the bench test [kg]
BENCH_LOAD = BENCH_MASS * GRAVITY
_ROUNDS = 14  #: of inverse iteration; the first mode has settled to rounding error well before


def _column(value: Number) -> Array:
    return np.asarray(value, dtype=float)[..., None]


def unit_moment(oar: Oar) -> Array:
    """Bending moment along the oar for a unit load at mid-blade, held at grip centre and lock.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    array
        Moment over load at each station. [m]

    Notes
    -----
    Source: statics; rises straight from the grip centre to the lock and falls straight to mid-blade.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> round(float(unit_moment(oar).max() - oar.blade_arm), 9)
    0.0
    """
    return oar.spread(_unit_moment(oar))


def _unit_moment(oar: Oar) -> Array:
    """As `unit_moment`, only once where all designs share it."""
    shape, s = oar.shape, once(oar.s)
    inboard = _column(oar.blade_arm) * (s - _column(shape.grip_centre)) / _column(oar.hand_arm)
    outboard = _column(shape.mid_blade) - s
    return np.maximum(np.minimum(inboard, outboard), 0.0)


def unit_shear(oar: Oar) -> Array:
    """Shear force along the oar for a unit load at mid-blade, without its sign.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    array
        Shear over load at each station. [1]

    Notes
    -----
    Source: statics.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> float(unit_shear(oar)[-1])
    0.0
    """
    return oar.spread(_unit_shear(oar))


def _unit_shear(oar: Oar) -> Array:
    """As `unit_shear`, only once where all designs share it."""
    shape, middle, lock = oar.shape, once(oar.middle), _column(oar.shape.inboard)
    inboard = (middle > _column(shape.grip_centre)) & (middle < lock)
    outboard = (middle > lock) & (middle < _column(shape.mid_blade))
    return inboard * _column(oar.blade_arm / oar.hand_arm) + outboard * 1.0


@formula(
    "Δ = ∫ M m/(E I) ds + ∫ V v/(G A/k) ds",
    unit="m",
    source="unit-load method; shear form from Wood Handbook eq. 9-4",
)
def bench_drop(oar: Oar, *, load: Number = BENCH_LOAD, with_shear: bool = True) -> Number:
    """Drop at mid-blade under a weight hung there, grip centre and lock held.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    load : float or array, optional
        Weight hung at mid-blade, 10 kg where nothing is said. [N]
    with_shear : bool, optional
        Whether to add the drop by shear; off for comparison with a beam that has none. [flag]

    Returns
    -------
    float or array
        Drop of mid-blade. [m]

    Notes
    -----
    Source: unit-load method, textbook; the modulus is free of shear, so shear is a term of its own.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(bench_drop(oar, with_shear=False) < bench_drop(oar))
    True
    """
    per_load = oar.integral(_unit_moment(oar) ** 2 / oar.laminate.bending_stiffness)
    if with_shear:
        per_load = per_load + oar.integral(_unit_shear(oar) ** 2 / oar.laminate.shear_stiffness)
    return load * per_load


def drop_shares(oar: Oar) -> tuple[Number, Number, Number]:
    """Where the bench drop comes from: bending outboard of the lock, bending inboard, shear.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    tuple of float or array
        The three drops, which add up to `bench_drop`. [m]

    Notes
    -----
    Source: unit-load method, textbook.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> round(float(sum(drop_shares(oar)) / bench_drop(oar)), 9)
    1.0
    """
    bending = BENCH_LOAD * unit_moment(oar) ** 2 / oar.laminate.bending_stiffness
    outboard = oar.middle > _column(oar.shape.inboard)
    shear = BENCH_LOAD * unit_shear(oar) ** 2 / oar.laminate.shear_stiffness
    return oar.integral(bending * outboard), oar.integral(bending * ~outboard), oar.integral(shear)


@formula("κ = Δ/l_b", unit="1", source="common practice", where={"drop": "Δ [m]", "blade_arm": "l_b [m]"})
def stiffness_index(*, drop: Number, blade_arm: Number) -> Number:
    """Bench drop as a share of the blade arm, the feel of an oar in one number.

    Parameters
    ----------
    drop : float or array
        Drop at mid-blade under 10 kg. [m]
    blade_arm : float or array
        Pin line to mid-blade. [m]

    Returns
    -------
    float or array
        Stiffness index; larger is more limber. [1]

    Notes
    -----
    Source: common practice; the classes stiff, lively, limber, whippy are a choice of this project.

    Examples
    --------
    >>> stiffness_index(drop=0.06, blade_arm=1.5)
    0.04
    """
    return drop / blade_arm


@formula("ω^2 = ∫ m y p y ds/∫ m y^2 ds, y by inverse iteration", unit="Hz", source="Stodola's method, textbook")
def first_frequency(oar: Oar) -> Number:
    """First bending frequency in air, held at grip centre and lock, both ends free beyond.

    Parameters
    ----------
    oar : Oar
        The oar. [record]

    Returns
    -------
    float or array
        Frequency; shear and rotary inertia neglected. [Hz]

    Notes
    -----
    Source: inverse iteration on the static deflection under inertia loads (Stodola), textbook. The masses are lumped
    at the stations, the leather at the middle of its length.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(2 < first_frequency(oar) < 20)
    True
    """
    lumps = oar.weight * oar.laminate.mass_per_length
    leather = np.argmin(np.abs(oar.s - _column(oar.leather_middle)), axis=-1, keepdims=True)
    lumps = lumps + _column(oar.leather.mass) * (np.arange(oar.s.shape[-1]) == leather)
    grip, lock = _column(oar.shape.grip_centre), _column(oar.shape.inboard)
    shape = (oar.s - grip) * (oar.s - lock)
    square = _column(0.0)
    for _ in range(_ROUNDS):
        load = lumps * shape
        bent = _deflection(oar, load, grip, lock)
        square = np.sum(load * bent, axis=-1) / np.sum(lumps * bent**2, axis=-1)
        shape = bent / np.max(np.abs(bent), axis=-1, keepdims=True)
    return np.sqrt(square) / (2 * np.pi)


def _deflection(oar: Oar, load: Array, grip: Array, lock: Array) -> Array:
    """Deflection at the stations under loads at the stations, held at two of them."""
    about_grip = np.sum(load * (oar.s - grip), axis=-1, keepdims=True)
    at_lock = about_grip / (lock - grip)
    at_grip = np.sum(load, axis=-1, keepdims=True) - at_lock
    beyond = np.flip(np.cumsum(np.flip(load, -1), -1), -1)
    beyond_moment = np.flip(np.cumsum(np.flip(load * oar.s, -1), -1), -1)
    moment = (
        beyond_moment - beyond * oar.s - at_lock * np.maximum(lock - oar.s, 0) - at_grip * np.maximum(grip - oar.s, 0)
    )
    slope = _running(moment / oar.laminate.bending_stiffness, oar.s)
    bent = _running(slope, oar.s)
    at = [
        np.take_along_axis(bent, np.argmin(np.abs(oar.s - place), axis=-1, keepdims=True), -1) for place in (grip, lock)
    ]
    return bent - at[0] - (at[1] - at[0]) * (oar.s - grip) / (lock - grip)


def _running(values: Array, s: Array) -> Array:
    """Running integral by the trapezoid rule."""
    return running((values[..., 1:] + values[..., :-1]) / 2 * np.diff(s, axis=-1))


def running(steps: Array) -> Array:
    """Running sum of steps, from nought.

    Parameters
    ----------
    steps : array
        What is added from each station to the next. [any]

    Returns
    -------
    array
        The sum at each station, one more than steps. [any]

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> running(np.array([1.0, 2.0])).tolist()
    [0.0, 1.0, 3.0]
    """
    total = np.zeros((*steps.shape[:-1], steps.shape[-1] + 1))
    np.cumsum(steps, axis=-1, out=total[..., 1:])
    return total
