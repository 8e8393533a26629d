"""Shop dimensions and back: the one place that knows millimetres, feet, inches, pounds and degrees.

The core works in m, N, Pa, kg, s and rad. Here what a builder writes is read, and what the core found is
written the way a builder reads it.
"""

from oarkit.units.read import (
    ANGLE,
    DENSITY,
    FORCE,
    INCH,
    LENGTH,
    MASS,
    MODULUS,
    SHARE,
    SPEED,
    Kind,
    read_quantity,
    read_slope,
)
from oarkit.units.show import Display, both, feet_inches, filled, millimetres

__all__ = [
    "ANGLE", "DENSITY", "FORCE", "INCH", "LENGTH", "MASS", "MODULUS", "SHARE", "SPEED",
    "Display", "Kind", "both", "feet_inches", "filled", "millimetres", "read_quantity", "read_slope",
]  # fmt: skip
