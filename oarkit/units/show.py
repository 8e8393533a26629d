"""Writes quantities the way a builder reads them: millimetres, feet-inches-sixteenths, kilograms, degrees."""

from __future__ import annotations

import math
from collections.abc import Mapping
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Literal

from oarkit.units.read import INCH, KNOT, POUND, POUND_FORCE
from oarkit.working import Number, Quantity

Display = Literal["mm", "ft-in"]


def millimetres(length: Number) -> str:
    """A length in millimetres, to a tenth.

    Parameters
    ----------
    length : float
        The length. [m]

    Returns
    -------
    str
        E.g. "628.7 mm". [text]

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> millimetres(0.62865)
    '628.7 mm'
    """
    return f"{_signed(float(length) * 1e3, '.1f')} mm"


def feet_inches(length: Number, *, parts: int = 16) -> str:
    """A length in feet, inches and the nearest fraction of an inch.

    Parameters
    ----------
    length : float
        The length. [m]
    parts : int, optional
        Parts an inch is divided into; rounding errs by half a part at most. [count]

    Returns
    -------
    str
        E.g. 7'-6 3/4". [text]

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> feet_inches(2.305)
    '7\\'-6 3/4"'
    """
    steps = round(abs(float(length)) / INCH * parts)
    feet, rest = divmod(steps, 12 * parts)
    inches, part = divmod(rest, parts)
    fraction = f" {Fraction(part, parts)}" if part else ""
    whole = f"{inches}{fraction}" if inches or not part or feet else fraction.strip()
    sign = "−" if length < 0 and steps else ""
    return f"{sign}{feet}'-{whole}\"" if feet else f'{sign}{whole}"'


def _signed(value: float, form: str) -> str:
    """A number rounded half away from nought, with a true minus sign, and none on a nought."""
    places = Decimal(1).scaleb(-int(form[1:-1]))
    rounded = Decimal(repr(round(value, 9))).quantize(places, ROUND_HALF_UP)
    return f"{rounded if rounded else abs(rounded):f}".replace("-", "−")


def both(quantity: Quantity, display: Display = "mm") -> tuple[str, str]:
    """A quantity in the reader's units, and in the other system where that differs.

    Parameters
    ----------
    quantity : Quantity
        Value and SI unit. [any]
    display : {"mm", "ft-in"}, optional
        Which system comes first. [text]

    Returns
    -------
    tuple of str
        First and second form; the second is empty where there is only one. [text]

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> both(Quantity(value=0.1524, unit="m"))
    ('152.4 mm', '6"')
    """
    value, unit = float(quantity.value), quantity.unit
    metric, other = (
        write(_up(value, step.get(unit)) if quantity.up else value, unit)
        for write, step in ((_metric, _METRIC_STEPS), (_imperial, {"m": INCH / 16}))
    )
    return (other, metric) if display == "ft-in" and other else (metric, other)


#: SI unit to factor, form and name of the metric form.
_METRIC = {
    "m": (1e3, ".1f", " mm"), "rad": (180 / math.pi, ".1f", "°"), "%": (100, ".1f", " %"), "m2": (1e4, ".0f", " cm²"),
    "N": (1.0, ".1f", " N"),
    "N m": (1.0, ".1f", " N·m"), "N m2": (1.0, ".0f", " N·m²"), "kg m2": (1.0, ".3f", " kg·m²"),
    "kg/m3": (1.0, ".0f", " kg/m³"), "Hz": (1.0, ".2f", " Hz"), "m/s": (1.0, ".2f", " m/s"),
    "N/m": (1.0, ".0f", " N/m"), "count": (1.0, ".0f", ""),
}  # fmt: skip


#: What the last place of a metric form stands for, where numbers are rounded up to it.
_METRIC_STEPS = {"m": 1e-4, "rad": math.radians(0.1), "1": 1e-3}


def _up(value: float, step: float | None) -> float:
    """The next whole step that is no less."""
    return value if step is None else math.ceil(value / step - 1e-6) * step


def _metric(value: float, unit: str) -> str:
    if not math.isfinite(value):
        return "no limit" if value > 0 else "not known"
    if unit == "slope":
        return f"1:{1 / value:.3g}" if value else "straight"
    if unit == "1":
        return _signed(value, ".3f" if abs(value) < 10 else ".1f")
    if unit == "Pa":
        return f"{_signed(value / 1e9, '.2f')} GPa" if abs(value) >= 1e9 else f"{_signed(value / 1e6, '.1f')} MPa"
    if unit == "kg":
        grams = abs(value) < 0.9995
        return (
            f"{_signed(value * 1e3, '.0f')} g"
            if grams
            else f"{_signed(value, '.2f' if abs(value) < 9.995 else '.1f')} kg"
        )
    factor, form, name = _METRIC[unit]
    return f"{_signed(value * factor, form)}{name}"


def _imperial(value: float, unit: str) -> str:
    if not math.isfinite(value):
        return ""
    if unit == "m":
        fine = abs(value) / INCH * 32  # a size on a step of 1/32 in is printed on it, all others to 1/16 in
        return feet_inches(value, parts=32 if round(fine) % 2 and abs(fine - round(fine)) < 1e-6 else 16)
    if unit == "kg":
        pounds = value / POUND
        return f"{_signed(pounds, '.2f' if abs(pounds) < 9.995 else '.1f' if abs(pounds) < 99.95 else '.0f')} lb"
    if unit == "N":
        return f"{_signed(value / POUND_FORCE, '.1f')} lbf"
    if unit == "m/s":
        return f"{_signed(value / KNOT, '.1f')} kn"
    if unit == "m2":
        return f"{_signed(value / INCH**2, '.0f')} in²"
    return ""


def filled(text: str, quantities: Mapping[str, Quantity], display: Display = "mm") -> str:
    """A sentence with its gaps filled, each quantity in the reader's units.

    Parameters
    ----------
    text : str
        Sentence with named gaps. [text]
    quantities : mapping of Quantity
        What fills them; without any, the sentence is taken as it stands. [any]
    display : {"mm", "ft-in"}, optional
        Which system to use. [text]

    Returns
    -------
    str
        The sentence. [text]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> filled("short by {gap}", {"gap": Quantity(value=0.0127, unit="m")}, "ft-in")
    'short by 1/2"'
    """
    if not quantities:
        return text
    return text.format(**{name: both(quantity, display)[0] for name, quantity in quantities.items()})
