"""Torsion of plain sections by closed form, for floats and arrays alike.

The torsion constant J times the shear modulus is the torsion stiffness; a torque over the torsion modulus is the
greatest shear stress.
"""

from __future__ import annotations

import numpy as np

from oarkit.working import Array, BadDesign, Number, Quantity, formula

_ODD = np.arange(1.0, 20.0, 2.0)  #: terms of the series; each is e^-pi of the one before or less
_ZETA_5 = 1.0369277551433699  #: sum of 1/n^5
_ODD_FIFTHS = 31 / 32 * _ZETA_5  #: the same over odd n
END_LOSS = 64 / np.pi**5 * _ODD_FIFTHS  #: what the two ends of a long rectangle take from h b^3/3, in b^4: 0.210
_HANDBOOK = "St Venant; Wood Handbook FPL-GTR-282 (2021), eq. 9-9 to 9-11, 9-23, 9-24"


def _sides(thickness: Number, width: Number) -> tuple[Array, Array, Array]:
    """Long side, short side, and the arguments of the series on a new last axis."""
    long, short = np.maximum(thickness, width).astype(float), np.minimum(thickness, width).astype(float)
    return long, short, (_ODD * np.pi / 2) * np.asarray(long / short)[..., None]


@formula(
    "J = π t³ w³/(16 (t² + w²))", unit="m4",
    source=_HANDBOOK,
    where={"thickness": "t [m]", "width": "w [m]"},
)  # fmt: skip
def ellipse_torsion_constant(*, thickness: Number, width: Number) -> Number:
    r"""Torsion constant of an ellipse or a round.

    Parameters
    ----------
    thickness, width : float or array
        The two axes. [m]

    Returns
    -------
    float or array
        J. [m4]

    Notes
    -----
    Source: St Venant, exact; for a round π d⁴/32, Wood Handbook FPL-GTR-282 (2021), eq. 9-10.

    Examples
    --------
    >>> round(float(ellipse_torsion_constant(thickness=0.04, width=0.04) / (np.pi * 0.04**4 / 32)), 9)
    1.0
    """
    return np.pi * thickness**3 * width**3 / (16 * (thickness**2 + width**2))


@formula(
    "W = π a b²/16, a the longer axis, b the shorter", unit="m3",
    source=_HANDBOOK,
    where={"thickness": "t [m]", "width": "w [m]"},
)  # fmt: skip
def ellipse_torsion_modulus(*, thickness: Number, width: Number) -> Number:
    r"""Torque over the greatest shear stress of an ellipse or a round.

    Parameters
    ----------
    thickness, width : float or array
        The two axes. [m]

    Returns
    -------
    float or array
        Torsion modulus. [m3]

    Notes
    -----
    Source: St Venant, exact; for a round π d³/16, Wood Handbook FPL-GTR-282 (2021), eq. 9-23. The stress is greatest at
    the ends of the shorter axis.

    Examples
    --------
    >>> round(float(ellipse_torsion_modulus(thickness=0.04, width=0.02) / (np.pi * 0.04 * 0.02**2)), 4)
    0.0625
    """
    longer, shorter = np.maximum(thickness, width), np.minimum(thickness, width)
    modulus: Number = np.pi * longer * shorter**2 / 16
    return modulus


@formula(
    "J = h b³/3 (1 − 192 b/(π⁵ h) Σ tanh(n π h/(2 b))/n⁵), n odd, h the longer side, b the shorter", unit="m4",
    source=_HANDBOOK,
    where={"thickness": "t [m]", "width": "w [m]"},
)  # fmt: skip
def rectangle_torsion_constant(*, thickness: Number, width: Number) -> Number:
    r"""Torsion constant of a sharp rectangle.

    Parameters
    ----------
    thickness, width : float or array
        The two sides. [m]

    Returns
    -------
    float or array
        J. [m4]

    Notes
    -----
    Source: St Venant's series, summed to rounding error; Wood Handbook FPL-GTR-282 (2021), eq. 9-11, has it as h b³/φ.

    Examples
    --------
    >>> round(float(0.02**4 / rectangle_torsion_constant(thickness=0.02, width=0.02)), 3)
    7.114
    """
    long, short, at = _sides(thickness, width)
    rest = np.sum(2 / (np.exp(2 * np.minimum(at, 300.0)) + 1) / _ODD**5, axis=-1)  # 1 - tanh, summed
    constant: Number = long * short**3 / 3 - 64 / np.pi**5 * short**4 * (_ODD_FIFTHS - rest)
    return constant


