"""Shop dimensions and back: the one place that knows millimetres, feet, inches, pounds and degrees.

The core works in m, N, Pa, kg, s and rad. Here what a builder writes is read, and what the core found is
written the way a builder reads it.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from oarkit.working import Number, Quantity

Display = Literal["mm", "ft-in"]
INCH = 0.0254
POUND = 0.45359237
GRAVITY = 9.80665
POUND_FORCE = POUND * GRAVITY


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A kind of quantity: the units it may be written in, an example, and units that are often mistaken for its own."""

    name: str
    units: Mapping[str, float]
    example: str
    mistaken: Mapping[str, str]


_MASS_NOT_FORCE = "is a mass; for a force write {better}"
LENGTH = Kind(
    name="length",
    units={
        "mm": 1e-3,
        "cm": 1e-2,
        "m": 1.0,
        "in": INCH,
        "inch": INCH,
        "inches": INCH,
        '"': INCH,
        "ft": 12 * INCH,
        "foot": 12 * INCH,
        "feet": 12 * INCH,
        "'": 12 * INCH,
    },
    example="863.6 mm, 34 in or 2'-10\"",
    mistaken={},
)
MASS = Kind(
    name="mass",
    units={"kg": 1.0, "g": 1e-3, "lb": POUND, "lbs": POUND, "oz": POUND / 16},
    example="45 kg or 99 lb",
    mistaken={
        "kgf": "is a force; for a mass write kg",
        "lbf": "is a force; for a mass write lb",
        "n": "is a force; for a mass write kg",
    },
)
FORCE = Kind(
    name="force",
    units={"N": 1.0, "kN": 1e3, "lbf": POUND_FORCE, "kgf": GRAVITY},
    example="400 N, 90 lbf or 41 kgf",
    mistaken={
        "lb": _MASS_NOT_FORCE.format(better="lbf"),
        "lbs": _MASS_NOT_FORCE.format(better="lbf"),
        "kg": _MASS_NOT_FORCE.format(better="kgf or N"),
        "g": _MASS_NOT_FORCE.format(better="N"),
    },
)
MODULUS = Kind(
    name="modulus or stress",
    units={
        "GPa": 1e9,
        "MPa": 1e6,
        "kPa": 1e3,
        "Pa": 1.0,
        "N/mm2": 1e6,
        "psi": POUND_FORCE / INCH**2,
        "lbf/in2": POUND_FORCE / INCH**2,
    },
    example="10.8 GPa or 1570000 psi",
    mistaken={},
)
DENSITY = Kind(
    name="density",
    units={"kg/m3": 1.0, "g/cm3": 1e3, "lb/ft3": POUND / (12 * INCH) ** 3},
    example="430 kg/m3 or 27 lb/ft3",
    mistaken={},
)
SHARE = Kind(name="share", units={"%": 0.01}, example="12 %", mistaken={})
ANGLE = Kind(name="angle", units={"deg": math.pi / 180, "°": math.pi / 180, "rad": 1.0}, example="30 deg", mistaken={})
SPEED = Kind(
    name="speed",
    units={"m/s": 1.0, "km/h": 1 / 3.6, "kn": 1852 / 3600, "mph": 1609.344 / 3600},
    example="2.5 m/s or 5 kn",
    mistaken={},
)

_VULGAR = {
    "¼": "1/4",
    "½": "1/2",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⅓": "1/3",
    "⅔": "2/3",
}
_NUMBER = r"(?:\d+(?:\.\d+)?|\.\d+)"
_INCHES = rf"(?:(?:(?P<whole>\d+)(?:\s+|-))?(?P<num>\d+)\s*/\s*(?P<den>\d+)|(?P<decimal>{_NUMBER}))"
_FEET_INCHES = re.compile(
    rf"""(?P<sign>[-+]?)\s*(?:(?P<feet>{_NUMBER})\s*(?:'|ft\.?|feet|foot)\s*-?\s*)?(?:{_INCHES}\s*(?:"|in\.?|inch|inches))?""",
    re.IGNORECASE,
)
_PLAIN = re.compile(rf"(?P<number>[-+]?\s*{_NUMBER}(?:[eE][-+]?\d+)?)\s*(?P<unit>[^\d\s.,].*)?")


def read_quantity(text: str, kind: Kind) -> float:
    r"""A quantity as people write it, in SI.

    Parameters
    ----------
    text : str
        Number and unit, e.g. "863.6 mm", "34 1/2 in", "41 kgf". [text]
    kind : Kind
        What it must be. [record]

    Returns
    -------
    float
        The value in SI. [m, kg, N, Pa, kg/m3, 1, rad, m/s]

    Raises
    ------
    ValueError
        It cannot be read, with the reason and an example.

    Notes
    -----
    Source: 1 in = 25.4 mm and 1 lb = 0.45359237 kg exactly (international yard and pound, 1959).

    Examples
    --------
    >>> round(read_quantity("1'-7 3/16\"", LENGTH), 5)
    0.48736
    """
    clean = _plain_signs(text)
    if re.search(r"\d,\d", clean):
        raise ValueError(
            f"'{text}' holds a comma; write a decimal point and no separators between thousands, like {kind.example}"
        )
    if kind is LENGTH:
        length = _feet_and_inches(clean)
        if length is not None:
            return length
    match = _PLAIN.fullmatch(clean)
    if match is None:
        raise ValueError(f"'{text}' is not a {kind.name}; write it like {kind.example}")
    unit = (match["unit"] or "").strip()
    if not unit:
        raise ValueError(f"'{text}' has no unit; write it like {kind.example}")
    known = {name.lower(): factor for name, factor in kind.units.items()}
    compact = unit.lower().replace("³", "3").replace("²", "2").replace(" ", "").rstrip(".")
    if compact not in known:
        if compact in kind.mistaken:
            raise ValueError(f"'{text}': {unit} {kind.mistaken[compact]}")
        raise ValueError(f"'{text}': '{unit}' is not a unit of {kind.name}; write it like {kind.example}")
    return float(match["number"].replace(" ", "")) * known[compact]


