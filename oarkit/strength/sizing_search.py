"""The lightest of all sizes that keep wishes and limits, on a builder's steps.

`scipy.optimize` finds a start among sizes of any kind; then the sizes go onto the steps, and of those around the
lightest is taken that keeps every wish and limit, until none around it is lighter. Where nothing keeps them all, what
misses them by least counts first, and the weight after that.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import combinations, product
from typing import Any

import numpy as np
from scipy import optimize

from oarkit.working import Array

SAME = 1e-9  #: a wish is met by what lies so little short of it, as a share
FEW = 125  #: designs two steps around, up to which all of them are looked at in every round
STRIDES = (8, 3, 1)  #: in steps, coarse to fine, where no start is known
FAR = 0.05  #: share by which a start may miss wishes and still be stepped from, one step at a time
CONFIRMED = 40  #: designs that are worked again in full
SLACK = 2e-4  #: share by which a wish may be missed there beforehand, more than fewer stations are off by
_ROUNDS = 60  #: of steps, far more than any search has needed
_NUDGE = 1e-6  #: of a size, for its gradient


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What many sizes come to: mass [kg], and by what share every wish is kept (negative where it is missed) [1]."""

    mass: Array
    kept: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Sizes to be chosen [m]: least, most and step of each; what they come to; the limits between them.

    ``measure`` takes many designs, sizes on the last axis. ``holds`` gives for each design how far it keeps the limits
    between its sizes, on the last axis, negative where it does not [m]. ``wishes`` are their names, as measured.
    """

    low: Array
    high: Array
    step: Array
    measure: Callable[[Array], Measured]
    holds: Callable[[Array], Array]
    wishes: tuple[str, ...] = ()

    @property
    def ends(self) -> tuple[Array, Array]:
        """Least and most in whole steps."""
        return np.ceil(self.low / self.step - SAME), np.floor(self.high / self.step + SAME)


def short(kept: Array) -> Array:
    """By what share wishes are missed, added up; nil where they are met.

    Parameters
    ----------
    kept : array
        By what share each is kept, on the last axis. [1]

    Returns
    -------
    array
        The sum of what is missed. [1]

    Notes
    -----
    Source: choice of this project.

    Examples
    --------
    >>> short(np.array([[0.1, -0.2], [0.0, 0.3]])).tolist()
    [0.2, 0.0]
    """
    missed: Array = np.sum(np.maximum(-kept, 0.0), axis=-1)
    return np.where(missed <= SAME, 0.0, missed)


def start_of(problem: Problem, guess: Array) -> Array:
    """The lightest of sizes of any kind, to start from; the largest where not even these keep the wishes.

    Parameters
    ----------
    problem : Problem
        What is looked for. [record]
    guess : array
        Sizes to begin with. [m]

    Returns
    -------
    array
        Sizes between least and most. [m]

    Notes
    -----
    Source: sequential least squares programming (scipy), with gradients by differences.

    Examples
    --------
    >>> box = Problem(low=np.array([0.01, 0.01]), high=np.array([0.1, 0.1]), step=np.array([0.001, 0.001]),
    ...               measure=lambda x: Measured(mass=x[:, 0] + 2 * x[:, 1], kept=x[:, :1] * x[:, 1:] / 0.0008 - 1),
    ...               holds=lambda x: x[:, :1] - x[:, 1:])
    >>> [round(float(size), 3) for size in start_of(box, np.array([0.05, 0.05]))]
    [0.04, 0.02]
    """
    low, high = problem.low, problem.high
    if short(problem.measure(high[None]).kept)[0] > 0:
        return high
    scale = np.maximum(guess, problem.step)
    nudges = np.vstack([np.zeros_like(scale), _NUDGE * np.eye(scale.size)])
    known: dict[bytes, tuple[Array, Array]] = {}

    def all_of(x: Array) -> tuple[Array, Array]:
        """Mass, wishes and limits at x, and their gradients."""
        if x.tobytes() not in known:
            sizes = (x + nudges) * scale
            found = problem.measure(sizes)
            values = np.column_stack([found.mass, found.kept, problem.holds(sizes) / scale[0]])
            known[x.tobytes()] = values[0], (values[1:] - values[0]).T / _NUDGE
        return known[x.tobytes()]

    unit = float(all_of(guess / scale)[0][0])
    minimize: Any = optimize.minimize
    found = minimize(
        lambda x: all_of(x)[0][0] / unit,
        np.clip(guess, low, high) / scale,
        jac=lambda x: all_of(x)[1][0] / unit,
        bounds=list(zip(low / scale, high / scale, strict=True)),
        constraints={"type": "ineq", "fun": lambda x: all_of(x)[0][1:], "jac": lambda x: all_of(x)[1][1:]},
        method="SLSQP",
        options={"maxiter": 8, "ftol": 1e-5},
    )
    return np.asarray(np.clip(found.x * scale, low, high))


def on_steps(problem: Problem, start: Array, *, last: bool = True) -> Array:
    """Whole steps, from a start down to where none around is better: first by what is missed, then by mass.

    Parameters
    ----------
    problem : Problem
        What is looked for. [record]
    start : array
        Sizes to start from. [m]
    last : bool, optional
        Whether to look further around at last. [flag]

    Returns
    -------
    array
        Number of steps of each size. [count]

    Notes
    -----
    Source: derived. Up to three sizes: all steps to either side, two at first and four at last. More: one or two
    sizes changed at a time, and at last all of them by one step; then, and where the start misses wishes by far, wide
    strides come first.

    Examples
    --------
    >>> box = Problem(low=np.array([0.01, 0.01]), high=np.array([0.1, 0.1]), step=np.array([0.001, 0.001]),
    ...               measure=lambda x: Measured(mass=x[:, 0] + 2 * x[:, 1], kept=x[:, :1] * x[:, 1:] / 0.0008 - 1),
    ...               holds=lambda x: x[:, :1] - x[:, 1:])
    >>> on_steps(box, np.array([0.07, 0.07])).tolist()
    [40.0, 20.0]
    """
    least, most = problem.ends
    at = np.clip(np.round(start / problem.step), least, most)
    few = _few(at.size)
    if 5**at.size > FEW or short(problem.measure(start[None]).kept)[0] > FAR:
        for stride in STRIDES[:-1]:
            at = _settled(problem, at, few * stride)
    at = _settled(problem, at, few)
    while last:
        better = _settled(problem, at, _many(at.size), rounds=1)
        if np.array_equal(better, at):
            break
        at = _settled(problem, better, few)
    return at


def confirmed(rough: Problem, whole: Problem, at: Array) -> Array:
    """The best design around one found on few stations, on all of them.

    Parameters
    ----------
    rough, whole : Problem
        The same problem on few stations and on all. [records]
    at : array
        What was found on few, in steps. [count]

    Returns
    -------
    array
        Number of steps of each size. [count]

    Notes
    -----
    Source: derived; of the designs around, those that look best on few stations are worked in full.

    Examples
    --------
    >>> def box(least):
    ...     return Problem(low=np.array([0.01]), high=np.array([0.1]), step=np.array([0.001]),
    ...                    measure=lambda x: Measured(mass=x[:, 0], kept=x / least - 1), holds=lambda x: x)
    >>> confirmed(box(0.05), box(0.050001), np.array([50.0])).tolist()
    [51.0]
    """
    near = _near(rough, at, _many(at.size))
    found = rough.measure(near * rough.step)
    missed = np.where(short(found.kept) <= SLACK, 0.0, short(found.kept))
    best = near[np.lexsort((*near.T, np.round(found.mass, 12), np.round(missed, 12)))[:CONFIRMED]]
    return _settled(whole, at, best - at, rounds=1)


def _few(sizes: int) -> Array:
    """Steps around a design for every round: all two to either side while they are few, else of one or two sizes."""
    if 5**sizes <= FEW:
        return _box(2, sizes)
    unit = np.eye(sizes)
    few = [np.zeros(sizes), *(by * one for one in unit for by in (-2, -1, 1, 2))]
    few += [a * one + b * other for one, other in combinations(unit, 2) for a in (-1, 1) for b in (-1, 1)]
    return np.array(few)


def _many(sizes: int) -> Array:
    """Steps around a design for the last round: all four to either side while they are few, else all by one."""
    return _box(4 if 5**sizes <= FEW else 1, sizes)


def _box(reach: int, sizes: int) -> Array:
    return np.array(list(product(range(-reach, reach + 1), repeat=sizes)), dtype=float)


def _near(problem: Problem, at: Array, around: Array) -> Array:
    """Designs around one that keep the limits between their sizes; if none does, the one that misses them by least."""
    least, most = problem.ends
    near = np.unique(np.clip(at + around, least, most), axis=0)
    missed = short(problem.holds(near * problem.step))
    kept: Array = near[missed == 0]
    return kept if len(kept) else near[[np.argmin(missed)]]


def _settled(problem: Problem, at: Array, around: Array, *, rounds: int = _ROUNDS) -> Array:
    """The best of the designs around, again and again, until it is the one it started from."""
    for _ in range(rounds):
        near = _near(problem, at, around)
        found = problem.measure(near * problem.step)
        order = np.lexsort((*near.T, np.round(found.mass, 12), np.round(short(found.kept), 12)))
        best = near[order[0]]
        if np.array_equal(best, at):
            break
        at = best
    return at


def what_decides(relaxed: Mapping[str, Problem], problem: Problem, at: Array) -> tuple[str, ...]:
    """Wishes and limits of which one, left out or a step less strict, brings a better design.

    Parameters
    ----------
    relaxed : mapping of str to Problem
        The problem with one wish left out or one limit eased, by its name. [records]
    problem : Problem
        The problem itself. [record]
    at : array
        Its best design, in steps. [count]

    Returns
    -------
    tuple of str
        Names: what keeps the design from being lighter or, where it misses wishes, from coming nearer to them. Where
        no single one does, the wishes that the next lighter design would miss. [text]

    Notes
    -----
    Source: derived; the designs around, with one wish or limit eased at a time; up to three sizes are sought anew
    where none around is better.

    Examples
    --------
    >>> def box(least):
    ...     return Problem(low=np.array([least, 0.01]), high=np.array([0.1, 0.1]), step=np.array([0.001, 0.001]),
    ...                    measure=lambda x: Measured(mass=x.sum(axis=1), kept=x[:, 1:] / 0.02 - 1),
    ...                    holds=lambda x: x[:, :1] + 1)
    >>> what_decides({"least": box(0.029)}, box(0.030), np.array([30.0, 20.0]))
    ('least',)
    """
    now, around = problem.measure(at[None] * problem.step), _few(at.size)
    missed, names, anew = float(short(now.kept)[0]), [], 5**at.size <= FEW
    for name, eased in relaxed.items():
        found = eased.measure(_settled(eased, at, around, rounds=1)[None] * eased.step)
        if not _better(found, missed, now.mass[0]) and anew:
            found = eased.measure(on_steps(eased, start_of(eased, at * eased.step))[None] * eased.step)
        if _better(found, missed, now.mass[0]):
            names.append(name)
    if names or missed > 0:
        return tuple(names)
    near = problem.measure(_near(problem, at, around) * problem.step)
    lighter = near.mass < now.mass[0] - SAME
    if not np.any(lighter):
        return ()
    kept = near.kept[lighter]
    next_one = kept[np.argmin(short(kept))]
    return tuple(name for name, share in zip(problem.wishes, next_one, strict=True) if share < -SAME)


def _better(found: Measured, missed: float, mass: float) -> bool:
    """Whether a design misses wishes by less, or misses none and is lighter."""
    left = float(short(found.kept)[0])
    return left < missed - SAME or (left == missed == 0 and float(found.mass[0]) < mass - SAME)
