"""Sizes of a loom: for a wanted stiffness index, for a safety ratio, and the lightest taper that has both.

Three sizes are free: the lock's diameter and the two of the neck, with a straight taper between; the inboard goes
along with the lock. The search is that of `oarkit.strength.sizing_search`, on fewer stations than the oar has; its end
is settled on all of them.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from scipy import optimize

from oarkit.oar.build import Oar, build_oar
from oarkit.oar.mass import mass
from oarkit.strength.along import bending_along
from oarkit.strength.bend import bench_drop, stiffness_index
from oarkit.strength.cases import hard_start
from oarkit.strength.hard_start import checks, safety_ratio
from oarkit.strength.hole import hole_stress_in
from oarkit.strength.sizing_limits import LoomLimits, LoomRoom, Missed, Wishes, drawn, inboard_beside
from oarkit.strength.sizing_search import SAME, Measured, Problem, confirmed, on_steps, start_of, what_decides
from oarkit.working import Array, BadDesign, Number, Quantity

__all__ = [
    "LoomLimits",
    "LoomSize",
    "Missed",
    "Wishes",
    "drawn",
    "factor_for_index",
    "factor_for_ratio",
    "lightest_loom",
    "mass_against_index",
]

FACTORS = (0.4, 2.5)  #: of the present sizes, between which a loom is looked for, a choice of this project
CUSTOM = LoomLimits()
STATIONS = 121  #: that the search has, with some more for every piece


@dataclass(frozen=True, slots=True, kw_only=True)
class LoomSize:
    """A loom's three sizes [m] with what they come to.

    ``decides`` names the wishes and limits that keep it from being lighter. Where it does not fit, it is the nearest
    there is: ``missed`` tells by how much, ``in_the_way`` names the limits of which each, a step less strict, would let
    it come nearer. ``part`` comes nearest to breaking in a hard start, at ``place`` from the handle end.
    """

    lock: float
    neck_thickness: float
    neck_width: float
    mass: float  #: of the whole oar [kg]
    index: float
    ratio: float
    fits: bool
    decides: tuple[str, ...]
    missed: tuple[Missed, ...] = ()
    in_the_way: tuple[str, ...] = ()
    part: str = "loom"
    place: float = 0.0


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
        The oar was measured, or no size from 0.4 to 2.5 times the present one has that index.

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
        The oar was measured, or no size from 0.4 to 2.5 times the present one has that ratio.

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
    return _root(
        lambda factor: wanted - float(_measure(_with(oar, *_scaled(oar, factor)), Wishes(force=force)).ratio), wanted
    )


def lightest_loom(oar: Oar, wishes: Wishes, limits: LoomLimits = CUSTOM) -> LoomSize:
    """The lightest loom that keeps every wish and limit, on the builder's steps.

    Parameters
    ----------
    oar : Oar
        An oar (scalars) drawn from sizes; its other sizes and its woods are kept. [record]
    wishes : Wishes
        What it must do. [record]
    limits : LoomLimits, optional
        What stock, tools, hand and eye allow. [m]

    Returns
    -------
    LoomSize
        Sizes, what they come to, and what decides; where nothing fits, the nearest there is, and why. [record]

    Raises
    ------
    BadDesign
        The oar was measured and has no sizes of a loom, or the limits leave no loom at all.

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
    search = _Search(oar, wishes, limits)
    rough, at = search.best()
    found = search.told(at)
    names = what_decides(search.relaxed(rough, found.fits), search.rough, rough)
    return replace(found, decides=names) if found.fits else replace(found, in_the_way=names)


def with_loom(oar: Oar, loom: LoomSize) -> Oar:
    """The oar with a loom of other sizes.

    Parameters
    ----------
    oar : Oar
        An oar drawn from sizes. [record]
    loom : LoomSize
        The loom. [record]

    Returns
    -------
    Oar
        Its blade, boards and lengths as they are. [record]

    Notes
    -----
    Source: as `lightest_loom`.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> found = lightest_loom(oar, Wishes(index=0.05))
    >>> bool(abs(mass(with_loom(oar, found)) - found.mass) < 1e-9)
    True
    """
    return _with(oar, loom.lock, loom.neck_thickness, loom.neck_width)