def read_slope(text: str) -> float:
    """A slope of grain, "1:15" as rise over run.

    Parameters
    ----------
    text : str
        "1:15" or a share such as "6.7 %". [text]

    Returns
    -------
    float
        Rise over run. [1]

    Raises
    ------
    ValueError
        It cannot be read.

    Notes
    -----
    Source: common practice.

    Examples
    --------
    >>> round(read_slope("1:16"), 4)
    0.0625
    """
    match = re.fullmatch(rf"\s*({_NUMBER})\s*(?::|in)\s*({_NUMBER})\s*", text)
    if match and float(match[2]) > 0:
        return float(match[1]) / float(match[2])
    if text.strip().endswith("%"):
        return read_quantity(text, SHARE)
    raise ValueError(f"'{text}' is not a slope of grain; write rise and run like 1:15")


def _plain_signs(text: str) -> str:
    for sign, plain in {
        "′": "'",
        "’": "'",
        "″": '"',
        "”": '"',
        "''": '"',
        "−": "-",
        "–": "-",
        "\u00a0": " ",
        "\u202f": " ",
        **{k: f" {v}" for k, v in _VULGAR.items()},
    }.items():
        text = text.replace(sign, plain)
    return text.strip()


def _feet_and_inches(text: str) -> float | None:
    match = _FEET_INCHES.fullmatch(text)
    if match is None or not (match["feet"] or match["num"] or match["decimal"]):
        return None
    inches = 12 * float(match["feet"] or 0)
    if match["num"]:
        if int(match["den"]) == 0:
            raise ValueError(f"'{text}' divides by nothing; write the fraction of an inch like 3/16")
        inches += int(match["whole"] or 0) + float(Fraction(int(match["num"]), int(match["den"])))
    elif match["decimal"]:
        inches += float(match["decimal"])
    return (-1 if match["sign"] == "-" else 1) * inches * INCH


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
    return f"{_signed(round(float(length) * 1e3 + 0.0, 1), '.1f')} mm"


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
    return format(value, form).replace("-", "−") if round(value, 9) else format(0.0, form)


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
    metric, other = _metric(value, unit), _imperial(value, unit)
    return (other, metric) if display == "ft-in" and other else (metric, other)


def _metric(value: float, unit: str) -> str:
    if not math.isfinite(value):
        return "no limit" if value > 0 else "−∞"
    if unit == "Pa" and abs(value) >= 1e9:
        return f"{value / 1e9:.2f} GPa"
    if unit == "slope":
        return f"1:{1 / value:.3g}" if value else "straight"
    if unit == "1":
        return _signed(value, ".3f" if abs(value) < 10 else ".1f")
    factor, form, name = {
        "m": (1e3, ".1f", "mm"),
        "rad": (180 / math.pi, ".1f", "°"),
        "%": (100, ".1f", "%"),
        "Pa": (1e-6, ".1f", "MPa"),
        "m2": (1e4, ".0f", "cm²"),
        "kg": (1.0, ".1f" if abs(value) >= 9.995 else ".2f", "kg") if abs(value) >= 1 else (1e3, ".0f", "g"),
        "N": (1.0, ".1f", "N"),
        "N m": (1.0, ".1f", "N·m"),
        "N m2": (1.0, ".0f", "N·m²"),
        "kg m2": (1.0, ".3f", "kg·m²"),
        "kg/m3": (1.0, ".0f", "kg/m³"),
        "Hz": (1.0, ".2f", "Hz"),
    }[unit]
    return f"{_signed(value * factor, form)}{'' if name == '°' else ' '}{name}"


def _imperial(value: float, unit: str) -> str:
    if unit == "m":
        return feet_inches(value)
    if unit == "kg":
        return f"{_signed(value / POUND, '.2f' if abs(value) < 9 else '.0f')} lb"
    if unit == "N":
        return f"{_signed(value / POUND_FORCE, '.1f')} lbf"
    if unit == "m2":
        return f"{value / INCH**2:.0f} in²"
    return ""


def filled(text: str, quantities: Mapping[str, Quantity], display: Display = "mm") -> str:
    """A sentence with its gaps filled, each quantity in the reader's units.

    Parameters
    ----------
    text : str
        Sentence with named gaps. [text]
    quantities : mapping of Quantity
        What fills them. [any]
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
    return text.format(**{name: both(quantity, display)[0] for name, quantity in quantities.items()})
