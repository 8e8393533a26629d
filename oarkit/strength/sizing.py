"""Sizes of a loom: for a wanted stiffness index, for a safety ratio, and the lightest taper that has both.

Three sizes are free: the lock's diameter and the two of the neck, with a straight taper between; the inboard goes
along with the lock. `scipy.optimize` finds the lightest of all tapers, then the sizes go onto the builder's steps: of
the steps around it the lightest that keeps every wish and limit is taken, until no neighbour is lighter.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, fields, replace
from itertools import product
from typing import Any

import numpy as np
from scipy import optimize

from oarkit.oar.build import Oar, build_oar
from oarkit.oar.mass import mass
from oarkit.strength.bend import bench_drop, stiffness_index
from oarkit.strength.hard_start import checks
from oarkit.working import Array, BadDesign, Number, Quantity

FACTORS = (0.4, 2.5)  #: of the present sizes, between which a loom is looked for, a choice of this project
NEIGHBOURS = 2  #: steps to either side of every size that are looked at
SAME = 1e-9  #: a wish is met by what lies so little short of it, as a share
SHARE_STEP = 0.05  #: by which the least share of the neck is eased, likewise [1]
GIVE = {
    "index": 0.05,
    "ratio": 0.05,
}  #: share by which a wish is relaxed to see what it costs, a choice of this project


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """What a loom must do: no more limber than the index, no weaker than the ratio in a hard start [N]; None for no
    wish."""

    index: float | None = None
    ratio: float | None = None
    force: float = 400.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LoomLimits:
    """What a builder's stock, tools and eye allow [m]: sizes go by the step, and lie between least and most."""

    step: float = 0.0005
    least_lock: float = 0.034
    most_lock: float = 0.060
    least_neck_thickness: float = 0.020
    least_neck_width: float = 0.018
    least_neck_share: float = 0.8  #: of width to thickness in the neck: a thin edge up and down bruises and twists [1]


@dataclass(frozen=True, slots=True, kw_only=True)
class LoomSize:
    """A loom's three sizes [m] with what they come to; ``decides`` names what keeps it from being lighter."""

    lock: float
    neck_thickness: float
    neck_width: float
    mass: float  #: of the whole oar [kg]
    index: float
    ratio: float
    fits: bool
    decides: tuple[str, ...]


def factor_for_index(oar: Oar, *, wanted: float) -> float:
    """Factor on lock, neck and inboard at which an oar has just a wanted stiffness index.

    Parameters
    ----------
    oar : Oar
        The oar (scalars). [record]
    wanted : float
        Bench drop over blade arm. [1]

    Returns
    -------
    float
        New size over old. [1]

    Raises
    ------
    BadDesign
        No size from 0.4 to 2.5 times the present one has that index.

    Notes
    -----
    Source: root of the oar's own bench drop; Brent's method (scipy).

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> factor_for_index(oar, wanted=0.04) > 1.0 > factor_for_index(oar, wanted=0.06)
    True
    """
    return _root(lambda factor: float(_measure(_with(oar, *_scaled(oar, factor)), Wishes()).index) - wanted, wanted)


def factor_for_ratio(oar: Oar, *, wanted: float, force: float) -> float:
    """Factor on lock, neck and inboard at which an oar has just a wanted safety ratio in a hard start.

    Parameters
    ----------
    oar : Oar
        The oar (scalars). [record]
    wanted : float
        Adjusted lower 5 % strength over stress. [1]
    force : float
        At the grip centre. [N]

    Returns
    -------
    float
        New size over old. [1]

    Raises
    ------
    BadDesign
        No size from 0.4 to 2.5 times the present one has that ratio.

    Notes
    -----
    Source: root of the oar's own checks; Brent's method (scipy).

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> factor_for_ratio(oar, wanted=1.2, force=400.0) < 1.0
    True
    """
    wishes = Wishes(force=force)
    return _root(lambda factor: wanted - float(_measure(_with(oar, *_scaled(oar, factor)), wishes).ratio), wanted)


def lightest_loom(oar: Oar, wishes: Wishes, limits: LoomLimits = LoomLimits()) -> LoomSize:
    """The lightest loom that keeps every wish and limit, on the builder's steps.

    Parameters
    ----------
    oar : Oar
        An oar (scalars) whose other sizes and woods are kept. [record]
    wishes : Wishes
        What it must do. [record]
    limits : LoomLimits, optional
        What stock, tools and eye allow. [m]

    Returns
    -------
    LoomSize
        Sizes, what they come to, and what decides; where nothing fits, the sizes that come nearest. [record]

    Raises
    ------
    BadDesign
        The limits leave no loom at all.

    Notes
    -----
    Source: derived; sequential least squares programming (scipy) for a start, then the steps around it.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> found = lightest_loom(oar, Wishes(index=0.05, ratio=1.5))
    >>> found.fits, found.index <= 0.05, found.ratio >= 1.5
    (True, True, True)
    """
    at = _on_steps(oar, wishes, limits, _start(oar, wishes, limits))
    found = _told(oar, wishes, limits, at)
    return replace(found, decides=_decides(oar, wishes, limits, at, found.mass)) if found.fits else found