@formula(
    "W = J/(b (1 − 8/π² Σ 1/(n² cosh(n π h/(2 b))))), n odd, h the longer side, b the shorter", unit="m3",
    source=_HANDBOOK,
    where={"thickness": "t [m]", "width": "w [m]"},
)  # fmt: skip
def rectangle_torsion_modulus(*, thickness: Number, width: Number) -> Number:
    r"""Torque over the greatest shear stress of a sharp rectangle.

    Parameters
    ----------
    thickness, width : float or array
        The two sides. [m]

    Returns
    -------
    float or array
        Torsion modulus. [m3]

    Notes
    -----
    Source: St Venant's series, summed to rounding error; Wood Handbook FPL-GTR-282 (2021), eq. 9-24, has it as β h b².
    The stress is greatest in the middle of the longer side.

    Examples
    --------
    >>> round(float(rectangle_torsion_modulus(thickness=0.02, width=0.02) / 0.02**3), 4)
    0.2082
    """
    _, short, at = _sides(thickness, width)
    rest = np.sum(1 / (_ODD**2 * np.cosh(np.minimum(at, 300.0))), axis=-1)
    constant = rectangle_torsion_constant(thickness=thickness, width=width)
    modulus: Number = constant / (short * (1 - 8 / np.pi**2 * rest))
    return modulus


@formula(
    "J = π (D⁴ − d⁴)/32", unit="m4",
    source=_HANDBOOK,
    where={"diameter": "D [m]", "bore": "d [m]"},
)  # fmt: skip
def bored_round_torsion_constant(*, diameter: Number, bore: Number) -> Number:
    r"""Torsion constant of a round loom bored along its axis.

    Parameters
    ----------
    diameter : float or array
        Outside. [m]
    bore : float or array
        Of the hole along the axis. [m]

    Returns
    -------
    float or array
        J. [m4]

    Raises
    ------
    BadDesign
        The bore is as wide as the loom.

    Notes
    -----
    Source: St Venant, exact.

    Examples
    --------
    >>> round(float(bored_round_torsion_constant(diameter=0.04, bore=0.02) / (np.pi * 0.04**4 / 32)), 4)
    0.9375
    """
    if np.any(np.asarray(bore) >= diameter):
        raise BadDesign(
            "a bore of {bore} leaves nothing of the loom",
            {"bore": Quantity(value=float(np.max(bore)), unit="m")},
        )
    return np.pi * (diameter**4 - bore**4) / 32


@formula(
    "W = π (D⁴ − d⁴)/(16 D)", unit="m3",
    source=_HANDBOOK,
    where={"diameter": "D [m]", "bore": "d [m]"},
)  # fmt: skip
def bored_round_torsion_modulus(*, diameter: Number, bore: Number) -> Number:
    r"""Torque over the greatest shear stress of a round loom bored along its axis.

    Parameters
    ----------
    diameter : float or array
        Outside. [m]
    bore : float or array
        Of the hole along the axis. [m]

    Returns
    -------
    float or array
        Torsion modulus. [m3]

    Raises
    ------
    BadDesign
        The bore is as wide as the loom.

    Notes
    -----
    Source: St Venant, exact.

    Examples
    --------
    >>> round(float(bored_round_torsion_modulus(diameter=0.04, bore=0.0) / (np.pi * 0.04**3 / 16)), 4)
    1.0
    """
    return 2 * bored_round_torsion_constant(diameter=diameter, bore=bore) / diameter
