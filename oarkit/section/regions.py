"""Regions of a section, each of one wood or hollow, bounded by curves over the width: what the mesh is made of.

A section is a list of regions. The first is the whole outline; later ones lie over earlier ones and are cut off where
the outline ends. y runs across the width, z through the thickness toward the aft face.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np

from oarkit.working import Array, BadDesign, Quantity

Curve: TypeAlias = Callable[[Array], Array]


@dataclass(frozen=True, slots=True, kw_only=True)
class Region:
    """A piece between two curves, lower(y) and upper(y), over left to right; a shear modulus of nil makes it hollow.

    ``kinks`` are places y where a curve has a corner. Sizes in m, moduli in Pa.
    """

    name: str
    left: float
    right: float
    lower: Curve
    upper: Curve
    modulus: float
    shear_modulus: float
    kinks: tuple[float, ...] = ()


def _positive(**sizes: float) -> None:
    """Refuse sizes that are nil or reversed."""
    for name, size in sizes.items():
        if not size > 0:
            raise BadDesign(f"the section's {name} is {{size}}; it must be more than nil", _metres(size=size))


def _metres(**sizes: float) -> dict[str, Quantity]:
    """Lengths to be named in a sentence."""
    return {name: Quantity(value=size, unit="m") for name, size in sizes.items()}


def _symmetric(half: Curve, *, y: float, z: float) -> tuple[Curve, Curve]:
    """Lower and upper curve of a shape that lies alike on both sides of the level z."""
    return lambda at: z - half(at - y), lambda at: z + half(at - y)


def ellipse(
    *, name: str, thickness: float, width: float, modulus: float, shear_modulus: float, y: float = 0.0, z: float = 0.0
) -> Region:
    """Round or elliptic region.

    Parameters
    ----------
    name : str
        What the piece is called. [text]
    thickness, width : float
        The two axes; equal for a round. [m]
    modulus, shear_modulus : float
        Of the wood. [Pa]
    y, z : float, optional
        Its centre. [m]

    Returns
    -------
    Region
        The region. [m, Pa]

    Raises
    ------
    BadDesign
        A size is nil or reversed.

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> loom = ellipse(name="loom", thickness=0.046, width=0.046, modulus=10e9, shear_modulus=0.6e9)
    >>> round(float(loom.upper(np.array(0.0))), 3)
    0.023
    """
    _positive(thickness=thickness, width=width)
    lower, upper = _symmetric(lambda at: thickness / 2 * np.sqrt(np.maximum(1 - (2 * at / width) ** 2, 0.0)), y=y, z=z)
    return Region(
        name=name, left=y - width / 2, right=y + width / 2, lower=lower, upper=upper,
        modulus=modulus, shear_modulus=shear_modulus,
    )  # fmt: skip


def rectangle(
    *,
    name: str,
    thickness: float,
    width: float,
    modulus: float,
    shear_modulus: float,
    corner: float = 0.0,
    y: float = 0.0,
    z: float = 0.0,
) -> Region:
    """Rectangular region, sharp or with round corners.

    Parameters
    ----------
    name : str
        What the piece is called. [text]
    thickness, width : float
        The two sides. [m]
    modulus, shear_modulus : float
        Of the wood. [Pa]
    corner : float, optional
        Radius of the corners. [m]
    y, z : float, optional
        Its centre. [m]

    Returns
    -------
    Region
        The region. [m, Pa]

    Raises
    ------
    BadDesign
        A size is nil or reversed, or the corners do not fit.

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> bar = rectangle(name="bar", thickness=0.03, width=0.05, corner=0.01, modulus=10e9, shear_modulus=0.6e9)
    >>> round(float(bar.upper(np.array(0.025))), 3)
    0.005
    """
    _positive(thickness=thickness, width=width)
    if not 0 <= corner <= min(thickness, width) / 2:
        raise BadDesign(
            "corners of radius {corner} do not fit a section of {thickness} by {width}",
            _metres(corner=corner, thickness=thickness, width=width),
        )
    flat = width / 2 - corner

    def half(at: Array) -> Array:
        into = np.minimum(np.maximum(np.abs(at) - flat, 0.0), corner)
        height: Array = thickness / 2 - corner + np.sqrt(corner**2 - into**2)
        return height

    lower, upper = _symmetric(half, y=y, z=z)
    return Region(
        name=name, left=y - width / 2, right=y + width / 2, lower=lower, upper=upper,
        modulus=modulus, shear_modulus=shear_modulus, kinks=(y - flat, y + flat) if corner else (),
    )  # fmt: skip


def two_slope_blade(
    *, name: str, thickness: float, edge: float, width: float, modulus: float, shear_modulus: float
) -> Region:
    """Blade section, thickest on its centre line and falling straight to both edges.

    Parameters
    ----------
    name : str
        What the piece is called. [text]
    thickness, edge : float
        Thickness on the centre line and at the edges. [m]
    width : float
        Edge to edge. [m]
    modulus, shear_modulus : float
        Of the wood. [Pa]

    Returns
    -------
    Region
        The region. [m, Pa]

    Raises
    ------
    BadDesign
        A size is nil or reversed.

    Notes
    -----
    Source: plane geometry.

    Examples
    --------
    >>> blade = two_slope_blade(
    ...     name="blade", thickness=0.014, edge=0.006, width=0.13, modulus=10e9, shear_modulus=0.6e9
    ... )
    >>> round(float(blade.upper(np.array(0.065))), 4)
    0.003
    """
    _positive(thickness=thickness, edge=edge, width=width)
    lower, upper = _symmetric(lambda at: thickness / 2 - (thickness - edge) * np.abs(at) / width, y=0.0, z=0.0)
    return Region(
        name=name, left=-width / 2, right=width / 2, lower=lower, upper=upper,
        modulus=modulus, shear_modulus=shear_modulus, kinks=(0.0,),
    )  # fmt: skip


def hollow(region: Region) -> Region:
    """The same region without wood: a bored hole, the inside of a box.

    Parameters
    ----------
    region : Region
        The shape of the hollow. [m, Pa]

    Returns
    -------
    Region
        With moduli of nil. [m, Pa]

    Notes
    -----
    Source: derived.

    Examples
    --------
    >>> bore = hollow(ellipse(name="bore", thickness=0.02, width=0.02, modulus=10e9, shear_modulus=0.6e9))
    >>> bore.shear_modulus
    0.0
    """
    return replace(region, modulus=0.0, shear_modulus=0.0)
