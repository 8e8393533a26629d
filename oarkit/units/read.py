"""Reads quantities the way people write them: number and unit, feet, inches and fractions."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

INCH = 0.0254
KNOT = 1852 / 3600  #: [m/s]
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
    units={
        "kg": 1.0, "g": 1e-3, "lb": POUND, "lbs": POUND, "oz": POUND / 16, "kilograms": 1.0, "kilos": 1.0,
        "pounds": POUND, "pound": POUND, "grams": 1e-3, "ounces": POUND / 16,
    },
    example="45 kg or 99 lb",
    mistaken={
        "kgf": "is a force; for a mass write kg", "lbf": "is a force; for a mass write lb",
        **dict.fromkeys(("n", "kn", "newtons"), "is a force; for a mass write kg"),
    },
)  # fmt: skip
FORCE = Kind(
    name="force",
    units={"N": 1.0, "kN": 1e3, "lbf": POUND_FORCE, "kgf": GRAVITY, "newtons": 1.0, "newton": 1.0},
    example="400 N, 90 lbf or 41 kgf",
    mistaken={
        **dict.fromkeys(("lb", "lbs", "pounds", "pound"), "is a mass; for a force write lbf"),
        **dict.fromkeys(("kg", "kilos", "kilograms", "g"), "is a mass; for a force write kgf or N"),
    },
)
MODULUS = Kind(
    name="modulus or stress",
    units={
        "GPa": 1e9, "MPa": 1e6, "kPa": 1e3, "Pa": 1.0, "N/mm2": 1e6, "psi": POUND_FORCE / INCH**2,
        "lbf/in2": POUND_FORCE / INCH**2, "ksi": 1e3 * POUND_FORCE / INCH**2,
    },
    example="10.8 GPa or 1570000 psi",
    mistaken={},
)  # fmt: skip
DENSITY = Kind(
    name="density",
    units={"kg/m3": 1.0, "kg/m^3": 1.0, "g/cm3": 1e3, "g/cc": 1e3, "lb/ft3": POUND / (12 * INCH) ** 3},
    example="430 kg/m3 or 27 lb/ft3",
    mistaken={},
)
SHARE = Kind(name="share", units={"%": 0.01, "percent": 0.01}, example="12 %", mistaken={})
ANGLE = Kind(
    name="angle",
    units={"deg": math.pi / 180, "°": math.pi / 180, "degrees": math.pi / 180, "rad": 1.0},
    example="30 deg",
    mistaken={},
)
SPEED = Kind(
    name="speed",
    units={"m/s": 1.0, "km/h": 1 / 3.6, "kn": KNOT, "knots": KNOT, "mph": 1609.344 / 3600},
    example="2.5 m/s or 5 kn",
    mistaken={},
)

_VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3"}
_SIGNS = {
    "′": "'", "’": "'", "‘": "'", "ʹ": "'", "ʺ": '"', "“": '"', "″": '"', "”": '"', "''": '"',
    "−": "-", "–": "-", "\u00a0": " ", "\u202f": " ",
    **{sign: f" {fraction}" for sign, fraction in _VULGAR.items()},
}  # fmt: skip
_LONGEST = 60  #: letters; a quantity is never longer
_NUMBER = r"(?:\d+(?:\.\d+)?|\.\d+)"
_INCHES = rf"(?:(?:(?P<whole>\d+)(?:\s+|-))?(?P<num>\d+)\s*/\s*(?P<den>\d+)|(?P<decimal>{_NUMBER}))"
_FEET_INCHES = re.compile(
    rf"""(?P<sign>[-+]?)\s*(?:(?P<feet>{_NUMBER})\s*(?:'|ft\.?|feet|foot)\s*-?\s*)?(?:{_INCHES}\s*(?P<mark>"|inches|inch|in\.?)?)?""",
    re.IGNORECASE,
)
_BARE_FRACTION = re.compile(r"[-+]?\s*(?:\d+(?:\s+|-))?\d+\s*/\s*\d+")
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
    clean = _plain_signs(text, kind.name, kind.example)
    if re.search(r"\d,\d", clean):
        raise ValueError(
            f"'{text}' holds a comma; write a decimal point and no separators between thousands, like {kind.example}"
        )
    length = _feet_and_inches(clean) if kind is LENGTH else None
    value = _number_and_unit(text, clean, kind) if length is None else length
    if not math.isfinite(value):
        raise ValueError(f"'{text}' is beyond all measure; write the {kind.name} like {kind.example}")
    return value


def _number_and_unit(text: str, clean: str, kind: Kind) -> float:
    if not clean:
        raise ValueError(f"nothing is written here; write it like {kind.example}")
    if (re.search(r"\d\s+\d+(?!\s*/)", clean) and kind is not LENGTH) or re.fullmatch(r"\d+(\s\d{3})+\s*[a-z]+", clean):
        raise ValueError(f"'{text}' holds a space between digits; write it like {kind.example}")
    match = _PLAIN.fullmatch(clean)
    if _BARE_FRACTION.fullmatch(clean) or (match and not match["unit"]):
        raise ValueError(f"'{text}' has no unit; write it like {kind.example}")
    if re.search(r"\d\s*/\s*\d", clean):
        raise ValueError(f"'{text}': fractions are read in inches only; write a decimal, like {kind.example}")
    if match is None:
        raise ValueError(f"'{text}' is not a {kind.name}; write it like {kind.example}")
    if re.search(r"\d", re.sub(r"(?<=[a-z^/])\d", "", match["unit"].lower())):
        raise ValueError(f"'{text}' is not one {kind.name}; write it like {kind.example}")
    unit = match["unit"].strip()
    known = {name.lower(): factor for name, factor in kind.units.items()}
    compact = unit.lower().replace("³", "3").replace("²", "2").replace(" ", "").rstrip(".")
    if compact in known and not unit.startswith("mP"):  # millipascal is not meant
        return float(match["number"].replace(" ", "")) * known[compact]
    if compact in kind.mistaken:
        raise ValueError(f"'{text}': {unit} {kind.mistaken[compact]}")
    raise ValueError(f"'{text}': '{unit}' is not a unit of {kind.name}; write it like {kind.example}")


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
    clean = _plain_signs(text, "slope of grain", "1:15")
    match = re.fullmatch(rf"({_NUMBER})\s*(?::|/|in)\s*({_NUMBER})", clean)
    share = re.fullmatch(rf"({_NUMBER})\s*%", clean)
    if match and float(match[2]) > 0:
        return float(match[1]) / float(match[2])
    if share:
        return float(share[1]) / 100
    raise ValueError(f"'{text}' is not a slope of grain; write rise and run like 1:15")


def _plain_signs(text: str, what: str, example: str) -> str:
    """The text with plain marks for the typographic ones; refused where it is far too long to be a quantity."""
    if len(text) > _LONGEST:
        raise ValueError(f"'{text[:24]}...' is far too long for a {what}; write it like {example}")
    for sign, plain in _SIGNS.items():
        text = text.replace(sign, plain)
    return text.strip()


def _feet_and_inches(text: str) -> float | None:
    match = _FEET_INCHES.fullmatch(text)
    inches_given = match is not None and bool(match["num"] or match["decimal"])
    if match is None or not (match["feet"] or (inches_given and match["mark"])):
        return None  # inches need their mark, unless feet stand before them
    inches = 12 * float(match["feet"] or 0)
    if match["num"]:
        if int(match["den"]) == 0:
            raise ValueError(f"'{text}' divides by nothing; write the fraction of an inch like 3/16")
        inches += int(match["whole"] or 0) + float(Fraction(int(match["num"]), int(match["den"])))
    elif match["decimal"]:
        inches += float(match["decimal"])
    if match["feet"] and inches >= 12 * (math.floor(float(match["feet"])) + 1) and float(match["feet"]) % 1 == 0:
        raise ValueError(f"'{text}' has twelve inches or more after its feet; write fewer inches, or inches alone")
    return (-1 if match["sign"] == "-" else 1) * inches * INCH
