"""How a number was got: formula, numbers put in, result, source; and what the result means for the builder.

Everything here is plain records, so that any room can say how it came to a number and any sheet can print it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal, TypeAlias, TypeVar

import numpy as np
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.float64]
Number: TypeAlias = float | Array
Level = Literal["note", "caution", "fails"]
_F = TypeVar("_F", bound=Callable[..., Any])


class BadDesign(ValueError):
    """The numbers given cannot be built or rowed as they stand; the message says why, in the builder's words.

    Like a finding, it keeps the sentence apart from the quantities in it, so that the core need not know
    whether the reader thinks in millimetres or in feet and inches.
    """

    def __init__(self, text: str, quantities: Mapping[str, Quantity] | None = None) -> None:
        self.text = text
        self.quantities = dict(quantities or {})
        filled = {name: f"{float(np.max(q.value)):.4g} {q.unit}" for name, q in self.quantities.items()}
        super().__init__(text.format(**filled) if filled else text)


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A number with its SI unit ("m", "N", "Pa", "kg", "rad", "1" ...); ``up`` has it rounded up where it is shown."""

    value: Number
    unit: str
    up: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Formula:
    """What a formula function computes, as printed in the working."""

    text: str
    unit: str
    source: str
    where: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of the working: name, formula, the numbers put in, the result, the source."""

    name: str
    formula: str
    numbers: Mapping[str, Quantity]
    result: Quantity
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Advice that a design earns: a sentence with named gaps, and the computed quantities that fill them."""

    level: Level
    code: str
    text: str
    quantities: Mapping[str, Quantity] = field(default_factory=dict)
    source: str


def formula(text: str, *, unit: str, source: str, where: Mapping[str, str] | None = None) -> Callable[[_F], _F]:
    """Write the printed formula on the function that computes it.

    Parameters
    ----------
    text : str
        The formula as printed. [text]
    unit : str
        SI unit of the result. [text]
    source : str
        Publication, "common practice" or "derived". [text]
    where : mapping, optional
        Parameter name to "symbol [unit]". [text]

    Returns
    -------
    callable
        The function itself, with a ``formula`` attribute. [function]

    Notes
    -----
    Source: derived; the working is printed from the very call that computes the number.

    Examples
    --------
    >>> @formula("A = b h", unit="m2", source="plane geometry", where={"b": "b [m]", "h": "h [m]"})
    ... def area(*, b, h):
    ...     return b * h
    >>> area.formula.text
    'A = b h'
    """

    def mark(function: _F) -> _F:
        function.formula = Formula(text=text, unit=unit, source=source, where=dict(where or {}))  # type: ignore[attr-defined]
        return function

    return mark


class Working:
    """Collects the working while the numbers are made.

    ``work(name, function, **inputs)`` calls the function and keeps a line with the same inputs, so that
    what is printed cannot differ from what was computed.
    """

    def __init__(self) -> None:
        self.lines: list[Line] = []

    def __call__(self, name: str, function: Callable[..., Any], **inputs: Any) -> Any:
        """Call a formula function and keep its line; inputs are those of the function."""
        stated: Formula = function.formula  # type: ignore[attr-defined]
        value = function(**inputs)
        numbers = {}
        for key, given in inputs.items():
            if key in stated.where and given is not None:
                symbol, unit = stated.where[key].rsplit(" [", 1)
                numbers[symbol] = Quantity(value=given, unit=unit.rstrip("]"))
        self.keep(name, function, value, numbers)
        return value

    def keep(self, name: str, function: Callable[..., Any], value: Number, numbers: Mapping[str, Quantity]) -> None:
        """Keep a line for a number that was made from whole records; ``numbers`` are the ones worth printing."""
        stated: Formula = function.formula  # type: ignore[attr-defined]
        self.lines.append(
            Line(
                name=name,
                formula=stated.text,
                numbers=dict(numbers),
                result=Quantity(value=value, unit=stated.unit),
                source=stated.source,
            )
        )
