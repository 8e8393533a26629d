"""Thole pins: what one pin stands, and what its hole in the rail stands."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from oarkit.wood.board import Board
from oarkit.working import Number, formula


@dataclass(frozen=True, slots=True, kw_only=True)
class TholeInputs:
    """A pair of thole pins. Lengths in m.

    The load arm is the height of the loom's axis above the top of the rail where the oar bears on the pin.
    """

    diameter: Number
    load_arm: Number
    hole_depth: Number
    board: Board
    apart: Number | None = None


@formula("M_t = F_p h_t", unit="N m", source="statics", where={"pin_force": "F_p [N]", "load_arm": "h_t [m]"})
def thole_moment(*, pin_force: Number, load_arm: Number) -> Number:
    """Bending moment of a thole pin at the top of the rail.

    Parameters
    ----------
    pin_force : float or array
        Fore and aft, all of it on one pin. [N]
    load_arm : float or array
        Loom axis above the top of the rail. [m]

    Returns
    -------
    float or array
        Bending moment. [N m]

    Notes
    -----
    Source: statics; in the drive one pin of the two bears everything.

    Examples
    --------
    >>> thole_moment(pin_force=600, load_arm=0.03)
    18.0
    """
    return pin_force * load_arm


@formula("σ = 32 M_t/(π d³)", unit="Pa", source="statics", where={"moment": "M_t [N m]", "diameter": "d [m]"})
def thole_bending(*, moment: Number, diameter: Number) -> Number:
    """Bending stress of a round pin.

    Parameters
    ----------
    moment : float or array
        At the top of the rail. [N m]
    diameter : float or array
        Of the pin there. [m]

    Returns
    -------
    float or array
        Stress along the pin. [Pa]

    Notes
    -----
    Source: statics; section modulus of a circle, Wood Handbook FPL-GTR-282 (2021), eq. 9-13.

    Examples
    --------
    >>> round(float(thole_bending(moment=np.pi, diameter=0.02)) / 1e6, 6)
    4.0
    """
    return 32 * moment / (np.pi * np.power(diameter, 3))


@formula(
    "d = (32 n M_t/(π F))^(1/3)", unit="m", source="statics",
    where={"moment": "M_t [N m]", "strength": "F [Pa]", "safety": "n [1]"},
)  # fmt: skip
def needed_diameter(*, moment: Number, strength: Number, safety: Number) -> Number:
    """Diameter at which a round pin just has a wanted safety ratio.

    Parameters
    ----------
    moment : float or array
        At the top of the rail. [N m]
    strength : float or array
        Adjusted lower 5 % bending strength. [Pa]
    safety : float or array
        Ratio that is wanted. [1]

    Returns
    -------
    float or array
        Diameter. [m]

    Notes
    -----
    Source: statics; `thole_bending` solved for the diameter.

    Examples
    --------
    >>> round(float(needed_diameter(moment=np.pi, strength=8e6, safety=2.0)), 6)
    0.02
    """
    return np.cbrt(32 * safety * np.asarray(moment) / (np.pi * np.asarray(strength)))[()]
