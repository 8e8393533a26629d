"""How the entries of a project file are read: quantities, pure numbers, counts and words, refused in words."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from pydantic import BaseModel, BeforeValidator, ConfigDict

from oarkit import units
from oarkit.project.shorten import shortened
from oarkit.units import Kind
from oarkit.wood.moisture import SATURATION


class Keys(BaseModel):
    """A table of a project file; unknown keys are refused."""

    model_config = ConfigDict(extra="forbid", frozen=True)


def quantity(kind: Kind, low: float, high: float, what: str) -> BeforeValidator:
    """Reads a quantity and refuses one that no such thing has.

    Parameters
    ----------
    kind : Kind
        What it must be. [record]
    low, high : float
        Least and greatest that can be believed. [SI]
    what : str
        What it is of, for the message. [text]

    Returns
    -------
    BeforeValidator
        The reader. [function]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> quantity(units.LENGTH, 0.5, 3.0, "length of a plank").func("6 ft")
    1.8288
    """

    def read(given: object) -> float:
        if isinstance(given, int | float) and not isinstance(given, bool):
            example = kind.example.split(",")[0].split(" or ")[0]
            raise ValueError(
                f'{shortened(given)} is a bare number; write it with its unit, in quotes, like "{example}"'
            )
        if not isinstance(given, str):
            raise ValueError(f"a {kind.name} is wanted here, with its unit, in quotes, like {kind.example}")
        return _believable(units.read_quantity(given, kind), given, kind, low, high, what)

    return BeforeValidator(read)


def _believable(value: float, given: object, kind: Kind, low: float, high: float, what: str) -> float:
    if low - 1e-9 * abs(low) <= value <= high + 1e-9 * abs(high):
        return value
    written = re.search(r"[^\d\s.,+\-].*$", str(given))
    unit = written[0].strip() if written and written[0].strip() in kind.units else next(iter(kind.units))
    factor = kind.units[unit]
    expected = f"{low / factor:.4g} to {high / factor:.4g} {unit}"
    if value < 0 <= low:
        raise ValueError(f"{given} is negative; the {what} lies between {expected}")
    number = re.match(r"[\d.]+", str(given))
    others = [
        u
        for u in ("mm", "in", "ft", "m")
        if u in kind.units and number and low <= float(number[0]) * kind.units[u] <= high
    ]
    hint = f"; did you mean {number[0]} {others[0]}?" if others and number else ""
    raise ValueError(f"{given} cannot be right for the {what}; expected {expected}{hint}")


def sized(low_mm: float, high_mm: float, what: str) -> BeforeValidator:
    """Reads a length.

    Parameters
    ----------
    low_mm, high_mm : float
        Least and greatest that can be believed. [mm]
    what : str
        What it is of, for the message. [text]

    Returns
    -------
    BeforeValidator
        The reader. [function]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> sized(500, 3000, "length of a plank").func("3 m")
    3.0
    """
    return quantity(units.LENGTH, low_mm / 1e3, high_mm / 1e3, what)


def moist(given: object) -> float:
    """Reads the moisture of a board, which ends where its fibres hold no more.

    Parameters
    ----------
    given : object
        What the file holds. [any]

    Returns
    -------
    float
        Mass of water over that of dry wood. [1]

    Raises
    ------
    ValueError
        It cannot be read, or is wetter than fibres can be, in words.

    Notes
    -----
    Source: fibre saturation at about 30 %, Wood Handbook FPL-GTR-282 (2021), ch. 4.

    Examples
    --------
    >>> moist("12 %")
    0.12
    """
    if isinstance(given, str) and SATURATION + 1e-9 < units.read_quantity(given, units.SHARE) < 10:
        raise ValueError(
            f"{given} is above {SATURATION * 100:.0f} %, at which the fibres hold all the water they can; expected 0 "
            f"to {SATURATION * 100:.0f} %, and let such a board dry first: 8 to 12 % is usual in a shop"
        )
    reader: Callable[[Any], float] = quantity(units.SHARE, 0.0, SATURATION, "moisture of a board").func  # type: ignore[assignment]
    return reader(given)


def sloped(given: object) -> float:
    """Reads a slope of grain and refuses a board that no oar can be made of.

    Parameters
    ----------
    given : object
        What the file holds. [any]

    Returns
    -------
    float
        Rise over run. [1]

    Raises
    ------
    ValueError
        It cannot be read or is steeper than 1:5, in words.

    Notes
    -----
    Source: the handbook's table of slopes ends at 1:5; 1:15 is common practice.

    Examples
    --------
    >>> sloped("1:10")
    0.1
    """
    if not isinstance(given, str):
        raise ValueError('a slope of grain is wanted here, in quotes, like "1:15"')
    value = units.read_slope(given)
    if value >= 5:
        run = given.replace(" ", "").split(":")
        hint = f"; did you mean {run[-1]}:{run[0]}?"
        raise ValueError(f"{given} is far steeper than 1:5 (1:15 or flatter is customary){hint}")
    if value > 0.2:
        raise ValueError(
            f"{given} is steeper than 1:5; no oar can be made of such a board (1:15 or flatter is customary)"
        )
    return value


def pure(low: float, high: float, what: str) -> BeforeValidator:
    """Reads a pure number.

    Parameters
    ----------
    low, high : float
        Least and greatest that can be believed. [1]
    what : str
        What it is, for the message. [text]

    Returns
    -------
    BeforeValidator
        The reader. [function]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> pure(1, 6, "leverage ratio").func(2.6)
    2.6
    """

    def read(given: object) -> float:
        if isinstance(given, bool) or not isinstance(given, int | float):
            raise ValueError(
                f"{what} is a pure number; write it without quotes or unit, like {low + (high - low) / 4:.2g}"
            )
        if not low <= given <= high:
            raise ValueError(f"{shortened(given)} is no believable {what}; expected {low:g} to {high:g}")
        return float(given)

    return BeforeValidator(read)


def count(low: int, high: int, what: str) -> BeforeValidator:
    """Reads a whole number.

    Parameters
    ----------
    low, high : int
        Least and greatest that can be believed. [count]
    what : str
        What is counted, for the message. [text]

    Returns
    -------
    BeforeValidator
        The reader. [function]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> count(1, 12, "count of bolts").func(4)
    4
    """

    def read(given: object) -> int:
        number = isinstance(given, int | float) and not isinstance(given, bool)
        if number and not low <= given <= high:  # type: ignore[operator]
            raise ValueError(f"{shortened(given)} is no believable {what}; expected {low} to {high}")
        if not isinstance(given, int | float) or isinstance(given, bool) or given != int(given):
            raise ValueError(f"{what} is a whole number; write it without quotes or unit, like {low + 1}")
        return int(given)

    return BeforeValidator(read)


def words(what: str, longest: int = 120) -> BeforeValidator:
    """Reads a text that can be printed on one line.

    Parameters
    ----------
    what : str
        What it is, for the message. [text]
    longest : int, optional
        Most letters. [count]

    Returns
    -------
    BeforeValidator
        The reader. [function]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> words("a title").func(" Old   oar ")
    'Old oar'
    """

    def read(given: object) -> str:
        if not isinstance(given, str) or not given.strip():
            raise ValueError(f"{what} is wanted here, in quotes")
        if len(given) > longest:
            raise ValueError(f"{what} is {len(given)} letters long; at most {longest} fit on a sheet")
        text = " ".join(given.split())
        if not text.isprintable():
            raise ValueError(f"{what} holds a sign that cannot be printed; type it afresh")
        return text

    return BeforeValidator(read)


def or_word(reader: BeforeValidator) -> BeforeValidator:
    """Reads "none" and "stock" besides what another reader reads.

    Parameters
    ----------
    reader : BeforeValidator
        The other reader. [function]

    Returns
    -------
    BeforeValidator
        The reader; None for "none". [function]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> or_word(sized(1, 500, "rounding step")).func("stock")
    'stock'
    """
    inner: Callable[[Any], Any] = reader.func  # type: ignore[assignment]
    known = {"none": None, "stock": "stock"}
    return BeforeValidator(lambda given: known[given] if isinstance(given, str) and given in known else inner(given))
