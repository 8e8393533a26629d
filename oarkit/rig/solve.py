"""Works out what is not given from what is, and names the two given numbers that disagree.

It knows nothing of oars: the quantities, and how each follows from others, are handed to it.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from oarkit.working import BadDesign, Number, Quantity

AGREEMENT = 1e-9  #: share (of a metre, or of the number where that is more) below which two numbers agree
Least = Literal["any", "nought", "above nought"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Equation:
    """One quantity as it follows from others."""

    result: str
    inputs: tuple[str, ...]
    work: Callable[..., Number]


def equation(result: str, work: Callable[..., Number]) -> Equation:
    """One way to a quantity: a function that takes the quantities which its parameters are named after.

    Parameters
    ----------
    result : str
        Name of the quantity. [text]
    work : callable
        Makes it from others. [function]

    Returns
    -------
    Equation
        The function with the names of what goes in and what comes out. [record]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> equation("overlap", lambda span, inboard: 2 * inboard - span).inputs
    ('span', 'inboard')
    """
    return Equation(result=result, inputs=tuple(inspect.signature(work).parameters), work=work)


@dataclass(frozen=True, slots=True, kw_only=True)
class Kinds:
    """What a name stands for: which quantities are ratios, which may be nought or less, which are only conditions.

    Conditions (a half width of the lock, say) are never blamed for a contradiction.
    """

    ratios: frozenset[str]
    any_sign: frozenset[str]
    conditions: frozenset[str]

    def quantity(self, name: str, value: Number) -> Quantity:
        """A value with the unit of its name."""
        return Quantity(value=float(value), unit="1" if name in self.ratios else "m")


def refuse_unsound(name: str, value: Number, *, least: Least = "above nought", unit: str = "m") -> None:
    """Refuse a number that is no number, is endless, or is too small to be what it is called.

    Parameters
    ----------
    name : str
        What the number is called. [text]
    value : float or array
        The number. [any]
    least : {"any", "nought", "above nought"}, optional
        How small it may be. [text]
    unit : str, optional
        SI unit of the number. [text]

    Raises
    ------
    BadDesign
        It cannot stand.

    Returns
    -------
    None
        Nothing. [none]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> refuse_unsound("span", 1.2)
    >>> refuse_unsound("span", -1.2)
    Traceback (most recent call last):
    oarkit.working.BadDesign: the span must be above nought, not -1.2 m
    """
    word, smallest = _word(name), float(np.min(value))
    if not np.all(np.isfinite(value)):
        raise BadDesign(f"the {word} must be a number, and one that has an end")
    if (least == "above nought" and smallest <= 0) or (least == "nought" and smallest < 0):
        must = "above nought" if least == "above nought" else "nought or more"
        raise BadDesign(f"the {word} must be {must}, not {{value}}", {"value": Quantity(value=smallest, unit=unit)})


def solve(*, given: Mapping[str, Number], equations: Sequence[Equation], kinds: Kinds) -> dict[str, Number]:
    """Everything that follows from the given numbers, and a refusal where two of them disagree.

    Parameters
    ----------
    given : mapping
        Name to number, in the order in which they are believed: where two disagree, the later one is compared with
        what the earlier ones make of it. [any]
    equations : sequence of Equation
        How each quantity follows from others. [records]
    kinds : Kinds
        What the names stand for. [record]

    Returns
    -------
    dict
        Name to number, the given ones as they were given. [any]

    Raises
    ------
    BadDesign
        Two given numbers disagree, or what follows from them is nought or less where that cannot be.

    Notes
    -----
    Source: derived. For each number it is kept from which given ones it came, so that only those are named.

    Examples
    --------
    >>> total = equation("total", lambda front, back: front + back)
    >>> kinds = Kinds(ratios=frozenset(), any_sign=frozenset(), conditions=frozenset())
    >>> solve(given={"front": 1.0, "back": 2.0}, equations=[total], kinds=kinds)["total"]
    3.0
    """
    known: dict[str, Number] = {}
    roots: dict[str, tuple[str, ...]] = {}
    for name, value in given.items():
        if name in known:
            _agree(name, value, known[name], {root: given[root] for root in roots[name]}, kinds)
        known[name] = value
        roots.setdefault(name, (name,))
        _follow(known, roots, given, equations, kinds)
    return known


def _follow(
    known: dict[str, Number],
    roots: dict[str, tuple[str, ...]],
    given: Mapping[str, Number],
    equations: Sequence[Equation],
    kinds: Kinds,
) -> None:
    """Add what follows from what is known, until nothing more does."""
    ready = True
    while ready:
        ready = False
        for way in equations:
            name = way.result
            if name in known or not all(used in known for used in way.inputs):
                continue
            came_from = {root for used in way.inputs for root in roots[used]}
            roots[name] = tuple(root for root in given if root in came_from)
            known[name] = way.work(**{used: known[used] for used in way.inputs})
            if name not in kinds.any_sign:
                _refuse_nothing_left(name, known[name], {root: given[root] for root in roots[name]}, kinds)
            ready = True


def _agree(name: str, value: Number, worked: Number, roots: Mapping[str, Number], kinds: Kinds) -> None:
    """Refuse a given number that is not what other given numbers make of it."""
    difference = np.abs(np.subtract(value, worked))
    if np.all(difference <= AGREEMENT * np.maximum(1.0, np.abs(worked))):
        return
    worst = int(np.argmax(difference))

    def there(number: Number) -> float:
        return float(np.broadcast_to(number, difference.shape).flat[worst])

    *others, blamed = sorted(roots, key=lambda root: root not in kinds.conditions)  # stable: conditions first
    condition = f"with {_list(others)} " if others else ""
    raise BadDesign(
        f"{_word(blamed)} and {_word(name)} disagree by {{difference}}: {condition}{_named(blamed)} makes the "
        f"{_word(name)} {{worked}}, not {{{name}}}; leave one of them out",
        {
            "difference": kinds.quantity(name, there(difference)),
            "worked": kinds.quantity(name, there(worked)),
            name: kinds.quantity(name, there(value)),
            **{root: kinds.quantity(root, there(number)) for root, number in roots.items()},
        },
    )


def _refuse_nothing_left(name: str, value: Number, roots: Mapping[str, Number], kinds: Kinds) -> None:
    """Refuse a number that follows as nought or less where that cannot be built."""
    if np.all(np.asarray(value) > 0):
        return
    worst = int(np.argmin(value))
    there = {root: float(np.broadcast_to(number, np.shape(value)).flat[worst]) for root, number in roots.items()}
    raise BadDesign(
        f"{_list(list(roots))} would make the {_word(name)} {{worked}}, and it must be above nought",
        {
            "worked": kinds.quantity(name, float(np.min(value))),
            **{root: kinds.quantity(root, number) for root, number in there.items()},
        },
    )


def _word(name: str) -> str:
    return name.replace("_", " ")


def _named(name: str) -> str:
    """E.g. "an inboard of {inboard}"."""
    return f"{'an' if name[0] in 'aeio' else 'a'} {_word(name)} of {{{name}}}"


def _list(names: Sequence[str]) -> str:
    """E.g. "a span of {span}, an inboard of {inboard} and a length of {length}"."""
    *first, last = map(_named, names)
    return f"{', '.join(first)} and {last}" if first else last