def mass_against_index(
    oar: Oar, *, indexes: Sequence[float], wishes: Wishes, limits: LoomLimits = LoomLimits()
) -> tuple[LoomSize, ...]:
    """The lightest loom for each of several stiffness indexes: what stiffness costs in weight.

    Parameters
    ----------
    oar : Oar
        An oar (scalars) whose other sizes and woods are kept. [record]
    indexes : sequence of float
        The indexes. [1]
    wishes : Wishes
        The ratio that is wanted besides, and its force. [record]
    limits : LoomLimits, optional
        What stock, tools and eye allow. [m]

    Returns
    -------
    tuple of LoomSize
        One for each index, without what decides. [records]

    Notes
    -----
    Source: derived; `lightest_loom` for each.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> stiff, limber = mass_against_index(oar, indexes=(0.04, 0.06), wishes=Wishes())
    >>> stiff.mass > limber.mass
    True
    """
    told = []
    for index in indexes:
        wish = replace(wishes, index=index)
        told.append(_told(oar, wish, limits, _on_steps(oar, wish, limits, _start(oar, wish, limits))))
    return tuple(told)


def _told(oar: Oar, wishes: Wishes, limits: LoomLimits, at: Array) -> LoomSize:
    """Whole steps as sizes, with what they come to."""
    sizes = at * limits.step
    found = _measure(_with(oar, *sizes), wishes)
    return LoomSize(
        lock=float(sizes[0]),
        neck_thickness=float(sizes[1]),
        neck_width=float(sizes[2]),
        mass=float(found.mass),
        index=float(found.index),
        ratio=float(found.ratio),
        fits=bool(_short(found, wishes) <= SAME),
        decides=(),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Measure:
    mass: Number
    index: Number
    ratio: Number


def _with(oar: Oar, lock: Number, thickness: Number, width: Number) -> Oar:
    """The oar with other sizes of lock and neck; the inboard keeps its difference to the lock, or its share."""
    shape = oar.shape
    inboard = (
        shape.inboard_size + (lock - shape.lock_diameter)
        if shape.square_inboard
        else shape.inboard_size * np.divide(lock, shape.lock_diameter)
    )
    other = replace(shape, lock_diameter=lock, neck_thickness=thickness, neck_width=width, inboard_size=inboard)
    return build_oar(other, oar.pieces, oar.leather)


def _scaled(oar: Oar, factor: float) -> tuple[Number, Number, Number]:
    shape = oar.shape
    return factor * shape.lock_diameter, factor * shape.neck_thickness, factor * shape.neck_width


def _measure(oar: Oar, wishes: Wishes) -> _Measure:
    ratios = [check.ratio for check in checks(oar, force=wishes.force, wanted=1.0)]
    return _Measure(
        mass=mass(oar),
        index=stiffness_index(drop=bench_drop(oar), blade_arm=oar.blade_arm),
        ratio=np.min(np.broadcast_arrays(*ratios), axis=0),
    )


def _short(found: _Measure, wishes: Wishes) -> Array:
    """By what share wishes are missed, added up; nil where they are met."""
    missed = np.zeros_like(np.asarray(found.mass, dtype=float))
    if wishes.index is not None:
        missed = missed + np.maximum(found.index / wishes.index - 1, 0.0)
    if wishes.ratio is not None:
        missed = missed + np.maximum(1 - np.divide(found.ratio, wishes.ratio), 0.0)
    return missed


def _bounds(oar: Oar, limits: LoomLimits) -> tuple[Array, Array]:
    """Least and most of lock, neck thickness and neck width; the blade is never thicker than the neck."""
    shape = oar.shape
    thickest = float(np.max(np.maximum(shape.tip_thickness, shape.edge_at_root)))
    low = np.array([limits.least_lock, max(limits.least_neck_thickness, thickest), limits.least_neck_width])
    high = np.array([limits.most_lock, limits.most_lock, min(limits.most_lock, float(np.min(shape.blade_width)))])
    if np.any(low > high) or limits.step <= 0:
        raise BadDesign(
            "the limits leave no loom: the least neck or lock is more than the thickest stock, {most}",
            {"most": Quantity(value=limits.most_lock, unit="m")},
        )
    return low, high


def _start(oar: Oar, wishes: Wishes, limits: LoomLimits) -> Array:
    """The lightest taper of any sizes, by sequential least squares programming."""
    low, high = _bounds(oar, limits)
    scale = np.array([float(np.max(size)) for size in _scaled(oar, 1.0)])

    def measure(sizes: Array) -> _Measure:
        return _measure(_with(oar, *(sizes * scale)), wishes)

    unit = float(measure(np.ones(3)).mass)
    holds: list[Any] = [
        {"type": "ineq", "fun": lambda x: x[2] * scale[2] - limits.least_neck_share * x[1] * scale[1]},
        {"type": "ineq", "fun": lambda x: x[0] * scale[0] - x[1] * scale[1]},
        {"type": "ineq", "fun": lambda x: x[0] * scale[0] - x[2] * scale[2]},
    ]
    if wishes.index is not None:
        index = wishes.index
        holds.append({"type": "ineq", "fun": lambda x: 1 - float(measure(x).index) / index})
    if wishes.ratio is not None:
        ratio = wishes.ratio
        holds.append({"type": "ineq", "fun": lambda x: float(measure(x).ratio) / ratio - 1})
    minimize: Any = optimize.minimize
    found = minimize(
        lambda x: float(measure(x).mass) / unit,
        np.clip(np.ones(3), low / scale, high / scale),
        bounds=list(zip(low / scale, high / scale, strict=True)),
        constraints=holds,
        method="SLSQP",
        options={"maxiter": 60, "ftol": 1e-7},
    )
    sizes: Array = np.clip(found.x * scale, low, high)
    return sizes


def _on_steps(oar: Oar, wishes: Wishes, limits: LoomLimits, start: Array) -> Array:
    """Whole steps, from a start down to where no neighbour is better: first by what is missed, then by mass."""
    low, high = _bounds(oar, limits)
    least, most = np.ceil(low / limits.step - SAME), np.floor(high / limits.step + SAME)
    at = np.clip(np.round(start / limits.step), least, most)
    at[1] = min(at[1], at[0])
    at[2] = np.clip(at[2], math.ceil(limits.least_neck_share * at[1] - SAME), at[0])
    around = np.array(list(product(range(-NEIGHBOURS, NEIGHBOURS + 1), repeat=3)), dtype=float)
    for _ in range(60):
        near = at + around
        tapers = near[:, 0] >= near[:, 1:].max(axis=1)
        square = near[:, 2] >= limits.least_neck_share * near[:, 1] - SAME
        near = near[np.all((near >= least) & (near <= most), axis=1) & tapers & square]
        found = _measure(_with(oar, *(near * limits.step).T), wishes)
        missed = np.where(_short(found, wishes) <= SAME, 0.0, _short(found, wishes))
        best = near[np.lexsort((*near.T, np.round(found.mass, 12), np.round(missed, 12)))[0]]
        if np.array_equal(best, at):
            break
        at = best
    return at


def _decides(oar: Oar, wishes: Wishes, limits: LoomLimits, at: Array, mass_now: float) -> tuple[str, ...]:
    """Wishes and limits of which one, a step less strict, lets the loom be lighter."""
    relaxed: dict[str, tuple[Wishes, LoomLimits]] = {}
    if wishes.index is not None:
        relaxed["index"] = (replace(wishes, index=wishes.index * (1 + GIVE["index"])), limits)
    if wishes.ratio is not None:
        relaxed["ratio"] = (replace(wishes, ratio=wishes.ratio * (1 - GIVE["ratio"])), limits)
    for each in fields(LoomLimits):
        if each.name != "step":
            step = SHARE_STEP if each.name == "least_neck_share" else limits.step
            eased = getattr(limits, each.name) + (-step if each.name.startswith("least") else step)
            relaxed[each.name] = (wishes, replace(limits, **{each.name: eased}))
    names = []
    for name, (wish, limit) in relaxed.items():
        best = _on_steps(oar, wish, limit, at * limits.step)
        if float(mass(_with(oar, *(best * limits.step)))) < mass_now - 1e-9:
            names.append(name)
    return tuple(names)


def _root(short: Callable[[float], float], wanted: float) -> float:
    ends = [short(factor) for factor in FACTORS]
    if ends[0] * ends[1] > 0:
        raise BadDesign(
            "no loom from {least} to {most} times the present size comes to {wanted}",
            {name: Quantity(value=value, unit="1") for name, value in
             (("least", FACTORS[0]), ("most", FACTORS[1]), ("wanted", wanted))},
        )  # fmt: skip
    return float(optimize.brentq(short, *FACTORS, xtol=1e-12, rtol=1e-12))
