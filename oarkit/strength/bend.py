"""An oar as a beam held at grip centre and lock: moment, drop on the bench, first frequency; and a bar to integrate."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from oarkit.oar.build import Oar
from oarkit.oar.mass import GRAVITY
from oarkit.working import Array, Number, formula

Plane: TypeAlias = Literal["stroke", "lateral"]

BENCH_MASS = 10.0  #: hung at mid-blade in the bench test [kg]
BENCH_LOAD = BENCH_MASS * GRAVITY
_ROUNDS = 14  #: of inverse iteration; the first mode has settled to rounding error well before
_GAUSS = 0.5 + np.array([-0.5, 0.5]) / np.sqrt(3)  #: two points between stations, exact for a cubic


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
    shape = oar.shape
    inboard = _column(oar.blade_arm) * (oar.s - _column(shape.grip_centre)) / _column(oar.hand_arm)
    outboard = _column(shape.mid_blade) - oar.s
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
    shape = oar.shape
    inboard = (oar.middle > _column(shape.grip_centre)) & (oar.middle < _column(shape.inboard))
    outboard = (oar.middle > _column(shape.inboard)) & (oar.middle < _column(shape.mid_blade))
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
    moment = unit_moment(oar)
    per_load = oar.integral(moment**2 / oar.laminate.bending_stiffness)
    if with_shear:
        per_load = per_load + oar.integral(unit_shear(oar) ** 2 / oar.laminate.shear_stiffness)
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


def _taken(values: Array, index: NDArray[np.intp]) -> Array:
    """Values at indices along the last axis, both for all designs of either."""
    lead = np.broadcast_shapes(values.shape[:-1], index.shape[:-1])
    return np.take_along_axis(
        np.broadcast_to(values, (*lead, values.shape[-1])), np.broadcast_to(index, (*lead, index.shape[-1])), axis=-1
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """An oar laid out for integrating in one plane, every given place standing twice among its stations.

    ``order`` sorts the oar's own stations followed by the places, each once before and once after what acts there;
    ``rank`` is where each of them has come to stand, ``own`` how many are the oar's. Between stations lie two Gauss
    points, ``ahead`` of the station before them, each for its ``reach`` of the oar [m]; ``flexibility`` is 1/(E I) at
    these points and ``give`` the integral of k/(G A) from station to station.
    """

    s: Array
    order: NDArray[np.intp]
    rank: NDArray[np.intp]
    own: int
    ahead: Array
    reach: Array
    flexibility: Array
    give: Array

    def at_own(self, values: Array) -> Array:
        """Values at the bar's stations, those of the oar's own stations."""
        return _taken(values, self.rank[..., : self.own])

    def at_place(self, values: Array, number: int) -> Array:
        """Values at the bar's stations, that of the place of this number; the last axis is kept."""
        where = self.own + 2 * number
        return _taken(values, self.rank[..., where : where + 1])

    def turned(self, curvature: Array) -> tuple[Array, Array]:
        """Slope and deflection at the stations from the curvature at the Gauss points, both nil at the handle end."""
        step = np.diff(self.s, axis=-1)
        slope = running(np.sum(self.reach * curvature, axis=-1))
        bent = np.sum(self.reach * curvature * (step[..., None] - self.ahead), axis=-1)
        return slope, running(slope[..., :-1] * step + bent)


def bar_of(oar: Oar, *, plane: Plane, places: Sequence[Number]) -> Bar:
    """Lay an oar out for integrating, with stations at the places where something acts or is read.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    plane : {"stroke", "lateral"}
        Bending square to the blade face, or in its plane. [text]
    places : sequence of float or array
        From the handle end. [m]

    Returns
    -------
    Bar
        Stations, Gauss points and flexibility. [m, 1/(N m2)]

    Notes
    -----
    Source: derived. Between two stations the fourth root of E I and the square root of G A/k run straight, which is
    exact for a round taper. One shear stiffness serves both planes; shear is about 1 % of a drop.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bar = bar_of(oar, plane="stroke", places=[1.0])
    >>> len(bar.s) - len(oar.s), float(bar.at_place(bar.s, 0)[0])
    (2, 1.0)
    """
    lead = np.broadcast_shapes(oar.s.shape[:-1], *(np.shape(place) for place in places))
    size = oar.s.shape[-1]
    laminate = oar.laminate
    stiffness = laminate.bending_stiffness if plane == "stroke" else laminate.lateral_stiffness
    own, root, shear = (
        np.broadcast_to(values, (*lead, size)) for values in (oar.s, stiffness**0.25, laminate.shear_stiffness**0.5)
    )
    twice = np.stack([np.broadcast_to(np.asarray(place, float), lead) for place in places for _ in range(2)], axis=-1)
    left = np.clip(np.sum(own[..., None, :] <= twice[..., None], axis=-1) - 1, 0, size - 2)
    before, after = np.take_along_axis(own, left, -1), np.take_along_axis(own, left + 1, -1)
    share = np.clip((twice - before) / np.maximum(after - before, 1e-12), 0.0, 1.0)
    every = np.concatenate([own, twice], axis=-1)
    order = np.argsort(every, axis=-1, kind="stable")

    def laid(values: Array) -> Array:
        start, stop = np.take_along_axis(values, left, -1), np.take_along_axis(values, left + 1, -1)
        joined = np.concatenate([values, start + share * (stop - start)], axis=-1)
        return np.take_along_axis(joined, order, -1)

    def between(values: Array) -> Array:
        weighed: Array = values[..., :-1, None] * (1 - _GAUSS) + values[..., 1:, None] * _GAUSS
        return weighed

    s = np.take_along_axis(every, order, -1)
    step = np.diff(s, axis=-1)[..., None]
    return Bar(
        s=s,
        order=order,
        rank=np.argsort(order, axis=-1),
        own=size,
        ahead=step * _GAUSS,
        reach=step * np.full(2, 0.5),
        flexibility=between(laid(root)) ** -4.0,
        give=np.sum(step * 0.5 * between(laid(shear)) ** -2.0, axis=-1),
    )


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
    return np.concatenate([np.zeros_like(steps[..., :1]), np.cumsum(steps, axis=-1)], axis=-1)