def mass_against_index(
    oar: Oar, *, indexes: Sequence[float], wishes: Wishes, limits: LoomLimits = CUSTOM
) -> tuple[LoomSize, ...]:
    """The lightest loom for each of several stiffness indexes: what stiffness costs in weight.

    Parameters
    ----------
    oar : Oar
        An oar (scalars) drawn from sizes; its other sizes and its woods are kept. [record]
    indexes : sequence of float
        The indexes. [1]
    wishes : Wishes
        The ratio that is wanted besides, and its force. [record]
    limits : LoomLimits, optional
        What stock, tools, hand and eye allow. [m]

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
    searches = [_Search(oar, replace(wishes, index=index), limits) for index in indexes]
    return tuple(search.told(search.best()[1]) for search in searches)


class _Search:
    """The search for one loom: the problem on few stations, and on all of them."""

    def __init__(self, oar: Oar, wishes: Wishes, limits: LoomLimits) -> None:
        self.oar, self.wishes, self.step = oar, wishes, limits.step
        self.room = LoomRoom.of(drawn(oar), limits)
        self.count = STATIONS + 6 * len(oar.pieces)
        self.rough, self.whole = (self._problem(self.room, wishes, whole=whole) for whole in (False, True))

    def best(self) -> tuple[Array, Array]:
        """The lightest loom in whole steps, on few stations and on all."""
        guess = np.clip([float(np.max(size)) for size in _scaled(self.oar, 1.0)], self.rough.low, self.rough.high)
        rough = on_steps(self.rough, start_of(self.rough, guess))
        return rough, confirmed(self.rough, self.whole, rough)

    def told(self, at: Array) -> LoomSize:
        """Whole steps as sizes, with what they come to."""
        lock, thickness, width = (float(size) for size in at * self.step)
        made = _with(self.oar, lock, thickness, width)
        found = _measure(made, self.wishes)
        worst = checks(made, force=self.wishes.force, wanted=1.0)[0]
        missed = tuple(
            Missed(wish=name, wanted=float(getattr(self.wishes, name)), nearest=float(getattr(found, name)))
            for name, share in _kept(self.wishes, found).items()
            if float(share) < -SAME
        )
        return LoomSize(
            lock=lock,
            neck_thickness=thickness,
            neck_width=width,
            mass=float(found.mass),
            index=float(found.index),
            ratio=float(found.ratio),
            fits=not missed,
            decides=(),
            missed=missed,
            part=worst.part,
            place=float(worst.place),
        )

    def relaxed(self, at: Array, fits: bool) -> dict[str, Problem]:
        """The problem without one of the wishes, or with one of the limits close by a step less strict."""
        eased = {}
        if fits and self.wishes.index is not None:
            eased["index"] = self._problem(self.room, replace(self.wishes, index=None))
        if fits and self.wishes.ratio is not None:
            eased["ratio"] = self._problem(self.room, replace(self.wishes, ratio=None))
        rooms = self.room.eased(at * self.step)
        return eased | {name: self._problem(room, self.wishes) for name, room in rooms.items()}

    def _problem(self, room: LoomRoom, wishes: Wishes, *, whole: bool = False) -> Problem:
        stations = None if whole else self.count

        def measure(sizes: Array) -> Measured:
            found = _measure(_with(self.oar, *sizes.T, count=stations), wishes)
            kept = list(_kept(wishes, found).values())
            return Measured(mass=np.asarray(found.mass), kept=np.stack(kept, axis=-1) if kept else sizes[:, :0])

        low, high = room.ends
        names = tuple(name for name in ("index", "ratio") if getattr(wishes, name) is not None)
        step = np.full(3, self.step)
        return Problem(low=low, high=high, step=step, measure=measure, holds=room.holds, wishes=names)


def _kept(wishes: Wishes, found: _Measure) -> Mapping[str, Array]:
    """By what share each wish is kept, negative where it is missed."""
    kept = {}
    if wishes.index is not None:
        kept["index"] = 1 - np.asarray(found.index) / wishes.index
    if wishes.ratio is not None:
        kept["ratio"] = np.asarray(found.ratio) / wishes.ratio - 1
    return kept


@dataclass(frozen=True, slots=True, kw_only=True)
class _Measure:
    mass: Number
    index: Number
    ratio: Number


def _with(oar: Oar, lock: Number, thickness: Number, width: Number, *, count: int | None = None) -> Oar:
    """The oar with other sizes of lock and neck, the inboard along."""
    shape = drawn(oar)
    other = replace(
        shape, lock_diameter=lock, neck_thickness=thickness, neck_width=width, inboard_size=inboard_beside(shape, lock)
    )
    return build_oar(other, oar.pieces, oar.leather, count=count)


def _scaled(oar: Oar, factor: float) -> tuple[Number, Number, Number]:
    shape = drawn(oar)
    return factor * shape.lock_diameter, factor * shape.neck_thickness, factor * shape.neck_width


def _measure(oar: Oar, wishes: Wishes) -> _Measure:
    return _Measure(
        mass=mass(oar),
        index=stiffness_index(drop=bench_drop(oar), blade_arm=oar.blade_arm),
        ratio=rowing_ratio(oar, wishes),
    )


def rowing_ratio(oar: Oar, wishes: Wishes) -> Number:
    """Least ratio of an oar in bending under a hard start, at its hole too, and in fatigue at the cruise.

    Parameters
    ----------
    oar : Oar
        The oar. [record]
    wishes : Wishes
        Forces, hole and share for fatigue. [record]

    Returns
    -------
    float or array
        Strength over stress where it is least. [1]

    Notes
    -----
    Source: as `oarkit.strength.checks.every_check`; stress goes with the force at the hand.

    Examples
    --------
    >>> from oarkit import design, example_project
    >>> oar = design(example_project("quillet").inputs).oars["port"]
    >>> bool(rowing_ratio(oar, Wishes(fatigue=0.1)) < rowing_ratio(oar, Wishes()))
    True
    """
    ratios = [check.ratio for check in checks(oar, force=wishes.force, wanted=1.0)]
    if wishes.hole is not None:
        case = hard_start(oar, force=wishes.force)
        ratios += [
            safety_ratio(strength=piece.wood.strength, stress=hole_stress_in(oar, case, wishes.hole, stress=stress))
            for piece, stress in zip(oar.pieces, bending_along(oar, case), strict=True)
        ]
    least: Number = np.min(np.broadcast_arrays(*ratios), axis=0)
    often = 1.0 if wishes.fatigue is None else wishes.fatigue * wishes.force / wishes.cruise
    return least * min(often, 1.0)


def _root(short: Callable[[float], float], wanted: float) -> float:
    ends = [short(factor) for factor in FACTORS]
    if ends[0] * ends[1] > 0:
        raise BadDesign(
            "no loom from {least} to {most} times the present size comes to {wanted}",
            {name: Quantity(value=value, unit="1") for name, value in
             (("least", FACTORS[0]), ("most", FACTORS[1]), ("wanted", wanted))},
        )  # fmt: skip
    return float(optimize.brentq(short, *FACTORS, xtol=1e-12, rtol=1e-12))
