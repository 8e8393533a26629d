"""Subscripts and exponents of printed formulas, and sizes that stay on one line."""

from __future__ import annotations

import re

_SUB = re.compile(r"(?<=[A-Za-zβκσθδρωΣ'])_([A-Za-z0-9]+)")
_SUP = re.compile(r"\^(-?[A-Za-z0-9]+)")


def with_marks(escaped: str, *, sup: str = "sup") -> str:
    """Text that is already escaped, with L_i and x^2 set as subscript and exponent."""
    return _SUP.sub(rf"<{sup}>\1</{sup}>", _SUB.sub(r"<sub>\1</sub>", escaped))


def unbroken(text: str) -> str:
    """Text whose sizes do not break over a line: 4 3/16" and 58.7 mm are held together."""
    return re.sub(
        r"(?<=\d) (?=\d+/\d)|(?<=\d) (?=(?:mm|kg|g|N|lb|lbf|MPa|GPa|%|in|m|°)\b)|(?<=\d) (?=%)", "\u00a0", text
    )
